//! `CheckedPlan` → sheets → text, CSV, JSON, and what is drawn: PDF, SVG.

pub mod draw;
pub mod pdf;
pub mod svg;
