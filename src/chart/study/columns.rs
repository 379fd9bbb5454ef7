//! Bars over words: a cluster a word, a bar a line, its value at its end.

use super::line::Line;
use super::marks::{cross, hatch};
use super::values::{largest, rounded};
use crate::ChartError;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point, corners};
use crate::theme::{BLACK, FULL, Ink, SMALL, Stroke, VALUE, WHITE, ZERO, series};

/// Share of the room of a word that its bars take, and the widest bar, px.
const FULLNESS: f64 = 0.74;
const WIDEST: f64 = 76.0;
/// From the end of a bar to the middle of its value, px.
const VALUE_OFF: f64 = 10.0;
/// Half the cap of a whisker, px.
const CAP: f64 = 4.0;

/// All bars of a plot.
pub(super) fn columns(paper: &Canvas<'_>, panel: &Panel, lines: &[Line]) -> Result<(), ChartError> {
    let wide = (FULLNESS * (panel.px(1.0) - panel.px(0.0)) / lines.len().max(1) as f64).min(WIDEST);
    let (zero, largest) = (panel.py(0.0), largest(lines));
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
            let Some(value) = rounded(spot.y, largest) else { continue };
            let y = if spot.y < 0.0 { beyond + VALUE_OFF } else { beyond - VALUE_OFF };
            for letters in [VALUE, SMALL.in_ink(BLACK)] {
                if paper.width_of(&value, letters)? < wide + 2.0 {
                    paper.plated((x, y), At::Middle, &value, letters, WHITE)?;
                    break;
                }
            }
        }
    }
    paper.line(&[(panel.left, zero), (panel.right, zero)], ZERO)
}

/// A bar between two corners, its pattern going by the rank of its line so that a grey print still reads.
pub(super) fn bar(paper: &Canvas<'_>, rank: usize, (a, b): (Point, Point)) -> Result<(), ChartError> {
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
pub(super) fn whisker(
    paper: &Canvas<'_>,
    x: f64,
    (low, high): (f64, f64),
    ink: Ink,
) -> Result<(), ChartError> {
    let thin = Stroke { ink, width: 1.0, dash: FULL };
    paper.line(&[(x, low), (x, high)], thin)?;
    for y in [low, high] {
        paper.line(&[(x - CAP, y), (x + CAP, y)], thin)?;
    }
    Ok(())
}
