//! Figures and words that cut, keep or order wrong pipe where they are wrong, worked out here from the week and
//! its plan, and looked up where a reader finds them: text, tables, paper, page. Common practice, no source.

use std::sync::OnceLock;

use longpoint::check::CheckedPlan;
use longpoint::gate::Frame;
use longpoint::measure::{Length, Units};
use longpoint::order::Hand;
use longpoint::plan::JointSource;
use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;

use crate::made;

/// A plan with everything that is handed over of it.
pub struct Set {
    pub plan: CheckedPlan,
    pub files: Vec<(String, Vec<u8>)>,
    paper: Vec<Flat>,
}

impl Set {
    pub fn of(plan: CheckedPlan) -> Set {
        let files = results(&plan, Paper::Letter).expect("sheets");
        let paper = pages(&plan, Paper::Letter).iter().map(Flat::of).collect();
        Set { plan, files, paper }
    }

    pub fn file(&self, name: &str) -> String {
        let found = self.files.iter().find(|(n, _)| n == name);
        let (_, bytes) = found.unwrap_or_else(|| panic!("{name}"));
        flowing(&String::from_utf8_lossy(bytes))
    }

    /// The records of a CSV file by column name.
    pub fn records(&self, name: &str) -> Vec<std::collections::BTreeMap<String, String>> {
        let (_, bytes) = self.files.iter().find(|(n, _)| n == name).expect(name);
        let text = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
        let mut reader = csv::Reader::from_reader(text);
        reader
            .deserialize()
            .map(|row| row.expect("a row"))
            .collect()
    }

    /// The words of a section of the drawn set.
    pub fn drawn(&self, title: &str) -> String {
        let mine = self.paper.iter().filter(|f| f.title == title);
        flowing(&mine.map(Flat::words).collect::<Vec<_>>().join(" "))
    }

    /// The words of a part of the page, from what opens it to what ends it.
    pub fn page(&self, from: &str, to: &str) -> String {
        let html = self.file("week.html");
        let (_, rest) = html.split_once(from).unwrap_or_else(|| panic!("{from}"));
        let (part, _) = rest.split_once(to).expect("its end");
        let bits = part
            .split('<')
            .map(|b| b.split_once('>').map_or(b, |(_, w)| w));
        let text = bits.collect::<Vec<_>>().join(" ");
        flowing(&text.replace("&quot;", "\"").replace("&amp;", "&"))
    }
}

/// Words with every run of space, hard ones too, one space: sheets break their lines.
pub fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

pub fn inches() -> &'static Set {
    static SET: OnceLock<Set> = OnceLock::new();
    SET.get_or_init(|| Set::of(made::checked(&made::demo("demo_us"))))
}

pub fn metric() -> &'static Set {
    static SET: OnceLock<Set> = OnceLock::new();
    SET.get_or_init(|| Set::of(made::checked(&made::demo("demo_metric"))))
}

/// A place on the frame as the shop reads it.
fn read(set: &Set, ticks: f64) -> String {
    let shop = &set.plan.week().shop;
    Length::nearest_mark(ticks, shop.saw.mark).print(shop.units)
}

/// Inner bay lines of a frame with the edges of the vertical that stands there.
fn verticals(set: &Set, frame: &Frame) -> Vec<(f64, f64, f64)> {
    let week = set.plan.week();
    let vertical = week.pipe(week.gates[frame.gate].pipes.vertical);
    let half = vertical.od.geometric() / 2.0;
    let inner = &frame.bay_lines[1..frame.bay_lines.len() - 1];
    inner.iter().map(|x| (*x, x - half, x + half)).collect()
}

