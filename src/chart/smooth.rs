//! A bow between its stations. A bent member has no corners, so its picture should have none either: cubic
//! pieces through the stations, each slope that of the parabola through a station and its two neighbours.

use super::canvas::Point;

/// Pieces drawn between two stations.
const PIECES: u32 = 6;

/// Stations nearer than this are one place, where a line may jump: it is then left as it is.
const SAME_PLACE: f64 = 1e-6;

/// The same line with points between the given ones, x rising. What was given is kept exactly.
pub(super) fn smooth(points: &[Point]) -> Vec<Point> {
    if points.len() < 3 || points.windows(2).any(|p| p[1].0 - p[0].0 < SAME_PLACE) {
        return points.to_vec();
    }
    let slopes: Vec<f64> = (0..points.len()).map(|i| slope(points, i)).collect();
    let mut line = vec![points[0]];
    for (i, pair) in points.windows(2).enumerate() {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        let width = x1 - x0;
        for piece in 1..PIECES {
            let s = f64::from(piece) / f64::from(PIECES);
            let r = 1.0 - s;
            let ends = y0 * r * r * (1.0 + 2.0 * s) + y1 * s * s * (1.0 + 2.0 * r);
            line.push((x0 + s * width, ends + width * s * r * (r * slopes[i] - s * slopes[i + 1])));
        }
        line.push(pair[1]);
    }
    line
}

/// Slope at a station of the parabola through it and its neighbours; at an end, through the first three.
fn slope(points: &[Point], i: usize) -> f64 {
    let middle = i.clamp(1, points.len() - 2);
    let [a, b, c] = [points[middle - 1], points[middle], points[middle + 1]];
    let (before, after) = ((b.1 - a.1) / (b.0 - a.0), (c.1 - b.1) / (c.0 - b.0));
    let bend = (after - before) / (c.0 - a.0);
    before + bend * (2.0 * points[i].0 - a.0 - b.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_parabola_at_uneven_stations_comes_back_exactly() {
        let y = |x: f64| 3.0 + x * (2.0 - 0.5 * x);
        let given: Vec<Point> = [0.0, 1.0, 1.5, 4.0, 6.0].into_iter().map(|x| (x, y(x))).collect();
        for (x, found) in smooth(&given) {
            assert!((found - y(x)).abs() < 1e-12, "at {x}: {found} for {}", y(x));
        }
    }

    #[test]
    fn a_half_wave_is_met_at_least_five_times_nearer_than_by_straight_pieces() {
        let wave = |s: f64| (s * std::f64::consts::PI).sin();
        let given: Vec<Point> = (0..=12).map(|i| f64::from(i) / 12.0).map(|s| (s, wave(s))).collect();
        let worst = smooth(&given).into_iter().map(|(s, y)| (y - wave(s)).abs()).fold(0.0, f64::max);
        // the sagitta of the topmost piece
        let straight = 1.0 - (std::f64::consts::PI / 24.0).cos();
        assert!(5.0 * worst < straight, "off by {worst}, straight pieces by {straight}");
    }

    #[test]
    fn two_points_stay_a_straight_line() {
        assert_eq!(smooth(&[(0.0, 1.0), (2.0, 3.0)]), [(0.0, 1.0), (2.0, 3.0)]);
    }
}
