//! The forms of one sheet say the same thing in the same words.

use crate::run::{files, planned, planned_demos, read, us_week};

/// One word for what the tape reads: the sheet in the hand and the sheet on the wall agree.
#[test]
fn a_running_mark_has_one_name_on_every_sheet() {
    for (_, out) in planned_demos() {
        let mut named = 0;
        for (name, bytes) in files(out) {
            let Ok(text) = String::from_utf8(bytes) else {
                continue;
            };
            let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
            let flat = flat.to_lowercase();
            assert!(!flat.contains("tape mark"), "{name}");
            assert!(!flat.contains("tape_mark"), "{name}");
            named += usize::from(flat.contains("running mark") || flat.contains("running_mark"));
        }
        assert!(named >= 3, "cut sheet as text, as table and on the page");
    }
}

/// A post stands at the horizontals' ends: no tape that hooks their throat reads its axis, and what is
/// square at both ends has no throat beside its saw length. A dash says so in every form.
#[test]
fn posts_have_a_dash_for_their_throat_in_every_form() {
    for (_, out) in planned_demos() {
        let table = read(out, "gates.csv");
        let mut reader = csv::Reader::from_reader(table.trim_start_matches('\u{feff}').as_bytes());
        let heads = reader.headers().expect("heads").clone();
        let at = |name: &str| heads.iter().position(|h| h == name).expect("the column");
        let (stands, printed) = (at("stands"), at("axis_from_throat_printed"));
        let number = printed - 1;
        let mut posts = 0;
        for row in reader.records().map(|r| r.expect("a row")) {
            let post = &row[stands] == "end post";
            assert_eq!(post, &row[printed] == "–", "{row:?}");
            assert_eq!(post, row[number].is_empty(), "{row:?}");
            posts += usize::from(post);
        }
        for (name, bytes) in files(out) {
            if name.ends_with(".txt") || name == "week.html" {
                let text = String::from_utf8(bytes).expect("text");
                assert!(!text.contains("-0'-"), "a running mark under zero: {name}");
            }
        }
        let gates = read(out, "gates.txt");
        // Bay lines have a number after the box, parts their mark.
        let numbered = |l: &str| {
            l.split_whitespace()
                .nth(2)
                .is_some_and(|w| w.parse::<u32>().is_ok())
        };
        let line = |l: &&str| l.starts_with("[ ]") && l.contains("  end post  ") && numbered(l);
        assert!(
            gates
                .lines()
                .filter(line)
                .all(|l| l.matches('–').count() >= 3)
        );
        let page = read(out, "week.html");
        for post in ["end post, latch", "end post, tail"] {
            let rows = page
                .split("<tr>")
                .filter(|r| r.contains(&format!(">{post}<")));
            for row in rows {
                assert!(row.contains("data-label=\"from throat\">–<"), "{row}");
                posts += 1;
            }
        }
        assert!(posts >= 4);
        let parts = read(out, "parts.txt");
        let mut square = parts
            .lines()
            .filter(|l| l.contains("square / square"))
            .peekable();
        assert!(square.peek().is_some());
        assert!(square.all(|l| l.contains('–')), "{parts}");
    }
}

/// A supplier is told beside every new joint, on the text as on the drawn pull order.
#[test]
fn the_pull_order_names_the_supplier() {
    for (_, out) in planned_demos() {
        let sheet = read(out, "cut_sheet.txt");
        let (_, pull) = sheet.split_once("PULL ORDER").expect("a pull order");
        let (pull, _) = pull.split_once("JOINT 1 of").expect("the first joint");
        for row in pull.lines().filter(|l| l.starts_with("[ ]")) {
            let invented = row.contains("(invented)") || row.contains("Steel");
            assert_eq!(row.contains(" new "), invented, "{row}");
        }
    }
}

/// The kit's reader has no other sheet: gap, weights with their unit, and the weight of it all.
#[test]
fn a_kit_sheet_states_root_gap_and_weights() {
    let (_, out) = planned_demos()
        .iter()
        .find(|(week, _)| week.ends_with("demo_us"))
        .expect("the US demo");
    let kit = read(out, "kit_A6.txt");
    assert!(kit.contains("A6-HB: root gap as made 0."), "{kit}");
    assert!(kit.contains("A6-HT: root gap as made 0."), "{kit}");
    // 2 x 23.3 + 5 x 15.5 + 6 x 19.8, by the printed weights of one each.
    let total = kit.lines().find(|l| l.starts_with("13 pieces in all, "));
    let total = total.expect("the total");
    let pounds: f64 = total["13 pieces in all, ".len()..]
        .split_whitespace()
        .next()
        .and_then(|w| w.parse().ok())
        .expect("pounds");
    assert!((pounds - 242.9).abs() < 13.0 * 0.05, "{total}");
    let (_, sent) = kit.split_once("WHAT WE SEND").expect("what we send");
    let heads = sent.lines().find(|l| l.contains("mark")).expect("heads");
    assert_eq!(heads.matches(" lb").count(), 2, "{heads}");
    let rows = sent.lines().filter(|l| l.starts_with("[ ]"));
    let each = rows.filter_map(|l| l.split_whitespace().last()?.parse::<f64>().ok());
    let (rows, sum) = each.fold((0, 0.0), |(n, sum), w| (n + 1, sum + w));
    assert_eq!(rows, 4);
    assert!((sum - pounds).abs() < 0.051 * 5.0, "{sum} {total}");
}

