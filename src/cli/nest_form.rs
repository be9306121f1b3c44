//! The form of a problem file, field by field. What a file lacks, has too much of or has in another kind is
//! told all at once, with what each field means; `data/cutting_lists.md` shows the same table.

/// What a field holds.
#[derive(Clone, Copy)]
pub(super) enum Holds {
    /// A whole number.
    Whole,
    /// A whole number, or null for none.
    WholeOrNull,
    /// Words.
    Words,
    /// true or false.
    YesNo,
    /// One object of this form.
    One(&'static [Field]),
    /// A list of objects of this form.
    List(&'static [Field]),
    /// An object with one of these, which is of the form beside it.
    OneOf(&'static [(&'static str, &'static [Field])]),
}

/// One field.
pub(super) struct Field {
    /// As written in the file.
    pub name: &'static str,
    /// The file must have it.
    pub needed: bool,
    /// What stands there.
    pub holds: Holds,
    /// What it means.
    pub means: &'static str,
}

const fn must(name: &'static str, holds: Holds, means: &'static str) -> Field {
    Field {
        name,
        needed: true,
        holds,
        means,
    }
}

const fn may(name: &'static str, holds: Holds, means: &'static str) -> Field {
    Field {
        needed: false,
        ..must(name, holds, means)
    }
}

use Holds::{List, One, OneOf, Whole, WholeOrNull, Words, YesNo};

/// The whole file.
pub(super) const PROBLEM: &[Field] = &[
    may(
        "aim",
        Words,
        "what is to be least: money (unless said), joints, waste or splices, money second",
    ),
    must(
        "pools",
        List(POOL),
        "all work of one kind of bar each; nothing passes between them",
    ),
    may(
        "charges",
        List(CHARGE),
        "what suppliers charge over sets of stocks",
    ),
];

const POOL: &[Field] = &[
    must("name", Words, "a name of its own"),
    must(
        "mark",
        Whole,
        "every piece of a spliced line is a whole multiple of it",
    ),
    must(
        "kerf",
        Whole,
        "what the saw eats between two pieces of a bar",
    ),
    must("credit", One(CREDIT), "what a kept drop is worth"),
    must("stocks", List(STOCK), "the bars to cut from"),
    must("items", List(ITEM), "the plain pieces wanted"),
    may("groups", List(GROUP), "the lines that may be spliced"),
];

const CREDIT: &[Field] = &[
    must("keep", Whole, "the shortest drop that is worth anything"),
    must(
        "foot",
        Whole,
        "the length that is paid for: whole ones of a drop count",
    ),
    must(
        "per_foot",
        Whole,
        "money for each of them (0: drops are worth nothing)",
    ),
];

const STOCK: &[Field] = &[
    must("name", Words, "a name of its own in the pool"),
    must("usable", Whole, "what pieces and kerfs may fill"),
    must(
        "length",
        Whole,
        "the length of the bar, for the aim waste and for reports",
    ),
    must("cost", Whole, "money for taking one"),
    may(
        "price",
        WholeOrNull,
        "what one counts towards a minimum or free freight (the cost unless said)",
    ),
    may(
        "limit",
        WholeOrNull,
        "the most to be had (as many as wanted unless said)",
    ),
    may(
        "serves",
        Whole,
        "the classes it may serve, one bit each (all unless said)",
    ),
];

const ITEM: &[Field] = &[
    must("length", Whole, "the length of the piece"),
    must("count", Whole, "how many of it are cut, exactly"),
    may(
        "class",
        Whole,
        "which bit of a stock's serves it asks for (0 unless said)",
    ),
];

const GROUP: &[Field] = &[
    must("name", Words, "a name"),
    must(
        "count",
        Whole,
        "how many such groups there are; each may be spliced its own way",
    ),
    may(
        "class",
        Whole,
        "which bit of a stock's serves its pieces ask for (0 unless said)",
    ),
    must(
        "lines",
        List(LINE),
        "one line, or two that watch each other's splices",
    ),
    must(
        "apart",
        Whole,
        "how far the splices of one line stay from those of the other (0 with one line)",
    ),
    must(
        "zones_exclusive",
        YesNo,
        "true where the two lines may not both be spliced in one zone (false with one line)",
    ),
    must("splice_cost", Whole, "money for each splice"),
];

const LINE: &[Field] = &[
    must("length", Whole, "the length of the line when it is made"),
    must(
        "whole",
        Whole,
        "the piece that is cut for it when it is not spliced",
    ),
    must("gap", Whole, "the least gap left open at each splice"),
    must("least_splices", Whole, "the fewest splices it may have"),
    must("most_splices", Whole, "the most splices it may have"),
    must(
        "least_piece",
        Whole,
        "no piece of it is shorter when it is spliced",
    ),
    must(
        "three_over",
        Whole,
        "of three splices in a row the first and the third are more than this apart (0: no such rule)",
    ),
    must(
        "slots",
        List(SLOT),
        "where the middle of a splice may stand, ascending",
    ),
];

const SLOT: &[Field] = &[
    must(
        "lo",
        Whole,
        "where the stretch begins, from the line's start",
    ),
    must("hi", Whole, "where the stretch ends"),
    must(
        "zone",
        Whole,
        "a number: a line has at most one splice in all stretches of one zone",
    ),
    must("charge", Whole, "money for a splice that stands here"),
];

const CHARGE: &[Field] = &[
    must("name", Words, "a name of its own"),
    must(
        "over",
        List(STOCK_OF),
        "the stocks it counts, ascending, none twice",
    ),
    must(
        "kind",
        OneOf(KINDS),
        "what is charged, one of the four below",
    ),
];

const STOCK_OF: &[Field] = &[
    must("pool", Whole, "which pool, counted from 0"),
    must("stock", Whole, "which stock of it, counted from 0"),
];

const KINDS: &[(&str, &[Field])] = &[
    (
        "fixed",
        &[
            must("amount", Whole, "money once any of the stocks is taken"),
            may(
                "free_over",
                WholeOrNull,
                "the sum of prices from which it is waived (never unless said)",
            ),
        ],
    ),
    (
        "lift",
        &[
            must("lift", Whole, "bars in a bundle"),
            must("fee", Whole, "money for each bundle begun"),
            must("part_fee", Whole, "money for a bundle that is broken"),
        ],
    ),
    (
        "minimum",
        &[must(
            "least",
            Whole,
            "the least sum of prices that is billed once any of the stocks is taken",
        )],
    ),
    (
        "range",
        &[
            must("least", Whole, "the fewest bars when any is taken"),
            may("most", WholeOrNull, "the most bars (no limit unless said)"),
        ],
    ),
];

#[cfg(test)]
mod tests {
    use std::fmt::Write;
    use std::path::Path;

    use serde_json::Value;

    use super::*;

    fn data(name: &str) -> String {
        let file = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("data")
            .join(name);
        std::fs::read_to_string(file).expect("it is in the repository")
    }

    /// The objects below a form, each once, with the name of the field that holds it.
    fn forms(name: &str, form: &'static [Field]) -> Vec<(String, &'static [Field])> {
        let mut out = vec![(name.to_owned(), form)];
        for field in form {
            match field.holds {
                List(form) | One(form) => out.extend(forms(field.name, form)),
                OneOf(kinds) => {
                    let kinds = kinds.iter();
                    out.extend(kinds.flat_map(|(kind, form)| forms(kind, form)));
                }
                _ => {}
            }
        }
        out
    }

    #[test]
    fn the_page_explains_every_field() {
        let page = data("cutting_lists.md");
        let mut table = String::from("| in | field | needed | means |\n|---|---|---|---|\n");
        for (of, form) in forms("the file", PROBLEM) {
            for field in form {
                let (name, needed) = (field.name, if field.needed { "yes" } else { "" });
                let _ = writeln!(table, "| {of} | `{name}` | {needed} | {} |", field.means);
            }
        }
        assert!(page.contains(&table), "the page lacks this table:\n{table}");
    }

    #[test]
    fn the_schema_has_the_same_fields() {
        let schema: Value = serde_json::from_str(&data("nest_problem.schema.json")).expect("JSON");
        let mut said: Vec<Vec<(String, bool)>> = Vec::new();
        objects(&schema, &mut said);
        let mut mine: Vec<Vec<(String, bool)>> = forms("the file", PROBLEM)
            .into_iter()
            .map(|(_, form)| {
                let fields = form.iter().map(|f| (f.name.to_owned(), f.needed));
                let mut fields: Vec<_> = fields.collect();
                fields.sort();
                fields
            })
            .collect();
        said.sort();
        mine.sort();
        assert_eq!(said, mine);
    }

    /// Every object of a schema that is no kind of charge around another: its fields, and which it must have.
    fn objects(schema: &Value, out: &mut Vec<Vec<(String, bool)>>) {
        if let Some(fields) = schema.get("properties").and_then(Value::as_object) {
            let needed = schema["required"].as_array();
            let must = |name: &String| needed.is_some_and(|n| n.iter().any(|r| r == name.as_str()));
            let around = |inner: &Value| inner.get("properties").is_some();
            if !(fields.len() == 1 && fields.values().all(around)) {
                out.push(
                    fields
                        .keys()
                        .map(|name| (name.clone(), must(name)))
                        .collect(),
                );
            }
        }
        match schema {
            Value::Object(inner) => inner.values().for_each(|v| objects(v, out)),
            Value::Array(inner) => inner.iter().for_each(|v| objects(v, out)),
            _ => {}
        }
    }
}
