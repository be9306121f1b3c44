//! orders.csv → gate orders, every optional column settled by the shop's standards.

use super::bay_lines::{read_bays, read_brackets};
use super::faults::Faults;
use super::gate_notices::{gate_notices, odd_notices};
use super::judge_count::parse_gate_count;
use super::judge_size::{Bounds, judge_size};
use super::leaf::{self, Given};
use super::mark::{parse_mark, parse_name, parse_note};
use super::marks::Marks;
use super::nearest_word::suggestion;
use super::order_list::parse_bay_numbers;
use super::paperwork::read_paperwork;
use super::pipe_book::PipeBook;
use super::rolling::{Asked, judge_rollers, read_rolling};
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::{ShopFile, Standard};
use super::{GateOrder, GatePipes, Hand, HeightMeaning, PipeId, Rolling, SeenFrom};
use crate::measure::{FaultCode, Length, Misread, Unit, parse_date_in};
use crate::text::SourceFile;

/// Columns of orders.csv.
pub(super) const COLUMNS: [Column; 36] = [
    alias("mark", &["gate", "gate_mark"]),
    alias("count", &["qty", "quantity"]),
    alias("opening", &["clear_opening"]).number(),
    column("height").number(),
    column("hand"),
    alias("seen_from", &["hand_seen_from", "hand_from"]),
    column("overlap").number(),
    alias("tail", &["counterbalance"]).number(),
    alias("leaf", &["overall", "leaf_length"]).number(),
    alias("bays", &["bay_count"]),
    column("bay_lines"),
    alias("brackets", &["bracket_welds"]),
    alias("horizontal", &["horizontals", "horizontal_pipe"]),
    alias("end_post", &["end_posts", "end_post_pipe"]),
    alias("tail_post", &["tail_post_pipe"]),
    alias("vertical", &["verticals", "vertical_pipe"]),
    alias("diagonal", &["diagonals", "diagonal_pipe"]),
    column("sway_pipe"),
    column("finish"),
    alias("due", &["due_date"]),
    alias("barbed", &["barbed_strands", "strands"]),
    alias("sway", &["sway_brace"]),
    column("automated"),
    column("kit"),
    alias("excluded_bays", &["no_splice_bays", "bays_excluded"]),
    column("roller_spacing").number(),
    column("lead").number(),
    alias("carrier", &["rollers_on"]),
    column("fabric_weight").number(),
    column("load_factor").number(),
    alias("high_stress", &["high_stress_splices"]),
    alias("customer", &["client"]),
    alias("job", &["job_number", "job_no", "job_#", "project"]),
    alias(
        "purchase_order",
        &["po", "po_number", "po_no", "customer_po"],
    ),
    alias("ship_to", &["deliver_to", "delivery_address", "site"]),
    alias("note", &["notes"]),
];

/// What every row is judged by.
struct Desk<'a> {
    shop: &'a ShopFile,
    unit: Option<Unit>,
}

/// Reads orders.csv.
pub(super) fn read_orders(
    file: &SourceFile,
    shop: &ShopFile,
    book: &mut PipeBook,
    marks: &mut Marks,
    faults: &mut Faults,
) -> Vec<GateOrder> {
    let mut sheet = Sheet::open_with(file, &COLUMNS, &shop.extra_columns, faults);
    if !sheet.require(&["mark", "count", "opening", "height"], faults) {
        return Vec::new();
    }
    if !sheet.has("hand") {
        faults.warn(
            FaultCode::ColumnMissing,
            &sheet.missing("hand"),
            "there is no column hand: every sheet will say left",
            "add a column hand with left or right (it changes no part)",
        );
    }
    let desk = Desk {
        shop,
        unit: shop.units.map(Unit::of),
    };
    let mut orders = Vec::new();
    for cells in sheet.rows() {
        let mark = cells.need("mark", faults, parse_mark);
        let count = cells.need("count", faults, parse_gate_count);
        if let Some(mark) = &mark {
            marks.add(mark, count.unwrap_or(1), cells.spot("mark"), faults);
        }
        if count == Some(0) {
            faults.note(
                FaultCode::NothingToDo,
                &cells.spot("count"),
                "the count is 0: the row is kept and does nothing",
                "write a count to build it",
            );
        }
        let order = desk.read(&cells, mark, count, book, faults);
        if let Some(order) = &order {
            gate_notices(&cells, order, &shop.shop, faults);
            odd_notices(&cells, order, &shop.shop, faults);
        }
        orders.extend(order);
    }
    if orders.is_empty() && !faults.any_error() {
        faults.note(
            FaultCode::NothingToDo,
            &sheet.spot(),
            "there is no gate in it",
            "add a row for each gate",
        );
    }
    orders
}

