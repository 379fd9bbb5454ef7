//! What is read off a welded slice.

use super::mesh::{ElementKind, Mesh};
use super::plasticity::Four;
use super::shape::Point;
use super::slice::{Tally, modes};
use super::solve::SolverTime;
use serde::Serialize;
use std::time::Duration;

/// Part of a half flange, from its edge, to which a straight line is fitted (our choice: the outer half).
const OUTER_PART: f64 = 0.5;
/// Part of the web stub, from its top, to which its line is fitted (our choice: the upper half).
const UPPER_PART: f64 = 0.5;

/// The shrinkage force of a slice: what an elastic section would have to be pulled with to be so shortened and bent,
/// plus what it bears if it is held.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Shrinkage {
    /// Force F, N; + shortens.
    pub force_n: f64,
    /// Where it acts [across, up], mm; `None` without force.
    pub at_mm: Option<[f64; 2]>,
    /// Strain at the origin left in the slice; 0 if held.
    pub strain: f64,
    /// Curvatures left [across, up], 1/mm: change of strain with each; 0 if held.
    pub curvature_per_mm: [f64; 2],
}

/// The shape of a joint's cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SectionShape {
    /// Mean rise of the two flange halves toward the web, rad.
    pub cup_rad: f64,
    /// Half the difference of their rises from the web's square, near less far, rad; `None` without a web.
    pub tilt_rad: Option<f64>,
    /// Angle between the two halves: twice the cup, rad.
    pub fold_rad: f64,
    /// Loss of flange width, mm.
    pub narrowing_mm: f64,
}

/// One pass laid, and cooled until the next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PassOutcome {
    /// Force, and the strains left.
    pub shrinkage: Shrinkage,
    /// Angles; `None` for fibres, which know none.
    pub shape: Option<SectionShape>,
    /// Time from its arc to the end of its cooling, s.
    pub seconds: f64,
    /// Hottest point then, °C.
    pub hottest_c: f64,
    /// Heat held and lost over the heat given, less 1.
    pub energy_balance: f64,
    /// Highest temperature of each node since its arc came, °C.
    pub peak_c: Vec<f64>,
}

/// A slice at one time: its temperatures, and what it has come to at the end of the step that holds this time.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Snapshot {
    /// Number of the pass, from 1.
    pub pass: usize,
    /// Time since its arc came, s.
    pub time_s: f64,
    /// Temperature of each node, °C.
    pub t_c: Vec<f64>,
    /// Displacement of each node [across, up], mm; empty for fibres.
    pub displaced_mm: Vec<[f64; 2]>,
    /// Stress along the member at the points of the outcome, MPa.
    pub along_mpa: Vec<f64>,
    /// Size of the plastic strain there.
    pub plastic: Vec<f64>,
}

/// Time spent; not part of the result, which is the same each time.
#[derive(Debug, Clone, Copy, Default)]
pub struct SolveEffort {
    /// In all.
    pub whole: Duration,
    /// In the sparse solver, for heat and for the solid.
    pub solver: SolverTime,
}

/// A section, welded.
#[derive(Debug, Clone, Serialize)]
pub struct Outcome {
    /// Pass by pass.
    pub passes: Vec<PassOutcome>,
    /// The mesh.
    pub mesh: Mesh,
    /// Which elements are solid at the end.
    pub solid: Vec<bool>,
    /// Highest temperature of each node, °C.
    pub peak_c: Vec<f64>,
    /// Temperatures that were asked for, in order of time.
    pub snapshots: Vec<Snapshot>,
    /// Displacement of each node [across, up], mm.
    pub displaced_mm: Vec<[f64; 2]>,
    /// Places of the points where stress is known, four an element, mm.
    pub points_mm: Vec<[f64; 2]>,
    /// Stress along the member there, MPa.
    pub along_mpa: Vec<f64>,
    /// Size of the plastic strain there.
    pub plastic: Vec<f64>,
    /// Displacement unknowns.
    pub unknowns: usize,
    /// Temperature unknowns of the last pass.
    pub heat_unknowns: usize,
    /// Newton iterations of the heat problem.
    pub heat_iterations: usize,
    /// What the mechanics took.
    pub tally: Tally,
    /// Time it took.
    #[serde(skip)]
    pub effort: SolveEffort,
}

