//! The cutting engine and the certificates of its answers.

mod certificate;
mod certificate_of_plan;
#[path = "../world/demo.rs"]
mod demo;
#[path = "../world/dice.rs"]
mod dice;
mod false_bounds;
#[path = "../world/judge.rs"]
mod judge;
mod nest_aims;
mod nest_basics;
mod nest_charges;
mod nest_command;
mod nest_edges;
mod nest_long_lists;
mod nest_many_stocks;
mod nest_published;
mod nest_referee;
mod nest_root_certificate;
#[path = "../world/outside.rs"]
mod outside;
#[path = "../world/referee.rs"]
mod referee;
