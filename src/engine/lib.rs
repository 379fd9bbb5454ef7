//! How a welded, web-tapered built-up I-member will distort, and what to do about it: the engine, without files, terminal or
//! pictures. Typed values in, typed values out, all of which serde writes.
//!
//! Start with the [`prelude`]. The flow, left to right, one room each:
//!
//! ```text
//! JobFile → job::check → Job → prediction → Prediction → verdicts, chances
//!                              │
//!         member, welding → shrinkage, angular → bow → tolerance
//! ```
//!
//! * [`shrinkage`] is the tendon force of a fillet and what a second one adds; [`angular`] what fillets do to a flange; [`bow`] the
//!   shape of the member; [`tolerance`] the limits of the standards as data; [`prediction`] calls them in order.
//! * [`scatter`] draws pieces, [`study`] varies a job, [`choose`] searches welds by [`strength`] and tolerance, [`straighten`] plans
//!   press and heat, [`order`] sums up a list of marks.
//! * [`joint_solver`] solves a joint, [`strip`] a section from first principles; [`verification`] sets the formulas beside them.
//!
//! **Units**: N, mm, MPa, J, s, °C, rad; heat input in J/mm of weld. Public numbers carry their unit in the name.
//! **Signs**: x from the start end; y from the outer (straight) web edge toward the inner (tapered) flange; z out of the web
//! plane, + on the near side. Force + shortens. Camber + toward the inner flange, sweep + toward the near side, cup and toe
//! offsets + toward the web, tilt + when the near half is higher.
//! **Same input, same output**, whatever the number of threads.
//!
//! **Features**: `plans` (choose, straighten, order, shop, study) and below it `sections` (first principles) are there without a word; with
//! neither the engine checks, predicts, judges and draws chances.

#![cfg_attr(not(feature = "plans"), allow(dead_code, unused_imports, reason = "what plans alone ask for"))]

pub mod angular;
pub mod bow;
#[cfg(feature = "plans")]
pub mod choose;
pub mod input;
pub mod job;
#[cfg(feature = "sections")]
pub mod joint_solver;
pub mod member;
#[cfg(feature = "sections")]
pub mod moving_arc;
pub mod numerics;
#[cfg(feature = "plans")]
pub mod order;
pub mod prediction;
pub mod prelude;
pub mod scatter;
#[cfg(feature = "plans")]
pub mod shop;
pub mod shrinkage;
pub mod sources;
pub mod steel;
#[cfg(feature = "plans")]
pub mod straighten;
pub mod strength;
#[cfg(feature = "sections")]
pub mod strip;
#[cfg(feature = "plans")]
pub mod study;
pub mod tolerance;
pub mod units;
#[cfg(feature = "sections")]
pub mod verification;
pub mod welding;
