//! A field over the elements, cut into bands of one shade each.

use super::clip::{Vertex, clipped};
use super::view::View;
use crate::Done;
use crate::canvas::{Canvas, Point};
use crate::theme::{Ink, Stroke};
use weldbow_engine::joint_solver::Mesh;

/// Shapes are drawn this much larger, px, so that no hairline shows between them.
const GROWN: f64 = 0.35;

/// Limits between bands, rising, and the shade of each: one more than limits.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bands {
    /// Limits.
    pub(crate) limits: Vec<f64>,
    /// Shades, from below the first limit to above the last.
    pub(crate) inks: Vec<Ink>,
}

/// Node values over the elements of a mesh that are shown.
#[derive(Clone, Copy)]
pub(super) struct Field<'m> {
    pub(crate) mesh: &'m Mesh,
    pub(crate) values: &'m [f64],
    pub(crate) shown: &'m [bool],
}

/// A piece of a picture and the number of its band.
type Shape = (usize, Vec<Vertex>);

impl Bands {
    fn of(&self, value: f64) -> usize {
        self.limits.partition_point(|limit| *limit <= value)
    }

    /// Draws a field over the elements that are shown, lower bands first.
    pub(super) fn fill(&self, paper: &Canvas<'_>, view: &View, field: Field<'_>) -> Done {
        let mut shapes: Vec<Shape> = Vec::new();
        for corners in field.corners() {
            let whole = view.inside(&corners);
            if whole.is_empty() {
                continue;
            }
            let of = corners.map(|v| self.of(v.value));
            if of.iter().all(|band| *band == of[0]) {
                shapes.push((of[0], whole));
                continue;
            }
            for triangle in triangles(&corners) {
                self.cut(|shape| view.inside(shape), &triangle, &mut shapes);
            }
        }
        shapes.sort_by_key(|shape| shape.0);
        self.fill_all(paper, &shapes, |at| view.at(at))
    }

    /// Shades a four-sided piece of a surface whose corners lie on the paper, px.
    pub(super) fn piece(&self, paper: &Canvas<'_>, corners: &[Vertex; 4]) -> Done {
        let mut shapes: Vec<Shape> = Vec::new();
        let of = corners.map(|v| self.of(v.value));
        if of.iter().all(|band| *band == of[0]) {
            shapes.push((of[0], corners.to_vec()));
        } else {
            for triangle in [[0, 1, 2], [0, 2, 3]] {
                self.cut(<[Vertex]>::to_vec, &triangle.map(|k| corners[k]), &mut shapes);
            }
        }
        self.fill_all(paper, &shapes, |[x, y]| (x, y))
    }

    fn fill_all(&self, paper: &Canvas<'_>, shapes: &[Shape], place: impl Fn([f64; 2]) -> Point) -> Done {
        for (band, shape) in shapes {
            let points: Vec<Point> = shape.iter().map(|v| place(v.at)).collect();
            paper.fill(&grown(&points), self.inks[*band], 1.0)?;
        }
        Ok(())
    }

    fn cut(
        &self,
        inside: impl Fn(&[Vertex]) -> Vec<Vertex>,
        triangle: &[Vertex; 3],
        shapes: &mut Vec<Shape>,
    ) {
        let of = triangle.map(|v| self.of(v.value));
        let (least, most) = (of[0].min(of[1]).min(of[2]), of[0].max(of[1]).max(of[2]));
        for band in least..=most {
            let mut shape = triangle.to_vec();
            if let Some(low) = band.checked_sub(1).and_then(|k| self.limits.get(k)) {
                shape = clipped(&shape, |v| v.value - low);
            }
            if let Some(high) = self.limits.get(band) {
                shape = clipped(&shape, |v| high - v.value);
            }
            let shape = inside(&shape);
            if !shape.is_empty() {
                shapes.push((band, shape));
            }
        }
    }
}

impl<'m> Field<'m> {
    /// Corners of the elements that are shown.
    fn corners(self) -> impl Iterator<Item = [Vertex; 4]> + 'm {
        let vertex = move |n: usize| Vertex { at: self.mesh.nodes_mm[n], value: self.values[n] };
        let seen = self.mesh.elements.iter().zip(self.shown).filter(|(_, shown)| **shown);
        seen.map(move |(element, _)| [0, 1, 2, 3].map(|k| vertex(element.nodes[k])))
    }

    /// Draws where it has these values, straight across the triangles that shades are cut from.
    pub(super) fn lines<const N: usize>(
        self,
        paper: &Canvas<'_>,
        view: &View,
        levels: [(f64, Stroke); N],
    ) -> Done {
        for (level, stroke) in levels {
            for triangle in self.corners().flat_map(|corners| triangles(&corners)) {
                if let Some(ends) = crossing(&triangle, level) {
                    view.path(paper, &ends, stroke)?;
                }
            }
        }
        Ok(())
    }
}