/// Reads a slice; knows its section properties.
pub(crate) struct SliceReader<'a> {
    mesh: &'a Mesh,
    points: &'a [Point],
    alive: &'a [bool],
    e_mpa: f64,
}

impl<'a> SliceReader<'a> {
    /// Of the elements that are solid.
    pub(crate) const fn new(mesh: &'a Mesh, points: &'a [Point], alive: &'a [bool], e_mpa: f64) -> Self {
        Self { mesh, points, alive, e_mpa }
    }

    /// Resultants of the stress plus those of an elastic section with the strain taken back: right for a slice held,
    /// free or anything between.
    pub(crate) fn shrinkage(&self, stress: &[Four], plane: [f64; 3]) -> Shrinkage {
        let mut sums = [0.0; 3];
        for (p, point) in self.points.iter().enumerate().filter(|(p, _)| self.alive[p / 4]) {
            let modes = modes(point.at_mm);
            let strain: f64 = modes.iter().zip(plane).map(|(m, s)| m * s).sum();
            let force = (stress[p][0] - self.e_mpa * strain) * point.area_mm2;
            (0..3).for_each(|m| sums[m] += force * modes[m]);
        }
        let force_n = sums[0];
        let at_mm = (force_n.abs() > 1e-6).then(|| [sums[1] / force_n, sums[2] / force_n]);
        Shrinkage { force_n, at_mm, strain: plane[0], curvature_per_mm: [plane[1], plane[2]] }
    }

    /// Angles by straight lines through the outer halves of the flange and the upper half of the web.
    pub(crate) fn shape(&self, moved_mm: &[[f64; 2]]) -> Option<SectionShape> {
        let nodes = self.mesh.nodes_mm.iter().zip(moved_mm);
        let flange = self.nodes_of(ElementKind::Flange);
        let web = self.nodes_of(ElementKind::Web);
        let half = flange.iter().map(|&n| self.mesh.nodes_mm[n][0].abs()).fold(0.0, f64::max);
        let top = web.iter().map(|&n| self.mesh.nodes_mm[n][1]).fold(0.0, f64::max);
        let pairs: Vec<_> = nodes.collect();
        let rise = |side: f64| {
            let outer =
                flange.iter().map(|&n| pairs[n]).filter(|(p, _)| side * p[0] >= half * OUTER_PART - 1e-9);
            slope(outer.map(|(p, u)| (side * p[0], u[1])))
        };
        let upper = web.iter().map(|&n| pairs[n]).filter(|(p, _)| p[1] >= top * (1.0 - UPPER_PART) - 1e-9);
        // A turn of the web counter-clockwise moves its top to the far side.
        let turn = slope(upper.map(|(p, u)| (p[1], -u[0])));
        let (near, far) = (rise(1.0)?, rise(-1.0)?);
        // At mid-thickness, by a line through the edge: it turns with the fold.
        let edge = |side: f64| {
            let at_edge = flange.iter().map(|&n| pairs[n]).filter(|(p, _)| (side * p[0] - half).abs() < 1e-6);
            let moves: Vec<(f64, f64)> = at_edge.map(|(p, u)| (p[1], side * u[0])).collect();
            let ends =
                moves.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |e, m| [e[0].min(m.0), e[1].max(m.0)]);
            line(&moves).map(|[x0, y0, slope]| y0 + slope * (f64::midpoint(ends[0], ends[1]) - x0))
        };
        Some(SectionShape {
            cup_rad: f64::midpoint(near, far),
            tilt_rad: turn.map(|turn| (near - far) / 2.0 - turn),
            fold_rad: near + far,
            narrowing_mm: -edge(1.0)? - edge(-1.0)?,
        })
    }

    fn nodes_of(&self, part: ElementKind) -> Vec<usize> {
        let mut nodes: Vec<usize> =
            self.mesh.elements.iter().filter(|e| e.part == part).flat_map(|e| e.nodes).collect();
        nodes.sort_unstable();
        nodes.dedup();
        nodes
    }
}

