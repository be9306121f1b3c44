//! What an output must not leave out: every pipe's standard in a letter, every coped end in the list, every caution
//! on a sheet, every gate that is complete. Common practice, no source.

use longpoint::measure::Length;
use longpoint::part::CopeEnd;

use crate::made;
use crate::right_figures::{Set, inches, metric};

#[test]
fn a_letter_names_standard_grade_and_finish_and_where_to_deliver() {
    let mut week = made::demo_week("demo_us");
    week.shop.buying.delivery = "gate 2, 7 to 15 h, forklift there (invented)".to_owned();
    let told = Set::of(made::checked_week(week));
    for set in [&told, metric()] {
        let letters: Vec<String> = (set.plan.plan().buy.iter())
            .map(|line| &set.plan.week().quotes[line.quote].supplier)
            .map(|s| {
                let words = s
                    .split(|c: char| !c.is_alphanumeric())
                    .filter(|w| !w.is_empty());
                set.file(&format!(
                    "order_{}.txt",
                    words.collect::<Vec<_>>().join("_")
                ))
            })
            .collect();
        for (line, letter) in set.plan.plan().buy.iter().zip(&letters) {
            let quote = &set.plan.week().quotes[line.quote];
            let pipe = set.plan.week().pipe(quote.pipe);
            let head = format!("{}: OD ", pipe.name);
            let rows = letter.split(&head).skip(1);
            let mut words = vec![&pipe.standard, &pipe.grade, &pipe.finish];
            words.retain(|w| !w.is_empty());
            let words: Vec<&str> = words.into_iter().map(String::as_str).collect();
            let wanted = format!(", {} ", words.join(", "));
            for row in rows {
                let row = row.split(" joint").next().expect("words");
                assert!(row.contains(&wanted), "{wanted} in {row}");
            }
        }
        let delivery = &set.plan.week().shop.buying.delivery;
        for letter in &letters {
            let said = letter.contains(&format!("Delivery: {delivery}"));
            assert_eq!(said, !delivery.is_empty(), "{letter}");
        }
    }
}

/// The diagonal of a bay leans by the bay's width over the distance of the horizontals' axes.
#[test]
fn a_diagonals_lean_is_measured_from_the_vertical() {
    let set = inches();
    let text = set.file("gates.txt");
    let rows = set.records("gates.csv");
    for frame in &set.plan.take_off().frames {
        let order = &set.plan.week().gates[frame.gate];
        let lines = frame.bay_lines.windows(2);
        for (n, bay) in lines.enumerate() {
            let lean = (bay[1] - bay[0]).atan2(frame.axis_height).to_degrees();
            let record = rows
                .iter()
                .find(|r| r["gate"] == order.mark && r["bay_line"] == n.to_string());
            let said: f64 = record.expect("a row")["lean_after_deg"]
                .parse()
                .expect("a number");
            assert!(
                (said - lean).abs() < 0.006,
                "{} bay {n}: {said}, {lean}",
                order.mark
            );
            let words = format!("{said:.2}°");
            assert!(order.kit || text.contains(&words), "{words}");
        }
    }
}

#[test]
fn every_coped_end_that_the_shop_cuts_is_in_the_list_once() {
    for set in [inches(), metric()] {
        let rows = set.records("copes.csv");
        let mut wanted = 0;
        for part in set.plan.take_off().parts.iter().filter(|p| p.ours) {
            let coped = |end: &&CopeEnd| matches!(end, CopeEnd::Coped(_));
            let ends = u32::try_from(part.ends.iter().filter(coped).count()).expect("few");
            let mine = rows.iter().filter(|r| r["mark"] == part.mark);
            let said: u32 = mine
                .map(|r| r["ends"].parse::<u32>().expect("a number"))
                .sum();
            assert_eq!(said, ends * part.count, "{}", part.mark);
            wanted += ends;
        }
        assert!(wanted > 10);
    }
}

#[test]
fn a_barbed_top_is_said_of_the_gates_that_have_one() {
    let set = inches();
    let text = set.file("gates.txt");
    let mut barbed = 0;
    for order in set.plan.week().gates.iter().filter(|g| !g.kit) {
        let (_, card) = text
            .split_once(&format!("GATE {} ", order.mark))
            .expect("its card");
        let card = card.split(" GATE ").next().expect("its card");
        let said = card.contains("Barbed top ");
        assert_eq!(said, order.barbed > 0, "{}", order.mark);
        if said {
            barbed += 1;
            assert!(
                card.contains(&format!("Barbed top {} strands", order.barbed)),
                "{card}"
            );
        }
        for caution in [
            "This sheet does not size members for wind, ice or people.",
            "Local codes and a licensed engineer decide.",
            "Positive stops at both ends",
        ] {
            assert!(card.contains(caution), "{}: {caution}", order.mark);
        }
    }
    assert!(barbed > 0);
    let splices = set.file("splices.txt");
    for caution in [
        "Complete-penetration splice by a qualified welder",
        "Remove the zinc before welding",
        "This sheet does not size members for wind, ice or people.",
        "Local codes and a licensed engineer decide.",
    ] {
        assert!(splices.contains(caution), "{caution}");
    }
}

