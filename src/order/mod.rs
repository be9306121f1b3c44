//! Rows → `Week`: the shop, its gate orders, extra parts, quotes and rack, judged once.
//!
//! After this crossing nothing re-validates: a [`Week`] holds only values that are possible one by
//! one (sizes positive and finite, marks unique, pipes known, dates real). What is impossible
//! *together* (a gate whose bays cannot be had, a part longer than every joint) is found by the
//! rooms that know the geometry and is reported as an [`Impossible`].

mod fault;
mod gate_order;
mod shop;
mod stock_rows;
mod week;

pub use fault::{Fault, Impossible, Severity};
pub use gate_order::{Bays, GateOrder, GatePipes, Hand};
pub use shop::{
    Carrier, CutMethod, FabricRules, Finisher, GateStandards, HeightMeaning, KitRules, Lean,
    MinuteRules, MoneyRules, Saw, Shop, SplicePolicy, SpliceRules, SwayRules, TailRule, Variant,
};
pub use stock_rows::{ExtraPart, Quote, RackPiece};
pub use week::{Origin, Pipe, PipeId, Week};
