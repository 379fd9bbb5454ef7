//! Deviates and probabilities of the normal distribution against the printed tables, far tails among them.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::scatter::{Distribution, Spread};

const SHEET: &str = "normal_distribution";
const DEVIATE: &str = "deviate exceeded with probability";
const BELOW: &str = "probability below";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    x: f64,
}

#[test]
fn deviates_and_probabilities_are_those_of_the_tables() {
    let bell = Spread::new(Distribution::Normal { mean: 0.0, sd: 1.0 }, None, None).unwrap();
    check(SHEET, DEVIATE, |given: &Given| bell.quantile(1.0 - given.x));
    check(SHEET, DEVIATE, |given: &Given| -bell.quantile(given.x));
    check(SHEET, BELOW, |given: &Given| bell.cdf(given.x));
    all_checked::<Given>(SHEET, &[DEVIATE, BELOW]);
}

/// The logarithm of a lognormal factor is normal; its deviates lie at exp(±s·z).
#[test]
fn a_lognormal_factor_has_the_same_deviates_in_its_logarithm() {
    let (median, cov) = (2.5, 0.6_f64);
    let s = (1.0 + cov * cov).ln().sqrt();
    let factor = Spread::new(Distribution::Lognormal { median, cov }, None, None).unwrap();
    check(SHEET, DEVIATE, |given: &Given| (median / factor.quantile(given.x)).ln() / s);
}
