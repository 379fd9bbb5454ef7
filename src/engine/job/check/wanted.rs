//! What is wanted of the member: camber, tolerances, limits; and the shop's line.

use crate::angular::hold::Hold;
use crate::input::Hint;
use crate::input::findings::{Bounds, Findings, bounds, exact, mm, within};
use crate::job::file::{CamberShape, FactorsShape, HoldShape, JobFile, LimitsShape, LineShape};
use crate::prediction::field::ranges::{self, LARGEST_RISE};
use crate::prediction::{Factors, OwnLimit, WantedCamber};
use crate::tolerance::{Quantity, Set};
use crate::units::System;

const LIMIT: Bounds = within("a limit", &ranges::LIMIT_MM, "0.01 mm to 1 m", "mm");
/// Every factor.
pub(crate) const FACTOR: Bounds = within("a factor", &ranges::FACTOR, "0.001 to 100", "");
const HEAD: Bounds = bounds("an inclination the weld heads follow", 1.0, 45.0, "1° to 45°", "deg");

/// Inclination that weld heads follow when the job does not say, degrees (common practice, no source).
const USUAL_HEAD_DEG: f64 = 15.0;

/// Tolerance sets to judge by: those named, or the usual ones of the units.
pub(crate) fn tolerances(file: &JobFile, findings: &mut Findings) -> Vec<Set> {
    let Some(named) = &file.tolerances else { return usual(file.units) };
    let names: Vec<&str> = Set::names().collect();
    let mut sets = Vec::new();
    for (at, name) in named.iter().enumerate() {
        match Set::parse(name) {
            Some(set) if !sets.contains(&set) => sets.push(set),
            Some(_) => {
                let (path, found) = (format!("tolerances[{at}]"), format!("`{name}` again"));
                findings.push_with(path, found, "each set once", "leave it out here");
            }
            None => {
                let found = format!("unknown tolerance set `{name}`");
                findings.unknown(format!("tolerances[{at}]"), found, name, &names);
            }
        }
    }
    sets
}

fn usual(units: System) -> Vec<Set> {
    match units {
        System::Si => vec![Set::En1090Class1],
        System::Us => vec![Set::AwsD11, Set::MetalBuilding],
    }
}

/// Limits of the user's own.
pub(super) fn limits(shape: &LimitsShape, length_mm: Option<f64>, findings: &mut Findings) -> Vec<OwnLimit> {
    let Some(length) = length_mm else { return Vec::new() };
    let given = [
        ("camber", shape.camber, Quantity::Camber),
        ("sweep", shape.sweep, Quantity::Sweep),
        ("flange_toe", shape.flange_toe, Quantity::FlangeToe),
        ("flange_tilt", shape.flange_tilt, Quantity::FlangeTilt),
        ("flange_cup", shape.flange_cup, Quantity::FlangeCup),
        ("web_flatness", shape.web_flatness, Quantity::WebFlatness),
        ("twist", shape.twist, Quantity::Twist),
        ("length", shape.length, Quantity::Length),
    ];
    given
        .into_iter()
        .filter_map(|(key, limit, quantity)| {
            let limit = limit?;
            let limit_mm = findings.bounded(format!("limits.{key}"), limit.size_mm(length), &LIMIT)?;
            Some(OwnLimit { quantity, limit_mm, part_of_length: limit.part_of_length() })
        })
        .collect()
}

/// The camber wanted.
pub(super) fn camber(
    shape: Option<&CamberShape>,
    length_mm: Option<f64>,
    findings: &mut Findings,
) -> Option<WantedCamber> {
    let (shape, length) = (shape?, length_mm?);
    let (rise, most) = (shape.rise.value(), LARGEST_RISE * length);
    if rise > 0.0 && rise <= most {
        return Some(WantedCamber { rise_mm: rise, toward: shape.toward });
    }
    let wanted = format!(
        "a rise above zero and at most L/20, {} (leave [camber] out for a straight member)",
        mm(most)
    );
    // small enough for a member of any length, as the field's own is not
    let example = format!("rise = \"{}\"", exact((0.001 * length).ceil()));
    findings.push_hint("camber.rise", mm(rise), wanted, Hint::Example(example));
    None
}

/// Multipliers on what the model computes.
pub(crate) fn factors(shape: &FactorsShape, findings: &mut Findings) -> Factors {
    let mut checked = |key: &str, factor: Option<f64>| {
        factor.and_then(|factor| findings.bounded(format!("factors.{key}"), factor, &FACTOR)).unwrap_or(1.0)
    };
    Factors {
        force: checked("force", shape.force),
        outer_seam: checked("outer_seam", shape.outer_seam),
        inner_seam: checked("inner_seam", shape.inner_seam),
        outer_second: checked("outer_second", shape.outer_second),
        inner_second: checked("inner_second", shape.inner_second),
        heat_from_leg: checked("heat_from_leg", shape.heat_from_leg),
        arm: checked("arm", shape.arm),
        cross_welds: checked("cross_welds", shape.cross_welds),
        cup: checked("cup", shape.cup),
        tilt: checked("tilt", shape.tilt),
        near_tilt: checked("near_tilt", shape.near_tilt),
        far_tilt: checked("far_tilt", shape.far_tilt),
    }
}

/// What holds the joint.
pub(super) fn hold(shape: Option<&HoldShape>) -> Hold {
    shape.map_or(Hold::LINE, |s| Hold {
        tacks: s.tacks,
        rolls: s.rolls,
        square_until_cold: s.square_until_cold,
    })
}

/// Inclination that the weld heads follow, degrees.
pub(crate) fn head_limit(line: Option<&LineShape>, findings: &mut Findings) -> f64 {
    let Some(angle) = line.and_then(|line| line.head_limit) else { return USUAL_HEAD_DEG };
    let degrees = angle.value().to_degrees();
    findings.bounded("line.head_limit", degrees, &HEAD).unwrap_or(USUAL_HEAD_DEG)
}
