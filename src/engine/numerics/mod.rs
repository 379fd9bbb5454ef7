//! The few numerical tools the physics needs, each checked on its own.

mod arch;
mod cholesky;
mod curve;
mod gauss;
mod in_place;
mod lanes;
mod number;
mod powers;
mod root;
mod table;
mod wide;

pub use arch::{arch_at, arch_top};
pub use cholesky::{backward, cholesky, forward};
pub(crate) use curve::range;
pub use curve::{along, between, farthest, largest, parabola};
pub(crate) use gauss::{GAUSS_2, GAUSS_4, through_gauss_4};
pub(crate) use in_place::{clone_in_place, refill};
pub(crate) use lanes::{LANES, Lanes};
pub use number::Number;
pub(crate) use powers::cube_root_above;
pub(crate) use root::halved;
pub use root::{RootError, root};
pub use table::LinearTable;
pub(crate) use wide::{Work, in_lanes};
