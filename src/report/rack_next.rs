//! `rack_next.csv`: the rack as it lies when all is cut, in the very columns that rack.csv has.

use crate::measure::{Length, Units};
use crate::order::{PipeId, RackPiece};
use crate::plan::{JointSource, Kept};

use super::figures::Figures;
use super::job::Job;
use super::print_csv::{BYTE_ORDER_MARK, safe};

/// Its name in a results folder.
const NAME: &str = "rack_next.csv";

/// One row of a rack list.
struct Row {
    tag: String,
    pipe: PipeId,
    length: Length,
    count: u32,
    near_trim: bool,
    far_trim: bool,
    note: String,
}

/// Next week's rack.csv: what stays, the drops kept, joints bought and left whole. Spares bought on
/// top are not in it: nobody knows how many were used.
///
/// A kept drop was cut clean at its near end; its far end is the joint's own. With its floor length
/// the next plan counts on just the credited length.
pub(super) fn rack_next(job: Job<'_>) -> Option<(String, String)> {
    let head = [
        "tag",
        "pipe",
        "finish",
        "length",
        "count",
        "near_trim",
        "far_trim",
        "note",
    ];
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing to memory cannot fail.
    writer.write_record(head).ok()?;
    for row in rows(job) {
        writer.write_record(cells(job, &row)).ok()?;
    }
    let text = String::from_utf8(writer.into_inner().ok()?).ok()?;
    Some((NAME.to_owned(), format!("{BYTE_ORDER_MARK}{text}")))
}

fn rows(job: Job<'_>) -> Vec<Row> {
    let stays = left_on_the_rack(job).map(|(piece, count)| Row {
        tag: piece.tag.clone(),
        pipe: piece.pipe,
        length: piece.length,
        count,
        near_trim: piece.near_trim,
        far_trim: piece.far_trim,
        note: piece.note.clone(),
    });
    let mut rows: Vec<Row> = stays.collect();
    rows.extend(job.plan.kept.iter().map(|kept| drop(job, kept)));
    let mut number = 0;
    for whole in &job.plan.uncut {
        let quote = &job.week.quotes[whole.quote];
        let tag = loop {
            number += 1;
            let tag = format!("N{number}");
            if !taken(job, &rows, &tag) {
                break tag;
            }
        };
        rows.push(Row {
            tag,
            pipe: quote.pipe,
            length: quote.planning,
            count: whole.joints,
            near_trim: true,
            far_trim: true,
            note: "bought and left whole: measure it".to_owned(),
        });
    }
    rows
}

/// A tag that a row has, or that a piece of this week's rack had.
fn taken(job: Job<'_>, rows: &[Row], tag: &str) -> bool {
    let same = |other: &str| other.eq_ignore_ascii_case(tag);
    rows.iter().any(|row| same(&row.tag)) || job.week.rack.iter().any(|piece| same(&piece.tag))
}

/// Rack rows with the pieces of each that are not cut.
pub(super) fn left_on_the_rack<'a>(job: Job<'a>) -> impl Iterator<Item = (&'a RackPiece, u32)> {
    let cut = move |row: usize| {
        let joints = job.plan.joints.iter();
        let mine = joints.filter(|j| matches!(j.source, JointSource::Rack(r, _) if r == row));
        u32::try_from(mine.count()).unwrap_or(u32::MAX)
    };
    let rows = job.week.rack.iter().enumerate();
    rows.map(move |(i, piece)| (piece, piece.count.saturating_sub(cut(i))))
        .filter(|(_, left)| *left > 0)
}

fn drop(job: Job<'_>, kept: &Kept) -> Row {
    let of = job.plan.joints.iter().find(|j| j.number == kept.joint);
    let far_trim = match of.map(|j| j.source) {
        Some(JointSource::Rack(piece, _)) => job.week.rack[piece].far_trim,
        _ => true,
    };
    Row {
        tag: kept.tag.clone(),
        pipe: kept.pipe,
        length: kept.floor,
        count: 1,
        near_trim: false,
        far_trim,
        note: format!("left of joint {}, {}", kept.joint, job.heading().strip()),
    }
}

fn cells(job: Job<'_>, row: &Row) -> Vec<String> {
    let figures = Figures::of(job.week);
    let pipe = job.week.pipe(row.pipe);
    let yes = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    let length = match job.units() {
        // Nothing is added by print: a length off the tape's finest mark is rounded down to it.
        Units::Inch => figures.words(row.length.down_to(Length::SIXTY_FOURTH)),
        Units::Metric => format!("{} mm", figures.number(row.length)),
    };
    vec![
        safe(&row.tag),
        safe(&pipe.name),
        safe(&pipe.finish),
        length,
        row.count.to_string(),
        yes(row.near_trim),
        yes(row.far_trim),
        safe(&row.note),
    ]
}
