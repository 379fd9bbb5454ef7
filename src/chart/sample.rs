//! Invented jobs and an invented prediction to draw. The numbers follow from nothing: they only have the
//! size and the shape that results usually have.

use std::f64::consts::PI;
use weldbow_engine::member::{FlangePiece, Seam};
use weldbow_engine::prediction::{
    Bow, Divided, Estimate, FlangeAngles, Job, Prediction, Shortening, Twist, WeldingStep, predict,
};
use weldbow_engine::tolerance::{Band, Quantity, Verdict};
use weldbow_engine::welding::{Pass, Side};

/// A tapered member with one kink and two web plates.
const TAPERED: &str = r#"
title = "Rafter R2, riding arena"
tolerances = ["en-1090-2-class-1"]
[member]
length = "9 m"
steel = "S355"
depth = [["0 m", "400 mm"], ["6 m", "760 mm"], ["9 m", "760 mm"]]
web = [{ to = "6 m", thickness = "5 mm", splice = {} }, { thickness = "6 mm" }]
outer_flange = [{ width = "180 mm", thickness = "8 mm" }]
"#;

/// The job of that text, with one bead after another in the given order of laying.
pub(super) fn job_of(text: &str, beads: &[(Seam, Side, u32)]) -> Job {
    let pass = |(seam, side, order): &(Seam, Side, u32)| {
        let (seam, side) = (seam.name(), side.name());
        format!("[[pass]]\nseam = '{seam}'\nside = '{side}'\nstep = {order}\nleg = '6 mm'\n")
    };
    let passes: String = beads.iter().map(pass).collect();
    weldbow_files::job::read_text("sample", &format!("{text}{passes}")).unwrap_or_else(|e| panic!("{e}"))
}

/// The usual job: both seams from the near side, one after the other.
pub(super) fn job() -> Job {
    let plates = "inner_flange = [{ to = '4.5 m', width = '180 mm', thickness = '10 mm', splice = {} }, \
                  { width = '200 mm', thickness = '14 mm' }]\n";
    job_of(&format!("{TAPERED}{plates}"), &[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 2)])
}

/// Four orders, wanted camber, both sides.
pub(super) fn busy_job() -> Job {
    let plates = "inner_flange = [{ to = '3 m', width = '180 mm', thickness = '8 mm', splice = {} }, \
                  { to = '6 m', width = '200 mm', thickness = '14 mm', splice = {} }, \
                  { width = '240 mm', thickness = '20 mm' }]\n[camber]\nrise = '6 mm'\ntoward = 'outer'\n";
    let beads = [
        (Seam::Outer, Side::Near, 1),
        (Seam::Inner, Side::Near, 2),
        (Seam::Outer, Side::Far, 3),
        (Seam::Inner, Side::Far, 4),
    ];
    job_of(&format!("{TAPERED}{plates}"), &beads)
}

/// A ± in parts that add up by their squares.
fn divided(all_mm: f64) -> Divided {
    Divided { all_mm, shared_mm: 0.6 * all_mm, welding_mm: 0.0, plates_mm: 0.8 * all_mm }
}

