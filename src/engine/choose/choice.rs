//! The answer: a short list of options, current practice first, and what governs each.

use super::book::{Costs, Setting};
use super::candidate::{Candidate, Effort, SearchSpace};
use super::front::{FrontPoint, cloud, front};
use super::pieces::{Pieces, until};
use super::practice;
use super::proposals::proposals;
use super::relaxation::{Relaxation, opened};
use super::requirement::{Governs, Requirements, Stretch, needs};
use super::scheme::ways;
use super::score::{Score, met, score, tightest, twist_inside};
use super::search::{Scored, search};
use super::{Book, ConstraintFault, Constraints};
use crate::job::file::JobFile;
use crate::member::Seam;
use crate::prediction::{Carries, Job, Prediction, predict};
use crate::tolerance::{Quantity, Trust};
use crate::units::Message;
use crate::welding::Side;
use serde::Serialize;

/// One pass of an option, and what makes its leg as large as it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChosenPass {
    /// Trip, from 1.
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
    pub setting: Option<Setting>,
    /// What governs the leg.
    pub governs: Governs,
}

impl ChosenPass {
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
    pub way: String,
    /// Whether to wait until cold between trips.
    pub cold: bool,
    /// Passes.
    pub passes: Vec<ChosenPass>,
    /// Quick score.
    pub score: Score,
    /// What drawn pieces say.
    pub pieces: Pieces,
    /// Whether at least the wished part of the pieces is inside and no rule is broken.
    pub passes_all: bool,
    /// What the record of the shop's pieces says of it, or why it does not; none without a record.
    pub learned: Option<Message>,
    /// Rules it breaks; only current practice can.
    pub breaks: Vec<Message>,
    /// Tolerance it comes nearest to; none if nothing is judged.
    pub tightest: Option<Tightest>,
    /// Camber and sweep with two standard deviations, shortening, mm.
    pub camber_mm: (f64, f64),
    /// Sweep.
    pub sweep_mm: (f64, f64),
    /// Largest flange toe offset with two standard deviations, mm.
    pub toe_mm: (f64, f64),
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

/// How much was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Counts {
    /// Candidates of the grid.
    pub grid: usize,
    /// Predicted in all, each once.
    pub screened: usize,
    /// Inside every tolerance by the quick law.
    pub inside: usize,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Choice {
    /// Title of the job.
    pub title: String,
    /// What was asked.
    pub wishes: Constraints,
    /// Code of the strength check.
    pub code: &'static str,
    /// What each stretch needs.
    pub stretches: Vec<Stretch>,
    /// Whether an option was found that passes everything.
    pub feasible: bool,
    /// What no weld can mend.
    pub blocks: Vec<Message>,
    /// What blocks, if nothing was found.
    pub limits: Vec<Message>,
    /// Options, current practice first, then the one asked for, then the others.
    pub options: Vec<Weld>,
    /// What would open it, if nothing was found.
    pub opened: Vec<Relaxation>,
    /// Arc time against distortion: nothing is better in both.
    pub front: Vec<FrontPoint>,
    /// A sample of everything screened: [arc s, share used, inside by the quick law].
    #[serde(skip)]
    pub cloud: Vec<(f64, f64, bool)>,
    /// How much was looked at.
    pub counts: Counts,
    /// What welding costs in this shop.
    pub costs: Costs,
    /// Procedures that no leg, plate or limit lets in.
    pub cautions: Vec<&'static str>,
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

/// Chooses. An infeasible problem is a result: [`Choice::feasible`] is false and [`Choice::opened`] says what would open it.
///
/// # Errors
/// Bounds that make no sense, and a job that does not say what the welds carry.
pub fn choose(with: &Choosing<'_>) -> Result<Choice, ConstraintFault> {
    let Choosing { job, book, wishes, .. } = *with;
    let carries = job.carries.as_ref().ok_or(ConstraintFault::NoDemand)?;
    let names: Vec<&str> = book.entries.iter().map(|e| e.name.as_str()).collect();
    wishes.check(!carries.both_sides_mm.is_empty(), &names)?;
    let Requirements { stretches, blocks: mut hard, strengths } = needs(job, carries, wishes);
    hard.extend(practice::line_blocks(job, &book.line));
    let ground =
        SearchSpace { job, book, stretches: &stretches, wishes, ways: ways(&book.line, &stretches, wishes) };
    let found = search(&ground);
    let inside = |s: &&Scored| s.score.inside >= wishes.confidence;
    let counts = Counts {
        grid: found.grid,
        screened: found.all.len(),
        inside: found.all.iter().filter(inside).count(),
    };
    let mut options = vec![current(with, carries, &stretches, &strengths)];
    let chosen = proposals(with, &ground, &found.all);
    let feasible = hard.is_empty() && chosen.iter().any(|w| w.passes_all);
    let limits =
        if feasible { Vec::new() } else { practice::why_nothing(&ground, &found.all, chosen.first()) };
    let opened = if feasible || !hard.is_empty() { Vec::new() } else { opened(with, chosen.first()) };
    options.extend(chosen);
    Ok(Choice {
        title: job.title.clone(),
        wishes: wishes.clone(),
        code: carries.code.name(),
        feasible,
        blocks: hard,
        limits,
        opened,
        front: front(&found.all, wishes.confidence),
        cloud: cloud(&found.all, wishes.confidence),
        counts,
        costs: book.costs.clone(),
        options,
        cautions: cautions(&stretches),
        stretches,
    })
}

/// Plates from which preheat is worth a word, mm (a choice: below it no usual steel asks for any).
const PREHEAT_SAID_MM: f64 = 15.0;

fn cautions(stretches: &[Stretch]) -> Vec<&'static str> {
    let thick = stretches.iter().any(|s| s.flange_mm.max(s.web_mm) >= PREHEAT_SAID_MM);
    CAUTIONS.iter().copied().chain(thick.then_some(PREHEAT)).collect()
}

/// Said where plates are thick.
const PREHEAT: &str = "Preheat is asked for by process, steel and thickness as in AWS D1.1:2015 Table 3.3 (second hand); EN 1011-2 goes by the \
                       composition on the plate's certificate, and may ask for more.";

/// Said with every choice.
const CAUTIONS: &[&str] = &[
    "Strength is checked here to choose a weld to study: demand, weld size and code are the licensed engineer's to decide.",
    "The book's ranges count only if the shop holds qualified procedures for them; test a macro section before use.",
    "Chances rest on judged spreads, not on measured members: weld one piece, measure it, compare.",
];

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
            let tight = own.map(|s| ground.need(way, s)).find(|n| n.leg_mm > pass.leg_mm - 1e-6);
            ChosenPass {
                order: pass.order,
                seam: pass.seam,
                side: pass.side,
                from_mm: pass.from_mm,
                to_mm: pass.to_mm,
                leg_mm: pass.leg_mm,
                heat_j_per_mm: pass.heat_j_per_mm,
                procedure: entry.map(|e| e.name.clone()),
                wps: pass.wps.as_deref().map(str::to_owned),
                setting,
                governs: tight.map_or_else(
                    || if ground.lays_less(candidate, pass) { Governs::Search } else { Governs::Process },
                    |n| n.governs.clone(),
                ),
            }
        })
        .collect();
    let mut weld = judged(with, job, effort, passes, Vec::new(), (way.twists, drawing));
    weld.way = way.words.clone();
    weld.cold = candidate.cold;
    weld.candidate = Some(candidate.clone());
    Some(weld)
}

