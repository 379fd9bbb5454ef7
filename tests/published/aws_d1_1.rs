//! AWS D1.1/D1.1M, clause 7.22 of 2020 (5.22 of 2015, 5.23 of 2010).

use crate::cases;
use crate::limits::{check, facts, same, the_limit, trust};
use serde::Deserialize;
use weldbow::units::System;

const FILE: &str = "tolerance/aws-d1.1.toml";

#[derive(Deserialize)]
struct File {
    camber_curve: Vec<Curve>,
}

#[derive(Deserialize)]
struct Curve {
    set: String,
    clause: String,
    units: System,
    length_mm: f64,
    at: Vec<f64>,
    allowed_mm: Vec<f64>,
    known: String,
    source: String,
}

#[test]
fn limits_are_those_of_the_clause() {
    check(FILE);
}

#[test]
fn the_camber_allowance_falls_to_the_supports_as_the_table_says() {
    for curve in cases::document::<File>(FILE).camber_curve {
        let facts = facts(curve.length_mm, 250.0, 60.0, curve.units);
        let limit = the_limit(&curve.set, "camber", &facts);
        assert_eq!(limit.clause, curve.clause);
        assert_eq!(limit.trust, trust(&curve.known), "{}", curve.source);
        assert_eq!(curve.at.len(), curve.allowed_mm.len());
        for (s, printed_mm) in curve.at.iter().zip(&curve.allowed_mm) {
            for x in [s * curve.length_mm, (1.0 - s) * curve.length_mm] {
                let band = limit.band_at_mm(&facts, x).unwrap();
                same(band.more_mm, *printed_mm, &format!("{} at x = {x} mm", curve.source));
                same(band.less_mm, 0.0, &format!("less than wanted at x = {x} mm"));
            }
        }
    }
}
