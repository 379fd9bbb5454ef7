//! What a pass melts, read from the highest temperatures.
//!
//! How wide and deep the melted zone comes out follows from the assumed width of the source, which is a choice: a real arc
//! digs narrower and deeper. So depths warn of melting through; they do not stand for measured penetration, and no dilution is worked
//! out of them.

use super::result::Melted;
use crate::joint_solver::{ElementKind, Joint, Mesh, NodalField, points};
use crate::steel::molten::{LIQUIDUS_C, SOLIDUS_C};
use crate::welding::Side;

/// Half molten, °C: the middle of solidus and liquidus.
const MELTED_C: f64 = f64::midpoint(SOLIDUS_C, LIQUIDUS_C);
/// Steps along a line into a plate, and from line to line, mm.
const STEP_MM: f64 = 0.1;
const APART_MM: f64 = 0.25;
/// A plate counts as melted through when this part of it is.
const THROUGH: f64 = 0.999;

/// What the pass that laid these sides melted, from the highest temperatures of all nodes, °C.
pub(crate) fn melted(joint: &Joint, mesh: &Mesh, peak_c: &[f64], sides: &[Side]) -> Melted {
    let field = NodalField::new(mesh, peak_c);
    let flange_mm = into_flange(joint, &field);
    let web_mm = sides.iter().map(|side| into_web(joint, &field, *side)).fold(0.0, f64::max);
    let (mut plate_mm2, mut fillet_mm2, mut fillets_mm2) = (0.0, 0.0, 0.0);
    for element in &mesh.elements {
        for point in points(mesh, element) {
            let t_c: f64 = (0..4).map(|k| point.corners[k] * peak_c[element.nodes[k]]).sum();
            let melted = if t_c >= MELTED_C { point.area_mm2 } else { 0.0 };
            match element.part {
                ElementKind::Fillet(side) if sides.contains(&side) => {
                    fillets_mm2 += point.area_mm2;
                    fillet_mm2 += melted;
                }
                ElementKind::Fillet(_) => {}
                ElementKind::Flange | ElementKind::Web => plate_mm2 += melted,
            }
        }
    }
    let (flange_share, web_share) = (flange_mm / joint.flange_mm, web_mm / joint.web_mm);
    Melted {
        flange_mm,
        flange_share,
        web_mm,
        web_share,
        plate_mm2,
        fillet_share: if fillets_mm2 > 0.0 { fillet_mm2 / fillets_mm2 } else { 0.0 },
        through: flange_share >= THROUGH || web_share >= THROUGH,
    }
}

/// Deepest melted place under the flange's top face, mm.
fn into_flange(joint: &Joint, field: &NodalField<'_>) -> f64 {
    let leg = joint.near_leg_mm.unwrap_or(0.0).max(joint.far_leg_mm.unwrap_or(0.0));
    let reach = (joint.web_mm / 2.0 + 4.0 * leg).min(joint.flange_width_mm / 2.0);
    lines(-reach, reach)
        .map(|across| depth(joint.flange_mm, |into| field.at([across, -into], |p| p == ElementKind::Flange)))
        .fold(0.0, f64::max)
}

/// Deepest melted place behind one face of the web, mm.
fn into_web(joint: &Joint, field: &NodalField<'_>, side: Side) -> f64 {
    let reach = (4.0 * joint.leg_mm(side).unwrap_or(0.0)).min(joint.web_stub_mm);
    let face = side.sign() * joint.web_mm / 2.0;
    lines(0.0, reach)
        .map(|up| {
            depth(joint.web_mm, |into| field.at([face - side.sign() * into, up], |p| p == ElementKind::Web))
        })
        .fold(0.0, f64::max)
}

fn lines(from: f64, to: f64) -> impl Iterator<Item = f64> {
    let count = ((to - from) / APART_MM).ceil().max(1.0) as usize;
    (0..=count).map(move |k| from + (to - from) * k as f64 / count as f64)
}

/// How far from a face the plate has melted without a break.
fn depth(thickness: f64, t_c: impl Fn(f64) -> Option<f64>) -> f64 {
    let steps = (thickness / STEP_MM).ceil().max(1.0) as usize;
    let mut before = None;
    for k in 0..=steps {
        let into = thickness * k as f64 / steps as f64;
        let Some(here) = t_c(into) else { continue };
        if here < MELTED_C {
            return before
                .map_or(0.0, |(at, hot): (f64, f64)| at + (into - at) * (hot - MELTED_C) / (hot - here));
        }
        before = Some((into, here));
    }
    before.map_or(0.0, |_| thickness)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joint_solver::Fineness;

    const TEE: Joint = Joint { far_leg_mm: None, ..Joint::USUAL };

    /// Melted within a radius of the near corner of the web foot.
    fn round(radius: f64) -> Melted {
        let mesh = TEE.mesh(Fineness { per_leg: 16, even: 24, growth: 1.2 }).unwrap();
        let peak: Vec<f64> =
            mesh.nodes_mm.iter().map(|p| MELTED_C + 100.0 * (radius - (p[0] - 4.0).hypot(p[1]))).collect();
        melted(&TEE, &mesh, &peak, &[Side::Near])
    }

    #[test]
    fn a_round_pool_reaches_its_radius_into_both_plates() {
        let got = round(3.0);
        println!("{got:?}");
        assert!((got.flange_mm - 3.0).abs() < 0.02 && (got.web_mm - 3.0).abs() < 0.02, "{got:?}");
        assert!((got.flange_share - 0.25).abs() < 0.002 && !got.through, "{got:?}");
        // Half a circle in the flange and a quarter in the web; a quarter of the circle in the fillet of 18 mm².
        let circle = std::f64::consts::PI * 9.0;
        assert!((got.plate_mm2 / (0.75 * circle) - 1.0).abs() < 0.05, "{got:?}");
        assert!((got.fillet_share / (0.25 * circle / 18.0) - 1.0).abs() < 0.05, "{got:?}");
    }

    #[test]
    fn a_pool_wider_than_the_web_is_thick_melts_through_and_a_cold_one_melts_nothing() {
        let through = round(8.5);
        assert!(through.through && (through.web_share - 1.0).abs() < 1e-9, "{through:?}");
        assert!(through.flange_share < 0.75, "{through:?}");
        let cold = round(-1.0);
        assert!(cold.flange_mm.abs() + cold.web_mm.abs() + cold.plate_mm2.abs() < 1e-12, "{cold:?}");
    }
}
