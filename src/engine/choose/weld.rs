//! One option: a job with its passes, what makes them as large as they are, its prediction and its chances.

use super::book::ArcSetting;
use super::candidate::{Candidate, CandidateCost, SearchSpace};
use super::pieces::{DrawnChances, until};
use super::requirement::Governs;
use super::score::{Score, met, score, tightest, twist_inside};
use super::{Book, Constraints};
use crate::job::file::JobFile;
use crate::member::Seam;
use crate::prediction::{Job, Prediction, Warning, WarningCode, outside, predict};
use crate::tolerance::{Band, Quantity, Trust};
use crate::units::Message;
use crate::welding::{Pass, Side};
use serde::Serialize;

/// One pass of an option, and what makes its leg as large as it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChosenPass {
    /// Run through the line, from 1.
    pub order: u32,
    /// Seam.
    pub seam: Seam,
    /// Side.
    pub side: Side,
    /// Start, mm.
    pub from_mm: f64,
    /// End, mm.
    pub to_mm: f64,
    /// Leg, mm.
    pub leg_mm: f64,
    /// Net heat, J/mm.
    pub heat_j_per_mm: f64,
    /// Procedure of the book; none in current practice.
    pub procedure: Option<String>,
    /// Number of its welding procedure specification, where one is named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wps: Option<String>,
    /// Setting; none in current practice.
    pub setting: Option<ArcSetting>,
    /// What governs the leg.
    pub governs: Governs,
}

impl ChosenPass {
    /// A pass as it is laid: of no procedure of the book, its leg as found.
    pub(super) fn laid(pass: &Pass) -> Self {
        Self {
            order: pass.order,
            seam: pass.seam,
            side: pass.side,
            from_mm: pass.from_mm,
            to_mm: pass.to_mm,
            leg_mm: pass.leg_mm,
            heat_j_per_mm: pass.heat_j_per_mm,
            procedure: None,
            wps: pass.wps.as_deref().map(str::to_owned),
            setting: None,
            governs: Governs::Search,
        }
    }

    /// Its procedure with the number of its specification: "twin-1.6 (W-12)".
    pub fn procedure_said(&self) -> String {
        let name = self.procedure.as_deref().unwrap_or_default();
        self.wps.as_ref().map_or_else(|| name.to_owned(), |wps| format!("{name} ({wps})"))
    }
}

/// The tolerance an option comes nearest to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tightest {
    /// What is limited.
    pub quantity: Quantity,
    /// Predicted size, mm.
    pub value_mm: f64,
    /// Two standard deviations, mm.
    pub value_2s_mm: f64,
    /// Limit, mm.
    pub limit_mm: f64,
    /// Allowed to either side, mm.
    #[serde(skip)]
    pub band: Band,
    /// Standard and clause.
    pub clause: String,
    /// How the limit is known.
    pub trust: Trust,
}

/// One option.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Weld {
    /// "current practice", or what it is best in.
    pub name: String,
    /// How it is laid, in words.
    pub way: Message,
    /// Whether to wait until cold between trips.
    pub cold: bool,
    /// Passes.
    pub passes: Vec<ChosenPass>,
    /// Quick score.
    pub score: Score,
    /// What drawn pieces say.
    pub pieces: DrawnChances,
    /// Whether at least the wished part of the pieces is inside and no rule is broken.
    pub passes_all: bool,
    /// What the record of the shop's pieces says of it, or why it does not; none without a record.
    pub learned: Option<Message>,
    /// What its times rest on beside procedures; only current practice may have any without.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumed: Option<Message>,
    /// Rules it breaks; only current practice can.
    pub breaks: Vec<Message>,
    /// Where it may burn through.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Message>,
    /// Tolerance it comes nearest to; none if nothing is judged.
    pub tightest: Option<Tightest>,
    /// Why it has no chances and sizes: it lies outside what the model covers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub outside: Vec<Message>,
    /// Camber with two standard deviations, mm; none outside the model.
    pub camber_mm: Option<(f64, f64)>,
    /// Sweep.
    pub sweep_mm: Option<(f64, f64)>,
    /// Largest flange toe offset with two standard deviations, mm.
    pub toe_mm: Option<(f64, f64)>,
    /// The candidate; none for current practice.
    #[serde(skip)]
    pub candidate: Option<Candidate>,
    /// The job with its passes.
    #[serde(skip)]
    pub job: Job,
    /// Its prediction.
    #[serde(skip)]
    pub prediction: Prediction,
}

/// What a choice is made from.
#[derive(Debug, Clone, Copy)]
pub struct Choosing<'a> {
    /// The job with the passes laid today.
    pub job: &'a Job,
    /// Its file: the shop's own deviations, and the speeds of its procedures.
    pub file: &'a JobFile,
    /// Shop book.
    pub book: &'a Book,
    /// What is asked.
    pub wishes: &'a Constraints,
}

