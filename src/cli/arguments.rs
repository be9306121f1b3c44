//! The argument table.

use std::path::PathBuf;
use std::time::Duration;

use clap::{Parser, Subcommand};
use jiff::civil::Date;
use rust_decimal::Decimal;

use crate::compare::Wishes;
use crate::measure::{Length, parse_date, parse_length, parse_number};
use crate::nest::Limits;
use crate::report::paper::Paper;

use super::arguments_yard::{StandArguments, TellArguments, YardCommand};

/// From a week of cantilever slide gate orders to parts, splices, cut sheets and a buy list.
#[derive(Debug, Parser)]
#[command(name = "longpoint", version, about, max_term_width = 80)]
pub(super) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Write a commented shop folder with a first week in it that runs as it is; inside a shop folder, one more
    /// week.
    New {
        /// Folder to make; refused when it is there and not empty.
        folder: PathBuf,
        /// Write a week that stands alone, with the shop's files in it.
        #[arg(long)]
        lone: bool,
    },
    /// Hand a week's plan out: from then its joint numbers and tags are permanent, and the yard remembers.
    Issue {
        /// Folder of the week.
        folder: PathBuf,
        /// Folder of the plan's sheets; results inside FOLDER when not given.
        #[arg(long, value_name = "DIR")]
        results: Option<PathBuf>,
    },
    /// Say what happened: ordered, delivered, cut, spoiled, done and so on.
    #[command(allow_negative_numbers = true)]
    Tell(Box<TellArguments>),
    /// Print where everything is: what is cut, what lies, what is on order, what is short.
    Stand(StandArguments),
    /// List, back up and restore what was told.
    Yard {
        /// What to do.
        #[command(subcommand)]
        command: YardCommand,
    },
    /// Plan a week and write its sheets into a results folder.
    #[command(allow_negative_numbers = true)]
    Plan(PlanArguments),
    /// Plan the same week under other joint lengths, suppliers, splice policies and rules, side by side,
    /// and work out what would change which of short and long joints is the cheaper.
    #[command(allow_negative_numbers = true)]
    Compare(CompareArguments),
    /// With the rack alone: which gates can be completed today, due first, and their cut sheets.
    #[command(allow_negative_numbers = true)]
    CutNow(CutNowArguments),
    /// Solve a cutting list of one's own: stocks, items, spliced lines and charges in a JSON file.
    #[command(allow_negative_numbers = true)]
    Nest(NestArguments),
    /// Check the certificate of a plan.json, or of what `nest --json` printed, once more.
    Verify {
        /// The file.
        file: PathBuf,
    },
    /// Stop at the take-off: list the parts of a week.
    Parts {
        /// Folder of the week.
        folder: PathBuf,
        /// Print one JSON document on stdout and nothing else there.
        #[arg(long)]
        json: bool,
        /// Leave gates that cannot be made out, and say so; exit code 3.
        #[arg(long)]
        partial: bool,
        /// Day of the order, as `plan` takes it.
        #[arg(long, value_name = "DAY", value_parser = day)]
        date: Option<Date>,
    },
    /// Show where splices may stand on one gate, how its horizontals work as it rolls, and where
    /// the plan puts its splices.
    Splice {
        /// Folder of the week.
        folder: PathBuf,
        /// The gate's mark.
        gate: String,
        /// Write the drawing to this file, too.
        #[arg(long, value_name = "FILE")]
        svg: Option<PathBuf>,
        /// Print one JSON document on stdout and nothing else there.
        #[arg(long)]
        json: bool,
        /// Day of the order, as `plan` takes it.
        #[arg(long, value_name = "DAY", value_parser = day)]
        date: Option<Date>,
    },
}

/// Arguments of `nest`.
#[derive(Debug, clap::Args)]
pub(super) struct NestArguments {
    /// Problem file: JSON, its form told by data/nest_problem.schema.json.
    pub file: PathBuf,
    /// Print the problem and its certified answer as one JSON document on stdout.
    #[arg(long)]
    pub json: bool,
    #[command(flatten)]
    pub search: Searched,
    /// Threads to search with; changes the time, never the answer.
    #[arg(long, value_name = "N", value_parser = threads)]
    pub threads: Option<u16>,
}

/// How far every search goes.
#[derive(Debug, clap::Args)]
pub(super) struct Searched {
    /// Let each search do up to so many times its set amount of work; the same answer on every machine.
    #[arg(long, value_name = "TIMES", default_value_t = 1, value_parser = times)]
    pub work: u64,
    /// Stop each search after so many seconds with the best found; may vary the answer.
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    pub time_limit: Option<Duration>,
}

impl Searched {
    /// The same for the engine.
    pub fn limits(&self) -> Limits {
        let set = Limits::default().work;
        Limits {
            work: set.saturating_mul(self.work),
            time: self.time_limit,
        }
    }
}

