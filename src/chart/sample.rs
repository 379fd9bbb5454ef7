//! An invented job and an invented prediction to draw. The numbers follow from nothing: they only have the
//! size and the shape that results usually have.

use std::f64::consts::PI;
use weldbow_engine::member::{
    Delivered, FlangePiece, Made, Member, Parts, Preparation, Profile, Seam, Splice, WebPiece,
};
use weldbow_engine::prediction::{
    Allowance, Bow, Divided, DividedTurn, Estimate, Factors, FlangeAngles, Job, Model, PassResult,
    Prediction, Shortening, Twist, WantedCamber, WeldingStep,
};
use weldbow_engine::steel::{GRADES, Steel};
use weldbow_engine::tolerance::{Band, Judgement, Quantity, Trust, Use, Verdict};
use weldbow_engine::units::System;
use weldbow_engine::welding::{FlangeFit, HeatSource, Pass, Process, Side, Wait, WeldingOrder};

const SPLICE: Splice =
    Splice { preparation: Preparation::Square, gap_mm: 2.0, heat_j_per_mm: None, made: Made::Before };

/// Stretches of flange: (width, thickness) in mm, equally long.
fn flange(length_mm: f64, sizes: &[(f64, f64)]) -> Vec<FlangePiece> {
    let each = length_mm / sizes.len() as f64;
    let last = sizes.len() - 1;
    let piece = |(i, &(width_mm, thickness_mm)): (usize, &(f64, f64))| FlangePiece {
        from_mm: each * i as f64,
        to_mm: each * (i + 1) as f64,
        width_mm,
        thickness_mm,
        splice: (i < last).then_some(SPLICE),
        comes: Delivered::STRAIGHT,
    };
    sizes.iter().enumerate().map(piece).collect()
}

/// A tapered member with one kink and two inner flange plates.
pub(super) fn member() -> Member {
    Member {
        length_mm: 9000.0,
        depth: Profile::new(vec![(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)]),
        web: vec![
            WebPiece {
                from_mm: 0.0,
                to_mm: 6000.0,
                thickness_mm: 5.0,
                splice: Some(SPLICE),
                comes: Delivered::STRAIGHT,
            },
            WebPiece {
                from_mm: 6000.0,
                to_mm: 9000.0,
                thickness_mm: 6.0,
                splice: None,
                comes: Delivered::STRAIGHT,
            },
        ],
        outer_flange: flange(9000.0, &[(180.0, 8.0)]),
        inner_flange: flange(9000.0, &[(180.0, 10.0), (200.0, 14.0)]),
        steel: Steel::from(&GRADES[2]),
    }
}

/// A pass along the whole of a seam.
fn pass(length_mm: f64, seam: Seam, side: Side, order: u32) -> Pass {
    Pass {
        seam,
        side,
        from_mm: 0.0,
        to_mm: length_mm,
        order,
        leg_mm: 6.0,
        layers: 1,
        heat_j_per_mm: 600.0,
        heat_source: HeatSource::Procedure,
        deposit_mm2: 22.0,
        stitch: None,
        preheat_k: 0.0,
        force_factor: 1.0,
        process: Process::SubmergedArc,
        travel_speed_mm_s: None,
        wps: None,
    }
}

/// That member with one bead after another in the given order of laying.
pub(super) fn job_of(member: Member, beads: &[(Seam, Side, u32)]) -> Job {
    let passes: Vec<Pass> = beads.iter().map(|b| pass(member.length_mm, b.0, b.1, b.2)).collect();
    let mut numbers: Vec<u32> = beads.iter().map(|b| b.2).collect();
    numbers.dedup();
    let order =
        |number| WeldingOrder { number, joined: Parts::ALL, wait: Wait::Cold, fit: FlangeFit::Straight };
    Job {
        title: "Rafter R2, riding arena".to_owned(),
        units: System::Si,
        member,
        passes,
        orders: numbers.into_iter().map(order).collect(),
        fit_up_gap_mm: 0.0,
        hold: weldbow_engine::angular::hold::Hold::LINE,
        held_ends: [false; 2],
        attachments: Vec::new(),
        used_as: Use::Beam,
        thermally_cut_web: false,
        factors: Factors::NONE,
        learned: None,
        assembly: weldbow_engine::prediction::Assembly::default(),
        drawn: weldbow_engine::prediction::Assembly::default(),
        fitting: weldbow_engine::prediction::Fitting::NONE,
        wanted_camber: None,
        tolerances: Vec::new(),
        own_limits: Vec::new(),
        head_limit_deg: 15.0,
        carries: None,
        notes: Vec::new(),
        recorded: None,
    }
}

/// The usual job: both seams from the near side, one after the other.
pub(super) fn job() -> Job {
    job_of(member(), &[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 2)])
}

