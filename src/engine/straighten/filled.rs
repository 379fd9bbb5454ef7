//! Readings between stations.

use super::shape::OutOfStraight;

/// Stations that a length is filled up to, at least (choice).
const STATIONS: f64 = 36.0;

impl OutOfStraight {
    /// The same with stations between the given ones, on cubic pieces whose slope at a station is that of the parabola through
    /// it and its neighbours: a bent member has no corners. Given stations keep their offsets; toes stay.
    ///
    /// A parabola read at five stations is found again between them.
    /// ```
    /// use weldbow_engine::straighten::shape::OutOfStraight;
    /// let x: Vec<f64> = (0..5).map(|i| 2e3 * f64::from(i)).collect();
    /// let arc = |x: f64| 4.0 * 20.0 * x * (8e3 - x) / 64e6;
    /// let offsets: Vec<f64> = x.iter().map(|x| arc(*x)).collect();
    /// let s = OutOfStraight::new(8e3, x, offsets, vec![0.0; 5], vec![])?.filled();
    /// assert!(s.x_mm.len() > 30);
    /// assert!(s.x_mm.iter().zip(&s.camber_mm).all(|(x, o)| (o - arc(*x)).abs() < 1e-9));
    /// # Ok::<(), weldbow_engine::straighten::shape::ShapeError>(())
    /// ```
    #[must_use]
    pub fn filled(&self) -> Self {
        let (Some(&first), Some(&last)) = (self.x_mm.first(), self.x_mm.last()) else { return self.clone() };
        let step = (last - first) / STATIONS;
        let mut x_mm = vec![first];
        for pair in self.x_mm.windows(2) {
            let pieces = ((pair[1] - pair[0]) / step).ceil().max(1.0);
            let inside = (1..pieces as u32).map(|i| pair[0] + f64::from(i) / pieces * (pair[1] - pair[0]));
            x_mm.extend(inside.chain([pair[1]]));
        }
        let between =
            |offsets: &[f64]| -> Vec<f64> { x_mm.iter().map(|x| cubic(&self.x_mm, offsets, *x)).collect() };
        Self {
            camber_mm: between(&self.camber_mm),
            sweep_mm: between(&self.sweep_mm),
            toes: self.toes.clone(),
            x_mm,
        }
    }
}

fn cubic(x_mm: &[f64], offset_mm: &[f64], x: f64) -> f64 {
    let last = x_mm.len().saturating_sub(2);
    let i = x_mm.partition_point(|p| *p <= x).saturating_sub(1).min(last);
    let (Some(&x0), Some(&x1)) = (x_mm.get(i), x_mm.get(i + 1)) else { return 0.0 };
    let (Some(&y0), Some(&y1)) = (offset_mm.get(i), offset_mm.get(i + 1)) else { return 0.0 };
    let width = x1 - x0;
    let s = (x - x0) / width;
    let r = 1.0 - s;
    let ends = y0 * r * r * (1.0 + 2.0 * s) + y1 * s * s * (1.0 + 2.0 * r);
    ends + width * s * r * (r * slope(x_mm, offset_mm, i) - s * slope(x_mm, offset_mm, i + 1))
}

/// Slope at station i of the parabola through three stations around it.
fn slope(x_mm: &[f64], offset_mm: &[f64], i: usize) -> f64 {
    let middle = i.clamp(1, x_mm.len().max(3) - 2);
    let (Some(x), Some(y)) = (x_mm.get(middle - 1..middle + 2), offset_mm.get(middle - 1..middle + 2)) else {
        return 0.0;
    };
    let (before, after) = ((y[1] - y[0]) / (x[1] - x[0]), (y[2] - y[1]) / (x[2] - x[1]));
    let bends = (after - before) / (x[2] - x[0]);
    before + bends * (2.0 * x_mm.get(i).copied().unwrap_or(0.0) - x[0] - x[1])
}
