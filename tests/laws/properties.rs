//! What must hold for any member: laws of scale, mirrors, cuts that change nothing, numbers that stay numbers.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]
#![allow(missing_docs)]

use crate::support::{flange, job, order, pass, prismatic, rafter, web};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use rayon::ThreadPoolBuilder;
use rayon::prelude::*;
use serde_json::Value;
use weldbow::member::{FlangePiece, Member, Parts, Profile, Seam, properties};
use weldbow::prediction::{Job, Prediction, Ripple, WarningCode, predict, predict_with_substeps};
use weldbow::steel::{Steel, grade};
use weldbow::welding::{Pass, Side, Wait};

/// Results of the same member described in two ways: only substeps of other lengths lie between.
const SAME: f64 = 1e-6;
/// The same of a ±, which is read straight between stations.
const SAME_SPAN: f64 = 1e-4;
/// The same where a curve has a kink at a place that no substep knows of.
const SAME_WITH_KINK: f64 = 2e-5;
/// So many that these lengths matter less than [`SAME`] even on a 6:1 taper over 600 mm; the usual number leaves
/// about 2e-5 there.
const SUBSTEPS: f64 = 256.0;

/// The same members at every run.
fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 256,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(20_260),
        ..ProptestConfig::default()
    }
}

/// Any tapered member with passes at any seams and sides, in any order.
fn any_job() -> impl Strategy<Value = Job> {
    let plate = (100.0..400.0_f64, 5.0..30.0_f64);
    let shape = (3000.0..15000.0_f64, 200.0..1200.0_f64, 200.0..1200.0_f64, 0.2..0.8_f64, 4.0..12.0_f64);
    let bead = (any::<bool>(), any::<bool>(), 1..4_u32, 3.0..10.0_f64, 300.0..2500.0_f64, any::<bool>());
    (shape, plate.clone(), plate, prop::collection::vec(bead, 1..6)).prop_map(
        |(shape, outer, inner, beads)| {
            let (length, start, finish, kink, web_mm) = shape;
            let member = Member {
                length_mm: length,
                depth: Profile::new(vec![(0.0, start), (kink * length, finish), (length, finish)]),
                web: web(length, web_mm),
                outer_flange: flange(length, outer.0, outer.1),
                inner_flange: flange(length, inner.0, inner.1),
                steel: Steel::from(grade("S355").unwrap()),
            };
            let mut passes: Vec<Pass> = beads
                .into_iter()
                .map(|(outer, near, order, leg, heat, half)| {
                    let seam = if outer { Seam::Outer } else { Seam::Inner };
                    let side = if near { Side::Near } else { Side::Far };
                    let mut bead = pass(&member, seam, side, order, leg, heat);
                    if half {
                        bead.to_mm = 0.6 * length;
                    }
                    bead
                })
                .collect();
            passes.sort_by_key(|p| p.order);
            job(member, passes)
        },
    )
}

/// One seam of a prismatic member welded from the near side.
fn one_pass(length: f64, heat: f64) -> Job {
    let member = prismatic(length, (600.0, 6.0), (200.0, 10.0), (200.0, 10.0));
    let passes = vec![pass(&member, Seam::Outer, Side::Near, 1, 5.0, heat)];
    job(member, passes)
}

fn at_once(member: Member, heat: f64) -> Job {
    let passes = Seam::BOTH.map(|s| pass(&member, s, Side::Near, 1, 5.0, heat)).to_vec();
    job(member, passes)
}

fn near(a: f64, b: f64, scale: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * scale.abs() + 1e-12
}

/// Offset between stations by the straight line; only for stations shared by both results.
fn offset(profile: &[[f64; 2]], x: f64) -> f64 {
    profile.iter().find(|p| (p[0] - x).abs() < 1e-6).unwrap_or_else(|| panic!("no station at {x} mm"))[1]
}

fn text(p: &Prediction) -> String {
    serde_json::to_string(p).unwrap()
}

fn nulls(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Null => found.push(path.to_owned()),
        Value::Array(all) => {
            all.iter().enumerate().for_each(|(i, v)| nulls(v, &format!("{path}[{i}]"), found))
        }
        Value::Object(all) => all.iter().for_each(|(k, v)| nulls(v, &format!("{path}.{k}"), found)),
        _ => {}
    }
}

fn finely(job: &Job) -> Prediction {
    predict_with_substeps(job, SUBSTEPS)
}

