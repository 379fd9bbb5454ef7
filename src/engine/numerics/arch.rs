//! Curves that are nothing at both ends, known at stations: 4u(1 − u) with u = x/L, times what goes straight from station to station. Bows and
//! their ± are such, so that it hardly matters where the stations lie.

use super::parabola;

/// Between two stations, straight: over 4u(1 − u) the value is a + b·u. An end, where nothing is, has the value of its neighbour there.
fn over([u, v]: [f64; 2], values: [f64; 2]) -> [f64; 2] {
    let part = |u: f64, value: f64| (parabola(u) > 0.0).then(|| value / parabola(u));
    let (from, to) = (part(u, values[0]), part(v, values[1]));
    match (from.or(to), to.or(from)) {
        (Some(from), Some(to)) => {
            let b = (to - from) / (v - u);
            [from - b * u, b]
        }
        _ => [0.0, 0.0],
    }
}

/// Value at x; `value` is asked at the two stations beside it. The first station is 0, the last the length.
///
/// ```
/// let curve = |x: f64| 0.4 * x * (1.0 - 0.1 * x) * (1.0 + 0.1 * x);
/// let x = [0.0, 2.5, 5.0, 8.0, 10.0];
/// let at = weldbow_engine::numerics::arch_at(&x, |i| curve(x[i]), 4.0);
/// assert!((at - curve(4.0)).abs() < 1e-12);
/// ```
pub fn arch_at(x: &[f64], value: impl Fn(usize) -> f64, at: f64) -> f64 {
    let length = x.last().copied().unwrap_or_default();
    let above = x.partition_point(|s| *s < at).clamp(1, x.len().max(2) - 1);
    let (Some(from), Some(to)) = (x.get(above - 1), x.get(above)) else { return 0.0 };
    let [a, b] = over([from / length, to / length], [value(above - 1), value(above)]);
    parabola(at / length) * (a + b * at / length)
}

/// Largest value, at least 0, from those at the stations: at the largest, or beside it.
///
/// ```
/// // 4u(1 − u)·(1 + u) has its top at u = 1/√3
/// let curve = |u: f64| 4.0 * u * (1.0 - u) * (1.0 + u);
/// let x = [0.0, 2.5, 5.0, 8.0, 10.0];
/// let top = weldbow_engine::numerics::arch_top(&x, &x.map(|x| curve(0.1 * x)));
/// assert!((top - curve(1.0 / 3.0_f64.sqrt())).abs() < 1e-12);
/// ```
pub fn arch_top(x: &[f64], values: &[f64]) -> f64 {
    let length = x.last().copied().unwrap_or_default();
    let most =
        values.iter().enumerate().fold((0, 0.0), |most, (i, v)| if *v > most.1 { (i, *v) } else { most });
    let beside = [most.0.checked_sub(1), Some(most.0)].into_iter().flatten();
    let pieces =
        beside.filter_map(|i| Some(([*x.get(i)?, *x.get(i + 1)?], [*values.get(i)?, *values.get(i + 1)?])));
    let tops = pieces.flat_map(|(x, values)| {
        let ends = x.map(|x| x / length);
        let [a, b] = over(ends, values);
        // flat where a + 2(b − a)u − 3b·u² is nothing, and in the middle without b
        let root = ((b - a).powi(2) + 3.0 * a * b).max(0.0).sqrt();
        let flat = [0.5, (b - a + root) / (3.0 * b), (b - a - root) / (3.0 * b)];
        flat.map(|u| if u >= ends[0] && u <= ends[1] { parabola(u) * (a + b * u) } else { 0.0 })
    });
    tops.fold(most.1, f64::max)
}