/// Slope of the least-squares line; `None` for fewer than two places.
fn slope(points: impl Iterator<Item = (f64, f64)>) -> Option<f64> {
    line(&points.collect::<Vec<_>>()).map(|line| line[2])
}

/// Least-squares line as mean x, mean y, slope.
fn line(points: &[(f64, f64)]) -> Option<[f64; 3]> {
    let n = points.len() as f64;
    let mean = |c: fn(&(f64, f64)) -> f64| points.iter().map(c).sum::<f64>() / n;
    let (x0, y0) = (mean(|p| p.0), mean(|p| p.1));
    let spread: f64 = points.iter().map(|p| (p.0 - x0).powi(2)).sum();
    let product: f64 = points.iter().map(|p| (p.0 - x0) * (p.1 - y0)).sum();
    (spread > 0.0).then(|| [x0, y0, product / spread])
}

#[cfg(test)]
mod tests {
    use super::super::shape::points;
    use super::super::{Fineness, Joint};
    use super::*;

    const TEE: Joint = Joint { far_leg_mm: None, ..Joint::USUAL };

    fn shape_of(moves: impl Fn([f64; 2]) -> [f64; 2]) -> SectionShape {
        let mesh = TEE.mesh(Fineness::COARSE).unwrap();
        let moved: Vec<[f64; 2]> = mesh.nodes_mm.iter().map(|p| moves(*p)).collect();
        let points: Vec<Point> = mesh.elements.iter().flat_map(|e| points(&mesh, e)).collect();
        let alive = vec![true; mesh.elements.len()];
        SliceReader::new(&mesh, &points, &alive, 210_000.0).shape(&moved).unwrap()
    }

    #[test]
    fn a_turn_of_the_whole_section_is_no_angle() {
        let shape = shape_of(|[y, z]| [-0.01 * z, 0.01 * y]);
        assert!(shape.cup_rad.abs() < 1e-15 && shape.tilt_rad.unwrap().abs() < 1e-12, "{shape:?}");
    }

    #[test]
    fn a_near_half_that_rises_alone_is_half_cup_half_tilt_and_both_are_positive() {
        let shape = shape_of(|[y, z]| [0.0, if z <= 0.0 { 0.02 * y.max(0.0) } else { 0.0 }]);
        assert!((shape.cup_rad - 0.01).abs() < 1e-12 && (shape.fold_rad - 0.02).abs() < 1e-12, "{shape:?}");
        assert!((shape.tilt_rad.unwrap() - 0.01).abs() < 1e-12, "{shape:?}");
    }

    #[test]
    fn edges_that_come_nearer_narrow_the_flange() {
        let shape = shape_of(|[y, _]| [-0.001 * y, 0.0]);
        assert!((shape.narrowing_mm - 0.2).abs() < 1e-12, "{shape:?}");
    }

    #[test]
    fn a_slice_shortened_and_bent_by_a_force_tells_that_force_and_its_place() {
        // Free of stress but shortened: an elastic rectangle 40 × 10 under F at [6, 2] from its middle.
        let lines = |half: f64| [-half, 0.0, half];
        let mesh = Mesh::block(&lines(20.0), &lines(5.0), ElementKind::Flange).unwrap();
        let points: Vec<Point> = mesh.elements.iter().flat_map(|e| points(&mesh, e)).collect();
        let (e, force, area) = (210_000.0, 50_000.0, 400.0);
        let plane = [
            -force / (e * area),
            -force * 6.0 / (e * 10.0 * 40.0_f64.powi(3) / 12.0),
            -force * 2.0 / (e * 40.0 * 10.0_f64.powi(3) / 12.0),
        ];
        let got = SliceReader::new(&mesh, &points, &[true; 4], e).shrinkage(&vec![[0.0; 4]; 16], plane);
        let at = got.at_mm.unwrap();
        assert!(
            (got.force_n - force).abs() < 1e-6 && (at[0] - 6.0).abs() < 1e-9 && (at[1] - 2.0).abs() < 1e-9,
            "{got:?}"
        );
    }
}
