//! What is handed over: paper, pages and workbooks, read back by other means.

mod blade;
mod browser;
#[path = "../world/demo.rs"]
mod demo;
mod drawn_geometry;
mod facts;
mod fitters_words;
mod kit_words;
mod labels_and_tags;
#[path = "../world/made.rs"]
mod made;
mod paper_money;
mod paper_pages;
mod paper_set;
mod pdf_text;
mod planned_length;
#[path = "../world/poppler.rs"]
mod poppler;
mod right_figures;
mod said_in_full;
#[path = "../world/tiny.rs"]
mod tiny;
#[path = "../world/tiny_week.rs"]
mod tiny_week;
mod workbook;
