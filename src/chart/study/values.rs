//! Values in numbers beside the ends of lines.

use super::cells::Spot;
use super::lines::Line;
use crate::ChartError;
use crate::axes::Panel;
use crate::canvas::{At, Canvas, Point};
use crate::number::number;
use crate::theme::{VALUE, WHITE};

/// Most lines whose values are written at the marks (a choice: more run into each other).
const MOST_VALUED: usize = 5;
/// A value below this part of the largest is written as one of that size (a choice).
const LEAST_PART: f64 = 0.05;
/// So few lines get their values even where they meet.
const ALWAYS: usize = 3;
/// Between two values one over the other, px.
const ROOM: f64 = 16.0;

/// Values in numbers at both ends of each line.
pub(super) fn write_values(paper: &Canvas<'_>, panel: &Panel, lines: &[Line]) -> Result<(), ChartError> {
    if lines.len() > MOST_VALUED {
        return Ok(());
    }
    let sides = [false, true].map(|right| lines.len() <= ALWAYS || apart(panel, lines, right));
    let largest = largest(lines);
    let mut taken: Vec<Point> = Vec::new();
    for line in lines {
        let good: Vec<&Spot> = line.spots.iter().filter(|spot| spot.cases > 0).collect();
        let [first, .., last] = good.as_slice() else { continue };
        for spot in [first, last] {
            let at = panel.at(spot.x, spot.y);
            let right = at.0 > 0.5 * (panel.left + panel.right);
            if !sides[usize::from(right)] {
                continue;
            }
            let (from, shift) = if right { (At::Right, -6.0) } else { (At::Left, 7.0) };
            let above = at.1 - panel.top > 24.0;
            let place = (at.0 + shift, at.1 + if above { -10.0 } else { 13.0 });
            let near = |other: &Point| (other.0 - place.0).abs() < 46.0 && (other.1 - place.1).abs() < 13.0;
            if !taken.iter().any(near) {
                let Some(value) = rounded(spot.y, largest) else { continue };
                paper.plated(place, from, &value, VALUE, WHITE)?;
                taken.push(place);
            }
        }
    }
    Ok(())
}

/// Whether the ends of all lines on one side leave room for a value each.
fn apart(panel: &Panel, lines: &[Line], right: bool) -> bool {
    let ends = lines.iter().filter_map(|line| {
        let mut good = line.spots.iter().filter(|spot| spot.cases > 0);
        if right { good.next_back() } else { good.next() }
    });
    let mut heights: Vec<f64> = ends.map(|spot| panel.py(spot.y)).collect();
    heights.sort_by(f64::total_cmp);
    heights.windows(2).all(|pair| pair[1] - pair[0] > ROOM)
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
