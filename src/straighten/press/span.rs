//! One push: load → curvature along the span → stroke, springback, permanent set.
//!
//! Virtual work: deflection at the gauge = ∫ κ(M(x), x)·m(x) dx with the member's own section at every x; springback
//! is the elastic part ∫ M·m/(E·I) dx; what is left is the set. Straight member, small deflections, no strain
//! hardening, no crushing under the ram.

use super::points::{Build, Grading, Points};
use super::section::Material;
use super::{Layout, PressError, State, WeldStress};
use crate::member::Member;
use crate::numerics::root;
use serde::Serialize;

/// Elastic modulus over shear modulus, 2·(1 + 0.3).
const E_OVER_G: f64 = 2.6;
/// Square root of the part of the hinge load left out when the hinge is approached: hinge load · (1 − v²).
const LEAST_V: f64 = 1e-5;
/// Accuracy of v in a search.
const V_GAP: f64 = 1e-9;

/// A push worked out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bent {
    /// Force of each ram, N.
    pub force_n: f64,
    /// Deflection under load at the gauge (the ram, or midway between two) by bending, mm.
    pub stroke_mm: f64,
    /// Elastic part of it, mm.
    pub springback_mm: f64,
    /// What stays, mm: stroke less springback.
    pub set_mm: f64,
    /// Deflection under load at the ram, mean of two, mm.
    pub ram_stroke_mm: f64,
    /// Shear deflection at the gauge, in stroke and springback alike and not in the set, mm.
    pub shear_mm: f64,
    /// Rotation that stays between the two ends of the span, rad.
    pub kink_rad: f64,
    /// Where it acts as one kink: the centre of the permanent curvature, mm from the start end.
    pub kink_at_mm: f64,
    /// Largest curvature over that at first yield.
    pub mu: f64,
    /// Largest strain, without sign.
    pub strain: f64,
    /// Length on which the moment is above that at first yield, mm.
    pub plastic_mm: f64,
    /// Permanent rotation, rad, lumped at places (mm).
    #[serde(skip)]
    pub lumps: Vec<(f64, f64)>,
}

impl Bent {
    /// Elastic energy that is free at the moment of release if something slips: ½·force·(springback + shear), J.
    ///
    /// 242.4 kN with 52.6 mm of springback hold 6.4 kJ.
    pub fn stored_j(&self, rams: f64) -> f64 {
        0.5 * self.force_n * rams * (self.springback_mm + self.shear_mm) / 1e3
    }
}

/// A member in a press, ready to be pushed.
///
/// 600 × 6 web, 200 × 10 flanges, 345 MPa, one ram midway in 10 m: P_y = 4·534.342 kNm/10 m = 213.74 kN; whatever the load,
/// springback is P·L³/(48·E·I).
/// ```
/// use weldbow::member::{FlangePiece, Member, Profile, WebPiece};
/// use weldbow::steel::Steel;
/// use weldbow::straighten::press::{Layout, PressSpan, PushFrom};
/// let (from_mm, to_mm, splice) = (0.0, 10e3, None);
/// let flange = vec![FlangePiece { from_mm, to_mm, width_mm: 200.0, thickness_mm: 10.0, splice }];
/// let member = Member {
///     length_mm: 10e3,
///     depth: Profile::level(10e3, 600.0),
///     web: vec![WebPiece { from_mm, to_mm, thickness_mm: 6.0, splice }],
///     outer_flange: flange.clone(),
///     inner_flange: flange,
///     steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
/// };
/// let span = PressSpan::new(&member, Layout::centred(5e3, 10e3, PushFrom::Outer), None)?;
/// assert!((span.first_yield_n() - 213_736.8).abs() < 1.0);
/// let push = span.for_set(10.0)?;
/// let springback_mm = push.force_n * 1e12 / (48.0 * 200e3 * 4.801_333e8);
/// assert!((push.springback_mm - springback_mm).abs() < 1e-4);
/// assert!((push.stroke_mm - push.springback_mm - 10.0).abs() < 1e-6);
/// # Ok::<(), weldbow::straighten::press::PressError>(())
/// ```
pub struct PressSpan {
    layout: Layout,
    at: Points,
    /// Springback per newton in each ram, at gauge and at the ram, and shear deflection, mm/N.
    elastic: [f64; 3],
    first_yield_n: f64,
    hinge_n: f64,
    largest: Option<Bent>,
    v_gap: f64,
    /// Where a hinge would form, mm from the start end.
    pub hinge_at_mm: f64,
}

