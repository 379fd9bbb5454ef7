//! Limits of plates, heats, statistics and measuring against values worked by hand from what the sources print.

use crate::cases::{all_checked, check};
use crate::straightening::section_a;
use serde::Deserialize;
use weldbow::bow::BowShape;
use weldbow::member::Span;
use weldbow::straighten::decide::{Capability, Family, Limits};
use weldbow::straighten::flange::{INHERENT, Torch, line};
use weldbow::straighten::heat::{VeeModel, VeeTurn, bound_rad, free_strain};
use weldbow::straighten::press::{PressLayout, PressSpan, PushFrom, fit, kink_offset_mm, local::Bearing};
use weldbow::straighten::shape::{Up, own_weight_sag_mm, string_sag_mm};

const SHEET: &str = "straightening_limits";
/// 1 200 °F.
const HOT_C: f64 = 648.888_888_9;

#[derive(Deserialize, Default, Clone)]
#[serde(deny_unknown_fields, default)]
struct Given {
    at_end: bool,
    case: u32,
    slender: bool,
    rams: f64,
    angle_deg: f64,
    jack: f64,
    heat: f64,
    flange_mm: f64,
    eighth: f64,
    weak: bool,
    tension: f64,
    count: u32,
}

fn bearing(at_end: bool) -> Bearing {
    Bearing {
        web_mm: 6.0,
        depth_mm: 600.0,
        flange_width_mm: 200.0,
        flange_mm: 10.0,
        leg_mm: 6.0,
        pad_mm: 200.0,
        to_end_mm: if at_end { 100.0 } else { 5000.0 },
        yield_mpa: 345.0,
        e_mpa: 200e3,
    }
}

#[test]
fn plates_under_a_ram_stand_what_the_codes_say() {
    check(SHEET, "web yielding", |g: &Given| bearing(g.at_end).web_yielding_n() / 1e3);
    check(SHEET, "web crippling", |g: &Given| bearing(g.at_end).web_crippling_n() / 1e3);
    check(SHEET, "patch load", |g: &Given| {
        if g.case != 2 {
            // 10 m between supports stand for no stiffeners in the hand value: k_F = 6.007
            return Bearing { e_mpa: 210e3, ..bearing(g.at_end) }.patch_n(10_000.0) / 1e3;
        }
        let girder = Bearing {
            web_mm: 10.0,
            depth_mm: 1500.0,
            flange_width_mm: 400.0,
            flange_mm: 25.0,
            pad_mm: 300.0,
            yield_mpa: 355.0,
            e_mpa: 210e3,
            ..bearing(false)
        };
        girder.patch_n(2500.0) / 1.1 / 1e3
    });
    check(SHEET, "shear", |_: &Given| {
        // C_v1 = 1 once the web is thick against its depth: the factor by hand for h/t = 100
        let factor = 1.10 * (5.34 * 200e3_f64 / 345.0).sqrt() / 100.0;
        bearing(false).shear_n() / factor / 1e3
    });
    check(SHEET, "shortest span", |g: &Given| {
        // 4·M_p/R for one ram midway, 3·M_p/R for two at the third points
        let arms = if g.rams > 1.5 { 3.0 } else { 4.0 };
        arms * 607.2e6 / (0.75 * bearing(false).web_crippling_n()) / 1e3
    });
}

#[test]
fn heats_turn_as_their_formulas_say_and_never_beyond_the_bound() {
    let model = VeeTurn::Model(VeeModel::RECALLED);
    check(SHEET, "vee rotation", |g: &Given| 1e3 * model.rotation_rad(g.angle_deg, g.jack, HOT_C));
    check(SHEET, "vee bound", |g: &Given| 1e3 * bound_rad(g.angle_deg, HOT_C));
    check(SHEET, "free strain", |_: &Given| 1e3 * free_strain(HOT_C));
    let torch = |g: &Given| Torch { heat_j_per_mm: g.heat, inherent: INHERENT[0] };
    check(SHEET, "line depth", |g: &Given| line(&torch(g), g.flange_mm).depth_ratio);
    check(SHEET, "line angle", |g: &Given| 1e3 * line(&torch(g), g.flange_mm).angle_rad);
    check(SHEET, "jack force", |_: &Given| {
        let layout = PressLayout::centred(6000.0, 4000.0, PushFrom::Near);
        0.25 * PressSpan::new(&section_a(12_000.0), layout, None).unwrap().hinge_n() / 1e3
    });
    let eager = VeeTurn::Model(VeeModel { basic_rad: 1.0, ..VeeModel::RECALLED });
    let held = eager.rotation_rad(20.0, 0.5, 650.0);
    assert!((held - bound_rad(20.0, 650.0)).abs() < 1e-15, "{held}");
}

fn against(mean: f64, pieces: Option<u32>) -> Capability {
    Family { mean, sd: 4.0, pieces }.against(&Limits::both(10.0, 1.0)).unwrap()
}

