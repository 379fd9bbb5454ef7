//! Moment and curvature of a stack of plates, elastic then perfectly plastic, integrated in closed form.
//!
//! Plane sections: strain at c is ε₀ + κ·(c − c₀), c₀ the elastic centroid. In each strip the stress is that strain times
//! E plus the stress locked in, cut off at ±f_y; its force and moment follow from the two break points where it
//! reaches yield. ε₀ follows from N = 0. No fibres.

use serde::Serialize;
use thiserror::Error;

/// A rectangle of plate across the direction of bending.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlateLayer {
    /// Lower edge along the direction of bending, mm.
    pub from_mm: f64,
    /// Upper edge, mm.
    pub to_mm: f64,
    /// Width square to it, mm.
    pub width_mm: f64,
    /// Stiffness over E: cos²β for a plate inclined by β to the member, else 1.
    pub stiffness: f64,
    /// Stress locked in before bending, over yield (+ tension, −1 … 1).
    pub locked: f64,
}

impl PlateLayer {
    /// A stress-free rectangle along the member.
    pub const fn new(from_mm: f64, to_mm: f64, width_mm: f64) -> Self {
        Self { from_mm, to_mm, width_mm, stiffness: 1.0, locked: 0.0 }
    }

    fn height_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }

    fn middle_mm(&self) -> f64 {
        0.5 * (self.from_mm + self.to_mm)
    }
}

/// Why plates make no section.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum StackError {
    /// No strip at all.
    #[error("a section needs at least one plate")]
    Empty,
    /// A strip without size, or with a number that is none.
    #[error("plate {index} has no positive finite size, or a stiffness or locked stress out of range")]
    BadStrip {
        /// Its place in the list.
        index: usize,
    },
    /// Yield or modulus not positive.
    #[error("yield {yield_mpa} MPa and modulus {e_mpa} MPa must be positive numbers")]
    BadSteel {
        /// Yield strength, MPa.
        yield_mpa: f64,
        /// Modulus, MPa.
        e_mpa: f64,
    },
}

/// A section for bending in one direction.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LayeredSection {
    strips: Vec<PlateLayer>,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Young's modulus, MPa.
    pub e_mpa: f64,
    /// Elastic centroid c₀, mm.
    pub centroid_mm: f64,
    /// Bending stiffness E·I, N·mm².
    pub ei_n_mm2: f64,
    /// Moment at first yield without locked-in stress, N·mm.
    pub first_yield_n_mm: f64,
    /// Plastic moment, N·mm.
    pub plastic_n_mm: f64,
}

/// What a section does at one curvature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct State {
    /// Curvature κ, 1/mm.
    pub curvature: f64,
    /// Strain at the elastic centroid.
    pub axial: f64,
    /// Moment, N·mm.
    pub moment_n_mm: f64,
    /// dM/dκ while loading on: E·I of what is still elastic, N·mm².
    pub tangent_n_mm2: f64,
}

const MOST_STEPS: usize = 80;
/// Axial force over the squash load at which the last step of the search is taken without looking again.
const NEARLY_BALANCED: f64 = 1e-8;
/// Step of 1/κ², relative, after which a step of Newton is the last: what it misses is of second order.
const NEARLY_FOUND: f64 = 1e-5;

/// Force, moment and elastic-core integrals of all strips.
#[derive(Default)]
struct Sums {
    force: f64,
    moment: f64,
    core: [f64; 3],
}

