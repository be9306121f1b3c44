//! `yard.db`: the only room that knows the database.
//!
//! One append-only table of entries, one of issued plans with the files they were made from, and a cache of the
//! stand that may go at any time. SQLite, kept so that a shop may put the folder on a network drive
//! and pull the plug: rollback journal (WAL needs shared memory, which network folders lack),
//! `synchronous = EXTRA`, foreign keys, recursive triggers (else INSERT OR REPLACE walks through the
//! triggers that refuse deletions), no trusted schema, `BEGIN IMMEDIATE`, and a lock file of its own
//! for the one writer, who is named to the second.

mod cache;
mod copy;
mod entries;
mod fault;
mod lines;
mod lock;
mod open;
mod pack;
mod plans;
mod schema;

pub use fault::StoreFault;
pub use lines::Restored;
pub use open::{DATABASE, Store};
pub use plans::{PlanFile, StoredPlan};
