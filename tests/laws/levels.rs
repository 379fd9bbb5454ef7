//! Formula level beside strip level on random members, by class of sequence: how far they are apart, and whether the
//! printed ± of the formulas covers the strip model, which solves every section from first principles.
//!
//! 300 members, median / 95 % / worst, %, by the law fitted to 231 of them (a hump, an arm of two fixed parts, a second side by the lag alone) and by
//! that of today, fitted to 695:
//!
//! | class | then: shortening | camber over seam camber | sweep over largest on the way | ± covers | today: shortening | camber | sweep | ± covers |
//! |---|---|---|---|---|---|---|---|---|
//! | one side, both seams together | 1.7 / 6 / 8 | 1.8 / 6 / 12 | 3.6 / 19 / 21 | 100 | 1.9 / 7 / 10 | 1.3 / 6 / 13 | 3.2 / 10 / 13 | 100 |
//! | one side, seams in turn | 1.7 / 6 / 6 | 3.6 / 9 / 11 | 2.8 / 20 / 30 | 100 | 1.4 / 6 / 6 | 3.5 / 9 / 11 | 1.9 / 9 / 30 | 100 |
//! | T first | 2.5 / 8 / 10 | 1.6 / 10 / 12 | 3.3 / 19 / 64 | 98 | 2.2 / 9 / 11 | 1.6 / 10 / 12 | 3.6 / 14 / 64 | 98 |
//! | two sides in turn | 2.8 / 13 / 16 | 5.3 / 35 / 48 | 5.0 / 48 / 86 | 97 | 2.8 / 8 / 27 | 4.0 / 22 / 73 | 6.1 / 31 / 86 | 98 |
//! | two sides at once | 2.3 / 8 / 11 | 3.7 / 17 / 29 | 0 | 100 | 2.0 / 11 / 14 | 4.1 / 15 / 21 | 0 | 100 |
//! | all | 2.1 / 8 / 16 | 2.7 / 13.3 / 48 | 2.7 / 20.2 / 86 | 99 | 2.0 / 8 / 27 | 2.5 / 10.9 / 73 | 2.5 / 14.5 / 86 | 99 |
//! | all of 900 | | | | | 2.4 / 9 / 409 | 2.7 / 12.2 / 73 | 2.6 / 16.5 / 87 | 99 |
//!
//! There T first waited until cold. Six tenths of those 60 now wait 20–200 s, so that the second flange joins a warm T (`shrinkage/warm_join.rs`):
//! shortening 2.5 / 11 / 13, camber 1.9 / 9 / 17 over the largest that a step makes (3.5 / 28 / 29 over that of a weld alone), sweep 5.4 / 16 / 35,
//! ± covers 98; all 289 with them 2.0 / 8 / 27, 2.6 / 10.7 / 73, 2.6 / 15.4 / 86 and 99. Taken as cold, as both levels had it, a beam of equal
//! flanges that waits a minute is off by three times its camber.
//!
//! The fit had 695 of the 900. Fitted to four fifths of those and tried on the fifth it has not seen, in turn, the law of today has 12.5
//! (`reference-cases/seam_forces.py`); that of then had 13.1 of the 231 members that it had seen and 16.0 of the 695. A shortening of next to
//! nothing makes the 409.
//!
//! What stays far off are second sides laid 20–200 s later, on flanges of 100–160 mm: there the strip model lets the
//! whole length of a member bow sideways while one side of a flange is hot (a member of 120 mm flanges sweeps 370 mm by it), which the cold
//! length about a moving arc does not allow. For such jobs the strip model is no better a witness than the formula; the ± holds both.
//!
//! `WELDBOW_LEVELS=300 cargo test --test laws levels -- --nocapture` compares that many; a plain run a few of each class.
//! `WELDBOW_LEVELS_ROWS=file` writes every seam of every member into a file, to fit constants by.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use crate::drawn::Numbers;
use crate::support::{job, order, pass, prismatic};
use std::fmt::Write;
use weldbow::member::{Parts, Profile, Seam};
use weldbow::prediction::{Job, Prediction, WarningCode, predict, predict_strip};
use weldbow::welding::{Side, Wait, fillet};

