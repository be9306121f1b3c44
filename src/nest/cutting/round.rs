//! From a broken answer to a packing: whole joints as they are, the rest heaviest first, best fit.

use std::collections::BTreeMap;

use super::lot::{Cuts, Lot};
use super::program::NOTHING;

/// The items of each joint, if they are no more than the lot has.
pub(super) fn round(lot: &Lot, broken: &[(Cuts, f64)]) -> Option<Vec<Vec<u32>>> {
    let mut left: Vec<&[Vec<u32>]> = lot.kinds.iter().map(|k| k.units.as_slice()).collect();
    let mut joints: Vec<(i64, Vec<u32>)> = Vec::new();
    for (cuts, times) in broken {
        for _ in 0..(times + NOTHING).floor() as u32 {
            let (mut room, mut items) = (lot.room, Vec::new());
            for &(k, n) in cuts {
                for _ in 0..n {
                    let Some((unit, rest)) = left[k as usize].split_last() else {
                        break;
                    };
                    left[k as usize] = rest;
                    room -= lot.kinds[k as usize].weight;
                    items.extend(unit);
                }
            }
            joints.push((room, items));
        }
    }
    let mut open: BTreeMap<(i64, usize), ()> = BTreeMap::new();
    open.extend(
        joints
            .iter()
            .enumerate()
            .map(|(j, (room, _))| ((*room, j), ())),
    );
    let mut rest: Vec<(i64, &Vec<u32>)> = Vec::new();
    for (kind, units) in lot.kinds.iter().zip(&left) {
        rest.extend(units.iter().map(|u| (kind.weight, u)));
    }
    rest.sort_by(|a, b| b.0.cmp(&a.0).then_with(|| a.1.cmp(b.1)));
    for (weight, unit) in rest {
        let fit = open.range((weight, 0)..).next().map(|(key, ())| *key);
        let (room, j) = fit.unwrap_or_else(|| {
            joints.push((lot.room, Vec::new()));
            (lot.room, joints.len() - 1)
        });
        open.remove(&(room, j));
        joints[j].1.extend(unit);
        open.insert((room - weight, j), ());
    }
    if joints.len() as i64 > lot.bins {
        return None;
    }
    let mut all = lot.done.clone();
    all.extend(joints.into_iter().map(|(_, items)| items));
    Some(all)
}
