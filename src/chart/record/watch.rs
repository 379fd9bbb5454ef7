//! One kind of readings in the order of welding: individuals, moving ranges, and the moving average of their scores.

use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, draw};
use crate::measure::Unit;
use crate::number::number;
use crate::theme::{BLUE, FULL, GREY, LIMIT, SMALL, Stroke, VALUE, VERMILION, ZERO};
use crate::{Done, Picture};
use weldbow_engine::input::text::capital;
use weldbow_engine::units::System;
use weldbow_record::watch::Chart;

const SIZE: (f64, f64) = (900.0, 640.0);
const LEFT: f64 = 96.0;
const RIGHT: f64 = 770.0;
/// Tops and bottoms of the three plots, px.
const PLOTS: [(f64, f64); 3] = [(BELOW_TITLE + 16.0, 300.0), (332.0, 420.0), (452.0, 580.0)];
const LINE: Stroke = Stroke::new(BLUE, 1.4, FULL);
const MIDDLE: Stroke = Stroke::new(GREY, 1.2, FULL);

pub(super) fn watch(chart: &Chart, system: System) -> Done<Picture> {
    let unit = Unit::offset(system);
    let line = if chart.line.is_empty() { String::new() } else { format!(" on line {}", chart.line) };
    let said = match &chart.shift {
        Some(s) => {
            let by = number(s.by_mm / unit.mm, unit.decimals);
            let day = s.date.as_ref().map_or(String::new(), |day| format!(" of {day}"));
            format!(
                "moved by {by} {} from piece {}{day} on, told {} pieces later",
                unit.name,
                s.piece,
                s.told_after - 1
            )
        }
        None => format!("no shift seen in {} pieces", chart.points.len()),
    };
    let plain: String = chart.line.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let dash = if plain.is_empty() { "" } else { "-" };
    let heading = Heading {
        name: &format!("record-{}{dash}{plain}", chart.kind.name()),
        job: "",
        what: &format!("{} of the pieces, less what is expected{line}", capital(chart.kind.name())),
        subtitle: said.clone(),
        description: format!(
            "Individuals, moving ranges and moving average of {} pieces in the order of welding; {said}.",
            chart.points.len()
        ),
    };
    draw(&heading, SIZE, |paper| {
        individuals(paper, chart, unit)?;
        ranges(paper, chart, unit)?;
        average(paper, chart)
    })
}

fn panel(chart: &Chart, at: usize, values: impl Iterator<Item = f64>, least: f64) -> Panel {
    let (top, bottom) = PLOTS[at];
    let x = Range::to(chart.points.len() as f64 + 1.0);
    Panel::new((LEFT, RIGHT), (top, bottom), x, Range::around(values, least))
}

/// A level with its name behind it.
fn level(paper: &Canvas<'_>, p: &Panel, y: f64, stroke: Stroke, name: &str) -> Done {
    paper.line(&[(p.left, p.py(y)), (p.right, p.py(y))], stroke)?;
    paper.text((p.right + 8.0, p.py(y)), At::Left, name, SMALL.in_ink(stroke.ink))
}

fn series(
    paper: &Canvas<'_>,
    p: &Panel,
    values: impl Iterator<Item = (usize, f64)>,
    out: impl Fn(usize) -> bool,
) -> Done {
    let points: Vec<(usize, f64)> = values.collect();
    paper.line(&p.path(points.iter().map(|(i, v)| (*i as f64 + 1.0, *v))), LINE)?;
    for (i, v) in points {
        let ink = if out(i) { VERMILION } else { BLUE };
        paper.dot(p.at(i as f64 + 1.0, v), 2.6, ink)?;
    }
    Ok(())
}

fn individuals(paper: &Canvas<'_>, chart: &Chart, unit: Unit) -> Done {
    let [low, high] = chart.limits_mm;
    let values = || chart.points.iter().map(|p| p.off_mm);
    let p = panel(chart, 0, values().chain([low, high]), 2.0);
    p.y_axis(paper, unit, "off")?;
    level(paper, &p, chart.middle_mm, MIDDLE, "middle")?;
    level(paper, &p, high, LIMIT, "3 σ, by ranges")?;
    level(paper, &p, low, LIMIT, "")?;
    if let Some(shift) = &chart.shift {
        let at = chart.points.iter().position(|q| q.at == shift.at).unwrap_or(0);
        let x = p.px(at as f64 + 0.5);
        let day = shift.date.as_ref().map_or(String::new(), |day| format!(", {day}"));
        paper.line(&[(x, p.top), (x, PLOTS[2].1)], Stroke::new(VERMILION, 1.2, FULL))?;
        let began = format!("began: {}{day}", shift.piece);
        paper.text((x, p.top - 8.0), At::Middle, &began, VALUE.in_ink(VERMILION))?;
    }
    series(paper, &p, values().enumerate(), |i| {
        let off = chart.points[i].off_mm;
        off < low || off > high
    })
}

fn ranges(paper: &Canvas<'_>, chart: &Chart, unit: Unit) -> Done {
    let values = || chart.points.iter().map(|p| p.range_mm).enumerate().skip(1);
    let p = panel(chart, 1, values().map(|v| v.1).chain([chart.range_limit_mm]), 1.0);
    p.y_axis(paper, unit, "range")?;
    level(paper, &p, chart.range_limit_mm, LIMIT, "3.87 × median")?;
    series(paper, &p, values(), |i| chart.points[i].range_mm > chart.range_limit_mm)
}

fn average(paper: &Canvas<'_>, chart: &Chart) -> Done {
    let values = || chart.points.iter().map(|p| p.average);
    let limits = || chart.points.iter().map(|p| p.limit);
    let p = panel(chart, 2, values().chain(limits()).chain(limits().map(|l| -l)), 2.0);
    p.y_axis(paper, Unit { name: "σ", mm: 1.0, decimals: 1 }, "average")?;
    for sign in [1.0, -1.0] {
        let line = chart.points.iter().enumerate().skip(2).map(|(i, q)| (i as f64 + 1.0, sign * q.limit));
        paper.line(&p.path(line), LIMIT)?;
    }
    let last = chart.points.last().map_or(1.0, |q| q.limit);
    paper.text((p.right + 8.0, p.py(last)), At::Left, "limit of the average", SMALL.in_ink(VERMILION))?;
    paper.line(&[(p.left, p.py(0.0)), (p.right, p.py(0.0))], ZERO)?;
    series(paper, &p, values().enumerate(), |i| {
        chart.points[i].average.abs() > chart.points[i].limit && i > 1
    })?;
    let count = chart.points.len();
    let every = count.div_ceil(14).max(1);
    for (i, q) in chart.points.iter().enumerate().step_by(every) {
        let name: String = q.piece.chars().take(8).collect();
        paper.text((p.px(i as f64 + 1.0), p.bottom + 15.0), At::Middle, &name, SMALL)?;
    }
    paper.text((0.5 * (LEFT + RIGHT), p.bottom + 34.0), At::Middle, "pieces in the order of welding", SMALL)
}