/// Members of a plain run.
const FEW: usize = 90;
/// Largest leg over the thinnest plate.
const LEG_OVER_PLATE: f64 = 1.4;
/// Arc efficiency that the rule from leg to heat takes.
const EFFICIENCY: f64 = 0.9;

/// Least part of a class that the ± has to cover, %: it is said to hold 95 %, and a plain run has eighteen members a class.
const COVERED: f64 = 88.0;
/// Largest medians of shortening, camber and sweep, %: half above what 300 members have, as eighteen may lie to one side;
/// sweep by its worst class, two sides in turn.
const MEDIAN: [f64; 3] = [7.0, 8.0, 12.0];
/// Camber over seam camber and sweep over the largest on the way that 95 % of all members keep, %: 12 and 15 of 300.
const MOST: [f64; 2] = [14.0, 18.0];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Class {
    OneSideTogether,
    OneSideInTurn,
    TeeFirst,
    TwoSidesInTurn,
    AtOnce,
}

const CLASSES: [Class; 5] =
    [Class::OneSideTogether, Class::OneSideInTurn, Class::TeeFirst, Class::TwoSidesInTurn, Class::AtOnce];

/// A member of the range for which the formulas are meant, or at its borders.
fn member(n: &mut Numbers, border: bool, class: Class) -> Job {
    const FLANGES: [f64; 10] = [6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0, 25.0, 28.0, 32.0];
    const WIDTHS: [f64; 6] = [140.0, 160.0, 180.0, 200.0, 250.0, 300.0];
    const WEBS: [f64; 7] = [4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0];
    let (flanges, widths, webs): (&[f64], &[f64], &[f64]) = if border {
        (&[6.0, 8.0, 12.0, 16.0, 32.0], &[100.0, 120.0, 250.0, 400.0], &[4.0, 12.0])
    } else {
        (&FLANGES, &WIDTHS, &WEBS)
    };
    let length = n.between(5000.0, 13_000.0).round();
    let depth = if border { n.of(&[250.0, 1300.0]) } else { n.between(300.0, 1300.0).round() };
    let plates = (n.of(widths), n.of(flanges), n.of(widths), n.of(flanges), n.of(webs));
    let mut member = prismatic(length, (depth, plates.4), (plates.0, plates.1), (plates.2, plates.3));
    if n.next() < 0.5 {
        let end = (depth * n.between(0.5, 1.4)).clamp(250.0, 1300.0).round();
        member.depth = Profile::new(vec![(0.0, depth), (length, end)]);
    }
    member.steel.yield_mpa = n.of(&[235.0, 355.0, 355.0, 355.0, 460.0]);
    let heat = if border { n.of(&[500.0, 1000.0, 1800.0]) } else { n.between(500.0, 1800.0).round() };
    // no shop lays a leg much larger than its thinnest plate
    let largest = LEG_OVER_PLATE * plates.1.min(plates.3).min(plates.4);
    let leg = fillet::leg_of_gross_heat_mm(heat / EFFICIENCY).min(largest);
    let heat = EFFICIENCY * fillet::leg_rule_gross_heat_j_per_mm(leg);
    let lay = |seam, side, number| pass(&member, seam, side, number, leg, heat);
    let wait = match n.next() {
        s if s < 0.4 => Wait::Cold,
        _ => Wait::Seconds(n.between(20.0, 200.0).round()),
    };
    use Side::{Far, Near};
    let passes = match class {
        Class::OneSideTogether => Seam::BOTH.map(|s| lay(s, Near, 1)).to_vec(),
        Class::OneSideInTurn | Class::TeeFirst => {
            vec![lay(Seam::Outer, Near, 1), lay(Seam::Inner, Near, 2)]
        }
        Class::TwoSidesInTurn => {
            [(Near, 1), (Far, 2)].iter().flat_map(|(side, k)| Seam::BOTH.map(|s| lay(s, *side, *k))).collect()
        }
        Class::AtOnce => [Near, Far].iter().flat_map(|side| Seam::BOTH.map(|s| lay(s, *side, 1))).collect(),
    };
    let mut job = job(member, passes);
    if job.orders.len() > 1 {
        job.orders[1] = order(2, wait);
    }
    if class == Class::TeeFirst {
        job.orders[0].joined = Parts::WEB.with(Parts::OUTER_FLANGE);
    }
    job
}

