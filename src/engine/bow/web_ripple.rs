//! Web buckling by weld shrinkage: compression against critical stress.
//!
//! The seams pull, the web between them is pushed. A long plate under even compression buckles at
//! σ_cr = k·π²E/(12(1 − ν²))·(t/b)², k = 4 hinged and 6.97 clamped along both flanges (Timoshenko and Gere, Theory of
//! Elastic Stability; EN 1993-1-5 Table 4.1 for k = 4; memory, sure). The real flange lies between.
//!
//! Bending across the web changes the mean stress at buckling little: with the stress at one edge twice the
//! other's EN 1993-1-5 gives k·mean = 3.97, against 4 for even compression. So the mean is compared.

use super::Plane;
use crate::member::Section;
use crate::numerics::Number;
use crate::sources::{Constant, Trust, record};
use crate::steel::POISSON;

/// k with both edges hinged (Bryan 1891: 4, exact).
pub const K_HINGED: f64 = 4.0;
/// k with both edges clamped (Timoshenko, Theory of Elastic Stability; memory, sure).
pub const K_CLAMPED: f64 = 6.97;

/// Critical stress, MPa, of a long plate of thickness t and width b (mm) for a buckling coefficient k.
///
/// ```
/// use weldbow_engine::bow::web_ripple::critical_mpa;
/// // E = 210 000 MPa, b/t = 150, k = 4
/// assert!((critical_mpa(4.0, 1.0, 150.0, 210e3) - 33.7).abs() < 0.05);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn critical_mpa<N: Number>(k: f64, thickness_mm: N, width_mm: N, e_mpa: N) -> N {
    const PLATE: f64 = std::f64::consts::PI * std::f64::consts::PI / (12.0 * (1.0 - POISSON * POISSON));
    let slimness = thickness_mm / width_mm;
    e_mpa * (k * PLATE) * slimness * slimness
}

/// Half waves along the web over its depth, hinged and clamped along both flanges: where k is least (Timoshenko and Gere;
/// memory, sure).
pub(super) const HALF_WAVE: [f64; 2] = [1.0, CLAMPED_WAVE];
/// Of a web that is clamped.
const CLAMPED_WAVE: f64 = 0.66;
/// Mean over the depth of the squared shape across the web: of sin(πy/b), and of ½(1 − cos(2πy/b)).
pub(super) const MEAN_SQUARE: [f64; 2] = [0.5, 0.375];

/// What the middle of a web that no longer works leaves: the stress it carried goes over to the rest, about the rest's own
/// centroid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Softening<N = f64> {
    /// New strain at y = 0 and new dε/dy, each by the old two.
    by: [[N; 2]; 2],
}

impl<N: Number> Softening<N> {
    /// Takes `gone_mm` out of the middle of a web of that thickness and depth in a section it is part of.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn of(section: &Section<N>, web_mm: N, depth_mm: N, gone_mm: N) -> Self {
        let (lost, middle) = (web_mm * gone_mm, depth_mm * 0.5);
        let own = lost * gone_mm * gone_mm / 12.0;
        let area = section.area_mm2 - lost;
        let centroid = (section.area_mm2 * section.centroid_mm - lost * middle) / area;
        let (moved, arm) = (section.centroid_mm - centroid, middle - centroid);
        let i = section.i_z_mm4 + section.area_mm2 * moved * moved - own - lost * arm * arm;
        // a strip under strain ε₀ + g·y hands over lost·(ε₀ + g·middle) at `arm`, and own·g about itself
        let force = [lost, lost * middle];
        let bends = [force[0] * arm / i, (force[1] * arm + own) / i];
        let stretches = [force[0] / area - bends[0] * centroid, force[1] / area - bends[1] * centroid];
        Self { by: [[stretches[0] + 1.0, stretches[1]], [bends[0], bends[1] + 1.0]] }
    }

    /// Strain of the softened section in place of that of the whole one.
    #[cfg_attr(wide, inline(always))]
    pub(crate) fn soften(&self, plane: &mut Plane<N>) {
        let (edge, bend) = (plane.at_edge, plane.in_plane);
        plane.at_edge = self.by[0][0] * edge + self.by[0][1] * bend;
        plane.in_plane = self.by[1][0] * edge + self.by[1][1] * bend;
    }
}

