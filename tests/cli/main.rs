//! The real binary, run as a user runs it.

mod document;
mod folder;
mod new;
mod paper;
mod refusal;
mod run;
mod same_bytes;
mod splice;
mod workbook;
