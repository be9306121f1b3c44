//! A plan.json judged by itself, as far as its readers trust it: what its figures say of each other and of
//! the verified answer inside. The orders are not at hand here; what only they can tell is not judged.

mod buying;
mod form;
mod form_money;
mod form_work;
mod gates;
mod index;
mod joints;
mod kits;
mod lengths;
mod money;
mod papers;
mod parts;
mod patterns;
mod pieces;
mod splices;
mod totals;
mod work;

pub use form::PlanFile;

use serde_json::Value;

use crate::check::Violation;
use crate::check::docket::Docket;
use crate::nest::{PoolAnswer, Problem, Whole};
use papers::Papers;

/// Judges a plan.json against the verified answer in it. `text` is the whole document as read, its `nest`
/// aside.
///
/// # Errors
/// Every rule that is broken, by name (`file-…`, `certificate-plan`).
pub fn judge_plan(
    document: &Value,
    plan: &PlanFile,
    (problem, answers, whole): (&Problem, &[PoolAnswer], Option<&Whole>),
) -> Result<(), Vec<Violation>> {
    let papers = Papers {
        plan,
        problem,
        answers,
        whole,
    };
    let mut docket = Docket::default();
    lengths::judge(document, &papers, &mut docket);
    index::judge(&papers, &mut docket);
    if docket.is_clean() {
        let judges = [
            patterns::judge,
            gates::judge,
            parts::judge,
            pieces::judge,
            joints::judge,
            splices::judge,
            totals::judge,
            buying::judge,
            money::judge,
            work::judge,
            kits::judge,
        ];
        for judge in judges {
            judge(&papers, &mut docket);
        }
    }
    if docket.is_clean() {
        Ok(())
    } else {
        Err(docket.into_violations())
    }
}
