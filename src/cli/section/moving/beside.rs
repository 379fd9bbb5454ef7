//! A travelling arc beside the other ways of calculating, and what it rests on.

use crate::joint_solver::{Lengthwise, StressModel};
use crate::verification::{Case, HotHold, LayerNumbers, Options, TravelledCase, formula_so, held_so, verify};
use serde::Serialize;

/// What the numbers of this level rest on.
pub(crate) const TRUST: &str = "moving arc: staggered slices joined by their plates, from first principles, nothing fitted, nothing measured. Beside a separate \
                     calculation in three dimensions cups are within 10 % and tilts within 15 % (reference-cases/moving_slices.md says where not: \
                     fillets with so little heat that they hardly melt). Tilt in practice is about 0.6 of a free one (a judgement)";

/// What three ways of calculating say of one joint, pass by pass: the formulas (held as the arc finds it), one slice held until its weld is
/// solid, and the slice amid the length of the travelling arc.
#[derive(Serialize)]
pub(super) struct Beside {
    /// Part of the free tilt that the formulas leave.
    pub formula_tilt_part: f64,
    pub formula: Vec<LayerNumbers>,
    pub slice: Vec<LayerNumbers>,
    pub arc: Vec<LayerNumbers>,
}

impl Beside {
    /// The slice is left out if it cannot be solved.
    pub(super) fn of(case: &Case, moved: &TravelledCase, options: &Options) -> Self {
        let alone = Options {
            hold: HotHold::SOLID,
            lengthwise: Lengthwise::Free,
            model: StressModel::Solid,
            times_s: Vec::new(),
            quick: true,
            ..options.clone()
        };
        let slice = verify(case, &alone)
            .map_or_else(|_| Vec::new(), |one| one.result.passes.iter().map(|pass| pass.section).collect());
        let so = held_so(&moved.travel);
        Self {
            formula_tilt_part: so.hold.tilt_part(),
            formula: formula_so(case, false, so),
            slice,
            arc: moved.numbers(),
        }
    }
}
