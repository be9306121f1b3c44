//! Is one configuration of a group legal, and what do its splices cost? Plain code, straight from the
//! rules in `problem.rs`; the search does not use it, the answer must pass it.

use super::lattice::{centre, centre_unit, least_piece, pieces_sum};
use super::problem::{Group, Line};

/// One standing splice: centre × unit and the slot it is charged by.
struct Stand {
    centre: i64,
    zone: u32,
}

/// Money of the splices and charges of one configuration, or the rule it breaks.
pub(super) fn configuration_cost(
    group: &Group,
    mark: i64,
    lines: &[Vec<i64>],
) -> Result<i64, String> {
    if lines.len() != group.lines.len() {
        return Err(format!("{}: wrong number of lines", group.name));
    }
    let unit = centre_unit(group);
    let mut money = 0i64;
    let mut stands: Vec<Vec<Stand>> = Vec::new();
    for (line, pieces) in group.lines.iter().zip(lines) {
        let (charges, stand) = line_stands(line, mark, unit, pieces)
            .map_err(|what| format!("{}: {what}", group.name))?;
        money += charges + group.splice_cost * i64::try_from(stand.len()).unwrap_or(i64::MAX);
        stands.push(stand);
    }
    if let [a, b] = stands.as_slice() {
        for x in a {
            for y in b {
                if group.zones_exclusive && x.zone == y.zone {
                    return Err(format!(
                        "{}: both lines splice in zone {}",
                        group.name, x.zone
                    ));
                }
                if (x.centre - y.centre).abs() < unit * group.apart {
                    return Err(format!("{}: splices of the two lines too near", group.name));
                }
            }
        }
    }
    Ok(money)
}

fn line_stands(
    line: &Line,
    mark: i64,
    unit: i64,
    pieces: &[i64],
) -> Result<(i64, Vec<Stand>), String> {
    let m = u32::try_from(pieces.len())
        .unwrap_or(u32::MAX)
        .wrapping_sub(1);
    if pieces.is_empty() || m < line.least_splices || m > line.most_splices {
        return Err(format!("{} pieces are not allowed", pieces.len()));
    }
    if m == 0 {
        let whole = pieces[0] == line.whole;
        return if whole {
            Ok((0, Vec::new()))
        } else {
            Err("not the whole piece".into())
        };
    }
    if pieces.iter().any(|p| p % mark != 0) {
        return Err("a piece is off the mark".into());
    }
    if pieces
        .iter()
        .any(|&p| p < least_piece(line, mark) || p > line.length)
    {
        return Err("a piece is under the least".into());
    }
    if pieces.iter().sum::<i64>() != pieces_sum(line, mark, m) {
        return Err("pieces do not make up the line".into());
    }
    let mut money = 0;
    let mut stands: Vec<Stand> = Vec::new();
    let mut cut = 0;
    for (j, piece) in (1..=m).zip(pieces) {
        cut += piece;
        let at = centre(line, mark, unit, m, j, cut);
        let slot = line
            .slots
            .iter()
            .filter(|s| unit * s.lo <= at && at <= unit * s.hi)
            .min_by_key(|s| s.charge)
            .ok_or_else(|| format!("splice {j} stands in no slot"))?;
        if stands.iter().any(|s| s.zone == slot.zone) {
            return Err(format!("two splices in zone {}", slot.zone));
        }
        money += slot.charge;
        stands.push(Stand {
            centre: at,
            zone: slot.zone,
        });
    }
    if stands
        .windows(3)
        .any(|w| w[2].centre - w[0].centre <= unit * line.three_over)
    {
        return Err("three splices too near".into());
    }
    Ok((money, stands))
}
