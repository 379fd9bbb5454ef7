//! ISO 13920:2023, tables 1, 2 and 3 in full.

use crate::cases;
use crate::limits::{check, facts, same, the_limit, trust};
use serde::Deserialize;
use std::collections::BTreeMap;
use weldbow::tolerance::{Quantity, Set};
use weldbow::units::System;

const FILE: &str = "tolerance/iso-13920.toml";

/// Table 2 rounds mm per m to whole or half numbers.
const SLOPE_ROUNDED_MM_PER_M: f64 = 0.55;

#[derive(Deserialize)]
struct File {
    table: Vec<Table>,
    angles: Angles,
}

#[derive(Deserialize)]
struct Table {
    name: String,
    quantity: String,
    from_mm: f64,
    up_to_mm: Vec<f64>,
    known: String,
    source: String,
    class: BTreeMap<char, Vec<f64>>,
}

#[derive(Deserialize)]
struct Angles {
    name: String,
    up_to_mm: Vec<f64>,
    known: String,
    source: String,
    mm_per_m: BTreeMap<char, Vec<f64>>,
    minutes: BTreeMap<char, Vec<f64>>,
}

/// Every set with that class letter.
fn sets_of(class: char) -> Vec<&'static str> {
    let class = class.to_ascii_lowercase();
    let sets: Vec<_> = Set::names()
        .filter(|name| name.strip_prefix("iso-13920-").is_some_and(|pair| pair.contains(class)))
        .collect();
    assert_eq!(sets.len(), 4, "class {class}: {sets:?}");
    sets
}

/// Sizes that fall in each range: just above its lower end, and its upper end.
fn sizes_in(from: f64, ends: &[f64]) -> Vec<[f64; 2]> {
    let lower = [from].into_iter().chain(ends.iter().copied());
    lower.zip(ends).map(|(low, end)| [low + 0.1, if end.is_finite() { *end } else { low * 2.0 }]).collect()
}

#[test]
fn limits_are_those_of_the_tables() {
    check(FILE);
}

#[test]
fn every_cell_of_tables_1_and_3_holds_up_to_the_upper_end_of_its_range() {
    for table in cases::document::<File>(FILE).table {
        assert_eq!(table.class.len(), 4, "{}", table.name);
        for (class, printed) in &table.class {
            assert_eq!(printed.len(), table.up_to_mm.len(), "{} {class}", table.name);
            for set in sets_of(*class) {
                for (sizes, printed_mm) in sizes_in(table.from_mm, &table.up_to_mm).iter().zip(printed) {
                    for size in sizes {
                        let facts = facts(*size, 150.0, 0.0, System::Si);
                        let limit = the_limit(set, &table.quantity, &facts);
                        let place = format!("{}, {set}, l = {size} mm ({})", table.name, table.source);
                        same(limit.allowed_mm(&facts, 1.0).unwrap(), *printed_mm, &place);
                        assert_eq!(limit.trust, trust(&table.known), "{place}");
                        assert_eq!(limit.clause, format!("{}, class {class}", table.name));
                    }
                }
            }
        }
    }
}

#[test]
fn every_cell_of_table_2_holds_at_the_toe_of_a_flange() {
    let table = cases::document::<File>(FILE).angles;
    for (class, printed) in &table.mm_per_m {
        for set in sets_of(*class) {
            for (legs, slope) in sizes_in(50.0, &table.up_to_mm).iter().zip(printed) {
                for leg in legs {
                    let facts = facts(9000.0, 2.0 * leg, 0.0, System::Si);
                    let limit = the_limit(set, "flange_tilt", &facts);
                    let place =
                        format!("{}, {set}, leg {leg} mm ({}, {})", table.name, table.source, table.known);
                    same(limit.allowed_mm(&facts, 1.0).unwrap(), slope * leg / 1000.0, &place);
                }
            }
        }
    }
}

#[test]
fn the_two_columns_of_table_2_are_the_same_angles() {
    let table = cases::document::<File>(FILE).angles;
    for (class, slopes) in &table.mm_per_m {
        for (slope, minutes) in slopes.iter().zip(&table.minutes[class]) {
            let exact = (minutes / 60.0).to_radians().tan() * 1000.0;
            let gap = (slope - exact).abs();
            assert!(gap < SLOPE_ROUNDED_MM_PER_M, "{class}: {minutes}' is {exact} mm/m, printed {slope}");
        }
    }
}

#[test]
fn a_size_below_the_first_range_has_no_limit() {
    let facts = facts(29.0, 150.0, 0.0, System::Si);
    let set = Set::parse("iso-13920-bf").unwrap();
    let found: Vec<_> =
        set.limits_of(Quantity::Sweep).filter_map(|limit| limit.allowed_mm(&facts, 1.0)).collect();
    assert!(found.is_empty(), "29 mm long: {found:?}");
}
