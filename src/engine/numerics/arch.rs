//! Curves that are nothing at both ends.

use super::{along, parabola};

/// A curve that is nothing at both ends and known at stations: 4u(1 − u) with u = x/L, times what goes straight from station to station. Bows
/// and their ± are such, so that it hardly matters where the stations lie.
///
/// ```
/// // 4u(1 − u)·(1 + u) at four stations
/// let curve = |x: f64| 0.4 * x * (1.0 - 0.1 * x) * (1.0 + 0.1 * x);
/// let x = [0.0, 2.5, 5.0, 8.0, 10.0];
/// let arch = weldbow_engine::numerics::Arch::of(&x, |i| curve(x[i]));
/// assert!((arch.at(4.0) - curve(4.0)).abs() < 1e-12);
/// // its top lies at u = 1/√3
/// assert!((arch.top() - curve(10.0 / 3.0_f64.sqrt())).abs() < 1e-12);
/// ```
#[derive(Debug, Clone)]
pub struct Arch {
    length: f64,
    /// u and the value over 4u(1 − u), at the stations inside.
    points: Vec<(f64, f64)>,
}

impl Arch {
    /// Through values at stations x, of which the first is 0 and the last the length.
    pub fn of(x: &[f64], value: impl Fn(usize) -> f64) -> Self {
        let length = x.last().copied().unwrap_or_default();
        let all = x.iter().enumerate().map(|(i, x)| (x / length, value(i)));
        let inside = all.filter(|(u, _)| parabola(*u) > 0.0);
        Self { length, points: inside.map(|(u, value)| (u, value / parabola(u))).collect() }
    }

    /// Value at x.
    pub fn at(&self, x: f64) -> f64 {
        let u = x / self.length;
        parabola(u) * along(&self.points, u)
    }

    /// Largest value, at least 0.
    pub fn top(&self) -> f64 {
        let value = |u: f64| parabola(u) * along(&self.points, u);
        // 4u(1 − u)·(a + b·u) is flat where a + 2(b − a)u − 3b·u² is nothing, and in the middle without b
        let flat = self.points.windows(2).flat_map(|ends| {
            let [(from, g), (to, h)] = [ends[0], ends[1]];
            let b = (h - g) / (to - from);
            let a = g - b * from;
            let root = ((b - a).powi(2) + 3.0 * a * b).max(0.0).sqrt();
            [(b - a + root) / (3.0 * b), (b - a - root) / (3.0 * b)]
        });
        let inside = flat.chain([0.5]).filter(|u| (0.0..=1.0).contains(u));
        self.points.iter().map(|(u, _)| *u).chain(inside).map(value).fold(0.0, f64::max)
    }
}
