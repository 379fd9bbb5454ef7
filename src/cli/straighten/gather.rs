//! One job, what is known of the piece, and the plan for it.

use super::advice::{self, Readiness};
use crate::chart::{ChartError, Picture};
use crate::form::Complaint;
use crate::input::Problem;
use crate::input::findings::mm;
use crate::job::read_with_scatter;
use crate::prediction::{Job, Prediction, predict};
use crate::shop::Shop;
use crate::shop::measured::{Front, Measured};
use crate::straighten::decide::Family;
use crate::straighten::piece::{
    Expected, Judged, Making, Measuring, Piece, expected, far_end, goals, shop_for, weld_stress,
};
use crate::straighten::plan::{Plan, Records};
use crate::straighten::shape::{OutOfStraight, ShapeError};
use crate::tolerance::Quantity;
use crate::units::System;
use serde::Serialize;
use std::path::{Path, PathBuf};

/// What the command line gives beside the jobs.
pub struct Given {
    pub shop: Shop,
    /// Whether a shop file was given.
    pub own_shop: bool,
    pub measured: Option<(PathBuf, Measured)>,
    /// What is known of the piece.
    pub front: Front,
    pub web_cut: bool,
    pub preset: bool,
}

/// A job that could be planned for.
pub struct Asked {
    pub file: PathBuf,
    pub job: Job,
    pub prediction: Prediction,
    pub shop: Shop,
    pub own_shop: bool,
    pub judged: Judged,
    pub making: Making,
    pub measuring: Measuring,
    /// The measured file; None if the shape is the predicted one.
    pub measured: Option<PathBuf>,
    /// Bow that a noted difference of temperature brings, mm.
    pub thermal_mm: Option<f64>,
    /// What a piece of the kind is expected to be; of what was measured too.
    pub expected: Vec<Expected>,
    /// What the shop recorded of the family.
    pub recorded: Vec<(Quantity, Family)>,
    /// Quantities for which the shape is the far end of the prediction, not its mean.
    pub far: Vec<Quantity>,
    pub piece: Piece,
    pub plan: Plan,
}

impl Asked {
    /// Reads a job and plans for it.
    pub fn new(file: &Path, given: &Given) -> Result<Self, Complaint> {
        let (job, own) = read_with_scatter(file)?;
        let prediction = predict(&job);
        let measuring =
            given.measured.as_ref().map_or(given.shop.measuring, |(_, m)| m.measuring(given.shop.measuring));
        let judged = goals(&job, &measuring);
        let making = Making { web_cut: given.web_cut, flanges_preset: given.preset };
        let expected = expected(&job, &prediction, making, &judged, &own);
        let family = |q| expected.iter().find(|e| e.quantity == q).map(|e| e.family);
        let [camber, sweep] = [given.front.camber_record, given.front.sweep_record];
        let records = Records {
            camber: camber.or_else(|| family(Quantity::Camber)),
            sweep: sweep.or_else(|| family(Quantity::Sweep)),
        };
        let recorded = [(Quantity::Camber, camber), (Quantity::Sweep, sweep)];
        keeps_off_the_member(&job, given)?;
        let (mut far, mut thermal_mm) = (Vec::new(), None);
        let mut piece = if let Some((_, measured)) = &given.measured {
            thermal_mm = measured.thermal_mm(&job);
            let wrong = |e| measured.complaint(e, job.member.length_mm);
            measured.piece(&job, &prediction, &given.shop).map_err(wrong)?
        } else {
            let no_shape =
                |e: ShapeError| about(file, "", e.to_string(), "a member that can be predicted".to_owned());
            far = likely_but_not_the_mean(&expected, given.shop.plan_from_chance);
            let ask = [Quantity::Camber, Quantity::Sweep, Quantity::FlangeToe].map(|q| far.contains(&q));
            Piece {
                shape: far_end(&job, &prediction, making, ask).map_err(no_shape)?,
                measurements: given.front.measurements,
                goals: judged.goals,
                shop: shop_for(&given.shop.tools, &job),
                situation: given.front.situation,
                weld: weld_stress(&job, &prediction),
                keep_off_mm: given.front.keep_off_mm.clone(),
                records: Records::default(),
            }
        };
        piece.records = records;
        let plan = piece.plan(&job.member);
        Ok(Self {
            file: file.to_owned(),
            shop: given.shop.clone(),
            own_shop: given.own_shop,
            measured: given.measured.as_ref().map(|(path, _)| path.clone()),
            job,
            prediction,
            judged,
            making,
            measuring,
            thermal_mm,
            expected,
            recorded: recorded.into_iter().filter_map(|(q, family)| Some((q, family?))).collect(),
            far,
            piece,
            plan,
        })
    }

