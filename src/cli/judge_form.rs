//! A problem file against its form: every field that is missing, unknown or of another kind, at once.

use crate::measure::FaultCode;
use serde_json::{Map, Value};

use super::json_places::{JsonPlaces, under};
use super::nest_form::{Field, Holds, PROBLEM};
use crate::order::{Fault, Severity, suggestion};

/// What stands in the way of reading a problem; nothing where only its numbers are left to judge.
pub(super) fn judge_form(file: &str, text: &str, document: &Value) -> Vec<Fault> {
    let mut judge = Judge::default();
    judge.object("", document, PROBLEM);
    if judge.said.is_empty() {
        return Vec::new();
    }
    let places = JsonPlaces::of(text);
    let placed = |said: Said| {
        let (line, column) = places.get(&said.at).unzip();
        let column = column.map_or_else(String::new, |c| format!("column {c}, "));
        Fault {
            severity: Severity::Error,
            code: said.code,
            file: file.to_owned(),
            sheet: None,
            line,
            cell: None,
            column: Some(format!("{column}{}", said.field)),
            value: said.value,
            what: said.what,
            mend: said.mend,
        }
    };
    judge.said.into_iter().map(placed).collect()
}

/// A fault of a field; what is missing is placed where its object begins.
struct Said {
    code: FaultCode,
    at: String,
    field: String,
    value: Option<String>,
    what: String,
    mend: String,
}

#[derive(Default)]
struct Judge {
    said: Vec<Said>,
}

impl Judge {
    fn say(
        &mut self,
        code: FaultCode,
        (at, field): (&str, &str),
        value: Option<&Value>,
        what: &str,
        mend: String,
    ) {
        self.said.push(Said {
            code,
            at: at.to_owned(),
            field: field.to_owned(),
            value: value.map(Value::to_string),
            what: what.to_owned(),
            mend,
        });
    }

    fn object(&mut self, path: &str, value: &Value, form: &[Field]) {
        let Some(object) = self.expect_object(path, value) else {
            return;
        };
        for field in form {
            let at = under(path, field.name);
            match object.get(field.name) {
                Some(inner) => self.field(&at, inner, field),
                None if field.needed => {
                    let what = format!("it is missing: {}", field.means);
                    let mend = format!("add \"{}\", {}", field.name, such(field.holds));
                    self.say(FaultCode::ValueMissing, (path, &at), None, &what, mend);
                }
                None => {}
            }
        }
        let names: Vec<&'static str> = form.iter().map(|f| f.name).collect();
        self.unknown(path, object, &names);
    }

    fn expect_object<'v>(
        &mut self,
        path: &str,
        value: &'v Value,
    ) -> Option<&'v Map<String, Value>> {
        if value.as_object().is_none() {
            let name = if path.is_empty() { "the file" } else { path };
            let mend = "write { ... } with its fields inside".to_owned();
            self.say(
                FaultCode::ValueUnreadable,
                (path, name),
                Some(value),
                "it is no object",
                mend,
            );
        }
        value.as_object()
    }

    fn unknown(&mut self, path: &str, object: &Map<String, Value>, names: &[&'static str]) {
        for name in object.keys().filter(|k| !names.contains(&k.as_str())) {
            let at = under(path, name);
            let mend = suggestion(name, names.iter().copied());
            self.say(
                FaultCode::HeadingUnknown,
                (&at, &at),
                None,
                "there is no such field here",
                mend,
            );
        }
    }

    fn field(&mut self, at: &str, value: &Value, field: &Field) {
        let fits = match field.holds {
            Holds::Whole => value.is_i64() || value.is_u64(),
            Holds::WholeOrNull => value.is_null() || value.is_i64() || value.is_u64(),
            Holds::Words => value.is_string(),
            Holds::YesNo => value.is_boolean(),
            Holds::One(form) => return self.object(at, value, form),
            Holds::OneOf(kinds) => return self.one_of(at, value, kinds),
            Holds::List(form) => match value.as_array() {
                Some(list) => {
                    for (i, inner) in list.iter().enumerate() {
                        self.object(&format!("{at}[{i}]"), inner, form);
                    }
                    true
                }
                None => false,
            },
        };
        if !fits {
            let what = format!("it is not {}: {}", such(field.holds), field.means);
            let mend = format!("write {}", such(field.holds));
            self.say(
                FaultCode::ValueUnreadable,
                (at, at),
                Some(value),
                &what,
                mend,
            );
        }
    }

    fn one_of(&mut self, at: &str, value: &Value, kinds: &[(&'static str, &'static [Field])]) {
        let Some(object) = self.expect_object(at, value) else {
            return;
        };
        let names: Vec<&'static str> = kinds.iter().map(|(name, _)| *name).collect();
        self.unknown(at, object, &names);
        let known = kinds
            .iter()
            .filter_map(|(name, form)| Some((name, object.get(*name)?, form)));
        let known: Vec<_> = known.collect();
        for (name, inner, form) in &known {
            self.object(&under(at, name), inner, form);
        }
        if known.len() != 1 {
            let what = format!("it holds {} kinds of charge, not one", known.len());
            let mend = format!("write one of {}", names.join(", "));
            self.say(FaultCode::ValueUnreadable, (at, at), None, &what, mend);
        }
    }
}

/// What a field holds, in words.
fn such(holds: Holds) -> &'static str {
    match holds {
        Holds::Whole => "a whole number",
        Holds::WholeOrNull => "a whole number or null",
        Holds::Words => "a text in quotes",
        Holds::YesNo => "true or false",
        Holds::List(_) => "a list [ ... ]",
        Holds::One(_) | Holds::OneOf(_) => "an object { ... }",
    }
}
