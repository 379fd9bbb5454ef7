//! Lengthwise and transverse shrinkage of fillets and splices.
//!
//! A cooled fillet pulls on the member like a stretched tendon along the web–flange junction. `tendon` gives
//! the force of one lone pass; `second_side` what a second pass at the same junction adds to it; `narrow` what a flange
//! pulls more that yields right across; `warm_join` what a T that is still warm does to a flange that joins it; `lateral_arm` how far
//! from the web plane it pulls; `prior_stress` how stress already there changes it; `cut_strip` what hot cutting leaves in a strip; `transverse` the shrinkage
//! across a splice or a flange; `cross` what a weld across the member takes out of it; `published` what other authors would say.
//!
//! Force in N, + shortens. Heat in J/mm, net, of one pass.
//!
//! `fillets` is the joint by formula: how beads of one order meet what the joint holds, worked out once a span; `verification`
//! asks it for a joint alone. `source` is a heat on its plates, held or free. `reference-cases/seam_forces.py` fits the constants
//! to the strip model's seams and held joints.
//!
//! **To add an estimate** of another author or shop: one more `PublishedMethod` in `published`, or one function in `angular/published`
//! called from `prediction/estimates`. Tables and the methods chart pick it up.
//!
//! **To change a constant** of force or arm: with its study. `studies/referee/` derives it anew from solved sections,
//! `tests/laws/constants.rs` holds both together, and the doc comment says what the study found. Cup, tilt and narrowing:
//! `reference-cases/moving_arc.py` fits them from the tables beside it; `cargo test --test published moving_arc -- --nocapture`
//! prints every joint by table and law.

pub mod bead;
pub mod cross;
pub mod cut_strip;
pub mod fillets;
pub mod lateral_arm;
pub mod narrow;
pub mod prior_stress;
pub mod published;
pub mod second_side;
pub mod source;
pub mod tendon;
pub mod transverse;
pub mod warm_join;
