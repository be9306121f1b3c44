//! Sections of blocks → pages: no block is split, heads repeat, every page carries the plan's name.

use super::size::{CLIP_ROOM, FOOT, HEADER, SIDE};
use super::{Block, Paper};
use crate::report::draw::{Group, Item, Page, Path, Pen, Shape, Text};

/// Blocks in a row, with a head drawn again at the top of every page they run onto.
#[derive(Clone, Debug, Default)]
pub struct Piece {
    /// The head.
    pub head: Option<Block>,
    /// Blocks, none of which is split.
    pub blocks: Vec<Block>,
}

impl Piece {
    /// One block without a head.
    pub fn of(block: Block) -> Piece {
        Piece {
            head: None,
            blocks: vec![block],
        }
    }
}

/// A section: begins on a page of its own.
#[derive(Clone, Debug, Default)]
pub struct Section {
    /// Name in the document's outline (`Cut sheets`).
    pub title: String,
    /// What the header of its pages says (`Cut sheet, saw 1`).
    pub header: String,
    /// What it holds.
    pub pieces: Vec<Piece>,
}

/// What every page says of the plan.
#[derive(Clone, Debug, Default)]
pub struct Furniture {
    /// `plan … revision … date`, right in the header.
    pub plan: String,
    /// The shop's name, left in the footer.
    pub shop: String,
    /// Marks left out of the plan, for every header; empty when none.
    pub left_out: String,
}

/// Space between blocks, points.
pub(super) const GAP: f64 = 6.0;

/// One page's worth of blocks, each with its distance from the top of the room.
type Sheet = Vec<(f64, Block)>;

/// A section laid onto pages.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Name in the document's outline.
    pub title: String,
    header: String,
    sheets: Vec<Sheet>,
}

impl Laid {
    /// Lays a section onto pages of a paper.
    pub fn of(section: Section, paper: Paper) -> Laid {
        Laid {
            title: section.title.clone(),
            header: section.header.clone(),
            sheets: lay(section, paper.room_height()),
        }
    }

    /// Pages it takes.
    pub fn pages(&self) -> usize {
        self.sheets.len()
    }
}

/// Lays one section's blocks onto pages of a room height. A block higher than a whole page stands
/// alone on one (sections see to it that none is).
fn lay(section: Section, room: f64) -> Vec<Sheet> {
    let mut sheets: Vec<Sheet> = vec![Sheet::new()];
    let mut y = 0.0;
    for piece in section.pieces {
        let mut headless = piece.head.is_some();
        let head_height = piece.head.as_ref().map_or(0.0, |h| h.height);
        for block in piece.blocks {
            let lead = if headless { head_height } else { 0.0 };
            if y > 0.0 && y + lead + block.height > room {
                sheets.push(Sheet::new());
                y = 0.0;
                headless = piece.head.is_some();
            }
            let Some(sheet) = sheets.last_mut() else {
                continue;
            };
            if let (true, Some(head)) = (headless, &piece.head) {
                sheet.push((y, head.clone()));
                y += head.height;
                headless = false;
            }
            let height = block.height;
            sheet.push((y, block));
            y += height + if piece.head.is_some() { 0.0 } else { GAP };
        }
        y += GAP;
    }
    sheets
}

/// Binds sections into numbered pages.
pub fn bind(sections: Vec<Laid>, paper: Paper, furniture: &Furniture) -> Vec<Page> {
    let (width, height) = paper.size();
    let total: usize = sections.iter().map(Laid::pages).sum();
    let mut pages: Vec<Page> = Vec::with_capacity(total);
    for section in sections {
        for sheet in section.sheets {
            let items = sheet.into_iter().map(|(y, block)| {
                Item::Group(Group {
                    dx: SIDE,
                    dy: CLIP_ROOM + HEADER + y,
                    items: block.items,
                    ..Group::default()
                })
            });
            let mut page = Page {
                width,
                height,
                title: section.title.clone(),
                items: items.collect(),
            };
            let count = format!("page {} of {total}", pages.len() + 1);
            furnish(&mut page, &section.header, &count, furniture);
            pages.push(page);
        }
    }
    pages
}

fn furnish(page: &mut Page, header: &str, count: &str, furniture: &Furniture) {
    let right = page.width - SIDE;
    let plan = Text::new(right, CLIP_ROOM + 14.0, 11.0, &furniture.plan).end();
    let room = right - SIDE - plan.width() - 20.0;
    let base = CLIP_ROOM + HEADER - 6.0;
    let foot = page.height - FOOT + 18.0;
    let rule = |y: f64, w: f64| {
        Item::Shape(Shape {
            path: Path::line(SIDE, y, right, y),
            pen: Some(Pen::solid(w)),
            fill: None,
            tag: None,
        })
    };
    let header = match furniture.left_out.as_str() {
        "" => header.to_owned(),
        marks => format!("LEFT OUT: {marks} · {header}"),
    };
    let title = Text::new(SIDE, CLIP_ROOM + 14.0, 15.0, header).bold();
    page.items.extend([
        Item::Text(title.fitted(room, 7.0)),
        Item::Text(plan),
        rule(base, 1.0),
        rule(foot - 10.0, 0.4),
        Item::Text(Text::new(SIDE, foot, 9.0, &furniture.shop).fitted(400.0, 6.0)),
        Item::Text(Text::new(right, foot, 9.0, count).end()),
    ]);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn section(heights: &[f64], head: Option<f64>) -> Section {
        Section {
            title: String::from("t"),
            header: String::from("h"),
            pieces: vec![Piece {
                head: head.map(Block::new),
                blocks: heights.iter().map(|h| Block::new(*h)).collect(),
            }],
        }
    }

    #[test]
    fn blocks_are_never_split_and_heads_repeat() {
        let sheets = lay(section(&[40.0, 40.0, 40.0], Some(10.0)), 100.0);
        assert_eq!(sheets.len(), 2);
        assert_eq!(sheets[0].len(), 3, "head and two rows");
        assert_eq!(sheets[1][0].1.height, 10.0, "the head again");
        assert_eq!(sheets[1][1].0, 10.0);
        assert_eq!(lay(section(&[500.0, 10.0], None), 100.0).len(), 2);
    }

    #[test]
    fn every_page_says_which_of_how_many() {
        let furniture = Furniture {
            plan: String::from("plan X revision 0"),
            shop: String::new(),
            left_out: String::new(),
        };
        let laid = Laid::of(section(&[300.0, 300.0], None), Paper::A4);
        let pages = bind(vec![laid], Paper::A4, &furniture);
        let words = |p: &Page| {
            let text = |i: &Item| match i {
                Item::Text(t) => Some(t.words.clone()),
                _ => None,
            };
            p.items.iter().filter_map(text).collect::<Vec<_>>()
        };
        assert_eq!(pages.len(), 2);
        assert!(words(&pages[1]).contains(&String::from("page 2 of 2")));
        assert!(
            pages
                .iter()
                .all(|p| words(p).contains(&String::from("plan X revision 0")))
        );
    }
}
