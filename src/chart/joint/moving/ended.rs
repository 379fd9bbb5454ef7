//! Lines of a plot, each named where it ends.

use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point};
use crate::spread::spread;
use crate::theme::{LABEL, series};

/// Draws lines, then their names right of the plot.
pub(super) fn lines(paper: &Canvas<'_>, panel: &Panel, lines: &[(Vec<Point>, String)]) -> Done {
    for (n, (points, _)) in lines.iter().enumerate() {
        paper.line(&panel.path(points.iter().copied()), series(n))?;
    }
    let ends = lines.iter().map(|(points, _)| panel.py(points.last().map_or(0.0, |p| p.1)));
    let places = spread(&ends.collect::<Vec<_>>(), 15.0, panel.top, panel.bottom);
    for (n, ((_, name), y)) in lines.iter().zip(places).enumerate() {
        paper.text((panel.right + 8.0, y), At::Left, name, LABEL.in_ink(series(n).ink))?;
    }
    Ok(())
}
