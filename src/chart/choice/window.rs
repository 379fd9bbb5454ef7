//! Leg against travel speed, with the border of every rule named and the chosen point marked.

use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, Point, SIZE, draw};
use crate::measure::Unit;
use crate::spread::spread;
use crate::theme::{BLUE, GREY, Ink, LABEL, SMALL, STEEL, THIN, VALUE, WHITE, series};
use crate::{Done, Picture};
use weldbow_engine::choose::{Border, Choice, Window};
use weldbow_engine::numerics::along;
use weldbow_engine::units::{IN_MM, System};

/// A border that ends this far from the right edge is named where it ends, px.
const SHORT_OF_EDGE: f64 = 90.0;

pub(super) fn window(choice: &Choice, window: &Window, system: System) -> Done<Picture> {
    let (name, mm, decimals) = system.pick(("m/min", 1000.0 / 60.0, 2), ("in/min", IN_MM / 60.0, 0));
    let speed = Unit { name, mm, decimals };
    let leg = Unit { decimals: system.pick(1, 3), ..Unit::offset(system) };
    let run = if window.run.is_empty() { String::new() } else { format!(", {}", window.run) };
    let x = Range { low: window.speed_mm_s.0, high: window.speed_mm_s.1 };
    let y = Range { low: window.leg_mm.0, high: window.leg_mm.1 };
    let panel = Panel::new((84.0, 668.0), (BELOW_TITLE + 16.0, SIZE.1 - 62.0), x, y);
    let blue = allowed(&panel, window);
    let held = if blue.is_empty() {
        "No leg all along meets every rule."
    } else {
        "Blue: one leg all along meets every rule."
    };
    let heading = Heading {
        name: "window",
        job: &choice.title,
        what: "the window of leg and travel speed",
        subtitle: format!(
            "Procedure {}{run}. {held} Dots: legs chosen, stretch by stretch.",
            window.procedure
        ),
        description: format!(
            "Leg against travel speed with {} borders and the chosen point.",
            window.borders.len()
        ),
    };
    draw(&heading, SIZE, |paper| {
        paper.fill(&blue, BLUE, 0.16)?;
        panel.y_axis(paper, leg, "leg")?;
        panel.x_axis(paper, speed, "travel speed")?;
        borders(paper, &panel, window)?;
        ends(paper, &panel, window)?;
        let mut chosen = window.chosen.iter();
        chosen.try_for_each(|(speed_mm_s, leg_mm)| paper.dot(panel.at(*speed_mm_s, *leg_mm), 6.0, BLUE))
    })
}

/// Value of a border at a speed, if it reaches there.
fn value(border: &Border, speed: f64) -> Option<f64> {
    let reach = border.points.first()?.0..=border.points.last()?.0;
    reach.contains(&speed).then(|| along(&border.points, speed))
}

/// The area that no border rules out.
fn allowed(panel: &Panel, window: &Window) -> Vec<Point> {
    const STEPS: usize = 240;
    let (low, high) = window.qualified_mm_s;
    let (mut floor, mut roof) = (Vec::new(), Vec::new());
    for n in 0..=STEPS {
        let speed = low + n as f64 / STEPS as f64 * (high - low);
        let of = |below: bool| {
            let own = window.borders.iter().filter(move |b| b.rules_out_below == below);
            own.filter_map(move |b| value(b, speed))
        };
        let (least, most) = (of(true).fold(0.0, f64::max), of(false).fold(f64::INFINITY, f64::min));
        if least <= most && most.is_finite() {
            floor.push(panel.at(speed, least));
            roof.push(panel.at(speed, most));
        }
    }
    roof.reverse();
    floor.extend(roof);
    floor
}

/// Slowest and fastest speed, as upright lines named at the top.
fn ends(paper: &Canvas<'_>, panel: &Panel, window: &Window) -> Done {
    for (speed, words, from) in
        [(window.qualified_mm_s.0, "slowest", At::Left), (window.qualified_mm_s.1, "fastest", At::Right)]
    {
        let x = panel.px(speed);
        paper.line(&[(x, panel.top), (x, panel.bottom)], THIN)?;
        let beside = if from == At::Left { x + 5.0 } else { x - 5.0 };
        paper.plated((beside, panel.bottom - 10.0), from, words, SMALL, WHITE)?;
    }
    Ok(())
}

/// Borders, each named at its right end.
fn borders(paper: &Canvas<'_>, panel: &Panel, window: &Window) -> Done {
    let inside = |b: &Border| -> Vec<Point> {
        let seen = b.points.iter().filter(|p| p.1 >= panel.y.low && p.1 <= panel.y.high);
        panel.path(seen.copied())
    };
    let drawn: Vec<(usize, &Border, Vec<Point>)> =
        window.borders.iter().enumerate().map(|(n, b)| (n, b, inside(b))).filter(|d| d.2.len() > 1).collect();
    let wanted: Vec<f64> = drawn.iter().map(|d| d.2.last().map_or(0.0, |p| p.1)).collect();
    let places = spread(&wanted, 18.0, panel.top + 4.0, panel.bottom - 4.0);
    for ((n, border, points), y) in drawn.iter().zip(places) {
        let stroke = series(*n);
        paper.line(points, stroke)?;
        let Some(end) = points.last().copied() else { continue };
        let ink: Ink = if stroke.ink == STEEL { GREY } else { stroke.ink };
        let letters = VALUE.in_ink(ink);
        if panel.right - end.0 > SHORT_OF_EDGE {
            // a leader right across the plot would read as a border: the name stands at the end of its own line
            let name = paper.shortened(&border.name, panel.right - end.0 - 12.0, VALUE)?;
            paper.plated((end.0 + 7.0, end.1), At::Left, &name, letters, WHITE)?;
            continue;
        }
        let left = panel.right + 22.0;
        paper.line(&[end, (panel.right + 6.0, y), (left - 4.0, y)], THIN)?;
        let room = SIZE.0 - left - 8.0;
        paper.text((left, y), At::Left, &paper.shortened(&border.name, room, LABEL)?, letters)?;
    }
    Ok(())
}
