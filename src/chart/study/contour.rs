//! Lines of equal value over a grid, by marching squares.

use crate::canvas::Point;
use crate::chains::chains;

/// Values over a grid of places: `z[row][column]` at (x[column], y[row]); NaN where a case failed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    pub x: Vec<f64>,
    pub y: Vec<f64>,
    pub z: Vec<Vec<f64>>,
}

/// An edge of a cell: along x or along y, from that node.
type Edge = (bool, usize, usize);

impl Grid {
    /// The same field on a finer grid: straight along x and along y between the nodes, as between the
    /// computed points of a line.
    pub(super) fn refined(&self, (columns, rows): (usize, usize)) -> Self {
        let between = |places: &[f64], times: usize| -> Vec<(usize, f64)> {
            let mut steps = Vec::new();
            for n in 0..places.len().saturating_sub(1) {
                steps.extend((0..times).map(|step| (n, step as f64 / times as f64)));
            }
            steps.push((places.len().saturating_sub(2), 1.0));
            steps
        };
        let (xs, ys) = (between(&self.x, columns.max(1)), between(&self.y, rows.max(1)));
        let place = |places: &[f64], (n, part): (usize, f64)| places[n] + part * (places[n + 1] - places[n]);
        // a node whose weight is zero says nothing, even if it failed
        let mixed = |a: f64, b: f64, part: f64| {
            if part <= 0.0 {
                a
            } else if part >= 1.0 {
                b
            } else {
                a + part * (b - a)
            }
        };
        let value = |(row, up): (usize, f64), (column, along): (usize, f64)| {
            let at = |row: usize| mixed(self.z[row][column], self.z[row][column + 1], along);
            mixed(at(row), at(row + 1), up)
        };
        Self {
            x: xs.iter().map(|s| place(&self.x, *s)).collect(),
            y: ys.iter().map(|s| place(&self.y, *s)).collect(),
            z: ys.iter().map(|row| xs.iter().map(|column| value(*row, *column)).collect()).collect(),
        }
    }

    /// Lines on which the field has that level; a closed one ends where it begins. Cells with a failed
    /// corner have none. In a saddle the middle of the cell decides.
    pub(super) fn contours(&self, level: f64) -> Vec<Vec<Point>> {
        let mut pieces: Vec<[Edge; 2]> = Vec::new();
        for row in 0..self.y.len().saturating_sub(1) {
            for column in 0..self.x.len().saturating_sub(1) {
                pieces.extend(self.crossings(row, column, level));
            }
        }
        let lines = chains(pieces.into_iter().rev()).into_iter();
        lines.map(|line| line.into_iter().map(|edge| self.point(edge, level)).collect()).collect()
    }

    fn crossings(&self, row: usize, column: usize, level: f64) -> Vec<[Edge; 2]> {
        let corner = |up: usize, along: usize| self.z[row + up][column + along];
        let corners = [corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0)];
        if corners.iter().any(|z| !z.is_finite()) {
            return Vec::new();
        }
        let edges: [Edge; 4] =
            [(true, row, column), (false, row, column + 1), (true, row + 1, column), (false, row, column)];
        let above = corners.map(|z| z >= level);
        let cut: Vec<Edge> = (0..4).filter(|n| above[*n] != above[(n + 1) % 4]).map(|n| edges[n]).collect();
        match cut.as_slice() {
            [a, b] => vec![[*a, *b]],
            [a, b, c, d] => {
                let middle = corners.iter().map(|z| 0.25 * z).sum::<f64>() >= level;
                // the first corner is cut off from the middle, or its neighbours are
                if middle == above[0] { vec![[*a, *b], [*c, *d]] } else { vec![[*d, *a], [*b, *c]] }
            }
            _ => Vec::new(),
        }
    }

    fn point(&self, (along, row, column): Edge, level: f64) -> Point {
        let here = self.z[row][column];
        let there = if along { self.z[row][column + 1] } else { self.z[row + 1][column] };
        let part = ((level - here) / (there - here)).clamp(0.0, 1.0);
        if along {
            (self.x[column] + part * (self.x[column + 1] - self.x[column]), self.y[row])
        } else {
            (self.x[column], self.y[row] + part * (self.y[row + 1] - self.y[row]))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(nodes: usize, z: impl Fn(f64, f64) -> f64) -> Grid {
        let places: Vec<f64> = (0..nodes).map(|n| -2.0 + 4.0 * n as f64 / (nodes - 1) as f64).collect();
        let rows = places.iter().map(|y| places.iter().map(|x| z(*x, *y)).collect()).collect();
        Grid { x: places.clone(), y: places.clone(), z: rows }
    }

    fn length(line: &[Point]) -> f64 {
        line.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum()
    }

    #[test]
    fn the_contour_of_a_cone_of_squares_is_a_circle_and_closes_on_refining() {
        // x² + y² = 1.44: radius 1.2, closed; the linear crossing errs by h²/(8 r) at most
        for (nodes, within) in [(17, 0.0070), (33, 0.0018), (65, 0.00045)] {
            let lines = field(nodes, |x, y| x * x + y * y).contours(1.44);
            assert_eq!(lines.len(), 1, "{nodes} nodes");
            let line = &lines[0];
            assert_eq!(line.first(), line.last(), "closed");
            let worst = line.iter().map(|p| (p.0.hypot(p.1) - 1.2).abs()).fold(0.0, f64::max);
            assert!(worst < within, "{nodes} nodes: radius off by {worst}");
            let round = 2.0 * std::f64::consts::PI * 1.2;
            assert!(
                (length(line) / round - 1.0).abs() < 2.0 * within,
                "{nodes}: {} for {round}",
                length(line)
            );
        }
    }

    #[test]
    fn a_sloping_plane_has_one_straight_contour_from_side_to_side() {
        let lines = field(9, |x, y| x + 0.5 * y).contours(0.3);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].iter().all(|p| (p.0 + 0.5 * p.1 - 0.3).abs() < 1e-12));
        assert!((length(&lines[0]) - 4.0_f64.hypot(2.0)).abs() < 1e-9, "{}", length(&lines[0]));
    }

    #[test]
    fn a_saddle_parts_into_two_and_a_level_out_of_reach_has_none() {
        assert_eq!(field(8, |x, y| x * y).contours(0.1).len(), 2);
        assert!(field(8, |x, y| x * y).contours(9.0).is_empty());
    }

    #[test]
    fn a_failed_corner_leaves_a_gap() {
        let mut grid = field(9, |x, _| x);
        grid.z[4][4] = f64::NAN;
        assert_eq!(grid.contours(0.1).len(), 2);
    }

    #[test]
    fn refining_keeps_nodes_and_planes() {
        let grid = field(5, |x, y| 2.0 * x - y);
        let fine = grid.refined((3, 4));
        assert_eq!((fine.x.len(), fine.y.len()), (13, 17));
        for (y, row) in fine.y.iter().zip(&fine.z) {
            for (x, z) in fine.x.iter().zip(row) {
                assert!((z - (2.0 * x - y)).abs() < 1e-12);
            }
        }
    }
}
