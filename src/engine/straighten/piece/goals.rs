//! From the tolerances a job names to the limits a piece is straightened to.

use super::measuring::Measuring;
use crate::member::Seam;
use crate::prediction::Job;
use crate::straighten::decide::Limits;
use crate::straighten::plan::Goals;
use crate::tolerance::{Band, Facts, Quantity, Trust};
use serde::Serialize;

/// The limit that rules one quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Named {
    /// What it limits.
    pub quantity: Quantity,
    /// Allowed below, mm, without sign (camber: toward the outer flange).
    pub less_mm: f64,
    /// Allowed above, mm.
    pub more_mm: f64,
    /// Standard, or "own limit".
    pub standard: &'static str,
    /// Clause.
    pub clause: &'static str,
    /// Rule in words.
    pub rule: &'static str,
    /// How the limit is known.
    pub trust: Trust,
}

/// Limits of a piece and the clauses behind them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Judged {
    /// The limits.
    pub goals: Goals,
    /// The strictest limit of each quantity.
    pub named: Vec<Named>,
}

/// The strictest limits of all sets a job names and of its own, for camber, sweep and flange toes.
///
/// Limits that depend on the flange width take the width they are strictest for. A limit on a wanted camber that
/// changes along the member is taken at mid-length, where it is inspected; it is about the wanted camber, and turned
/// to the sign of camber (+ toward the inner flange). A quantity that nothing limits gets no limit.
pub fn goals(job: &Job, measuring: &Measuring) -> Judged {
    let mut named = Vec::new();
    let mut limits = |quantity: Quantity, measuring_sd: f64| {
        let Some(found) = strictest(job, quantity) else { return Limits::NONE };
        let limits = Limits { lowest: -found.less_mm, highest: found.more_mm, measuring_sd };
        named.push(found);
        limits
    };
    let goals = Goals {
        toe: limits(Quantity::FlangeToe, measuring.toe_mm),
        cup: limits(Quantity::FlangeCup, measuring.toe_mm),
        tilt: limits(Quantity::FlangeTilt, measuring.toe_mm),
        sweep: limits(Quantity::Sweep, measuring.sweep_mm),
        camber: limits(Quantity::Camber, measuring.camber_mm),
    };
    Judged { goals, named }
}

fn strictest(job: &Job, quantity: Quantity) -> Option<Named> {
    let length_mm = job.member.length_mm;
    let mut best: Option<Named> = None;
    let mut add = |band: Band, standard, clause, rule, trust| {
        // camber of a member bowed toward its outer flange counts the other way
        let turned =
            quantity == Quantity::Camber && job.wanted_camber.is_some_and(|w| w.toward == Seam::Outer);
        let (less_mm, more_mm) =
            if turned { (band.more_mm, band.less_mm) } else { (band.less_mm, band.more_mm) };
        let one = Named { quantity, less_mm, more_mm, standard, clause, rule, trust };
        best = Some(match best.take() {
            None => one,
            Some(b) => {
                // the rule of the narrower band is named; both sides stay the strictest
                let (low, high) = (b.less_mm.min(one.less_mm), b.more_mm.min(one.more_mm));
                let narrow = if one.less_mm + one.more_mm < b.less_mm + b.more_mm { one } else { b };
                Named { less_mm: low, more_mm: high, ..narrow }
            }
        });
    };
    let flanges = flanges(job, quantity);
    for limit in job.tolerances.iter().flat_map(|set| set.limits_of(quantity)) {
        for (flange_width_mm, flange_mm) in flanges.iter().copied() {
            let facts = Facts {
                length_mm,
                flange_width_mm,
                flange_mm,
                used_as: job.used_as,
                wanted_camber_mm: job.wanted_camber.map_or(0.0, |w| w.rise_mm),
                units: job.units,
                ..Facts::USUAL
            };
            if let Some(band) = limit.band_at_mm(&facts, 0.5 * length_mm) {
                add(band, limit.standard, limit.clause, limit.words, limit.trust);
            }
        }
    }
    for own in job.own_limits.iter().filter(|own| own.quantity == quantity) {
        add(Band::both(own.limit_mm), "own limit", "job file", "as given", Trust::Read);
    }
    best
}

/// Width and thickness of the flanges that a limit looks at, mm.
fn flanges(job: &Job, quantity: Quantity) -> Vec<(f64, f64)> {
    if matches!(quantity, Quantity::Camber | Quantity::Sweep) {
        return vec![(0.0, 0.0)];
    }
    Seam::BOTH
        .into_iter()
        .flat_map(|seam| job.member.flange(seam))
        .map(|p| (p.width_mm, p.thickness_mm))
        .collect()
}
