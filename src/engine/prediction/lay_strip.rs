//! At one point of the walk: strains of each pass from what the strip model says it adds.

use super::Job;
use super::march::{Effect, Here, Joined, Point, share_out_sweep};
use super::plan::{Turn, covers};
use super::stations::{Added, Stations};
use crate::bow::Strain;
use crate::member::{Parts, Seam, Span};
use crate::shrinkage::joint::seam_index;
use crate::shrinkage::{prior, tendon};

/// Lays every order at x with the forces of the stations and leaves each pass's effect in `effects`.
pub fn lay(
    job: &Job,
    stations: &Stations,
    (index, span): (usize, &Span),
    turns: &[Turn],
    x: f64,
    effects: &mut [Effect],
) -> Here {
    let e_mpa = job.member.steel.e_mpa;
    let depth = span.depth_mm(x);
    let cos = 1.0 / (1.0 + span.slope * span.slope).sqrt();
    let added = stations.at(index, x, job.passes.len());
    let spent = if job.thermally_cut_web { prior::cut_edge_force_n(span.plates.web_mm) } else { 0.0 };
    let mut spent = [spent; 2];
    let mut warmest_k: f64 = 0.0;
    let join = |parts| Joined::at(span, depth, cos, parts, e_mpa);
    let mut joined = join(turns.first().map_or(Parts::ALL, |turn| turn.parts));
    effects.fill(Effect::default());
    for (turn, order) in turns.iter().zip(&job.orders) {
        if turn.parts != joined.parts {
            let before = std::mem::replace(&mut joined, join(turn.parts));
            if !turn.follows {
                share_out_sweep(effects, before.section.i_y_mm4 / joined.section.i_y_mm4);
            }
        }
        let rise = tendon::mean_rise_k(turn.heat_j_per_mm, joined.section.area_mm2, turn.preheat_k);
        warmest_k = warmest_k.max(rise);
        let now = |p: &crate::welding::Pass| p.order == order.number && covers(p, span.middle_mm());
        for (pass, _) in job.passes.iter().enumerate().filter(|(_, p)| now(p)) {
            let own = job.passes[pass].seam;
            let pulls = without_spent(added[pass], &mut spent);
            let mut real = Strain::default();
            for (seam, pull) in Seam::BOTH.into_iter().zip(pulls) {
                let (along, seam_y, inward) = match seam {
                    Seam::Outer => (1.0, 0.0, 1.0),
                    Seam::Inner => (cos, depth, -1.0),
                };
                let section = &joined.section;
                let moment = pull.force_n * (seam_y - section.centroid_mm) + inward * pull.up_n_mm;
                real.axial -= along * pull.force_n / (e_mpa * section.area_mm2);
                real.in_plane -= along * moment / (e_mpa * section.i_z_mm4);
                real.lateral -= along * pull.near_n_mm / (e_mpa * section.i_y_mm4);
            }
            let pull = pulls[seam_index(own)];
            effects[pass] = Effect {
                real,
                unit: joined.by_one[seam_index(own)],
                force_n: pull.force_n,
                lone_n: lone_n(turn, own, pass, &joined, [depth, e_mpa]),
                up_n_mm: pull.up_n_mm,
                moment_n_mm: pull.near_n_mm,
            };
        }
    }
    let point = Point { web_mm: span.plates.web_mm, section: &joined.section, depth, cos, e_mpa };
    let (compression_mpa, edges) = point.finish(effects);
    Here { warmest_k, capped: false, compression_mpa, edges }
}

/// The formula's force of a lone pass, N, for comparison.
fn lone_n(turn: &Turn, seam: Seam, pass: usize, joined: &Joined, [depth_mm, e_mpa]: [f64; 2]) -> f64 {
    let Some(pair) = &turn.pairs[seam_index(seam)] else { return 0.0 };
    let side = usize::from(pair.pass[1] == Some(pass));
    let seam_y_mm = if seam == Seam::Outer { 0.0 } else { depth_mm };
    pair.held_n[side] * joined.freed(turn, pair, seam_y_mm, e_mpa)
}

/// A hot-cut edge has pulled already: what it spent is taken off the first passes at its seam, as the formula level does.
fn without_spent(added: Added, spent: &mut [f64; 2]) -> Added {
    let mut kept = added;
    for (pull, spent) in kept.iter_mut().zip(spent) {
        let taken = spent.min(pull.force_n.max(0.0));
        if taken > 0.0 {
            *pull = pull.times(1.0 - taken / pull.force_n);
            *spent -= taken;
        }
    }
    kept
}
