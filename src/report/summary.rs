//! The one-screen summary: joints, money, splices, waste by definition, Status, two references.

use rust_decimal::Decimal;

use crate::check::CheckedPlan;
use crate::gate::Role;
use crate::measure::{Length, Money, cents_that_come_to};
use crate::nest::{Status, Whole};
use crate::order::{Impossible, Severity};
use crate::part::TakeOff;
use crate::plan::{PipeOutcome, Plan, Reference, SplicedLine, gap_of_whole};

use super::counted::counted;
use super::fewest_joints::fewest_joints;
use super::figures::Figures;
use super::gap_words::{certified, within};
use super::job::Job;
use super::lay_table::lay_table;
use super::left_out::{gate_out, part_out};
use super::money_adds_up::money_lines;
use super::print_text::PAGE;
use super::table::{Cell, Column, DASH, Kind, Table, clean};
use super::why_ended::{endings, why_ended};
use super::wrap::wrap;

/// The summary of a checked plan; `results` says where its sheets are, in the user's words.
pub fn summary(checked: &CheckedPlan, results: &str) -> String {
    summary_of(Job::of(checked), results)
}

pub(super) fn summary_of(job: Job<'_>, results: &str) -> String {
    let mut lines = head(job);
    lines.push(String::new());
    lines.extend(lay_table(&pipes(job), PAGE));
    lines.extend(fees(job));
    lines.extend(meanings(job));
    lines.push(String::new());
    lines.extend(lay_table(&references(job), PAGE));
    for reference in &job.plan.references {
        if let Some(why) = &reference.failed {
            lines.extend(wrap(&format!("{}: {why}", reference.name), PAGE));
        }
    }
    lines.push(String::new());
    lines.extend(waste(job));
    lines.extend(left_out(job));
    lines.push(String::new());
    lines.extend(wrap(&format!("Results: {}", clean(results)), PAGE));
    let mut text = lines.join("\n");
    text.push('\n');
    text
}

/// What the words of the statuses above mean: of those that stand there, no others.
fn meanings(job: Job<'_>) -> Vec<String> {
    let pipes = job.plan.pipes.iter().map(|p| status(job, p));
    let whole = job.plan.nest.whole.as_ref().map(|w| whole_status(job, w));
    let said: Vec<String> = pipes.chain(whole).collect();
    let said = said.join("\n");
    let mut lines = Vec::new();
    if said.contains("within ") {
        let words = "within: no plan is cheaper by more than this; % of pipe money before credits";
        lines.push(words.to_owned());
    }
    lines.extend(endings(&said));
    lines
}

fn head(job: Job<'_>) -> Vec<String> {
    let heading = job.heading();
    let date = if heading.date.is_empty() {
        DASH
    } else {
        &heading.date
    };
    let title = format!("{}   {}   date {date}", heading.shop, heading.strip());
    let mut lines = wrap(title.trim(), PAGE);
    let left_out = &job.plan.left_out;
    let gates = job.week.gates.iter().enumerate();
    let gates = gates.filter(|(i, _)| !gate_out(left_out, *i));
    let gates: u64 = gates.map(|(_, g)| u64::from(g.count)).sum();
    let parts = job.take_off.parts.iter();
    let parts = parts.filter(|p| p.ours && !part_out(left_out, p));
    let parts: u64 = parts.map(|p| u64::from(p.count)).sum();
    let spliced = job.plan.spliced.iter();
    let role = |l: &SplicedLine| job.take_off.parts[l.part].role;
    let braces = spliced.filter(|l| role(l) == Some(Role::SwayBrace)).count();
    let sways = match braces {
        0 => String::new(),
        n => format!(", {}", counted(n, "brace", "braces")),
    };
    let notices = job.week.notices.iter();
    // As on stderr: a gate left out is one of them.
    let warnings = notices.filter(|n| n.severity == Severity::Warning).count()
        + Impossible::together(&job.plan.left_out).len();
    lines.extend(wrap(
        &format!(
            "{}, {} out of {}; {}{sways} spliced; {}",
            counted(gates, "gate", "gates"),
            counted(parts, "part", "parts"),
            counted(job.plan.joints.len(), "joint", "joints"),
            counted(job.plan.spliced.len() - braces, "horizontal", "horizontals"),
            counted(warnings, "warning", "warnings")
        ),
        PAGE,
    ));
    lines
}

