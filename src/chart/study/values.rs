//! Values in numbers beside the ends of lines.

use super::cells::Line;
use crate::Done;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point};
use crate::number::number;
use crate::spread::spread;
use crate::theme::{VALUE, WHITE};

/// Most lines whose values are written at the marks (a choice: more run into each other).
const MOST_VALUED: usize = 5;
/// A value below this part of the largest is written as one of that size (a choice).
const LEAST_PART: f64 = 0.05;
/// So few lines get their first values even where they meet.
const ALWAYS: usize = 3;
/// Between two values one over the other, px.
const ROOM: f64 = 16.0;
/// From a value to its point, px.
const BESIDE: f64 = 9.0;
/// Letters of a name that stands before its value (a choice: longer ones would push it off the sheet).
const SHORT_NAME: usize = 22;
/// Room left of the first points for their values, as a part of the axis.
pub(super) const BEFORE: f64 = 0.075;

/// Whether so few lines get their values in numbers.
pub(super) const fn valued(lines: usize) -> bool {
    lines <= MOST_VALUED
}

/// What a line is called at its end, with the value there: a short name before it, a long one behind.
pub(super) fn name_and_value(name: &str, line: &Line, largest: f64) -> String {
    let last = line.spots.iter().rev().find(|spot| spot.cases > 0).and_then(|spot| rounded(spot.y, largest));
    match last {
        None => name.to_owned(),
        Some(value) if name.is_empty() => value,
        Some(value) if name.chars().count() > SHORT_NAME => format!("{value} {name}"),
        Some(value) => format!("{name}: {value}"),
    }
}

/// The first value of each line, left of its first point, where no line runs.
pub(super) fn write_first(paper: &Canvas<'_>, panel: &Panel, lines: &[Line]) -> Done {
    let largest = largest(lines);
    let first = |line: &Line| {
        let mut good = line.spots.iter().filter(|spot| spot.cases > 0);
        let (first, _) = (good.next()?, good.next()?);
        rounded(first.y, largest).map(|value| (panel.at(first.x, first.y), value))
    };
    let mut values: Vec<(Point, String)> = lines.iter().filter_map(first).collect();
    values.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
    // lines that begin as one have one value
    values.dedup_by(|b, a| b.1 == a.1 && (b.0.1 - a.0.1).abs() < ROOM);
    let crowded = values.windows(2).any(|pair| pair[1].0.1 - pair[0].0.1 < 0.5 * ROOM);
    if crowded && values.len() > ALWAYS {
        return Ok(());
    }
    let wanted: Vec<f64> = values.iter().map(|value| value.0.1).collect();
    let placed = spread(&wanted, ROOM, panel.top, panel.bottom - 6.0);
    let mut values = values.iter().zip(placed);
    values.try_for_each(|((at, value), y)| paper.plated((at.0 - BESIDE, y), At::Right, value, VALUE, WHITE))
}

/// A value to be read off a picture: two digits are enough, three from one hundred on. None if the axis has a power of ten: a value
/// beside a line would be longer than the picture.
pub(super) fn rounded(value: f64, largest: f64) -> Option<String> {
    const READABLE: std::ops::Range<f64> = 1e-4..1e6;
    let size = value.abs();
    if size > 0.0 && !READABLE.contains(&size) {
        return None;
    }
    // what is next to nothing beside the others needs no more decimals than they
    let telling = size.max(LEAST_PART * largest.abs());
    let decimals =
        if telling >= 10.0 || telling <= 0.0 { 0 } else { (1.0 - telling.log10().floor()).min(6.0) as usize };
    Some(number(value, decimals))
}

/// The largest size any line reaches.
pub(super) fn largest(lines: &[Line]) -> f64 {
    let all = lines.iter().flat_map(|line| &line.spots).map(|spot| spot.y.abs());
    all.filter(|size| size.is_finite()).fold(0.0, f64::max)
}