/// A fitter sets a vertical by its edge: half a vertical before its axis, half behind it.
#[test]
fn a_verticals_edges_lie_half_its_diameter_from_its_axis() {
    for set in [inches(), metric()] {
        let text = set.file("gates.txt");
        let paper = set.drawn("Gate sheets");
        let page = set.page("<section id=\"gates\"", "</section>");
        let rows = set.records("gates.csv");
        let mut lines = 0;
        for frame in &set.plan.take_off().frames {
            let order = &set.plan.week().gates[frame.gate];
            if order.kit {
                continue;
            }
            for (n, (x, near, far)) in (1..).zip(verticals(set, frame)) {
                let (axis, near_words, far_words) = (read(set, x), read(set, near), read(set, far));
                // In text: its axis from the latch face and the throat, then its near edge.
                let row = text.split("[ ] ").find(|row| {
                    row.starts_with(&format!("{n} V {axis} ")) && row.contains(&near_words)
                });
                assert!(
                    row.is_some(),
                    "{} line {n}: {near_words} in text",
                    order.mark
                );
                let edges = format!("{near_words} {far_words}");
                assert!(paper.contains(&edges), "{}: {edges} on paper", order.mark);
                assert!(page.contains(&edges), "{}: {edges} on the page", order.mark);
                let unit = match set.plan.week().shop.units {
                    Units::Inch => ("in", 8128.0),
                    Units::Metric => ("mm", 320.0),
                };
                let record = rows
                    .iter()
                    .find(|r| r["gate"] == order.mark && r["bay_line"] == n.to_string());
                let record = record.expect("a record");
                let value: f64 = record[&format!("near_edge_from_latch_face_{}", unit.0)]
                    .parse()
                    .expect("a number");
                assert!(
                    (value - near / unit.1).abs() <= 0.006,
                    "{}: {value}",
                    order.mark
                );
                lines += 1;
            }
        }
        assert!(lines > 10, "{lines}");
    }
}

/// Left is left in every output, and the approval drawing shows the latch end at the other side.
#[test]
fn a_gates_hand_is_one_hand_in_every_output() {
    let set = inches();
    let text = set.file("gates.txt");
    let document: serde_json::Value = {
        let (_, bytes) = set
            .files
            .iter()
            .find(|(n, _)| n == "plan.json")
            .expect("it");
        serde_json::from_slice(bytes).expect("JSON")
    };
    let cover = set.drawn("Cover");
    let (mut left, mut right) = (0, 0);
    for order in set.plan.week().gates.iter() {
        let (side, count) = match order.hand {
            Hand::Left => ("left", &mut left),
            Hand::Right => ("right", &mut right),
        };
        *count += 1;
        let row = format!(
            "{} {} {} {} ",
            order.mark,
            order.count,
            order.opening.print(Units::Inch),
            order.height.print(Units::Inch)
        );
        let (_, rest) = cover
            .split_once(&row)
            .unwrap_or_else(|| panic!("{row} in {cover}"));
        let words: Vec<&str> = rest.split(' ').take(4).collect();
        assert!(words.contains(&side), "{}: {words:?}", order.mark);
        let gates = document["gates"].as_array().expect("gates");
        let entry = gates.iter().find(|g| g["mark"] == order.mark.as_str());
        assert_eq!(entry.expect("the gate")["hand"], side, "{}", order.mark);
        if order.kit {
            continue;
        }
        let (_, card) = text
            .split_once(&format!("GATE {} ", order.mark))
            .expect("its card");
        let (_, said) = card.split_once(" Hand ").expect("its hand");
        let wanted = format!("{}: opens to the {side}", side.to_uppercase());
        assert!(said.starts_with(&wanted), "{}: {}", order.mark, &said[..40]);
    }
    assert!(left > 2 && right > 2);
}

