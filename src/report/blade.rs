//! Where the blade stands at each mark, in words: the one source for every sheet.
//!
//! The near trim has its own kerf inside, so its cut ends at its mark; every later kerf begins at its
//! mark. With the blade on the wrong side of the trim's mark the first piece is one kerf short.

/// The side of the near trim's mark on which the blade stands.
pub(super) const TRIM_SIDE: &str = "near";
/// The side of every other mark.
pub(super) const CUT_SIDE: &str = "far";

/// The rule, as a sentence; `trimmed` where some raw end is trimmed at all.
pub(super) fn blade_rule(trimmed: bool) -> &'static str {
    match trimmed {
        true => {
            "The trim cut stands on the NEAR side of its mark, every other cut on the FAR side of its \
             mark; the marks carry every kerf."
        }
        false => "Every cut stands on the FAR side of its mark; the marks carry every kerf.",
    }
}

/// What stands beside a near trim's mark.
pub(super) const AT_TRIM: &str = "blade NEAR side";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_name_both_sides() {
        for (trimmed, side) in [(true, TRIM_SIDE), (true, CUT_SIDE), (false, CUT_SIDE)] {
            let side = format!("{} side", side.to_uppercase());
            assert!(blade_rule(trimmed).contains(&side), "{side}");
        }
        assert!(AT_TRIM.contains(&TRIM_SIDE.to_uppercase()));
    }
}
