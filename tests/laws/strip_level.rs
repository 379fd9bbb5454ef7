//! A member at the strip level: beside the formula level, between stations, on any number of threads, as a command.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use crate::drawn::try_sections;
use crate::support::{job, order, pass, prismatic, rafter};
use assert_cmd::Command;
use std::path::Path;
use weldbow::member::{Parts, Seam};
use weldbow::prediction::{Job, Prediction, WarningCode, predict, predict_strip};
use weldbow::welding::{FlangeFit, HeatSource, Pass, Side, Stitch, Wait, WeldingOrder};

/// Heat balance asked of every pass, relative.
const BALANCE: f64 = 1e-3;

fn strip(job: &Job) -> Prediction {
    let p = predict_strip(job).unwrap();
    let notes = p.strip.unwrap();
    assert!(notes.energy_balance < BALANCE, "energy {:e}", notes.energy_balance);
    assert_eq!(p.model.level, "strip");
    p
}

fn both_sides() -> Job {
    let rafter = rafter();
    let far = rafter.passes.iter().map(|p| Pass { side: Side::Far, order: 2, ..p.clone() });
    let passes = rafter.passes.iter().cloned().chain(far).collect();
    job(rafter.member, passes)
}

/// Constants of the formula level were fitted to members of this kind: lone passes rms 3 %, a second side 5 %.
const FORMULA_REL: f64 = 0.10;

/// Members that are not among those of the fit: other depths, widths, webs and heats.
#[test]
fn one_sided_members_of_all_sizes_shorten_alike_at_both_levels() {
    let mut off = Vec::new();
    for (depth, web) in [(250.0, 4.0), (450.0, 5.0), (700.0, 6.0), (1000.0, 9.0), (1600.0, 11.0)] {
        for (width, flange) in [(130.0, 7.0), (180.0, 9.0), (220.0, 14.0), (320.0, 22.0)] {
            for (leg, heat) in [(4.5, 620.0), (6.5, 1300.0)] {
                if leg > 1.2 * web {
                    continue;
                }
                let member = prismatic(9000.0, (depth, web), (width, flange), (width, flange));
                let passes = Seam::BOTH.map(|seam| pass(&member, seam, Side::Near, 1, leg, heat)).to_vec();
                let job = job(member, passes);
                let (by_strip, by_formula) = (strip(&job).shortening_mm, predict(&job).shortening_mm);
                off.push(by_formula / by_strip - 1.0);
                println!(
                    "{depth} × {web}, {width} × {flange}, {heat} J/mm: strip {by_strip:.3} mm, formula {by_formula:.3} mm, {:+.1} %",
                    100.0 * off[off.len() - 1]
                );
            }
        }
    }
    let rms = (off.iter().map(|d| d * d).sum::<f64>() / off.len() as f64).sqrt();
    let worst = off.iter().fold(0.0_f64, |most, d| most.max(d.abs()));
    println!("rms {:.1} %, worst {:.1} % of {}", 100.0 * rms, 100.0 * worst, off.len());
    assert!(rms < 0.025 && worst < 0.06, "rms {rms}, worst {worst}");
}

#[test]
fn forces_and_arms_of_both_levels_are_alike() {
    for (name, job) in [("one side", rafter()), ("both sides", both_sides())] {
        let (by_strip, by_formula) = (strip(&job), predict(&job));
        for (s, f) in by_strip.passes.iter().zip(&by_formula.passes) {
            println!(
                "{name}, {:?} {:?}: {:.0} N at {:.2}, {:.2} mm; formula {:.0} N at {:.2} mm",
                s.seam, s.side, s.force_n, s.arm_y_mm, s.arm_z_mm, f.force_n, f.arm_z_mm
            );
            if s.order == 1 {
                assert!((s.force_n / f.force_n - 1.0).abs() < FORMULA_REL, "{} N", s.force_n);
                // by formula within 4 % (rms) of the sections behind it
                let arms = s.arm_z_mm / f.arm_z_mm;
                assert!((arms - 1.0).abs() < 0.10, "{} mm", s.arm_z_mm);
            }
        }
        let off = by_strip.shortening_mm / by_formula.shortening_mm - 1.0;
        println!(
            "{name}: shortening {:.3} mm, formula {:.3} mm",
            by_strip.shortening_mm, by_formula.shortening_mm
        );
        assert!(off.abs() < FORMULA_REL, "{off}");
        assert_eq!(by_strip.flanges, by_formula.flanges, "cup and tilt are those of the formulas");
        assert!(by_strip.warnings.iter().any(|w| w.code == WarningCode::LevelMixed));
        let notes = by_strip.strip.unwrap();
        assert!((notes.formula_camber_mm - by_formula.camber.max_mm).abs() < 1e-12);
    }
}

