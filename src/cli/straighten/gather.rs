//! One job, what is known of the piece, and the plan for it.

use super::advice::{self, Readiness};
use super::log::{self, Logged};
use crate::chart::{ChartError, Picture};
use crate::form::findings::mm;
use crate::form::{Complaint, Problem};
use crate::job::read_with_scatter;
use crate::prediction::{Job, Prediction, outside, predict};
use crate::scatter::PlanFault;
use crate::shop::Shop;
use crate::shop::measured::{Front, Measured};
use crate::shop::push_log::Pushed;
use crate::straighten::decide::Family;
use crate::straighten::piece::{
    Expected, Judged, Making, Measuring, Piece, expected, far_end, goals, shop_for, weld_stress,
};
use crate::straighten::plan::{Plan, Records};
use crate::straighten::shape::{OutOfStraight, ShapeError};
use crate::tolerance::Quantity;
use crate::units::System;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// What the command line gives beside the jobs.
pub struct Given {
    pub shop: Shop,
    /// Whether a shop file was given.
    pub own_shop: bool,
    pub measured: Option<(PathBuf, Measured)>,
    /// What is known of the piece.
    pub front: Front,
    /// Pushes made so far.
    pub log: Option<(PathBuf, Vec<Pushed>)>,
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
    /// What is odd about the readings, which were checked all the same.
    pub odd: Vec<Problem>,
    /// Largest sag of its own weight in a bow that was measured, if nothing says how the piece lay, mm.
    pub own_sag_mm: Option<f64>,
    /// What a piece of the kind is expected to be; of what was measured too.
    pub expected: Vec<Expected>,
    /// What the shop recorded of the family.
    pub recorded: Vec<(Quantity, Family)>,
    /// Quantities for which the shape is the far end of the prediction, not its mean.
    pub far: Vec<Quantity>,
    pub piece: Piece,
    pub plan: Plan,
    /// What the push log says.
    pub logged: Vec<Logged>,
    /// Fingerprint of the measured file.
    pub hash: Option<String>,
    /// Day of the plan.
    pub date: String,
}

impl Asked {
    /// Reads a job and plans for it.
    pub fn new(file: &Path, given: &Given) -> Result<Self, Complaint> {
        let (mut job, own) = read_with_scatter(file)?;
        let prediction = predict(&job);
        if let Some(none) = outside(&prediction).first() {
            return Err(about(
                file,
                "",
                "a job outside what the model covers".to_owned(),
                none.reason.to_string(),
            ));
        }
        let measuring =
            given.measured.as_ref().map_or(given.shop.measuring, |(_, m)| m.measuring(given.shop.measuring));
        let judged = goals(&job, &measuring);
        let making = Making { web_cut: given.web_cut, flanges_preset: given.preset };
        let no_draw = |e: PlanFault| {
            about(file, "scatter", e.to_string(), "a job whose pieces can be drawn".to_owned())
        };
        let expected = expected(&job, &prediction, making, &judged, &own).map_err(no_draw)?;
        let family = |q| expected.iter().find(|e| e.quantity == q).map(|e| e.family);
        let [camber, sweep] = [given.front.camber_record, given.front.sweep_record];
        let records = Records {
            camber: camber.or_else(|| family(Quantity::Camber)),
            sweep: sweep.or_else(|| family(Quantity::Sweep)),
        };
        let recorded = [(Quantity::Camber, camber), (Quantity::Sweep, sweep)];
        keeps_off_the_member(&job, given)?;
        let (mut far, mut thermal_mm, mut odd, mut own_sag_mm) = (Vec::new(), None, Vec::new(), None);
        let mut piece = if let Some((_, measured)) = &given.measured {
            thermal_mm = measured.thermal_mm(&job);
            let piece = measured.piece(&job, &prediction, &given.shop)?;
            odd = measured.odd(&job, &prediction, given.shop.measuring).into_iter().map(|(q, _)| q).collect();
            own_sag_mm = measured.own_sag_mm(&job);
            piece
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
                stiffeners: given.front.stiffeners.clone(),
                records: Records::default(),
            }
        };
        piece.records = records;
        // what was welded does not change with a better word for its steel; what is pushed does
        if let Some(yield_mpa) = given.front.yield_mpa {
            job.member.steel.yield_mpa = yield_mpa;
        }
        let plan = piece.plan(&job.member);
        let mut asked = Self {
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
            odd,
            own_sag_mm,
            expected,
            recorded: recorded.into_iter().filter_map(|(q, family)| Some((q, family?))).collect(),
            far,
            piece,
            plan,
            logged: Vec::new(),
            hash: given.measured.as_ref().and_then(|(path, _)| fingerprint(path)),
            date: today(),
        };
        if let Some((path, log)) = &given.log {
            asked.logged = log::logged(&asked, path, log)?;
        }
        Ok(asked)
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
            odd_readings: self
                .odd
                .iter()
                .map(|q| format!("{}: {}; wanted: {}", q.path, q.found, q.wanted))
                .collect(),
            change_first: advice::change_first(self),
            summary: advice::summary(self),
            plan: &self.plan,
            push_log: &self.logged,
        }
    }
}

/// Fingerprint of a file, the first eight bytes of its SHA-256: a sheet is known to belong to its readings.
fn fingerprint(path: &Path) -> Option<String> {
    let bytes = std::fs::read(path).ok()?;
    Some(Sha256::digest(&bytes).iter().take(8).map(|byte| format!("{byte:02x}")).collect())
}

/// Today, or the day of SOURCE_DATE_EPOCH if that is set, so that a sheet can be made again to the letter.
fn today() -> String {
    let set = std::env::var("SOURCE_DATE_EPOCH").ok().and_then(|s| s.parse::<i64>().ok());
    let now =
        std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).map_or(0, |d| d.as_secs() as i64);
    chrono::DateTime::from_timestamp(set.unwrap_or(now), 0)
        .map_or(String::new(), |d| d.date_naive().to_string())
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
    #[serde(skip_serializing_if = "Vec::is_empty")]
    odd_readings: Vec<String>,
    change_first: Vec<String>,
    summary: String,
    plan: &'a Plan,
    #[serde(skip_serializing_if = "<[Logged]>::is_empty")]
    push_log: &'a [Logged],
}
