//! The case in words, units of what is shown, and heading.

use super::drawn::Drawn;
use weldbow_engine::joint_solver::Lengthwise;
use weldbow_engine::units::{System, show};
use weldbow_engine::verification::HotHold;

/// "inner seam at 4.50 m".
pub(super) fn place(drawn: &Drawn<'_>) -> String {
    format!("{} seam at {}", drawn.result.seam.name(), show::position(drawn.result.x_mm, drawn.system))
}

/// "Flange 180 × 10 mm, web 5 mm".
pub(super) fn plates(drawn: &Drawn<'_>) -> String {
    let joint = &drawn.result.joint;
    format!(
        "Flange {}, web {}",
        crate::measure::plate_size(joint.flange_width_mm, joint.flange_mm, drawn.system),
        show::plate(joint.web_mm, drawn.system)
    )
}

/// "Held until 500 °C in the plane, free lengthwise".
pub(super) fn held(drawn: &Drawn<'_>) -> String {
    let plane = match drawn.result.hold {
        HotHold::None => "Never held in the plane".to_owned(),
        HotHold::SOLID => "Held in the plane until the weld is solid".to_owned(),
        HotHold::Until(t_c) => format!("Held in the plane until {}", show::temperature(t_c, drawn.system)),
    };
    let along = if drawn.result.lengthwise == Lengthwise::Free { "free" } else { "held" };
    format!("{plane}, {along} lengthwise")
}

/// A layer: "near side, 1.07 kJ/mm".
pub(super) fn layer(drawn: &Drawn<'_>, k: usize) -> String {
    let Some(laid) = drawn.result.passes.get(k) else { return String::new() };
    let heat = laid.beads.iter().map(|bead| bead.heat_j_per_mm).fold(0.0, f64::max);
    let heat = show::heat_input(heat, drawn.system);
    match laid.beads.as_slice() {
        [one] => format!("{} side, {heat}", one.side.name()),
        _ => format!("both sides at once, {heat} each"),
    }
}

/// °C as the number to write.
pub(super) fn degrees(t_c: f64, system: System) -> f64 {
    system.pick(t_c, t_c * 1.8 + 32.0)
}

/// "°C" or "°F".
pub(super) fn degree_name(system: System) -> &'static str {
    system.pick("°C", "°F")
}

/// Unit of stress: its name, and MPa in one of it.
pub(super) fn stress_unit(system: System) -> (&'static str, f64) {
    system.pick(("MPa", 1.0), ("ksi", 6.894_757))
}

/// "0.35°".
pub(super) fn angle(rad: f64) -> String {
    format!("{}°", crate::number::signed(rad.to_degrees(), 2))
}