/// Both levels of one member.
struct Both {
    class: Class,
    shortening: f64,
    camber: f64,
    sweep: f64,
    covered: [bool; 3],
}

/// Largest difference along a bow, mm.
fn apart(a: &[[f64; 2]], b: &[[f64; 2]]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a[1] - b[1]).abs()).fold(0.0, f64::max)
}

/// Largest camber that a single pass makes, mm.
fn seam_camber(p: &Prediction) -> f64 {
    let mut before = vec![0.0; p.camber.profile.len()];
    let mut most: f64 = 0.0;
    for step in &p.build_up {
        let own = step.camber_profile_mm.iter().zip(&before).map(|(now, then)| (now - then).abs());
        most = own.fold(most, f64::max);
        before.clone_from(&step.camber_profile_mm);
    }
    most
}

fn compare(class: Class, formula: &Prediction, strip: &Prediction) -> Both {
    let (seam, way) = (seam_camber(strip), |p: &Prediction| {
        p.build_up.iter().map(|s| s.sweep_mm.abs()).fold(f64::MIN_POSITIVE, f64::max)
    });
    let within = |a: f64, b: f64, span: f64| (a - b).abs() <= span;
    Both {
        class,
        shortening: (formula.shortening_mm / strip.shortening_mm - 1.0).abs(),
        camber: apart(&formula.camber.profile, &strip.camber.profile) / seam,
        sweep: apart(&formula.sweep.profile, &strip.sweep.profile) / way(strip),
        covered: [
            within(formula.shortening_mm, strip.shortening_mm, formula.shortening.centroid_2s_mm),
            within(formula.camber.max_mm, strip.camber.max_mm, formula.camber.max_2s_mm),
            within(formula.sweep.max_mm, strip.sweep.max_mm, formula.sweep.max_2s_mm),
        ],
    }
}

/// Every seam of a member as one line for fitting.
fn row(out: &mut String, index: usize, job: &Job, class: Class, f: &Prediction, s: &Prediction) {
    for seam in Seam::BOTH {
        let (width, flange) = job.member.plates_at(0.5 * job.member.length_mm).flange_mm(seam);
        let of = |p: &Prediction, k: usize| {
            let passes: Vec<_> = p.passes.iter().filter(|p| p.seam == seam).collect();
            passes.get(k).map_or([0.0; 3], |p| [p.force_n, p.lone_force_n, p.force_n * p.arm_z_mm])
        };
        let wait = job.orders.get(1).map_or(0.0, |o| match o.wait {
            Wait::Cold => 1e9,
            Wait::Seconds(s) => s,
        });
        let (a, b) = ([of(f, 0), of(f, 1)], [of(s, 0), of(s, 1)]);
        writeln!(
            out,
            "{index} {class:?} {} {width} {flange} {} {} {} {} {wait} {} {} {} {} {} {} {} {} {} {}",
            seam.name(),
            job.member.plates_at(0.0).web_mm,
            job.member.depth.depth_mm(0.5 * job.member.length_mm),
            job.passes[0].heat_j_per_mm,
            job.member.steel.yield_mpa,
            a[0][0],
            a[0][1],
            a[0][2],
            a[1][0],
            a[1][1],
            a[1][2],
            b[0][0],
            b[0][2],
            b[1][0],
            b[1][2],
        )
        .unwrap();
    }
}

