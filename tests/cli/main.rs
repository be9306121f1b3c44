//! The real binary, run as a user runs it.

mod buying;
mod compare;
mod compare_weeks;
mod document;
mod documents;
mod drawn;
mod faults_json;
mod folder;
mod in_a_day;
mod nest_words;
mod new;
mod next_week;
mod paper;
mod paperwork;
#[path = "../world/poppler.rs"]
mod poppler;
mod progress;
mod refusal;
mod run;
mod same_bytes;
mod same_words;
mod screen;
mod screen_nest;
mod sizes;
mod splice;
mod stopped;
mod stray_files;
mod workbook;
