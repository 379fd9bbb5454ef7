//! Web rippling rests on the buckling of long plates.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::bow::ripple::critical_mpa;

const NAME: &str = "plate_buckling";
const MEAN: &str = "mean stress at buckling over that of k = 1";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    #[serde(default)]
    k: f64,
    #[serde(default)]
    slenderness: f64,
    #[serde(default)]
    psi: f64,
}

#[test]
fn critical_stress_has_the_printed_values() {
    check::<Given>(NAME, "critical stress", |g| critical_mpa(g.k, 1.0, g.slenderness, 210e3));
    all_checked::<Given>(NAME, &["critical stress", MEAN]);
}

/// The standard's k for a stress gradient is for the larger edge stress; the web is judged by its mean.
#[test]
fn a_stress_gradient_hardly_changes_the_mean_stress_at_buckling() {
    check::<Given>(NAME, MEAN, |g| {
        let k = if g.psi > 0.0 { 8.2 / (1.05 + g.psi) } else { 7.81 };
        let edge = critical_mpa(k, 1.0, 100.0, 210e3);
        edge * (1.0 + g.psi) / 2.0 / critical_mpa(1.0, 1.0, 100.0, 210e3)
    });
}
