//! The cross-section of one joint from first principles: a referee for the formulas of the rooms above member level.
//!
//! Nothing here is fitted. Heat spreads through the meshed section ([`Heat`]), each time step of it is followed by the
//! thermo-plastic equilibrium of a slice that stays plane ([`Solid`]), or of independent fibres where
//! only the length matters ([`Fibres`]). [`run`] lays the passes of a [`Sequence`] and reads the [`Outcome`]..
//!
//! Axes of the joint: *across* the flange, + on the near side; *up* the web from the flange's top face. A section is one
//! slice, so what a moving arc does to the metal ahead of it has to be stated as a restraint while hot.
//!
//! One file a subject: `mesh` and `joint` for what is there, `heat`, `source` and `thermal` for temperatures,
//! `plasticity`, `material`, `solid` and `fibres` for stress, `sequence` for time, `outcome` for what is read off.
//!
//! In detail: `joint` meshes (`mesh`, `grading`, `shape`), `heat` steps temperatures (`network`, `thermal`, `source`), `solid` or `fibres`
//! find equilibrium (`material`, `plasticity`, `stiffness`, `bordered`), `solve` alone knows the sparse solver, `run` marches a
//! `sequence` and `outcome` reads it; `field` gives values between nodes and at them. It uses nothing of the formula rooms, so
//! that it can contradict them (`tests/laws/referee.rs`).

mod bordered;
mod clock;
mod contact;
mod error;
mod fibres;
mod field;
mod grading;
mod heat;
mod joint;
mod material;
mod mesh;
mod network;
mod outcome;
mod plasticity;
mod run;
mod sequence;
mod shape;
mod slice;
mod solid;
mod solve;
mod source;
mod stiffness;
mod thermal;

pub(crate) use clock::Clock;
pub use error::SectionError;
pub(crate) use error::{fillets_fit, positive, within};
pub use fibres::Fibres;
pub use field::{NodalField, at_nodes};
pub use grading::graded;
pub use heat::{Heat, Stepping, Surface};
pub(crate) use joint::ROOT_TIE_MM;
pub use joint::{Fineness, Joint, Root};
pub use material::{Hot, MaterialLaw, SectionSteel};
pub(crate) use mesh::SAME_POINT_MM;
pub use mesh::{EDGES, Element, ElementKind, Facing, Mesh};
pub(crate) use network::{Network, Quadrilateral};
pub(crate) use outcome::SliceReader;
pub use outcome::{Outcome, PassOutcome, SectionShape, Shrinkage, Snapshot, SolveEffort};
pub(crate) use plasticity::mises;
pub use run::run;
pub(crate) use run::{at_points, run_watched};
pub use sequence::{FillerState, Lengthwise, SOLID_C, SectionPass, Sequence, SolverSettings, StressModel};
pub(crate) use shape::{Bilinear, bilinear_points};
pub use shape::{Point, points};
pub(crate) use slice::{COLD_C, RELEASE, halved, mixed};
pub use slice::{Failure, Slice, SliceHold, Supports, Tally};
pub(crate) use solid::Balance;
pub use solid::Solid;
pub(crate) use solve::{Grouping, Symmetric};
pub use solve::{SolveError, SolverTime};
pub(crate) use source::REFERENCE_LEGS;
pub use source::{RoundSource, USUAL_SPEED_MM_S};
pub use thermal::{Thermal, ThermalTable};