/// What every command that writes a folder of sheets takes.
#[derive(Debug, clap::Args)]
pub(super) struct Printed {
    /// Folder to write; results, cut_now or comparison inside FOLDER when not given.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Day of the order, such as 2026-03-02: printed on every sheet, and lead days and prices count from it.
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub date: Option<Date>,
    /// Print everything as one JSON document on stdout and nothing else there.
    #[arg(long)]
    pub json: bool,
    /// Threads to work with; changes the time, never the answer.
    #[arg(long, value_name = "N", value_parser = threads)]
    pub threads: Option<u16>,
}

/// Arguments of `plan`.
#[derive(Debug, clap::Args)]
pub(super) struct PlanArguments {
    /// Folder of the week: orders.csv, shop.toml, stock.csv, and if wanted rack.csv, parts.csv.
    pub folder: PathBuf,
    #[command(flatten)]
    pub printed: Printed,
    /// Revision printed on every sheet.
    #[arg(long, value_name = "N", default_value_t = 0, value_parser = revision)]
    pub revision: u32,
    /// Paper of sheets.pdf: letter or a4; by the shop's units when not given.
    #[arg(long, value_name = "PAPER", value_parser = paper)]
    pub paper: Option<Paper>,
    /// Leave gates that cannot be made out and plan the rest; exit code 3.
    #[arg(long)]
    pub partial: bool,
    /// Plan a week that is handed out from its beginning, as if nothing of it were cut or ordered.
    #[arg(long)]
    pub as_if_new: bool,
    #[command(flatten)]
    pub search: Searched,
}

/// Arguments of `cut-now`.
#[derive(Debug, clap::Args)]
pub(super) struct CutNowArguments {
    /// Folder of the week.
    pub folder: PathBuf,
    #[command(flatten)]
    pub printed: Printed,
}

/// Arguments of `compare`.
#[derive(Debug, clap::Args)]
pub(super) struct CompareArguments {
    /// Folder of the week.
    pub folder: PathBuf,
    #[command(flatten)]
    pub printed: Printed,
    /// Name of the row that the others are measured against.
    #[arg(long, value_name = "ROW")]
    pub reference: Option<String>,
    /// Two joint lengths to set against each other, such as 21ft,40ft (the shortest and the longest sold unless
    /// given).
    #[arg(long, value_name = "LENGTH,LENGTH", value_parser = two_lengths, allow_hyphen_values = true)]
    pub pair: Option<(Length, Length)>,
    /// Other kerf to compare with, such as 1/8in.
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    pub kerf: Option<Length>,
    /// Other tail to compare with, as a fraction of the opening, such as 0.4.
    #[arg(long, value_name = "FRACTION", value_parser = fraction)]
    pub tail: Option<Decimal>,
    /// Other bay limit to compare with, such as 54in.
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    pub bay_limit: Option<Length>,
    /// Other keep length to compare with, such as 60in.
    #[arg(long, value_name = "LENGTH", value_parser = length, allow_hyphen_values = true)]
    pub keep: Option<Length>,
    #[command(flatten)]
    pub search: Searched,
    /// More weeks, each a folder: the variants are tallied and added up over all of them, each on its own order date
    /// (--date holds for weeks without one).
    #[arg(long, value_name = "FOLDER", num_args = 1..)]
    pub weeks: Vec<PathBuf>,
}

impl CompareArguments {
    /// What the rules are to be compared with.
    pub fn wishes(&self) -> Wishes {
        Wishes {
            kerf: self.kerf,
            tail: self.tail,
            bay_limit: self.bay_limit,
            keep_length: self.keep,
            pair: self.pair,
            reference: self.reference.clone(),
            lengths: Vec::new(),
            rows_only: !self.weeks.is_empty(),
        }
    }
}

/// Two lengths with a comma between them.
fn two_lengths(text: &str) -> Result<(Length, Length), String> {
    match text.split_once(',') {
        Some((a, b)) => Ok((length(a)?, length(b)?)),
        None => Err("give two lengths with a comma between them, such as 21ft,40ft".to_owned()),
    }
}

/// The text, unless it is a number below zero (`least` says what it must be) or the next option.
fn not_below<'a>(text: &'a str, least: &str) -> Result<&'a str, String> {
    let text = text.trim();
    if text.starts_with("--") {
        return Err("a value is wanted here, not an option".to_owned());
    }
    if text.starts_with(['-', '−']) {
        return Err(format!("a value below zero; it must be {least}"));
    }
    Ok(text)
}

