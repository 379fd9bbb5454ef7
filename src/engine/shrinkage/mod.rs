//! Lengthwise and transverse shrinkage of fillets and splices.
//!
//! A cooled fillet pulls on the member like a stretched tendon along the web–flange junction. `tendon` gives
//! the force of one lone pass; `joint` what a second pass at the same junction adds to it; `lateral` how far
//! from the web plane it pulls; `prior` how stress already there changes it; `transverse` the shrinkage
//! across a splice or a flange; `published` what other authors would say.
//!
//! Force in N, + shortens. Heat in J/mm, net, of one pass.

pub mod bead;
pub mod joint;
pub mod lateral;
pub mod prior;
pub mod published;
pub mod tendon;
pub mod transverse;