/// The same weld cut into many passes end to end, so that each tenth of the member has stations of its own.
fn in_tenths(whole: &Job) -> Job {
    let length = whole.member.length_mm;
    let tenths = |p: &Pass| {
        let p = p.clone();
        (0..10).map(move |k| Pass {
            from_mm: length * f64::from(k) / 10.0,
            to_mm: length * f64::from(k + 1) / 10.0,
            ..p.clone()
        })
    };
    Job { passes: whole.passes.iter().flat_map(tenths).collect(), ..whole.clone() }
}

#[test]
fn stations_ten_times_as_dense_change_the_bows_by_less_than_half_a_percent() {
    for job in [rafter(), both_sides()] {
        let (few, many) = (strip(&job), strip(&in_tenths(&job)));
        let of = |p: &Prediction| [p.shortening_mm, p.camber.max_mm, p.sweep.max_mm];
        let (a, b) = (of(&few), of(&many));
        let (n, m) = (few.strip.unwrap(), many.strip.unwrap());
        println!(
            "{} stations {a:.4?} mm, {} stations {b:.4?} mm, told {:.3} %",
            n.stations,
            m.stations,
            100.0 * n.station_gap
        );
        assert!(m.stations > 2 * n.stations);
        for k in 0..3 {
            // Camber and sweep left by welds that cancel: hundredths of a millimetre.
            assert!((a[k] - b[k]).abs() < 0.005 * b[k].abs() + 0.02, "{a:?} against {b:?}");
        }
    }
}

/// Prismatic I of the sequence tables: web 600 × 6, flanges 200 × 10, 12 m, 5 mm legs at 804 J/mm.
fn beam(passes: &[(Seam, Side, u32)]) -> Job {
    let member = prismatic(12_000.0, (600.0, 6.0), (200.0, 10.0), (200.0, 10.0));
    let laid =
        passes.iter().map(|&(seam, side, order)| pass(&member, seam, side, order, 5.0, 804.0)).collect();
    job(member, laid)
}

#[test]
fn a_level_beam_takes_one_station_and_bows_as_its_forces_say() {
    let job = beam(&[(Seam::Outer, Side::Near, 1)]);
    let p = strip(&job);
    let pass = &p.passes[0];
    let s = weldbow::member::properties(&job.member.plates_at(0.0), 600.0, 0.0, Parts::ALL);
    let k = 12_000.0_f64.powi(2) / (8.0 * p.model.e_mpa);
    // A pull at the outer side makes that side concave: the middle goes toward the inner flange.
    let own = pass.force_n * (s.centroid_mm - pass.arm_y_mm) * k / s.i_z_mm4;
    println!("{} station, camber {:.3} mm, by hand {own:.3} mm", p.strip.unwrap().stations, p.camber.max_mm);
    assert_eq!(p.strip.unwrap().stations, 1);
    // The other seam feels a little of it too.
    assert!((p.camber.max_mm / own - 1.0).abs() < 0.02);
}

#[test]
fn sequences_end_as_the_separate_fibre_calculation_has_them() {
    // Its cambers over 12 m, EN properties: outer alone 7.2 mm, then the inner 0.13; a tee first 9.8, then 2.6. It has heat
    // in one dimension, here it spreads through the plates too: 10 %.
    let camber = |job: &Job| strip(job).camber.max_mm;
    let alone = camber(&beam(&[(Seam::Outer, Side::Near, 1)]));
    let then = camber(&beam(&[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 2)]));
    let mut tee_first = beam(&[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 2)]);
    tee_first.orders[0].joined = Parts::WEB.with(Parts::OUTER_FLANGE);
    let p = strip(&tee_first);
    let (tee, both) = (p.build_up[0].camber_mm, p.camber.max_mm);
    println!(
        "alone {alone:.2} mm (7.2), then inner {then:.2} mm (0.13); tee {tee:.2} mm (9.8), then {both:.2} mm (2.6)"
    );
    for (got, want) in [(alone, 7.2), (tee, 9.8), (both, 2.6)] {
        assert!((got.abs() / want - 1.0).abs() < 0.10, "{got} against {want} mm");
        assert!(got.signum() * both > 0.0, "all concave toward the flange welded first");
    }
    assert!(then.abs() < 0.3, "{then}");
}

