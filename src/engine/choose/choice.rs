//! The answer: a short list of options, current practice first, and what governs each.

use super::book::Costs;
use super::candidate::SearchSpace;
use super::effort::{assumed, effort};
use super::front::{FrontPoint, cloud, front};
use super::known::Scored;
use super::proposals::proposals;
use super::proposed::{proposed, why};
use super::qualified::unqualified;
use super::relaxation::{Relaxation, relaxations};
use super::requirement::{Requirements, Stretch, needs};
use super::search::search;
use super::weld::{Choosing, ChosenPass, Drawing, Weld, judged};
use super::{ConstraintFault, Constraints, practice};
use crate::prediction::{Carries, bare_ends};
use crate::units::Message;
use serde::Serialize;

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
    /// Whether an option passes everything, current practice or one that was found.
    pub feasible: bool,
    /// What no weld can mend.
    pub blocks: Vec<Message>,
    /// What blocks the search, if it found nothing.
    pub limits: Vec<Message>,
    /// Options, current practice first, then the one asked for, then the others.
    pub options: Vec<Weld>,
    /// Number of the option to take, current practice among them; none if nothing passes everything.
    pub proposed: Option<usize>,
    /// Why that one, and how current practice compares.
    pub why: Message,
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

/// Chooses. An infeasible problem is a result: [`Choice::feasible`] is false and [`Choice::opened`] says what would open it.
///
/// # Errors
/// Bounds that make no sense, and a job that does not say what the welds carry.
pub fn choose(with: &Choosing<'_>) -> Result<Choice, ConstraintFault> {
    let Choosing { job, book, wishes, .. } = *with;
    let carries = job.carries.as_ref().ok_or(ConstraintFault::NoDemand { units: job.units })?;
    let names: Vec<&str> = book.entries.iter().map(|e| e.name.as_str()).collect();
    wishes.check(!carries.both_sides_mm.is_empty(), &names)?;
    let needed = needs(job, carries, wishes);
    let today = current(with, carries, &needed);
    let Requirements { stretches, blocks: mut hard, .. } = needed;
    hard.extend(practice::line_blocks(job, &book.line));
    let ground = SearchSpace::new(job, book, &stretches, wishes);
    let found = search(&ground);
    let inside = |s: &&Scored| s.score.inside >= wishes.confidence;
    let counts = Counts {
        grid: found.grid,
        screened: found.all.len(),
        inside: found.all.iter().filter(inside).count(),
    };
    let mut options = vec![today];
    let chosen = proposals(with, &ground, &found.all);
    let found_one = hard.is_empty() && chosen.iter().any(|w| w.passes_all);
    let limits =
        if found_one { Vec::new() } else { practice::why_nothing(&ground, &found.all, chosen.first()) };
    let feasible = found_one || (hard.is_empty() && options.iter().any(|w| w.passes_all));
    let opened = if feasible || !hard.is_empty() { Vec::new() } else { relaxations(with, chosen.first()) };
    options.extend(chosen);
    let proposed = if hard.is_empty() { proposed(&options, wishes) } else { None };
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
        why: why(&options, wishes, proposed),
        proposed,
        cautions: cautions(&stretches, &options),
        options,
        stretches,
    })
}

/// Plates from which preheat is worth a word, mm (a choice: below it no usual steel asks for any).
const PREHEAT_SAID_MM: f64 = 15.0;

fn cautions(stretches: &[Stretch], options: &[Weld]) -> Vec<&'static str> {
    let thick = stretches.iter().any(|s| s.flange_mm.max(s.web_mm) >= PREHEAT_SAID_MM);
    let ends = options.iter().find_map(|weld| bare_ends(&weld.job));
    CAUTIONS.iter().copied().chain(thick.then_some(PREHEAT)).chain(ends).collect()
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

/// The passes of the job as they are.
fn current(with: &Choosing<'_>, carries: &Carries, needed: &Requirements) -> Weld {
    let job = with.job.clone();
    let passes: Vec<ChosenPass> = job.passes.iter().map(ChosenPass::laid).collect();
    let mut breaks = practice::breaks(&job, with.file, carries, needed);
    breaks.extend(unqualified(with.file, with.book));
    let effort = effort(&job, with.file, with.book);
    let mut weld = judged(with, job, effort, passes, breaks, (false, Drawing::All));
    weld.name = "current practice".to_owned();
    weld.way = practice::words(&weld.job, with.file);
    weld.assumed = assumed(&weld.job, &with.book.line);
    weld
}
