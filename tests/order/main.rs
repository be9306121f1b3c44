//! Lists, settings and orders as they are read: faults, notices, workbooks, any bytes at all.

mod bad_input;
#[path = "../world/demo.rs"]
mod demo;
mod demo_weeks;
mod measures;
mod no_panic;
mod workbook_in;
