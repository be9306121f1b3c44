//! `Page`: a sheet of paper of a given size with what is drawn on it.

use super::Item;

/// A page, points.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Width, points.
    pub width: f64,
    /// Height, points.
    pub height: f64,
    /// Name in the document's outline; empty pages of one section share one entry.
    pub title: String,
    /// What is drawn, back to front.
    pub items: Vec<Item>,
}
