//! One push: load → curvature along the span → stroke, springback, permanent set.
//!
//! Virtual work: deflection at the gauge = ∫ κ(M(x), x)·m(x) dx with the member's own section at every x; springback
//! is the elastic part ∫ M·m/(E·I) dx; what is left is the set. Straight member, small deflections, no strain
//! hardening, no crushing under the ram.

use super::bent::{Bent, Elastic, Sum};
use super::points::{Build, Grading, Points};
use super::{LayeredSection, PressError, PressLayout, State, WeldStress};
use crate::member::Member;

/// Elastic modulus over shear modulus, 2·(1 + 0.3).
pub(super) const E_OVER_G: f64 = 2.6;
/// Square root of the part of the hinge load left out when the hinge is approached: hinge load · (1 − v²).
const LEAST_V: f64 = 1e-5;
/// Accuracy of v in a search.
const V_GAP: f64 = 1e-7;
/// Where a search for v begins: most pushes end between 0.1 and 0.5.
const USUAL_V: f64 = 0.3;
/// Where it goes on if that is too far from a hinge.
const NEAR_HINGE_V: f64 = 0.02;
/// More steps than halving needs.
const MOST_STEPS: usize = 100;

/// What a push may be asked for.
#[derive(Debug, Clone, Copy)]
enum Wanted {
    Set,
    Kink,
    Stroke,
}

/// A member in a press, ready to be pushed.
///
/// 600 × 6 web, 200 × 10 flanges, 345 MPa, one ram midway in 10 m: P_y = 4·534.342 kNm/10 m = 213.74 kN; whatever the load,
/// springback is P·L³/(48·E·I).
/// ```
/// use weldbow_engine::member::{Delivered, FlangePiece, Member, Profile, WebPiece};
/// use weldbow_engine::steel::Steel;
/// use weldbow_engine::straighten::press::{PressLayout, PressSpan, PushFrom};
/// let (from_mm, to_mm, splice, comes) = (0.0, 10e3, None, Delivered::STRAIGHT);
/// let flange = vec![FlangePiece { from_mm, to_mm, width_mm: 200.0, thickness_mm: 10.0, splice, comes }];
/// let member = Member {
///     length_mm: 10e3,
///     depth: Profile::level(10e3, 600.0),
///     web: vec![WebPiece { from_mm, to_mm, thickness_mm: 6.0, splice, comes }],
///     outer_flange: flange.clone(),
///     inner_flange: flange,
///     steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
/// };
/// let span = PressSpan::new(&member, PressLayout::centred(5e3, 10e3, PushFrom::Outer), None)?;
/// assert!((span.first_yield_n() - 213_736.8).abs() < 1.0);
/// let push = span.for_set(10.0)?;
/// let springback_mm = push.force_n * 1e12 / (48.0 * 200e3 * 4.801_333e8);
/// assert!((push.springback_mm - springback_mm).abs() < 1e-4);
/// assert!((push.stroke_mm - push.springback_mm - 10.0).abs() < 1e-6);
/// # Ok::<(), weldbow_engine::straighten::press::PressError>(())
/// ```
pub struct PressSpan {
    layout: PressLayout,
    pub(super) at: Points,
    elastic: Elastic,
    pub(super) first_yield_n: f64,
    pub(super) hinge_n: f64,
    v_gap: f64,
    /// Where a hinge would form, mm from the start end.
    pub hinge_at_mm: f64,
}

impl PressSpan {
    /// Sets a press up on a member. `weld` locks in the stress of the seams (None: stress-free).
    ///
    /// # Errors
    /// [`PressError`] if supports or rams lie wrong or the member has no sound section there.
    pub fn new(member: &Member, layout: PressLayout, weld: Option<WeldStress>) -> Result<Self, PressError> {
        Self::graded(member, layout, weld, Grading::FINE)
    }

    pub(super) fn graded(
        member: &Member,
        layout: PressLayout,
        weld: Option<WeldStress>,
        grading: Grading,
    ) -> Result<Self, PressError> {
        layout.checked(member.length_mm)?;
        let steel = &member.steel;
        let positive = |v: f64| v.is_finite() && v > 0.0;
        if !positive(steel.yield_mpa) || !positive(steel.e_mpa) {
            return Err(PressError::NoSection { at_mm: layout.supports_mm[0] });
        }
        let build = Build { member, layout: &layout, weld, grading };
        let (hinge_at_mm, hinge_n) = build.first_hinge().map_err(|at_mm| PressError::NoSection { at_mm })?;
        let at = build.points(hinge_at_mm, hinge_n);
        let mut span = Self {
            layout,
            at,
            elastic: Elastic::default(),
            first_yield_n: 0.0,
            hinge_n,
            v_gap: V_GAP,
            hinge_at_mm,
        };
        for p in &span.at.points {
            let stack = &span.at.stacks[p.stack];
            let bends = p.weight_mm * p.moment / stack.ei_n_mm2;
            span.elastic.gauge += bends * p.gauge;
            for (sum, ram) in span.elastic.rams.iter_mut().zip(p.rams) {
                *sum += bends * ram;
            }
            span.elastic.shear += p.weight_mm * p.shear * E_OVER_G / steel.e_mpa;
        }
        span.first_yield_n = span.least_force(|s| s.first_yield_n_mm);
        span.hinge_n = span.least_force(|s| s.plastic_n_mm);
        Ok(span)
    }

