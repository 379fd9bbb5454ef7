//! How unsure the formula level is. Two things are kept apart: *bias* moves every piece of a kind alike, *scatter*
//! moves piece from piece (here: bead from bead). All are one standard deviation, relative. A bias is either common to all
//! forces or a seam's own: the model errs differently at seams of different plates, and camber is their difference.
//!
//! No complete measured set of member distortion was available, so these are judgements from the spread of methods
//! and of model choices, and have to give way to a shop's own measurements.

use crate::member::Seam;
use crate::shrinkage::second_side::seam_index;
use crate::sources::{Constant, Trust, record};
use crate::welding::{HeatSource, Pass};

/// Part of what a mill or cutting standard allows that is taken as one standard deviation: nearly all plates are inside. Choice.
pub(crate) const PART_OF_LIMIT: f64 = 1.0 / 3.0;
/// Bias of the shrinkage force: strength curve of hot steel (+18 %), arc efficiency (±9 %), free or held section (judgement).
pub const FORCE_BIAS: f64 = 0.15;
/// Scatter of the force from bead to bead: heat input, fit-up, tacks. Choice. A bead is all that is laid on one side of one
/// seam in one order with one leg and heat, in however many stretches it is written down.
pub(crate) const FORCE_SCATTER: f64 = 0.07;
/// Scatter of the leg of a bead: 0.3 mm on 6 mm. Choice.
pub(crate) const LEG_SCATTER: f64 = 0.05;
/// Scatter of the fold of a flange, and with it the cup, from piece to piece: fit-up and heat input of one procedure. Choice.
pub(crate) const FOLD_SCATTER: f64 = 0.10;
/// Scatter of a one-sided tilt from piece to piece: half of its bias, as tacks and gaps differ. Choice.
pub(crate) const TILT_SCATTER: f64 = 0.30;
/// A seam's own bias of the force by formula, welded from one side: what is left beside the strip model at seams of random members is
/// 4.1 %, 95 % of them within 8 % (`reference-cases/seam_forces.py`).
pub const SEAM_BIAS: f64 = 0.04;
/// A seam's own bias of the force by formula, welded from both sides: 5.6 % is left, 95 % within 11 %; most of it at
/// narrow flanges whose second side comes while they are warm.
pub const SEAM_BIAS_BOTH: f64 = 0.06;
/// A seam's own bias of what a second side laid later takes back of the first side's moment, over that moment: rms 0.20 of 360 seams, a
/// tenth of those laid 20–200 s later farther off than 0.28 (`reference-cases/seam_forces.py`).
pub(crate) const SEAM_BIAS_TAKEN: f64 = 0.20;
/// Lag at which half of that counts, s: sides that come sooner act as one pass, of which the other biases say all (choice).
const AS_ONE_S: f64 = 5.0;
/// A seam's own bias at the strip level: bars instead of a solid, the mesh. Choice.
pub(crate) const STRIP_SEAM_BIAS: f64 = 0.02;
/// Bias of the lateral arm, which rests on an assumed place of the heat (judgement).
pub const ARM_BIAS: f64 = 0.20;
/// Bias of a heat deduced from the leg alone (31 measured beads: heat per deposited volume varies by 23 %).
pub const HEAT_FROM_LEG_BIAS: f64 = 0.23;
/// Bias of the force at the strip level: strength curve of hot steel (half of the +18 % between its two readings), arc
/// efficiency (±9 %), bars instead of a solid and the mesh (2 %). Choice; no fitted factor is left in it.
pub(crate) const STRIP_FORCE_BIAS: f64 = 0.13;
/// Bias of the lateral arm at the strip level: it is computed, but from an assumed place and spread of the heat. Heat
/// entering half a leg beside the web instead of in the fillet's centroid gives arms a third larger.
pub(crate) const STRIP_ARM_BIAS: f64 = 0.20;

/// Part of the own bias of what a second side takes back that counts, so long (s) after the first.
pub(super) fn taken_counts(after_s: f64) -> f64 {
    after_s * after_s / (after_s * after_s + AS_ONE_S * AS_ONE_S)
}

/// Biases of a level of model, and what beads scatter by; all relative deviations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bias {
    /// Of the shrinkage force, common to all.
    pub force: f64,
    /// Of a heat that follows from a leg.
    pub heat: f64,
    /// Of the lateral arm, common to all.
    pub arm: f64,
    /// Of the force of a seam, its own: welded from one side, and from both.
    pub seam: [f64; 2],
    /// Of the moment that a second side laid later takes back, a seam's own.
    pub taken: f64,
    /// Scatter of the force from bead to bead.
    pub each: f64,
    /// Scatter of a leg from bead to bead.
    pub leg: f64,
}

