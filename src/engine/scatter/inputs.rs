//! What is unsure about a prediction: the inputs that can be varied by name, with their usual spread.
//!
//! Each is a factor on what the model, the job or the drawing says. *Bias* is drawn once and holds for every piece
//! of a kind: it stands for not knowing the model's truth. *Scatter* is drawn anew for each piece, or pass where the
//! name says so. None rests on measured members; a shop's own measurements should replace them.

use super::{Distribution, Spread};
use crate::angular::cup::SIGMA as FOLD_BIAS;
use crate::angular::tilt::{TILT_OWN, TILT_SHARED};
use crate::member::Seam;
use crate::prediction::uncertainty::{
    ARM_BIAS, FOLD_SCATTER, FORCE_BIAS, FORCE_SCATTER, HEAT_FROM_LEG_BIAS, LEG_SCATTER, SEAM_BIAS,
    SEAM_BIAS_BOTH, SEAM_BIAS_TAKEN, TILT_SCATTER,
};
use crate::prediction::{CrossWelds, Field, Job};
use crate::shrinkage::cross::SCATTER;
use crate::shrinkage::transverse::SIGMA;
use crate::welding::Side;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Whether an input is the same for all pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Class {
    /// The model's own error, the same for every piece of a kind.
    Bias,
    /// Differs from piece to piece.
    Scatter,
}

/// What an input acts on in a job, under a name of its own where the input acts on several.
#[derive(Debug, Clone, Copy)]
pub struct Acts {
    /// Its name beside that of the input; empty if it is the only one.
    pub part: &'static str,
    /// Place as a study names it: "pass.leg".
    pub set: &'static str,
    /// The numbers themselves.
    pub fields: fn(&Job) -> Vec<Field>,
}

/// One unsure input.
#[derive(Debug, Clone, Copy)]
pub struct Input {
    /// Short name, unique.
    pub name: &'static str,
    /// Bias or scatter.
    pub class: Class,
    /// What it multiplies, and when.
    pub what: &'static str,
    /// Spread of the factor.
    pub spread: Spread,
    /// Where the spread comes from.
    pub source: &'static str,
    /// What it acts on.
    pub(crate) acts: &'static [Acts],
    /// Whether everything it acts on draws for itself; stretches of one bead or of one rolled plate draw as one.
    pub each: bool,
}

/// A factor around 1 that is as likely to double as to halve. Its median leaves the model alone; its mean is a little
/// above 1 (√(1 + cov²): 1.01 for the force, 1.17 for the tilt).
const fn factor(cov: f64) -> Spread {
    Spread::uncut(Distribution::Lognormal { median: 1.0, cov })
}

/// What an input acts on that has one place.
const fn one(set: &'static str, fields: fn(&Job) -> Vec<Field>) -> Acts {
    Acts { part: "", set, fields }
}

const SIDES: &[Acts] = &[
    Acts { part: "near", set: "factors.near_tilt", fields: |job| tilt_of_side(job, Side::Near) },
    Acts { part: "far", set: "factors.far_tilt", fields: |job| tilt_of_side(job, Side::Far) },
];
const CROSS: &[Acts] = &[one("factors.cross_welds", crossed)];
const PLATES: &[Acts] = &[
    Acts { part: "web", set: "web.thickness", fields: Field::webs },
    Acts { part: "outer_flange", set: "outer_flange.thickness", fields: Field::outer_flanges },
    Acts { part: "inner_flange", set: "inner_flange.thickness", fields: Field::inner_flanges },
];
const ONE_SIDE: &[Acts] = &[
    Acts { part: "outer", set: "factors.outer_seam", fields: |job| seam(job, Seam::Outer, false) },
    Acts { part: "inner", set: "factors.inner_seam", fields: |job| seam(job, Seam::Inner, false) },
];
const BOTH_SIDES: &[Acts] = &[
    Acts { part: "outer", set: "factors.outer_seam", fields: |job| seam(job, Seam::Outer, true) },
    Acts { part: "inner", set: "factors.inner_seam", fields: |job| seam(job, Seam::Inner, true) },
];
const SECOND_SIDES: &[Acts] = &[
    Acts { part: "outer", set: "factors.outer_second", fields: |job| Field::second_side(job, Seam::Outer) },
    Acts { part: "inner", set: "factors.inner_second", fields: |job| Field::second_side(job, Seam::Inner) },
];