#[test]
fn statistics_of_a_family_are_those_of_the_tables() {
    check(SHEET, "out", |_: &Given| 100.0 * against(6.0, None).out);
    check(SHEET, "acted on", |_: &Given| 100.0 * against(6.0, None).acted_on);
    check(SHEET, "acted on centred", |_: &Given| 100.0 * against(6.0, None).acted_on_centred);
    check(SHEET, "out centred", |_: &Given| 100.0 * against(0.0, None).out);
    check(SHEET, "Cp", |_: &Given| against(6.0, None).cp);
    check(SHEET, "Cpk", |_: &Given| against(6.0, None).cpk);
    check(SHEET, "next of ten", |_: &Given| against(6.0, Some(10)).next_piece_95);
}

#[test]
fn measuring_corrections_are_those_of_beam_and_string() {
    check(SHEET, "ordinate", |g: &Given| {
        // a bow of even curvature 8·D/L², integrated by the crate
        let plates = section_a(8000.0).plates_at(0.0);
        let span = Span { from_mm: 0.0, to_mm: 8000.0, plates, depth_from_mm: 600.0, slope: 0.0 };
        let shape = BowShape::integrate(&[span], 1000.0, |_, _| -8.0 * 1.5 / (8000.0 * 8000.0));
        shape.offset_mm[g.eighth as usize]
    });
    check(SHEET, "string sag", |g: &Given| string_sag_mm(6e3, 12e3, 0.0151e-3, g.tension));
    check(SHEET, "own weight sag", |g: &Given| {
        let up = if g.weak { Up::Near } else { Up::Inner };
        own_weight_sag_mm(&section_a(12_000.0), [0.0, 12_000.0], up, &[6000.0]).unwrap()[0]
    });
    // overhanging ends against the closed form: supports at L/4, equal overhangs: mid sag w·(5·l⁴/384 − l²·a²/16)/EI
    let m = section_a(12_000.0);
    let got = own_weight_sag_mm(&m, [3000.0, 9000.0], Up::Inner, &[6000.0]).unwrap()[0];
    let w = 7600.0 * 7.85e-6 * 9.806_65;
    let (l, a) = (6000.0_f64, 3000.0_f64);
    let want = w * (5.0 * l.powi(4) / 384.0 - l * l * a * a / 16.0) / (200e3 * 4.801_333_33e8);
    println!("sag between overhangs {got:.5} against {want:.5}");
    assert!((got - want).abs() < 2e-3 * want.abs().max(0.1), "{got} against {want}");
}

/// Equal kinks for a bow of even curvature: (place mm, angle rad).
fn equal_kinks(bow_mm: f64, length_mm: f64, count: u32) -> Vec<(f64, f64)> {
    let parts = f64::from(count + 1);
    (1..=count).map(|i| (f64::from(i) * length_mm / parts, 8.0 * bow_mm / (length_mm * parts))).collect()
}

#[test]
fn equal_kinks_leave_the_bow_over_the_square_of_their_number_plus_one() {
    let (bow, length) = (20.0, 12_000.0);
    let x: Vec<f64> = (0..=960).map(|i| length * f64::from(i) / 960.0).collect();
    let arc: Vec<f64> = x.iter().map(|x| 4.0 * bow * x * (length - x) / (length * length)).collect();
    check(SHEET, "polygon left", |g: &Given| {
        let kinks = equal_kinks(bow, length, g.count);
        let left =
            |i: usize| arc[i] - kinks.iter().map(|(c, a)| a * kink_offset_mm(x[i], *c, length)).sum::<f64>();
        let inscribed = (0..x.len()).map(left).fold(0.0, f64::max);
        // fitted angles at the same places leave less in the squares
        let places: Vec<f64> = kinks.iter().map(|k| k.0).collect();
        let fitted = fit(&x, &arc, length, &places);
        let square = |angles: &[(f64, f64)]| -> f64 {
            (0..x.len())
                .map(|i| {
                    arc[i] - angles.iter().map(|(c, a)| a * kink_offset_mm(x[i], *c, length)).sum::<f64>()
                })
                .map(|r| r * r)
                .sum()
        };
        println!("{} kinks: inscribed leaves {inscribed:.3}, fitted {:.3} mm", g.count, fitted.left_mm);
        assert!(square(&fitted.kinks) < square(&kinks), "{} kinks", g.count);
        inscribed
    });
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked = [
        "web yielding",
        "web crippling",
        "patch load",
        "shear",
        "shortest span",
        "vee rotation",
        "vee bound",
        "free strain",
        "line depth",
        "line angle",
        "jack force",
        "out",
        "acted on",
        "acted on centred",
        "out centred",
        "Cp",
        "Cpk",
        "next of ten",
        "ordinate",
        "string sag",
        "own weight sag",
        "polygon left",
    ];
    all_checked::<Given>(SHEET, &checked);
}
