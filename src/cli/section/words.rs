//! Values as this command words them.

use crate::joint_solver::{Joint, Lengthwise, Root};
use crate::units::{IN_MM, System, show};
use crate::verification::{HotHold, Meshing, SolvedPass, Verified};

/// "0.35°": angles here are as small as the turn of a whole member.
pub(super) fn angle(rad: f64) -> String {
    show::turn(rad, System::default())
}

/// A distance across or up the joint, with a decimal more than an offset.
pub(super) fn fine(mm: f64, system: System) -> String {
    let (value, decimals, unit) = system.pick((mm, 2, "mm"), (mm / IN_MM, 3, "in"));
    let text = format!("{:.*}", decimals, value.abs());
    let zero = !text.bytes().any(|b| (b'1'..=b'9').contains(&b));
    format!("{}{text} {unit}", if value < 0.0 && !zero { "\u{2212}" } else { "" })
}

/// Stress over yield from which it needs explaining: hardening alone gives less.
const ABOVE_YIELD: f64 = 1.1;

/// Why a stress along the member may be above yield; None where hardening explains it. Points are those of integration, none is
/// carried out to a node, and each stands on its yield surface (`joint_solver::plasticity`).
pub(super) fn above_yield(largest_mpa: f64, yield_mpa: f64) -> Option<&'static str> {
    (largest_mpa > ABOVE_YIELD * yield_mpa).then_some(
        "Above yield along the member, in places: there the steel is pulled across and up as well, and yielding follows the \
         differences (Mises). Values of single points.",
    )
}

/// "−3 %", "+12 %".
pub(super) fn percent(part: f64) -> String {
    let text = format!("{:.0}", 100.0 * part.abs());
    let sign = match (text.as_str(), part < 0.0) {
        ("0", _) => "",
        (_, true) => "\u{2212}",
        (_, false) => "+",
    };
    format!("{sign}{text} %")
}

/// "near", or "near and far at once".
pub(super) fn sides(laid: &SolvedPass) -> &'static str {
    match laid.beads.as_slice() {
        [one] => one.side.name(),
        _ => "near and far at once",
    }
}

/// How the slice is held.
pub(super) fn held(hold: HotHold, lengthwise: Lengthwise, system: System) -> String {
    let plane = match hold {
        HotHold::None => "never held in its plane".to_owned(),
        HotHold::SOLID => "flange edges and web top held until the weld is solid".to_owned(),
        HotHold::Until(t_c) => {
            format!("flange edges and web top held until {}", show::temperature(t_c, system))
        }
    };
    let along = match lengthwise {
        Lengthwise::Free => "free lengthwise",
        Lengthwise::Held => "held lengthwise",
        Lengthwise::HeldWhileHot => "held lengthwise while hot",
    };
    format!("{plane}, {along}")
}

/// The mesh in words.
pub(super) fn mesh(meshing: Meshing) -> String {
    match meshing {
        Meshing::Coarse => "coarse mesh".to_owned(),
        Meshing::Standard => "standard mesh".to_owned(),
        Meshing::Fine => "fine mesh".to_owned(),
        Meshing::PerLeg(n) => format!("mesh of {n} elements a leg"),
    }
}

/// Plates of a joint.
pub(super) fn plates(result: &Verified, system: System) -> String {
    let root = match result.joint.root {
        Root::Tied => "web foot and flange tied",
        Root::Slit => "web foot and flange apart between the roots",
    };
    format!("{}, {root}", plates_of(&result.joint, system))
}

/// Plates of a joint, without what joins them.
pub(super) fn plates_of(joint: &Joint, system: System) -> String {
    format!(
        "flange {} × {}, web {} ({} of its height)",
        show::plate(joint.flange_width_mm, system),
        show::plate(joint.flange_mm, system),
        show::plate(joint.web_mm, system),
        show::plate(joint.web_stub_mm, system)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_small_shows_as_minus_nought() {
        assert_eq!((angle(-1e-6), angle(-0.01)), ("0.00°".into(), "\u{2212}0.57°".into()));
        assert_eq!((percent(-0.001), percent(0.126)), ("0 %".into(), "+13 %".into()));
        assert_eq!(fine(-0.001, System::Si), "0.00 mm");
        assert_eq!(fine(-25.4, System::Us), "\u{2212}1.000 in");
    }
}