/// What is kept is kept, and what is scrap is scrap, joint by joint, in text, on paper and on the page.
#[test]
fn keep_and_scrap_are_said_of_the_same_joints() {
    let set = inches();
    let text = set.file("cut_sheet.txt");
    let paper = set.drawn("Cut sheets");
    let (mut kept, mut scrapped) = (0, 0);
    for joint in &set.plan.plan().joints {
        let card = set.page(&format!("id=\"joint-{}\"", joint.number), "</article>");
        let (_, block) = text
            .split_once(&format!("JOINT {} ", joint.number))
            .unwrap_or_else(|| panic!("joint {}", joint.number));
        let block = block.split(" JOINT ").next().expect("its block");
        match &joint.keep_tag {
            Some(tag) => {
                kept += 1;
                assert!(
                    block.contains(&format!("KEEP: paint {tag} on it")),
                    "{block}"
                );
                assert!(!block.contains("[ ] SCRAP"), "{block}");
                assert!(card.contains(&format!("KEEP {tag}")), "{card}");
                assert!(!card.contains("SCRAP"), "{card}");
                assert!(paper.contains(&format!("KEEP {tag}")), "{tag}");
            }
            None => {
                scrapped += 1;
                assert!(!block.contains("[ ] KEEP"), "{block}");
                assert!(card.contains("SCRAP"), "{card}");
                assert!(!card.contains("KEEP "), "{card}");
            }
        }
    }
    assert!(kept > 2 && scrapped > 2, "{kept} kept, {scrapped} scrap");
    // On paper joints that are alike stand in one block: a block keeps or scraps, never both.
    assert!(paper.contains(" SCRAP"), "{paper}");
    for words in paper.split("floor ").skip(1) {
        let foot: Vec<&str> = words.split(' ').take(6).collect();
        let says = |word: &str| foot.contains(&word);
        assert!(!(says("KEEP") && says("SCRAP")), "{foot:?}");
    }
}

/// A letter weighs in the unit of the shop: pounds, or kilograms worked out by the metre. Source: the weights of
/// ASTM F1083 and EN 10220, 10.69 (D - t) t lb/ft and 0.02466 (D - t) t kg/m.
#[test]
fn a_letter_weighs_what_is_ordered_in_the_shops_unit() {
    for set in [inches(), metric()] {
        let week = set.plan.week();
        let letters: Vec<String> = (set.files.iter())
            .filter(|(name, _)| name.starts_with("order_"))
            .map(|(name, _)| set.file(name))
            .collect();
        assert!(!letters.is_empty());
        for line in &set.plan.plan().buy {
            let quote = &week.quotes[line.quote];
            let pipe = week.pipe(quote.pipe);
            let (od, wall) = (pipe.od.geometric(), pipe.wall.geometric());
            let (weight, unit) = match week.shop.units {
                Units::Inch => {
                    let by_foot = 10.69 * (od - wall) * wall / (8128.0 * 8128.0);
                    (by_foot * line.nominal.inches() / 12.0, "lb")
                }
                Units::Metric => {
                    let by_metre = 0.02466 * (od - wall) * wall / (320.0 * 320.0);
                    (by_metre * line.nominal.millimetres() / 1000.0, "kg")
                }
            };
            let length = quote.nominal.print_with_unit(week.shop.units);
            let head = format!("{} joint", line.joints);
            let found = letters.iter().any(|letter| {
                letter.split(&head).skip(1).any(|rest| {
                    let row = rest.split(&*pipe.name).next().unwrap_or("");
                    row.contains(&length) && row.contains(&format!("about {weight:.0} {unit} "))
                })
            });
            assert!(
                found,
                "{head} of {length}, {weight:.0} {unit}: {letters:#?}"
            );
        }
        let other = match week.shop.units {
            Units::Inch => " kg",
            Units::Metric => " lb",
        };
        assert!(letters.iter().all(|l| !l.contains(other)), "{letters:#?}");
        let gates = set.file("gates.txt");
        let unit = other
            .replace("kg", "x")
            .replace("lb", "kg")
            .replace('x', "lb");
        assert!(
            gates.contains(&format!("{unit} = bare pipe ")),
            "{unit} in {gates}"
        );
        assert!(!gates.contains(&format!("{other} ")), "{other} in {gates}");
    }
}

/// A price by weight is said with the weight of a foot or a metre that makes it one by the joint.
#[test]
fn a_price_by_weight_says_its_weight_in_its_own_unit() {
    use longpoint::order::{PriceBasis, QuotedPrice};
    for (folder, per, unit, other) in [
        ("demo_us", PriceBasis::Hundredweight, " lb/ft", " kg/m"),
        ("demo_metric", PriceBasis::Tonne, " kg/m", " lb/ft"),
    ] {
        let mut week = made::demo_week(folder);
        for quote in &mut week.quotes {
            let weight = "3.65".parse().expect("a weight");
            quote.quoted = quote.quoted.map(|q| QuotedPrice {
                per,
                weight: Some(weight),
                ..q
            });
        }
        let set = Set::of(made::checked_week(week));
        for (name, _) in set.files.iter().filter(|(n, _)| n.starts_with("order_")) {
            let letter = set.file(name);
            assert!(letter.contains(&format!(" at 3.65{unit}, ")), "{letter}");
            assert!(!letter.contains(other), "{letter}");
        }
    }
}