impl Bias {
    /// Of the formulas.
    pub(crate) const FORMULA: Self = Self {
        force: FORCE_BIAS,
        heat: HEAT_FROM_LEG_BIAS,
        arm: ARM_BIAS,
        seam: [SEAM_BIAS, SEAM_BIAS_BOTH],
        taken: SEAM_BIAS_TAKEN,
        each: FORCE_SCATTER,
        leg: LEG_SCATTER,
    };
    /// Of the strip model.
    pub(crate) const STRIP: Self = Self {
        force: STRIP_FORCE_BIAS,
        arm: STRIP_ARM_BIAS,
        seam: [STRIP_SEAM_BIAS; 2],
        taken: STRIP_SEAM_BIAS,
        ..Self::FORMULA
    };

    /// Of the heat of these passes: none beside that of the force, unless some heat is deduced from a leg.
    pub(super) fn of_heat<'a>(&self, passes: impl IntoIterator<Item = &'a Pass>) -> f64 {
        if from_leg(passes) { self.heat } else { 0.0 }
    }

    /// Scatter of the heat of these passes from bead to bead, beside that of the force: where some heat is deduced from a leg it goes as the
    /// leg's square ([`leg_rule_gross_heat_j_per_mm`](crate::welding::fillet::leg_rule_gross_heat_j_per_mm)).
    pub(super) fn heat_each<'a>(&self, passes: impl IntoIterator<Item = &'a Pass>) -> f64 {
        if from_leg(passes) { 2.0 * self.leg } else { 0.0 }
    }
}

fn from_leg<'a>(passes: impl IntoIterator<Item = &'a Pass>) -> bool {
    passes.into_iter().any(|pass| pass.heat_source == HeatSource::Leg)
}

/// How many standard deviations the reported spans hold.
pub const SPAN: f64 = 2.0;

/// For each pass the number of its bead: what moves by scatter moves along one bead alike.
pub(crate) fn beads(passes: &[Pass]) -> Vec<usize> {
    let same = |a: &Pass, b: &Pass| {
        let sizes = |p: &Pass| [p.leg_mm, p.heat_j_per_mm].map(f64::to_bits);
        (a.order, a.seam, a.side) == (b.order, b.seam, b.side) && sizes(a) == sizes(b)
    };
    let first = |pass: &Pass| passes.iter().position(|other| same(other, pass)).unwrap_or(0);
    passes.iter().map(first).collect()
}

/// A pass as one of many that contribute.
#[derive(Debug, Clone, Copy)]
struct Contributes {
    bead: usize,
    seam: usize,
    /// Whether its order welds that seam from both sides.
    at_once: bool,
    /// Bias of its heat.
    heat: f64,
    /// Scatter of its force.
    scatter: f64,
}

/// How what passes contribute hangs together.
#[derive(Debug, Clone)]
pub(crate) struct Together {
    /// Biases of the level.
    pub(crate) bias: Bias,
    /// Of each pass.
    pass: Vec<Contributes>,
    /// Whether any bead is written down in several stretches.
    stretches: bool,
    /// Whether each seam is welded from both sides anywhere, whenever.
    both: [bool; 2],
    /// Part of the own bias of what a second side takes back that counts there.
    taken_counts: [f64; 2],
}

impl Together {
    /// Of the passes of a job at a level.
    pub(crate) fn of(passes: &[Pass], bias: Bias) -> Self {
        let opposite = |a: &Pass, b: &Pass| {
            a.seam == b.seam && a.side != b.side && a.from_mm < b.to_mm && b.from_mm < a.to_mm
        };
        let beads = beads(passes);
        let at_once = |a: &Pass| passes.iter().any(|b| opposite(a, b) && a.order == b.order);
        // of a bead, not of one stretch of it
        let bead_at_once = |bead: usize| beads.iter().zip(passes).any(|(b, p)| *b == bead && at_once(p));
        let both = Seam::BOTH.map(|seam| {
            let here = |p: &&Pass| p.seam == seam;
            passes.iter().filter(here).any(|a| passes.iter().any(|b| opposite(a, b)))
        });
        let pass = passes.iter().zip(&beads).map(|(pass, bead)| Contributes {
            bead: *bead,
            seam: seam_index(pass.seam),
            at_once: bead_at_once(*bead),
            heat: bias.of_heat([pass]),
            scatter: bias.each.hypot(bias.heat_each([pass])),
        });
        let pass = pass.collect();
        let stretches = beads.iter().enumerate().any(|(index, bead)| *bead != index);
        Self { bias, pass, stretches, both, taken_counts: [1.0; 2] }
    }

