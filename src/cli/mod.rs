//! The argument table and the only place that touches files.
//!
//! `main.rs` hands the arguments over and gets an exit code back: 0 done; 1 the disk or the checker
//! refused; 2 bad input or impossible work, nothing written; 3 done in part (`--partial`).

mod arguments;
mod arguments_yard;
mod coin;
mod compare_week;
mod cut_now;
mod drawing_file;
mod durable;
mod failure;
mod handed_out;
mod issue;
mod json_places;
mod judge_form;
mod list_parts;
mod nest_file;
mod nest_form;
mod nest_missing;
mod nest_text;
mod new_week;
mod order_rows;
mod plan_week;
mod refusals;
mod results_folder;
mod run;
mod shop_folder;
mod splice_gate;
mod stand;
mod stand_text;
mod stop;
mod stray_files;
mod tell;
mod teller;
mod threads;
mod voice;
mod week_folder;
mod yard;

pub use failure::code;
pub use run::run;
pub use voice::Voice;
