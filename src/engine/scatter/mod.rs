//! How unsure inputs spread: distributions, sampling plans, sensitivities, and the chance of being out.
//!
//! ```text
//! inputs → spread (distribution, cut; moments) ─┐
//! plan → point of the unit cube → correlation ──┴→ values of a case → (result) → one at a time, indices, chance, bias and scatter, running
//! ```
//!
//! * `inputs`: what can be varied by name, with its usual spread; `own`: a shop's deviations in their place; `spread`: a `distribution` with its ends cut off;
//!   `moments`: its mean and deviation; `fault`: why numbers describe none; `normal`: the bell curve both ways.
//! * `plan`: random, Latin or Sobol points, each from its number alone (`hash` shuffles without memory);
//!   `correlation`: correlated inputs.
//! * `one_at_a_time`: one input at a time; `indices`: shares of the variance; `weight`: what both give.
//! * `chance`: how often a limit is passed; `bias_and_scatter`: the same with bias and scatter told apart; `running`: mean,
//!   deviation, quantiles.
//! * `alike`: which numbers of a piece differ together. `pieces`: pieces of a job with the usual inputs drawn; `out`: how likely one is out of the limits of its job, the one
//!   place every command asks.
//!
//! Model bias (the same for every piece) and scatter from piece to piece stay apart everywhere.
//!
//! **One chance:** [`Pieces`] draws pieces of a checked job, [`out_of_limits`] judges them as `predict` judges, bias and scatter
//! told apart. `predict`, `choose`, `straighten` and `order` ask there; `scatter` is a study of the same pieces.
//! `tests/commands/one_chance.rs` holds all five together. `alike` says which numbers differ from piece to piece together
//! (stretches of one bead, plates of one size). A shop's record of a family counts before the model in `straighten`; a job whose
//! plates and assembly bring nothing has chances "from welding alone"; in all others those stand beside
//! (`Likely::from_welding_alone`).
//!
//! **To add an unsure input**: one `Input` in `inputs` with its source and the fields it acts on.

mod alike;
mod bias_and_scatter;
mod chance;
#[cfg(feature = "plans")]
mod correlation;
mod distribution;
mod fault;
mod hash;
mod indices;
mod inputs;
mod moments;
mod normal;
mod one_at_a_time;
mod out;
mod own;
mod pieces;
mod plan;
mod running;
mod spread;
mod weight;

pub(crate) use alike::draws_with;
pub use bias_and_scatter::{BiasAndScatter, BiasAndScatterFault, bias_and_scatter};
pub use chance::Chance;
#[cfg(feature = "plans")]
pub use correlation::{Correlation, CorrelationFault, Pair};
pub use distribution::Distribution;
pub use fault::SpreadFault;
pub(crate) use hash::fnv_1a;
pub use indices::{CaseBlock, Shares, SharesFault, share_block, share_cases, share_point, shares};
pub use inputs::{Acts, Class, INPUTS, Input, input};
pub use one_at_a_time::one_at_a_time_point;
pub(crate) use one_at_a_time::{one_at_a_time, one_at_a_time_cases};
pub use out::{OutOfLimits, out_at_most, out_of_limits, say_chances};
pub(crate) use own::problems_of;
pub(crate) use pieces::PIECES_AT_ONCE;
pub use pieces::{DrawRoom, Draws, Pieces, by_welds_alone, welding_alone};
pub(crate) use plan::Points;
pub use plan::{SamplingFault, SamplingMethod, SamplingPlan};
pub use running::{Running, quantile};
pub use spread::Spread;
pub use weight::{OneAtATime, Share};