    /// The same where so much of the own bias of what second sides take back counts.
    #[must_use]
    pub(super) fn of_seconds(self, taken_counts: [f64; 2]) -> Self {
        Self { taken_counts, ..self }
    }

    /// The same where the bias of the heat is in what is common to all: a shop's record holds both.
    #[must_use]
    pub(crate) fn of_known_heat(mut self) -> Self {
        self.pass.iter_mut().for_each(|pass| pass.heat = 0.0);
        self
    }

    /// Variance of a sum of what passes contribute, divided: what all pieces share, (common·Σ)² + (Σ heat)² + Σ_seams((own·Σ)² + (taken·what
    /// cancels)²), and what differs from bead to bead, Σ_beads(scatter·Σ)².
    ///
    /// Two equal and opposite contributions cancel, but their scatter does not; and what a second side takes back of the
    /// first is not known as well as the first. A bead written down in two stretches is one bead.
    pub(crate) fn variances(
        &self,
        contributions: impl Iterator<Item = f64> + Clone,
        common: f64,
    ) -> [f64; 2] {
        let (mut all, mut by_leg) = (0.0, 0.0);
        let (mut seams, mut sizes) = ([0.0; 2], [0.0; 2]);
        let mut scatter = 0.0;
        for (index, (pass, c)) in self.pass.iter().zip(contributions.clone()).enumerate() {
            all += c;
            by_leg += pass.heat * c;
            seams[pass.seam] += c;
            sizes[pass.seam] += if pass.at_once { 0.0 } else { c.abs() };
            if !self.stretches {
                scatter += (pass.scatter * c).powi(2);
            } else if pass.bead == index {
                let same = self.pass.iter().zip(contributions.clone()).skip(index);
                let whole: f64 = same.filter(|(other, _)| other.bead == index).map(|(_, c)| c).sum();
                scatter += (pass.scatter * whole).powi(2);
            }
        }
        let own = |seam: usize| {
            let cancels = 0.5 * (sizes[seam] - seams[seam].abs()).max(0.0);
            let own = self.bias.seam[usize::from(self.both[seam])] * seams[seam];
            own.powi(2) + (self.taken_counts[seam] * self.bias.taken * cancels).powi(2)
        };
        [(common * all).powi(2) + by_leg * by_leg + own(0) + own(1), scatter]
    }
}

