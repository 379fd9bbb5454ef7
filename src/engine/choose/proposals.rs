//! The short list: for each objective the best candidate that drawn pieces confirm, and options that are one said once.

use super::Objective;
use super::candidate::{Candidate, Effort, SearchSpace};
use super::choice::{Choosing, Weld, weld};
use super::score::{before, matters};
use super::search::{Scored, best};

/// Candidates drawn for the objective asked for, and for each of the others.
const MOST_TRIES: [usize; 2] = [12, 4];
/// How much of the way to certainty each failure adds to what the quick law has to promise: it is no more than that.
const GATE_STEP: f64 = 0.25;
/// Failures after which the expected sizes have to be smaller, too, and by how much each time: where the quick law is certain of
/// everything it no longer tells candidates apart.
const CERTAIN_AFTER: usize = 3;
const SMALLER: f64 = 0.97;
/// Part of arc time, time in all or metal that is no difference between two options (choice).
const SAME_EFFORT: f64 = 0.10;

/// What drawn pieces said of the candidates of one objective.
struct Failures {
    count: usize,
    /// Least share of the tightest tolerance that one of them used.
    used: f64,
}

impl Failures {
    /// Part of the pieces that the quick law must promise of the next.
    fn gate(&self, confidence: f64) -> f64 {
        let left = (1.0 - GATE_STEP).powi(i32::try_from(self.count).unwrap_or(i32::MAX));
        1.0 - left * (1.0 - confidence)
    }

    /// Share of the tightest tolerance that the next may use.
    fn most_used(&self) -> f64 {
        let times = self.count.saturating_sub(CERTAIN_AFTER);
        if times == 0 {
            f64::INFINITY
        } else {
            self.used * SMALLER.powi(i32::try_from(times).unwrap_or(i32::MAX))
        }
    }
}

/// The best of each objective, the one asked for first. If none is confirmed, the likeliest of those drawn.
pub fn proposals(with: &Choosing<'_>, ground: &SearchSpace<'_>, all: &[Scored]) -> Vec<Weld> {
    let wishes = with.wishes;
    let mut objectives = vec![wishes.objective];
    objectives.extend(Objective::ALL.into_iter().filter(|o| *o != wishes.objective));
    let mut out: Vec<Weld> = Vec::new();
    let mut failed: Vec<Weld> = Vec::new();
    for objective in objectives {
        let mut failures = Failures { count: 0, used: f64::INFINITY };
        let tries = MOST_TRIES[usize::from(objective != wishes.objective)];
        while failures.count < tries {
            let (gate, most_used) = (failures.gate(wishes.confidence), failures.most_used());
            let Some(next) = next(all, objective, gate, most_used, &failed) else { break };
            let known = out.iter_mut().find(|w| w.candidate.as_ref() == Some(&next.candidate));
            if let Some(known) = known {
                known.name = format!("{}, {}", known.name, objective.words());
                break;
            }
            let Some(found) = weld(with, ground, &next.candidate, objective.words()) else { break };
            if found.passes_all {
                match out.iter_mut().find(|known| as_good(known, &found, objective)) {
                    Some(known) => known.name = format!("{}, {}", known.name, objective.words()),
                    None => out.push(found),
                }
                break;
            }
            failures = Failures { count: failures.count + 1, used: failures.used.min(next.score.used) };
            failed.push(found);
        }
    }
    if out.is_empty() {
        let likeliest =
            failed.into_iter().reduce(|a, b| if b.pieces.inside > a.pieces.inside { b } else { a });
        let unlikely = || {
            let nearest = best(all, wishes.objective, wishes.confidence, 1);
            nearest.first().and_then(|s| weld(with, ground, &s.candidate, ""))
        };
        let nearest = likeliest.or_else(unlikely);
        out.extend(nearest.map(|weld| Weld { name: "nearest to feasible".to_owned(), ..weld }));
    }
    out
}

/// The best of those that promise enough and have not failed.
fn next(all: &[Scored], objective: Objective, gate: f64, most_used: f64, failed: &[Weld]) -> Option<Scored> {
    let tried = |candidate: &Candidate| failed.iter().any(|w| w.candidate.as_ref() == Some(candidate));
    let promises = |s: &&Scored| s.score.inside >= gate && s.score.used <= most_used && !tried(&s.candidate);
    let ranked = all.iter().filter(promises).map(|s| (s.score.rank(objective, gate), s));
    let first = ranked.reduce(|a, b| if before(&b.0, &a.0).is_lt() { b } else { a });
    first.map(|(_, scored)| scored.clone())
}

/// Whether an option that is known is as good as another by an objective: what lies between them is less than what the prediction is
/// unsure of, or less than a shop would notice.
fn as_good(known: &Weld, other: &Weld, objective: Objective) -> bool {
    let near = |of: fn(&Effort) -> f64| {
        let (known, other) = (of(&known.score.effort), of(&other.score.effort));
        known <= other * (1.0 + SAME_EFFORT) || known - other <= matters(objective)
    };
    match objective {
        Objective::LeastTime => near(|e| e.line_s),
        Objective::LeastArcTime => {
            near(|e| e.arc_s) || known.score.effort.arc_s - other.score.effort.arc_s <= 60.0
        }
        Objective::LeastMetal => near(|e| e.deposit_kg),
        Objective::BalancedCamber => {
            known.score.camber_mm - other.score.camber_mm <= known.camber_mm.1.max(other.camber_mm.1)
        }
        Objective::LeastDistortion => {
            let unsure =
                |w: &Weld| w.tightest.as_ref().map_or(0.0, |t| t.value_2s_mm / t.limit_mm.abs().max(1e-9));
            known.score.used - other.score.used <= unsure(known).max(unsure(other))
        }
    }
}
