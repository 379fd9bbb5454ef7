//! Lengthwise and transverse shrinkage of fillets and splices.
//!
//! A cooled fillet pulls on the member like a stretched tendon along the web–flange junction. `tendon` gives
//! the force of one lone pass; `second_side` what a second pass at the same junction adds to it; `narrow` what a flange
//! pulls more that yields right across; `lateral_arm` how far
//! from the web plane it pulls; `prior` how stress already there changes it; `cut_strip` what hot cutting leaves in a strip; `transverse` the shrinkage
//! across a splice or a flange; `cross` what a weld across the member takes out of it; `published` what other authors would say.
//!
//! Force in N, + shortens. Heat in J/mm, net, of one pass.

pub mod bead;
pub mod cross;
pub mod cut_strip;
pub mod fillets;
pub mod lateral_arm;
pub mod narrow;
pub mod prior;
pub mod published;
pub mod second_side;
pub mod source;
pub mod tendon;
pub mod transverse;
