//! Every kind of fault is shown by a mistake: those of files here and in the other tables, the rest by a command.

use std::collections::BTreeSet;

use super::{dates, lists, mistakes, names, orders, parts, prices, settings, sizes, stock, terms};
use crate::bad_input::world::{Files, sound};
use longpoint::measure::FaultCode;

mistakes! {
    a_gate_counted_nought: orders("mark,count,opening,height,hand\nA1,0,12',6',left\n") =>
        Note NothingToDo, "orders.csv" 2 "count", "0", "does nothing", "write a count";
    no_joint_on_sale: Files { stock: None, ..sound() } =>
        Error FileMissing, "stock.csv" 0 "", "", "no joint is on sale", "add stock.csv";
    a_file_of_another_alphabet:
        Files { parts: Some(b"mark,pipe,length,count,note\nP1,H,5',1,fa\xe7ade\n".to_vec()), ..sound() } =>
        Warning ReadWithCare, "parts.csv" 2 "", "", "not UTF-8", "save the file as UTF-8";
    a_formula_that_failed: parts("mark,pipe,length,count\nP1,H,#REF!,1\n") =>
        Error FormulaWithoutValue, "parts.csv" 2 "length", "#REF!", "could not work this cell out", "mend its formula";
    a_wide_gate_without_a_brace: orders("mark,count,opening,height,hand\nA1,1,26',6',left\n") =>
        Warning Caution, "orders.csv" 2 "opening", "26'", "no sway brace", "write yes";
    a_price_twice: stock("pipe,length,price,per\nH,21 ft,3.48,foot\nH,21 ft,3.48,foot\nV,21 ft,2.62,foot\n") =>
        Warning GivenTwice, "stock.csv" 3 "length", "21 ft", "quotes the same joint", "keep one row";
}

#[test]
fn every_kind_is_shown() {
    let tables = [
        SHOWN,
        dates::SHOWN,
        lists::SHOWN,
        names::SHOWN,
        prices::SHOWN,
        settings::SHOWN,
        sizes::SHOWN,
        terms::SHOWN,
    ];
    let mut shown: BTreeSet<FaultCode> = tables.concat().into_iter().collect();
    // What only a command can say: tests/cli/faults_json.rs.
    shown.extend([FaultCode::FileNotRead, FaultCode::WorkImpossible]);
    let all: BTreeSet<FaultCode> = FaultCode::ALL.into_iter().collect();
    assert_eq!(all.len(), FaultCode::ALL.len(), "a kind twice");
    assert_eq!(shown, all);
}

#[test]
fn the_schema_lists_every_kind_in_order() {
    let schema: serde_json::Value =
        serde_json::from_str(include_str!("../../../../data/plan.schema.json")).expect("JSON");
    let kinds = schema["$defs"]["fault_code"]["oneOf"].as_array();
    let listed: Vec<&serde_json::Value> = kinds
        .expect("kinds")
        .iter()
        .map(|kind| &kind["const"])
        .collect();
    let own = FaultCode::ALL.map(|code| serde_json::to_value(code).expect("a word"));
    assert_eq!(listed, own.iter().collect::<Vec<_>>());
}