    /// The same, searched to one part in 10³ only: enough for a range.
    pub(super) fn rough(mut self) -> Self {
        self.v_gap = 1e-3;
        self
    }

    /// Where everything stands.
    pub fn layout(&self) -> &PressLayout {
        &self.layout
    }

    /// Springback per newton of each ram at the gauge, bending alone, mm/N.
    pub fn springback_mm_per_n(&self) -> f64 {
        self.elastic.gauge
    }

    /// Springback per newton of each ram at each ram, bending and shear, mm/N; twice the same for one ram.
    pub(crate) fn ram_springback_mm_per_n(&self) -> [f64; 2] {
        self.elastic.rams.map(|bends| bends + self.elastic.shear)
    }

    /// Springback per newton of each ram that a dial at the gauge reads from the line through both supports, bending and shear, mm/N.
    pub(crate) fn dial_mm_per_n(&self) -> f64 {
        self.elastic.gauge + self.elastic.shear
    }

    /// Elastic energy that is free at the moment of release if something slips, J: half the force of each ram (N) times what goes back
    /// there, by bending, shear and the give of frame and packing (mm per N of all rams).
    ///
    /// 242.4 kN with 52.6 mm of springback and 2.2 mm of shear hold 6.6 kJ. Between two rams a dial reads more than either goes.
    pub fn stored_j(&self, force_n: f64, give_mm_per_n: f64) -> f64 {
        let rams = self.layout.rams;
        let springs = rams.places_mm().zip(self.ram_springback_mm_per_n()).map(|(_, mm_per_n)| mm_per_n);
        let elastic: f64 = springs.map(|mm_per_n| mm_per_n + give_mm_per_n * rams.count()).sum();
        0.5 * force_n * force_n * elastic / 1e3
    }

    /// Force of each ram at which the curvature is `mu` times that at first yield somewhere, N.
    pub fn force_at_mu_n(&self, mu: f64) -> f64 {
        let at = |s: &LayeredSection| s.at_curvature(mu * s.yield_curvature()).moment_n_mm;
        self.least_force(at).min(self.hinge_n * (1.0 - LEAST_V * LEAST_V))
    }

    /// What a force of each ram (N) does; None from the hinge load on.
    pub fn under(&self, force_n: f64) -> Option<Bent> {
        let mut sum = Sum::with_room_for(self.at.points.len());
        let mut near: Option<(&LayeredSection, State)> = None;
        for p in &self.at.points {
            let stack = &self.at.stacks[p.stack];
            let moment = force_n * p.moment;
            sum.yielded(p.x_mm, moment / stack.first_yield_n_mm);
            if moment <= stack.first_yield_n_mm && !stack.is_locked() {
                sum.elastic(moment / stack.first_yield_n_mm, stack);
                near = None;
                continue;
            }
            let state = stack.under_moment(moment, near.as_ref().map(|(stack, state)| (*stack, state)))?;
            sum.plastic(p, stack, &state, state.curvature - moment / stack.ei_n_mm2);
            near = Some((stack, state));
        }
        Some(sum.bent(force_n, &self.elastic, self.layout.rams.gauge_mm()))
    }

    /// The push that leaves that set (mm) at the gauge.
    ///
    /// # Errors
    /// [`PressError`] if the set is not positive or a hinge forms before it.
    pub fn for_set(&self, set_mm: f64) -> Result<Bent, PressError> {
        self.wanted(Wanted::Set, set_mm, USUAL_V, None)
    }

    /// The push that leaves that rotation (rad).
    ///
    /// # Errors
    /// [`PressError`] if it is not positive or a hinge forms before it.
    pub fn for_kink(&self, kink_rad: f64) -> Result<Bent, PressError> {
        self.wanted(Wanted::Kink, kink_rad, USUAL_V, None)
    }

