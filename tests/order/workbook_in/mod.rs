//! Lists read from a workbook: the same rows as from text, the same faults by sheet and cell, and no
//! panic whatever the bytes.

mod corrupt;
mod faults;
mod same;
mod silent;
mod world;
