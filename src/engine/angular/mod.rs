//! What fillets do to a flange: fold it at the weld, tilt it about the joint, and so move its toes.
//!
//! `cup` and `tilt` are one fillet; `hold` what keeps the flange square; `both_sides` puts both sides together into cup, tilt and
//! toe offsets; `cross` what a weld across a plate folds; `stitched` what stitches do; `published` is what other authors would say. Angles in rad, + toward the web.

pub mod both_sides;
pub mod cross;
pub mod cup;
pub mod hold;
pub mod published;
pub mod runs;
pub mod stitched;
pub mod tilt;
