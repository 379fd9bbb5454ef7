//! Every result that a study can collect, in tables.

use super::joint::{After, NumbersOf};
use crate::member::Seam;
use crate::prediction::{FlangeAngles, PassResult, Prediction, Ripple};
use crate::tolerance::{Quantity, Verdict};
use crate::verification::LayerNumbers;
use crate::welding::Side;

/// How it is read from a prediction.
#[derive(Debug, Clone, Copy)]
pub(super) enum ReadFrom {
    /// From the bows and the shortening alone.
    Bow(fn(&Prediction) -> f64),
    Plain(fn(&Prediction) -> f64),
    /// Farthest from zero along the flange.
    Flange(Seam, fn(&FlangeAngles) -> f64),
    Pass(Seam, Side, fn(&PassResult) -> f64),
    Ripple(fn(&Ripple) -> f64),
    Joint(NumbersOf, Seam, After, fn(&LayerNumbers, f64) -> f64),
    Estimate(&'static str, &'static str),
    /// Of the limit with the least margin.
    Verdict(Option<Quantity>, fn(&Verdict) -> f64),
}

use ReadFrom::Plain;

/// A result of a part: its name, words, unit, and how it is read.
pub(super) type Named<T> = (&'static str, &'static str, &'static str, fn(&T) -> f64);

/// A plain result: its name, words, unit, and how it is read.
type PlainResult = (&'static str, &'static str, &'static str, ReadFrom);

/// A length, from the bows and the shortening alone.
const fn bow(name: &'static str, words: &'static str, read: fn(&Prediction) -> f64) -> PlainResult {
    (name, words, "mm", ReadFrom::Bow(read))
}

/// Another length.
const fn mm(name: &'static str, words: &'static str, read: fn(&Prediction) -> f64) -> PlainResult {
    (name, words, "mm", Plain(read))
}

/// Largest along the web.
const fn web(
    name: &'static str,
    words: &'static str,
    unit: &'static str,
    read: fn(&Ripple) -> f64,
) -> PlainResult {
    (name, words, unit, ReadFrom::Ripple(read))
}

/// Every plain result.
pub(crate) const ALL: &[PlainResult] = &[
    bow("shortening_mm", "shortening", |p| p.shortening_mm),
    bow("shortening.outer_edge_mm", "shortening of the outer web edge", |p| p.shortening.outer_edge_mm),
    bow("shortening.inner_edge_mm", "shortening of the inner web edge", |p| p.shortening.inner_edge_mm),
    mm("shortening.centroid_2s_mm", "shortening, two standard deviations", |p| p.shortening.centroid_2s_mm),
    bow("camber.max_mm", "camber, + toward the inner flange", |p| p.camber.max_mm),
    mm("camber.at_mm", "place of the largest camber", |p| p.camber.at_mm),
    mm("camber.max_2s_mm", "camber, two standard deviations", |p| p.camber.max_2s_mm),
    mm("camber.max_2s_of.shared_mm", "shared by all pieces, ± camber", |p| p.camber.max_2s_of.shared_mm),
    mm("camber.max_2s_of.welding_mm", "weld to weld, ± camber", |p| p.camber.max_2s_of.welding_mm),
    mm("camber.max_2s_of.plates_mm", "plates and assembly, ± camber", |p| p.camber.max_2s_of.plates_mm),
    mm(AFTER_FIRST, "camber after the first pass, + toward the inner flange", |p| {
        p.build_up.first().map_or(f64::NAN, |step| step.camber_mm)
    }),
    bow("sweep.max_mm", "sweep, + toward the near side", |p| p.sweep.max_mm),
    mm("sweep.at_mm", "place of the largest sweep", |p| p.sweep.at_mm),
    mm("sweep.max_2s_mm", "sweep, two standard deviations", |p| p.sweep.max_2s_mm),
    mm("sweep.max_2s_of.shared_mm", "shared by all pieces, ± sweep", |p| p.sweep.max_2s_of.shared_mm),
    mm("sweep.max_2s_of.welding_mm", "weld to weld, ± sweep", |p| p.sweep.max_2s_of.welding_mm),
    mm("sweep.max_2s_of.plates_mm", "plates and assembly, ± sweep", |p| p.sweep.max_2s_of.plates_mm),
    mm("attachments.shortening_mm", "shortening by welds across", |p| {
        p.cross_welds.as_ref().map_or(0.0, |c| c.shortening_mm)
    }),
    mm("attachments.camber_mm", "camber by welds across, at mid-length", |p| across_amid(p, 0)),
    mm("attachments.sweep_mm", "sweep by welds across, at mid-length", |p| across_amid(p, 1)),
    ("twist.max_rad", "twist, + inner flange near", "rad", Plain(|p| p.twist.max_rad)),
    mm("twist.at_mm", "place of the largest twist", |p| p.twist.at_mm),
    ("twist.max_2s_rad", "twist, two standard deviations", "rad", Plain(|p| p.twist.max_2s_rad)),
    (
        "twist.max_2s_of.plates_rad",
        "twist, two standard deviations by plates",
        "rad",
        Plain(|p| p.twist.max_2s_of.plates_rad),
    ),
    ("twist.by_plates_rad", "twist by bowed flange strips", "rad", Plain(|p| p.twist.by_plates_rad)),
    ("twist.end_to_end_rad", "twist from end to end", "rad", Plain(|p| p.twist.end_to_end_rad)),
    mm("twist.apart_mm", "flanges sweep apart", |p| p.twist.apart_mm),
    mm("twist.outer_flange_mm", "sweep of the outer flange alone", |p| p.twist.flange_sweep_mm[0]),
    mm("twist.inner_flange_mm", "sweep of the inner flange alone", |p| p.twist.flange_sweep_mm[1]),
    web("ripple.compression_mpa", "largest web compression", "MPa", |r| r.compression_mpa),
    web("ripple.over_critical", "web compression over the lower critical stress", "", |r| {
        r.compression_mpa / r.critical_low_mpa
    }),
    web("ripple.wave_mm", "largest wave of the web", "mm", |r| r.wave_mm),
    web("ripple.wave_2s_mm", "wave of the web, two standard deviations", "mm", |r| r.wave_2s_mm),
    web("ripple.wave_2s_of.plates_mm", "wave of the web, two standard deviations by plates", "mm", |r| {
        r.wave_2s_of.plates_mm
    }),
    (MASS, "mass", "kg", Plain(|p| p.mass_kg)),
    (WARNINGS, "warnings of the case", "", Plain(|p| p.warnings.len() as f64)),
];

/// Camber (0) or sweep (1) at mid-length by welds across, mm.
fn across_amid(p: &Prediction, bow: usize) -> f64 {
    p.cross_welds.as_ref().map_or(0.0, |cross| cross.amid_mm(bow))
}

/// How many warnings a case carries.
pub(crate) const WARNINGS: &str = "warnings";

/// What a member is before its other passes come: of a tee, far more than what stays.
pub(crate) const AFTER_FIRST: &str = "build_up.first_mm";

/// The one plain result that is not there anyway.
pub(crate) const MASS: &str = "mass_kg";

/// Results of a flange.
pub(crate) const FLANGE: &[Named<FlangeAngles>] = &[
    ("cup_rad", "cup", "rad", |f| f.cup_rad),
    ("tilt_rad", "tilt, + near half higher", "rad", |f| f.tilt_rad),
    ("near_toe_mm", "near toe, + toward the web", "mm", |f| f.near_toe_mm),
    ("far_toe_mm", "far toe, + toward the web", "mm", |f| f.far_toe_mm),
    ("toe_2s_mm", "toe offset, two standard deviations", "mm", |f| f.toe_2s_mm),
    ("cup_2s_rad", "cup, two standard deviations", "rad", |f| f.cup_2s_rad),
    ("q_j_per_mm3", "heat over thickness squared", "J/mm³", |f| f.q_j_per_mm3),
    ("narrowing_mm", "narrowing", "mm", |f| f.narrowing_mm),
];

/// Results of a pass.
pub(crate) const PASS: &[Named<PassResult>] = &[
    ("force_n", "shrinkage force added", "N", |x| x.force_n),
    ("lone_force_n", "shrinkage force on bare plates", "N", |x| x.lone_force_n),
    ("arm_z_mm", "lever arm sideways, + near", "mm", |x| x.arm_z_mm),
    ("leg_mm", "leg", "mm", |x| x.leg_mm),
    ("heat_input_j_per_mm", "net heat input", "J/mm", |x| x.heat_input_j_per_mm),
];

/// What estimates are made of.
pub(crate) const ESTIMATED: [&str; 3] = ["camber.max_mm", "sweep.max_mm", "shortening_mm"];

/// Results of a verdict.
pub(crate) const VERDICT: &[Named<Verdict>] = &[
    ("value_mm", "{} as judged", "mm", |v| v.value),
    ("limit_mm", "limit of {}", "mm", |v| v.limit),
    ("margin_mm", "margin left for {}", "mm", |v| v.margin),
    ("beyond", "{} beyond its limit, 1 if so", "", |v| if v.margin < 0.0 { 1.0 } else { 0.0 }),
    ("out", "{} surely out, 1 if so", "", |v| if v.surely_out() { 1.0 } else { 0.0 }),
];
