//! "Does this piece need straightening, and how?": one job in one shop, judged and planned, as every command and any other
//! program asks it.

use crate::measured::{Front, Measured, OddReading};
use crate::reading::Diagnostics;
use serde::Serialize;
use thiserror::Error;
use weldbow_engine::member::Member;
use weldbow_engine::prediction::{Job, Prediction, outside, predict};
use weldbow_engine::scatter::{SamplingFault, welding_alone};
use weldbow_engine::shop::Shop;
use weldbow_engine::straighten::decide::{Action, Family, Limits};
use weldbow_engine::straighten::piece::{
    Expected, Fabrication, Judged, Measuring, Named, Piece, expected, far_end, goals, recorded_bow,
};
use weldbow_engine::straighten::plan::{Plan, Records};
use weldbow_engine::straighten::shape::{OutOfStraight, ShapeError};
use weldbow_engine::tolerance::Quantity;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Ask<'a> {
    /// The job.
    pub job: &'a Job,
    /// The shop.
    pub shop: &'a Shop,
    /// What was done before welding against the predicted distortion.
    pub making: Fabrication,
    /// What is known of the piece.
    pub front: &'a Front,
    /// Its readings; the predicted shape is planned for without them.
    pub measured: Option<&'a Measured>,
}

/// Why there is no answer.
#[derive(Debug, Error)]
pub enum AskFault {
    /// A job that the model says nothing of.
    #[error("a job outside what the model covers: {why}")]
    Outside {
        /// Why.
        why: String,
    },
    /// A stretch to be kept off that is not on the member.
    #[error("a stretch to be kept off ends at {to_mm} mm, off the member")]
    KeepOff {
        /// Its end, mm.
        to_mm: f64,
    },
    /// Readings that are no shape of this member.
    #[error("readings that are no shape of this member")]
    Readings(Box<Diagnostics>),
    /// A prediction that is no shape.
    #[error(transparent)]
    Shape(#[from] ShapeError),
    /// Pieces that cannot be drawn.
    #[error(transparent)]
    Draws(#[from] SamplingFault),
}

/// How likely a piece of the kind needs it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Readiness {
    /// The mean piece is out.
    Expect,
    /// Some pieces are likely out.
    BeReady,
    /// Hardly any.
    Nothing,
}

impl Readiness {
    /// What a chance asks for of a shop that gets ready from that chance on.
    pub fn of(e: &Expected, from: f64) -> Self {
        Self::told(e.mean_mm, e.likely.chance, &e.limits, from)
    }

    fn told(mean: f64, chance: f64, limits: &Limits, from: f64) -> Self {
        // a mean beyond its limit by more than measuring explains is planned for as it is
        if mean > limits.highest + limits.guard() || mean < limits.lowest - limits.guard() {
            Self::Expect
        } else if chance >= from {
            Self::BeReady
        } else {
            Self::Nothing
        }
    }
}

/// What a shop recorded of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Recorded {
    /// Which.
    pub quantity: Quantity,
    /// Mean and scatter of its pieces.
    pub family: Family,
    /// Part of the pieces out of the limit by it; None if the record tells none, or nothing limits the quantity.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out: Option<f64>,
    /// What it asks of the shop.
    pub readiness: Readiness,
}

