//! Remnants: kept drops with their tags, and what the rack gave.

use rust_decimal::Decimal;

use crate::measure::{Length, Money, cents_that_add};
use crate::plan::{JointSource, Plan};

use super::figures::Figures;
use super::job::Job;
use super::rack_next::{left_on_the_rack, whole_tags};
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The remnants of the week.
pub(super) fn remnants(job: Job<'_>) -> Sheet {
    let figures = Figures::of(job.week);
    let mut blocks = vec![Block::Note(
        "Paint the tag and the floor length on each kept piece. Credited length is what the next \
         plan may count on after a clean cut. rack_next.csv is the rack once all is cut: \
         copy it as rack.csv into the next week's folder."
            .to_owned(),
    )];
    blocks.push(Block::Group {
        title: "KEEP".to_owned(),
        aside: job.heading().strip(),
        blocks: keep(job, figures),
    });
    blocks.push(Block::Group {
        title: "TAKEN OFF THE RACK".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![taken(job, figures)],
    });
    for (title, points) in [
        (
            "STAYS ON THE RACK: saves nothing this week",
            staying(job, figures),
        ),
        (
            "TO THE RACK AS THEY CAME: bought and left whole",
            whole(job, figures),
        ),
    ] {
        if !points.is_empty() {
            blocks.push(Block::Group {
                title: title.to_owned(),
                aside: job.heading().strip(),
                blocks: vec![Block::Points(points)],
            });
        }
    }
    Sheet {
        stem: "remnants".to_owned(),
        title: "REMNANTS".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job, figures)),
    }
}

fn keep(job: Job<'_>, figures: Figures<'_>) -> Vec<Block> {
    let kept = &job.plan.kept;
    if kept.is_empty() {
        return vec![Block::Note("Nothing is kept.".to_owned())];
    }
    let credits = credits(job.plan);
    let rows = kept.iter().zip(&credits).map(|(k, credit)| {
        vec![
            Cell::text("[ ]"),
            Cell::text(&k.tag),
            Cell::count(k.joint),
            Cell::text(job.short_pipe(k.pipe)),
            figures.left_cell(k.floor, true),
            figures.left_cell(k.drop, true),
            figures.money(Some(*credit)),
        ]
    });
    let table = Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("tag", Kind::Mark),
            Column::new("joint", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("ON THE FLOOR", "floor"),
            figures.column("credited length", "credited_length"),
            figures.money_column("credit", "credit"),
        ],
        rows: rows.collect(),
    };
    let floor: Length = kept.iter().map(|k| k.floor).sum();
    let credit: Money = credits.iter().copied().sum();
    let total = format!(
        "{} kept, {} on the floor in all, credit {}.",
        kept.len(),
        super::buy_list::footage(job, floor),
        figures.spoken_money(Some(credit))
    );
    vec![Block::Table(table), Block::Note(total)]
}

fn taken(job: Job<'_>, figures: Figures<'_>) -> Block {
    let rows: Vec<Vec<Cell>> = job
        .plan
        .joints
        .iter()
        .filter_map(|joint| match joint.source {
            JointSource::Rack(piece, _) => Some((joint, &job.week.rack[piece])),
            JointSource::Bought(_) => None,
        })
        .map(|(joint, piece)| {
            vec![
                Cell::text("[ ]"),
                Cell::text(&piece.tag),
                Cell::text(job.short_pipe(piece.pipe)),
                figures.exact(piece.length),
                Cell::count(joint.number),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Block::Note("Nothing.".to_owned());
    }
    Block::Table(Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("tag", Kind::Mark),
            Column::new("pipe", Kind::Words),
            figures.column("measured", "measured"),
            Column::new("cut as joint", Kind::Number),
        ],
        rows,
    })
}

/// The credit of each kept drop in cents that add up, with those of joints left whole, to what the plan
/// takes off.
pub(super) fn credits(plan: &Plan) -> Vec<Money> {
    let kept = plan.kept.iter().map(|k| k.credit);
    let whole = plan.uncut.iter().map(|u| u.credit);
    // Credits were whole 1/1000 cents before they were money.
    let exact = kept.chain(whole).map(|c| c.millicents().unwrap_or(0));
    let cents = cents_that_add(&exact.collect::<Vec<i64>>()).into_iter();
    let money = cents.map(|c| Money(Decimal::new(c, 2)));
    money.take(plan.kept.len()).collect()
}

/// Rack pieces that are not cut.
fn staying(job: Job<'_>, figures: Figures<'_>) -> Vec<String> {
    let left = left_on_the_rack(job).map(|(piece, n)| {
        let length = figures.spoken(piece.length);
        let pipe = job.short_pipe(piece.pipe);
        format!(
            "{n} x {}: {length} of {pipe}",
            super::table::clean(&piece.tag)
        )
    });
    left.collect()
}

/// Joints bought to be left whole.
fn whole(job: Job<'_>, figures: Figures<'_>) -> Vec<String> {
    let tags = whole_tags(job);
    let whole = job.plan.uncut.iter().zip(&tags).map(|(u, tag)| {
        let quote = &job.week.quotes[u.quote];
        let length = figures.spoken(quote.nominal);
        let pipe = job.short_pipe(quote.pipe);
        format!("{} x {tag}: new {length} of {pipe}", u.joints)
    });
    whole.collect()
}

fn records(job: Job<'_>, figures: Figures<'_>) -> Table {
    let rows = job.plan.kept.iter().zip(credits(job.plan));
    let rows = rows.map(|(k, credit)| {
        vec![
            Cell::text(&k.tag),
            Cell::count(k.joint),
            Cell::text(job.pipe(k.pipe)),
            figures.left_cell(k.floor, true),
            figures.left_cell(k.drop, true),
            figures.money(Some(credit)),
        ]
    });
    Table {
        columns: vec![
            Column::new("tag", Kind::Mark),
            Column::new("joint", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("floor", "floor"),
            figures.column("credited length", "credited_length"),
            figures.money_column("credit", "credit"),
        ],
        rows: rows.collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Uncut;
    use crate::report::print_text::print_text;
    use crate::report::world::world;

    #[test]
    fn printed_credits_add_up_to_what_the_plan_takes_off() {
        let mut world = world();
        let third = Money::from_millicents(333_400); // 3.334
        let mut kept = world.plan.kept[0].clone();
        kept.credit = third;
        world.plan.kept = vec![kept.clone(), kept];
        world.plan.uncut = vec![Uncut {
            quote: world.plan.buy[0].quote,
            joints: 1,
            credit: third,
        }];
        // 10.002 is 10.00: one of three equal ones is a cent more, the first.
        let cents = |n| Money(Decimal::new(n, 2));
        assert_eq!(credits(&world.plan), [cents(334), cents(333)]);
        let sheet = print_text(&remnants(world.job()));
        assert!(sheet.contains("credit $6.67."), "{sheet}");
        let (_, whole) = sheet.split_once("TO THE RACK AS THEY CAME").expect("named");
        assert!(whole.contains("1 x N1: new "), "{sheet}");
        assert!(!sheet.contains("STAYS"), "{sheet}");
    }
}