/// The triangles between the edges of four corners and their middle.
fn triangles(corners: &[Vertex; 4]) -> [[Vertex; 3]; 4] {
    let mean = |get: fn(&Vertex) -> f64| corners.iter().map(get).sum::<f64>() / 4.0;
    let middle = Vertex { at: [mean(|v| v.at[0]), mean(|v| v.at[1])], value: mean(|v| v.value) };
    [0, 1, 2, 3].map(|k| [corners[k], corners[(k + 1) % 4], middle])
}

/// The straight line on which a triangle has a value, if it has.
fn crossing(triangle: &[Vertex; 3], level: f64) -> Option<[[f64; 2]; 2]> {
    let mut ends = Vec::with_capacity(2);
    for k in 0..3 {
        let (a, b) = (triangle[k], triangle[(k + 1) % 3]);
        if (a.value < level) != (b.value < level) {
            let part = (level - a.value) / (b.value - a.value);
            ends.push([0, 1].map(|c| a.at[c] + part * (b.at[c] - a.at[c])));
        }
    }
    match ends.as_slice() {
        [from, to] => Some([*from, *to]),
        _ => None,
    }
}

/// A convex shape, each corner moved a little away from the middle both ways.
pub(super) fn grown(points: &[Point]) -> Vec<Point> {
    let count = points.len().max(1) as f64;
    let middle = points.iter().fold((0.0, 0.0), |sum, p| (sum.0 + p.0 / count, sum.1 + p.1 / count));
    let beyond = |from: f64| if from.abs() < 1e-6 { 0.0 } else { GROWN * from.signum() };
    let away = |p: &Point| (p.0 + beyond(p.0 - middle.0), p.1 + beyond(p.1 - middle.1));
    points.iter().map(away).collect()
}

/// A shape that has moved, grown as it would be where it came from: a long strip that has turned has corners on the other side of
/// its middle, up or down, and would shrink there.
pub(super) fn grown_as(before: &[Point], moved: &[Point]) -> Vec<Point> {
    let more = grown(before).into_iter().zip(before).map(|(big, p)| (big.0 - p.0, big.1 - p.1));
    moved.iter().zip(more).map(|(p, more)| (p.0 + more.0, p.1 + more.1)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(shape: &[Vertex]) -> f64 {
        let cross = |n: usize| {
            let (a, b) = (shape[n].at, shape[(n + 1) % shape.len()].at);
            a[0] * b[1] - a[1] * b[0]
        };
        (0..shape.len()).map(cross).sum::<f64>() / 2.0
    }

    /// Two strips of 40 × 2 px on each other, turned by 6°: their common edge rises 4.2 px, twice their height.
    #[test]
    fn strips_that_have_turned_leave_no_gap_between_them() {
        let strip = |low: f64| [(0.0, low), (40.0, low), (40.0, low + 2.0), (0.0, low + 2.0)];
        let (sin, cos) = 6.0_f64.to_radians().sin_cos();
        let turned = |s: [Point; 4]| grown_as(&s, &s.map(|(x, y)| (cos * x - sin * y, sin * x + cos * y)));
        let (lower, upper) = (turned(strip(0.0)), turned(strip(2.0)));
        for (top, bottom) in [(lower[2], upper[1]), (lower[3], upper[0])] {
            assert!(top.1 > bottom.1 + 0.5 * GROWN, "{top:?} under {bottom:?}");
        }
    }

    #[test]
    fn a_level_crosses_a_sloping_triangle_on_a_straight_line() {
        let at = |y: f64, z: f64| Vertex { at: [y, z], value: y };
        let ends = crossing(&[at(0.0, 0.0), at(3.0, 0.0), at(0.0, 3.0)], 1.0).unwrap();
        assert!(ends.iter().all(|end| (end[0] - 1.0).abs() < 1e-12), "{ends:?}");
        assert_eq!(crossing(&[at(0.0, 0.0), at(3.0, 0.0), at(0.0, 3.0)], 4.0), None);
    }

    #[test]
    fn bands_of_a_sloping_triangle_share_its_area() {
        // The value is the place across: 3 × 3 mm, half the square.
        let at = |y: f64, z: f64| Vertex { at: [y, z], value: y };
        let triangle = [at(0.0, 0.0), at(3.0, 0.0), at(0.0, 3.0)];
        let bands = Bands { limits: vec![1.0, 2.0], inks: vec![Ink(0, 0, 0); 3] };
        let view = View { window: [-9.0, -9.0, 9.0, 9.0], scale: 1.0, corner: (0.0, 0.0) };
        let mut shapes = Vec::new();
        bands.cut(|shape| view.inside(shape), &triangle, &mut shapes);
        let areas: Vec<f64> = shapes.iter().map(|(_, shape)| area(shape)).collect();
        for (got, want) in areas.iter().zip([2.5, 1.5, 0.5]) {
            assert!((got - want).abs() < 1e-12, "{areas:?}");
        }
        let view = View { window: [0.0, 0.0, 1.0, 1.0], ..view };
        assert!((area(&view.inside(&triangle)) - 1.0).abs() < 1e-12);
        let view = View { window: [4.0, 4.0, 5.0, 5.0], ..view };
        assert!(view.inside(&triangle).is_empty());
    }
}
