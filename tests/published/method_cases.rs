//! Published estimates through the crate's own beam, on three members worked by hand.

use crate::cases::{all_checked, check};
use crate::support::{flange, job, pass, prismatic};
use serde::Deserialize;
use weldbow::member::{Profile, Seam};
use weldbow::prediction::{Job, predict};
use weldbow::shrinkage::lateral::arm_mm;
use weldbow::shrinkage::published::{METHODS, Weld};
use weldbow::welding::Side;

const NAME: &str = "method_cases";
const FORCE: &str = "force of one fillet";
const QUANTITIES: [(&str, &str); 6] = [
    ("A: camber", "camber.max_mm"),
    ("A: shortening", "shortening_mm"),
    ("B: shortening, both sides", "shortening_mm"),
    ("B: sweep, one side", "sweep.max_mm"),
    ("C: camber", "camber.max_mm"),
    ("C: shortening", "shortening_mm"),
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    /// A word of the method's source.
    method: String,
    #[serde(default)]
    heat: f64,
    #[serde(default)]
    nominal: f64,
}

#[test]
fn every_method_gives_the_force_worked_by_hand() {
    check::<Given>(NAME, FORCE, |given| {
        let method = METHODS.iter().find(|m| m.source.contains(&given.method)).unwrap();
        let weld =
            Weld { heat_j_per_mm: given.heat, nominal_mm2: given.nominal, yield_mpa: 355.0, e_mpa: 206e3 };
        (method.force_n)(&weld) / 1e3
    });
}

#[test]
fn every_method_bends_the_three_members_as_worked_by_hand() {
    let jobs = [tee(), two_sided(), one_sided(), tapered()];
    // case B took the weld's centroid as lateral arm; the crate's arm is shorter
    let (crate_arm, case_arm) = (arm_mm(10.0, 6.0, 5.0), 6.0 / 2.0 + 5.0 / 3.0);
    for (quantity, name) in QUANTITIES {
        let job = match quantity {
            q if q.starts_with('A') => &jobs[0],
            q if q.ends_with("both sides") => &jobs[1],
            q if q.starts_with('B') => &jobs[2],
            _ => &jobs[3],
        };
        let prediction = predict(job);
        check::<Given>(NAME, quantity, |given| {
            let of =
                |e: &&weldbow::prediction::Estimate| e.quantity == name && e.source.contains(&given.method);
            let value = prediction.estimates.iter().find(of).unwrap().value.abs();
            if name == "sweep.max_mm" { value * case_arm / crate_arm } else { value }
        });
    }
    let all: Vec<&str> = QUANTITIES.iter().map(|q| q.0).chain([FORCE]).collect();
    all_checked::<Given>(NAME, &all);
}

/// Case A: the second flange is a hair that neither pulls nor bends.
fn tee() -> Job {
    let member = prismatic(8000.0, (400.0, 8.0), (200.0, 12.0), (1e-6, 1e-6));
    let passes = [(Side::Near, 1), (Side::Far, 2)]
        .map(|(side, order)| pass(&member, Seam::Outer, side, order, 6.0, 1158.0));
    job(member, passes.to_vec())
}

fn one_sided() -> Job {
    let member = prismatic(12_000.0, (600.0, 6.0), (200.0, 10.0), (200.0, 10.0));
    let passes = Seam::BOTH.map(|seam| pass(&member, seam, Side::Near, 1, 5.0, 804.0));
    job(member, passes.to_vec())
}

fn two_sided() -> Job {
    let member = one_sided().member;
    let laid = [(Side::Near, 1), (Side::Far, 2)];
    let passes = laid
        .into_iter()
        .flat_map(|(side, order)| Seam::BOTH.map(|seam| pass(&member, seam, side, order, 5.0, 804.0)));
    let passes = passes.collect();
    job(member, passes)
}

/// Case C.
fn tapered() -> Job {
    let mut member = prismatic(10_000.0, (300.0, 6.0), (200.0, 12.0), (200.0, 8.0));
    member.depth = Profile::new(vec![(0.0, 300.0), (10_000.0, 900.0)]);
    member.inner_flange = flange(10_000.0, 200.0, 8.0);
    let passes = Seam::BOTH.map(|seam| pass(&member, seam, Side::Near, 1, 5.0, 804.0));
    job(member, passes.to_vec())
}
