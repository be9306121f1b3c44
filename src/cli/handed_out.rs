//! A week whose plan is handed out is not planned from its beginning by mistake.

use std::path::Path;

use crate::store::DATABASE;

use super::failure::Failure;
use super::results_folder::plan_in;
use super::shop_folder::{shop_of, unreadable, yard_to_read};

/// Asked before a week is planned into `target`.
///
/// # Errors
/// A plan of it is handed out, and it was not said that all of it is to be planned anew; or its sheets stand in `target`.
pub(super) fn not_handed_out(folder: &Path, target: &Path, as_if_new: bool) -> Result<(), Failure> {
    let Some(week) = shop_of(folder).filter(|w| w.shop.join(DATABASE).is_file()) else {
        return Ok(());
    };
    let store = yard_to_read(&week.shop)?;
    let desk = store.desk().map_err(unreadable(&week.shop))?;
    let Some(plan) = desk.stand().weeks.get(&week.name).and_then(|w| w.current()) else {
        return Ok(());
    };
    let here = plan_in(target).is_some_and(|number| number == plan.plan);
    let said = format!(
        "Plan {} revision {} of {} is handed out",
        plan.plan, plan.revision, week.name
    );
    if !as_if_new {
        return Err(Failure::refused(format!(
            "{said}, and a plan from the beginning would cut and order again what is cut and ordered. What is left of a \
             week cannot be planned yet: finish it by its sheets. --as-if-new plans all of it anew; with --out FOLDER \
             beside those sheets. Nothing was written."
        )));
    }
    if here {
        return Err(Failure::refused(format!(
            "{}: {said}, and its sheets stand in this folder. Name another with --out FOLDER. Nothing was written.",
            target.display()
        )));
    }
    Ok(())
}