/// Records of the constants above.
pub(crate) const CONSTANTS: &[Constant] = &[
    record!(PART_OF_LIMIT, "", "part of an allowed bow that is one standard deviation")
        .known(Trust::Choice, "nearly all plates are inside what their standard allows"),
    record!(FORCE_BIAS, "", "bias of the shrinkage force")
        .known(Trust::Choice, "strength curve of hot steel +18 %, arc efficiency ±9 %, free or held section")
        .moved_by("force", FORCE_BIAS),
    record!(FORCE_SCATTER, "", "scatter of the force from pass to pass")
        .known(Trust::Choice, "heat input, fit-up, tacks")
        .moved_by("force_each_pass", FORCE_SCATTER),
    record!(
        LEG_SCATTER,
        "",
        "scatter of a leg from bead to bead, and by its square of a heat deduced from it"
    )
    .known(Trust::Choice, "0.3 mm on 6 mm")
    .moved_by("leg", LEG_SCATTER),
    record!(FOLD_SCATTER, "", "scatter of the cup from piece to piece")
        .known(Trust::Choice, "fit-up and heat input of one procedure")
        .moved_by("cup_each_piece", FOLD_SCATTER),
    record!(TILT_SCATTER, "", "scatter of a one-sided tilt from piece to piece")
        .known(Trust::Choice, "tacks and gaps differ")
        .moved_by("tilt_each_piece", TILT_SCATTER),
    record!(SEAM_BIAS, "", "own bias of a seam welded from one side")
        .known(
            Trust::OwnCalculation,
            "formula against the strip level, 695 members: reference-cases/seam_forces.py",
        )
        .moved_by("seam_one_side", SEAM_BIAS),
    record!(SEAM_BIAS_BOTH, "", "own bias of a seam welded from both sides")
        .known(Trust::OwnCalculation, "the same members")
        .moved_by("seam_both_sides", SEAM_BIAS_BOTH),
    record!(SEAM_BIAS_TAKEN, "", "own bias of what a second side takes back")
        .known(Trust::OwnCalculation, "the same members")
        .moved_by("second_side", SEAM_BIAS_TAKEN),
    record!(AS_ONE_S, "s", "lag at which half of that counts")
        .known(Trust::Choice, "sides that come sooner act as one pass"),
    record!(STRIP_SEAM_BIAS, "", "own bias of a seam at the strip level")
        .known(Trust::Choice, "bars instead of a solid, the mesh"),
    record!(ARM_BIAS, "", "bias of the lever arm sideways")
        .known(Trust::Choice, "an assumed place of the heat")
        .moved_by("arm", ARM_BIAS),
    record!(HEAT_FROM_LEG_BIAS, "", "bias of a heat deduced from a leg")
        .known(Trust::OwnCalculation, "31 measured beads: heat per deposited volume varies by 23 %")
        .moved_by("heat_from_leg", HEAT_FROM_LEG_BIAS),
    record!(STRIP_FORCE_BIAS, "", "bias of the force at the strip level")
        .known(Trust::Choice, "half of the strength curve, arc efficiency, mesh"),
    record!(STRIP_ARM_BIAS, "", "bias of the lever arm sideways at the strip level")
        .known(Trust::OwnCalculation, "place and spread of the heat"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::welding::{Process, Side};

    fn pass(seam: Seam, side: Side, order: u32, along: (f64, f64)) -> Pass {
        Pass {
            seam,
            side,
            from_mm: along.0,
            to_mm: along.1,
            order,
            leg_mm: 6.0,
            layers: 1,
            heat_j_per_mm: 1000.0,
            heat_source: HeatSource::Stated,
            deposit_mm2: 19.8,
            stitch: None,
            preheat_k: 0.0,
            force_factor: 1.0,
            process: Process::SubmergedArc,
            travel_speed_mm_s: None,
            wps: None,
        }
    }

    fn sigma(passes: &[Pass], contributions: &[f64], common: f64) -> f64 {
        let [shared, scatter] =
            Together::of(passes, Bias::FORMULA).variances(contributions.iter().copied(), common);
        (shared + scatter).sqrt()
    }

    const ALL: (f64, f64) = (0.0, 9000.0);

    #[test]
    fn opposite_seams_cancel_but_their_own_errors_do_not() {
        let passes = Seam::BOTH.map(|seam| pass(seam, Side::Near, 1, ALL));
        let got = sigma(&passes, &[10.0, -10.0], 0.15);
        let want = FORCE_SCATTER.hypot(SEAM_BIAS) * 200.0_f64.sqrt();
        assert!((got - want).abs() < 1e-12, "{got} against {want}");
    }

    /// The heat of one pass follows from its leg, that of the other is known: what the leg leaves open does not cancel.
    #[test]
    fn the_doubt_of_a_heat_from_a_leg_is_of_that_pass_alone() {
        let mut passes = Seam::BOTH.map(|seam| pass(seam, Side::Near, 1, ALL));
        passes[1].heat_source = HeatSource::Leg;
        let got = sigma(&passes, &[10.0, -10.0], 0.15);
        // beside its bias its scatter: twice that of the leg
        let of_leg = HEAT_FROM_LEG_BIAS.hypot(2.0 * LEG_SCATTER);
        let want = (FORCE_SCATTER.hypot(SEAM_BIAS) * 200.0_f64.sqrt()).hypot(of_leg * 10.0);
        println!("deviation {got:.4}, by hand {want:.4}");
        assert!((got - want).abs() < 1e-12, "{got} against {want}");
        let known = Together::of(&passes, Bias::FORMULA).of_known_heat();
        let [shared, scatter] = known.variances([10.0, -10.0].into_iter(), 0.15);
        let without = (shared + scatter).sqrt();
        assert!(without < 0.7 * got, "a record holds it: {without} of {got}");
    }

    #[test]
    fn a_bead_written_in_two_stretches_or_a_pass_that_adds_nothing_changes_nothing() {
        let whole = [pass(Seam::Outer, Side::Near, 1, ALL)];
        let parts = [(0.0, 4000.0), (4000.0, 9000.0)].map(|along| pass(Seam::Outer, Side::Near, 1, along));
        let (a, b) = (sigma(&whole, &[10.0], 0.15), sigma(&parts, &[4.0, 6.0], 0.15));
        assert!((a - b).abs() < 1e-12, "{a} and {b}");
        let later = pass(Seam::Outer, Side::Near, 2, ALL);
        let two = sigma(&[whole[0].clone(), later], &[4.0, 6.0], 0.15);
        assert!(two < a, "beads of two orders scatter apart: {two} and {a}");
    }

    #[test]
    fn what_a_second_side_takes_back_is_less_sure_than_nothing() {
        let passes = [pass(Seam::Outer, Side::Near, 1, ALL), pass(Seam::Outer, Side::Far, 2, ALL)];
        let got = sigma(&passes, &[10.0, -10.0], 0.15);
        let want = (SEAM_BIAS_TAKEN * 10.0).hypot(FORCE_SCATTER * 200.0_f64.sqrt());
        assert!((got - want).abs() < 1e-12, "{got} against {want}");
    }
}
