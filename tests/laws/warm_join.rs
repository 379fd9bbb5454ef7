//! A second flange that joins a T whose weld is still warm: the law beside the strip model, which carries the heat, and the strip level's walk beside
//! its own solved section.

use crate::drawn::Numbers;
use crate::support::{job, order, pass, prismatic};
use std::fmt::Write;
use weldbow::joint_solver::{SectionError, SectionSteel, ThermalTable, USUAL_SPEED_MM_S};
use weldbow::member::{Parts, Seam, properties};
use weldbow::prediction::{Job, WarningCode, predict, predict_strip};
use weldbow::shrinkage::warm_join::WarmSeam;
use weldbow::strip::{StripBead, StripJob, StripOutcome, StripSection, StripSettings, StripStage, weld};
use weldbow::welding::{Side, Wait};

/// Depth and web, flange welded first, flange that joins, leg and net heat: mm and J/mm.
type Tee = ([f64; 2], [f64; 2], [f64; 2], [f64; 2]);

const LENGTH_MM: f64 = 9000.0;
const E_MPA: f64 = 206e3;
const TEES: [Tee; 5] = [
    ([600.0, 6.0], [200.0, 10.0], [200.0, 10.0], [6.0, 1000.0]),
    ([400.0, 5.0], [180.0, 8.0], [180.0, 14.0], [5.0, 800.0]),
    ([1000.0, 8.0], [250.0, 16.0], [250.0, 12.0], [6.0, 1100.0]),
    ([800.0, 10.0], [300.0, 20.0], [200.0, 10.0], [8.0, 1700.0]),
    ([350.0, 4.0], [140.0, 6.0], [140.0, 6.0], [4.0, 500.0]),
];
const WAITS_S: [f64; 6] = [2.0, 20.0, 60.0, 300.0, 600.0, 1800.0];

fn tee_first(([depth, web], first, second, [leg, heat]): Tee, wait: Wait) -> Job {
    let member = prismatic(LENGTH_MM, (depth, web), (second[0], second[1]), (first[0], first[1]));
    let lay = |seam, number| pass(&member, seam, Side::Near, number, leg, heat);
    let passes = vec![lay(Seam::Inner, 1), lay(Seam::Outer, 2)];
    let mut job = job(member, passes);
    job.orders[0].joined = Parts::WEB.with(Parts::INNER_FLANGE);
    job.orders[1] = order(2, wait);
    job
}

/// The section of a level member by the strip model.
fn section(job: &Job, settings: StripSettings) -> Result<StripOutcome, SectionError> {
    let stage = |k: usize| {
        let (order, pass) = (&job.orders[k], &job.passes[k]);
        let bead = StripBead {
            seam: pass.seam,
            side: pass.side,
            leg_mm: pass.leg_mm,
            heat_j_per_mm: pass.heat_j_per_mm,
            travel_speed_mm_s: pass.travel_speed_mm_s.unwrap_or(USUAL_SPEED_MM_S),
        };
        let wait_s = if let Wait::Seconds(s) = order.wait { Some(s) } else { None };
        StripStage { joined: order.joined, wait_s, ..StripStage::cold(vec![bead]) }
    };
    let member = &job.member;
    let section = StripSection::of_plates(&member.plates_at(0.0), member.depth.depth_mm(0.0));
    let steel = SectionSteel { e_mpa: member.steel.e_mpa, ..SectionSteel::hot(member.steel.yield_mpa) };
    let strip = StripJob::new(section, steel, vec![stage(0), stage(1)], settings);
    weld(&strip, &ThermalTable::steel())
}

/// Camber of a level member by its last curvature.
fn solved_mm(job: &Job, settings: StripSettings) -> f64 {
    section(job, settings).unwrap().turns[1].plane[2] * LENGTH_MM * LENGTH_MM / 8.0
}