/// A length over 0 and up to 100 ft, with its unit.
fn length(text: &str) -> Result<Length, String> {
    let text = not_below(text, "over 0, such as 1/8in or 54in")?;
    let read = parse_length(text, None).map_err(|e| format!("{}; {}", e.what, e.mend))?;
    let up = read.up();
    if up > Length::ZERO && up <= Length::FOOT * 100 {
        Ok(up)
    } else {
        Err("give a length over 0 and up to 100 ft, such as 54in or 1400mm".to_owned())
    }
}

/// A fraction of the opening, over 0 and up to 2.
fn fraction(text: &str) -> Result<Decimal, String> {
    let text = not_below(text, "over 0, such as 0.4")?;
    let read = parse_number(text).ok();
    read.filter(|f| *f > Decimal::ZERO && *f <= Decimal::TWO)
        .ok_or_else(|| "give a fraction of the opening, such as 0.4".to_owned())
}

/// A revision: 0, 1, 2...
fn revision(text: &str) -> Result<u32, String> {
    let whole = not_below(text, "0 or more")?.parse();
    whole.map_err(|_| "revisions are whole numbers, such as 0, 1 or 2".to_owned())
}

/// How many times the set amount of work.
fn times(text: &str) -> Result<u64, String> {
    let whole = not_below(text, "1 or more")?.parse().ok();
    whole
        .filter(|n| (1..=1_000_000).contains(n))
        .ok_or_else(|| "give a whole number from 1 to 1000000, such as 10".to_owned())
}

/// A number of threads.
fn threads(text: &str) -> Result<u16, String> {
    let whole = not_below(text, "1 or more")?.parse().ok();
    whole
        .filter(|n| (1..=1024).contains(n))
        .ok_or_else(|| "give a whole number from 1 to 1024, such as 2".to_owned())
}

/// A sheet size by name.
fn paper(text: &str) -> Result<Paper, String> {
    Paper::named(text.trim()).ok_or_else(|| "give letter or a4".to_owned())
}

/// A positive number of seconds, up to a year.
fn seconds(text: &str) -> Result<Duration, String> {
    let value: f64 = not_below(text, "over 0, such as 5 or 0.5")?
        .parse()
        .map_err(|_| "give a number of seconds, such as 5 or 0.5".to_owned())?;
    if value > 0.0 && value <= 31_536_000.0 {
        Ok(Duration::from_secs_f64(value))
    } else {
        Err("give more than 0 seconds, and no more than a year of them".to_owned())
    }
}

/// A day.
fn day(text: &str) -> Result<Date, String> {
    parse_date(text.trim()).map_err(|e| format!("{}; {}", e.what, e.mend))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_sound() {
        use clap::CommandFactory;
        Arguments::command().debug_assert();
    }

    #[test]
    fn seconds_refuse_what_is_no_time() {
        assert_eq!(seconds("0.5"), Ok(Duration::from_millis(500)));
        for bad in ["0", "-1", "NaN", "inf", "1e300", "soon", ""] {
            assert!(seconds(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn numbers_are_refused_in_plain_words() {
        assert_eq!((threads("2"), revision(" 3 ")), (Ok(2), Ok(3)));
        for bad in ["abc", "0", "1025", "1.5", ""] {
            assert!(threads(bad).is_err_and(|e| e.contains("whole number")));
        }
        for bad in ["abc", "0", "1000001", "1.5", ""] {
            assert!(times(bad).is_err_and(|e| e.contains("whole number")));
        }
        for bad in ["B", "1.5", "99999999999", ""] {
            assert!(revision(bad).is_err_and(|e| e.contains("whole numbers")));
        }
    }

    #[test]
    fn a_value_below_zero_is_said_to_be_one() {
        let said: [Option<String>; 8] = [
            length("-1").err(),
            length("−54 in").err(),
            two_lengths("21ft,-40ft").err(),
            fraction("-0.4").err(),
            seconds("-1").err(),
            threads("-2").err(),
            times("-10").err(),
            revision("-1").err(),
        ];
        for said in said {
            let said = said.expect("refused");
            assert!(said.contains("below zero; it must be"), "{said}");
        }
        assert!(revision("-1").is_err_and(|e| e.ends_with("0 or more")));
        assert!(length("--json").is_err_and(|e| e.contains("not an option")));
    }

    #[test]
    fn a_day_is_a_day() {
        assert_eq!(day(" 2026-03-02 "), Ok(Date::constant(2026, 3, 2)));
        assert_eq!(day("March 2, 2026"), Ok(Date::constant(2026, 3, 2)));
        for bad in ["tomorrow", "2026-02-30", "a\nb", " "] {
            assert!(day(bad).is_err(), "{bad}");
        }
        let two = day("3/2/2026").expect_err("month first or day first");
        assert!(
            two.contains("2026-03-02") && two.contains("2026-02-03"),
            "{two}"
        );
    }
}
