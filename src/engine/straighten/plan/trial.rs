//! The printed rule tried on a piece that is not the one planned for: an operator follows it with gauges that are off.
//!
//! The piece is the model's own (plain bending), of another yield strength, with or without stress in its seams. Nothing here is measured;
//! it says what the rule can do if plain bending holds.

use super::log::{Next, Reading, next};
use super::{MOST_TRIES, Push};
use crate::member::Member;
use crate::straighten::press::{PressError, PressSpan, WeldStress};

/// What the piece and the press really are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reality {
    /// Yield strength over the one planned with.
    pub yield_factor: f64,
    /// Stress in its seams.
    pub weld: Option<WeldStress>,
    /// Give of frame and packing, mm per N in each ram.
    pub give_mm_per_n: f64,
    /// Force as read over the force.
    pub gauge: f64,
}

/// How far each reading of a push is off, mm: the travel as stopped at, and the set.
pub type Slip = [f64; 2];

/// A piece on the press.
struct Piece {
    span: PressSpan,
    give_mm_per_n: f64,
}

impl Piece {
    /// Travel (mean of the rams) and set at the gauge under a force, mm.
    fn at(&self, force: f64) -> Option<(f64, f64)> {
        let bent = self.span.under(force)?;
        let springs = self.span.ram_springback_mm_per_n();
        let set = 0.5 * (bent.ram_sets_mm[0] + bent.ram_sets_mm[1]);
        Some((set + (0.5 * (springs[0] + springs[1]) + self.give_mm_per_n) * force, bent.set_mm))
    }

    /// Force, travel and set at which travel less `line` times the force is `offset`; beyond the hinge the travel grows alone.
    fn meets(&self, line: f64, offset: f64) -> (f64, f64, f64) {
        let hinge = self.span.hinge_n() * (1.0 - 1e-8);
        let off = |f: f64| self.at(f).map_or(f64::INFINITY, |(travel, _)| travel - line * f - offset);
        let short = -off(hinge);
        if short > 0.0 {
            let set = self.at(hinge).map_or(0.0, |(_, set)| set);
            return (hinge, line * hinge + offset, set + short);
        }
        let (mut low, mut high) = (0.0, hinge);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if off(middle) < 0.0 { low = middle } else { high = middle }
        }
        let (travel, set) = self.at(low).unwrap_or_default();
        (low, travel, set)
    }
}

/// Readings of the pushes of an operator who follows the rule, and the sets that were really made, mm.
///
/// # Errors
/// [`PressError`] if the member cannot be set up.
pub fn follow(
    push: &Push,
    member: &Member,
    real: &Reality,
    slips: &[Slip; MOST_TRIES],
) -> Result<(Vec<Reading>, Vec<f64>), PressError> {
    let mut own = member.clone();
    own.steel.yield_mpa *= real.yield_factor;
    let piece =
        Piece { span: PressSpan::new(&own, push.layout, real.weld)?, give_mm_per_n: real.give_mm_per_n };
    let (mut readings, mut sets): (Vec<Reading>, Vec<f64>) = (Vec::new(), Vec::new());
    for [travel_slip, set_slip] in slips {
        let Next::Again(again) = next(push, &readings) else { break };
        let before = sets.last().copied().unwrap_or(0.0);
        let rest = push.travel_mm(before, 0.0);
        // along the stop line: travel is the set aimed at and the springback of the force as read
        let aim = if readings.is_empty() { push.first_aim_mm() } else { again.missing_mm };
        let line = again.elastic_mm_per_n * real.gauge;
        let (force, all, set) = piece.meets(line, rest + push.travel_mm(aim, 0.0) + travel_slip);
        let set = set.max(before);
        readings.push(Reading {
            travel_mm: all - rest - travel_slip,
            force_n: Some(real.gauge * force),
            set_mm: set + set_slip,
        });
        sets.push(set);
    }
    Ok((readings, sets))
}
