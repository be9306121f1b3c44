//! `PipeBook`: pipes by the shop's names while a week is read; settled into sheet order at the end.

use super::faults::{Faults, Spot};
use super::nearest_word::{NEAR, near, suggestion};
use super::{Pipe, PipeId};
use crate::measure::FaultCode;

/// Places named in a fault before the rest are counted.
const NAMED: usize = 4;

/// Every pipe key met so far, and the names it goes by.
#[derive(Debug, Default)]
pub(super) struct PipeBook {
    pipes: Vec<Pipe>,
    /// Name as written and its pipe; `None` for one whose declaration is faulty.
    names: Vec<(String, Option<PipeId>)>,
    /// Names that no pipe goes by, each with every place that has it.
    unknown: Vec<(String, Vec<Spot>)>,
    /// Finishes that orders ask for, each where it stands.
    asked: Vec<(Spot, String)>,
}

/// Lower case, single spaces. Hyphens stay: they are part of trade names.
fn fold(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().collect();
    words.join(" ").to_lowercase()
}

/// Finishes are compared in lower case; the two spellings of galvanized are one.
pub(super) fn finish_of(text: &str) -> String {
    match fold(text).as_str() {
        "galvanised" | "galv" | "galv." => "galvanized".to_owned(),
        other => other.to_owned(),
    }
}

/// The name that was meant, or all of them: another size is no slip of the pen, so that a name is offered
/// only where its figures, or those of its size, are the ones written.
fn meant(name: &str, names: Vec<&str>) -> String {
    let figures = |text: &str| {
        text.chars()
            .filter(char::is_ascii_digit)
            .collect::<String>()
    };
    let size = |text: &str| figures(text.split_whitespace().next().unwrap_or_default());
    let alike = |n: &&str| figures(n) == figures(name) || size(n) == size(name);
    match near(name, names.iter().copied().filter(alike), NEAR) {
        Some(word) => format!("did you mean \"{word}\"?"),
        None => format!("known here: {}", names.join(", ")),
    }
}

impl PipeBook {
    /// Adds a declared pipe; `None` when its row is faulty (its name is known all the same).
    pub fn declare(&mut self, name: &str, pipe: Option<Pipe>) -> Option<PipeId> {
        let id = pipe.map(|p| {
            self.pipes.push(p);
            PipeId(self.pipes.len() - 1)
        });
        self.names.push((name.to_owned(), id));
        id
    }

    /// The declared pipe of that name: `None` unknown, `Some(None)` known but faulty.
    fn named(&self, name: &str) -> Option<Option<PipeId>> {
        let folded = fold(name);
        let found = self.names.iter().find(|(n, _)| fold(n) == folded);
        found.map(|(_, id)| *id)
    }

    pub fn knows(&self, name: &str) -> bool {
        self.named(name).is_some()
    }

    /// Nothing was declared: naming pipes one by one would say nothing new.
    pub fn is_empty(&self) -> bool {
        self.names.is_empty()
    }

    pub fn get(&self, id: PipeId) -> Option<&Pipe> {
        self.pipes.get(id.0)
    }

    pub fn get_named(&self, name: &str) -> Option<&Pipe> {
        self.named(name).flatten().and_then(|id| self.get(id))
    }

    pub fn same_key(&self, pipe: &Pipe) -> Option<PipeId> {
        self.pipes.iter().position(|p| p.same_key(pipe)).map(PipeId)
    }

    /// Looks a name up; an unknown one is kept for [`PipeBook::say_unknown`].
    pub fn find(&mut self, name: &str, spot: &Spot) -> Option<PipeId> {
        let known = self.named(name);
        if known.is_none() && !self.is_empty() {
            let folded = fold(name);
            match self.unknown.iter_mut().find(|(n, _)| fold(n) == folded) {
                Some((_, spots)) => spots.push(spot.clone()),
                None => self.unknown.push((name.to_owned(), vec![spot.clone()])),
            }
        }
        known.flatten()
    }

