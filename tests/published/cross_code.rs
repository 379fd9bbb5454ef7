//! Two members under every standard side by side: coding only, the sizes are worked from the formulas as we have them.

use crate::cases;
use crate::limits::{facts, same, the_limit};
use serde::Deserialize;
use std::collections::BTreeMap;
use weldbow::units::System;

#[derive(Deserialize)]
struct File {
    member: Vec<Member>,
}

#[derive(Deserialize)]
struct Member {
    length_mm: f64,
    flange_width_mm: f64,
    known: String,
    source: String,
    straightness: BTreeMap<String, f64>,
    flange: BTreeMap<String, f64>,
}

#[test]
fn the_standards_stand_to_each_other_as_worked_out() {
    for member in cases::document::<File>("tolerance/cross-code.toml").member {
        let facts = facts(member.length_mm, member.flange_width_mm, 0.0, System::Si);
        let allowed =
            |set: &str, quantity: &str| the_limit(set, quantity, &facts).allowed_mm(&facts, 1.0).unwrap();
        let place =
            |set: &str| format!("{set}, L = {} mm ({}, {})", member.length_mm, member.source, member.known);
        for (set, printed_mm) in &member.straightness {
            same(allowed(set, "camber"), *printed_mm, &place(set));
            same(allowed(set, "sweep"), *printed_mm, &place(set));
        }
        for (set, printed_mm) in &member.flange {
            let quantity = if set == "aws-d1.1" { "flange_toe" } else { "flange_tilt" };
            same(allowed(set, quantity), *printed_mm, &place(set));
        }
    }
}