/// Printed: the same with later time steps that grow half as fast, which changes it by less.
#[test]
fn the_strip_level_bows_a_member_joined_warm_as_its_own_section_does() {
    let mut halved = StripSettings::STANDARD;
    halved.growth = halved.growth.sqrt();
    for tee in &TEES[..3] {
        for wait_s in [20.0, 300.0] {
            let job = tee_first(*tee, Wait::Seconds(wait_s));
            let walked = predict_strip(&job).unwrap().camber.max_mm;
            let cold = predict_strip(&tee_first(*tee, Wait::Cold)).unwrap().camber.max_mm;
            let (own, finer) = (solved_mm(&job, StripSettings::STANDARD), solved_mm(&job, halved));
            let said = format!(
                "{tee:?} after {wait_s} s: camber {walked:.2} mm, by its section {own:.2}, with finer steps {finer:.2}, joined cold {cold:.2}"
            );
            println!("{said}");
            // fillets are a part of the section that is solved
            let scale = own.abs().max(cold.abs());
            assert!((walked - own).abs() < 0.03 * scale && (finer - own).abs() < 0.03 * scale, "{said}");
            assert!((own - cold).abs() > 0.5 * cold.abs(), "{said}: nothing locked in");
        }
    }
}

/// Apart over the camber of the T's weld alone.
#[test]
fn the_law_of_a_warm_t_bows_a_member_as_the_strip_level_does() {
    let (mut squares, mut count, mut worst) = (0.0, 0.0, (0.0_f64, String::new()));
    for tee in TEES {
        let mut said = format!("{tee:?}:");
        let cold =
            [predict(&tee_first(tee, Wait::Cold)), predict_strip(&tee_first(tee, Wait::Cold)).unwrap()];
        let of_weld = cold[0].build_up[0].camber_mm.abs();
        said += &format!(" cold {:.1} and {:.1}", cold[0].camber.max_mm, cold[1].camber.max_mm);
        for wait_s in WAITS_S {
            let job = tee_first(tee, Wait::Seconds(wait_s));
            let [formula, strip] = [predict(&job), predict_strip(&job).unwrap()].map(|p| p.camber.max_mm);
            // what the heat locks in, beside what differs cold
            let off = ((formula - cold[0].camber.max_mm) - (strip - cold[1].camber.max_mm)) / of_weld;
            said += &format!(", {wait_s} s {formula:.1} and {strip:.1}");
            squares += off * off;
            count += 1.0;
            if off.abs() > worst.0 {
                worst = (off.abs(), format!("{wait_s} s, {tee:?}"));
            }
        }
        println!("{said} mm");
    }
    let rms = f64::sqrt(squares / count);
    println!("apart by {rms:.3} rms of the T's own camber, at most {:.3} at {}", worst.0, worst.1);
    assert!(rms < 0.05 && worst.0 < 0.12, "{rms}, {worst:?}");
}

/// A T of the range for which the formulas are meant, or at its borders.
fn random_tee(n: &mut Numbers) -> Tee {
    const WIDTHS: [f64; 9] = [100.0, 120.0, 140.0, 160.0, 180.0, 200.0, 250.0, 300.0, 400.0];
    const FLANGES: [f64; 8] = [6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0];
    let web = n.of(&[4.0, 5.0, 6.0, 8.0, 10.0, 12.0]);
    let (first, second) = ([n.of(&WIDTHS), n.of(&FLANGES)], [n.of(&WIDTHS), n.of(&FLANGES)]);
    let leg = n.between(3.0, 8.0).min(1.4 * first[1].min(second[1]).min(web));
    (
        [n.between(250.0, 1300.0).round(), web],
        first,
        second,
        [leg, (leg * leg * n.between(22.0, 34.0)).round()],
    )
}