/// The passes of the job as they are.
fn current(
    with: &Choosing<'_>,
    carries: &Carries,
    stretches: &[Stretch],
    strengths: &crate::strength::Strengths,
) -> Weld {
    let job = with.job.clone();
    let passes: Vec<ChosenPass> = job
        .passes
        .iter()
        .map(|pass| ChosenPass {
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
        })
        .collect();
    let breaks = practice::breaks(&job, with.file, carries, stretches, strengths);
    let effort = practice::effort(&job, with.file, with.book);
    let mut weld = judged(with, job, effort, passes, breaks, (false, Drawing::All));
    weld.name = "current practice".to_owned();
    weld.way = practice::words(&weld.job);
    weld
}

fn judged(
    with: &Choosing<'_>,
    job: Job,
    effort: Effort,
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
    let mut drawn = until(&job, &prediction.verdicts, &with.file.scatter, with.wishes, wanted);
    drawn.inside = (drawn.inside - turned).max(0.0);
    let toes =
        prediction.flanges.iter().flat_map(|f| [(f.near_toe_mm, f.toe_2s_mm), (f.far_toe_mm, f.toe_2s_mm)]);
    let verdicts = met(with.wishes, &prediction);
    let mut score = score(&job, with.wishes, &verdicts, prediction.camber.max_mm, effort);
    if twists {
        score.twisted(&job, &prediction.twist);
    }
    let tight = tightest(&verdicts).into_iter().min_by(|a, b| {
        super::inside(a).total_cmp(&super::inside(b)).then(super::used(b).total_cmp(&super::used(a)))
    });
    Weld {
        name: String::new(),
        way: String::new(),
        cold: false,
        learned: job.recorded_note().cloned(),
        passes_all: breaks.is_empty() && drawn.inside >= with.wishes.confidence,
        breaks,
        tightest: tight.map(|v| Tightest {
            quantity: v.quantity,
            value_mm: v.value,
            value_2s_mm: v.value_2s,
            limit_mm: v.limit,
            clause: format!("{} {}", v.standard, v.clause),
            trust: v.trust,
        }),
        camber_mm: (prediction.camber.max_mm, prediction.camber.max_2s_mm),
        sweep_mm: (prediction.sweep.max_mm, prediction.sweep.max_2s_mm),
        toe_mm: toes.max_by(|a, b| a.0.abs().total_cmp(&b.0.abs())).unwrap_or_default(),
        score,
        pieces: drawn,
        passes,
        candidate: None,
        job,
        prediction,
    }
}
