//! The formula level's constants against the studies that derive them anew (`studies/referee/`): a constant that drifts from
//! what its own study finds fails here.
//!
//! Both sides are computed; no measurement is among them. Each tolerance is what the formula's fit left open when it was made,
//! or what the constant's own stated uncertainty allows.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

#[path = "support/studies.rs"]
mod studies;

use studies::{Run, run};

/// Two columns of a study side by side, section first.
fn pairs(study: &Run, what: &str) -> Vec<(f64, f64)> {
    let [section, formula] = ["section", "formula"].map(|by| study.all(&format!("{by}.outer.{what}")));
    section.into_iter().zip(formula).collect()
}

/// Root mean square and largest of formula over section, less 1.
fn spread(pairs: &[(f64, f64)]) -> (f64, f64) {
    let off = || pairs.iter().map(|(section, formula)| formula / section - 1.0);
    ((off().map(|d| d * d).sum::<f64>() / pairs.len() as f64).sqrt(), off().map(f64::abs).fold(0.0, f64::max))
}

/// What a constant that multiplies the formula would be by the study: median of section over formula times the constant.
fn by_study(pairs: &[(f64, f64)], constant: f64) -> f64 {
    let mut ratios: Vec<f64> = pairs.iter().map(|(section, formula)| section / formula).collect();
    ratios.sort_by(f64::total_cmp);
    constant * ratios[ratios.len() / 2]
}

fn same(what: &str, constant: f64, found: f64, tolerance: f64) {
    println!("{what}: {constant:.4} in the formula, {found:.4} by its study");
    assert!((found / constant - 1.0).abs() < tolerance, "{what}: {constant} against {found} by its study");
}
