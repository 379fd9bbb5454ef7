//! How good a candidate is: its share of the tolerances, and how likely it is inside them, by a quick normal law.
//!
//! The law takes each predicted size as normal with the prediction's own deviation, and adds up the chances of missing
//! over the quantities judged: a bound from below on being inside all of them, whatever they have in common (Boole).
//! Where several standards limit one quantity the tightest counts. Drawn pieces decide about what is shown.

use super::candidate::{Candidate, CandidateCost, SearchSpace};
use super::constraints::{Constraints, Objective};
use crate::prediction::uncertainty::SPAN;
use crate::prediction::{Job, Prediction, Twist, Wanted, outside, predict_only};
use crate::tolerance::{Quantities, Quantity, Verdict};
use statrs::function::erf::erfc;
use std::cmp::Ordering;

/// Score of one candidate.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Score {
    /// Chance to be inside every tolerance, at least, by the quick law.
    pub inside: f64,
    /// Largest share of a tolerance that is used, 1 at the limit.
    pub used: f64,
    /// Camber off the wanted one, mm, without sign.
    pub camber_mm: f64,
    /// Time, metal and money.
    pub effort: CandidateCost,
    /// Chance to miss each quantity of [`Quantity::ALL`], and the twist behind them, by the same law.
    #[serde(skip)]
    pub missing: [f64; JUDGED],
}

/// What is judged: the quantities of the verdicts, and the twist.
pub(crate) const JUDGED: usize = Quantity::ALL.len() + 1;

impl Score {
    /// What an objective makes small, and what decides between equals.
    pub const fn key(&self, objective: Objective) -> (f64, f64) {
        match objective {
            Objective::LeastTime => (self.effort.line_s, self.used),
            Objective::LeastCost => (self.effort.crew_s, self.used),
            Objective::LeastDistortion => (self.used, self.effort.arc_s),
            Objective::LeastArcTime => (self.effort.arc_s, self.used),
            Objective::LeastMetal => (self.effort.deposit_kg, self.used),
            Objective::BalancedCamber => (self.camber_mm, self.used),
        }
    }

    /// Place in the order of an objective, lower first: inside at that confidence before outside, then by objective;
    /// among those outside the likelier first. Objectives are compared in steps that matter in a shop ([`matters`]), so
    /// that of two equals the simpler wins: the one that goes straight on, then the one with fewer changes of setting and procedure,
    /// then with fewer settings, then the one farther from the edge of what is qualified.
    pub(crate) fn rank(&self, objective: Objective, confidence: f64) -> Rank {
        if self.inside >= confidence {
            return self.rank_inside(objective);
        }
        let miss = ((1.0 - self.inside) / CHANCE_MATTERS).round();
        let used = (self.used / CHANCE_MATTERS).round();
        [1.0, miss, used, 0.0, 0.0, 0.0, 0.0, rounded(self.key(objective).1)]
    }

    /// The place of one that is inside: what may burn through comes last, whatever it saves.
    pub(crate) fn rank_inside(&self, objective: Objective) -> Rank {
        let (first, second) = self.key(objective);
        let CandidateCost { waits, changes, settings, edge, burns, .. } = self.effort;
        let first = (first / matters(objective)).round();
        let [waits, changes, settings] = [waits, changes, settings].map(f64::from);
        [
            0.0,
            f64::from(burns),
            first,
            waits,
            changes,
            settings,
            (edge / EDGE_MATTERS).round(),
            rounded(second),
        ]
    }

    /// Whether this comes before another in the order of an objective.
    pub(crate) fn better(&self, other: &Self, objective: Objective, confidence: f64) -> bool {
        before(&self.rank(objective, confidence), &other.rank(objective, confidence)).is_lt()
    }

    /// Of a prediction that says nothing: nothing is inside, and no tolerance holds it.
    pub(crate) const fn outside_the_model(self) -> Self {
        Self { inside: 0.0, used: f64::INFINITY, camber_mm: f64::INFINITY, missing: [1.0; JUDGED], ..self }
    }

    /// With the twist judged beside what the verdicts judge.
    pub(crate) fn twisted(&mut self, job: &Job, twist: &Twist) {
        let (inside, used) = twist_inside(job, twist);
        self.inside = (self.inside - (1.0 - inside)).max(0.0);
        self.missing[JUDGED - 1] = 1.0 - inside;
        self.used = self.used.max(used);
    }
}

/// Numbers that order candidates, the first that differs decides.
pub(crate) type Rank = [f64; 8];

/// Distances from the edge of a range closer than this are the same (choice).
const EDGE_MATTERS: f64 = 0.1;

/// Chances and shares closer than this are the same (choice).
const CHANCE_MATTERS: f64 = 0.01;

/// Differences of an objective that matter in a shop (choice): a minute in all, the money for a minute, half a percent of a tolerance,
/// 2 s of arc, 10 g, 0.05 mm.
pub const fn matters(objective: Objective) -> f64 {
    match objective {
        Objective::LeastTime | Objective::LeastCost => 60.0,
        Objective::LeastDistortion => 0.005,
        Objective::LeastArcTime => 2.0,
        Objective::LeastMetal => 0.01,
        Objective::BalancedCamber => 0.05,
    }
}