impl LayeredSection {
    /// A section of those strips. Strips may lie side by side.
    ///
    /// # Errors
    /// [`StackError`] on an empty list or a strip or steel without positive finite numbers.
    ///
    /// A rectangle 10 wide and 100 high of f_y 345 MPa: M_y = f_y·b·h²/6 = 5.75 kNm and M_p = 1.5 M_y.
    /// ```
    /// use weldbow_engine::straighten::press::{LayeredSection, PlateLayer};
    /// let s = LayeredSection::new(vec![PlateLayer::new(0.0, 100.0, 10.0)], 345.0, 200e3)?;
    /// assert!((s.first_yield_n_mm - 5.75e6).abs() < 1e-3);
    /// assert!((s.plastic_n_mm / s.first_yield_n_mm - 1.5).abs() < 1e-9);
    /// # Ok::<(), weldbow_engine::straighten::press::StackError>(())
    /// ```
    pub fn new(strips: Vec<PlateLayer>, yield_mpa: f64, e_mpa: f64) -> Result<Self, StackError> {
        let positive = |v: f64| v.is_finite() && v > 0.0;
        if strips.is_empty() {
            return Err(StackError::Empty);
        }
        if !positive(yield_mpa) || !positive(e_mpa) {
            return Err(StackError::BadSteel { yield_mpa, e_mpa });
        }
        let good = |s: &PlateLayer| {
            let sizes = [s.height_mm(), s.width_mm, s.stiffness];
            s.from_mm.is_finite() && sizes.into_iter().all(positive) && s.locked.abs() <= 1.0
        };
        if let Some(index) = strips.iter().position(|s| !good(s)) {
            return Err(StackError::BadStrip { index });
        }
        Ok(Self::of(strips, yield_mpa, e_mpa))
    }

    /// The same for strips known to be good.
    pub(super) fn of(strips: Vec<PlateLayer>, yield_mpa: f64, e_mpa: f64) -> Self {
        let weight = |s: &PlateLayer| s.stiffness * s.width_mm * s.height_mm();
        let area: f64 = strips.iter().map(weight).sum();
        let centroid_mm = strips.iter().map(|s| weight(s) * s.middle_mm()).sum::<f64>() / area;
        let about = |s: &PlateLayer| {
            let (arm, h) = (s.middle_mm() - centroid_mm, s.height_mm());
            weight(s) * (arm * arm + h * h / 12.0)
        };
        let ei_n_mm2 = e_mpa * strips.iter().map(about).sum::<f64>();
        let furthest = strips
            .iter()
            .map(|s| s.stiffness * (s.from_mm - centroid_mm).abs().max((s.to_mm - centroid_mm).abs()))
            .fold(0.0, f64::max);
        let first_yield_n_mm = ei_n_mm2 * yield_mpa / (e_mpa * furthest);
        let mut stack =
            Self { strips, yield_mpa, e_mpa, centroid_mm, ei_n_mm2, first_yield_n_mm, plastic_n_mm: 0.0 };
        stack.plastic_n_mm = stack.fully_plastic_n_mm();
        stack
    }

    /// All at yield, tension above and compression below the line that halves the area.
    fn fully_plastic_n_mm(&self) -> f64 {
        let below = |c: f64| -> f64 {
            self.strips.iter().map(|s| s.width_mm * (c.clamp(s.from_mm, s.to_mm) - s.from_mm)).sum()
        };
        let half = 0.5 * self.strips.iter().map(|s| s.width_mm * s.height_mm()).sum::<f64>();
        let (mut low, mut high) = ((f64::NEG_INFINITY, 0.0), (f64::INFINITY, 2.0 * half));
        for c in self.strips.iter().flat_map(|s| [s.from_mm, s.to_mm]) {
            if c > low.0 && c < high.0 {
                let area = below(c);
                if area <= half { low = (c, area) } else { high = (c, area) }
            }
        }
        // between two edges the area grows evenly
        let line = low.0 + (high.0 - low.0) * (half - low.1) / (high.1 - low.1);
        let about = |s: &PlateLayer| {
            let c = line.clamp(s.from_mm, s.to_mm);
            let above = (s.to_mm - c) * (0.5 * (s.to_mm + c) - line);
            let under = (c - s.from_mm) * (line - 0.5 * (s.from_mm + c));
            s.width_mm * (above + under)
        };
        self.yield_mpa * self.strips.iter().map(about).sum::<f64>()
    }

    /// Its strips.
    pub fn strips(&self) -> &[PlateLayer] {
        &self.strips
    }

