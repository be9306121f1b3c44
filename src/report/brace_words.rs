//! The sway brace in words: its arc, how high it stands, where it begins and ends. The same on every sheet.

use crate::gate::{Frame, Role};
use crate::order::Week;

use super::figures::Figures;

/// Arc, chord and rise; the height of its axis; its end points. `None` for a gate without a brace.
pub(super) fn brace_words(week: &Week, frame: &Frame) -> Option<String> {
    let figures = Figures::of(week);
    let sway = frame.sway.as_ref()?;
    let brace = frame.members.iter().find(|m| m.role == Role::SwayBrace)?;
    let radius = (frame.height - frame.axis_height) / 2.0;
    let past = week.shop.sway.end_allowance.geometric();
    let say = |ticks: f64| figures.spoken_of(ticks);
    let beyond = if past > 0.0 {
        format!(", the pipe running {} past each", say(past))
    } else {
        String::new()
    };
    Some(format!(
        "Arc {} on a chord of {}, rise {} in the middle, on the face away from the supports. Its axis \
         stands {} above the bottom horizontal's outside face; it ends on the end posts' axes, {} and {} from \
         the latch end{beyond}. Standoffs on the verticals, never on the horizontals.",
        say(sway.length),
        say(sway.chord),
        say(sway.rise),
        say(brace.start.y + radius),
        say(brace.start.x),
        say(brace.end.x),
    ))
}
