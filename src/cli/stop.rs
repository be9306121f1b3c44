//! Ctrl-C: the first one asks the search to end with the best plan it has, the second one quits.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::nest::Watch;

/// A request to stop, raised by Ctrl-C.
#[derive(Clone, Default)]
pub(super) struct Stop {
    asked: Arc<AtomicBool>,
}

impl Stop {
    /// Listens for Ctrl-C from now on. Where no handler can be set, Ctrl-C quits as ever.
    pub fn listening() -> Stop {
        let stop = Stop::default();
        let asked = stop.asked.clone();
        let _ = ctrlc::set_handler(move || {
            if asked.swap(true, Ordering::SeqCst) {
                std::process::exit(130);
            }
        });
        stop
    }
}

impl Watch for Stop {
    fn stop_requested(&self) -> bool {
        self.asked.load(Ordering::SeqCst)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn asks_only_after_a_request() {
        let stop = Stop::default();
        assert!(!stop.stop_requested());
        stop.asked.store(true, Ordering::SeqCst);
        assert!(stop.stop_requested());
    }
}