    /// Curvature at first yield κ_y = M_y/(E·I) without locked-in stress, 1/mm.
    pub fn yield_curvature(&self) -> f64 {
        self.first_yield_n_mm / self.ei_n_mm2
    }

    /// Whether stress is locked in anywhere.
    pub(crate) fn is_locked(&self) -> bool {
        self.strips.iter().any(|s| s.locked.abs() > 0.0)
    }

    /// Moment at a curvature κ > 0 (1/mm), tension toward larger c; nothing at κ ≤ 0.
    ///
    /// The rectangle at twice its yield curvature: M/M_y = 1.5 − 0.5/4 = 1.375 (any text on plastic bending).
    /// ```
    /// use weldbow_engine::straighten::press::{LayeredSection, PlateLayer};
    /// let s = LayeredSection::new(vec![PlateLayer::new(0.0, 100.0, 10.0)], 345.0, 200e3)?;
    /// let m = s.at_curvature(2.0 * s.yield_curvature()).moment_n_mm;
    /// assert!((m / s.first_yield_n_mm - 1.375).abs() < 1e-9);
    /// # Ok::<(), weldbow_engine::straighten::press::StackError>(())
    /// ```
    pub fn at_curvature(&self, curvature: f64) -> State {
        if curvature <= 0.0 {
            return State { curvature, axial: 0.0, moment_n_mm: 0.0, tangent_n_mm2: self.ei_n_mm2 };
        }
        self.at(curvature, 0.0)
    }

    fn at(&self, curvature: f64, guess: f64) -> State {
        let mut axial = guess;
        let reach = self.reach_mm() * curvature + 2.0 * self.yield_mpa / self.e_mpa;
        let (mut low, mut high) = (-reach, reach);
        let squash: f64 =
            self.strips.iter().map(|s| s.width_mm * s.height_mm()).sum::<f64>() * self.yield_mpa;
        let mut sums = self.sums(axial, curvature);
        for _ in 0..MOST_STEPS {
            if sums.force.abs() <= NEARLY_BALANCED * squash {
                break;
            }
            if sums.force > 0.0 {
                high = axial;
            } else {
                low = axial;
            }
            let newton = axial - sums.force / sums.core[0];
            axial = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if high - low <= 1e-15 * reach {
                break;
            }
            sums = self.sums(axial, curvature);
        }
        let [a, b, c] = sums.core;
        if a <= 0.0 {
            return State { curvature, axial, moment_n_mm: sums.moment, tangent_n_mm2: 0.0 };
        }
        // the last step of Newton without another look at the strips: what it misses is of second order
        let rest = sums.force / a;
        State {
            curvature,
            axial: axial - rest,
            moment_n_mm: sums.moment - rest * b,
            tangent_n_mm2: c - b * b / a,
        }
    }

    /// Curvature under a moment (N·mm) between 0 and the plastic one; None from there on. `near`: what a like section does under
    /// a like moment, to start from.
    ///
    /// Newton's steps on 1/κ², in which the moment of a nearly plastic section is a straight line.
    pub fn under_moment(&self, moment_n_mm: f64, near: Option<(&Self, &State)>) -> Option<State> {
        let elastic = moment_n_mm / self.ei_n_mm2;
        let at_rest = State { curvature: elastic, axial: 0.0, moment_n_mm, tangent_n_mm2: self.ei_n_mm2 };
        if moment_n_mm <= 0.0 || (moment_n_mm <= self.first_yield_n_mm && !self.is_locked()) {
            return Some(at_rest);
        }
        if moment_n_mm >= self.plastic_n_mm {
            return None;
        }
        let (mut low, mut high) = (elastic * (1.0 - 1e-9), f64::INFINITY);
        let (mut k, mut axial) = near.map_or((elastic, 0.0), |(other, state)| {
            (self.like(other, state, moment_n_mm).max(elastic), state.axial)
        });
        let mut state = at_rest;
        // near the plastic moment the curvature hangs on what is left to it
        let close = 1e-9 * (self.plastic_n_mm - moment_n_mm) + 1e-14 * moment_n_mm;
        for _ in 0..MOST_STEPS {
            state = self.at(k, axial);
            axial = state.axial;
            let lack = moment_n_mm - state.moment_n_mm;
            if lack.abs() <= close {
                break;
            }
            if lack > 0.0 {
                low = k;
            } else {
                high = k;
            }
            let next = newton(&state, moment_n_mm);
            let next = if next > low && next < high {
                if (next / k - 1.0).abs() <= NEARLY_FOUND {
                    state.curvature = next;
                    state.moment_n_mm = moment_n_mm;
                    break;
                }
                next
            } else if high.is_finite() {
                0.5 * (low + high)
            } else {
                3.0 * k
            };
            if (next - k).abs() <= 1e-14 * k {
                break;
            }
            k = next;
        }
        Some(state)
    }

