//! Drawn pieces of one job: how likely it is inside every tolerance, with bias and scatter as `scatter` holds them.
//!
//! The same inputs and spreads as a study of drawn pieces, put on the checked job directly instead of into its file.

use super::wishes::Wishes;
use crate::prediction::{Job, predict};
use crate::scatter::{Apart, Class, Deviations, Distribution, INPUTS, Input, Layout, Plan, Spread, apart};
use crate::tolerance::Quantity;
use crate::welding::{HeatSource, fillet};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Pieces for each draw of the bias.
const EACH: usize = 2;
/// Always the same draws, so that options are compared on the same pieces.
const SEED: u64 = 1;

/// What drawn pieces say.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Pieces {
    /// Part of the pieces inside every tolerance.
    pub inside: f64,
    /// Standard error of that part.
    pub standard_error: f64,
    /// Pieces drawn.
    pub drawn: usize,
    /// Part of the pieces outside, by quantity judged.
    pub outside: BTreeMap<&'static str, f64>,
}

/// One drawn factor and where it acts.
#[derive(Clone, Copy)]
enum Acts {
    Force,
    HeatFromLeg,
    Arm,
    Cup,
    Tilt,
    ForceOf(usize),
    Leg(usize),
    Web(usize),
    Outer(usize),
    Inner(usize),
}

/// Draws as many of the bias as wished, with two pieces each. What the shop makes up for is taken off every piece alike.
pub fn pieces(job: &Job, own: &Deviations, wishes: &Wishes) -> Pieces {
    let middle: Vec<f64> = predict(job).verdicts.iter().map(|v| wishes.met(v) - v.value).collect();
    let factors: Vec<(Acts, Spread, Class)> = INPUTS.iter().flat_map(|i| acting(job, i, own)).collect();
    let of = |class: Class| factors.iter().filter(|f| f.2 == class).count().max(1);
    let draws = wishes.draws.max(2);
    let bias = Plan::new(Layout::Latin, draws, SEED, of(Class::Bias));
    let scatter = bias.and_then(|b| b.beside(draws * EACH, of(Class::Scatter)));
    let (Ok(bias), Ok(scatter)) = (bias, scatter) else {
        return Pieces { inside: 0.0, standard_error: 1.0, drawn: 0, outside: BTreeMap::new() };
    };
    let rows: Vec<u8> = (0..draws * EACH)
        .into_par_iter()
        .map_init(
            || (job.clone(), vec![0.5; bias.dimensions()], vec![0.5; scatter.dimensions()]),
            |(drawn, u_bias, u_scatter), case| {
                bias.point(case / EACH, u_bias);
                scatter.point(case, u_scatter);
                drawn.clone_from(job);
                let (mut b, mut s) = (u_bias.iter(), u_scatter.iter());
                for (acts, spread, class) in &factors {
                    let u = if *class == Class::Bias { b.next() } else { s.next() };
                    act(drawn, *acts, spread.quantile(u.copied().unwrap_or(0.5)));
                }
                beyond(drawn, &middle)
            },
        )
        .collect();
    found(&rows)
}

fn found(rows: &[u8]) -> Pieces {
    let results: Vec<f64> = rows.iter().map(|bits| f64::from(u8::from(*bits == 0))).collect();
    let counted: Option<Apart> = apart(&results, EACH, &[], |inside| inside > 0.5).ok();
    let part = |mask: u8| rows.iter().filter(|bits| **bits & mask != 0).count() as f64 / rows.len() as f64;
    let outside = Quantity::ALL.iter().enumerate().map(|(bit, q)| (q.name(), part(1 << bit)));
    Pieces {
        inside: results.iter().sum::<f64>() / results.len() as f64,
        standard_error: counted.map_or(0.0, |c| c.overall.1),
        drawn: rows.len(),
        outside: outside.filter(|(_, part)| *part > 0.0).collect(),
    }
}

/// One bit for each quantity that is beyond a limit, every size moved by what the shop makes up for.
fn beyond(job: &Job, moved: &[f64]) -> u8 {
    let mut bits = 0;
    for (verdict, by) in predict(job).verdicts.iter().zip(moved) {
        let value = verdict.value + by;
        if value.abs() > verdict.band.side_mm(value) {
            let bit = Quantity::ALL.iter().position(|q| *q == verdict.quantity).unwrap_or(0);
            bits |= 1 << bit;
        }
    }
    bits
}

fn acting(job: &Job, input: &Input, own: &Deviations) -> Vec<(Acts, Spread, Class)> {
    let spread = match (own.get(input.name), input.spread.distribution()) {
        (None, _) => Some(input.spread),
        (Some(cov), Distribution::Lognormal { median, .. }) => {
            Spread::new(Distribution::Lognormal { median, cov: *cov }, None, None).ok()
        }
        (Some(sd), _) => Spread::new(Distribution::Normal { mean: 1.0, sd: *sd }, None, None).ok(),
    };
    let Some(spread) = spread else { return Vec::new() };
    let passes = || 0..job.passes.len();
    let places: Vec<Acts> = match input.name {
        "force" => vec![Acts::Force],
        "heat-from-leg" => vec![Acts::HeatFromLeg],
        "arm" => vec![Acts::Arm],
        "fold" | "fold-each-piece" => vec![Acts::Cup],
        "tilt" | "tilt-each-piece" => vec![Acts::Tilt],
        "force-each-pass" => passes().map(Acts::ForceOf).collect(),
        "leg" => passes().map(Acts::Leg).collect(),
        "plate" => {
            let m = &job.member;
            let web = (0..m.web.len()).map(Acts::Web);
            let outer = (0..m.outer_flange.len()).map(Acts::Outer);
            web.chain(outer).chain((0..m.inner_flange.len()).map(Acts::Inner)).collect()
        }
        _ => Vec::new(),
    };
    places.into_iter().map(|acts| (acts, spread, input.class)).collect()
}

fn act(job: &mut Job, acts: Acts, factor: f64) {
    match acts {
        Acts::Force => job.factors.force *= factor,
        Acts::HeatFromLeg => {
            let from_leg = job.passes.iter_mut().filter(|p| p.heat_source == HeatSource::Leg);
            from_leg.for_each(|p| p.heat_j_per_mm *= factor);
        }
        Acts::Arm => job.factors.arm *= factor,
        Acts::Cup => job.factors.cup *= factor,
        Acts::Tilt => job.factors.tilt *= factor,
        Acts::ForceOf(n) => {
            if let Some(pass) = job.passes.get_mut(n) {
                pass.force_factor *= factor;
            }
        }
        Acts::Leg(n) => {
            let gap = job.fit_up_gap_mm;
            if let Some(pass) = job.passes.get_mut(n) {
                pass.leg_mm *= factor;
                if pass.heat_source == HeatSource::Leg {
                    pass.heat_j_per_mm *= factor * factor;
                    pass.deposit_mm2 = fillet::deposit_mm2(pass.leg_mm, gap);
                }
            }
        }
        Acts::Web(n) => job.member.web.iter_mut().skip(n).take(1).for_each(|p| p.thickness_mm *= factor),
        Acts::Outer(n) => {
            job.member.outer_flange.iter_mut().skip(n).take(1).for_each(|p| p.thickness_mm *= factor);
        }
        Acts::Inner(n) => {
            job.member.inner_flange.iter_mut().skip(n).take(1).for_each(|p| p.thickness_mm *= factor);
        }
    }
}
