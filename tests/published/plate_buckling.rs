//! Critical stress of the web, and why its mean stress may be compared.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::bow::web_ripple::{K_CLAMPED, K_HINGED, critical_mpa};

const SHEET: &str = "plate_buckling";

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Given {
    hinged: bool,
    k: f64,
    depth_mm: f64,
    web_mm: f64,
    e_mpa: f64,
    psi: f64,
}

/// EN 1993-1-5 Table 4.1 for 1 ≥ ψ ≥ 0, on the mean of both edges.
fn mean_k(psi: f64) -> f64 {
    8.2 / (1.05 + psi) * (1.0 + psi) / 2.0
}

#[test]
fn critical_stress_is_that_of_the_tables() {
    check(SHEET, "k", |g: &Given| if g.hinged { K_HINGED } else { K_CLAMPED });
    check(SHEET, "critical stress", |g: &Given| critical_mpa(g.k, g.web_mm, g.depth_mm, g.e_mpa));
}

#[test]
fn bending_across_the_web_hardly_changes_the_mean_stress_at_buckling() {
    check(SHEET, "mean stress k", |g: &Given| mean_k(g.psi));
    for tenth in 0..=10 {
        let psi = f64::from(tenth) / 10.0;
        let over = mean_k(psi) / K_HINGED;
        assert!((0.975..=1.001).contains(&over), "psi {psi}: {over} of the hinged k");
    }
}

#[test]
fn every_row_of_the_sheet_is_compared() {
    all_checked::<Given>(SHEET, &["k", "critical stress", "mean stress k"]);
}
