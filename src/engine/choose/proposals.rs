//! The short list: for each objective the best candidate that drawn pieces confirm, and options that are one said once.

use super::Objective;
use super::candidate::{CandidateCost, SearchSpace};
use super::known::Scored;
use super::law::QuickLaw;
use super::score::{Rank, before, matters};
use super::weld::{Choosing, Drawing, Weld, weld};

/// Candidates drawn for the objective asked for, and for each of the others.
const MOST_TRIES: [usize; 2] = [12, 4];
/// How much of the way to certainty each failure adds to what the corrected law has to promise.
const GATE_STEP: f64 = 0.1;
/// Part of arc time, time in all, money or metal that is no difference between two options (choice).
const SAME_EFFORT: f64 = 0.10;

/// What was drawn so far.
struct Drawn<'a> {
    with: &'a Choosing<'a>,
    ground: &'a SearchSpace<'a>,
    all: &'a [Scored],
    /// Candidates by number, with the option that each makes.
    held: Vec<(usize, Weld)>,
    /// Candidates by number, with the part of their pieces inside.
    failed: Vec<(usize, f64)>,
    /// The quick law as the last of them corrects it.
    law: QuickLaw,
}

/// The best of each objective, the one asked for first. If none is confirmed, the likeliest of those drawn.
pub(crate) fn proposals(with: &Choosing<'_>, ground: &SearchSpace<'_>, all: &[Scored]) -> Vec<Weld> {
    let asked = with.wishes.objective;
    let (held, failed) = (Vec::new(), Vec::new());
    let mut drawn = Drawn { with, ground, all, held, failed, law: QuickLaw::PLAIN };
    drawn.look(asked, MOST_TRIES[0]);
    // where the least distorted holds nothing, no other does
    drawn.look(Objective::LeastDistortion, MOST_TRIES[1]);
    if drawn.held.is_empty() {
        return drawn.nearest().into_iter().collect();
    }
    let others = Objective::ALL.into_iter().filter(|o| *o != asked);
    for objective in others.clone().filter(|o| *o != Objective::LeastDistortion) {
        drawn.look(objective, MOST_TRIES[1]);
    }
    drawn.list(std::iter::once(asked).chain(others))
}

impl Drawn<'_> {
    /// Draws the pieces of what promises most by an objective, until nothing better is promised.
    fn look(&mut self, objective: Objective, tries: usize) {
        let confidence = self.with.wishes.confidence;
        let mut failures = 0;
        for _ in 0..tries {
            let gate = confidence + GATE_STEP * f64::from(failures) * (1.0 - confidence);
            let Some(at) = self.promising(objective, gate.min(1.0)).or_else(|| self.first_of_all()) else {
                return;
            };
            let Some(scored) = self.all.get(at) else { return };
            let Some(found) = weld(self.with, self.ground, &scored.candidate, Drawing::Enough) else {
                return;
            };
            self.law = QuickLaw::corrected_by(&scored.score, &found.pieces);
            if found.passes_all {
                self.held.push((at, found));
            } else {
                failures += 1;
                self.failed.push((at, found.pieces.inside));
            }
        }
    }

    /// The best by an objective of what promises enough, if it is better than all that is held already.
    fn promising(&self, objective: Objective, gate: f64) -> Option<usize> {
        let held = self.held.iter().map(|(_, w)| w.score.rank_inside(objective));
        let mut best: Option<Rank> = held.reduce(|a, b| if before(&b, &a).is_lt() { b } else { a });
        let mut found = None;
        for (at, scored) in self.all.iter().enumerate() {
            let rank = scored.score.rank_inside(objective);
            let better = best.as_ref().is_none_or(|best| before(&rank, best).is_lt());
            let new = || self.failed.iter().all(|f| f.0 != at);
            if better && new() && self.law.inside(&scored.score) >= gate {
                (best, found) = (Some(rank), Some(at));
            }
        }
        found
    }

    /// The likeliest where nothing promises enough and nothing was drawn yet: its pieces correct the law.
    fn first_of_all(&self) -> Option<usize> {
        let of = |s: &Scored| ((self.law.inside(&s.score) * 1e3).round(), -s.score.used);
        let likeliest = self.all.iter().enumerate().map(|(at, s)| (at, of(s))).reduce(|a, b| {
            let order = b.1.0.total_cmp(&a.1.0).then(b.1.1.total_cmp(&a.1.1));
            if order.is_gt() { b } else { a }
        });
        likeliest.map(|found| found.0).filter(|_| self.held.is_empty() && self.failed.is_empty())
    }

    /// The likeliest of what was drawn.
    fn nearest(&self) -> Option<Weld> {
        let likeliest = self.failed.iter().reduce(|a, b| if b.1 > a.1 { b } else { a })?;
        let weld = weld(self.with, self.ground, &self.all.get(likeliest.0)?.candidate, Drawing::All)?;
        Some(Weld { name: "nearest to feasible".to_owned(), ..weld })
    }

    /// The best of each objective of what is held, one that is as good said once.
    fn list(self, objectives: impl Iterator<Item = Objective>) -> Vec<Weld> {
        let mut out: Vec<Weld> = Vec::new();
        for objective in objectives {
            let ranked = self.held.iter().map(|(_, w)| (w.score.rank_inside(objective), w));
            let best = ranked.reduce(|a, b| if before(&b.0, &a.0).is_lt() { b } else { a });
            let Some((_, best)) = best else { continue };
            match out.iter_mut().find(|known| as_good(known, best, objective)) {
                Some(known) => known.name = format!("{}, {}", known.name, objective.words()),
                None => out.push(Weld { name: objective.words().to_owned(), ..best.clone() }),
            }
        }
        if let [only] = out.as_mut_slice() {
            "best by every aim".clone_into(&mut only.name);
        }
        out
    }
}

/// Whether an option that is known is as good as another by an objective: what lies between them is less than what the prediction is
/// unsure of, or less than a shop would notice.
pub(super) fn as_good(known: &Weld, other: &Weld, objective: Objective) -> bool {
    let near = |of: fn(&CandidateCost) -> f64| {
        let (known, other) = (of(&known.score.effort), of(&other.score.effort));
        known <= other * (1.0 + SAME_EFFORT) || known - other <= matters(objective)
    };
    match objective {
        Objective::LeastTime => near(|e| e.line_s),
        Objective::LeastCost => near(|e| e.crew_s),
        Objective::LeastArcTime => {
            near(|e| e.arc_s) || known.score.effort.arc_s - other.score.effort.arc_s <= 60.0
        }
        Objective::LeastMetal => near(|e| e.deposit_kg),
        Objective::BalancedCamber => {
            let unsure = |w: &Weld| w.camber_mm.map_or(0.0, |camber| camber.1);
            known.score.camber_mm - other.score.camber_mm <= unsure(known).max(unsure(other))
        }
        Objective::LeastDistortion => {
            let unsure =
                |w: &Weld| w.tightest.as_ref().map_or(0.0, |t| t.value_2s_mm / t.limit_mm.abs().max(1e-9));
            known.score.used - other.score.used <= unsure(known).max(unsure(other))
        }
    }
}