/// Only in a job with something to act on.
fn crossed(job: &Job) -> Vec<Field> {
    let any = !CrossWelds::of(job).is_empty();
    if any { vec![Field::CrossWelds] } else { Vec::new() }
}

/// A bias that a shop's record does not speak for.
fn unrecorded(job: &Job, field: Field) -> Vec<Field> {
    if job.learned.is_some() { Vec::new() } else { vec![field] }
}

/// The own bias of a seam, unless the record holds it with the bows of this very member.
fn seam(job: &Job, seam: Seam, both: bool) -> Vec<Field> {
    if job.learned.as_ref().is_some_and(|learned| learned.seams) {
        return Vec::new();
    }
    Field::seam(job, seam, both)
}

/// What one side turns beside the other: with a record only where there are two, since that of one side alone is learned.
fn tilt_of_side(job: &Job, side: Side) -> Vec<Field> {
    let both = [Side::Near, Side::Far].iter().all(|s| !Field::tilt_of_side(job, *s).is_empty());
    if both || job.learned.is_none() { Field::tilt_of_side(job, side) } else { Vec::new() }
}

/// One independent doubt that the job's record leaves of the bias: first what the force hangs together with, then what is left of the heat …
fn recorded<const WHICH: usize>(job: &Job) -> Vec<Field> {
    if job.learned.is_some() { vec![Field::Recorded(WHICH)] } else { Vec::new() }
}

/// Relative deviation of the exponential of a standard score: its log has a deviation of one.
const SCORE: f64 = 1.310_832_494_432_100_4;

/// An input of which no more is said yet than what it is.
const fn bias(name: &'static str, what: &'static str) -> Input {
    Input { name, class: Class::Bias, what, spread: factor(SCORE), source: "", acts: &[], each: false }
}

/// The same of one that differs from piece to piece.
const fn scatter(name: &'static str, what: &'static str) -> Input {
    Input { class: Class::Scatter, ..bias(name, what) }
}

/// A doubt that the record leaves.
const fn doubt<const WHICH: usize>(name: &'static str, what: &'static str) -> Input {
    Input {
        source: "the shop's own pieces; only in jobs that name a record",
        acts: const { &[one("factors.force", recorded::<WHICH>)] },
        ..bias(name, what)
    }
}

/// What plates differ by, unless by nothing.
fn brought<const WHICH: usize>(job: &Job) -> Vec<Field> {
    let field = Field::Plates(WHICH);
    field.get(job).map(|_| field).into_iter().collect()
}

/// What pieces differ by beside their welds.
const fn plates<const WHICH: usize>(name: &'static str, what: &'static str) -> Input {
    Input {
        source: "in mm: the shop's own pieces; without a record how the job's plates come and the choices of `[assembly]`",
        acts: const { &[one("factors.force", brought::<WHICH>)] },
        ..scatter(name, what)
    }
}

impl Input {
    /// Whether only jobs that name a shop's record have it: its size is in the record, none in the list.
    pub fn recorded(&self) -> bool {
        self.name.starts_with("record_")
    }

    /// Whether it is what plates and assembly bring: its size is in mm and stands in the job or in the record.
    pub fn of_plates(&self) -> bool {
        self.name.starts_with("plates_")
    }

    /// Whether it acts on the checked job alone, since no place of a job file holds it.
    pub(crate) fn in_no_file(&self) -> bool {
        self.recorded() || self.of_plates()
    }
}

/// A dimension over its nominal value.
const fn dimension(sd: f64) -> Spread {
    Spread::uncut(Distribution::Normal { mean: 1.0, sd })
}