/// A web that buckles under a strain given for the whole section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Buckled<N = f64> {
    /// Part of the web that still works: √(σ_cr/σ) (von Kármán 1932; memory, sure) with the stress σ that it then has; all of one that stays
    /// flat beside others that buckle.
    pub(crate) share: N,
    /// That stress, MPa, + compressive.
    pub(crate) edge_mpa: N,
    /// What it does to strains.
    pub(crate) softening: Softening<N>,
}

/// Part of the way to the answer from which no further step is taken.
const SETTLED: f64 = 1e-13;
/// More steps than the slowest case takes.
const MOST_STEPS: usize = 60;

/// Whether a web of that thickness and depth buckles in a section under that strain, and what it leaves; the critical
/// stress is half-way between hinged and clamped (choice). Effective width and stress are iterated until they agree.
#[cfg_attr(wide, inline(always))]
pub(crate) fn buckled<N: Number>(
    section: &Section<N>,
    web_mm: N,
    depth_mm: N,
    plane: &Plane<N>,
    e_mpa: N,
) -> Option<Buckled<N>> {
    let compression = -e_mpa * plane.at(depth_mm * 0.5);
    let critical = critical_mean_mpa(web_mm, depth_mm, e_mpa);
    if !(compression - critical).any(|beyond| beyond > 0.0) {
        return None;
    }
    let pressed = Pressed::of(section, web_mm, depth_mm, plane, e_mpa);
    let (one, nothing) = (N::all(1.0), N::default());
    let mut share = (critical / compression.max(critical)).sqrt();
    // a case that has settled, or stays flat, goes no further beside others that do
    let mut goes_on = compression.above(critical, one, nothing);
    for _ in 0..MOST_STEPS {
        // each plain step leaves less than half of the error; where two of them lead is known from how they differ
        // (A. C. Aitken 1926; memory, sure)
        let first = pressed.next(critical, share);
        let second = pressed.next(critical, first);
        let (step, bend) = (second - first, second - first * 2.0 + share);
        let led = second - step * step / bend;
        let led = led.above(nothing, led.above(one, second, led), second);
        // without a difference there is nowhere to be led
        let better = bend.abs().above(nothing, led, second);
        let far = (better - share).abs();
        share = goes_on.above(nothing, better, share);
        goes_on = far.above(N::all(SETTLED), goes_on, nothing);
        if !goes_on.any(|goes| goes > 0.0) {
            break;
        }
    }
    let softening = Softening::of(section, web_mm, depth_mm, (-share + 1.0) * depth_mm);
    Some(Buckled { share, edge_mpa: pressed.stress(share), softening })
}

/// Strain in the middle of a web of which a strip no longer works, as [`Softening`] has it: ε + S·u·ε + (S·ε·e + (w³t/12)·g)·e/I, with strip S = t·w,
/// u = 1/(A − S), e = A·δ·u the arm of the middle about the rest's centroid, I = I_z − w³t/12 − A·S·δ²·u that of the rest.
struct Pressed<N> {
    area_mm2: N,
    i_z_mm4: N,
    /// Area times the distance δ from the centroid to the middle, and times its square.
    lever: [N; 2],
    web_mm: N,
    depth_mm: N,
    strain: N,
    bend: N,
    e_mpa: N,
}

impl<N: Number> Pressed<N> {
    #[cfg_attr(wide, inline(always))]
    fn of(section: &Section<N>, web_mm: N, depth_mm: N, plane: &Plane<N>, e_mpa: N) -> Self {
        let middle = depth_mm * 0.5;
        let offset = middle - section.centroid_mm;
        let lever = section.area_mm2 * offset;
        Self {
            area_mm2: section.area_mm2,
            i_z_mm4: section.i_z_mm4,
            lever: [lever, lever * offset],
            web_mm,
            depth_mm,
            strain: plane.at(middle),
            bend: plane.in_plane,
            e_mpa,
        }
    }