/// `WELDBOW_WARM_TEES=90 WELDBOW_WARM_ROWS=reference-cases/warm_join.csv cargo test --test laws warm_join` writes what the law is fitted to
/// (`reference-cases/warm_join.py`); a plain run solves a few.
#[test]
fn random_ts_lock_in_what_the_law_says() {
    let count = std::env::var("WELDBOW_WARM_TEES").ok().and_then(|n| n.parse().ok()).unwrap_or(8);
    let mut rows =
        "web,depth,first_width,first,second_width,second,heat,yield,wait,force,edge,bend\n".to_owned();
    let mut off: [Vec<f64>; 2] = Default::default();
    for index in 0..count {
        let n = &mut Numbers(index + 1);
        let (tee, yield_mpa) = (random_tee(n), n.of(&[235.0, 355.0, 355.0, 460.0]));
        let solve = |wait| {
            let mut job = tee_first(tee, wait);
            job.member.steel.yield_mpa = yield_mpa;
            section(&job, StripSettings::STANDARD)
        };
        let Ok(cold) = solve(Wait::Cold) else { continue };
        let force_n = cold.turns[0].at(Seam::Inner).force_n;
        for wait_s in [2.0, 10.0, 30.0, 90.0, 300.0, 600.0, 1200.0, 3600.0] {
            let Ok(warm) = solve(Wait::Seconds(wait_s)) else { continue };
            let [edge, _, bend] = [0, 1, 2].map(|k: usize| warm.turns[1].plane[k] - cold.turns[1].plane[k]);
            let ([depth, web], first, second, [_, heat]) = tee;
            let seam = WarmSeam {
                heat_j_per_mm: heat,
                flange_mm: (first[0], first[1]),
                web_mm: (web, depth),
                e_mpa: E_MPA,
            };
            let (pull_n, up_mm) = seam.pull(wait_s);
            let job = tee_first(tee, Wait::Cold);
            let plates = job.member.plates_at(0.0);
            let bends = |parts, pull_n: f64, y_mm: f64| {
                let s = properties(&plates, depth, 0.0, parts);
                -pull_n * (y_mm - s.centroid_mm) / (E_MPA * s.i_z_mm4)
            };
            let tee_parts = job.orders[0].joined;
            let law = bends(Parts::ALL, pull_n, depth - up_mm) - bends(tee_parts, pull_n, depth - up_mm);
            let of_weld = bends(tee_parts, force_n, depth).abs().max(bends(Parts::ALL, force_n, depth).abs());
            off[usize::from(wait_s >= 30.0)].push((law - bend) / of_weld);
            let _ = writeln!(
                rows,
                "{web},{depth},{},{},{},{},{heat},{yield_mpa},{wait_s},{force_n:.0},{edge:.4e},{bend:.4e}",
                first[0], first[1], second[0], second[1]
            );
        }
    }
    if let Ok(file) = std::env::var("WELDBOW_WARM_ROWS") {
        std::fs::write(file, rows).unwrap();
    }
    let rms = off.map(|off| f64::sqrt(off.iter().map(|off| off * off).sum::<f64>() / off.len() as f64));
    println!(
        "{count} Ts: law apart from the strip model by {rms:.3?} rms of what a weld bends, in the first seconds and from half a minute on"
    );
    // nothing joins within seconds
    assert!(rms[0] < 0.40 && rms[1] < 0.09, "{rms:?}");
}

#[test]
fn a_flange_that_waits_long_joins_a_cold_t_and_sooner_none_without_a_word() {
    for tee in TEES {
        let bow = |wait| predict(&tee_first(tee, wait)).camber.max_mm;
        let cold = bow(Wait::Cold);
        let late = bow(Wait::Seconds(6.0 * 3600.0));
        assert!((late - cold).abs() < 0.01 * cold.abs(), "{tee:?}: {late} after six hours, cold {cold}");
        let (now, next) = (bow(Wait::Seconds(300.0)), bow(Wait::Seconds(301.0)));
        assert!((now - next).abs() < 0.01 * (now - cold).abs(), "{tee:?}: {now} and a second later {next}");
        let warns =
            |wait| predict(&tee_first(tee, wait)).warnings.iter().any(|w| w.code == WarningCode::WarmJoin);
        assert!(warns(Wait::Seconds(300.0)) && !warns(Wait::Cold) && !warns(Wait::Seconds(6.0 * 3600.0)));
    }
}
