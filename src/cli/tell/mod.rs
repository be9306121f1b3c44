//! `longpoint tell`: words or a list → entries, each understood or refused by name, all of them written or none.

mod buying;
mod file;
mod find;
mod rack;
mod said;
mod split;
mod understand;
mod wish;
mod write;

pub(super) use said::said;
pub(super) use write::tell_week;
