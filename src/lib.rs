//! longpoint: from a week of cantilever slide gate orders to parts, splices, cut sheets and a buy
//! list, at least money, with a proof anyone can check.
//!
//! One folder per room, in the order data takes; arrows never point back up:
//!
//! ```text
//! text      characters → rows that remember file, line, column; no judgement
//! order     rows → Week (Shop, GateOrder, …); every fault of every file reported together
//! gate      GateOrder → Frame: centre lines, bays, nodes, joints
//! cope      pipe-on-pipe geometry: setback curve, long point, throat, cutback, wrap template
//! part      Frame → parts with marks and clocking; identical parts grouped
//! statics   Frame → stress envelope along each horizontal as the gate rolls
//! stock     quotes, rack, dates → stocks, credits, charges
//! splice    rules + envelope → slots where a splice may stand, with zone and charge
//! nest      integers only → patterns, splices, bound, certificate; knows nothing of gates
//! plan      which part of which gate, which joint, which cut; sequence; Status
//! check     from the orders up: every rule again, by other code → CheckedPlan or violations
//! compare   the same week under other stock, prices, rules
//! report    CheckedPlan → sheets → text, CSV, XLSX, JSON, and drawn: PDF, SVG, HTML
//! measure   Length, Dimension, Money: parse, print, named roundings
//! yard      what was told → where everything is; pure
//! rest      week + take-off + stand → what is still to do, as a week and the stock that lies
//! store     yard.db: the only room that knows the database
//! cli       the argument table; main.rs: arguments in, exit code out
//! ```
//!
//! Files are touched in `main`, `cli` and `store` alone.

pub mod check;
pub mod cli;
pub mod compare;
pub mod cope;
pub mod gate;
pub mod measure;
pub mod nest;
pub mod order;
pub mod part;
pub mod plan;
pub mod report;
pub mod rest;
pub mod splice;
pub mod statics;
pub mod stock;
pub mod store;
pub mod text;
pub mod yard;
