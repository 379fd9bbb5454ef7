//! Labels on contours: in the middle of the line where there is room, else nearer to its ends, else none.

use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point};
use crate::theme::{Letters, WHITE};

/// Boxes already taken by labels: left, top, right, bottom, px.
pub(super) type Taken = Vec<[f64; 4]>;

/// Shares of the length at which a label is tried.
const TRIED: [f64; 7] = [0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85];
/// A line shorter than this times its label's width goes without.
const SHORT: f64 = 1.6;
/// Kept free around a label, px.
const AIR: f64 = 5.0;

/// Puts the label on the line if it finds a place.
pub(super) fn name_contour(
    paper: &Canvas<'_>,
    panel: &Panel,
    line: &[Point],
    text: &str,
    letters: Letters,
    taken: &mut Taken,
) -> Done {
    let width = paper.width_of(text, letters)?;
    let whole: f64 = line.windows(2).map(|p| apart(p[0], p[1])).sum();
    if whole < SHORT * width {
        return Ok(());
    }
    let (half, tall) = (0.5 * width + AIR, 0.62 * letters.size + AIR);
    for part in TRIED {
        let (x, y) = along(line, part * whole);
        let x = x.clamp(panel.left + half, (panel.right - half).max(panel.left + half));
        let y = y.clamp(panel.top + tall, (panel.bottom - tall).max(panel.top + tall));
        let wanted = [x - half, y - tall, x + half, y + tall];
        // pushed in from the edge it may no longer be on its line
        let on_line = line.iter().any(|p| (p.0 - x).abs() < 0.3 * width && (p.1 - y).abs() < letters.size);
        let free =
            |b: &[f64; 4]| b[2] <= wanted[0] || wanted[2] <= b[0] || b[3] <= wanted[1] || wanted[3] <= b[1];
        if on_line && taken.iter().all(free) {
            taken.push(wanted);
            return paper.plated((x, y), At::Middle, text, letters, WHITE);
        }
    }
    Ok(())
}

fn apart(a: Point, b: Point) -> f64 {
    (b.0 - a.0).hypot(b.1 - a.1)
}

/// The point after that much of the line.
fn along(line: &[Point], length: f64) -> Point {
    let mut left = length;
    for pair in line.windows(2) {
        let step = apart(pair[0], pair[1]);
        if step >= left && step > 0.0 {
            let part = left / step;
            return (pair[0].0 + part * (pair[1].0 - pair[0].0), pair[0].1 + part * (pair[1].1 - pair[0].1));
        }
        left -= step;
    }
    line.last().copied().unwrap_or((0.0, 0.0))
}