/// All of them, bias first.
pub const INPUTS: [Input; 31] = [
    Input {
        spread: factor(FORCE_BIAS),
        source: "judgement: strength of hot steel, arc efficiency, free or held section",
        acts: &[one("factors.force", |job| unrecorded(job, Field::Force))],
        ..bias("force", "shrinkage force of every fillet")
    },
    Input {
        spread: factor(HEAT_FROM_LEG_BIAS),
        source: "31 measured beads: heat per deposited volume varies by 23 %",
        acts: &[one("factors.heat_from_leg", |job| unrecorded(job, Field::HeatFromLeg))],
        ..bias("heat_from_leg", "heat input of passes whose heat is worked out from the leg; no other pass")
    },
    Input {
        spread: factor(ARM_BIAS),
        source: "judgement: the place of the heat is assumed",
        acts: &[one("factors.arm", |job| unrecorded(job, Field::Arm))],
        ..bias("arm", "sideways distance of a force from the middle of the section")
    },
    Input {
        spread: factor(FOLD_BIAS),
        source: "judgement; holds for 2 to 10 J/mm3 of heat over flange thickness squared, 0.50 would be fair outside",
        acts: &[one("factors.cup", |job| unrecorded(job, Field::Cup))],
        ..bias("cup", "cup of the flanges, at every fillet alike")
    },
    Input {
        spread: factor(TILT_SHARED),
        source: "judgement; depends on tacks and clamps",
        acts: &[one("factors.tilt", |job| unrecorded(job, Field::Tilt))],
        ..bias("tilt", "tilt of the flanges, by the fillets of both sides alike")
    },
    Input {
        spread: factor(SEAM_BIAS),
        source: "formulas against the strip level, seam by seam",
        acts: ONE_SIDE,
        ..bias(
            "seam_one_side",
            "shrinkage force of one seam that is welded from one side, beside that of all",
        )
    },
    Input {
        spread: factor(SEAM_BIAS_BOTH),
        source: "formulas against the strip level, seam by seam",
        acts: BOTH_SIDES,
        ..bias(
            "seam_both_sides",
            "shrinkage force of one seam that is welded from both sides, beside that of all",
        )
    },
    Input {
        spread: factor(SEAM_BIAS_TAKEN),
        source: "formulas against the strip level, seam by seam",
        acts: SECOND_SIDES,
        ..bias(
            "second_side",
            "what the second side of one seam takes back sideways, where it is laid later than the first",
        )
    },
    Input {
        spread: factor(TILT_OWN),
        source: "what two cold sides leave in joints with a moving arc; six measured joints where both come at once",
        acts: SIDES,
        ..bias(
            "tilt_each_side",
            "what the fillets of one side turn, beside that of all; of two sides at once the more so the more they differ",
        )
    },
    Input {
        spread: factor(SIGMA),
        source: "published forms differ by a factor of 4",
        acts: CROSS,
        ..bias("cross_weld", "shrinkage of attachments and of splices made after assembly")
    },
    Input {
        spread: factor(FORCE_SCATTER),
        source: "choice: heat input, fit-up, tacks",
        acts: &[one("pass.force_factor", Field::forces_of_passes)],
        each: true,
        ..scatter(
            "force_each_pass",
            "shrinkage force of one pass, drawn anew for every pass, in however many stretches it is written down",
        )
    },
    Input {
        spread: factor(SCATTER),
        source: "choice: gaps and runs differ",
        acts: CROSS,
        ..scatter("cross_weld_each", "the same of one piece")
    },
    Input {
        spread: factor(FOLD_SCATTER),
        source: "choice: fit-up and heat input of one procedure",
        acts: &[one("factors.cup", |_| vec![Field::Cup])],
        ..scatter("cup_each_piece", "cup of the flanges of one piece")
    },
    Input {
        spread: factor(TILT_SCATTER),
        source: "choice: half of the bias, as tacks and gaps differ from piece to piece",
        acts: &[one("factors.tilt", |_| vec![Field::Tilt])],
        ..scatter("tilt_each_piece", "tilt of the flanges of one piece")
    },
    Input {
        spread: dimension(LEG_SCATTER),
        source: "choice: 0.3 mm on 6 mm",
        acts: &[one("pass.leg", Field::legs)],
        each: true,
        ..scatter("leg", "leg over the leg asked for; where the heat follows from the leg, that too")
    },
    Input {
        spread: dimension(0.01),
        source: "choice: well inside the -0.5 to +1.2 mm that EN 10029:1991 Table 1 class A allows 8 to 15 mm plate",
        acts: PLATES,
        each: true,
        ..scatter(
            "plate",
            "plate thickness over nominal; plates of one thickness in one part are of one rolling",
        )
    },
    doubt::<0>("record_force", "force, and all that hangs together with it"),
    doubt::<1>("record_heat", "heat from a leg, beside the force"),
    doubt::<2>("record_arm", "lever arm sideways, beside these"),
    doubt::<3>("record_cup", "cup, beside these"),
    doubt::<4>("record_tilt", "tilt, beside these"),
    doubt::<5>("record_second", "seams welded from both sides, beside these"),
    doubt::<6>("record_camber", "mean camber of plates and assembly, beside these"),
    doubt::<7>("record_sweep", "mean sweep of plates and assembly, beside these"),
    plates::<0>("plates_camber", "camber of one piece by its plates and assembly"),
    plates::<1>("plates_sweep", "sweep of one piece by its plates and assembly"),
    plates::<2>("plates_length", "length of one piece by its cutting"),
    plates::<3>("plates_cup", "cup of the flanges of one piece as delivered"),
    plates::<4>("plates_tilt", "tilt of the flanges of one piece by assembly"),
    plates::<5>("plates_twist", "twist of one piece by flange strips that come bowed unlike"),
    plates::<6>("plates_waves", "waves of the web of one piece as delivered"),
];