fn bow(length_mm: f64, max_mm: f64, skew: f64, toward: [&'static str; 2]) -> Bow {
    let shape = |s: f64| (PI * s.powf(skew)).sin();
    let at = |i: usize| length_mm * i as f64 / 60.0;
    Bow {
        max_mm,
        at_mm: length_mm * 0.5_f64.powf(1.0 / skew),
        toward: if max_mm == 0.0 { "straight" } else { toward[usize::from(max_mm < 0.0)] },
        max_2s_mm: 0.3 * max_mm.abs(),
        by_plates_mm: 0.0,
        max_2s_of: divided(0.3 * max_mm.abs()),
        profile: (0..=60).map(|i| [at(i), max_mm * shape(i as f64 / 60.0)]).collect(),
        profile_2s_mm: (0..=60).map(|i| 0.3 * max_mm.abs() * shape(i as f64 / 60.0)).collect(),
        ..Bow::default()
    }
}

/// Method, source, value over the predicted one or mm, and whether it is a bound.
type Other = (&'static str, &'static str, f64, bool);

fn estimates(camber_mm: f64, sweep_mm: f64) -> Vec<Estimate> {
    let camber: [Other; 4] = [
        ("tendon force 0.2 Q on the arm", "first author, year (memory)", 0.8, false),
        ("weld area form, 0.005 A L² / I", "second author, year (read)", 1.35, false),
        ("flange form with yield-limited strip under the weld", "third author, year (quoted)", 1.12, false),
        ("no prior stress, every pass alone", "own bound", 1.7, true),
    ];
    let shortening: [Other; 2] = [
        ("tendon force 0.2 Q over E A", "first author, year (memory)", 1.9, false),
        ("0.12 per weld area ratio", "third author, year (quoted)", 2.6, false),
    ];
    let sweep: [Other; 2] = [
        ("tendon force 0.2 Q at half the leg", "first author, year (memory)", 0.7, false),
        ("whole arm kept", "own bound", 1.4, true),
    ];
    let of = |quantity, of_it: &[Other], times: f64| -> Vec<Estimate> {
        let estimate = |&(method, source, of_it, bound): &Other| Estimate {
            quantity,
            method,
            source,
            value: of_it * times,
            bound,
        };
        of_it.iter().map(estimate).collect()
    };
    [
        of("camber.max_mm", &camber, camber_mm),
        of("shortening_mm", &shortening, 1.0),
        of("sweep.max_mm", &sweep, sweep_mm),
    ]
    .concat()
}

/// A prediction for that job with the given largest bows (mm, signed); what no picture shows is the job's own.
pub(super) fn prediction(job: &Job, camber_mm: f64, sweep_mm: f64) -> Prediction {
    let length = job.member.length_mm;
    let camber = bow(length, camber_mm, 1.15, ["inner", "outer"]);
    let count = job.passes.len() as f64;
    // judged is what there is more than wanted, at mid-length
    let deviation_mm = job.wanted_camber.map_or(camber_mm, |wanted| {
        let full = wanted.offset_mm(0.5 * length, length);
        (camber_mm - full) * full.signum()
    });
    let step = |(i, pass): (usize, &Pass)| {
        // the bow swings from one side to the other while the seams alternate
        let share = if i % 2 == 0 && count > 1.0 { -0.8 } else { (i + 1) as f64 / count };
        WeldingStep {
            pass: i + 1,
            order: pass.order,
            seam: Some(pass.seam),
            side: Some(pass.side),
            shortening_mm: 1.1 * (i + 1) as f64,
            camber_mm: share * camber_mm,
            sweep_mm,
            camber_profile_mm: camber.profile.iter().map(|p| share * p[1]).collect(),
            sweep_profile_mm: camber
                .profile
                .iter()
                .map(|p| 4.0 * sweep_mm * p[0] / length * (1.0 - p[0] / length))
                .collect(),
        }
    };
    let shape = |(i, seam, p): (usize, Seam, &FlangePiece)| {
        let one_sided = !job.passes.iter().any(|q| q.seam == seam && q.side == Side::Far);
        let cup = 0.02 / p.thickness_mm.sqrt() * (1.0 + 0.1 * i as f64);
        let tilt = if one_sided { 0.9 * cup } else { 0.0 };
        FlangeAngles {
            flange: seam,
            x_mm: 0.5 * (p.from_mm + p.to_mm),
            from_mm: p.from_mm,
            to_mm: p.to_mm,
            width_mm: p.width_mm,
            thickness_mm: p.thickness_mm,
            q_j_per_mm3: 4.0,
            cup_rad: cup,
            tilt_rad: tilt,
            near_toe_mm: 0.5 * p.width_mm * (cup + tilt),
            far_toe_mm: 0.5 * p.width_mm * (cup - tilt),
            cup_2s_rad: 0.6 * cup,
            tilt_2s_rad: 1.2 * tilt,
            toe_2s_mm: 0.3 * p.width_mm * cup,
            toe_2s_of: divided(0.3 * p.width_mm * cup),
            narrowing_mm: 0.2,
        }
    };
    let own = predict(job);
    let verdict = |quantity, value: f64, limit: f64, standard, clause| Verdict {
        quantity,
        value,
        value_2s: 0.3 * value.abs(),
        limit,
        band: Band::both(limit),
        margin: limit - value.abs(),
        standard,
        clause,
        at_mm: 4500.0,
        ..own.verdicts[0].clone()
    };
    let verdicts = vec![
        verdict(Quantity::Camber, deviation_mm, 9.0, "EN 1090-2", "Table B.1, 3"),
        verdict(Quantity::Camber, deviation_mm, 14.0, "own limit", ""),
        verdict(Quantity::Sweep, sweep_mm, 12.0, "EN 1090-2", "Table B.1, 4"),
    ];
    Prediction {
        shortening_mm: 2.3,
        shortening: Shortening { centroid_mm: 2.3, centroid_2s_mm: 0.7, ..own.shortening },
        build_up: job.passes.iter().enumerate().map(step).collect(),
        camber,
        sweep: bow(length, sweep_mm, 1.0, ["near", "far"]),
        twist: Twist {
            max_rad: 0.002,
            at_mm: 0.5 * length,
            max_2s_rad: 0.001,
            apart_mm: 0.9,
            flange_sweep_mm: [sweep_mm - 0.5, sweep_mm + 0.4],
            flange_profile_mm: [vec![0.0, sweep_mm - 0.5, 0.0], vec![0.0, sweep_mm + 0.4, 0.0]],
            profile: vec![[0.0, 0.0], [0.5 * length, 0.002], [length, 0.0]],
            ..Twist::default()
        },
        flanges: Seam::BOTH
            .into_iter()
            .flat_map(|seam| job.member.flange(seam).iter().enumerate().map(move |(i, p)| (i, seam, p)))
            .map(shape)
            .collect(),
        estimates: estimates(camber_mm, sweep_mm),
        verdicts,
        ..own
    }
}