    /// Pictures of the plan.
    pub fn pictures(&self, system: System) -> Result<Vec<Picture>, ChartError> {
        crate::chart::straightening_pictures(&self.job, &self.piece, &self.plan, system)
    }

    /// Everything for other programs.
    pub fn result(&self) -> Outcome<'_> {
        Outcome {
            file: self.file.display().to_string(),
            title: &self.job.title,
            shape_from: if self.measured.is_some() { "measured" } else { "predicted" },
            measured: self.measured.as_ref().map(|p| p.display().to_string()),
            shop: &self.shop.title,
            plan_from_chance: self.shop.plan_from_chance,
            placeholder_rates: &self.shop.placeholder_rates,
            making: self.making,
            measuring: self.measuring,
            limits: &self.judged.named,
            expected: &self.expected,
            readiness: self
                .expected
                .iter()
                .map(|e| Ready {
                    quantity: e.quantity,
                    readiness: advice::readiness(e, self.shop.plan_from_chance),
                })
                .collect(),
            planned_at_far_end: &self.far,
            shape: &self.piece.shape,
            thermal_bow_mm: self.thermal_mm,
            change_first: advice::change_first(self),
            summary: advice::summary(self),
            plan: &self.plan,
        }
    }
}

/// What is likely enough to get ready for, though the mean piece is not clearly out.
fn likely_but_not_the_mean(expected: &[Expected], from: f64) -> Vec<Quantity> {
    expected.iter().filter(|e| advice::readiness(e, from) == Readiness::BeReady).map(|e| e.quantity).collect()
}

fn keeps_off_the_member(job: &Job, given: &Given) -> Result<(), Complaint> {
    let length = job.member.length_mm;
    let Some((_, to)) = given.front.keep_off_mm.iter().copied().find(|(_, to)| *to > length) else {
        return Ok(());
    };
    let wanted = format!("a stretch on the member, which is {} long", mm(length));
    let problem = Problem::new("keep off", format!("a stretch to {}", mm(to)), wanted);
    let in_file = given.measured.as_ref().and_then(|(_, m)| m.keep_off_complaint(problem.clone()));
    Err(in_file.unwrap_or_else(|| Complaint::whole("--piece", problem)))
}

fn about(file: &Path, path: &str, found: String, wanted: String) -> Complaint {
    Complaint::whole(&file.display().to_string(), Problem::new(path, found, wanted))
}

#[derive(Serialize)]
struct Ready {
    quantity: Quantity,
    readiness: Readiness,
}

/// The names other programs rely on.
#[derive(Serialize)]
pub struct Outcome<'a> {
    file: String,
    title: &'a str,
    shape_from: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<String>,
    shop: &'a str,
    plan_from_chance: f64,
    placeholder_rates: &'a [&'static str],
    making: Making,
    measuring: Measuring,
    limits: &'a [crate::straighten::piece::Named],
    expected: &'a [Expected],
    readiness: Vec<Ready>,
    planned_at_far_end: &'a [Quantity],
    shape: &'a OutOfStraight,
    #[serde(skip_serializing_if = "Option::is_none")]
    thermal_bow_mm: Option<f64>,
    change_first: Vec<String>,
    summary: String,
    plan: &'a Plan,
}