impl Desk<'_> {
    /// One row. Every cell is read before anything is given up, so that all faults are found.
    fn read(
        &self,
        cells: &Cells<'_>,
        mark: Option<String>,
        count: Option<u32>,
        book: &mut PipeBook,
        faults: &mut Faults,
    ) -> Option<GateOrder> {
        let opening = self.size(cells, "opening", Bounds::SPAN, faults);
        let pipes = self.pipes(cells, book, faults);
        let height = self.size(cells, "height", Bounds::HEIGHT, faults);
        let height = height.and_then(|h| self.outside(cells, h, pipes.as_ref(), book, faults));
        let given = Given {
            overlap: self.maybe(cells, "overlap", Bounds::OVERLAP, faults),
            tail: self.maybe(cells, "tail", Bounds::TAIL, faults),
            leaf: self.maybe(cells, "leaf", Bounds::LEAF, faults),
        };
        let hand = self.hand(cells, faults);
        let seen_from = cells.read("seen_from", faults, parse_side);
        let units = self.shop.shop.units;
        let leaf = opening
            .and_then(|o| leaf::settle(cells, o, &given, &self.shop.shop.gate, units, faults));
        let bays = read_bays(cells, self.unit, leaf.as_ref().map(|l| l.leaf), faults);
        let order = self.shop.date_order;
        let brackets = read_brackets(cells, self.unit, leaf.as_ref().map(|l| l.leaf), faults);
        let due = cells.read("due", faults, |t| parse_date_in(t, order));
        let barbed = self.barbed(cells, faults);
        let sway = cells.yes("sway", faults).unwrap_or(false);
        let automated = cells.yes("automated", faults).unwrap_or(false);
        let kit = cells.yes("kit", faults).unwrap_or(false);
        let excluded_bays = cells.read("excluded_bays", faults, parse_bay_numbers);
        let rolling = Rolling {
            spacing: self.maybe(cells, "roller_spacing", Bounds::TAIL, faults),
            lead: self.maybe(cells, "lead", Bounds::OVERLAP, faults),
            ..read_rolling(cells, faults)
        };
        let high_stress = cells.yes("high_stress", faults).unwrap_or(false);
        let paperwork = read_paperwork(cells, faults);
        let note = cells.read("note", faults, parse_note).unwrap_or_default();
        let leaf = leaf?;
        let asked = Asked {
            rolling: &rolling,
            leaf: &leaf,
            opening: opening?,
        };
        judge_rollers(cells, asked, &self.shop.shop, faults)?;
        Some(GateOrder {
            mark: mark?,
            count: count?,
            opening: opening?,
            height: height?,
            hand,
            seen_from,
            latch_overlap: leaf.latch_overlap,
            roller_overlap: leaf.roller_overlap,
            tail: leaf.tail,
            leaf: leaf.leaf,
            tail_by_rule: given.tail.is_none() && given.leaf.is_none(),
            bays: bays?,
            pipes: pipes?,
            due,
            barbed,
            sway,
            automated,
            kit,
            excluded_bays: excluded_bays.unwrap_or_default(),
            brackets: brackets?,
            rolling,
            high_stress,
            paperwork,
            note,
            origin: cells.spot("mark").origin(),
        })
    }

    /// A length that must be there.
    fn size(
        &self,
        cells: &Cells<'_>,
        name: &str,
        bounds: Bounds,
        faults: &mut Faults,
    ) -> Option<Length> {
        if cells.text(name).is_empty() {
            faults.error(
                FaultCode::ValueMissing,
                &cells.spot(name),
                &format!("the {name} is missing"),
                &format!("fill in the {name}"),
            );
            return None;
        }
        self.maybe(cells, name, bounds, faults)
    }

    /// A length that may be there.
    fn maybe(
        &self,
        cells: &Cells<'_>,
        name: &str,
        bounds: Bounds,
        faults: &mut Faults,
    ) -> Option<Length> {
        let parsed = cells.length(name, self.unit, faults)?;
        judge_size(cells, name, &parsed, bounds, self.shop.shop.units, faults)
    }

    fn hand(&self, cells: &Cells<'_>, faults: &mut Faults) -> Hand {
        if cells.has("hand") && cells.text("hand").is_empty() {
            faults.warn(
                FaultCode::ValueMissing,
                &cells.spot("hand"),
                "no hand is given: the sheets will say left",
                "write left or right (it changes no part)",
            );
        }
        cells.read("hand", faults, parse_hand).unwrap_or(Hand::Left)
    }

    /// The height outside to outside of the horizontals, whatever the shop means by height.
    fn outside(
        &self,
        cells: &Cells<'_>,
        height: Length,
        pipes: Option<&GatePipes>,
        book: &PipeBook,
        faults: &mut Faults,
    ) -> Option<Length> {
        let gate = &self.shop.shop.gate;
        let outside = match gate.height {
            HeightMeaning::Outside => height,
            HeightMeaning::Axes => {
                let horizontal = book.get(pipes?.horizontal)?;
                height + Length::nearest_tick(horizontal.diameter())
            }
            HeightMeaning::Fabric { difference } => height + difference,
            HeightMeaning::Grade => height - gate.clearance.unwrap_or(Length::ZERO),
        };
        if outside <= Length::ZERO {
            faults.error(
                FaultCode::ValueOutOfRange,
                &cells.spot("height"),
                "nothing is left of the height for the frame",
                "check gate.height_means in shop.toml, and the height",
            );
            return None;
        }
        Some(outside)
    }

    fn pipes(
        &self,
        cells: &Cells<'_>,
        book: &mut PipeBook,
        faults: &mut Faults,
    ) -> Option<GatePipes> {
        let standards = &self.shop.standards;
        let fallback = |id: Option<PipeId>| Standard { named: true, id };
        let mut pick = |column: &str, standard: Standard, needed: bool| {
            let name = cells.text(column);
            if cells.unworked(column, faults) {
                return None;
            }
            if !name.is_empty() {
                return book.find(name, &cells.spot(column));
            }
            if needed && !standard.named && !book.is_empty() {
                faults.error(
                    FaultCode::ValueMissing,
                    &cells.spot(column),
                    &format!("no pipe is named for the {column}"),
                    &format!("fill in the column, or set gate.{column} in shop.toml"),
                );
            }
            standard.id
        };
        let horizontal = pick("horizontal", standards.horizontal, true);
        let latch_post = pick("end_post", standards.end_post, true);
        let vertical = pick("vertical", standards.vertical, true);
        let diagonal = pick("diagonal", standards.diagonal, true);
        let tail_post = pick("tail_post", fallback(latch_post), false);
        let sway = pick("sway_pipe", fallback(standards.sway.or(vertical)), false);
        let finish = cells.read("finish", faults, parse_name).unwrap_or_default();
        book.ask_finish(cells.spot("finish"), &finish);
        let mut finished = |id: Option<PipeId>| id.map(|id| book.with_finish(id, &finish));
        Some(GatePipes {
            horizontal: finished(horizontal)?,
            latch_post: finished(latch_post)?,
            tail_post: finished(tail_post)?,
            vertical: finished(vertical)?,
            diagonal: finished(diagonal)?,
            sway: finished(sway)?,
        })
    }

    fn barbed(&self, cells: &Cells<'_>, faults: &mut Faults) -> u32 {
        let strands = cells.count("barbed", faults).unwrap_or(0);
        if strands > 20 {
            faults.error(
                FaultCode::ValueOutOfRange,
                &cells.spot("barbed"),
                "more than 20 barbed strands is past all sense",
                "write how many strands, usually 3",
            );
            return 0;
        }
        strands
    }
}

fn parse_side(text: &str) -> Result<SeenFrom, Misread> {
    match text.to_lowercase().as_str() {
        "street" | "outside" => Ok(SeenFrom::Street),
        "yard" | "inside" => Ok(SeenFrom::Yard),
        _ => Err(Misread::new(
            &format!("\"{text}\" is no side from which a hand is seen"),
            "write street or yard",
        )),
    }
}

fn parse_hand(text: &str) -> Result<Hand, Misread> {
    match text.to_lowercase().as_str() {
        "left" | "l" | "lh" => Ok(Hand::Left),
        "right" | "r" | "rh" => Ok(Hand::Right),
        _ => Err(Misread::new(
            &format!("\"{text}\" is no hand"),
            &format!(
                "write left or right; {}",
                suggestion(text, ["left", "right"])
            ),
        )),
    }
}
