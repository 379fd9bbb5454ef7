//! Published forces on three members, read from the estimates of the whole engine.

use crate::cases::{all_checked, check};
use crate::support::{job, order, pass, prismatic};
use serde::Deserialize;
use weldbow::member::{Member, Parts, Profile, Seam};
use weldbow::prediction::{Job, predict};
use weldbow::steel::E_MPA;
use weldbow::welding::{Side, Wait, WeldingOrder};

const SHEET: &str = "method_spread";
/// A flange too small to matter, for a tee: the engine always has two.
const NO_FLANGE: (f64, f64) = (1e-6, 1e-6);
const TEE: Parts = Parts::WEB.with(Parts::OUTER_FLANGE);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    member: String,
    method: String,
}

fn tapered(outer: f64, inner: f64) -> Member {
    let mut member = prismatic(10_000.0, (300.0, 6.0), (200.0, outer), (200.0, inner));
    member.depth = Profile::new(vec![(0.0, 300.0), (10_000.0, 900.0)]);
    member
}

/// Passes numbered as they come, each cold before the next.
fn in_turn(member: Member, leg: f64, heat: f64, passes: &[(Seam, Side, Parts)]) -> Job {
    let beads = passes
        .iter()
        .zip(1..)
        .map(|((seam, side, _), n)| pass(&member, *seam, *side, n, leg, heat))
        .collect();
    let mut job = job(member, beads);
    job.orders =
        passes.iter().zip(1..).map(|(p, n)| WeldingOrder { joined: p.2, ..order(n, Wait::Cold) }).collect();
    job
}

impl Given {
    fn job(&self) -> Job {
        use Seam::{Inner, Outer};
        use Side::{Far, Near};
        let i_section = || prismatic(12_000.0, (600.0, 6.0), (200.0, 10.0), (200.0, 10.0));
        let near = [(Outer, Near, Parts::ALL), (Inner, Near, Parts::ALL)];
        let tee_first = [(Outer, Near, TEE), (Inner, Near, Parts::ALL)];
        let mut job = match self.member.as_str() {
            "tee, both sides" => {
                let tee = prismatic(8000.0, (400.0, 8.0), (200.0, 12.0), NO_FLANGE);
                in_turn(tee, 6.0, 1158.0, &[(Outer, Near, TEE), (Outer, Far, TEE)])
            }
            "I, both sides" => {
                let far = [(Outer, Far, Parts::ALL), (Inner, Far, Parts::ALL)];
                in_turn(i_section(), 5.0, 804.0, &[near, far].concat())
            }
            "I, tee first" => {
                let all = [
                    (Outer, Near, TEE),
                    (Outer, Far, TEE),
                    (Inner, Near, Parts::ALL),
                    (Inner, Far, Parts::ALL),
                ];
                in_turn(i_section(), 5.0, 804.0, &all)
            }
            "I, one side" => in_turn(i_section(), 5.0, 804.0, &near),
            "tapered 12/8" => in_turn(tapered(12.0, 8.0), 5.0, 804.0, &near),
            "tapered 12/8, tee first" => in_turn(tapered(12.0, 8.0), 5.0, 804.0, &tee_first),
            "tapered 10/10, tee first" => in_turn(tapered(10.0, 10.0), 5.0, 804.0, &tee_first),
            other => panic!("no member {other}"),
        };
        job.member.steel.e_mpa = E_MPA;
        job
    }

    fn estimate(&self, quantity: &str) -> f64 {
        let p = predict(&self.job());
        let mut found = p.estimates.iter().filter(|e| e.quantity == quantity && e.method == self.method);
        let value = found.next().unwrap_or_else(|| panic!("no {quantity} by {}", self.method)).value;
        assert!(found.next().is_none(), "two of {quantity} by {}", self.method);
        value
    }
}

/// Centroid of a 5 mm fillet on a 6 mm web, mm from the plane of the web: where the crate puts the force of these methods.
/// Written out here, so that another arm in the crate fails these rows.
const CENTROID_MM: f64 = 6.0 / 2.0 + 5.0 / 3.0;

impl Given {
    /// Sweep as it would be with the sheet's lateral arms: at the centroid of the fillet as here, or half-way to its toe by the
    /// flange's share of the heat.
    fn sweep(&self) -> f64 {
        // heat goes both ways in the flange, one way in the web
        let flange_share = |flange_mm: f64| 2.0 * flange_mm / (2.0 * flange_mm + 6.0);
        let sheet = match self.member.as_str() {
            "I, one side" => 6.0 / 2.0 + 5.0 / 3.0,
            // (t_w + z)/2 times the flange's share; both flanges of 10 mm mean that of 12 and 8 mm within 1 %
            "tapered 12/8" | "tapered 12/8, tee first" => {
                0.5 * (flange_share(12.0) + flange_share(8.0)) * 5.5
            }
            _ => flange_share(10.0) * 5.5,
        };
        sheet / CENTROID_MM * self.estimate("sweep.max_mm")
    }
}

#[test]
fn every_published_force_gives_the_worked_shortening_camber_and_sweep() {
    check(SHEET, "shortening_mm", |g: &Given| g.estimate("shortening_mm"));
    check(SHEET, "camber.max_mm", |g: &Given| g.estimate("camber.max_mm"));
    check(SHEET, "sweep.max_mm", Given::sweep);
    all_checked::<Given>(SHEET, &["shortening_mm", "camber.max_mm", "sweep.max_mm"]);
}