    /// The same, looked for first at a load of each ram (N) that gives about that, with the push of this span under that
    /// load where it is known.
    pub(in crate::straighten) fn for_kink_near(
        &self,
        kink_rad: f64,
        force_n: f64,
        known: Option<&Bent>,
    ) -> Result<Bent, PressError> {
        self.wanted(Wanted::Kink, kink_rad, self.v_of(force_n), known)
    }

    /// The push of that stroke by bending (mm) at the gauge.
    ///
    /// # Errors
    /// [`PressError`] if it is not positive or a hinge forms before it.
    pub fn for_stroke(&self, stroke_mm: f64) -> Result<Bent, PressError> {
        self.wanted(Wanted::Stroke, stroke_mm, USUAL_V, None)
    }

    /// Largest set (mm) and rotation (rad) before a hinge, and the push that gives them.
    pub fn largest(&self) -> Option<Bent> {
        self.under(self.force_of(LEAST_V))
    }

    /// Set left by a stroke (mm): 0 in the elastic range; beyond the hinge load, stroke less springback.
    pub fn set_after_stroke_mm(&self, stroke_mm: f64) -> f64 {
        self.set_after(stroke_mm, self.for_stroke(stroke_mm))
    }

    /// The same from a push of this span that takes about that.
    pub(super) fn set_after_stroke_from_mm(&self, stroke_mm: f64, known: &Bent) -> f64 {
        let push = self.wanted(Wanted::Stroke, stroke_mm, self.v_of(known.force_n), Some(known));
        self.set_after(stroke_mm, push)
    }

    fn set_after(&self, stroke_mm: f64, push: Result<Bent, PressError>) -> f64 {
        match push {
            Ok(bent) => bent.set_mm.max(0.0),
            Err(PressError::BeyondHinge { .. }) => stroke_mm - self.hinge_n * self.elastic.gauge,
            Err(_) => 0.0,
        }
    }

    fn force_of(&self, v: f64) -> f64 {
        self.hinge_n * (1.0 - v * v)
    }

    fn v_of(&self, force_n: f64) -> f64 {
        (1.0 - force_n / self.hinge_n).max(0.0).sqrt().clamp(LEAST_V, 1.0)
    }

    /// The push that gives a value, by Newton's steps over v from `start`, halved where they would leave what is known to
    /// hold it. Toward a hinge set and kink grow like (v_y − v)² up to a finite value, so their roots are all but straight lines.
    fn wanted(
        &self,
        what: Wanted,
        value: f64,
        start: f64,
        mut known: Option<&Bent>,
    ) -> Result<Bent, PressError> {
        if !(value.is_finite() && value > 0.0) {
            return Err(PressError::NotPositive { what: what.name(), value });
        }
        let beyond = |largest| PressError::BeyondHinge { wanted: value, largest };
        let (mut low, mut high) = (LEAST_V, 1.0);
        let mut enough = false;
        let mut v = start;
        for _ in 0..MOST_STEPS {
            let bent = match known.take() {
                Some(bent) => bent.clone(),
                None => self.under(self.force_of(v)).ok_or(beyond(0.0))?,
            };
            let (found, per_n) = what.of(&bent, self.elastic.gauge);
            let (straight, slope) = what.straight(found);
            let lack = what.straight(value).0 - straight;
            if found >= value {
                (low, enough) = (v, true);
            } else if v <= LEAST_V {
                return Err(beyond(found));
            } else {
                high = v;
            }
            let step = lack / (slope * per_n * -2.0 * v * self.hinge_n);
            if step.abs() <= self.v_gap || high - low <= self.v_gap {
                return Ok(bent);
            }
            let next = v + step;
            v = if next > low && next < high {
                next
            } else if enough {
                0.5 * (low + high)
            } else if v > NEAR_HINGE_V {
                NEAR_HINGE_V
            } else {
                LEAST_V
            };
        }
        Err(PressError::NotFound { wanted: value })
    }
}

impl Wanted {
    const fn name(self) -> &'static str {
        match self {
            Self::Set => "set, mm",
            Self::Kink => "kink, rad",
            Self::Stroke => "stroke, mm",
        }
    }

    /// Its value and what a newton more adds.
    const fn of(self, bent: &Bent, springback_mm_per_n: f64) -> (f64, f64) {
        match self {
            Self::Set => (bent.set_mm, bent.more[0]),
            Self::Kink => (bent.kink_rad, bent.more[1]),
            Self::Stroke => (bent.stroke_mm, bent.more[0] + springback_mm_per_n),
        }
    }

    /// What is all but a straight line over v, and its slope over the value.
    fn straight(self, value: f64) -> (f64, f64) {
        match self {
            Self::Set | Self::Kink => (value.sqrt(), 0.5 / value.sqrt()),
            Self::Stroke => (value, 1.0),
        }
    }
}
