//! Members that several tests use, built without a file.

#![allow(dead_code, missing_docs)]

use weldbow::member::{
    Delivered, FlangePiece, Made, Member, Parts, Preparation, Profile, Seam, Splice, WebPiece,
};
use weldbow::prediction::{Factors, Job};
use weldbow::steel::{Steel, grade};
use weldbow::tolerance::{Set, Use};
use weldbow::units::System;
use weldbow::welding::{FlangeFit, HeatSource, Pass, Process, Side, Wait, WeldingOrder, fillet};

pub(crate) fn web(to_mm: f64, thickness_mm: f64) -> Vec<WebPiece> {
    vec![WebPiece { from_mm: 0.0, to_mm, thickness_mm, splice: None, comes: Delivered::STRAIGHT }]
}

pub(crate) fn flange(to_mm: f64, width_mm: f64, thickness_mm: f64) -> Vec<FlangePiece> {
    vec![FlangePiece {
        from_mm: 0.0,
        to_mm,
        width_mm,
        thickness_mm,
        splice: None,
        comes: Delivered::STRAIGHT,
    }]
}

/// A prismatic I: web d × t_w, flanges (b, t).
pub(crate) fn prismatic(length_mm: f64, web_mm: (f64, f64), outer: (f64, f64), inner: (f64, f64)) -> Member {
    Member {
        length_mm,
        depth: Profile::level(length_mm, web_mm.0),
        web: web(length_mm, web_mm.1),
        outer_flange: flange(length_mm, outer.0, outer.1),
        inner_flange: flange(length_mm, inner.0, inner.1),
        steel: Steel::from(grade("S355").unwrap()),
    }
}

/// A full-length pass with a stated net heat.
pub(crate) fn pass(
    member: &Member,
    seam: Seam,
    side: Side,
    order: u32,
    leg_mm: f64,
    heat_j_per_mm: f64,
) -> Pass {
    Pass {
        seam,
        side,
        from_mm: 0.0,
        to_mm: member.length_mm,
        order,
        leg_mm,
        layers: 1,
        heat_j_per_mm,
        heat_source: HeatSource::Stated,
        deposit_mm2: fillet::deposit_mm2(leg_mm, 0.0),
        stitch: None,
        preheat_k: 0.0,
        force_factor: 1.0,
        process: Process::SubmergedArc,
        travel_speed_mm_s: None,
        wps: None,
    }
}

pub(crate) fn order(number: u32, wait: Wait) -> WeldingOrder {
    WeldingOrder { number, joined: Parts::ALL, wait, fit: FlangeFit::Straight }
}

pub(crate) fn job(member: Member, passes: Vec<Pass>) -> Job {
    let mut numbers: Vec<u32> = passes.iter().map(|p| p.order).collect();
    numbers.sort_unstable();
    numbers.dedup();
    Job {
        title: "test member".to_owned(),
        units: System::Si,
        member,
        passes,
        orders: numbers.into_iter().map(|n| order(n, Wait::Cold)).collect(),
        fit_up_gap_mm: 0.0,
        hold: weldbow::angular::hold::Hold::LINE,
        held_ends: [false; 2],
        attachments: Vec::new(),
        used_as: Use::Beam,
        thermally_cut_web: false,
        factors: Factors::NONE,
        learned: None,
        assembly: weldbow::prediction::Assembly::default(),
        drawn: weldbow::prediction::Assembly::default(),
        fitting: weldbow::prediction::Fitting::NONE,
        wanted_camber: None,
        tolerances: vec![Set::En1090Class1],
        own_limits: Vec::new(),
        head_limit_deg: 15.0,
        carries: None,
        notes: Vec::new(),
        own_spread: None,
        recorded: None,
    }
}

/// The invented rafter R2: 9 m, 400 → 760 mm, three flange pieces, both seams at once from the near side.
pub(crate) fn rafter() -> Job {
    let splice =
        Splice { preparation: Preparation::SingleV, gap_mm: 2.0, heat_j_per_mm: None, made: Made::Before };
    let member = Member {
        length_mm: 9000.0,
        depth: Profile::new(vec![(0.0, 400.0), (6000.0, 760.0), (9000.0, 760.0)]),
        web: web(9000.0, 5.0),
        outer_flange: flange(9000.0, 180.0, 8.0),
        inner_flange: vec![
            FlangePiece {
                from_mm: 0.0,
                to_mm: 5000.0,
                width_mm: 180.0,
                thickness_mm: 10.0,
                splice: Some(splice),
                comes: Delivered::STRAIGHT,
            },
            FlangePiece {
                from_mm: 5000.0,
                to_mm: 9000.0,
                width_mm: 180.0,
                thickness_mm: 14.0,
                splice: None,
                comes: Delivered::STRAIGHT,
            },
        ],
        steel: Steel::from(grade("S355").unwrap()),
    };
    let passes = Seam::BOTH.map(|seam| pass(&member, seam, Side::Near, 1, 6.0, 1004.4)).to_vec();
    job(member, passes)
}

/// A press of two rams for members of a riding arena's frames; 8 m supports at most.
pub(crate) fn press() -> weldbow::straighten::plan::Press {
    weldbow::straighten::plan::Press {
        spans_mm: (3000.0, 8000.0),
        most_n: 400e3,
        most_stroke_mm: 150.0,
        rams_apart_mm: Some(2600.0),
        pads: weldbow::straighten::press::Pads { ram_mm: 250.0, support_mm: 250.0, leg_mm: 6.0 },
        give_mm_per_n: 5e-6,
        most_mu: 5.0,
        patch: false,
        guides: weldbow::straighten::press::Guides {
            at_supports: true,
            at_rams: true,
            more: 2,
            most_n: None,
        },
    }
}

/// A bow of even curvature at stations a metre apart, or nearly.
pub(crate) fn arc(length_mm: f64, bow_mm: f64) -> (Vec<f64>, Vec<f64>) {
    let x: Vec<f64> = (0..=16).map(|i| length_mm * f64::from(i) / 16.0).collect();
    let y = x.iter().map(|x| 4.0 * bow_mm * x * (length_mm - x) / (length_mm * length_mm)).collect();
    (x, y)
}
