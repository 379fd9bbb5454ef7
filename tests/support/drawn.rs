//! Numbers and sections drawn at random, the same from the same seed in every run.

use rayon::prelude::*;
use weldbow::joint_solver::{SectionSteel, ThermalTable};
use weldbow::member::{Parts, Seam};
use weldbow::strip::{StripBead, StripJob, StripSection, StripSettings, StripStage, weld};
use weldbow::welding::{Side, fillet};

/// Numbers from 0 to 1, the same in every run (splitmix64).
pub(crate) struct Numbers(pub(crate) u64);

impl Numbers {
    pub(crate) fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    pub(crate) fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[((self.next() * all.len() as f64) as usize).min(all.len() - 1)]
    }
}

/// Arc efficiency that the rule from leg to heat takes.
const EFFICIENCY: f64 = 0.9;
/// How far a leg may lie from that rule, relative.
const OFF_RULE: f64 = 0.25;
/// Heat balance asked of every turn, relative.
const BALANCE: f64 = 1e-3;

/// A section with a sequence of welds, from all that members of the trade are made of: flanges 100–400 × 6–32 mm, webs 4–12 mm and 250–1300 mm
/// deep, 235–690 MPa, 500–1800 J/mm, arcs of 5–25 mm/s; one seam or both, one side or both, at once or in turn, soon or cold, a tee
/// first, cold or preheated plates.
pub(crate) fn section(seed: u64, number: u64) -> StripJob {
    // far apart, so that no two seeds share a section
    let n = &mut Numbers(seed.wrapping_mul(0x2545_f491_4f6c_dd1d).wrapping_add(number << 8));
    let mut flange = || Some((n.between(100.0, 400.0).round(), n.between(6.0, 32.0)));
    let flanges_mm = [flange(), flange()];
    let section = StripSection {
        depth_mm: n.between(250.0, 1300.0),
        web_mm: n.between(4.0, 12.0),
        flanges_mm,
        legs_mm: [[None; 2]; 2],
    };
    let heat_j_per_mm = n.between(500.0, 1800.0);
    let leg_mm =
        fillet::leg_of_gross_heat_mm(heat_j_per_mm / EFFICIENCY) * n.between(1.0 - OFF_RULE, 1.0 + OFF_RULE);
    let travel_speed_mm_s = n.between(5.0, 25.0);
    let (soon_s, preheat_c) = (n.between(1.0, 300.0), n.of(&[20.0, 20.0, 20.0, 100.0]));
    let wait_s = n.of(&[None, Some(soon_s)]);
    let bead = |seam, side| StripBead { seam, side, leg_mm, heat_j_per_mm, travel_speed_mm_s };
    let turn = |wait_s: Option<f64>, joined: Parts, beads: Vec<StripBead>| StripStage {
        joined,
        wait_s,
        preheat_c,
        ..StripStage::cold(beads)
    };
    let (outer, inner) = (|side| bead(Seam::Outer, side), |side| bead(Seam::Inner, side));
    let (all, tee) = (Parts::ALL, Parts::WEB.with(Parts::OUTER_FLANGE));
    use Side::{Far, Near};
    let turns = match (n.next() * 6.0) as u32 {
        0 => vec![turn(None, all, vec![outer(Near)])],
        1 => vec![turn(None, all, vec![outer(Near), inner(Near)])],
        2 => vec![turn(None, all, vec![outer(Near), outer(Far), inner(Near), inner(Far)])],
        3 => vec![
            turn(None, all, vec![outer(Near), inner(Near)]),
            turn(wait_s, all, vec![outer(Far), inner(Far)]),
        ],
        4 => vec![turn(None, tee, vec![outer(Near)]), turn(None, all, vec![inner(Near)])],
        _ => vec![turn(None, all, vec![outer(Near)]), turn(wait_s, all, vec![inner(Far)])],
    };
    StripJob::new(
        section,
        SectionSteel::hot(n.of(&[235.0, 275.0, 355.0, 460.0, 690.0])),
        turns,
        StripSettings::STANDARD,
    )
}

/// What many sections gave.
#[derive(Debug, Default)]
pub(crate) struct Tried {
    /// Heat or time steps that were halved, in all.
    pub halved: usize,
    /// Worst heat balance, relative.
    pub balance: f64,
    /// Every section without an answer, or with one that is none.
    pub failures: Vec<String>,
}

/// Welds sections of a seed on all cores.
pub(crate) fn try_sections(seed: u64, count: u64) -> Tried {
    let table = ThermalTable::steel();
    let one = |number: u64| {
        let job = section(seed, number);
        let failed =
            |why: String| Tried { failures: vec![format!("{number}: {why}: {job:?}")], ..Tried::default() };
        let done = match weld(&job, &table) {
            Ok(done) => done,
            Err(error) => return failed(error.to_string()),
        };
        let balance = done.turns.iter().map(|turn| turn.energy_balance.abs()).fold(0.0, f64::max);
        let pulls = done.turns.iter().all(|turn| {
            let pulls = Seam::BOTH.map(|seam| turn.at(seam).force_n);
            // what was welded pulls
            pulls.iter().all(|n| n.is_finite()) && pulls.iter().any(|n| *n > 0.0)
        });
        if !pulls || balance.is_nan() || balance > BALANCE {
            return failed(format!("heat balance {balance:e}, {:?}", done.turns));
        }
        Tried { halved: done.effort.cuts, balance, failures: Vec::new() }
    };
    let both = |mut a: Tried, b: Tried| {
        a.halved += b.halved;
        a.balance = a.balance.max(b.balance);
        a.failures.extend(b.failures);
        a
    };
    (0..count).into_par_iter().map(one).reduce(Tried::default, both)
}