impl Recorded {
    fn of(quantity: Quantity, family: Family, limits: &Limits, from: f64) -> Self {
        let out = family.against(limits).ok().map(|c| c.out);
        let readiness = out.map_or(Readiness::Nothing, |out| Readiness::told(family.mean, out, limits, from));
        Self { quantity, family, out, readiness }
    }
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessed {
    /// The prediction behind it.
    pub prediction: Prediction,
    /// Limits, and the clauses behind them.
    pub judged: Judged,
    /// What was done before welding.
    pub making: Fabrication,
    /// How well it is measured.
    pub measuring: Measuring,
    /// Bow that a noted difference of temperature brings, mm.
    pub thermal_mm: Option<f64>,
    /// What is odd about the readings, which were checked all the same.
    pub odd: Vec<OddReading>,
    /// Largest sag of its own weight in a bow that was measured, if nothing says how the piece lay, mm.
    pub own_sag_mm: Option<f64>,
    /// What a piece of the kind is expected to be; of what was measured too.
    pub expected: Vec<Expected>,
    /// What the shop recorded of the family: counts before what the model expects of the same quantity.
    pub recorded: Vec<Recorded>,
    /// Whether the yield strength used is that of the piece's certificate.
    pub own_yield: bool,
    /// Whether chances are those of welding alone: nothing is known of what plates, cutting and assembly bring.
    pub welding_alone: bool,
    /// Quantities for which the shape is the far end of the prediction, not its mean.
    pub far: Vec<Quantity>,
    /// The piece.
    pub piece: Piece,
    /// What to do.
    pub plan: Plan,
}

impl Ask<'_> {
    /// The member as it is pushed: what was welded does not change with a better word for its steel; what is pushed does.
    pub fn member(&self) -> Member {
        let mut member = self.job.member.clone();
        if let Some(yield_mpa) = self.front.yield_mpa {
            member.steel.yield_mpa = yield_mpa;
        }
        member
    }

    /// Judges the piece and plans for it. A plan that cannot be made is a result.
    ///
    /// # Errors
    /// [`AskFault`].
    pub fn answer(&self) -> Result<Assessed, AskFault> {
        let Self { job, shop, making, front, measured, .. } = *self;
        let length_mm = job.member.length_mm;
        if let Some((_, to_mm)) = front.keep_off_mm.iter().copied().find(|(_, to)| *to > length_mm) {
            return Err(AskFault::KeepOff { to_mm });
        }
        let prediction = predict(job);
        if let Some(none) = outside(&prediction).first() {
            return Err(AskFault::Outside { why: none.reason.to_string() });
        }
        let measuring = measured.map_or(shop.measuring, |m| m.of_the_mean(job, shop.measuring));
        let judged = goals(job, &measuring);
        let expected = expected(job, &prediction, making, &judged)?;
        let family = |q| expected.iter().find(|e| e.quantity == q).map(|e| e.family);
        let [camber, sweep] = [front.camber_record, front.sweep_record];
        let from = shop.plan_from_chance;
        let record = |quantity, family: Option<Family>, limits| {
            family.map(|family| Recorded::of(quantity, family, limits, from))
        };
        let camber_recorded = record(Quantity::Camber, camber, &judged.goals.camber);
        let sweep_recorded = record(Quantity::Sweep, sweep, &judged.goals.sweep);
        let recorded: Vec<Recorded> = camber_recorded.into_iter().chain(sweep_recorded).collect();
        let (mut far, mut thermal_mm, mut odd, mut own_sag_mm) = (Vec::new(), None, Vec::new(), None);
        let mut piece = if let Some(measured) = measured {
            thermal_mm = measured.front.thermal_mm(&job.member);
            own_sag_mm = measured.own_sag_mm(job);
            odd.extend(measured.odd(job, &prediction, shop.measuring));
            let wrong = |complaint| AskFault::Readings(Box::new(complaint));
            measured.piece(job, &prediction, shop).map_err(wrong)?
        } else {
            let made = |far: &[Quantity]| -> Result<Piece, ShapeError> {
                let ask = [Quantity::Camber, Quantity::Sweep, Quantity::FlangeToe].map(|q| far.contains(&q));
                let mut shape = far_end(job, &prediction, making, ask)?;
                for r in recorded.iter().filter(|r| r.out.is_some()) {
                    let bow = recorded_bow(&shape.x_mm, &r.family, far.contains(&r.quantity));
                    match r.quantity {
                        Quantity::Camber => shape.camber_mm = bow,
                        _ => shape.sweep_mm = bow,
                    }
                }
                Ok(Piece {
                    measurements: front.measurements,
                    situation: front.situation,
                    keep_off_mm: front.keep_off_mm.clone(),
                    stiffeners: front.stiffeners.clone(),
                    ..Piece::of(job, &prediction, shape, judged.goals, &shop.tools)
                })
            };
            let mean = made(&[])?.decisions(&self.member());
            let out = |q| mean.iter().any(|d| d.quantity == q && d.action == Action::Straighten);
            // what is likely enough to get ready for, though the mean piece is not clearly out
            let likely = |e: &&Expected| match readiness(&recorded, e, from) {
                Readiness::Nothing => false,
                Readiness::BeReady => true,
                Readiness::Expect => !out(e.quantity),
            };
            far.extend(expected.iter().filter(likely).map(|e| e.quantity));
            made(&far)?
        };
        piece.records = Records {
            camber: camber.or_else(|| family(Quantity::Camber)),
            sweep: sweep.or_else(|| family(Quantity::Sweep)),
        };
        let plan = piece.plan(&self.member());
        Ok(Assessed {
            recorded,
            own_yield: front.yield_mpa.is_some(),
            welding_alone: welding_alone(job),
            prediction,
            judged,
            making,
            measuring,
            thermal_mm,
            odd,
            own_sag_mm,
            expected,
            far,
            piece,
            plan,
        })
    }
}

