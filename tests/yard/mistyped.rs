//! What a foreman mistypes: understood, or refused by name with what is missing, and nothing half written.
//! The slips: common practice, no source.

use std::path::Path;

use crate::commands::{done, issued, longpoint};

/// What is typed behind `tell week-1`, and what the answer must name.
const REFUSED: [(&str, &str); 56] = [
    ("cutt|1", "did you mean \"cut\""),
    ("cuts|1-3", "did you mean \"cut\""),
    ("deliverd|--line|1", "did you mean \"delivered\""),
    ("orderd", "did you mean \"ordered\""),
    ("spoilt|A1-V", "did you mean \"spoiled\""),
    ("issued", "longpoint issue"),
    ("cut", "which joints"),
    ("cut|0", "no joint number"),
    ("cut|25", "its joints are 1 to 24"),
    ("cut|1-25", "its joints are 1 to 24"),
    ("cut|5-3", "backwards"),
    ("cut|1-3|2", "named twice"),
    ("cut|A1-V", "no joint number"),
    ("cut|one", "no joint number"),
    ("cut|1.5", "no joint number"),
    ("cut|1-9999", "no week has"),
    ("cut|3", "tell what came first: delivered N --line 3"),
    ("cut|1|--to|9", "its pieces are 1 to 3"),
    ("cut|1|--to|A3-HB", "its pieces are 1 to 3"),
    ("cut|1|--actual|1", "equals sign"),
    ("cut|1|--actual|9=5ft", "its pieces are 1 to 3"),
    ("cut|1|--actual|1=long", "actual"),
    ("cut|1|--actual|1=5-8", "actual"),
    ("cut|1|--actual|1=300ft", "is left of it"),
    ("cut|1|--left|3ft", "left says nothing of cut"),
    ("cut|1|--to|1|--floor|3ft", "not cut to its end"),
    ("delivered", "which line"),
    ("delivered|--line|9", "no line 9"),
    ("delivered|--line|one", "line"),
    ("delivered|15|--line|2", "are still to come"),
    ("delivered|14|of|20|--line|1", "are awaited"),
    ("delivered|some|--line|1", "not a number"),
    ("delivered|0|--line|1", "count of 0"),
    ("delivered|-3|--line|1", "below zero"),
    (
        "delivered|2|--line|1|--length|20ft|--length|21ft|--length|21ft",
        "3 lengths for 2 joints",
    ),
    ("delivered|2|--line|2|--length|-1ft", "below zero"),
    ("short|1", "which line"),
    ("short|1|--line|2|--by|tomorrow", "by"),
    ("short|1|--line|2|--by|3/4/2026", "2026-03-04"),
    (
        "short|1|--line|2|--by|2026-03-04|--not-coming",
        "does not come",
    ),
    ("bent|1|--line|2", "--left"),
    ("bent|1|--line|2|--left|22ft", "21'-0\" long"),
    ("bent|1|--line|2|--left|18ft", "delivered N --line 2"),
    ("spoiled", "what is spoiled"),
    ("spoiled|A9-V", "did you mean"),
    ("spoiled|A2-V", "A2.1-V, A2.2-V"),
    ("spoiled|A3-V", "not told cut"),
    ("spoiled|A1-V|--left|7'-0 1/2", "left"),
    ("spoiled|A1-V|--left|50ft", "is left of a piece of"),
    ("welded|A1-HB", "no spliced line"),
    ("welded|A3-HB/7", "splices are 1 to"),
    ("done|A2", "A2.1, A2.2"),
    ("done|A1.3", "there are 1 of it"),
    ("done|A3", "A3 lacks"),
    ("undone|99", "yard entries"),
    ("measured|K99|7ft", "no"),
];

/// What is taken although it is not typed as the page has it, and what the answer says.
const UNDERSTOOD: [(&str, &str); 15] = [
    ("ORDERED|--by|March 6, 2026", "promised by 2026-03-06"),
    ("delivered|1|of|1|--line|2", "1 of line 2 came"),
    ("Delivered|2|joints|--line|5", "2 of line 5 came"),
    ("delivered|--line|line 3", "5 of line 3 came"),
    ("CUT|2,", "joint 2 cut"),
    ("cut|4|-|5", "joint 5 cut"),
    ("cut|1|to|1", "joint 1 cut"),
    ("cut|6|7", "joint 7"),
    ("spoiled|a1-v|--left|5'", "5'-0\" is left"),
    ("measured|k1|7'|11 1/2\"", "K1 measures 7'-11 1/2\""),
    ("coped|A1-D,A1-D", "A1-D coped"),
    ("cut|8|--to|2", "up to piece 2"),
    ("cut|8|--actual|3=68.25", "measured"),
    ("accepted|a2.1-v", "accepted as it is"),
    ("closed", "week-1 closed"),
];

fn tell(home: &Path, typed: &str) -> (i32, String) {
    let mut arguments = vec!["tell", "week-1"];
    arguments.extend(typed.split('|').filter(|w| !w.is_empty()));
    let ran = longpoint(home, &arguments);
    (ran.code, format!("{}{}", ran.out, ran.err))
}

#[test]
fn slips_are_refused_by_name_and_nothing_is_written() {
    let home = issued("mistyped");
    done(&home, &["tell", "week-1", "delivered", "--line", "1"]);
    done(&home, &["tell", "week-1", "cut", "2"]);
    let before = done(&home, &["yard", "export", "."]);
    for (typed, named) in REFUSED {
        let (code, said) = tell(&home, typed);
        assert_eq!(code, 2, "{typed}: {said}");
        assert!(said.contains(named), "{typed} must name {named:?}: {said}");
    }
    assert_eq!(done(&home, &["yard", "export", "."]), before);
}

#[test]
fn what_can_only_mean_one_thing_is_understood() {
    let home = issued("understood");
    done(&home, &["tell", "week-1", "delivered", "--line", "1"]);
    for (typed, answer) in UNDERSTOOD {
        let (code, said) = tell(&home, typed);
        if answer.is_empty() {
            assert_eq!(code, 2, "{typed}: {said}");
        } else {
            assert!(
                code == 0 && said.contains(answer),
                "{typed} → {answer:?}: {said}"
            );
        }
    }
    let stand = done(&home, &["stand", "week-1", "--check"]);
    assert!(stand.contains("all pipe is accounted for"), "{stand}");
}
