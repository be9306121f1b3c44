//! Where the values of a JSON text stand: line and column by path.

use std::collections::BTreeMap;

/// Line and column, from 1, of every value by its path (`pools[0].name`; the whole: empty).
pub(super) struct JsonPlaces(BTreeMap<String, (u32, u32)>);

impl JsonPlaces {
    /// Of a text that a JSON reader has taken, so that its form and its depth are sound.
    pub fn of(text: &str) -> JsonPlaces {
        let mut walk = Walk {
            bytes: text.as_bytes(),
            at: 0,
            line: 1,
            line_start: 0,
            places: BTreeMap::new(),
        };
        walk.value("");
        JsonPlaces(walk.places)
    }

    /// Where the value of that path begins.
    pub fn get(&self, path: &str) -> Option<(u32, u32)> {
        self.0.get(path).copied()
    }
}

struct Walk<'a> {
    bytes: &'a [u8],
    at: usize,
    line: u32,
    line_start: usize,
    places: BTreeMap<String, (u32, u32)>,
}

impl Walk<'_> {
    fn peek(&self) -> u8 {
        self.bytes.get(self.at).copied().unwrap_or(b'}')
    }

    fn skip_space(&mut self) {
        while let Some(byte) = self.bytes.get(self.at) {
            match byte {
                b'\n' => {
                    self.line += 1;
                    self.line_start = self.at + 1;
                }
                b' ' | b'\t' | b'\r' | b',' | b':' => {}
                _ => return,
            }
            self.at += 1;
        }
    }

    /// A quoted text, both quotes included.
    fn quoted(&mut self) -> String {
        let start = self.at;
        self.at += 1;
        while self.at < self.bytes.len() && self.peek() != b'"' {
            self.at += if self.peek() == b'\\' { 2 } else { 1 };
        }
        self.at = (self.at + 1).min(self.bytes.len());
        String::from_utf8_lossy(&self.bytes[start..self.at]).into_owned()
    }

    fn value(&mut self, path: &str) {
        self.skip_space();
        let column = u32::try_from(self.at - self.line_start + 1).unwrap_or(u32::MAX);
        self.places.insert(path.to_owned(), (self.line, column));
        match self.peek() {
            b'{' => self.inside(b'}', |walk, _| {
                let name = walk.quoted();
                let name: String = serde_json::from_str(&name).unwrap_or(name);
                walk.value(&under(path, &name));
            }),
            b'[' => self.inside(b']', |walk, index| walk.value(&format!("{path}[{index}]"))),
            b'"' => {
                self.quoted();
            }
            _ => {
                let more = |b: &u8| !b.is_ascii_whitespace() && !b",]}".contains(b);
                let rest = self.bytes.get(self.at..).unwrap_or_default();
                self.at += rest.iter().take_while(|b| more(b)).count();
            }
        }
    }

    /// The members of an object or a list, up to its closing sign.
    fn inside(&mut self, end: u8, mut member: impl FnMut(&mut Self, usize)) {
        self.at += 1;
        for index in 0.. {
            self.skip_space();
            if self.peek() == end || self.at >= self.bytes.len() {
                break;
            }
            member(self, index);
        }
        self.at += 1;
    }
}

/// The path of a field.
pub(super) fn under(path: &str, name: &str) -> String {
    if path.is_empty() {
        name.to_owned()
    } else {
        format!("{path}.{name}")
    }
}

#[cfg(test)]
mod tests {
    use super::JsonPlaces;

    #[test]
    fn values_are_found_by_line_and_column() {
        let text = "{\n \"a\": [1, {\"b\\\"}\": \"x,]\"}],\n\t\"c\": {}\n}\n";
        let places = JsonPlaces::of(text);
        for (path, at) in [
            ("", (1, 1)),
            ("a", (2, 7)),
            ("a[0]", (2, 8)),
            ("a[1]", (2, 11)),
            ("a[1].b\"}", (2, 20)),
            ("c", (3, 7)),
        ] {
            assert_eq!(places.get(path), Some(at), "{path}");
        }
        assert_eq!(places.get("a[2]"), None);
    }
}
