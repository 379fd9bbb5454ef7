//! Sizes the model was made for, and a little more: all of them choices. Checks of a job file use the same.

use std::ops::RangeInclusive;

/// Member length, mm.
pub(crate) const LENGTH_MM: RangeInclusive<f64> = 100.0..=100_000.0;
/// Clear web depth, mm.
pub(crate) const DEPTH_MM: RangeInclusive<f64> = 50.0..=5000.0;
/// Plate thickness, mm.
pub(crate) const THICKNESS_MM: RangeInclusive<f64> = 1.0..=200.0;
/// Flange width, mm.
pub(crate) const WIDTH_MM: RangeInclusive<f64> = 20.0..=2000.0;
/// Root gap, mm.
pub(crate) const GAP_MM: RangeInclusive<f64> = 0.0..=10.0;
/// Leg, mm: the largest that a member of such plates ever gets, and a little more.
pub(crate) const LEG_MM: RangeInclusive<f64> = 1.0..=25.0;
/// Largest leg over the thinner plate: a bead of four times the plate has eight times its section over the width it covers,
/// and melts it through.
pub(crate) const LARGEST_LEG: f64 = 4.0;
/// Net heat of one pass, J/mm.
pub(crate) const HEAT_J_PER_MM: RangeInclusive<f64> = 20.0..=20_000.0;
/// Wait between orders, s: up to a week.
pub(crate) const WAIT_S: RangeInclusive<f64> = 1.0..=604_800.0;
/// Any factor: beyond it the model would be another one.
pub(crate) const FACTOR: RangeInclusive<f64> = 0.001..=100.0;
/// A limit of the user's own, mm.
pub(crate) const LIMIT_MM: RangeInclusive<f64> = 0.01..=1000.0;
/// Steepest inner flange, as a slope: 45°. The section model takes plane sections square to x.
pub(crate) const STEEPEST: f64 = 1.0;
/// Largest wanted camber as a part of the length: beyond it the chord is no axis any more.
pub(crate) const LARGEST_RISE: f64 = 1.0 / 20.0;
/// Shortest plate or pass, mm: shorter ones are a slip of the pen.
pub(crate) const SHORTEST_MM: f64 = 10.0;
/// Two places along the member nearer than this are one, mm: less than any saw cuts.
pub(crate) const SAME_PLACE_MM: f64 = 0.01;
/// Least distance of two depth points, mm.
pub(crate) const POINTS_APART_MM: f64 = 1.0;