impl PressSpan {
    /// Sets a press up on a member. `weld` locks in the stress of the seams (None: stress-free).
    ///
    /// # Errors
    /// [`PressError`] if supports or rams lie wrong or the member has no sound section there.
    pub fn new(member: &Member, layout: Layout, weld: Option<WeldStress>) -> Result<Self, PressError> {
        Self::graded(member, layout, weld, Grading::FINE)
    }

    /// The same to about one part in 10³ only, three times as fast: enough for a range.
    pub(super) fn roughly(
        member: &Member,
        layout: Layout,
        weld: Option<WeldStress>,
    ) -> Result<Self, PressError> {
        Ok(Self::graded(member, layout, weld, Grading::ROUGH)?.rough())
    }

    fn graded(
        member: &Member,
        layout: Layout,
        weld: Option<WeldStress>,
        grading: Grading,
    ) -> Result<Self, PressError> {
        layout.checked(member.length_mm)?;
        let steel = Material { yield_mpa: member.steel.yield_mpa, e_mpa: member.steel.e_mpa };
        let positive = |v: f64| v.is_finite() && v > 0.0;
        if !positive(steel.yield_mpa) || !positive(steel.e_mpa) {
            return Err(PressError::NoSection { at_mm: layout.supports_mm[0] });
        }
        let build = Build { member, layout: &layout, steel, weld, grading };
        let hinge_at_mm = build.weakest_mm().map_err(|at_mm| PressError::NoSection { at_mm })?;
        let at = build.points(hinge_at_mm);
        let mut span = Self {
            layout,
            at,
            elastic: [0.0; 3],
            first_yield_n: 0.0,
            hinge_n: 0.0,
            largest: None,
            v_gap: V_GAP,
            hinge_at_mm,
        };
        for p in &span.at.points {
            let stack = &span.at.stacks[p.stack];
            span.elastic[0] += p.weight_mm * p.moment * p.gauge / stack.ei_n_mm2;
            span.elastic[1] += p.weight_mm * p.moment * p.ram / stack.ei_n_mm2;
            span.elastic[2] += p.weight_mm * p.shear * E_OVER_G / steel.e_mpa;
        }
        span.first_yield_n = span.least_force(|s| s.first_yield_n_mm);
        span.hinge_n = span.least_force(|s| s.plastic_n_mm);
        span.largest = span.at_v(LEAST_V);
        Ok(span)
    }

    /// The same, searched to one part in 10³ only: enough for a range.
    pub(super) fn rough(mut self) -> Self {
        self.v_gap = 1e-3;
        self
    }

    /// Where everything stands.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The section in which a hinge would form.
    pub fn weakest(&self) -> Option<&super::Stack> {
        let off = |p: &&super::points::Point| (p.x_mm - self.hinge_at_mm).abs();
        let near = self.at.points.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        self.at.stacks.get(near.stack)
    }

    /// Force of each ram at first yield of a stress-free member, N.
    pub fn first_yield_n(&self) -> f64 {
        self.first_yield_n
    }

    /// Force of each ram at which a plastic hinge forms, N.
    pub fn hinge_n(&self) -> f64 {
        self.hinge_n
    }

    /// Springback per newton of each ram at the gauge, bending alone, mm/N.
    pub fn springback_mm_per_n(&self) -> f64 {
        self.elastic[0]
    }