    /// One fault for each unknown name, where it first stands, with the other places.
    pub fn say_unknown(&self, faults: &mut Faults) {
        for (name, spots) in &self.unknown {
            let Some((first, others)) = spots.split_first() else {
                continue;
            };
            let mut places: Vec<String> = others.iter().map(Spot::place).collect();
            places.dedup();
            let also = match places.len() {
                0 => String::new(),
                n if n > NAMED => format!(
                    " (also in {}, and {} more)",
                    places[..NAMED].join("; "),
                    n - NAMED
                ),
                _ => format!(" (also in {})", places.join("; ")),
            };
            let names = self.names.iter().map(|(n, _)| n.as_str());
            faults.error(
                FaultCode::NameUnknown,
                first,
                &format!("the pipe \"{name}\" is not declared in shop.toml{also}"),
                &format!(
                    "{} (or declare it under [[pipe]])",
                    meant(name, names.collect())
                ),
            );
        }
    }

    /// The same pipe in another finish; a new key when there is none yet.
    pub fn with_finish(&mut self, id: PipeId, finish: &str) -> PipeId {
        let finish = finish_of(finish);
        let Some(pipe) = self.get(id) else { return id };
        if finish.is_empty() || pipe.finish == finish {
            return id;
        }
        let other = Pipe {
            finish,
            ..pipe.clone()
        };
        self.same_key(&other).unwrap_or_else(|| {
            self.pipes.push(other);
            PipeId(self.pipes.len() - 1)
        })
    }

    /// An order asks for a finish; judged when all stock is read.
    pub fn ask_finish(&mut self, spot: Spot, finish: &str) {
        let finish = finish_of(finish);
        if !finish.is_empty() {
            self.asked.push((spot, finish));
        }
    }

    /// Every finish asked for that neither a pipe of the shop nor a row of stock (`on_hand`) has.
    pub fn judge_finishes(&self, on_hand: impl Iterator<Item = PipeId>, faults: &mut Faults) {
        let declared = self.names.iter().filter_map(|(_, id)| *id);
        let mut known: Vec<&str> = declared
            .chain(on_hand)
            .filter_map(|id| self.get(id))
            .map(|p| p.finish.as_str())
            .filter(|f| !f.is_empty())
            .collect();
        known.sort_unstable();
        known.dedup();
        if known.is_empty() {
            return; // Nobody names finishes here: there is nothing to compare with.
        }
        for (spot, finish) in &self.asked {
            if !known.contains(&finish.as_str()) {
                faults.error(
                    FaultCode::NameUnknown,
                    spot,
                    &format!(
                        "no pipe of shop.toml and no row of stock.csv or rack.csv has the finish \
                         \"{finish}\""
                    ),
                    &suggestion(finish, known.iter().copied()),
                );
            }
        }
    }

    /// The pipes in sheet order, and the new id of each old one.
    pub fn settle(self) -> (Vec<Pipe>, Vec<PipeId>) {
        let mut order: Vec<usize> = (0..self.pipes.len()).collect();
        order.sort_by(|&a, &b| self.pipes[a].sheet_order(&self.pipes[b]).then(a.cmp(&b)));
        let mut new = vec![PipeId(0); order.len()];
        for (at, &old) in order.iter().enumerate() {
            new[old] = PipeId(at);
        }
        let mut pipes: Vec<(PipeId, Pipe)> = new.iter().copied().zip(self.pipes).collect();
        pipes.sort_by_key(|(id, _)| *id);
        (pipes.into_iter().map(|(_, p)| p).collect(), new)
    }
}

#[cfg(test)]
mod tests {
    use super::meant;

    #[test]
    fn another_size_is_no_slip_of_the_pen() {
        let names = || vec!["1-7/8 SS40", "2-3/8 SS40", "2-3/8 IC"];
        let all = "known here: 1-7/8 SS40, 2-3/8 SS40, 2-3/8 IC";
        assert_eq!(meant("2-7/8 SS40", names()), all);
        assert_eq!(meant("2 1/2", names()), all);
        for slip in ["2-38 SS40", "2-3/8SS40", "2 3/8 ss40", "2-3/8 SS"] {
            assert_eq!(
                meant(slip, names()),
                "did you mean \"2-3/8 SS40\"?",
                "{slip}"
            );
        }
    }
}
