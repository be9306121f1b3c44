//! sheets.pdf read by an outside reader and held against plan.json, both as they lie on the disk.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::poppler;
use crate::run::{json, planned_demos, read};

/// The pages of the set whose header begins with a title.
struct Set {
    pages: Vec<String>,
}

impl Set {
    /// `None` where the outside reader is not installed.
    fn of(folder: &Path) -> Option<Set> {
        let bytes = fs::read(folder.join("sheets.pdf")).expect("the set is written");
        let text = poppler::text_of(&bytes)?;
        let pages = text.split('\u{c}').map(str::to_owned).collect();
        Some(Set { pages })
    }

    fn titled(&self, title: &str) -> String {
        let own = |p: &&String| p.trim_start().starts_with(title);
        let pages: Vec<&str> = self.pages.iter().filter(own).map(String::as_str).collect();
        assert!(!pages.is_empty(), "no page is titled {title}");
        pages.join("\n")
    }
}

fn list<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value[key].as_array().expect("a list").as_slice()
}

fn print<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key]["print"].as_str().expect("a printed length")
}

fn words<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().expect("words")
}

/// `4793.09` as paper has it: `4,793.09`.
fn money(value: &Value) -> String {
    let cents = format!("{:.2}", value.as_f64().expect("priced"));
    let (whole, rest) = cents.split_once('.').expect("two decimals");
    let digits: Vec<char> = whole.chars().collect();
    let groups: Vec<String> = digits
        .rchunks(3)
        .rev()
        .map(|g| g.iter().collect())
        .collect();
    format!("{}.{rest}", groups.join(","))
}

#[track_caller]
fn says(text: &str, wanted: &str) {
    assert!(text.contains(wanted), "{wanted} is not on\n{text}");
}

/// How often each word stands in a text.
fn counted(text: &str) -> BTreeMap<&str, usize> {
    let mut count = BTreeMap::new();
    for word in text.split_whitespace() {
        *count.entry(word).or_insert(0) += 1;
    }
    count
}

fn cut_sheets(set: &Set, plan: &Value) {
    let cuts = set.titled("Cut sheet");
    let pull = set.titled("Pull order");
    let labels = set.titled("Part labels");
    let mut marks: BTreeMap<&str, usize> = BTreeMap::new();
    for joint in list(plan, "joints") {
        for piece in list(joint, "pieces") {
            let (mark, saw) = (words(piece, "mark"), print(piece, "saw_length"));
            let (throat, end) = (print(piece, "throat"), print(piece, "end"));
            let row = |l: &&str| {
                let whole = |w: &str| l.split("  ").any(|cell| cell.contains(w));
                l.contains(mark) && whole(saw) && whole(end)
            };
            let found: Vec<&str> = cuts.lines().filter(row).collect();
            assert!(!found.is_empty(), "{mark} {saw} {end}");
            let coped = throat != saw;
            assert!(
                !coped || found.iter().any(|l| l.contains(throat)),
                "{mark} {throat}"
            );
            *marks.entry(mark).or_insert(0) += 1;
        }
        let number = joint["number"].to_string();
        says(&cuts, print(joint, "floor"));
        let row = |l: &&str| l.split_whitespace().next() == Some(number.as_str());
        let row = pull
            .lines()
            .find(row)
            .expect("every joint is in the pull order");
        match joint["keep_tag"].as_str() {
            Some(tag) => {
                // Joints cut alike share a line: `KEEP K2 K3`.
                let kept = |l: &str| {
                    let after = l.split("KEEP ").nth(1);
                    after.is_some_and(|l| l.split_whitespace().any(|w| w == tag))
                };
                assert!(cuts.lines().any(kept), "KEEP {tag} is not on\n{cuts}");
                says(row, tag);
            }
            None => says(row, "scrap"),
        }
    }
    let (on_cuts, on_labels) = (counted(&cuts), counted(&labels));
    for (mark, times) in marks {
        assert!(on_cuts[mark] >= times, "{mark} on the cut sheets");
        assert_eq!(on_labels[mark], times, "{mark} on the labels");
    }
    for done in list(plan, "done").iter().filter(|d| d["after_joint"] != 0) {
        let mark = words(done, "mark");
        let line = |l: &str| l.contains("complete") && l.contains(mark);
        assert!(cuts.lines().any(line), "{mark} complete");
        let joint = format!("{} ", done["after_joint"]);
        let row = |l: &str| l.trim_start().starts_with(&joint) && l.trim_end().ends_with(mark);
        assert!(pull.lines().any(row), "{mark} in the pull order");
    }
    for sitting in list(plan, "sittings") {
        let minutes = sitting["minutes"].as_f64().expect("minutes");
        says(&cuts, &format!("about {minutes:.0} min"));
    }
}

