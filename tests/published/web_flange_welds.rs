//! Web-to-flange fillets: strengths, smallest sizes and shear flow against code values and worked numbers.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::member::{Plates, Seam, Span};
use weldbow::steel::Steel;
use weldbow::strength::{Code, Demand, Electrode, Flow, Moment, Strengths, flow_at, minimum, q_over_i};
use weldbow::units::{Kind, System, read};

const SHEET: &str = "web_flange_welds";

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Given {
    f_exx_ksi: f64,
    f_u_mpa: f64,
    yield_mpa: f64,
    rule: String,
    t: f64,
    seam: Option<Seam>,
    lines: f64,
}

fn si(kind: Kind, text: &str) -> f64 {
    read(kind, text).unwrap()
}

fn steel(yield_mpa: f64, tensile_mpa: f64) -> Steel {
    Steel { name: "own values".to_owned(), yield_mpa, tensile_mpa, e_mpa: 205_000.0 }
}

fn e70() -> Strengths {
    let steel = steel(345.0, 450.0);
    Strengths::of(Code::AiscLrfd, &Electrode::usual(&steel), &steel)
}

/// Shear flow of a level member under shear alone.
fn level(plates: Plates, depth_mm: f64, shear_n: f64, seam: Seam) -> Flow {
    let span = Span { from_mm: 0.0, to_mm: 1000.0, plates, depth_from_mm: depth_mm, slope: 0.0 };
    let demand =
        Demand::Beam { shear: vec![(0.0, shear_n), (1000.0, shear_n)], moment: Moment::FromStart(5e8) };
    flow_at(&demand, &span, seam, 500.0)
}

fn w1(seam: Seam) -> f64 {
    let inch = 25.4;
    let plates = Plates {
        web_mm: 0.25 * inch,
        outer_mm: (8.0 * inch, 0.5 * inch),
        inner_mm: (8.0 * inch, 0.375 * inch),
    };
    level(plates, 48.0 * inch, si(Kind::Force, "40 kip"), seam).n_per_mm
}

fn w2(seam: Seam) -> f64 {
    let plates = Plates { web_mm: 6.0, outer_mm: (200.0, 10.0), inner_mm: (250.0, 16.0) };
    level(plates, 874.0, 400e3, seam).n_per_mm
}

/// The member of the tapered example.
fn tapered() -> (Span, Demand) {
    let plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 10.0) };
    let span = Span { from_mm: 0.0, to_mm: 9000.0, plates, depth_from_mm: 284.0, slope: 600.0 / 9000.0 };
    let demand = Demand::Beam { shear: vec![(0.0, 100e3), (9000.0, 100e3)], moment: Moment::FromStart(0.0) };
    (span, demand)
}

/// The example neglects the inclination of the inner flange, so its cos³ is undone here by a wider flange of the same
/// centroid distance: t/(2 cos) against t/2 changes the centroid by 0.01 mm.
fn tapered_flow(seam: Seam) -> Flow {
    let (mut span, demand) = tapered();
    let secant = (1.0 + span.slope * span.slope).sqrt();
    span.plates.inner_mm = (150.0 * secant * secant * secant * secant, 10.0 / secant);
    flow_at(&demand, &span, seam, 4500.0)
}

fn seam(g: &Given) -> Seam {
    g.seam.unwrap()
}

#[test]
fn strengths_and_smallest_sizes_are_those_of_the_codes() {
    let per_inch = si(Kind::ForcePerLength, "1 kip/in");
    check(SHEET, "fillet per sixteenth", |g: &Given| {
        assert!((g.f_exx_ksi - 70.0).abs() < 1e-12);
        e70().line_n_per_mm(25.4 / 16.0) / per_inch
    });
    check(SHEET, "EN fillet strength", |g: &Given| {
        let steel = steel(g.yield_mpa, g.f_u_mpa);
        Strengths::of(Code::En1993, &Electrode::usual(&steel), &steel).throat_mpa
    });
    check(SHEET, "smallest leg by inches", |g: &Given| {
        let t = 25.4 * g.t;
        minimum(&g.rule).unwrap().leg_mm(t, 2.0 * t, System::Us).unwrap() / 25.4
    });
    check(SHEET, "smallest leg by millimetres", |g: &Given| {
        minimum(&g.rule).unwrap().leg_mm(g.t, 2.0 * g.t, System::Si).unwrap()
    });
    check(SHEET, "smallest throat", |g: &Given| {
        minimum(&g.rule).unwrap().leg_mm(0.5 * g.t, g.t, System::Si).unwrap() / std::f64::consts::SQRT_2
    });
}

#[test]
fn the_worked_welds_come_out_as_worked() {
    let per_inch = si(Kind::ForcePerLength, "1 kip/in");
    check(SHEET, "W1 shear flow", |g: &Given| w1(seam(g)) / per_inch);
    check(SHEET, "W1 leg", |g: &Given| e70().leg_mm(w1(seam(g)), 1.0) / 25.4);
    check(SHEET, "W2 shear flow", |g: &Given| w2(seam(g)));
    let steel = steel(355.0, 510.0);
    let en = Strengths::of(Code::En1993, &Electrode::usual(&steel), &steel);
    check(SHEET, "W2 throat", |g: &Given| en.leg_mm(w2(seam(g)), g.lines) / std::f64::consts::SQRT_2);
}

#[test]
fn a_taper_takes_shear_off_the_weld_where_the_moment_grows_with_the_depth() {
    check(SHEET, "tapered V Q over I", |g: &Given| tapered_flow(seam(g)).prismatic_n_per_mm);
    check(SHEET, "tapered shear flow", |g: &Given| tapered_flow(seam(g)).n_per_mm);
}

#[test]
fn the_shear_flow_is_the_numerical_derivative_of_the_flange_force() {
    let (span, demand) = tapered();
    for seam in Seam::BOTH {
        let force =
            |x: f64| demand.moment_n_mm(x) * q_over_i(&span.plates, seam, span.depth_mm(x), span.slope).0;
        for x in [900.0, 4500.0, 8100.0] {
            let closed = flow_at(&demand, &span, seam, x).n_per_mm;
            let gap = |h: f64| ((force(x + h) - force(x - h)) / (2.0 * h)).abs() - closed;
            let (coarse, fine) = (gap(400.0), gap(200.0));
            let order = (coarse / fine).abs().log2();
            assert!(
                (order - 2.0).abs() < 0.1 && fine.abs() < 0.02 * closed,
                "{} seam at {x} mm: {closed} N/mm; central differences are off by {coarse} and {fine} (order {order:.2})",
                seam.name()
            );
            let finest = gap(1.0);
            assert!(
                finest.abs() < 1e-5 * closed,
                "{} seam at {x} mm: {closed} against {finest:e} more",
                seam.name()
            );
        }
    }
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked = [
        "fillet per sixteenth",
        "EN fillet strength",
        "smallest leg by inches",
        "smallest leg by millimetres",
        "smallest throat",
        "W1 shear flow",
        "W1 leg",
        "W2 shear flow",
        "W2 throat",
        "tapered V Q over I",
        "tapered shear flow",
    ];
    all_checked::<Given>(SHEET, &checked);
}