/// What a quantity asks of a shop: by its record if there is one, or else by what the model expects.
fn readiness(recorded: &[Recorded], e: &Expected, from: f64) -> Readiness {
    let record = recorded.iter().find(|r| r.quantity == e.quantity && r.out.is_some());
    record.map_or_else(|| Readiness::of(e, from), |r| r.readiness)
}

impl Assessed {
    /// What a quantity asks of a shop that gets ready from that chance on: by its record if there is one, or else by the model.
    pub fn readiness(&self, e: &Expected, from: f64) -> Readiness {
        readiness(&self.recorded, e, from)
    }

    /// How likely a piece is out in a quantity: by the shop's record if there is one, or else by the model.
    pub fn chance(&self, e: &Expected) -> f64 {
        let record = self.recorded.iter().find(|r| r.quantity == e.quantity).and_then(|r| r.out);
        record.unwrap_or(e.likely.chance)
    }

    /// Everything for other programs: engine units.
    pub fn answer<'a>(&'a self, title: &'a str, shop: &'a Shop) -> Answer<'a> {
        let ready = |e: &Expected| Ready {
            quantity: e.quantity,
            readiness: self.readiness(e, shop.plan_from_chance),
        };
        let odd = |q: &OddReading| format!("{}: {}; wanted: {}", q.column, q.found, q.usual);
        Answer {
            title,
            shop: &shop.title,
            plan_from_chance: shop.plan_from_chance,
            placeholder_rates: &shop.placeholder_rates,
            making: self.making,
            measuring: self.measuring,
            limits: &self.judged.named,
            expected: &self.expected,
            readiness: self.expected.iter().map(ready).collect(),
            recorded: &self.recorded,
            welding_alone: self.welding_alone,
            planned_at_far_end: &self.far,
            shape: &self.piece.shape,
            thermal_bow_mm: self.thermal_mm,
            odd_readings: self.odd.iter().map(odd).collect(),
            plan: &self.plan,
        }
    }
}

/// Whether to get ready for one quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Ready {
    /// What.
    pub quantity: Quantity,
    /// Whether.
    pub readiness: Readiness,
}

/// The names other programs rely on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer<'a> {
    title: &'a str,
    shop: &'a str,
    plan_from_chance: f64,
    placeholder_rates: &'a [&'static str],
    making: Fabrication,
    measuring: Measuring,
    limits: &'a [Named],
    expected: &'a [Expected],
    readiness: Vec<Ready>,
    #[serde(skip_serializing_if = "<[Recorded]>::is_empty")]
    recorded: &'a [Recorded],
    welding_alone: bool,
    planned_at_far_end: &'a [Quantity],
    shape: &'a OutOfStraight,
    #[serde(skip_serializing_if = "Option::is_none")]
    thermal_bow_mm: Option<f64>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    odd_readings: Vec<String>,
    plan: &'a Plan,
}
