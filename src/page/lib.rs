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
pub use file::{ENGINE_GZ, Held, MARK, Member, Page, course_members, fingerprint, whole};
#[cfg(not(target_family = "wasm"))]
pub use report::{Identity, Reported, report};
pub use service::{Drawn, Refused, answer, drawn};
