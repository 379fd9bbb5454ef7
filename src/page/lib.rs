//! One page that opens by double click: report, bench, joint and course, with the engine inside.
//!
//! ```text
//! question (JSON) → answer → service → engine          the same in the page (WebAssembly) and in tests
//! jobs, pictures  → report ─┐
//! html, css, js   → file ───┴→ one HTML file
//! ```
//!
//! `service` answers what the page asks; `file` joins the pieces under `html/` into one file and writes its content
//! policy; `report` is the printed part. The door into WebAssembly is a crate of its own (`wasm/`).
//!
//! `service` answers a page's questions (JSON in, JSON out) and is compiled twice, natively for tests and as WebAssembly through
//! the crate `page/wasm`, the one place with raw pointers. `course/` holds lessons and their jobs. The compiled engine stands in
//! the tree (`engine.wasm.gz`), so that nobody needs another compiler target, and a stamp of its sources beside it
//! (`engine.sources`): after a change of the engine run `.ci/engine --write`; `.ci/run` builds it quickly and compares answers if
//! a source has changed since (`--anew`: as it ships, byte for byte). The scripts are plain: `helpers`, `quantities`, `knobs`
//! (what a slider does to a job's shape), `member`, `charts`, `bench`, `travel`, `joint`, `pictures`, `course`, `main`.
//!
//! **To add a slider or switch** of the bench: a row of `KNOBS` or `SWITCHES` in `html/js/knobs.js`: how it reads a value out of
//! a job's shape and puts one in. **A lesson**: a table in `course/lessons.toml`, in order of cause and effect; a picture of a
//! kind there is, or a new one in `html/js/pictures.js`. An answer with a number gets a `check`; `.ci/page` asks the engine
//! whether it is so.

#[cfg(not(target_family = "wasm"))]
mod course;
#[cfg(not(target_family = "wasm"))]
mod file;
#[cfg(not(target_family = "wasm"))]
mod report;
mod service;

#[cfg(not(target_family = "wasm"))]
pub use course::{Check, Lesson, lessons};
#[cfg(not(target_family = "wasm"))]
pub use file::{Held, Member, Page, course_members, fingerprint, whole};
#[cfg(not(target_family = "wasm"))]
pub use report::{Identity, Reported, report};
pub use service::refused::Refused;
pub use service::{Drawn, answer, drawn};