/// A gate is complete after one joint: said there, and at no other.
#[test]
fn a_gate_is_said_complete_after_its_last_joint() {
    let set = inches();
    let text = set.file("cut_sheet.txt");
    let plan = set.plan.plan();
    for joint in &plan.joints {
        let (_, block) = text
            .split_once(&format!("JOINT {} ", joint.number))
            .expect("its block");
        let block = block.split(" JOINT ").next().expect("its block");
        let card = set.page(&format!("id=\"joint-{}\"", joint.number), "</article>");
        let after = card
            .split("Complete after this joint: ")
            .nth(1)
            .unwrap_or("");
        let names: Vec<&str> = after.split([',', ' ']).collect();
        for done in &plan.done {
            let order = &set.plan.week().gates[done.gate];
            let name = match order.count {
                1 => order.mark.clone(),
                _ => format!("{}.{}", order.mark, done.copy),
            };
            let here = done.after_joint == joint.number;
            assert_eq!(names.contains(&name.as_str()), here, "{name}: {card}");
            let said = block.contains(&format!("{name} complete after joint {}.", joint.number));
            assert_eq!(said, here, "{name}: {block}");
        }
    }
}

/// A part just as long as the carrier takes is taken.
#[test]
fn a_part_of_just_the_carriers_limit_is_taken() {
    let mut week = made::demo_week("demo_us");
    week.gates.retain(|g| g.kit);
    week.extras.clear();
    let first = made::checked_week(week.clone());
    let ours = first.take_off().parts.iter().filter(|p| p.ours);
    let longest = ours.map(|p| p.saw).max().expect("parts");
    for (limit, over) in [(longest, false), (longest - Length::from_ticks(1), true)] {
        week.shop.kit.carrier_limit = Some(limit);
        let set = Set::of(made::checked_week(week.clone()));
        let said = set.file("kit_A6.txt").contains("OVER THE CARRIER'S LIMIT");
        assert_eq!(said, over, "{limit}");
        let drawn = set.drawn("Kit sheets").contains("over the carrier's limit");
        assert_eq!(drawn, over, "{limit}");
    }
}

/// The document's weights are the plan's to four decimals.
#[test]
fn the_document_weighs_parts_to_four_decimals() {
    let set = inches();
    let document: serde_json::Value = serde_json::from_str(&set.file("plan.json")).expect("JSON");
    let parts = document["parts"].as_array().expect("parts");
    for (said, part) in parts.iter().zip(&set.plan.take_off().parts) {
        assert_eq!(said["mark"], part.mark.as_str());
        let rounded = (part.weight * 1e4).round() / 1e4;
        assert_eq!(said["weight_each"].as_f64(), Some(rounded), "{}", part.mark);
    }
}

/// The centre of gravity is measured from where a tape lies: the underside of the bottom horizontal.
#[test]
fn the_centre_of_gravity_is_measured_from_the_underside() {
    let set = inches();
    let text = set.file("gates.txt");
    let week = set.plan.week();
    for (index, order) in week.gates.iter().enumerate().filter(|(_, g)| !g.kit) {
        let weight = longpoint::part::gate_weight(week, set.plan.take_off(), index);
        let from_axis = weight.expect("a weight").centre_of_gravity.y;
        let underside = from_axis + week.pipe(order.pipes.horizontal).od.geometric() / 2.0;
        let words = Length::nearest_mark(underside, week.shop.saw.mark).print(week.shop.units);
        let said = format!("{words} above the bottom horizontal's underside");
        assert!(text.contains(&said), "{}: {said}", order.mark);
    }
}

/// What a kit's joint leaves of its usable length is its floor piece and the last kerf, less the trim of its far
/// end: that is held against the limit.
#[test]
fn a_kits_tight_joint_is_measured_first() {
    let mut week = made::demo_week("demo_us");
    week.gates.retain(|g| g.kit);
    week.extras.clear();
    let plan = made::checked_week(week.clone());
    let options = plan.plan().kits.iter().flat_map(|k| &k.options);
    let floors = options
        .filter(|o| o.refused.is_none())
        .flat_map(|o| &o.cuts)
        .map(|j| j.floor);
    let kit = &week.shop.kit;
    let left = floors.min().expect("joints") + kit.kerf - kit.trim;
    for (limit, said) in [(left, false), (left + Length::from_ticks(1), true)] {
        week.shop.saw.measure_first_under = limit;
        let set = Set::of(made::checked_week(week.clone()));
        assert_eq!(
            set.file("kit_A6.txt").contains("MEASURE FIRST"),
            said,
            "{limit}"
        );
        assert_eq!(
            set.drawn("Kit sheets").contains("MEASURE FIRST"),
            said,
            "{limit}"
        );
    }
}

/// What a letter's rows come to is its total: joints, tax, freight, lifts and what is missing to the least order.
#[test]
fn a_letters_total_is_the_sum_of_its_rows() {
    let set = Set::of(made::checked(&made::demo("demo_buying")));
    let mut more = 0;
    for (name, bytes) in set.files.iter().filter(|(n, _)| n.starts_with("order_")) {
        let text = String::from_utf8_lossy(bytes);
        let row = |line: &str| -> Option<(String, rust_decimal::Decimal)> {
            let (label, amount) = line.rsplit_once("  ")?;
            let digits: String = amount
                .chars()
                .filter(|c| c.is_ascii_digit() || *c == '.')
                .collect();
            Some((label.trim().to_owned(), digits.parse().ok()?))
        };
        let rows: Vec<_> = text
            .lines()
            .skip_while(|l| !l.starts_with("Joints  "))
            .take_while(|l| !l.is_empty())
            .filter_map(row)
            .collect();
        let (last, total) = rows.last().expect("a total");
        assert_eq!(last, "TOTAL", "{name}");
        let sum: rust_decimal::Decimal = rows[..rows.len() - 1].iter().map(|(_, m)| *m).sum();
        assert_eq!(sum, *total, "{name}: {rows:?}");
        more += rows.len() - 2;
    }
    assert!(more > 0, "no letter has more than joints");
}
