//! Integration of curvature against tapered beams with a closed form, and how fast its error falls.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::bow::{BowShape, Strain, strain};
use weldbow::member::{Parts, Plates, Seam, Section, Span, properties};

const SHEET: &str = "tapered_beams";
/// Steps for comparison with a closed form.
const FINE: f64 = 512.0;
/// Order of the rule, and how far from it three finite steps may put the observed one.
const ORDER: (f64, f64) = (4.0, 0.25);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    b: Option<f64>,
    x_mm: Option<f64>,
    seam: Option<Seam>,
}

/// The reference tendon member; `depth` of the other beams does not matter.
const PLATES: Plates = Plates { web_mm: 5.0, outer_mm: (150.0, 6.0), inner_mm: (150.0, 10.0) };
const LENGTH_MM: f64 = 9000.0;
const MEMBER: Span =
    Span { from_mm: 0.0, to_mm: LENGTH_MM, plates: PLATES, depth_from_mm: 284.0, slope: 600.0 / LENGTH_MM };

fn unit_span(from_mm: f64, to_mm: f64) -> Span {
    Span { from_mm, to_mm, plates: PLATES, depth_from_mm: 284.0, slope: 0.0 }
}

/// Tip of a cantilever fixed at x = 1 with v″ from the tip: the chord leaves the tangent at the fixed end by its slope.
fn tip(shape: &BowShape) -> f64 {
    shape.slope.last().unwrap().abs()
}

fn cone(steps: f64) -> f64 {
    tip(&BowShape::integrate(&[unit_span(0.0, 1.0)], 1.0 / steps, |_, x| x / (1.0 + x).powi(4)))
}

fn stepped() -> f64 {
    let halves = [unit_span(0.0, 0.5), unit_span(0.5, 1.0)];
    tip(&BowShape::integrate(&halves, 1.0, |_, x| if x < 0.5 { x } else { x / 2.0 }))
}

fn two_flanges(b: f64, steps: f64) -> BowShape {
    BowShape::integrate(&[unit_span(0.0, 1.0)], 1.0 / steps, |_, x| -1.0 / (1.0 + b * x).powi(2))
}

/// Small slope: the flange counts in full, whatever its inclination.
fn section(x: f64) -> Section {
    properties(&PLATES, MEMBER.depth_mm(x), 0.0, Parts::ALL)
}

fn pull(seam: Seam, x: f64) -> Strain {
    let y = if seam == Seam::Outer { 0.0 } else { MEMBER.depth_mm(x) };
    strain(&section(x), 100e3, y, 0.0, 205e3)
}

fn tendon(seams: &[Seam], steps: f64) -> BowShape {
    BowShape::integrate(&[MEMBER], LENGTH_MM / steps, |_, x| {
        -seams.iter().map(|s| pull(*s, x).in_plane).sum::<f64>()
    })
}

fn shortening(seam: Seam) -> f64 {
    // once integrated: the end slope from the start tangent of a shape with the axial strain for curvature
    let turned = BowShape::integrate(&[MEMBER], LENGTH_MM / FINE, |_, x| -pull(seam, x).axial);
    turned.slope.last().unwrap() - turned.slope[0]
}

fn seams(given: &Given) -> Vec<Seam> {
    given.seam.map_or_else(|| Seam::BOTH.to_vec(), |seam| vec![seam])
}

fn offset_at(shape: &BowShape, x: f64) -> f64 {
    let index = shape.x_mm.iter().position(|s| (s - x).abs() < 1e-9 * (1.0 + x)).unwrap();
    shape.offset_mm[index]
}

#[test]
fn cantilevers_and_two_flange_beams_bend_as_their_closed_forms_say() {
    check(SHEET, "cone: deflection of the tip, times E I_A/(P L3)", |_: &Given| cone(FINE));
    check(SHEET, "stepped cantilever: deflection of the tip, times E I/(P L3)", |_: &Given| stepped());
    let shape = |g: &Given| two_flanges(g.b.unwrap(), FINE);
    check(SHEET, "two flanges: offset at mid-length", |g: &Given| offset_at(&shape(g), 0.5));
    check(SHEET, "two flanges: largest offset", |g: &Given| shape(g).largest().0);
    check(SHEET, "two flanges: place of it", |g: &Given| shape(g).largest().1);
    check(SHEET, "two flanges: slope at the start", |g: &Given| shape(g).slope[0]);
    check(SHEET, "two flanges: slope at the end", |g: &Given| *shape(g).slope.last().unwrap());
}

#[test]
fn a_tendon_along_either_flange_of_a_tapered_member_bows_it_as_quadrature_says() {
    check(SHEET, "tendon: second moment", |g: &Given| section(g.x_mm.unwrap()).i_z_mm4);
    check(SHEET, "tendon: centroid from the bottom face", |g: &Given| {
        let x = g.x_mm.unwrap();
        MEMBER.depth_mm(x) + 10.0 - section(x).centroid_mm
    });
    let shape = |g: &Given| tendon(&seams(g), FINE);
    check(SHEET, "tendon: offset", |g: &Given| offset_at(&shape(g), g.x_mm.unwrap()));
    check(SHEET, "tendon: slope at the start", |g: &Given| shape(g).slope[0]);
    check(SHEET, "tendon: whole turn", |g: &Given| shape(g).slope[0] - shape(g).slope.last().unwrap());
    check(SHEET, "tendon: largest offset", |g: &Given| shape(g).largest().0);
    check(SHEET, "tendon: place of it", |g: &Given| shape(g).largest().1);
    check(SHEET, "tendon: shortening of the centroid", |g: &Given| shortening(g.seam.unwrap()));
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    let checked = [
        "cone: deflection of the tip, times E I_A/(P L3)",
        "stepped cantilever: deflection of the tip, times E I/(P L3)",
        "two flanges: offset at mid-length",
        "two flanges: largest offset",
        "two flanges: place of it",
        "two flanges: slope at the start",
        "two flanges: slope at the end",
        "tendon: second moment",
        "tendon: centroid from the bottom face",
        "tendon: offset",
        "tendon: slope at the start",
        "tendon: whole turn",
        "tendon: largest offset",
        "tendon: place of it",
        "tendon: shortening of the centroid",
    ];
    all_checked::<Given>(SHEET, &checked);
}

#[test]
fn halving_the_steps_divides_the_error_by_sixteen() {
    let tapers: [(&str, &dyn Fn(f64) -> f64); 5] = [
        ("cone", &cone),
        ("two flanges, b = 1", &|n| offset_at(&two_flanges(1.0, n), 0.5)),
        ("two flanges, b = 2", &|n| offset_at(&two_flanges(2.0, n), 0.5)),
        ("tendon, outer", &|n| offset_at(&tendon(&[Seam::Outer], n), 4500.0)),
        ("tendon, inner", &|n| offset_at(&tendon(&[Seam::Inner], n), 4500.0)),
    ];
    for (name, value) in tapers {
        let [u1, u2, u3] = [8.0, 16.0, 32.0].map(value);
        let order = ((u1 - u2) / (u2 - u3)).abs().log2();
        let left = ((u3 - value(FINE)) / u3).abs();
        println!("{name}: order {order:.3}, relative error with 32 steps {left:.1e}");
        assert!(
            (order - ORDER.0).abs() < ORDER.1,
            "{name}: {u1} {u2} {u3} with 8, 16, 32 steps: order {order:.3}, error left {left:.1e}"
        );
    }
}
