//! Curves known at stations.

use super::Number;

/// Value at x between stations, straight; `value` is asked at the two stations beside x. Beyond the ends the end pieces go on.
///
/// ```
/// let v = [0.0, 10.0, 10.0];
/// let at = |x| weldbow_engine::numerics::between(&[0.0, 2.0, 5.0], |i| v[i], x);
/// assert_eq!([at(1.0), at(4.0)], [5.0, 10.0]);
/// ```
pub fn between(x: &[f64], value: impl Fn(usize) -> f64, at: f64) -> f64 {
    let above = x.partition_point(|s| *s < at).clamp(1, x.len().max(2) - 1);
    match (x.get(above - 1), x.get(above)) {
        (Some(x0), Some(x1)) => {
            let (v0, v1) = (value(above - 1), value(above));
            v0 + (at - x0) / (x1 - x0) * (v1 - v0)
        }
        _ => 0.0,
    }
}

/// Value at x of points (x, y) joined by straight lines, x rising; the end values hold beyond the ends, 0 without points.
///
/// ```
/// let at = |x| weldbow_engine::numerics::along(&[(0.0, 1.0), (10.0, 3.0)], x);
/// assert_eq!([at(-1.0), at(5.0), at(99.0)], [1.0, 2.0, 3.0]);
/// ```
pub fn along(points: &[(f64, f64)], x: f64) -> f64 {
    // one after the other: there are a handful, and most are asked near the start
    let above = points.iter().position(|p| p.0 >= x).unwrap_or(points.len());
    match (above.checked_sub(1).map(|below| points[below]), points.get(above)) {
        (Some((x0, y0)), Some((x1, y1))) => y0 + (x - x0) / (x1 - x0) * (y1 - y0),
        (None, Some(first)) => first.1,
        (Some(last), None) => last.1,
        (None, None) => 0.0,
    }
}

/// Lowest and highest of values and `start`. Plain comparisons: twice as fast as `min` and `max`, which look out for NaN.
pub(crate) fn range(start: f64, values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((start, start), |(low, high), v| {
        (if v < low { v } else { low }, if v > high { v } else { high })
    })
}

/// The value farthest from zero, with its sign; the first of two as far, 0 of none.
///
/// ```
/// assert_eq!(weldbow_engine::numerics::largest([2.0, -5.0, 4.0].into_iter()), -5.0);
/// ```
pub fn largest(values: impl Iterator<Item = f64>) -> f64 {
    values.fold(0.0, |most: f64, v| if v.abs() > most.abs() { v } else { most })
}

/// Value farthest from zero, with its sign: the top of the parabola through the farthest station and its neighbours. At
/// the stations alone a bow of eight substeps would lose up to 1.5 %.
///
/// ```
/// // 4s(1 − s) at 0, 0.4, 0.8, 1 has its top 1 between two stations
/// let top = weldbow_engine::numerics::farthest(&[0.0, 0.4, 0.8, 1.0], &[0.0, 0.96, 0.64, 0.0]);
/// assert!((top - 1.0).abs() < 1e-12);
/// ```
pub fn farthest(x: &[f64], v: &[f64]) -> f64 {
    let (low, high) = range(0.0, v.iter().copied());
    let most = if high < -low { low } else { high };
    let Some(at) = v.iter().position(|v| v.to_bits() == most.to_bits()) else { return most };
    let around =
        |values: &[f64]| values.get(at.wrapping_sub(1)..at + 2).and_then(|v| <[f64; 3]>::try_from(v).ok());
    let (Some([x0, x1, x2]), Some([v0, v1, v2])) = (around(x), around(v)) else { return most };
    let (before, after) = ((v1 - v0) / (x1 - x0), (v2 - v1) / (x2 - x1));
    let bends = (after - before) / (x2 - x0);
    let slope = before + bends * (x1 - x0);
    if bends.abs() > 0.0 { v1 - slope * slope / (4.0 * bends) } else { most }
}

/// Parabola over 0…1 with its top 1 in the middle.
///
/// ```
/// assert_eq!(weldbow_engine::numerics::parabola(0.25), 0.75);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn parabola<N: Number>(s: N) -> N {
    s * 4.0 * (-s + 1.0)
}