    /// Force of each ram at which the curvature is `mu` times that at first yield somewhere, N.
    pub fn force_at_mu_n(&self, mu: f64) -> f64 {
        let at = |s: &super::Stack| s.at_curvature(mu * s.yield_curvature()).moment_n_mm;
        self.least_force(at).min(self.hinge_n * (1.0 - LEAST_V * LEAST_V))
    }

    fn least_force(&self, capacity: impl Fn(&super::Stack) -> f64) -> f64 {
        let held: Vec<f64> = self.at.stacks.iter().map(capacity).collect();
        self.at
            .points
            .iter()
            .filter(|p| p.moment > 0.0)
            .map(|p| held[p.stack] / p.moment)
            .fold(f64::INFINITY, f64::min)
    }

    /// What a force of each ram (N) does; None from the hinge load on.
    pub fn under(&self, force_n: f64) -> Option<Bent> {
        let mut sum = Sum::default();
        let mut near: Option<State> = None;
        for p in &self.at.points {
            let stack = &self.at.stacks[p.stack];
            let moment = force_n * p.moment;
            sum.yielded(p.x_mm, moment / stack.first_yield_n_mm);
            if moment <= stack.first_yield_n_mm && !stack.is_locked() {
                sum.elastic(moment / stack.first_yield_n_mm, stack);
                near = None;
                continue;
            }
            let state = stack.under_moment(moment, near.as_ref())?;
            sum.plastic(p, stack, &state, state.curvature - moment / stack.ei_n_mm2);
            near = Some(state);
        }
        Some(sum.bent(force_n, self.elastic, self.layout.rams.gauge_mm()))
    }

    fn at_v(&self, v: f64) -> Option<Bent> {
        self.under(self.hinge_n * (1.0 - v * v))
    }

    /// The push that leaves that set (mm) at the gauge.
    ///
    /// # Errors
    /// [`PressError`] if the set is not positive or a hinge forms before it.
    pub fn for_set(&self, set_mm: f64) -> Result<Bent, PressError> {
        self.wanted("set, mm", set_mm, |b| b.set_mm)
    }

    /// The push that leaves that rotation (rad).
    ///
    /// # Errors
    /// [`PressError`] if it is not positive or a hinge forms before it.
    pub fn for_kink(&self, kink_rad: f64) -> Result<Bent, PressError> {
        self.wanted("kink, rad", kink_rad, |b| b.kink_rad)
    }

    /// The push of that stroke by bending (mm) at the gauge.
    ///
    /// # Errors
    /// [`PressError`] if it is not positive or a hinge forms before it.
    pub fn for_stroke(&self, stroke_mm: f64) -> Result<Bent, PressError> {
        self.wanted("stroke, mm", stroke_mm, |b| b.stroke_mm)
    }

    /// Largest set (mm) and rotation (rad) before a hinge, and the push that gives them.
    pub fn largest(&self) -> Option<&Bent> {
        self.largest.as_ref()
    }

    /// Set left by a stroke (mm): 0 in the elastic range; beyond the hinge load, stroke less springback.
    pub fn set_after_stroke_mm(&self, stroke_mm: f64) -> f64 {
        match self.for_stroke(stroke_mm) {
            Ok(bent) => bent.set_mm.max(0.0),
            Err(PressError::BeyondHinge { .. }) => stroke_mm - self.hinge_n * self.elastic[0],
            Err(_) => 0.0,
        }
    }

    fn wanted(&self, what: &'static str, value: f64, of: impl Fn(&Bent) -> f64) -> Result<Bent, PressError> {
        if !(value.is_finite() && value > 0.0) {
            return Err(PressError::NotPositive { what, value });
        }
        let gap = |v: f64| self.at_v(v).map_or(f64::NAN, |b| of(&b) - value);
        let most = self.largest().map_or(0.0, &of);
        if most < value {
            return Err(PressError::BeyondHinge { wanted: value, largest: most });
        }
        let v = root(gap, LEAST_V, 1.0, self.v_gap)?;
        self.at_v(v).ok_or(PressError::BeyondHinge { wanted: value, largest: most })
    }
}

