//! A line of heat on the back of a flange, opposite the web. Our own estimate from first principles, factor 2 either way.
//!
//! Semi-elliptic strained zone of half width a and depth d with contraction e*: angle between the halves
//! θ = 3π·e*·(a/h)·β·(1 − 8β/3π), β = d/h; a = d = r, the isotherm of a moving line source on a thick plate,
//! r = √(2q/(π·e·ρc·ΔT)), ρc = 0.00471 J/mm³K, ΔT = 580 K.

use crate::member::{Member, Parts, Seam, properties};
use crate::shrinkage::bead;
use crate::shrinkage::tendon::MEAN_RHO_C;
use crate::straighten::shape::bow_of;
use serde::Serialize;
use std::f64::consts::{E as EULER, PI};

/// Inherent strain: usual, low, high (own estimate).
pub const INHERENT: [f64; 3] = [0.004, 0.002, 0.006];
/// Rise of the isotherm that yields, K: 600 °C above 20 (choice).
const RISE_K: f64 = 580.0;
/// r/h beyond which the thick-plate isotherm no longer holds (choice).
const THICK_LIMIT: f64 = 0.8;
/// β of the largest angle, where β²(1 − 8β/3π) is greatest: π/4; more heat only shortens.
const BEST_DEPTH: f64 = PI / 4.0;
/// A second pass on the same line over the first (choice).
const SECOND_PASS: f64 = 0.7;
/// Most passes on one line (choice).
const MOST_PASSES: u32 = 6;

/// Net heat of the torch and the inherent strain it leaves.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Torch {
    /// Net heat, J/mm of line.
    pub heat_j_per_mm: f64,
    /// Inherent strain e*; [`INHERENT`] unless one pass has been measured.
    pub inherent: f64,
}

/// One pass along the back of a flange.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LineHeat {
    /// Depth reached over the thickness, r/h.
    pub depth_ratio: f64,
    /// Angle between both halves, rad.
    pub angle_rad: f64,
    /// More heat than bends: beyond β = 0.79 it only shortens.
    pub too_hot: bool,
    /// Beyond the thick-plate isotherm: the estimate does not hold.
    pub out_of_range: bool,
}

/// One pass on a flange of that thickness.
///
/// 500 J/mm on 10 mm: r/h = 0.655, 7.2 mrad.
/// ```
/// use weldbow_engine::straighten::flange::{Torch, line};
/// let l = line(&Torch { heat_j_per_mm: 500.0, inherent: 0.004 }, 10.0);
/// assert!((l.depth_ratio - 0.655).abs() < 5e-4 && (l.angle_rad - 7.2e-3).abs() < 5e-5);
/// ```
pub fn line(torch: &Torch, flange_mm: f64) -> LineHeat {
    let r = (2.0 * torch.heat_j_per_mm / (PI * EULER * MEAN_RHO_C * RISE_K)).sqrt();
    let beta = r / flange_mm;
    // past this depth the contraction below mid-thickness wins; an angle of the wrong sign is no prediction
    let angle_rad = (3.0 * PI * torch.inherent * beta * beta * (1.0 - 8.0 * beta / (3.0 * PI))).max(0.0);
    LineHeat { depth_ratio: beta, angle_rad, too_hot: beta > BEST_DEPTH, out_of_range: beta > THICK_LIMIT }
}

/// Most that lines on one line take away of the angle between both halves of a flange of that thickness, rad: six of them (our limit).
pub(crate) fn most_angle_rad(torch: &Torch, flange_mm: f64) -> f64 {
    line(torch, flange_mm).angle_rad * (1.0 + f64::from(MOST_PASSES - 1) * SECOND_PASS)
}

/// The passes that take a cup away, and what they do to the member.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Passes {
    /// Passes on the same line.
    pub count: u32,
    /// Angle they take away together, rad.
    pub angle_rad: f64,
    /// Angle left, rad; negative if over-corrected.
    pub left_rad: f64,
    /// Camber they bring together, mm at mid-length, + toward the inner flange; the heated flange becomes the concave side.
    pub camber_mm: f64,
    /// One pass.
    pub line: LineHeat,
}

/// Passes for an angle between the halves (rad, 2·cup, toward the web) along a stretch (from–to, mm) of one plate of a flange, as few as
/// leave at most `leave_rad` of it. None if more than six are needed or a pass does nothing.
///
/// Camber: a line pulls about like a weld of the same heat ([`bead::held_force_n`]), section in the middle of the stretch:
/// F·e·L²/(8EI) at mid-length if it goes all along. Lines one on the other strain the same strip, which already stands at its yield
/// strength: as of repeated passes on one fillet (`shrinkage/second_side`: the largest-pass rule) the largest governs, here one line's
/// worth however many there are (derived from that rule; no test of lines of heat is known).
pub fn passes(
    member: &Member,
    seam: Seam,
    stretch_mm: [f64; 2],
    [angle_rad, leave_rad]: [f64; 2],
    torch: &Torch,
) -> Option<Passes> {
    let middle = 0.5 * (stretch_mm[0] + stretch_mm[1]);
    let plates = member.plates_at(middle);
    let (width, thickness) = plates.flange_mm(seam);
    let one = line(torch, thickness);
    let (mut count, mut gone) = (0, 0.0);
    while gone + 0.5 * one.angle_rad < angle_rad && angle_rad - gone > leave_rad {
        if count == MOST_PASSES || one.angle_rad <= 0.0 {
            return None;
        }
        gone += one.angle_rad * if count == 0 { 1.0 } else { SECOND_PASS };
        count += 1;
    }
    let depth = member.depth.depth_mm(middle);
    let s = properties(&plates, depth, 0.0, Parts::ALL);
    let force = bead::held_force_n(torch.heat_j_per_mm, [width, thickness], member.steel.yield_mpa);
    let arm = match seam {
        Seam::Outer => -0.5 * thickness,
        Seam::Inner => depth + 0.5 * thickness,
    } - s.centroid_mm;
    let bends = force * arm / (member.steel.e_mpa * s.i_z_mm4);
    let bow = bends * bow_of(member.length_mm, stretch_mm, 0.5 * member.length_mm);
    // v″ = F·arm/EI: the flange that shortens is the inside of the bow
    Some(Passes { count, angle_rad: gone, left_rad: angle_rad - gone, camber_mm: -bow, line: one })
}
