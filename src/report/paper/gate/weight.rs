//! The lifting weight and the centre of gravity, in words that say what they include.

use crate::gate::Frame;
use crate::part::{GateWeight, gate_weight};
use crate::report::paper::desk::Desk;

/// Weight, what it includes, and where the leaf balances.
pub fn words(desk: &Desk, frame: &Frame) -> String {
    let Some(w) = gate_weight(desk.week, desk.take_off, frame.gate) else {
        return String::from("weight not known");
    };
    let centre = desk.geometry(w.centre_of_gravity.x);
    format!(
        "weight {} ({}) · centre of gravity {centre} from the latch end",
        desk.weight(w.total),
        includes(&w)
    )
}

fn includes(w: &GateWeight) -> String {
    let rest = [
        (w.zinc, "zinc"),
        (w.fabric, "fabric"),
        (w.hardware, "hardware"),
    ];
    let given = |known: bool| -> Vec<&str> {
        let pick = rest.iter().filter(|(v, _)| v.is_some() == known);
        pick.map(|(_, name)| *name).collect()
    };
    let mut words = vec!["bare pipe"];
    words.extend(given(true));
    let missing = given(false);
    match missing.is_empty() {
        true => words.join(" + "),
        false => format!("{}; not given: {}", words.join(" + "), missing.join(", ")),
    }
}
