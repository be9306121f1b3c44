//! Is a configuration legal, and what do its splices cost: every rule of the nest problem's lines,
//! centres compared exactly (times 2m).

use crate::nest::{Group, Line, Slot};

/// One splice as it stands.
struct Stand<'a> {
    /// Centre times 2m.
    centre: i128,
    slot: &'a Slot,
}

/// Money of the splices and charges, or what is wrong.
pub(super) fn price(group: &Group, mark: i64, lines: &[Vec<i64>]) -> Result<i128, String> {
    if lines.len() != group.lines.len() {
        return Err(format!("{} lines of {}", lines.len(), group.lines.len()));
    }
    let mut money = 0i128;
    let mut stood = Vec::new();
    for (line, pieces) in group.lines.iter().zip(lines) {
        let stands = stand(line, mark, pieces)?;
        money += stands
            .iter()
            .map(|s| i128::from(s.slot.charge) + i128::from(group.splice_cost))
            .sum::<i128>();
        stood.push(stands);
    }
    if let [a, b] = stood.as_slice() {
        together(group, a, b)?;
    }
    Ok(money)
}

fn stand<'a>(line: &'a Line, mark: i64, pieces: &[i64]) -> Result<Vec<Stand<'a>>, String> {
    let m = i64::try_from(pieces.len()).unwrap_or(i64::MAX) - 1;
    if m < i64::from(line.least_splices) || m > i64::from(line.most_splices) {
        return Err(format!("{m} splices"));
    }
    if m == 0 {
        let whole = pieces == [line.whole];
        return if whole {
            Ok(Vec::new())
        } else {
            Err("a whole line of another length".to_owned())
        };
    }
    let short = pieces
        .iter()
        .find(|p| **p < line.least_piece.max(1) || **p % mark != 0);
    if let Some(piece) = short {
        return Err(format!("a piece of {piece} is too short or off the mark"));
    }
    let metal = (line.length - m * line.gap).div_euclid(mark) * mark;
    let sum: i128 = pieces.iter().map(|p| i128::from(*p)).sum();
    if sum != i128::from(metal) {
        return Err(format!("pieces of {sum} together instead of {metal}"));
    }
    let slack = i128::from(line.length - metal);
    let mut before = 0i128;
    let mut out: Vec<Stand<'a>> = Vec::new();
    for (j, piece) in (1..=i128::from(m)).zip(pieces) {
        before += i128::from(*piece);
        let centre = 2 * i128::from(m) * before + (2 * j - 1) * slack;
        let slot = slot_at(line, m, centre).ok_or(format!("splice {j} stands in no slot"))?;
        if out.iter().any(|s| s.slot.zone == slot.zone) {
            return Err(format!("two splices in zone {}", slot.zone));
        }
        out.push(Stand { centre, slot });
    }
    let over = 2 * i128::from(m) * i128::from(line.three_over);
    let near = out.windows(3).any(|w| w[2].centre - w[0].centre <= over);
    if near {
        return Err("three splices too near".to_owned());
    }
    Ok(out)
}

/// The cheapest slot that holds a centre.
fn slot_at(line: &Line, m: i64, centre: i128) -> Option<&Slot> {
    let twice = 2 * i128::from(m);
    line.slots
        .iter()
        .filter(|s| twice * i128::from(s.lo) <= centre && centre <= twice * i128::from(s.hi))
        .min_by_key(|s| s.charge)
}

fn together(group: &Group, a: &[Stand<'_>], b: &[Stand<'_>]) -> Result<(), String> {
    let count = |s: &[Stand<'_>]| i128::try_from(s.len()).unwrap_or(i128::MAX);
    let (ma, mb) = (count(a), count(b));
    for x in a {
        for y in b {
            if group.zones_exclusive && x.slot.zone == y.slot.zone {
                return Err(format!("both lines splice in zone {}", x.slot.zone));
            }
            let apart = (x.centre * mb - y.centre * ma).abs();
            if apart < 2 * ma * mb * i128::from(group.apart) {
                return Err("splices of the two lines too near".to_owned());
            }
        }
    }
    Ok(())
}