/// Without the dust of rounding, so that equals are equal.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round()
}

/// Order of two ranks.
pub(crate) fn before(a: &Rank, b: &Rank) -> Ordering {
    a.iter().zip(b).map(|(x, y)| x.total_cmp(y)).find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
}

/// Chance that a normal size of that deviation lies inside the band of a verdict.
pub(crate) fn inside(verdict: &Verdict) -> f64 {
    let sigma = verdict.value_2s / SPAN;
    let (low, high) = (-verdict.band.less_mm - verdict.value, verdict.band.more_mm - verdict.value);
    if sigma <= 0.0 {
        return if low <= 0.0 && high >= 0.0 { 1.0 } else { 0.0 };
    }
    let below = |x: f64| 0.5 * erfc(-x / (sigma * std::f64::consts::SQRT_2));
    (below(high) - below(low)).max(0.0)
}

/// Share of its tolerance that a verdict uses, from the middle of the band; 1 at an edge.
pub(crate) fn used(verdict: &Verdict) -> f64 {
    (verdict.value - verdict.band.middle_mm()).abs() / verdict.band.half_mm().max(1e-9)
}

/// The tightest verdict of each quantity, by chance.
pub(crate) fn tightest(verdicts: &[Verdict]) -> Vec<&Verdict> {
    let of = |quantity: Quantity| {
        let all = verdicts.iter().filter(move |v| v.quantity == quantity);
        all.min_by(|a, b| inside(a).total_cmp(&inside(b)).then(used(b).total_cmp(&used(a))))
    };
    Quantity::ALL.into_iter().filter_map(of).collect()
}

/// Verdicts with what the shop makes up for taken out.
pub(crate) fn met(wishes: &Constraints, prediction: &Prediction) -> Vec<Verdict> {
    made_up(wishes, prediction.verdicts.clone())
}

fn made_up(wishes: &Constraints, mut verdicts: Vec<Verdict>) -> Vec<Verdict> {
    verdicts.iter_mut().for_each(|v| v.value = wishes.met(v));
    verdicts
}

/// Score of a prediction with that camber (mm), with the verdicts as the shop meets them.
pub fn score(
    job: &Job,
    wishes: &Constraints,
    verdicts: &[Verdict],
    camber_mm: f64,
    effort: CandidateCost,
) -> Score {
    let mut missing = [0.0; JUDGED];
    for (slot, quantity) in missing.iter_mut().zip(Quantity::ALL) {
        let of = verdicts.iter().filter(|v| v.quantity == quantity);
        *slot = of.map(|v| 1.0 - inside(v)).fold(0.0, f64::max);
    }
    let camber = || verdicts.iter().filter(|v| v.quantity == Quantity::Camber);
    let cut_to_it = camber().next().is_some() && wishes.allow.iter().any(|a| a.takes(Quantity::Camber));
    let off = match (cut_to_it, job.wanted_camber) {
        (true, _) => 0.0,
        (_, Some(_)) => camber().map(|v| v.value.abs()).fold(0.0, f64::max),
        (_, None) => camber_mm.abs(),
    };
    Score {
        inside: (1.0 - missing.iter().sum::<f64>()).max(0.0),
        used: verdicts.iter().map(used).fold(0.0, f64::max),
        camber_mm: off,
        effort,
        missing,
    }
}

/// Lays a candidate into `job` and scores it; `None` if it cannot be laid, or the model says nothing of it.
pub fn screened(ground: &SearchSpace<'_>, candidate: &Candidate, job: &mut Job) -> Option<Score> {
    let effort = ground.lay(candidate, job)?;
    let twists = ground.ways.get(candidate.way).is_some_and(|way| way.twists);
    let wanted = Wanted { spreads: true, verdicts: Quantities::ALL, twist: twists, ..Wanted::default() };
    let p = predict_only(job, &wanted);
    if !outside(&p).is_empty() {
        return None;
    }
    let mut score = score(job, ground.wishes, &made_up(ground.wishes, p.verdicts), p.camber.max_mm, effort);
    // where seams lie on both sides; elsewhere the twist is judged, if at all, by a limit of the job
    if twists {
        score.twisted(job, &p.twist);
    }
    Some(score)
}

/// Twist allowed over the depth of the web, and at most, mm: GB 50205 for welded H-members (second hand). No American or European
/// limit with a plain reading is known, so it is the guide for all (choice).
const TWIST: (f64, f64) = (1.0 / 250.0, 5.0);

/// Chance that the twist of a member is inside the guide, and the share of it that the expected twist uses, by a normal law.
pub(crate) fn twist_inside(job: &Job, twist: &Twist) -> (f64, f64) {
    let depth_mm = job.member.depth.deepest_mm();
    let limit_mm = (TWIST.0 * depth_mm).min(TWIST.1);
    let (value, sigma) = (twist.max_rad.abs() * depth_mm, twist.max_2s_rad * depth_mm / SPAN);
    let below = |x: f64| 0.5 * erfc(-x / (sigma.max(1e-9) * std::f64::consts::SQRT_2));
    ((below(limit_mm - value) - below(-limit_mm - value)).max(0.0), value / limit_mm)
}
