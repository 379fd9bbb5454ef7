//! Bars over words: a cluster a word, a bar a line, its value at its end.

use super::cells::{Line, Spot};
use super::marks::{cross, hatch};
use super::values::{largest, rounded};
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point, corners};
use crate::theme::{BLACK, FULL, Ink, Letters, SMALL, Stroke, VALUE, WHITE, ZERO, series};

/// Share of the room of a word that its bars take, and the widest bar, px.
const FULLNESS: f64 = 0.82;
const WIDEST: f64 = 76.0;
/// From the end of a bar to the middle of its value, px.
const VALUE_OFF: f64 = 10.0;
/// From the end of a bar to a value that reads upward, px.
const UPRIGHT_OFF: f64 = 5.0;
/// Least room between two values side by side, px.
const BETWEEN: f64 = 4.0;
/// Part of the largest value that counts as nothing: rounding.
const NOTHING: f64 = 1e-9;
/// Half the cap of a whisker, px.
const CAP: f64 = 4.0;

/// All bars of a plot.
pub(super) fn columns(paper: &Canvas<'_>, panel: &Panel, lines: &[Line]) -> Done {
    let wide = (FULLNESS * (panel.px(1.0) - panel.px(0.0)) / lines.len().max(1) as f64).min(WIDEST);
    let (zero, largest) = (panel.py(0.0), largest(lines));
    // bars that stand alone over their word have its whole room
    let room = if lines.len() == 1 { panel.px(1.0) - panel.px(0.0) } else { wide };
    let values = Lettered::of(paper, lines, largest, room)?;
    for (n, line) in lines.iter().enumerate() {
        let off = (n as f64 - 0.5 * (lines.len() as f64 - 1.0)) * wide;
        for spot in &line.spots {
            let x = panel.px(spot.x) + off;
            if spot.cases == 0 {
                cross(paper, (x, zero), 4.0)?;
                continue;
            }
            let end = panel.py(spot.y);
            bar(paper, line.rank, ((x - 0.46 * wide, end), (x + 0.46 * wide, zero)))?;
            let mut beyond = end;
            if spot.high - spot.low > 0.0 {
                let reach = (panel.py(spot.low), panel.py(spot.high));
                whisker(paper, x, reach, BLACK)?;
                beyond = if spot.y < 0.0 { reach.0 } else { reach.1 };
            }
            let Some(value) = told(spot, largest) else { continue };
            let way = if spot.y < 0.0 { 1.0 } else { -1.0 };
            match values {
                Lettered::Level(letters) => {
                    paper.plated((x, beyond + way * VALUE_OFF), At::Middle, &value, letters, WHITE)?;
                }
                Lettered::Upright(letters) => {
                    let off = UPRIGHT_OFF + 0.5 * paper.width_of(&value, letters)?;
                    paper.upward((x, beyond + way * off), &value, letters)?;
                }
                Lettered::Not => {}
            }
        }
    }
    paper.line(&[(panel.left, zero), (panel.right, zero)], ZERO)
}

/// How values are written at the ends of bars: all of a plot alike.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Lettered {
    Level(Letters),
    /// Reading upward, where bars are too narrow for a value across.
    Upright(Letters),
    /// Not at all, where bars are narrower than letters are high.
    Not,
}

impl Lettered {
    /// As large as `room` px from one bar to the next allow.
    fn of(paper: &Canvas<'_>, lines: &[Line], largest: f64, room: f64) -> Done<Self> {
        let small = SMALL.in_ink(BLACK);
        let spots = || lines.iter().flat_map(|line| &line.spots).filter(|spot| spot.cases > 0);
        for letters in [VALUE, small] {
            let widest = paper.widest(spots().filter_map(|spot| told(spot, largest)), letters)?;
            if widest + BETWEEN < room {
                return Ok(Self::Level(letters));
            }
        }
        Ok(if small.size < room { Self::Upright(small) } else { Self::Not })
    }
}

/// A value at a bar; what is nothing is written so, without decimals that say nothing. The pattern of a bar says whose it is, so a
/// warning stands beside the value.
fn told(spot: &Spot, largest: f64) -> Option<String> {
    let value = if spot.y.abs() <= NOTHING * largest { "0".to_owned() } else { rounded(spot.y, largest)? };
    Some(if spot.warned { format!("{value} !") } else { value })
}

/// A bar between two corners, its pattern going by the rank of its line so that a grey print still reads.
pub(super) fn bar(paper: &Canvas<'_>, rank: usize, (a, b): (Point, Point)) -> Done {
    let ink = series(rank).ink;
    match rank % 3 {
        0 => paper.fill(&corners(a, b), ink, 1.0)?,
        1 => {
            paper.fill(&corners(a, b), WHITE, 1.0)?;
            hatch(paper, (a, b), 6.0, Stroke { ink, width: 1.6, dash: FULL })?;
        }
        _ => paper.fill(&corners(a, b), ink, 0.3)?,
    }
    paper.outline(&corners(a, b), Stroke { ink, width: 1.2, dash: FULL })
}

/// From one height to another, with caps.
pub(super) fn whisker(paper: &Canvas<'_>, x: f64, (low, high): (f64, f64), ink: Ink) -> Done {
    let thin = Stroke { ink, width: 1.0, dash: FULL };
    paper.line(&[(x, low), (x, high)], thin)?;
    [low, high].into_iter().try_for_each(|y| paper.line(&[(x - CAP, y), (x + CAP, y)], thin))
}