/// The next week's rack takes a drop as it lies: cut clean at its near end; at its far end as the piece that it
/// was cut from, and as long as it lies on the floor.
#[test]
fn the_next_rack_knows_which_ends_are_clean() {
    let mut week = made::demo_week("demo_us");
    for piece in &mut week.rack {
        piece.count = 2;
        (piece.near_trim, piece.far_trim) = (true, false);
        piece.length = Length::FOOT * 13;
    }
    // Nothing of the week can be cut from three inches of pipe: they stay.
    let mut stub = week.rack[0].clone();
    (stub.tag, stub.length) = ("R-99".to_owned(), Length::INCH * 3);
    week.rack.push(stub);
    week.shop.money.keep_length = Length::INCH;
    let set = Set::of(made::checked_week(week));
    let week = set.plan.week();
    let rows = set.records("rack_next.csv");
    let yes = |yes: bool| if yes { "yes" } else { "no" };
    let (mut from_rack, mut from_mill) = (0, 0);
    for kept in &set.plan.plan().kept {
        let row = rows.iter().find(|r| r["tag"] == kept.tag).expect("its row");
        let joints = &set.plan.plan().joints;
        let joint = joints
            .iter()
            .find(|j| j.number == kept.joint)
            .expect("its joint");
        let far = match joint.source {
            JointSource::Rack(piece, _) => {
                from_rack += 1;
                week.rack[piece].far_trim
            }
            JointSource::Bought(_) => {
                from_mill += 1;
                true
            }
        };
        assert_eq!(row["near_trim"], "no", "{row:?}");
        assert_eq!(row["far_trim"], yes(far), "{row:?}");
        let lies = kept.floor.down_to(Length::SIXTY_FOURTH);
        assert_eq!(row["length"], lies.print(week.shop.units), "{row:?}");
    }
    let mut stays = 0;
    for piece in &week.rack {
        for row in rows.iter().filter(|r| r["tag"] == piece.tag) {
            stays += 1;
            assert_eq!(row["near_trim"], yes(piece.near_trim), "{row:?}");
            assert_eq!(row["far_trim"], yes(piece.far_trim), "{row:?}");
        }
    }
    assert!(
        from_mill > 0 && from_rack > 0 && stays > 0,
        "{from_mill} {from_rack} {stays}"
    );
}

/// A kit's crate weighs each of its pieces, all copies of it, on paper as in text.
#[test]
fn a_kits_crate_weighs_all_its_pieces() {
    for gates in [1, 3] {
        let mut week = made::demo_week("demo_us");
        week.gates.retain(|g| g.kit);
        week.extras.clear();
        week.gates[0].count = gates;
        let set = Set::of(made::checked_week(week));
        let text = set.file("kit_A6.txt");
        let paper = set.drawn("Kit sheets");
        let mut all = 0.0;
        let mut pieces = 0;
        for part in set.plan.take_off().parts.iter().filter(|p| p.ours) {
            all += part.weight * f64::from(part.count);
            pieces += part.count;
            let together = part.weight * f64::from(part.count);
            let row = format!("{:.1} {together:.1}", part.weight);
            assert!(text.contains(&row), "{}: {row} in {text}", part.mark);
            let a_gate = part.weight * f64::from(part.per_gate);
            let row = format!("{:.1} lb {a_gate:.1} lb", part.weight);
            assert!(paper.contains(&row), "{}: {row} in {paper}", part.mark);
        }
        let said = format!("{pieces} pieces in all, {all:.1} lb of bare pipe.");
        assert!(text.contains(&said), "{said} in {text}");
    }
}
