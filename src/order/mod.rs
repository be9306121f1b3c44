//! Rows → `Week`: the shop, its gate orders, extra parts, quotes and rack, judged once.
//!
//! After this crossing nothing re-validates: a [`Week`] holds only values that are possible one by
//! one (sizes positive and finite, marks unique, pipes known, dates real). What is impossible
//! *together* (a gate whose bays cannot be had, a part longer than every joint) is found by the
//! rooms that know the geometry and is reported as an [`Impossible`].

mod bay_lines;
mod begun;
mod breaks;
mod currency;
mod dates;
mod decimal_mark;
mod fault;
mod faults;
mod gate_notices;
mod gate_order;
mod judge_count;
mod judge_size;
mod leaf;
mod mark;
mod marks;
mod names;
mod nearest_word;
mod odd_price;
mod odd_terms;
mod order_list;
mod order_rows;
mod orders_file;
mod paperwork;
mod parts_file;
mod piece_id;
mod pipe_book;
mod pipe_key;
mod price_basis;
mod print_faults;
mod progress_file;
mod published_pipe;
mod quote;
mod rack_file;
mod read_week;
mod remnant_id;
mod rolling;
mod row_pipe;
mod sheet;
mod shop;
mod shop_file;
mod spelling;
mod splice_rules;
mod starter;
mod stock_dates;
mod stock_file;
mod stock_rows;
mod supplier;
mod suppliers_file;
mod usual;
mod week;
mod wide_opening;

pub use begun::{Begun, BegunLine};
pub use fault::{Fault, Impossible, Severity};
pub use gate_order::{Bays, GateOrder, GatePipes, Hand, SeenFrom};
pub(crate) use nearest_word::suggestion;
pub use order_rows::order_rows;
pub use paperwork::Paperwork;
pub use piece_id::PieceId;
pub use pipe_key::PipeKey;
pub use price_basis::{PriceBasis, QuotedPrice};
pub use print_faults::print_faults;
pub use progress_file::{ProgressRow, read_progress};
pub use quote::{Lift, Quote, QuoteTerms};
pub use read_week::{WeekFiles, read_week};
pub use remnant_id::RemnantId;
pub use rolling::Rolling;
pub use shop::{
    BuyingRules, Carrier, CutMethod, FabricRules, Finisher, GateStandards, HeightMeaning, KitRules,
    Lean, MinuteRules, MoneyRules, Saw, Shop, SwayRules, TailRule, Variant,
};
pub use splice_rules::{SplicePolicy, SpliceRules};
pub use starter::starter_week;
pub use stock_rows::{ExtraPart, RackPiece};
pub use supplier::{FreightStep, Supplier};
pub use week::{Origin, Pipe, PipeId, Week};
pub use wide_opening::WideOpening;
