//! Running a search on so many threads.

use super::failure::Failure;

/// Runs `work` on so many threads, or on as many as the machine has. Changes the time, never the answer.
///
/// # Errors
/// The machine gives no such number of threads.
pub(super) fn with_threads<T: Send>(
    threads: Option<u16>,
    work: impl FnOnce() -> T + Send,
) -> Result<T, Failure> {
    let Some(threads) = threads else {
        return Ok(work());
    };
    rayon::ThreadPoolBuilder::new()
        .num_threads(usize::from(threads))
        .build()
        .map(|pool| pool.install(work))
        .map_err(|e| Failure::internal(format!("--threads {threads}: {e}.")))
}