    /// Stress where that part of the web works, MPa, + compressive.
    #[cfg_attr(wide, inline(always))]
    fn stress(&self, share: N) -> N {
        -self.e_mpa * self.strain((-share + 1.0) * self.depth_mm)
    }

    /// The part that works under that stress.
    #[cfg_attr(wide, inline(always))]
    fn next(&self, critical_mpa: N, share: N) -> N {
        (critical_mpa / self.stress(share)).sqrt()
    }

    #[cfg_attr(wide, inline(always))]
    fn strain(&self, gone_mm: N) -> N {
        let lost = self.web_mm * gone_mm;
        let own = lost * gone_mm * gone_mm * (1.0 / 12.0);
        let rest = (self.area_mm2 - lost).inverse();
        let arm = self.lever[0] * rest;
        let i = self.i_z_mm4 - own - lost * self.lever[1] * rest;
        let handed = lost * self.strain;
        self.strain + handed * rest + (handed * arm + own * self.bend) * arm / i
    }
}

/// Critical stress of a web t × d between hinged and clamped flanges, half-way: [`critical_mpa`] with k = 5.485, MPa.
///
/// ```
/// // 5 mm, 1000 mm deep, 206 000 MPa: 5.485 · 186 183 · 0.005²
/// let mpa = weldbow_engine::bow::web_ripple::critical_mean_mpa(5.0, 1000.0, 206e3);
/// assert!((mpa - 25.53).abs() < 0.01);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn critical_mean_mpa<N: Number>(web_mm: N, depth_mm: N, e_mpa: N) -> N {
    critical_mpa(0.5 * (K_HINGED + K_CLAMPED), web_mm, depth_mm, e_mpa)
}

/// Half-height of the ripples of a buckled web that was flat, mm: [hinged, clamped] along the flanges.
///
/// Ripples take up what the flanges shorten more than the web's mean stress does, ε_e·(1 − s), with ε_e the strain of the
/// edges and s the working share. A shape w·f(y)·sin(πx/λ) shortens the web by π²w²·mean(f²)/(4λ²) (derived), so
/// w = (2λ/π)·√(ε_e·(1 − s)/mean(f²)).
///
/// 1000 × 5 mm hinged, 45 MPa at the edges, two thirds working: w = (2000/π)·√(2.18·10⁻⁴ · 0.333/0.5) = 7.7 mm.
/// ```
/// let [hinged, clamped] = weldbow_engine::bow::web_ripple::amplitude_mm(1000.0, 45.0 / 206e3, 2.0 / 3.0);
/// assert!((hinged - 7.68).abs() < 0.01 && clamped < hinged);
/// ```
#[cfg_attr(wide, inline(always))]
pub fn amplitude_mm<N: Number>(depth_mm: N, edge_strain: N, share: N) -> [N; 2] {
    let taken_up = edge_strain.max(N::default()) * (-share + 1.0).max(N::default());
    let mut held_mm = [N::default(); 2];
    for (held, mm) in held_mm.iter_mut().enumerate() {
        let half_mm = depth_mm * (2.0 * HALF_WAVE[held]) / std::f64::consts::PI;
        *mm = half_mm * (taken_up / MEAN_SQUARE[held]).sqrt();
    }
    held_mm
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(K_HINGED, "", "buckling coefficient, hinged").known(
        Trust::MemorySure,
        "Timoshenko and Gere, Theory of Elastic Stability, 1961; EN 1993-1-5 Table 4.1",
    ),
    record!(K_CLAMPED, "", "buckling coefficient, clamped")
        .known(Trust::MemorySure, "Timoshenko and Gere, as above"),
    record!(CLAMPED_WAVE, "", "half waves along a clamped web over its depth")
        .known(Trust::MemorySure, "Timoshenko and Gere, as above"),
    record!(POISSON, "", "Poisson ratio").known(Trust::MemorySure, "EN 1993-1-1:2005 3.2.6"),
];

