//! Whole members beside an integrator written apart from the crate, in another language (`reference-cases/member_integrator.py`).

use crate::cases::{all_checked, check};
use crate::support::{flange, job, pass, prismatic};
use serde::Deserialize;
use weldbow::member::{FlangePiece, Member, Parts, Profile, Seam};
use weldbow::prediction::{Job, Prediction, predict};
use weldbow::welding::{Side, Stitch};

const SHEET: &str = "member_integrator";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    member: String,
}

/// Both seams from the near side in these orders.
fn both(member: Member, heat: f64, leg: f64, orders: [u32; 2]) -> Job {
    let laid = Seam::BOTH.into_iter().zip(orders);
    let passes = laid.map(|(seam, number)| pass(&member, seam, Side::Near, number, leg, heat)).collect();
    job(member, passes)
}

fn tapered(mut member: Member, points: &[(f64, f64)]) -> Member {
    member.depth = Profile::new(points.to_vec());
    member
}

fn tee_first(mut job: Job) -> Job {
    job.orders[0].joined = Parts::WEB.with(Parts::OUTER_FLANGE);
    job
}

fn stepped() -> Job {
    let level = prismatic(9000.0, (400.0, 5.0), (180.0, 8.0), (180.0, 10.0));
    let mut member = tapered(level, &[(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)]);
    let end = FlangePiece { from_mm: 5000.0, ..flange(9000.0, 180.0, 14.0).remove(0) };
    member.inner_flange = flange(5000.0, 180.0, 10.0).into_iter().chain([end]).collect();
    both(member, 1000.0, 5.7, [1, 1])
}

fn stitched() -> Job {
    let member = prismatic(8000.0, (500.0, 6.0), (200.0, 10.0), (200.0, 12.0));
    let mut job = both(member, 900.0, 5.4, [1, 2]);
    job.passes[0].stitch = Some(Stitch { weld_mm: 100.0, gap_mm: 100.0 });
    (job.passes[1].from_mm, job.passes[1].to_mm) = (1500.0, 6500.0);
    job
}

fn of(name: &str) -> Option<Job> {
    let level = prismatic;
    Some(match name {
        "stepped" => stepped(),
        "tapered" => {
            let member = level(8000.0, (350.0, 6.0), (200.0, 10.0), (200.0, 12.0));
            both(tapered(member, &[(0.0, 350.0), (8000.0, 900.0)]), 900.0, 5.4, [1, 1])
        }
        "stitched and part-length" => stitched(),
        "tee first" => {
            let member = level(10_000.0, (400.0, 6.0), (200.0, 10.0), (200.0, 10.0));
            tee_first(both(tapered(member, &[(0.0, 400.0), (10_000.0, 900.0)]), 804.0, 5.0, [1, 2]))
        }
        "rippled" => both(level(9000.0, (1200.0, 5.0), (180.0, 8.0), (220.0, 16.0)), 1200.0, 6.0, [1, 1]),
        "tee first and rippled" => {
            tee_first(both(level(9000.0, (1000.0, 4.0), (200.0, 8.0), (200.0, 12.0)), 800.0, 5.0, [1, 2]))
        }
        _ => return None,
    })
}

fn quantity(name: &str, p: &Prediction, length_mm: f64) -> Option<f64> {
    let away = |x: f64| (x - 0.5 * length_mm).abs();
    Some(match name {
        "camber" => p.camber.max_mm,
        "sweep" => p.sweep.max_mm,
        "centroid" => p.shortening.centroid_mm,
        "outer edge" => p.shortening.outer_edge_mm,
        "inner edge" => p.shortening.inner_edge_mm,
        "inner flange" => p.shortening.inner_flange_mm,
        "web compression" => {
            let nearest = p.ripple.iter().min_by(|a, b| away(a.x_mm).total_cmp(&away(b.x_mm)))?;
            let beside = p.ripple.iter().filter(|r| away(r.x_mm) < away(nearest.x_mm) + 1e-6);
            // of two substeps at equal distance the mean
            let (sum, count) = beside.fold((0.0, 0.0), |(s, n), r| (s + r.compression_mpa, n + 1.0));
            sum / count
        }
        _ => return None,
    })
}

#[test]
fn a_separate_integrator_finds_the_same_bows_edges_and_web_stress() {
    let quantities =
        ["camber", "sweep", "centroid", "outer edge", "inner edge", "inner flange", "web compression"];
    for name in quantities {
        check(SHEET, name, |given: &Given| {
            let job = of(&given.member).unwrap();
            quantity(name, &predict(&job), job.member.length_mm).unwrap()
        });
    }
    all_checked::<Given>(SHEET, &quantities);
}