/// Four orders, wanted camber, both sides.
pub(super) fn busy_job() -> Job {
    let mut job = job_of(
        Member { inner_flange: flange(9000.0, &[(180.0, 8.0), (200.0, 14.0), (240.0, 20.0)]), ..member() },
        &[
            (Seam::Outer, Side::Near, 1),
            (Seam::Inner, Side::Near, 2),
            (Seam::Outer, Side::Far, 3),
            (Seam::Inner, Side::Far, 4),
        ],
    );
    job.wanted_camber = Some(WantedCamber { rise_mm: 6.0, toward: Seam::Outer });
    job
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

fn verdict(
    quantity: Quantity,
    value: f64,
    limit: f64,
    standard: &'static str,
    clause: &'static str,
) -> Verdict {
    Verdict {
        quantity,
        value,
        value_2s: 0.3 * value.abs(),
        made_up: 0.0,
        limit,
        band: Band::both(limit),
        margin: limit - value.abs(),
        set: "en-1090-2",
        standard,
        edition: "",
        clause,
        rule: "L/1000, at least 5 mm",
        trust: Trust::MemoryCheck,
        verdict: Judgement::Within,
        likely: None,
        drawn: None,
        place: "along the member",
        at_mm: 4500.0,
    }
}

fn estimates(camber_mm: f64, sweep_mm: f64) -> Vec<Estimate> {
    let estimate =
        |quantity, method, source, value, bound| Estimate { quantity, method, source, value, bound };
    vec![
        estimate(
            "camber.max_mm",
            "tendon force 0.2 Q on the arm",
            "first author, year (memory)",
            0.8 * camber_mm,
            false,
        ),
        estimate(
            "camber.max_mm",
            "weld area form, 0.005 A L² / I",
            "second author, year (read)",
            1.35 * camber_mm,
            false,
        ),
        estimate(
            "camber.max_mm",
            "flange form with yield-limited strip under the weld",
            "third author, year (quoted)",
            1.12 * camber_mm,
            false,
        ),
        estimate("camber.max_mm", "no prior stress, every pass alone", "own bound", 1.7 * camber_mm, true),
        estimate("shortening_mm", "tendon force 0.2 Q over E A", "first author, year (memory)", 1.9, false),
        estimate("shortening_mm", "0.12 per weld area ratio", "third author, year (quoted)", 2.6, false),
        estimate(
            "sweep.max_mm",
            "tendon force 0.2 Q at half the leg",
            "first author, year (memory)",
            0.7 * sweep_mm,
            false,
        ),
        estimate("sweep.max_mm", "whole arm kept", "own bound", 1.4 * sweep_mm, true),
    ]
}

/// A prediction for that job with the given largest bows (mm, signed).
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
    let passes = job.passes.iter().map(|p| PassResult {
        seam: p.seam,
        side: p.side,
        order: p.order,
        wps: None,
        from_mm: p.from_mm,
        to_mm: p.to_mm,
        leg_mm: p.leg_mm,
        stitch: p.stitch,
        heat_input_j_per_mm: p.heat_j_per_mm,
        heat_source: p.heat_source,
        force_n: 110e3,
        lone_force_n: 120e3,
        arm_y_mm: 1.0,
        arm_z_mm: 3.0,
        parts: Parts::ALL,
        force_profile: Vec::new(),
        arm_z_profile: Vec::new(),
    });
    Prediction {
        title: job.title.clone(),
        model: Model {
            level: "formula",
            e_mpa: 206_000.0,
            yield_mpa: 355.0,
            trust: "invented",
            length_mm: length,
        },
        shortening_mm: 2.3,
        shortening: Shortening {
            centroid_mm: 2.3,
            outer_edge_mm: 2.2,
            inner_edge_mm: 2.4,
            outer_flange_mm: 2.2,
            inner_flange_mm: 2.4,
            centroid_2s_mm: 0.7,
            centroid_2s_of: divided(0.7),
        },
        build_up: job.passes.iter().enumerate().map(step).collect(),
        camber,
        sweep: bow(length, sweep_mm, 1.0, ["near", "far"]),
        twist: Twist {
            max_rad: 0.002,
            at_mm: 0.5 * length,
            max_2s_rad: 0.001,
            max_2s_of: DividedTurn { shared_rad: 0.001, ..DividedTurn::default() },
            by_plates_rad: 0.0,
            end_to_end_rad: 0.0,
            end_to_end_2s_rad: 0.0,
            apart_mm: 0.9,
            flange_sweep_mm: [sweep_mm - 0.5, sweep_mm + 0.4],
            flange_profile_mm: [vec![0.0, sweep_mm - 0.5, 0.0], vec![0.0, sweep_mm + 0.4, 0.0]],
            profile: vec![[0.0, 0.0], [0.5 * length, 0.002], [length, 0.0]],
            profile_2s_rad: [vec![0.0, 0.001, 0.0], vec![0.0, 0.001, 0.0]],
            caution: "",
        },
        passes: passes.collect(),
        cross_welds: None,
        fit_up: Vec::new(),
        flanges: Seam::BOTH
            .into_iter()
            .flat_map(|seam| job.member.flange(seam).iter().enumerate().map(move |(i, p)| (i, seam, p)))
            .map(shape)
            .collect(),
        hold: job.hold,
        ripple: Vec::new(),
        estimates: estimates(camber_mm, sweep_mm),
        verdicts: vec![
            verdict(Quantity::Camber, deviation_mm, 9.0, "EN 1090-2", "Table B.1, 3"),
            verdict(Quantity::Camber, deviation_mm, 14.0, "own limit", ""),
            verdict(Quantity::Sweep, sweep_mm, 12.0, "EN 1090-2", "Table B.1, 4"),
        ],
        allowance: Allowance::default(),
        strip: None,
        mass_kg: 620.0,
        warnings: Vec::new(),
    }
}