/// Median, 95 % and largest, in per cent.
fn spread(mut values: Vec<f64>) -> [f64; 3] {
    values.sort_by(f64::total_cmp);
    let at = |share: f64| values[((share * values.len() as f64) as usize).min(values.len() - 1)];
    [0.5, 0.95, 1.0].map(|share| 100.0 * at(share))
}

#[test]
fn formulas_agree_with_the_strip_model_on_random_members_and_their_span_covers_it() {
    let count = std::env::var("WELDBOW_LEVELS").ok().and_then(|n| n.parse().ok()).unwrap_or(FEW);
    let mut rows = String::new();
    let mut outside = 0;
    let mut all: Vec<Both> = Vec::with_capacity(count);
    for index in 0..count {
        let class = CLASSES[index % CLASSES.len()];
        let job = member(&mut Numbers(index as u64 + 1), index / CLASSES.len() % 3 == 2, class);
        let formula = predict(&job);
        // a section that yields all over is outside the model, and the prediction says so
        if formula.warnings.iter().any(|w| w.code == WarningCode::HeatedThrough) {
            outside += 1;
            continue;
        }
        let Ok(strip) = predict_strip(&job).inspect_err(|e| println!("{index} {class:?}: {e}")) else {
            continue;
        };
        let both = compare(class, &formula, &strip);
        if !both.covered.iter().all(|c| *c) || both.camber > 0.2 || both.sweep > 0.3 {
            let plates = job.member.plates_at(0.0);
            println!(
                "{index} {class:?} {plates:?} d {:.0} Q {} f_y {} wait {:?}: camber {:.2} ± {:.2}, strip {:.2}; sweep {:.2} ± {:.2}, strip {:.2}; \
                 shortening {:.2} ± {:.2}, strip {:.2}; off {:.0} % {:.0} %",
                job.member.depth.depth_mm(0.0),
                job.passes[0].heat_j_per_mm,
                job.member.steel.yield_mpa,
                job.orders.get(1).map(|o| o.wait),
                formula.camber.max_mm,
                formula.camber.max_2s_mm,
                strip.camber.max_mm,
                formula.sweep.max_mm,
                formula.sweep.max_2s_mm,
                strip.sweep.max_mm,
                formula.shortening_mm,
                formula.shortening.centroid_2s_mm,
                strip.shortening_mm,
                100.0 * both.camber,
                100.0 * both.sweep,
            );
        }
        row(&mut rows, index, &job, class, &formula, &strip);
        all.push(both);
    }
    if let Ok(file) = std::env::var("WELDBOW_LEVELS_ROWS") {
        std::fs::write(file, rows).unwrap();
    }
    println!("{} members, {outside} more heated through; median / 95 % / worst, %", all.len());
    for class in CLASSES.into_iter().map(Some).chain([None]) {
        let of: Vec<&Both> = all.iter().filter(|b| class.is_none_or(|c| b.class == c)).collect();
        let [short, camber, sweep] = [|b: &Both| b.shortening, |b: &Both| b.camber, |b: &Both| b.sweep]
            .map(|f| spread(of.iter().map(|b| f(b)).collect()));
        let covered = [0, 1, 2]
            .map(|k: usize| 100.0 * of.iter().filter(|b| b.covered[k]).count() as f64 / of.len() as f64);
        let name = class.map_or("all".to_owned(), |c| format!("{c:?}"));
        println!(
            "{name:>16} {:3}: shortening {short:5.1?}, camber over seam camber {camber:5.1?}, sweep over largest on the way \
             {sweep:5.1?}; ± covers {covered:.0?}",
            of.len()
        );
        assert!(covered.iter().all(|c| *c >= COVERED), "{name}: ± covers {covered:?} % of {}", of.len());
        let kept = camber[1] < MOST[0] && sweep[1] < MOST[1];
        assert!(class.is_some() || kept, "{name}: 95 % within {:.1} and {:.1} %", camber[1], sweep[1]);
        assert!(
            short[0] < MEDIAN[0] && camber[0] < MEDIAN[1] && sweep[0] < MEDIAN[2],
            "{name}: medians too far"
        );
    }
}