#[derive(Default)]
struct Sum {
    set: f64,
    ram_set: f64,
    kink: f64,
    first: f64,
    plastic: f64,
    mu: f64,
    strain: f64,
    last: Option<(f64, f64)>,
    lumps: Vec<(f64, f64)>,
}

impl Sum {
    /// Adds the part of the way since the last point on which the moment is above that of first yield.
    fn yielded(&mut self, x: f64, over: f64) {
        if let Some((last_x, last_over)) = self.last {
            let (above, below) = (over.max(last_over) - 1.0, over.min(last_over) - 1.0);
            let share = if below >= 0.0 { 1.0 } else { (above / (above - below)).max(0.0) };
            self.plastic += share * (x - last_x);
        }
        self.last = Some((x, over));
    }

    fn elastic(&mut self, mu: f64, stack: &super::Stack) {
        self.mu = self.mu.max(mu);
        self.strain = self.strain.max(mu * stack.yield_mpa / stack.e_mpa);
    }

    fn plastic(&mut self, p: &super::points::Point, stack: &super::Stack, state: &State, stays: f64) {
        self.mu = self.mu.max(state.curvature / stack.yield_curvature());
        self.strain = self.strain.max(stack.largest_strain(state));
        let turn = p.weight_mm * stays;
        if turn <= 0.0 {
            return;
        }
        self.set += turn * p.gauge;
        self.ram_set += turn * p.ram;
        self.kink += turn;
        self.first += turn * p.x_mm;
        self.lumps.push((p.x_mm, turn));
    }

    fn bent(self, force_n: f64, elastic: [f64; 3], gauge_mm: f64) -> Bent {
        let springback_mm = force_n * elastic[0];
        Bent {
            force_n,
            stroke_mm: self.set + springback_mm,
            springback_mm,
            set_mm: self.set,
            ram_stroke_mm: self.ram_set + force_n * elastic[1],
            shear_mm: force_n * elastic[2],
            kink_rad: self.kink,
            kink_at_mm: if self.kink > 0.0 { self.first / self.kink } else { gauge_mm },
            mu: self.mu,
            strain: self.strain,
            plastic_mm: self.plastic,
            lumps: self.lumps,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::member::{FlangePiece, Profile, WebPiece};
    use crate::steel::Steel;
    use crate::straighten::press::{PushFrom, Rams};

    fn tapered() -> Member {
        let flange = |width_mm, thickness_mm| {
            vec![FlangePiece { from_mm: 0.0, to_mm: 10e3, width_mm, thickness_mm, splice: None }]
        };
        Member {
            length_mm: 10e3,
            depth: Profile::new(vec![(0.0, 150.0), (10e3, 1200.0)]),
            web: vec![WebPiece { from_mm: 0.0, to_mm: 10e3, thickness_mm: 12.0, splice: None }],
            outer_flange: flange(200.0, 10.0),
            inner_flange: flange(180.0, 14.0),
            steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
        }
    }

    #[test]
    fn finer_panels_change_the_set_ever_less() {
        let layout = Layout { supports_mm: [200.0, 9900.0], rams: Rams::One(9000.0), from: PushFrom::Inner };
        let set = |shrink, panels, widest| {
            let grading = Grading { shrink, panels, widest };
            let span = PressSpan::graded(&tapered(), layout, None, grading).unwrap();
            let bent = span.under(0.99 * span.hinge_n()).unwrap();
            (bent.set_mm, span.hinge_at_mm)
        };
        let [rough, fine, finer] = [set(0.36, 14, 0.25), set(0.6, 28, 0.05), set(0.7746, 56, 0.0125)];
        println!("rough, fine, finer: {rough:?} {fine:?} {finer:?}");
        assert!(fine.1 < 8000.0, "a taper yields first on its shallow side, here at {} mm", fine.1);
        assert!((fine.0 / finer.0 - 1.0).abs() < 1e-4, "{fine:?} {finer:?}");
        assert!((rough.0 / finer.0 - 1.0).abs() < 2e-3, "{rough:?} {finer:?}");
    }
}