fn totals(set: &Set, plan: &Value) {
    let cover = set.titled("Work for the week");
    let totals = &plan["totals"];
    says(&cover, &money(&totals["money"]));
    says(&cover, &format!("{} joints", totals["joints"]));
    says(&cover, &format!("{} splice", totals["splices"]));
    for reference in list(plan, "references") {
        says(&cover, &money(&reference["money"]));
    }
    // With fees the gap of the whole counts; a pipe's own is not printed beside it.
    if plan["nest"]["whole"]["status"] == "within" {
        says(&cover, "All pipes with freight and fees: within ");
        assert!(!cover.contains("of the least possible"), "{cover}");
    }
    let buy = set.titled("Buy list");
    let bought = totals["bought"].to_string();
    let row = |l: &str| {
        let after = l.split("Joints to buy").nth(1);
        after.and_then(|l| l.split_whitespace().next()) == Some(&bought)
    };
    assert!(buy.lines().any(row), "{bought} joints to buy");
    for line in list(plan, "buy") {
        let money = money(&line["money"]);
        let joints = line["joints"].to_string();
        let row = |l: &str| l.contains(&money) && l.split_whitespace().next() == Some(&joints);
        assert!(buy.lines().any(row), "{joints} joints for {money}");
        says(&buy, print(line, "billed"));
    }
    let from_rack = list(plan, "joints")
        .iter()
        .filter(|j| j["source"] == "rack");
    for joint in from_rack {
        says(&buy, words(joint, "rack_tag"));
    }
    let kept = list(plan, "kept");
    if !kept.is_empty() {
        let tags = set.titled("Remnant tags");
        for piece in kept {
            says(&tags, words(piece, "tag"));
            says(&tags, print(piece, "floor"));
            says(
                &tags,
                &format!(
                    "credit {}{}",
                    words(plan, "currency"),
                    money(&piece["credit"])
                )
                .replace("EUR", "EUR "),
            );
        }
    }
}

fn gates(set: &Set, plan: &Value) {
    for gate in list(plan, "gates").iter().filter(|g| g["count"] != 0) {
        let sheet = set.titled(&format!("Gate {} ·", words(gate, "mark")));
        says(&sheet, print(gate, "leaf"));
        let frame = &gate["frame"];
        says(&sheet, print(frame, "check_measure"));
        for line in list(frame, "bay_lines") {
            says(&sheet, line["print"].as_str().expect("a printed length"));
        }
    }
    for part in list(plan, "parts").iter().filter(|p| !p["gate"].is_null()) {
        let gate = &plan["gates"][part["gate"].as_u64().expect("an index") as usize];
        let sheet = set.titled(&format!("Gate {} ·", words(gate, "mark")));
        says(&sheet, print(part, "saw_length"));
        says(&sheet, print(part, "throat"));
    }
    for line in list(plan, "spliced") {
        let sheet = set.titled("Splice sheet");
        says(&sheet, words(line, "mark"));
        for piece in list(line, "pieces") {
            says(&sheet, piece["print"].as_str().expect("a printed length"));
        }
        for splice in list(line, "splices") {
            says(&sheet, print(splice, "from_long_point"));
            says(&sheet, print(splice, "from_bay_line_before"));
            says(&sheet, print(splice, "to_bay_line_after"));
        }
    }
}

#[test]
fn the_set_on_disk_says_what_the_document_on_disk_says() {
    for (_, out) in planned_demos() {
        let plan = json(&read(out, "plan.json"));
        let Some(set) = Set::of(out) else { return };
        cut_sheets(&set, &plan);
        totals(&set, &plan);
        gates(&set, &plan);
        let pages = set.pages.iter().filter(|p| !p.trim().is_empty()).count();
        for (at, page) in set.pages.iter().take(pages).enumerate() {
            says(page, &format!("page {} of {pages}", at + 1));
            says(page, &format!("plan {} · revision 0", words(&plan, "plan")));
        }
    }
}
