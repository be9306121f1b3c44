//! `PipeKey`: the name of a pipe that outlives one run.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::Pipe;

/// OD, wall, grade and finish as one text. Two weeks that mean one pipe write one key, whatever trade
/// name each gives it and in whatever unit it was entered.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PipeKey(pub String);

impl fmt::Display for PipeKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl Pipe {
    /// `60.325 x 3.9116 mm, 30 ksi, galvanized`: the dimensions in exact millimetres.
    pub fn key(&self) -> PipeKey {
        PipeKey(format!(
            "{} x {} mm, {}, {}",
            self.od.exact_mm(),
            self.wall.exact_mm(),
            self.grade,
            self.finish
        ))
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use crate::measure::Dimension;
    use crate::order::Pipe;

    /// `Pipe::same_key` says when two pipes share joints; the key must say the same.
    #[test]
    fn two_keys_are_equal_just_where_the_pipes_share_joints() {
        let pipe = |name: &str, od: Dimension, finish: &str| Pipe {
            name: name.to_owned(),
            od,
            wall: Dimension::mm(Decimal::new(26, 1)),
            standard: String::new(),
            grade: "30 ksi".to_owned(),
            finish: finish.to_owned(),
            yield_strength: None,
        };
        let all = [
            pipe("one inch", Dimension::inch(Decimal::ONE), "black"),
            pipe("25.4", Dimension::mm(Decimal::new(2540, 2)), "black"),
            pipe("48.3", Dimension::mm(Decimal::new(483, 1)), "black"),
            pipe("1.900", Dimension::inch(Decimal::new(1900, 3)), "black"),
            pipe("25.4", Dimension::mm(Decimal::new(254, 1)), "galvanized"),
        ];
        for a in &all {
            for b in &all {
                assert_eq!(a.key() == b.key(), a.same_key(b), "{} {}", a.key(), b.key());
            }
        }
        assert_eq!(all[0].key().to_string(), "25.4 x 2.6 mm, 30 ksi, black");
    }
}
