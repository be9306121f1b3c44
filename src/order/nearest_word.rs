//! "Did you mean": the nearest of the words that would have been right.

/// Lower case; spaces, underscores and hyphens alike.
pub(super) fn fold(text: &str) -> String {
    let mut out = String::new();
    for c in text.trim().chars() {
        if c.is_whitespace() || c == '_' || c == '-' {
            if !out.ends_with('_') {
                out.push('_');
            }
        } else {
            out.extend(c.to_lowercase());
        }
    }
    out.trim_matches('_').to_owned()
}

/// From here on a word is near.
pub(super) const NEAR: f64 = 0.6;

/// The word that was meant, where one is as near as `least` (1: equal).
pub(super) fn near<'a>(
    written: &str,
    words: impl IntoIterator<Item = &'a str>,
    least: f64,
) -> Option<&'a str> {
    let written = fold(written);
    let words = words.into_iter().map(|w| (nearness(&written, &fold(w)), w));
    let best = words.max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(a.1)));
    best.filter(|(near, _)| *near >= least)
        .map(|(_, word)| word)
}

/// `did you mean X?` or the whole list when nothing is near.
pub(crate) fn suggestion<'a>(written: &str, words: impl IntoIterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.into_iter().collect();
    match near(written, words.iter().copied(), NEAR) {
        Some(word) => format!("did you mean \"{word}\"?"),
        None if words.is_empty() => "take it away".to_owned(),
        None => format!("known here: {}", words.join(", ")),
    }
}

/// 1 for equal words: edits (swaps count one) against length; a start of three letters is near.
fn nearness(written: &str, word: &str) -> f64 {
    let starts = written.chars().count() >= 3 && word.starts_with(written);
    let near = strsim::normalized_damerau_levenshtein(written, word);
    if starts { near.max(0.6) } else { near }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folds_case_and_joiners() {
        assert_eq!(fold(" End-Post  "), "end_post");
        assert_eq!(fold("End  _ post"), "end_post");
    }

    #[test]
    fn suggests_the_near_word_or_lists_all() {
        assert_eq!(
            suggestion("openning", ["opening", "height"]),
            "did you mean \"opening\"?"
        );
        assert_eq!(
            suggestion("dia", ["vertical", "diagonal"]),
            "did you mean \"diagonal\"?"
        );
        assert_eq!(
            suggestion("colour", ["opening", "height"]),
            "known here: opening, height"
        );
    }
}