/// How far the pieces of an option are drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Drawing {
    /// All of them.
    All,
    /// Until it is known that the confidence is not reached.
    Enough,
}

/// A candidate as an option.
pub(super) fn weld(
    with: &Choosing<'_>,
    ground: &SearchSpace<'_>,
    candidate: &Candidate,
    drawing: Drawing,
) -> Option<Weld> {
    let way = ground.ways.get(candidate.way)?;
    let mut job = Job { notes: Vec::new(), ..with.job.clone() };
    let effort = ground.lay(candidate, &mut job)?;
    let passes = job
        .passes
        .iter()
        .map(|pass| {
            let trip = candidate.trips.get(pass.order as usize - 1);
            let entry = trip.and_then(|t| with.book.entries.get(t.entry));
            let setting = trip.and_then(|t| ground.setting(t, pass.leg_mm));
            let own = ground
                .stretches
                .iter()
                .filter(|s| s.seam == pass.seam && s.from_mm < pass.to_mm && s.to_mm > pass.from_mm);
            let tight = own.map(|s| ground.requirement(way, s)).find(|n| n.leg_mm > pass.leg_mm - 1e-6);
            ChosenPass {
                procedure: entry.map(|e| e.name.clone()),
                setting,
                governs: tight.map_or_else(
                    || if ground.lays_less(candidate, pass) { Governs::Search } else { Governs::Process },
                    |n| n.governs.clone(),
                ),
                ..ChosenPass::laid(pass)
            }
        })
        .collect();
    let mut weld = judged(with, job, effort, passes, Vec::new(), (way.twists, drawing));
    weld.way = way.said();
    weld.cold = candidate.cold;
    weld.candidate = Some(candidate.clone());
    Some(weld)
}

/// An option: a job with its passes, predicted and drawn.
pub(super) fn judged(
    with: &Choosing<'_>,
    job: Job,
    effort: CandidateCost,
    passes: Vec<ChosenPass>,
    breaks: Vec<Message>,
    (twists, drawing): (bool, Drawing),
) -> Weld {
    let prediction = predict(&job);
    let turned = if twists { 1.0 - twist_inside(&job, &prediction.twist).0 } else { 0.0 };
    let wanted = match drawing {
        Drawing::All => f64::NEG_INFINITY,
        Drawing::Enough => with.wishes.confidence + turned,
    };
    let outside: Vec<Message> = outside(&prediction).into_iter().map(|one| one.reason).collect();
    let shown = outside.is_empty();
    let mut drawn =
        if shown { until(&job, &prediction.verdicts, with.wishes, wanted) } else { DrawnChances::none() };
    drawn.inside = (drawn.inside - turned).max(0.0);
    let toes =
        prediction.flanges.iter().flat_map(|f| [(f.near_toe_mm, f.toe_2s_mm), (f.far_toe_mm, f.toe_2s_mm)]);
    let verdicts = met(with.wishes, &prediction);
    let mut score = score(&job, with.wishes, &verdicts, prediction.camber.max_mm, effort);
    if twists {
        score.twisted(&job, &prediction.twist);
    }
    if !shown {
        score = score.outside_the_model();
    }
    let tight = tightest(&verdicts).into_iter().min_by(|a, b| {
        super::inside(a).total_cmp(&super::inside(b)).then(super::used(b).total_cmp(&super::used(a)))
    });
    let burns = |w: &&Warning| matches!(w.code, WarningCode::CupUncertain | WarningCode::LegLarge);
    Weld {
        cautions: prediction.warnings.iter().filter(burns).map(|w| w.text.clone()).collect(),
        name: String::new(),
        way: Message::from(""),
        cold: false,
        learned: job.recorded_note().cloned(),
        assumed: None,
        passes_all: shown && breaks.is_empty() && drawn.inside >= with.wishes.confidence,
        breaks,
        tightest: tight.filter(|_| shown).map(|v| Tightest {
            quantity: v.quantity,
            value_mm: v.value,
            value_2s_mm: v.value_2s,
            limit_mm: v.limit,
            band: v.band,
            clause: format!("{} {}", v.standard, v.clause),
            trust: v.trust,
        }),
        camber_mm: shown.then_some((prediction.camber.max_mm, prediction.camber.max_2s_mm)),
        sweep_mm: shown.then_some((prediction.sweep.max_mm, prediction.sweep.max_2s_mm)),
        toe_mm: toes.max_by(|a, b| a.0.abs().total_cmp(&b.0.abs())).filter(|_| shown),
        outside,
        score,
        pieces: drawn,
        passes,
        candidate: None,
        job,
        prediction,
    }
}