#[test]
fn near_and_far_mirror_and_a_flange_that_follows_keeps_the_sweep() {
    let [near, far] = [Side::Near, Side::Far].map(|side| strip(&beam(&[(Seam::Outer, side, 1)])));
    assert!((near.sweep.max_mm + far.sweep.max_mm).abs() < 1e-6 && near.sweep.max_mm < 0.0);
    assert!((near.camber.max_mm - far.camber.max_mm).abs() < 1e-6);
    let fitted = |fit| {
        let mut job = beam(&[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 2)]);
        job.orders = vec![
            WeldingOrder { joined: Parts::WEB.with(Parts::OUTER_FLANGE), ..order(1, Wait::Cold) },
            WeldingOrder { fit, ..order(2, Wait::Cold) },
        ];
        strip(&job).sweep.max_mm
    };
    let (straight, follows) = (fitted(FlangeFit::Straight), fitted(FlangeFit::Follows));
    // Separate fibre calculation, EN properties: 6.1 and 9.1 mm.
    println!("straight {straight:.2}, follows {follows:.2} mm");
    // 0.77 of it: that calculation has all heat (t_w + z)/2 from the web plane and pulls at 0.83 of its flange's share there, 3.51 mm; here
    // heat spreads into the web as well, and the pull lies at 2.72 mm. A twentieth to either side.
    for (got, there) in [(straight, 6.1), (follows, 9.1)] {
        let part = got.abs() / there;
        assert!(
            (0.73..0.81).contains(&part),
            "{got} mm against {there} mm of the fibre calculation: {part:.2}"
        );
    }
    assert!((follows / straight - 9.1 / 6.1).abs() < 0.05, "{follows} over {straight}");
}

#[test]
fn waits_factors_and_stitches_act_and_a_short_wait_leaves_more() {
    let with = |change: fn(&mut Job)| {
        let mut job = beam(&[(Seam::Outer, Side::Near, 1), (Seam::Outer, Side::Far, 2)]);
        change(&mut job);
        strip(&job).shortening_mm
    };
    let base = with(|_| ());
    let soon = with(|j| j.orders[1].wait = Wait::Seconds(1.0));
    let doubled = with(|j| j.factors.force = 2.0);
    let stitched =
        with(|j| j.passes.iter_mut().for_each(|p| p.stitch = Some(Stitch { weld_mm: 100.0, gap_mm: 100.0 })));
    let cut = with(|j| j.thermally_cut_web = true);
    println!(
        "{base:.4}, after 1 s {soon:.4}, doubled {doubled:.4}, half of it {stitched:.4}, hot-cut {cut:.4} mm"
    );
    assert!(soon > 1.2 * base && (doubled / base - 2.0).abs() < 1e-9 && (stitched / base - 0.5).abs() < 1e-9);
    assert!(cut < base && cut > 0.7 * base);
}

/// What the formulas have as fitted losses, the strip model has by hot steel alone: 100 K of preheat, and steel of 250 and 480 MPa, which bar
/// theory and the tests of the 1970s (memory) have pulling alike and neither level does. Camber is left out: it is the difference of two seams,
/// of which one lies on the step from thick to thin.
#[test]
fn preheat_and_stronger_steel_take_off_as_much_at_both_levels() {
    let of = |change: &dyn Fn(&mut Job)| {
        let mut job = rafter();
        change(&mut job);
        [strip(&job), predict(&job)].map(|p| [p.shortening_mm, p.sweep.max_mm])
    };
    let warm = |k: f64| of(&move |j: &mut Job| j.passes.iter_mut().for_each(|p| p.preheat_k = k));
    let steel = |mpa: f64| of(&move |j: &mut Job| j.member.steel.yield_mpa = mpa);
    for (what, before, after) in
        [("100 K of preheat", warm(0.0), warm(100.0)), ("480 over 250 MPa", steel(250.0), steel(480.0))]
    {
        let kept = |level: usize, k: usize| after[level][k] / before[level][k];
        for (k, name) in ["shortening", "sweep"].into_iter().enumerate() {
            let (by_strip, by_formula) = (kept(0, k), kept(1, k));
            println!("{what}: {name} kept {by_strip:.3} by strip, {by_formula:.3} by formula");
            // 0.896, 0.903 and 0.818, 0.858 by strip when this was written; the sweep is an arm apart
            assert!((by_formula - by_strip).abs() < 0.06, "{what}, {name}: {by_strip} and {by_formula}");
            assert!((0.75..0.95).contains(&by_strip), "{what}, {name}: {by_strip}");
        }
    }
}

#[test]
fn threads_change_no_bit() {
    let job = both_sides();
    let text = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| serde_json::to_string(&strip(&job)).unwrap())
    };
    let one = text(1);
    assert!(one == text(2) && one == text(5), "results differ with the number of threads");
    assert!(!one.contains("null"), "no numbers");
}

#[test]
fn too_much_heat_is_warned_of_with_its_depth() {
    let mut job = beam(&[(Seam::Outer, Side::Near, 1)]);
    job.passes[0].heat_j_per_mm = 6000.0;
    job.passes[0].heat_source = HeatSource::Stated;
    let p = strip(&job);
    let warning = p.warnings.iter().find(|w| w.code == WarningCode::MeltThrough).unwrap();
    println!("{}", warning.text);
    assert!(warning.text.to_string().contains("melts 10 mm of a 10 mm flange"), "{}", warning.text);
    let usual = strip(&rafter());
    assert!(usual.warnings.iter().all(|w| w.code != WarningCode::MeltThrough), "{:?}", usual.warnings);
}