fn pipes(job: Job<'_>) -> Table {
    let figures = Figures::of(job.week);
    let rows = job.plan.pipes.iter().zip(pipe_money(job));
    let rows = rows.map(|(p, money)| {
        vec![
            Cell::text(job.short_pipe(p.pipe)),
            Cell::count(p.bought),
            Cell::count(p.from_rack),
            Cell::count(splices_of(job, p)),
            figures.money(money),
            Cell::text(status(job, p)),
        ]
    });
    Table {
        columns: vec![
            Column::new("pipe", Kind::Words),
            Column::new("buy", Kind::Number),
            Column::new("rack", Kind::Number),
            Column::new("splices", Kind::Number),
            Column::new("money", Kind::Figure),
            Column::new("status of money", Kind::Words),
        ],
        rows: rows.collect(),
    }
}

/// Each pipe's money in cents; with what is paid for the order as a whole they add up to the plan's total.
fn pipe_money(job: Job<'_>) -> Vec<Option<Money>> {
    let pipes = &job.plan.pipes;
    let total = job
        .plan
        .ledger
        .as_ref()
        .map(|l| l.total() - l.freight - l.lifts - l.minimum);
    let Some(total) = total.and_then(Money::millicents) else {
        let money = |p: &PipeOutcome| p.priced.then(|| Money::from_millicents(p.cost));
        return pipes.iter().map(money).collect();
    };
    let exact: Vec<i64> = pipes.iter().map(|p| p.cost).collect();
    let cents = cents_that_come_to(total / 1000, &exact).into_iter();
    cents
        .map(|c| Some(Money::from_millicents(c * 1000)))
        .collect()
}

/// What freight, lifts, minimum orders and tax come to, and the status of all pipes with them; nothing in a
/// week without any.
fn fees(job: Job<'_>) -> Vec<String> {
    let (Some(whole), Some(ledger)) = (&job.plan.nest.whole, &job.plan.ledger) else {
        return Vec::new();
    };
    let mut lines = vec![String::new()];
    let label = |(name, money): (String, String)| format!("{name:<30}{money:>16}");
    lines.extend(money_lines(job, ledger).into_iter().map(label));
    lines.extend(wrap(&whole_status(job, whole), PAGE));
    lines
}

/// What is proved of all pipes together with their freight and fees.
pub(super) fn whole_status(job: Job<'_>, whole: &Whole) -> String {
    let base = job.plan.pipes.iter().map(|p| p.pipe_money).sum();
    let gap = gap_of_whole(whole);
    let words = match whole.status {
        Status::Proved => "proved".to_owned(),
        Status::ProvedBySearch => format!("proved by search; {}", certified(job, gap, base)),
        Status::Short => "short: no plan with this stock".to_owned(),
        Status::Within => format!("{}, {}", within(job, gap, base), why_ended(whole.stop)),
        Status::NoneFound => format!("none found; {}", why_ended(whole.stop)),
    };
    format!("All pipes with freight and fees: {words}")
}

fn splices_of(job: Job<'_>, pipe: &PipeOutcome) -> usize {
    let lines = job.plan.spliced.iter();
    let mine = lines.filter(|l| job.take_off.parts[l.part].pipe == pipe.pipe);
    mine.map(|l| l.splices.len()).sum()
}

/// Status of money in words: `proved`, `within $12.30 (1.0 %)` and why the search ended.
pub(super) fn status(job: Job<'_>, pipe: &PipeOutcome) -> String {
    if !pipe.priced {
        return joints_status(job, pipe);
    }
    let (gap, base) = (pipe.gap(), pipe.pipe_money);
    match pipe.status {
        // With fees a pipe may be cut dearer than by itself, and the week be cheaper for it.
        Status::Within if job.plan.nest.whole.is_some() => {
            "see all pipes together, below".to_owned()
        }
        Status::Proved => "proved".to_owned(),
        Status::ProvedBySearch => format!("proved by search; {}", certified(job, gap, base)),
        Status::Within => format!("{}, {}", within(job, gap, base), why_ended(pipe.stop)),
        Status::Short => "short: no plan with this stock".to_owned(),
        Status::NoneFound => format!("none found; {}", why_ended(pipe.stop)),
    }
}

