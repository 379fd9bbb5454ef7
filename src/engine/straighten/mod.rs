//! Straightening: whether a member needs it, and how.
//!
//! `shape` is how far the piece is from straight, `decide` whether to act, `press`, `heat` and `flange` what one push, heat or
//! pass does, `plan` the steps or the limit that blocks, `lying` what a tape reads of a member that lies or is warm on one side, `piece` what planning needs from a job and its prediction or from
//! measured offsets, `cautions` what to say with them.
//!
//! Nothing here was checked against measured straightening; every constant says how it is known.
//!
//! `plan::make` is the order of work; `plan/bow` and `plan/flange` ask `press`, `heat` and `flange` for ways and collect blocks (`plan/cups`: what of a flange is bent together),
//! `price` ranks them. A blocked way is a value with the limit and what helps, never an error. `press/stability` says where side
//! guides must stand (the buckling load is `press/sideways`), `plan/setup` where rams and supports can, `heat/place` designs one
//! heat with the section that is there. `plan/rule` is what the foreman goes by, `plan/log` what his readings ask for next,
//! `plan/trial` the operators that follow the rule on paper; `heat/series` keeps places apart whose jacks do not stand clear of
//! each other, so that they are never hot at the same time; `tests/floor_cases` keeps single pieces that were once answered
//! wrongly; `tests/pressing.rs` holds a thousand random plans to every limit, computed anew, and `tests/laws/push_log.rs` lets an
//! operator follow the rule on pieces of other steel. `shop::measured` reads a piece, `shop::push_log` its pushes, `shop::Ask`
//! judges and plans one; `cli/straighten/words` is the only place that turns a step into sentences, for terminal and sheet alike.
//!
//! **To add a limit** of a push or a heat: where it stands decides (`press/check`, `press/stability`, `heat/place`); a new
//! `BlockingLimit` only if none fits. Its block names number and remedy, and `tests/pressing.rs` checks it by its own reckoning.
//!
//! **To add a way**: a function in `plan/bow` or `plan/flange` that gives a `Way` or a `Block`, a `StraighteningMethod` and, if its steps are
//! of a new kind, a `Work`; its sentences in `cli/straighten/words`, its hazards in `cautions`, its limits checked in
//! `tests/published/`.

pub(crate) mod cautions;
pub mod decide;
mod filled;
pub mod flange;
pub mod heat;
pub mod lying;
pub mod piece;
pub mod plan;
pub mod press;
pub mod shape;