    /// Curvature under a moment, guessed from the state of another section with the same part of its plastic moment.
    fn like(&self, other: &Self, state: &State, moment_n_mm: f64) -> f64 {
        let (moments, bends) =
            (self.plastic_n_mm / other.plastic_n_mm, self.yield_curvature() / other.yield_curvature());
        let scaled = State {
            curvature: bends * state.curvature,
            axial: state.axial,
            moment_n_mm: moments * state.moment_n_mm,
            tangent_n_mm2: moments / bends * state.tangent_n_mm2,
        };
        let next = newton(&scaled, moment_n_mm);
        if next.is_finite() { next } else { scaled.curvature }
    }

    /// Largest strain without sign at a state.
    pub(crate) fn largest_strain(&self, state: &State) -> f64 {
        let at = |c: f64| (state.axial + state.curvature * (c - self.centroid_mm)).abs();
        self.strips.iter().map(|s| at(s.from_mm).max(at(s.to_mm))).fold(0.0, f64::max)
    }

    fn reach_mm(&self) -> f64 {
        self.strips
            .iter()
            .map(|s| (s.from_mm - self.centroid_mm).abs().max((s.to_mm - self.centroid_mm).abs()))
            .fold(0.0, f64::max)
    }

    fn sums(&self, axial: f64, curvature: f64) -> Sums {
        let mut sums = Sums::default();
        for s in &self.strips {
            let e = self.e_mpa * s.stiffness;
            let (c1, c2) = (s.from_mm - self.centroid_mm, s.to_mm - self.centroid_mm);
            let base = e * axial + s.locked * self.yield_mpa;
            let slope = e * curvature;
            let (u1, u2) = (base + slope * c1, base + slope * c2);
            // where the strip reaches yield on its lower and on its upper side
            let place = |u: f64| ((u - base) / slope).clamp(c1, c2);
            let (low, high) = if u1 >= -self.yield_mpa && u2 <= self.yield_mpa {
                (c1, c2)
            } else {
                (place(-self.yield_mpa), place(self.yield_mpa))
            };
            let w = s.width_mm;
            let (core, middle) = (high - low, 0.5 * (low + high));
            let mean = base + slope * middle;
            let inertia = core * core * core / 12.0;
            let (below, above) = (low - c1, c2 - high);
            sums.force += w * (mean * core + self.yield_mpa * (above - below));
            sums.moment += w
                * (mean * core * middle
                    + slope * inertia
                    + 0.5 * self.yield_mpa * (above * (c2 + high) - below * (c1 + low)));
            sums.core[0] += w * e * core;
            sums.core[1] += w * e * core * middle;
            sums.core[2] += w * e * (core * middle * middle + inertia);
        }
        sums
    }
}

/// Curvature at which a state reaches a moment if the moment goes on along its tangent over 1/κ²; infinite if it never does.
fn newton(state: &State, moment_n_mm: f64) -> f64 {
    let k = state.curvature;
    let lack = moment_n_mm - state.moment_n_mm;
    let v = 1.0 / (k * k) - 2.0 * lack / (state.tangent_n_mm2 * k * k * k);
    if v > 0.0 { 1.0 / v.sqrt() } else { f64::INFINITY }
}
