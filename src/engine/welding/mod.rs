//! From the shop's settings to heat and metal per length of weld.
//!
//! `arc` is what the machine is set to; `procedure` turns current, voltage and speed into heat; `melt` turns current into deposit;
//! `fillet` turns deposit into leg and back, and gives the leg rule; `pass` is one bead along a seam
//! and the order it is laid in; `attachment` what is welded across the member afterwards. Heat in J/mm, area in mm², mass rate in kg/h, speed in mm/s.
//!
//! **To add a kind of attachment**: a variant of `AttachmentKind`, what of it is welded in `across_flange_mm` and `along_web`, what of
//! it is in the way of a pad in `outside_mm`, a hand calculation in `tests/published/cross_welds.rs`. What a weld shrinks is in `shrinkage/cross`, what it folds in
//! `angular/cross`; `prediction/cross` makes kinks of it.

mod arc;
mod attachment;
pub mod fillet;
pub mod melt;
mod pass;
mod procedure;

pub use arc::{Arc, Polarity};
pub use attachment::{Attachment, AttachmentKind};
pub use pass::{FlangeFit, HeatSource, Pass, Side, Stitch, Wait, WeldingOrder};
pub use procedure::{Procedure, Process};
