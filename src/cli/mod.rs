//! The argument table and the only place that touches files.
//!
//! `main.rs` hands the arguments over and gets an exit code back: 0 done; 1 the disk or the checker
//! refused; 2 bad input or impossible work, nothing written; 3 done in part (`--partial`).

mod arguments;
mod coin;
mod compare_week;
mod cut_now;
mod drawing_file;
mod durable;
mod failure;
mod json_places;
mod judge_form;
mod list_parts;
mod nest_file;
mod nest_form;
mod nest_missing;
mod nest_text;
mod new_week;
mod plan_week;
mod refusals;
mod results_folder;
mod run;
mod splice_gate;
mod stop;
mod stray_files;
mod teller;
mod threads;
mod voice;
mod week_folder;

pub use failure::code;
pub use run::run;
pub use voice::Voice;