fn command(arguments: &[&str]) -> std::process::Output {
    Command::cargo_bin("weldbow").unwrap().args(arguments).output().unwrap()
}

#[test]
fn the_command_shows_the_level_its_stations_and_the_other_level() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies/jobs/column.toml").display().to_string();
    let output = command(&["predict", "--level", "strip", &file]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(0), "{text}");
    for part in [
        "Level of model: strip",
        "sections solved",
        " strip ",
        " formula ",
        "still those of the formula level",
    ] {
        assert!(text.contains(part), "{part:?} is not in:\n{text}");
    }
    let keys = |level: &str| {
        let output = command(&["predict", "--json", "--level", level, &file]);
        let value: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        assert_eq!(value["model"]["level"], level);
        value.as_object().unwrap().keys().cloned().collect::<Vec<_>>()
    };
    let (formula, strip) = (keys("formula"), keys("strip"));
    let beyond: Vec<_> = strip.iter().filter(|key| !formula.contains(key)).collect();
    assert_eq!(beyond, ["strip"], "names are the same at both levels but for the notes of this one");
    assert!(formula.iter().all(|key| strip.contains(key)));
}

#[test]
fn a_fillet_the_strip_model_cannot_place_is_an_error_that_names_station_and_room() {
    let member = prismatic(4000.0, (60.0, 6.0), (60.0, 8.0), (60.0, 8.0));
    let laid = vec![pass(&member, Seam::Outer, Side::Near, 1, 28.0, 3000.0)];
    let error = predict_strip(&job(member, laid)).unwrap_err().to_string();
    println!("{error}");
    assert!(
        error.contains("x = 2000 mm") && error.contains("28 mm does not fit the flange, which offers 27 mm")
    );
}

/// Latent heat given back in the first step after the arc threw that step off; half a joule per mm more or less did not.
#[test]
fn a_heat_step_that_does_not_settle_is_halved() {
    let shortening = |heat: f64| {
        let member = prismatic(6000.0, (500.0, 5.0), (200.0, 16.0), (200.0, 16.0));
        let passes = Seam::BOTH.map(|seam| pass(&member, seam, Side::Near, 1, 3.0, heat)).to_vec();
        strip(&job(member, passes)).shortening_mm
    };
    let [less, mid, more] = [499.0, 500.0, 501.0].map(shortening);
    println!("{less:.4}, {mid:.4}, {more:.4} mm");
    assert!((mid / (0.5 * (less + more)) - 1.0).abs() < 0.01, "{less} {mid} {more}");
}

/// Sections of a plain run; ten thousand are welded by `cargo bench --bench strip -- sections`: of seed 1 none failed, 89 steps were
/// halved, heat balances to 2e-8.
const SECTIONS: u64 = 160;

/// Others every day: `.ci/run` gives the day as seed.
#[test]
fn none_of_some_hundred_sections_drawn_at_random_is_without_an_answer() {
    let seed = std::env::var("WELDBOW_FUZZ_SEED").map_or(1, |text| text.parse().unwrap());
    let tried = try_sections(seed, SECTIONS);
    println!(
        "{} of {SECTIONS} sections of seed {seed} failed; heat balance to {:.0e}, {} steps halved",
        tried.failures.len(),
        tried.balance,
        tried.halved
    );
    assert!(tried.failures.is_empty(), "seed {seed}: {:#?}", tried.failures);
}

/// Both sides at once, edges cut hot. The sweep's ± is that of one side's own heat: 7 % more on one
/// fillet sweeps a solved section by 0.15 mm, four of them by 0.3, twice that is 0.6.
#[test]
fn a_symmetric_job_sweeps_nowhere_with_hot_cut_edges_and_its_span_is_what_one_side_does() {
    let member = prismatic(9000.0, (600.0, 8.0), (180.0, 10.0), (180.0, 10.0));
    let sides = [Side::Near, Side::Far];
    let passes = sides.iter().flat_map(|side| Seam::BOTH.map(|s| pass(&member, s, *side, 1, 6.0, 1000.0)));
    let mut job = job(member.clone(), passes.collect());
    job.thermally_cut_web = true;
    let p = strip(&job);
    println!("sweep {:e} ± {:.3} mm", p.sweep.max_mm, p.sweep.max_2s_mm);
    assert!(p.sweep.max_mm.abs() < 1e-9, "{}", p.sweep.max_mm);
    assert!((p.sweep.max_2s_mm / 0.6 - 1.0).abs() < 0.15, "{}", p.sweep.max_2s_mm);
}
