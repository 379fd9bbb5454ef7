//! The short list: for each objective the best candidate that drawn pieces confirm, and options that are one said once.
//!
//! Which option to take: the present practice is one of them.
//!
//! The quick law, as drawn pieces correct it.
//!
//! The quick law takes sizes as normal and adds up the chances of missing: where sizes are skewed or hang together, drawn pieces say
//! otherwise. What they say of one candidate is true of its neighbours, too: for each quantity by how much its deviation is larger
//! than taken, and for all how much of the sum is left because the same pieces miss several.

use super::Objective;
use super::candidate::{CandidateCost, SearchSpace};
use super::constraints::Constraints;
use super::pieces::{DrawnChances, apart};
use super::score::{JUDGED, Rank, Score, Scored, before, matters};
use super::weld::{Choosing, Drawing, Weld, weld};
use crate::units::Message;
use crate::units::show::duration;
use statrs::function::erf::{erfc, erfc_inv};
use std::f64::consts::SQRT_2;

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
fn as_good(known: &Weld, other: &Weld, objective: Objective) -> bool {
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

/// Number of the option to take: the present practice (0) where it holds everything and nothing that was found is better in what is
/// made small by more than a shop would notice; else the first that was found. None where nothing holds.
pub(super) fn proposed(options: &[Weld], wishes: &Constraints) -> Option<usize> {
    let holds = |at: &usize| options.get(*at).is_some_and(|weld| weld.passes_all);
    match options {
        [today, found, ..] if today.passes_all && found.passes_all => {
            Some(usize::from(!as_good(today, found, wishes.objective)))
        }
        _ => [0, 1].into_iter().find(holds),
    }
}

/// Why that one: how the present practice compares.
pub(super) fn why(options: &[Weld], wishes: &Constraints, proposed: Option<usize>) -> Message {
    let Some(today) = options.first() else { return Message::from("") };
    let takes = |weld: &Weld| {
        let effort = &weld.score.effort;
        format!("{} in all, cost {:.0}", duration(effort.line_s), effort.cost)
    };
    let aim = wishes.objective.words();
    let practice = format!("Current practice ({})", takes(today));
    let fails = || format!("{practice} {}", fails(today, wishes));
    let said = match proposed.map(|number| (number, options.get(number))) {
        None if today.passes_all => "nothing: see below what stands in the way".to_owned(),
        None => format!("nothing, as nothing holds what is asked. {}", fails()),
        Some((0, _)) => {
            format!(
                "0. {practice} holds what is asked, and nothing found is better in {aim} by more than a shop would notice"
            )
        }
        Some((number, found)) => {
            let found = found.map_or_else(String::new, takes);
            let beside =
                if today.passes_all { format!("{practice} holds what is asked, too") } else { fails() };
            format!("{number} ({found}). {beside}")
        }
    };
    said.into()
}

/// What keeps the present practice from holding what is asked.
fn fails(today: &Weld, wishes: &Constraints) -> String {
    if !today.outside.is_empty() {
        return "lies outside what the model covers, see below".to_owned();
    }
    if !today.breaks.is_empty() {
        return "breaks a rule, see below".to_owned();
    }
    let (inside, error) = (100.0 * today.pieces.inside, 100.0 * today.pieces.standard_error);
    let asked = 100.0 * wishes.confidence;
    let said = if inside < 0.05 {
        "under 0.1 %".to_owned()
    } else {
        format!("{} ± {error:.1} %", apart(today.pieces.inside, wishes.confidence, 1))
    };
    let most = today.pieces.outside.iter().max_by(|a, b| a.1.total_cmp(b.1));
    let nearest = most.map_or_else(String::new, |(of, _)| {
        format!(", most of the others are out by {}", of.replace('_', " "))
    });
    // drawn pieces know a chance no better than its standard error
    let so_near = if inside + error >= asked {
        format!(
            "; the pieces drawn cannot tell the two apart, and `--confidence {:.2}` lets it pass",
            0.01 * inside.floor()
        )
    } else {
        String::new()
    };
    format!(
        "does not hold what is asked: {said} of its pieces are inside every limit, {asked:.0} % are asked for{nearest}{so_near}"
    )
}

/// The law: part of the distance to a limit, in deviations, that is left of each quantity, and of the sum of the chances.
#[derive(Debug, Clone, Copy, PartialEq)]
struct QuickLaw {
    left: [f64; JUDGED],
    together: f64,
}

/// Bounds of a correction (choice: beyond them one candidate says nothing of another).
const LEFT: (f64, f64) = (0.3, 1.5);
/// Chances below this are none.
const NONE: f64 = 1e-12;
/// Limits nearer than this to the expected size, in deviations, say nothing of the deviation.
const NEAR: f64 = 0.2;

impl QuickLaw {
    /// As it is.
    const PLAIN: Self = Self { left: [1.0; JUDGED], together: 1.0 };

    /// Chance to be inside every tolerance.
    fn inside(&self, score: &Score) -> f64 {
        (1.0 - self.together * self.missing(score).iter().sum::<f64>()).max(0.0)
    }

    fn missing(&self, score: &Score) -> [f64; JUDGED] {
        let mut out = score.missing;
        for (miss, left) in out.iter_mut().zip(self.left) {
            let plain = (left - 1.0).abs() < 1e-12;
            if !plain && *miss > NONE {
                *miss = beyond(left * deviations(*miss));
            }
        }
        out
    }

    /// What the pieces of a candidate say. The twist is not drawn, and stays as it is.
    fn corrected_by(score: &Score, pieces: &DrawnChances) -> Self {
        let mut law = Self::PLAIN;
        // none of so many is less than one
        let least = 0.5 / (pieces.drawn.max(1) as f64);
        for ((left, taken), drawn) in law.left.iter_mut().zip(score.missing).zip(pieces.out_of) {
            let taken = deviations(taken.max(NONE));
            if taken > NEAR {
                *left = (deviations(drawn.max(least)) / taken).clamp(LEFT.0, LEFT.1);
            }
        }
        let drawn: f64 = pieces.out_of.iter().sum();
        let any = 1.0 - pieces.inside;
        if drawn > 0.0 && any > 0.0 {
            law.together = (any / drawn).min(1.0);
        }
        law
    }
}

/// Deviations beyond which a chance lies.
fn deviations(chance: f64) -> f64 {
    SQRT_2 * erfc_inv(2.0 * chance.clamp(NONE, 1.0 - NONE))
}

/// Chance beyond so many deviations.
fn beyond(deviations: f64) -> f64 {
    0.5 * erfc(deviations / SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::CandidateCost;
    use crate::tolerance::Quantity;
    use std::collections::BTreeMap;

    fn score(missing: [f64; JUDGED]) -> Score {
        let inside = 1.0 - missing.iter().sum::<f64>();
        Score { inside, used: 0.5, camber_mm: 0.0, effort: CandidateCost::default(), missing }
    }

    fn pieces(out_of: [f64; Quantity::ALL.len()], any: f64) -> DrawnChances {
        DrawnChances {
            inside: 1.0 - any,
            standard_error: 0.01,
            drawn: 2000,
            outside: BTreeMap::new(),
            out_of,
        }
    }

    /// Normal tables (any textbook): 2.28 % lies beyond two deviations, 15.87 % beyond one.
    #[test]
    fn the_corrected_law_says_of_the_candidate_what_its_pieces_said() {
        let plain = score([0.0, 0.0, 0.022_75, 0.0, 0.022_75, 0.0, 0.0, 0.0, 0.0]);
        let drawn = pieces([0.0, 0.0, 0.158_66, 0.0, 0.158_66, 0.0, 0.0, 0.0], 0.2);
        let law = QuickLaw::corrected_by(&plain, &drawn);
        let got = law.inside(&plain);
        assert!((got - 0.8).abs() < 1e-4, "{got}, drawn 0.8, taken {}", plain.inside);
        // half of the distance is left: four deviations of a neighbour are two, and half of the sum is missed by the same pieces
        let neighbour = score([0.0, 0.0, 3.167e-5, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]);
        let (got, want) = (1.0 - law.inside(&neighbour), 0.022_75 * 0.2 / (2.0 * 0.158_66));
        assert!((got - want).abs() < 1e-4, "{got}, wanted {want}");
        assert!((QuickLaw::PLAIN.inside(&plain) - plain.inside).abs() < 1e-15);
    }
}
