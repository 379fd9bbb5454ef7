//! Where along the member something is largest, against what varies: places run along the member that is drawn below.

use super::axis::Axis;
use super::foot::Foot;
use super::marks::mark;
use super::member::ends;
use super::names::{line_name, together};
use super::sheet::{SheetText, sheet};
use super::view::StudyView;
use super::worded::{at, axis_name, cases, column, head, sentences};
use crate::axes::{Panel, Range};
use crate::canvas::{At, Canvas, MARGIN, Point};
use crate::number::number;
use crate::theme::{GHOST, GRID, LABEL, SMALL, VALUE, WHITE, ZERO, series};
use crate::{Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::study::{ChartSpec, Column};
use weldbow_engine::units::FT_MM;

/// Height of the chart, px, and over the plot for the names of the lines.
const TALL: f64 = 360.0;
const OVER: f64 = 30.0;
/// Labels nearer to each other than this share a place, px.
const NEAR: f64 = 60.0;
/// Decimals of a place (a choice: nobody measures where a bow is largest to a centimetre).
const DECIMALS: usize = 1;

/// The chart, if all that is shown are places, along the member that is drawn with it.
pub(super) fn places(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Option<Picture>> {
    let ys: Vec<&Column> = spec.y.iter().filter_map(|name| view.table.column(name)).collect();
    let apart = [&spec.by, &spec.panels, &spec.band, &spec.limit].iter().any(|key| key.is_some());
    let (Some(job), Some(along)) = (view.member.filter(|_| spec.member), column(view.table, spec.x.as_ref()))
    else {
        return Ok(None);
    };
    let (Some(size), Some(_)) = (ys.first().and_then(|y| unit_mm(y)), along.numbers()) else {
        return Ok(None);
    };
    if apart || ys.iter().any(|y| unit_mm(y).is_none()) {
        return Ok(None);
    }
    let rows: Vec<usize> = (0..view.table.rows()).collect();
    let up = Axis::along(along, &rows);
    let unit = ys.first().map_or("", |y| y.unit.as_str());
    let below =
        Axis::exactly(|_| format!("place along the member, {unit}"), 0.0, job.member.length_mm / size);
    let said = SheetText {
        what: format!("{} against {}", together(&ys, " and "), head(along)),
        subtitle: sentences(&[cases(rows.len())]),
        description: format!("Places along the member, from its start at the left, against {}.", head(along)),
    };
    let lines: Vec<Vec<(f64, f64)>> = ys
        .iter()
        .map(|y| {
            let mut line: Vec<(f64, f64)> =
                rows.iter().map(|row| (at(y, *row), at(along, *row))).filter(|p| p.0.is_finite()).collect();
            line.sort_by(|a, b| a.1.total_cmp(&b.1));
            line
        })
        .collect();
    let names: Vec<String> = ys.iter().map(|y| line_name(&ys, y, "")).collect();
    sheet(view, spec, name, said, TALL, |paper, heights| {
        draw(paper, heights, job, (&below, &up, &axis_name(along, 0)), (&names, &lines))
    })
    .map(Some)
}

/// Millimetres of the unit of a column of places; none if it holds no places.
fn unit_mm(column: &Column) -> Option<f64> {
    match (column.name.ends_with(".at_mm"), column.unit.as_str()) {
        (true, "m") => Some(1000.0),
        (true, "ft") => Some(FT_MM),
        _ => None,
    }
}

/// Places and values.
type Line = Vec<(f64, f64)>;

fn draw(
    paper: &Canvas<'_>,
    (top, bottom): (f64, f64),
    job: &Job,
    (below, up, name): (&Axis, &Axis, &str),
    (names, lines): (&[String], &[Line]),
) -> Done {
    let (left, right) = ends(job);
    let foot = Foot::of(paper, below, right - left)?;
    let air = 0.06 * (up.range.high - up.range.low);
    let y = Range { low: up.range.low - air, high: up.range.high + air };
    let panel = Panel::new((left, right), (top + OVER, bottom - foot.tall - 22.0), below.range, y);
    for mark in up.marks((panel.bottom - panel.top) / 52.0) {
        let y = panel.py(mark.place);
        paper.line(&[(left, y), (right, y)], GRID)?;
        paper.text((left - 7.0, y), At::Right, &mark.text, LABEL)?;
    }
    let middle = panel.px(0.5 * (panel.x.low + panel.x.high));
    paper.line(&[(middle, panel.top), (middle, panel.bottom)], GHOST)?;
    paper.plated((middle, panel.bottom - 10.0), At::Middle, "mid-length", SMALL, WHITE)?;
    let mut taken: Vec<Point> = Vec::new();
    for (rank, (name, line)) in names.iter().zip(lines).enumerate() {
        paper.line(&panel.path(line.iter().copied()), series(rank))?;
        for (place, value) in line {
            mark(paper, panel.at(*place, *value), rank, 4.0, series(rank).ink)?;
        }
        let (Some(first), Some(last)) = (line.first(), line.last()) else { continue };
        for (end, text) in
            [(last, format!("{name} {}", number(last.0, DECIMALS))), (first, number(first.0, DECIMALS))]
        {
            let from = panel.at(end.0, end.1);
            let above = end.1 > first.1;
            let at = if above { (from.0, from.1 - 14.0) } else { (from.0 + 12.0, from.1) };
            if taken.iter().any(|t: &Point| (t.0 - at.0).abs() < NEAR && (t.1 - at.1).abs() < 14.0) {
                continue;
            }
            paper.plated(at, if above { At::Middle } else { At::Left }, &text, VALUE, WHITE)?;
            taken.push(at);
        }
    }
    foot.line(paper, &panel)?;
    foot.labels(paper, &panel)?;
    paper.line(&[(left, panel.bottom), (right, panel.bottom)], ZERO)?;
    paper.text((0.5 * (left + right), bottom - 9.0), At::Middle, &below.name, LABEL)?;
    let name = paper.shortened(name, panel.bottom - panel.top, LABEL)?;
    paper.upward((MARGIN + 6.0, panel.middle().1), &name, LABEL)
}
