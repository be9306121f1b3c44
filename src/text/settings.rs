//! `Settings`: TOML → a tree whose every entry remembers its line. Numbers stay as written.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::decode::line_at;
use super::{Snag, SourceFile, decode};

/// A value as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A string.
    Text(String),
    /// A number, digits as written (underscores dropped).
    Number(String),
    /// true or false.
    Bool(bool),
    /// A date or time, as written.
    Date(String),
    /// A list.
    List(Vec<Item>),
    /// A table.
    Table(Vec<Entry>),
    /// Something on a line that could not be read (a snag says so).
    Unread,
}

/// One value of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// 1-based line.
    pub line: u32,
    /// The value.
    pub value: Value,
}

/// One key and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// 1-based line of the key.
    pub line: u32,
    /// The value.
    pub value: Value,
}

/// A settings file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// File name.
    pub file: String,
    /// Top-level entries in file order.
    pub root: Vec<Entry>,
    /// What could not be read; what could is in `root` all the same.
    pub snags: Vec<Snag>,
}

impl Settings {
    /// Reads a file, going on past what cannot be read.
    pub fn read(file: &SourceFile) -> Settings {
        let decoded = decode(&file.bytes);
        let text = decoded.text;
        let mut snags = decoded.snags;
        let (table, errors) = DeTable::parse_recoverable(&text);
        for e in &errors {
            let line = e.span().map(|s| line_at(&text, s.start));
            let what = format!("the settings cannot be read here: {}", e.message());
            snags.push(Snag::stop(line, &what, mend(e.message())));
        }
        let broken: Vec<u32> = snags.iter().filter_map(|s| s.line).collect();
        let mut root = match with_headers_closed(&text, &broken) {
            Some(mended) => entries(DeTable::parse_recoverable(&mended).0.get_ref(), &mended),
            None => entries(table.get_ref(), &text),
        };
        if !errors.is_empty() {
            blank(&mut root, &broken);
        }
        Settings {
            file: file.name.clone(),
            root,
            snags,
        }
    }
}

/// How to mend what the reader of settings stumbled over.
fn mend(message: &str) -> &'static str {
    if message.contains("duplicate") {
        return "it is set above already: take one of the two away";
    }
    "write `key = value`; words and feet-inch lengths in quotation marks (for 10'-6\" use '''10'-6\"''' or \"10ft 6in\")"
}

/// The text with `]` put behind every unclosed `[header` among the broken lines, so that the settings
/// under it are read as its own; `None` when there is none. Lines stay where they are.
fn with_headers_closed(text: &str, broken: &[u32]) -> Option<String> {
    let unclosed = |line: &str| line.trim_start().starts_with('[') && !line.contains(']');
    let mut any = false;
    let mended: Vec<String> = (1u32..)
        .zip(text.split('\n'))
        .map(|(number, line)| {
            if !broken.contains(&number) || !unclosed(line) {
                return line.to_owned();
            }
            any = true;
            let opened = line.trim_start().chars().take_while(|c| *c == '[').count();
            format!("{}{}", line.trim_end(), "]".repeat(opened))
        })
        .collect();
    any.then(|| mended.join("\n"))
}

/// What recovery made of a broken line is nothing the user wrote.
fn blank(entries: &mut [Entry], broken: &[u32]) {
    for e in entries {
        match &mut e.value {
            Value::Table(inner) => blank(inner, broken),
            Value::List(items) => {
                for item in items {
                    if let Value::Table(inner) = &mut item.value {
                        blank(inner, broken);
                    }
                }
            }
            value if broken.contains(&e.line) => *value = Value::Unread,
            _ => {}
        }
    }
}

fn entries(table: &DeTable<'_>, text: &str) -> Vec<Entry> {
    let mut found: Vec<(usize, Entry)> = table
        .iter()
        .map(|(key, value)| {
            let entry = Entry {
                key: key.get_ref().to_string(),
                line: line_at(text, key.span().start),
                value: value_of(value, text),
            };
            (key.span().start, entry)
        })
        .collect();
    found.sort_by(|a, b| (a.0, &a.1.key).cmp(&(b.0, &b.1.key)));
    found.into_iter().map(|(_, e)| e).collect()
}

fn value_of(value: &Spanned<DeValue<'_>>, text: &str) -> Value {
    match value.get_ref() {
        DeValue::String(s) => Value::Text(s.to_string()),
        DeValue::Integer(i) if i.radix() == 10 => Value::Number(i.as_str().replace('_', "")),
        DeValue::Integer(i) => match i128::from_str_radix(i.as_str(), i.radix()) {
            Ok(n) => Value::Number(n.to_string()),
            Err(_) => Value::Number(i.as_str().to_owned()),
        },
        DeValue::Float(f) => Value::Number(f.as_str().replace('_', "")),
        DeValue::Boolean(b) => Value::Bool(*b),
        DeValue::Datetime(d) => Value::Date(d.to_string()),
        DeValue::Array(items) => Value::List(
            items
                .iter()
                .map(|v| Item {
                    line: line_at(text, v.span().start),
                    value: value_of(v, text),
                })
                .collect(),
        ),
        DeValue::Table(t) => Value::Table(entries(t, text)),
    }
}

impl Value {
    /// The value as the user would write it, for messages.
    pub fn shown(&self) -> String {
        match self {
            Value::Text(t) | Value::Number(t) | Value::Date(t) => t.clone(),
            Value::Bool(b) => b.to_string(),
            Value::List(items) => {
                let inner: Vec<String> = items.iter().map(|i| i.value.shown()).collect();
                format!("[{}]", inner.join(", "))
            }
            Value::Table(_) => "{…}".to_owned(),
            Value::Unread => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Settings {
        Settings::read(&SourceFile {
            name: "t.toml".into(),
            bytes: text.as_bytes().to_vec(),
        })
    }

    #[test]
    fn keeps_lines_and_digits() {
        let s = read("a = 1\r\n[saw]\r\n# kerf\r\nkerf = 0.100\n[[pipe]]\nname = \"x\"\n");
        let keys: Vec<(&str, u32)> = s.root.iter().map(|e| (e.key.as_str(), e.line)).collect();
        assert_eq!(keys, [("a", 1), ("saw", 2), ("pipe", 5)]);
        let Value::Table(saw) = &s.root[1].value else {
            panic!("a table");
        };
        assert_eq!(saw[0].line, 4);
        assert_eq!(saw[0].value, Value::Number("0.100".into()));
    }

    /// The only fault is the header itself: what stands under it is still its own.
    #[test]
    fn an_unclosed_header_keeps_its_settings() {
        for header in ["[splice", "[[splice", "  [splice  "] {
            let s = read(&format!(
                "[saw]\nsaws = 1\n{header}\ncost = 40\n[money]\ncurrency = \"$\"\n"
            ));
            assert_eq!(s.snags.len(), 1, "{header}: {:?}", s.snags);
            assert_eq!(s.snags[0].line, Some(3));
            let keys: Vec<&str> = s.root.iter().map(|e| e.key.as_str()).collect();
            assert_eq!(keys, ["saw", "splice", "money"], "{header}");
        }
    }

    #[test]
    fn goes_on_past_what_it_cannot_read() {
        let s = read("a = \nb = 2\nc = 10'-6\"\n");
        assert!(s.snags.len() >= 2, "{:?}", s.snags);
        assert_eq!(s.snags[0].line, Some(1));
        assert!(s.root.iter().any(|e| e.key == "b"));
    }
}
