//! Whole weeks planned: splices, joints, money, and plans compared.

mod compare;
mod compare_landed;
mod cut_now;
#[path = "../world/demo.rs"]
mod demo;
#[path = "../world/dice.rs"]
mod dice;
#[path = "../world/dice_of_lengths.rs"]
mod dice_of_lengths;
mod gate_costs;
#[path = "../world/judge.rs"]
mod judge;
mod kit_slide;
mod longer_joint;
mod metamorphic;
mod openings;
mod plan_demo;
mod plan_judged;
mod saw_days;
mod slid;
mod splice_by_bending;
#[path = "../world/tiny.rs"]
mod tiny;
#[path = "../world/tiny_week.rs"]
mod tiny_week;
