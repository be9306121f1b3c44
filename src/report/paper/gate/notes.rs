//! Fit-up notes.

use crate::gate::Frame;
use crate::order::{Lean, Variant};
use crate::report::paper::desk::Desk;

/// Order of fit-up: common practice, no source.
pub fn fit_up(desk: &Desk, frame: &Frame, spliced: bool) -> Vec<String> {
    let mut out = Vec::new();
    if spliced {
        out.push(String::from("Weld and dress the splices first, horizontals lying straight; scribe lines of the pieces in one line."));
    }
    out.push(String::from("Lay both horizontals straight to a string before anything is tacked; straight comes before square."));
    out.push(String::from(match frame.variant {
        Variant::PostsRunPast => "Seat the horizontals on the end posts, then the verticals on their bay lines; tack.",
        Variant::Through => "Seat the end posts between the horizontals, then the verticals on their bay lines; tack.",
    }));
    out.push(String::from(match frame.lean {
        Lean::HeadToTail => "Diagonals all lean one way: foot on the bottom horizontal at the latch side of the bay, head at the tail side. Tack.",
        Lean::HeadToLatch => "Diagonals all lean one way: head at the latch side of the bay, foot on the bottom horizontal at the tail side. Tack.",
    }));
    out.push(format!(
        "Square it: both corner measures {} before welding out.",
        desk.geometry(frame.check_measure)
    ));
    out.push(String::from("Weld out at alternate ends and faces so that the heat does not bow the leaf; check straight and square again."));
    out
}