/// Status of a pipe without prices, in whole joints.
fn joints_status(job: Job<'_>, pipe: &PipeOutcome) -> String {
    match pipe.status {
        Status::Short => "short: no plan with this stock".to_owned(),
        Status::NoneFound => format!("none found; {}", why_ended(pipe.stop)),
        status => joints_verdict(job.plan, job.take_off, pipe, status),
    }
}

/// `nothing to buy`, `fewest joints bought, proved`, or how many are bought and how few it could be.
pub(super) fn joints_verdict(
    plan: &Plan,
    take_off: &TakeOff,
    pipe: &PipeOutcome,
    status: Status,
) -> String {
    if pipe.bought == 0 {
        return "nothing to buy".to_owned();
    }
    let least = fewest_joints(plan, take_off, pipe);
    if status == Status::Proved || least >= pipe.bought {
        return "fewest joints bought, proved".to_owned();
    }
    let joints = format!("{} bought", counted(pipe.bought, "joint", "joints"));
    match status {
        Status::ProvedBySearch => format!("{joints}, fewest by search"),
        _ => format!("{joints}, fewest possible is {least}"),
    }
}

/// `part` of `whole` in percent, two decimals; `None` when there is no whole.
fn percent(part: i64, whole: i64) -> Option<String> {
    if whole <= 0 {
        return None;
    }
    let share = Decimal::from(part) * Decimal::ONE_HUNDRED / Decimal::from(whole);
    Some(format!("{:.2}", share.round_dp(2)))
}

fn references(job: Job<'_>) -> Table {
    let figures = Figures::of(job.week);
    let plan_joints = job.plan.joints.len();
    let plan_splices: usize = job.plan.spliced.iter().map(|l| l.splices.len()).sum();
    let mut rows = vec![vec![
        Cell::text("this plan"),
        Cell::count(plan_joints),
        Cell::count(plan_splices),
        figures.money(job.plan.total),
        Cell::Missing,
    ]];
    for reference in &job.plan.references {
        rows.push(reference_row(job, reference));
    }
    Table {
        columns: vec![
            Column::new("the same week", Kind::Words),
            Column::new("joints", Kind::Number),
            Column::new("splices", Kind::Number),
            Column::new("money", Kind::Figure),
            Column::new("dearer", Kind::Figure),
        ],
        rows,
    }
}

fn reference_row(job: Job<'_>, reference: &Reference) -> Vec<Cell> {
    let figures = Figures::of(job.week);
    if reference.failed.is_some() {
        return vec![
            Cell::text(&reference.name),
            Cell::Missing,
            Cell::Missing,
            Cell::Missing,
            Cell::Missing,
        ];
    }
    let dearer = match (reference.money, job.plan.total) {
        (Some(theirs), Some(ours)) => Some(theirs - ours),
        _ => None,
    };
    vec![
        Cell::text(&reference.name),
        Cell::count(reference.joints),
        Cell::count(reference.splices),
        figures.money(reference.money),
        figures.money(dearer),
    ]
}

fn waste(job: Job<'_>) -> Vec<String> {
    let w = &job.plan.waste;
    let line = |name: &str, length: Length| {
        let share = percent(length.ticks(), w.taken.ticks()).unwrap_or_else(|| DASH.to_owned());
        format!(
            "{name:<50} {share:>6} %  {:>10}",
            super::buy_list::footage(job, length)
        )
    };
    vec![
        format!(
            "Pipe taken {}, of which:",
            super::buy_list::footage(job, w.taken)
        ),
        line("  all-in waste  (taken - in gates)/taken", w.all_in),
        line("  lost for good (kerf + trim + scrap drops)/taken", w.lost),
        line("  kept          (drops kept, as they lie)/taken", w.kept),
    ]
}

fn left_out(job: Job<'_>) -> Vec<String> {
    let out = Impossible::together(&job.plan.left_out);
    out.into_iter()
        .flat_map(|(part, i)| {
            let mut lines = wrap(&format!("LEFT OUT {part}: {}", i.reason), PAGE);
            let frees = wrap(&format!("To make it possible: {}", i.change), PAGE - 2);
            lines.extend(frees.iter().map(|l| format!("  {l}")));
            lines
        })
        .collect()
}