/// Whether the web ripples along a part of the member only, or yield holds a force down: both bend a curve between
/// stations, which spoils the order of integration.
fn has_kink(p: &Prediction) -> bool {
    let softened = |r: &Ripple| r.compression_mpa > 0.5 * (r.critical_low_mpa + r.critical_high_mpa);
    let many = p.ripple.iter().filter(|r| softened(r)).count();
    (many > 0 && many < p.ripple.len()) || p.warnings.iter().any(|w| w.code == WarningCode::YieldCap)
}

/// Result of the first with that of the second, wherever the second's description only cuts the first's.
fn same_member(a: &Prediction, b: &Prediction) -> Result<(), TestCaseError> {
    let size = a.camber.max_mm.abs().max(a.sweep.max_mm.abs());
    let same = if has_kink(a) { SAME_WITH_KINK } else { SAME };
    for (name, a, b) in [
        ("camber", a.camber.max_mm, b.camber.max_mm),
        ("sweep", a.sweep.max_mm, b.sweep.max_mm),
        ("shortening", a.shortening_mm, b.shortening_mm),
    ] {
        prop_assert!(near(a, b, size, same), "{}: {} whole, {} cut", name, a, b);
    }
    // a bead written down in two stretches is no surer than in one
    for (name, a, b) in [
        ("camber", a.camber.max_2s_mm, b.camber.max_2s_mm),
        ("sweep", a.sweep.max_2s_mm, b.sweep.max_2s_mm),
        ("shortening", a.shortening.centroid_2s_mm, b.shortening.centroid_2s_mm),
    ] {
        prop_assert!(near(a, b, size, SAME_SPAN), "± of {}: {} whole, {} cut", name, a, b);
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn camber_grows_with_the_square_of_the_length(length in 3000.0..12000.0_f64, times in 1.1..3.0_f64) {
        let (short, long) = (predict(&one_pass(length, 900.0)), predict(&one_pass(times * length, 900.0)));
        let (got, want) = (long.camber.max_mm, short.camber.max_mm * times * times);
        prop_assert!(near(got, want, want, 1e-9), "{} against {}", got, want);
    }

    #[test]
    fn camber_is_the_force_over_the_stiffness(e in 180e3..220e3_f64, heat in 300.0..1500.0_f64) {
        let mut job = one_pass(9000.0, heat);
        job.member.steel.e_mpa = e;
        let p = predict(&job);
        let s = properties(&job.member.plates_at(1.0), 600.0, 0.0, Parts::ALL);
        let want = p.passes[0].force_n * s.centroid_mm * 9000.0 * 9000.0 / (8.0 * e * s.i_z_mm4);
        prop_assert!(near(p.camber.max_mm, want, want, 1e-9), "{} against F e L2/8EI {}", p.camber.max_mm, want);
    }

    #[test]
    fn a_mirrored_job_sweeps_and_tilts_the_other_way(job in any_job()) {
        let mut mirrored = job.clone();
        for p in &mut mirrored.passes {
            p.side = if p.side == Side::Near { Side::Far } else { Side::Near };
        }
        let (a, b) = (predict(&job), predict(&mirrored));
        let size = a.camber.max_mm.abs().max(a.sweep.max_mm.abs());
        prop_assert!(near(a.camber.max_mm, b.camber.max_mm, size, 1e-9), "camber {:?} {:?}", a.camber.max_mm, b.camber.max_mm);
        prop_assert!(near(a.sweep.max_mm, -b.sweep.max_mm, size, 1e-9), "sweep {:?} {:?}", a.sweep.max_mm, b.sweep.max_mm);
        prop_assert_eq!(a.flanges.len(), b.flanges.len());
        for (f, g) in a.flanges.iter().zip(&b.flanges) {
            prop_assert!(near(f.cup_rad, g.cup_rad, 1.0, 1e-12), "cup {} {}", f.cup_rad, g.cup_rad);
            prop_assert!(near(f.tilt_rad, -g.tilt_rad, 1.0, 1e-12), "tilt {} {}", f.tilt_rad, g.tilt_rad);
            prop_assert!(near(f.near_toe_mm, g.far_toe_mm, 1.0, 1e-9), "toes {} {}", f.near_toe_mm, g.far_toe_mm);
        }
    }

    #[test]
    fn a_symmetric_member_welded_at_both_seams_at_once_stays_level(length in 3000.0..15000.0_f64, heat in 300.0..2000.0_f64) {
        let p = predict(&at_once(prismatic(length, (700.0, 5.0), (180.0, 8.0), (180.0, 8.0)), heat));
        prop_assert!(p.camber.max_mm.abs() < 1e-9, "camber {} mm", p.camber.max_mm);
    }

    #[test]
    fn cutting_plates_in_two_changes_nothing(job in any_job(), at in 0.1..0.9_f64, outer in any::<bool>()) {
        let mut cut = job.clone();
        let x = at * job.member.length_mm;
        let whole = |p: &FlangePiece| (FlangePiece { to_mm: x, ..*p }, FlangePiece { from_mm: x, ..*p });
        let pieces = if outer { &mut cut.member.outer_flange } else { &mut cut.member.inner_flange };
        let (a, b) = whole(&pieces[0]);
        *pieces = vec![a, b];
        let mut second = cut.member.web[0];
        (cut.member.web[0].to_mm, second.from_mm) = (x, x);
        cut.member.web.push(second);
        same_member(&finely(&job), &finely(&cut))?;
    }

    #[test]
    fn cutting_a_pass_in_two_changes_nothing(job in any_job(), at in 0.1..0.9_f64) {
        let mut cut = job.clone();
        let mut second = cut.passes[0].clone();
        let x = at * second.to_mm;
        (cut.passes[0].to_mm, second.from_mm) = (x, x);
        cut.passes.insert(1, second);
        same_member(&finely(&job), &finely(&cut))?;
    }

    #[test]
    fn near_passes_pull_the_ends_to_the_near_side_and_bow_unequal_flanges_to_the_lighter(
        web_mm in (300.0..1000.0_f64, 5.0..10.0_f64), t in 6.0..20.0_f64, heavier in 1.2..2.0_f64, heat in 400.0..900.0_f64,
    ) {
        let p = predict(&at_once(prismatic(9000.0, web_mm, (200.0, heavier * t), (200.0, t)), heat));
        prop_assert!(p.sweep.max_mm < 0.0, "sweep {} mm", p.sweep.max_mm);
        // equal pulls: the ends go to the light inner flange, the middle to the heavy outer one
        let forces: Vec<f64> = p.passes.iter().map(|p| p.force_n).collect();
        if forces[1] >= forces[0] {
            prop_assert!(p.camber.max_mm < 0.0, "camber {} mm with {:?} N", p.camber.max_mm, forces);
        }
    }

    #[test]
    fn a_member_turned_end_for_end_has_the_mirrored_profile(job in any_job()) {
        let length = job.member.length_mm;
        let mut turned = job.clone();
        let points = job.member.depth.points().iter().rev().map(|p| (length - p.0, p.1)).collect();
        turned.member.depth = Profile::new(points);
        for p in &mut turned.passes {
            (p.from_mm, p.to_mm) = (length - p.to_mm, length - p.from_mm);
        }
        let (a, b) = (predict(&job), predict(&turned));
        let size = a.camber.max_mm.abs().max(a.sweep.max_mm.abs());
        for (one, other) in [(&a.camber.profile, &b.camber.profile), (&a.sweep.profile, &b.sweep.profile)] {
            prop_assert_eq!(one.len(), other.len());
            for (p, q) in one.iter().zip(other.iter().rev()) {
                prop_assert!(near(p[0], length - q[0], length, 1e-9), "stations {:?} {:?}", p, q);
                prop_assert!(near(p[1], q[1], size, 1e-8), "offsets {:?} {:?}", p, q);
            }
        }
    }

    #[test]
    fn more_heat_never_gives_a_smaller_force(job in any_job(), more in 1.0..1.5_f64) {
        let mut lone = job;
        lone.passes.truncate(1);
        let less = predict(&lone).passes[0].force_n;
        lone.passes[0].heat_j_per_mm *= more;
        let force = predict(&lone).passes[0].force_n;
        prop_assert!(force >= less * (1.0 - 1e-12), "{} N with {} times the heat of {} N", force, more, less);
    }

    #[test]
    fn every_number_of_a_prediction_is_finite(job in any_job()) {
        let mut found = Vec::new();
        nulls(&serde_json::to_value(predict(&job)).unwrap(), "", &mut found);
        // JSON has no infinity: what is not finite is written as null
        prop_assert!(found.is_empty(), "null at {:?}", found);
    }

    #[test]
    fn camber_can_be_worked_out_again_from_the_passes(job in any_job()) {
        let p = predict(&job);
        if p.ripple.iter().any(|r| r.compression_mpa > 0.5 * (r.critical_low_mpa + r.critical_high_mpa)) {
            return Ok(()); // a rippled web is softer than its plates
        }
        let again = |x: f64| by_trapezoids(&job, &p, x);
        for x in [0.25, 0.5, 0.75].map(|s| s * job.member.length_mm) {
            let (got, want) = (interpolated(&p.camber.profile, x), again(x));
            // single passes may cancel: 0.5 % of what the largest of them does alone
            let size = p.build_up.iter().map(|s| s.camber_mm.abs()).fold(want.abs(), f64::max);
            prop_assert!(near(got, want, size, 5e-3), "{} in the profile, {} again, at {} mm", got, want, x);
        }
    }
}

/// Cubic through the four stations about x.
fn interpolated(profile: &[[f64; 2]], x: f64) -> f64 {
    let above = profile.partition_point(|p| p[0] < x).clamp(2, profile.len() - 2);
    let four = &profile[above - 2..above + 2];
    let weight = |i: usize| {
        let others = four.iter().enumerate().filter(|(j, _)| *j != i);
        others.map(|(_, p)| (x - p[0]) / (four[i][0] - p[0])).product::<f64>()
    };
    (0..4).map(|i| weight(i) * four[i][1]).sum()
}

/// Camber at x (mm) as the unit-load integral of v″ = F·(y_w − y_c)/(E·I_z) by trapezoids, from reported forces.
fn by_trapezoids(job: &Job, p: &Prediction, x: f64) -> f64 {
    const STEPS: i32 = 4000;
    let length = job.member.length_mm;
    let h = length / f64::from(STEPS);
    let mut sum = 0.0;
    for i in 1..STEPS {
        let s = h * f64::from(i);
        let depth = job.member.depth.depth_mm(s);
        let slope = job.member.depth.slope(s);
        let cos = 1.0 / (1.0 + slope * slope).sqrt();
        let unit = if s < x { s * (1.0 - x / length) } else { x * (1.0 - s / length) };
        for pass in p.passes.iter().filter(|p| (p.from_mm..=p.to_mm).contains(&s)) {
            let section = properties(&job.member.plates_at(s), depth, slope, pass.parts);
            let (y, along) =
                if pass.seam == Seam::Outer { (pass.arm_y_mm, 1.0) } else { (depth - pass.arm_y_mm, cos) };
            let force = if pass.force_profile.is_empty() {
                pass.force_n
            } else {
                in_its_substep(&pass.force_profile, &p.camber.profile, s)
            };
            // v″ = −g = +F·(y − y_c)/EI, and v = −∫ unit·v″
            sum -= unit * force * along * (y - section.centroid_mm) / (p.model.e_mpa * section.i_z_mm4);
        }
    }
    h * sum
}

/// Force (N) in the substep about x: the profile holds one value between two stations, and may jump at a station.
fn in_its_substep(force: &[[f64; 2]], stations: &[[f64; 2]], x: f64) -> f64 {
    let above = stations.partition_point(|s| s[0] < x).clamp(1, stations.len() - 1);
    let (from, to) = (stations[above - 1][0], stations[above][0]);
    force.iter().find(|p| (from..=to).contains(&p[0])).unwrap_or_else(|| panic!("no force at {x} mm"))[1]
}

#[test]
fn the_same_job_gives_the_same_bytes_on_any_number_of_threads() {
    let jobs: Vec<Job> = (0..40)
        .map(|i| {
            let mut job = rafter();
            job.passes[0].heat_j_per_mm += f64::from(i % 20);
            job
        })
        .collect();
    let alone: Vec<String> = jobs.iter().map(|j| text(&predict(j))).collect();
    assert_eq!(alone[0], alone[20], "the same input twice");
    assert_ne!(alone[0], alone[1], "another input");
    for threads in [1, 4] {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let many: Vec<String> = pool.install(|| jobs.par_iter().map(|j| text(&predict(j))).collect());
        assert!(many == alone, "{threads} threads give other bytes");
    }
}

#[test]
fn a_second_side_after_a_minute_and_a_repeat_keep_their_cut_and_mirror_laws() {
    let mut job = rafter();
    let far = Seam::BOTH.map(|s| pass(&job.member, s, Side::Far, 2, 6.0, 1004.4));
    job.passes.extend(far);
    job.orders.push(order(2, Wait::Seconds(60.0)));
    let a = predict(&job);
    for p in &mut job.passes {
        p.side = if p.side == Side::Near { Side::Far } else { Side::Near };
    }
    let b = predict(&job);
    assert!((a.sweep.max_mm + b.sweep.max_mm).abs() < 1e-9, "{} {}", a.sweep.max_mm, b.sweep.max_mm);
    assert!(a.sweep.max_mm.abs() > 0.1, "sweep {} mm is too small to tell", a.sweep.max_mm);
    assert!((offset(&a.camber.profile, 6000.0) - offset(&b.camber.profile, 6000.0)).abs() < 1e-9);
}