/// Input of that name.
///
/// ```
/// use weldbow_engine::scatter::{Class, input};
/// assert!(input("force").is_some_and(|force| force.class == Class::Bias));
/// assert!(input("luck").is_none());
/// ```
pub fn input(name: &str) -> Option<&'static Input> {
    static ALL: [Input; INPUTS.len()] = INPUTS;
    ALL.iter().find(|input| input.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::angular::cup;
    use std::collections::BTreeSet;

    /// No layout comes nearer to 0.
    const LEAST_OF_A_PLAN: f64 = 1e-16;

    #[test]
    fn every_input_has_its_own_short_name_a_sound_spread_around_one_and_a_source() {
        let names: BTreeSet<&str> = INPUTS.iter().map(|i| i.name).collect();
        assert_eq!(names.len(), INPUTS.len());
        for i in &INPUTS {
            let (low, high) = (i.spread.low, i.spread.high);
            assert_eq!(Spread::new(i.spread.distribution(), low, high), Ok(i.spread), "{}", i.name);
            assert!(
                (i.spread.quantile(0.5) - 1.0).abs() < 1e-12,
                "{}: the middle leaves the model alone",
                i.name
            );
            assert!(i.spread.quantile(LEAST_OF_A_PLAN) > 0.0, "{}: a factor stays positive", i.name);
            assert!(i.name.len() <= 16 && !i.what.is_empty() && !i.source.is_empty(), "{}", i.name);
        }
    }

    #[test]
    fn the_cup_is_as_unsure_as_its_formula_says() {
        // the rise outside has a foot of a hundredth there
        assert!((cup::sigma(5.0) - FOLD_BIAS).abs() < 2e-3, "{} against {FOLD_BIAS}", cup::sigma(5.0));
    }

    #[test]
    fn scatter_is_smaller_than_the_bias_it_stands_beside() {
        let sd = |name| input(name).unwrap().spread.sd();
        for (bias, scatter) in
            [("force", "force_each_pass"), ("cup", "cup_each_piece"), ("tilt", "tilt_each_piece")]
        {
            assert!(sd(scatter) < sd(bias), "{scatter}: {} against {}", sd(scatter), sd(bias));
        }
    }
}
