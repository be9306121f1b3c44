//! A workbook's zip, judged before it is opened: what it unpacks to, and what it says of itself.
//!
//! The reading library sets memory aside by a number that the file states, so the number is held
//! against what is there.

use std::io::{Cursor, Read};

use zip::ZipArchive;

/// No list of a week's work unpacks to more.
const LARGEST: u64 = 128 * 1024 * 1024;
/// The attribute by which the reading library sets memory aside.
const COUNT: &[u8] = b"uniqueCount";
/// The least room one text takes: `<si/>`.
const LEAST_TEXT: usize = 5;

/// Whether the zip can be opened safely; else why not, in words for the user.
pub(super) fn judge(bytes: &[u8]) -> Result<(), &'static str> {
    const DAMAGED: &str = "its contents are damaged";
    let mut zip = ZipArchive::new(Cursor::new(bytes)).map_err(|_| DAMAGED)?;
    let mut left = LARGEST;
    let mut part = Vec::new();
    for at in 0..zip.len() {
        part.clear();
        let packed = zip.by_index(at).map_err(|_| DAMAGED)?;
        let size = packed.take(left + 1).read_to_end(&mut part);
        left = u64::try_from(size.map_err(|_| DAMAGED)?)
            .ok()
            .and_then(|size| left.checked_sub(size))
            .ok_or("it unpacks to more than 128 MB: that is no list of a week's work")?;
        if stated_texts(&part) > part.len() / LEAST_TEXT {
            return Err("it states more texts than it holds");
        }
    }
    Ok(())
}

/// The largest count of texts that a part states; 0 when none.
fn stated_texts(part: &[u8]) -> usize {
    let places = part.windows(COUNT.len()).enumerate();
    let found = places
        .filter(|(_, w)| *w == COUNT)
        .map(|(at, _)| at + COUNT.len());
    let count = |at: usize| {
        let after = part.get(at..).unwrap_or_default().iter();
        let digits = after
            .skip_while(|b| !b.is_ascii_digit() && **b != b'>')
            .take_while(|b| b.is_ascii_digit());
        digits.fold(0_usize, |n, b| {
            n.saturating_mul(10).saturating_add(usize::from(b - b'0'))
        })
    };
    found.map(count).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_count_of_texts_is_found_as_stated() {
        let count = |text: &str| stated_texts(text.as_bytes());
        assert_eq!(count("<sst count=\"9\" uniqueCount=\"7\">"), 7);
        assert_eq!(count("<sst uniqueCount = '12'><a uniqueCount='3'>"), 12);
        assert_eq!(
            count("<sst uniqueCount=\"999999999999999999999999\">"),
            usize::MAX
        );
        assert_eq!(count("<sst count=\"9\">"), 0);
        assert_eq!(count("uniqueCount"), 0);
    }
}
