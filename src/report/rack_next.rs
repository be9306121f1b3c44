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
/// A kept drop was cut clean at its near end; its far end is the joint's own. By its floor length,
/// as the tag has it, the next plan counts on the credited length.
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
    let whole = job.plan.uncut.iter().zip(whole_tags(job));
    rows.extend(whole.map(|(whole, tag)| {
        let quote = &job.week.quotes[whole.quote];
        Row {
            tag,
            pipe: quote.pipe,
            length: quote.planning,
            count: whole.joints,
            near_trim: true,
            far_trim: true,
            note: "bought and left whole: measure it".to_owned(),
        }
    }));
    rows
}

/// Tags `N1`, `N2`… of joints bought and left whole, a tag an entry; what the rack or a kept drop
/// carries is passed over.
pub(super) fn whole_tags(job: Job<'_>) -> Vec<String> {
    let kept = job.plan.kept.iter().map(|k| &k.tag);
    let painted: Vec<&String> = job.week.rack.iter().map(|r| &r.tag).chain(kept).collect();
    (1u64..)
        .map(|n| format!("N{n}"))
        .filter(|tag| !painted.iter().any(|p| p.eq_ignore_ascii_case(tag)))
        .take(job.plan.uncut.len())
        .collect()
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
    let length = figures.left(row.length, true);
    let length = match job.units() {
        Units::Inch => length,
        Units::Metric => format!("{length} mm"),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::{Week, WeekFiles, read_week, starter_week};
    use crate::plan::Uncut;
    use crate::report::world::{World, world};
    use crate::text::SourceFile;

    /// The starter week with this rack.
    fn next_week(rack: String) -> Week {
        let files = starter_week();
        let file = |name: &str| {
            let found = files.iter().find(|(n, _)| *n == name);
            found.map(|(n, text)| SourceFile {
                name: (*n).to_owned(),
                bytes: text.clone().into_bytes(),
            })
        };
        let rack = SourceFile {
            name: "rack.csv".to_owned(),
            bytes: rack.into_bytes(),
        };
        read_week(&WeekFiles {
            orders: file("orders.csv"),
            shop: file("shop.toml"),
            stock: file("stock.csv"),
            rack: Some(rack),
            parts: file("parts.csv"),
            ..WeekFiles::default()
        })
        .unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    /// A world whose rack has a row half used, a kept drop off the 1/64 in and a joint left whole.
    fn left() -> World {
        let mut world = world();
        let mut piece = world.week.rack[0].clone();
        (piece.tag, piece.count) = ("N1".to_owned(), 3);
        world.week.rack.push(piece);
        let quote = world.plan.buy[0].quote;
        world.plan.uncut = vec![Uncut {
            quote,
            joints: 2,
            credit: crate::measure::Money::ZERO,
        }];
        let kept = world.plan.kept.first_mut().expect("the starter keeps");
        kept.floor += Length::from_ticks(5);
        world
    }

    #[test]
    fn the_rack_left_reads_back_under_its_tags() {
        let world = left();
        let job = world.job();
        let (_, text) = rack_next(job).expect("CSV");
        let read = next_week(text.clone()).rack;
        let of = |tag: &str| -> &RackPiece {
            let piece = read.iter().find(|p| p.tag == tag);
            piece.unwrap_or_else(|| panic!("{tag} in {text}"))
        };
        for piece in &world.week.rack {
            let mut rows = left_on_the_rack(job);
            let left = rows.find(|(p, _)| p.tag == piece.tag);
            let left = left.map_or(0, |(_, n)| n);
            let again = read.iter().find(|p| p.tag == piece.tag);
            assert_eq!(again.map_or(0, |p| p.count), left, "{text}");
            if let Some(again) = again {
                assert_eq!(again.length, piece.length);
                let trims = (piece.near_trim, piece.far_trim);
                assert_eq!((again.near_trim, again.far_trim), trims);
            }
        }
        for kept in &world.plan.kept {
            let again = of(&kept.tag);
            // Off the tape's finest mark it is less, never more.
            let finest = kept.floor.down_to(Length::SIXTY_FOURTH);
            assert_eq!((again.length, again.count), (finest, 1), "{text}");
            // Its near end is a saw's cut; the far end still has the mill's.
            assert_eq!((again.near_trim, again.far_trim), (false, true), "{text}");
        }
        // N1 is a tag of the rack: the joints left whole are N2.
        let whole = of("N2");
        let quote = &world.week.quotes[world.plan.uncut[0].quote];
        assert_eq!((whole.length, whole.count), (quote.planning, 2));
        assert!(whole.near_trim && whole.far_trim);
    }

    #[test]
    fn an_empty_rack_reads_back_as_one() {
        let mut world = world();
        world.week.rack.clear();
        world.plan.kept.clear();
        world.plan.joints.clear();
        let (_, text) = rack_next(world.job()).expect("CSV");
        assert!(next_week(text).rack.is_empty());
    }
}
