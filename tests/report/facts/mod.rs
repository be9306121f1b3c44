//! What each output says: facts × outputs, kept as data in `table.txt`. A fact is looked for by its value in the
//! checked plan, near the words, in the column or in the field that the table names; a fact that an output leaves
//! out stands in the table with the reason, and must not be there under any name the other outputs use.

mod outputs;
mod values;

use outputs::Outputs;

/// The table: a row a fact, a cell an output.
const TABLE: &str = include_str!("table.txt");

/// One row of the table.
struct Fact<'t> {
    name: &'t str,
    cells: Vec<&'t str>,
}

fn facts() -> Vec<Fact<'static>> {
    let rows = TABLE
        .lines()
        .filter(|l| !l.is_empty() && !l.starts_with('#'));
    rows.map(|row| {
        let mut cells = row.split('|').map(str::trim);
        let name = cells.next().expect("a name");
        let cells: Vec<&str> = cells.collect();
        assert_eq!(cells.len(), outputs::NAMES.len(), "{row}");
        Fact { name, cells }
    })
    .collect()
}

#[test]
fn every_fact_stands_in_every_output_or_is_left_out_with_a_reason() {
    let plan = values::week_of_everything();
    let outputs = Outputs::of(&plan);
    let facts = facts();
    assert!(facts.len() >= 40, "{} facts", facts.len());
    let mut wrong = String::new();
    for fact in &facts {
        let value = values::of(&plan, fact.name);
        let names: Vec<&str> = fact
            .cells
            .iter()
            .filter(|c| !c.starts_with("not:"))
            .copied()
            .collect();
        assert!(!names.is_empty(), "{} is in no output", fact.name);
        for (output, cell) in outputs::NAMES.iter().zip(&fact.cells) {
            match cell.strip_prefix("not:") {
                Some(reason) => {
                    assert!(reason.trim().len() > 10, "{} {output}: why?", fact.name);
                    let there = names.iter().find(|n| outputs.holds(output, n, &value));
                    if let Some(name) = there {
                        wrong += &format!(
                            "{}: left out of {output}, yet {name:?} has {value:?}\n",
                            fact.name
                        );
                    }
                }
                None if !outputs.holds(output, cell, &value) => {
                    wrong += &format!("{}: {output} lacks {value:?} at {cell:?}\n", fact.name);
                }
                None => {}
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

/// The table can fail: another value is found nowhere.
#[test]
fn a_changed_value_is_missed_in_every_output() {
    let plan = values::week_of_everything();
    let outputs = Outputs::of(&plan);
    for fact in facts() {
        for (output, cell) in outputs::NAMES.iter().zip(&fact.cells) {
            let other = format!("{}-7", values::of(&plan, fact.name));
            let found = !cell.starts_with("not:") && outputs.holds(output, cell, &other);
            assert!(!found, "{} {output}: {other}", fact.name);
        }
    }
}