/// No word of a table is broken while its columns could give way.
#[test]
fn no_part_is_broken_in_the_middle_of_its_name() {
    for (_, out) in planned_demos() {
        let gates = read(out, "gates.txt");
        let broken = |l: &&str| {
            let word = l.trim();
            "horizontal diagonal vertical standoff brace".contains(word)
                && ![
                    "horizontal",
                    "diagonal",
                    "vertical",
                    "standoff",
                    "brace",
                    "",
                ]
                .contains(&word)
        };
        assert_eq!(gates.lines().find(broken), None);
    }
}

/// The welder reads on the gate's own sheet where the order wants no splice.
#[test]
fn excluded_bays_are_on_the_gate_sheet() {
    let week = us_week("words-excluded");
    let orders = std::fs::read_to_string(week.join("orders.csv")).expect("the orders");
    let mut rows: Vec<String> = orders.lines().map(str::to_owned).collect();
    let row = rows.iter_mut().find(|l| l.starts_with("A7,")).expect("A7");
    let mut cells: Vec<&str> = row.split(',').collect();
    // The thirteenth column of the demo's list.
    cells[12] = "2 5";
    *row = cells.join(",");
    std::fs::write(week.join("orders.csv"), rows.join("\n")).expect("a copy");
    let out = planned("words-excluded-out", &week, &[]);
    let said = "none in bays 2 and 5, by the order";
    assert!(read(&out, "gates.txt").contains(said));
    assert!(read(&out, "week.html").contains(said));
}

/// A splice has one name wherever it stands, that of the pieces it joins, and no other splice of the week has it.
#[test]
fn a_splice_has_one_name_of_its_own_on_every_sheet() {
    let mut seen = 0;
    for (_, out) in planned_demos() {
        let document = crate::run::json(&read(out, "plan.json"));
        let lines = document["spliced"].as_array().expect("lines");
        let named = lines
            .iter()
            .flat_map(|l| l["splices"].as_array().expect("splices"));
        let names: Vec<&str> = named.map(|s| s["name"].as_str().expect("a name")).collect();
        let mut once = names.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), names.len(), "{names:?}");
        if names.is_empty() {
            continue;
        }
        let [text, table, cuts] =
            ["splices.txt", "splices.csv", "cut_sheet.txt"].map(|name| read(out, name));
        for name in names {
            assert!(text.contains(&format!("Splice {name} may stand")), "{name}");
            assert!(table.contains(name), "{name}");
            // It joins two pieces that are cut.
            let (line, two) = name.rsplit_once('/').expect("a line's mark");
            for piece in two.split('+') {
                assert!(cuts.contains(&format!("{line}/{piece}")), "{name}");
            }
            seen += 1;
        }
        let page = read(out, "week.html");
        for line in lines {
            let of = |at: &str| line[at].as_u64().expect("a number");
            let part = usize::try_from(of("part")).expect("small");
            let mark = document["parts"][part]["mark"].as_str().expect("a mark");
            assert!(page.contains(&format!("{mark}/1+2")), "{mark}");
            assert!(page.contains(&format!("{mark}/1: ")), "{mark}");
        }
    }
    assert!(seen >= 3, "{seen}");
}

/// The ends of what stands or leans are foot and head on every sheet.
#[test]
fn no_sheet_speaks_of_lower_and_upper_ends() {
    for (_, out) in planned_demos() {
        for (name, bytes) in files(out) {
            let Ok(text) = String::from_utf8(bytes) else {
                continue;
            };
            let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
            for word in ["lower end", "upper end"] {
                assert!(!flat.contains(word), "{word} in {name}");
            }
        }
    }
}

/// A post is always the leaf's end post; what stands in the ground is a support.
#[test]
fn no_post_is_anything_but_an_end_post() {
    let word = |w: &str| {
        w.trim_matches(|c: char| !c.is_alphanumeric())
            .to_lowercase()
    };
    let mut posts = 0;
    for (_, out) in planned_demos() {
        for (name, bytes) in files(out) {
            // plan.json's names are for programs.
            let Some(text) = String::from_utf8(bytes)
                .ok()
                .filter(|_| name != "plan.json")
            else {
                continue;
            };
            let shown = shown(&text);
            let words: Vec<String> = shown.split([' ', '\n', '_', ',']).map(word).collect();
            for pair in words.windows(2) {
                if ["post", "posts"].contains(&pair[1].as_str()) {
                    assert_eq!(pair[0], "end", "{name}: {pair:?}");
                    posts += 1;
                }
            }
        }
    }
    assert!(posts > 100, "{posts}");
}

/// A page's words without its tags; nothing lost of other texts.
fn shown(text: &str) -> String {
    if !text.starts_with("<!DOCTYPE") && !text.starts_with("<svg") {
        return text.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    let bits = text
        .split('<')
        .map(|bit| bit.split_once('>').map_or(bit, |(_, words)| words));
    let shown: Vec<&str> = bits.collect();
    shown
        .join(" ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// Every sheet says which way a gate opens and from where that is seen, or that the order does not say.
#[test]
fn a_hand_is_said_with_the_side_it_is_seen_from() {
    let (_, out) = planned_demos()
        .iter()
        .find(|(week, _)| week.ends_with("demo_us"))
        .expect("the US demo");
    let flat = |name: &str| shown(&read(out, name));
    let (sheet, page) = (flat("gates.txt"), flat("week.html"));
    for words in [
        "RIGHT: opens to the right, seen from the street",
        "LEFT: opens to the left, seen from the yard",
        "LEFT: opens to the left, side not said in the order: ask",
    ] {
        assert!(sheet.contains(words), "{words}");
        assert!(page.contains(words), "{words}");
    }
}
