//! The whole section as strips: what each pass adds to a member at one station, from first principles.
//!
//! Web, both flanges and all fillets are one plane section. Heat flows in two dimensions near the joints and in one
//! along the plates beyond; every point is a bar, elastic and plastic with the properties of hot steel, and all bars
//! together stay plane: free to stretch and to bend both ways. Passes come in their order, with their waits, sides and
//! the plates joined by then. Nothing is fitted. What is left after each turn is read off as forces at the seams, so that
//! the rest of the prediction goes on as with a formula.
//!
//! `layout` is the section, `grid` cuts it up, `sequence` says what is laid, `run`
//! marches in time, `outcome` and `melted` read the result. Temperatures and equilibrium are solved for by the room `joint_solver`: its heat, its fibres.
//!
//! `run` marches with the heat solver of `joint_solver`. `prediction/strip_level/stations` decides where along a member a section is solved,
//! `prediction/strip_level/forces` lays its forces in the walk that formulas take too.

mod grid;
mod layout;
mod melted;
mod outcome;
mod run;
mod sequence;

pub use grid::CellSizes;
pub use layout::StripSection;
pub use outcome::{SeamMelted, StageOutcome, StripEffort, StripOutcome};
pub use run::weld;
pub use sequence::{PlateModel, StripBead, StripJob, StripSettings, StripStage};

#[cfg(test)]
mod run_tests;
#[cfg(test)]
mod star_check_tests;
#[cfg(test)]
mod star_tests;
#[cfg(test)]
mod turn_tests;
