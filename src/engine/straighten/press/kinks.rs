//! How many kinks take a bow away, where, and how large each.

use super::nnls::products;
use super::nnls::{nnls, normal};
use serde::Serialize;

/// Offset at x of a member of length L that turns by one radian at c, both ends on the chord, mm.
///
/// Midway in 12 m: 3 m for each radian.
/// ```
/// assert!((weldbow_engine::straighten::press::kink_offset_mm(6e3, 6e3, 12e3) - 3e3).abs() < 1e-9);
/// ```
pub fn kink_offset_mm(x_mm: f64, c_mm: f64, length_mm: f64) -> f64 {
    if x_mm <= c_mm { x_mm * (length_mm - c_mm) / length_mm } else { c_mm * (length_mm - x_mm) / length_mm }
}

/// Kinks fitted to a bow.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Kinks {
    /// Place (mm from the start end) and angle (rad, + takes positive offsets away) of each.
    pub kinks: Vec<(f64, f64)>,
    /// Largest offset left at the stations, without sign, mm.
    pub left_mm: f64,
}

/// The angles ≥ 0 at given places that leave least (squares) of offsets at stations x, all mm.
pub fn fit(x_mm: &[f64], offset_mm: &[f64], length_mm: f64, places_mm: &[f64]) -> Kinks {
    let columns: Vec<Vec<f64>> = places_mm.iter().map(|c| column(x_mm, *c, length_mm)).collect();
    let angles = nnls(&columns, offset_mm);
    let used: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let left_mm = largest_left(offset_mm, &used, &angles);
    Kinks { kinks: places_mm.iter().copied().zip(angles).collect(), left_mm }
}

fn column(x_mm: &[f64], c_mm: f64, length_mm: f64) -> Vec<f64> {
    x_mm.iter().map(|x| kink_offset_mm(*x, c_mm, length_mm)).collect()
}

fn largest_left(offset_mm: &[f64], columns: &[&[f64]], angles: &[f64]) -> f64 {
    let stations = columns.iter().map(|c| c.len()).fold(offset_mm.len(), usize::min);
    (0..stations)
        .map(|i| offset_mm[i] - columns.iter().zip(angles).map(|(c, a)| c[i] * a).sum::<f64>())
        .fold(0.0, |m: f64, left| m.max(left.abs()))
}

/// Places tried along the member.
const GRID: usize = 48;
/// Rounds of moving the places one at a time.
const ROUNDS: usize = 30;

/// The best `count` kinks at places that are free (by largest offset left); None if fewer places are free. `side` is the sign a
/// kink at a place may have: all that of the bow's peak for pushes from one side, that of the bow at the place for an S.
///
/// Starts from equal parts and moves one place at a time along a grid of L/48; kinks of no size are dropped.
pub(crate) fn best(
    x_mm: &[f64],
    offset_mm: &[f64],
    length_mm: f64,
    count: usize,
    free: &dyn Fn(f64) -> bool,
    side: &dyn Fn(f64) -> f64,
) -> Option<Kinks> {
    let grid: Vec<f64> = (1..GRID).map(|i| i as f64 * length_mm / GRID as f64).filter(|x| free(*x)).collect();
    if grid.len() < count || count == 0 {
        return None;
    }
    let mut at = start(&grid, length_mm, count);
    let sides: Vec<f64> = grid.iter().map(|c| side(*c).signum()).collect();
    let sided = |(c, side): (&f64, &f64)| column(x_mm, *c, length_mm).iter().map(|v| side * v).collect();
    let columns: Vec<Vec<f64>> = grid.iter().zip(&sides).map(sided).collect();
    let (gram, right) = products(&columns, offset_mm);
    let of = |at: &[usize]| {
        let part: Vec<Vec<f64>> = at.iter().map(|i| at.iter().map(|j| gram[*i][*j]).collect()).collect();
        let pull: Vec<f64> = at.iter().map(|i| right[*i]).collect();
        let angles = normal(&part, &pull);
        let used: Vec<&[f64]> = at.iter().map(|i| columns[*i].as_slice()).collect();
        let left_mm = largest_left(offset_mm, &used, &angles);
        let kinks = at.iter().zip(angles).map(|(i, angle)| (grid[*i], sides[*i] * angle));
        Kinks { kinks: kinks.collect(), left_mm }
    };
    let mut found = of(&at);
    for _ in 0..ROUNDS {
        let mut moved = false;
        for k in 0..count {
            for step in [-3_isize, -1, 1, 3] {
                let Some(to) = at[k].checked_add_signed(step).filter(|to| *to < grid.len()) else { continue };
                if at.contains(&to) {
                    continue;
                }
                let mut tried = at.clone();
                tried[k] = to;
                let other = of(&tried);
                // a hair's gain is rounding, and would let mirror images chase each other
                if other.left_mm < found.left_mm * (1.0 - 1e-9) {
                    (at, found, moved) = (tried, other, true);
                }
            }
        }
        if !moved {
            break;
        }
    }
    found.kinks.retain(|k| k.1.abs() > 0.0);
    found.kinks.sort_unstable_by(|p, q| p.0.total_cmp(&q.0));
    Some(found)
}

/// Grid places nearest to equal parts, all different.
fn start(grid: &[f64], length_mm: f64, count: usize) -> Vec<usize> {
    let mut at: Vec<usize> = Vec::with_capacity(count);
    for i in 1..=count {
        let wish = i as f64 * length_mm / (count + 1) as f64;
        let gap = |j: &usize| (grid[*j] - wish).abs();
        let near = (0..grid.len()).filter(|j| !at.contains(j)).min_by(|i, j| gap(i).total_cmp(&gap(j)));
        at.extend(near);
    }
    at
}