#[cfg(test)]
mod tests {
    use super::super::{Pull, Response};
    use super::*;
    use crate::member::{Parts, Plates, properties};

    const PLATES: Plates = Plates { web_mm: 5.0, outer_mm: (180.0, 8.0), inner_mm: (220.0, 16.0) };
    const DEPTH: f64 = 1200.0;
    const E: f64 = 206e3;

    fn section() -> Section {
        properties(&PLATES, DEPTH, 0.0, Parts::ALL)
    }

    #[test]
    fn a_softened_section_is_the_section_without_the_strip() {
        let (whole, gone) = (section(), 400.0);
        let pull = Pull { force_n: 180e3, up_n_mm: 0.0, near_n_mm: 0.0 };
        let mut plane = Response::of(&whole, 0.0, 1.0, 1.0, E).to(&pull);
        Softening::of(&whole, PLATES.web_mm, DEPTH, gone).soften(&mut plane);
        // the rest put together plate by plate
        let half = (DEPTH - gone) / 2.0;
        let (w, o, i) = (PLATES.web_mm * half, 180.0 * 8.0, 220.0 * 16.0);
        let parts =
            [(o, -4.0, 8.0), (w, half / 2.0, half), (w, DEPTH - half / 2.0, half), (i, DEPTH + 8.0, 16.0)];
        let area: f64 = parts.iter().map(|p| p.0).sum();
        let centroid = parts.iter().map(|p| p.0 * p.1).sum::<f64>() / area;
        let i_z = parts.iter().map(|p| p.0 * ((p.1 - centroid).powi(2) + p.2 * p.2 / 12.0)).sum::<f64>();
        let rest = Section { area_mm2: area, centroid_mm: centroid, i_z_mm4: i_z, ..whole };
        let want = Response::of(&rest, 0.0, 1.0, 1.0, E).to(&pull);
        assert!((plane.at_edge / want.at_edge - 1.0).abs() < 1e-12, "{plane:?} {want:?}");
        assert!((plane.in_plane / want.in_plane - 1.0).abs() < 1e-12, "{plane:?} {want:?}");
    }

    #[test]
    fn the_strain_that_is_iterated_is_that_of_the_softened_section() {
        let (whole, plane) = (section(), Plane { at_edge: -2e-4, in_plane: 1.1e-7, lateral: 0.0 });
        for gone in [10.0, 400.0, 900.0] {
            let mut soft = plane;
            Softening::of(&whole, PLATES.web_mm, DEPTH, gone).soften(&mut soft);
            let want = soft.at(0.5 * DEPTH);
            let got = Pressed::of(&whole, PLATES.web_mm, DEPTH, &plane, E).strain(gone);
            assert!((got / want - 1.0).abs() < 1e-12, "{gone} mm gone: {got:e} and {want:e}");
        }
    }

    #[test]
    fn the_web_works_whole_until_it_buckles_and_then_less_without_a_jump() {
        let critical = critical_mean_mpa(PLATES.web_mm, DEPTH, E);
        let even = |mpa: f64| Plane { at_edge: -mpa / E, ..Plane::default() };
        let at = |mpa: f64| buckled(&section(), PLATES.web_mm, DEPTH, &even(mpa), E);
        assert!(at(0.999 * critical).is_none());
        let just_after = at(1.0001 * critical).unwrap().share;
        assert!(just_after < 1.0 && just_after > 0.999, "{just_after}");
        let far = at(4.0 * critical).unwrap();
        // the working edges carry more than the flat web did, so less than half of it works
        assert!(far.share < 0.5 && far.edge_mpa > 4.0 * critical, "{far:?}");
        assert!((far.share * far.share * far.edge_mpa / critical - 1.0).abs() < 1e-12, "{far:?}");
    }
}
