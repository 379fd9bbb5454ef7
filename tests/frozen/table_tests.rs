//! The comparison sees what it must see, and no more.

use crate::changes::{Changes, summary};
use crate::job::{Beside, jobs};
use crate::table::{Cell, Results, Table};
use std::env::var;
use std::io::Write;

fn table(shortening: f64, verdict: &str) -> Table {
    let mut table = Table::default();
    for (name, scale) in [("a", 1.0), ("b", 10.0)] {
        let mut r = Results::default();
        r.number("shortening", if name == "a" { shortening } else { scale });
        r.word("verdict", verdict);
        r.number("camber", 100.0 * (scale - 1.0));
        table.push([name, "level", "one side"], r);
    }
    table
}

#[test]
fn a_table_survives_its_text_to_ten_digits() {
    let long = table(1.0 / 3.0, "within");
    let read = Table::of(&long.text());
    assert_eq!(read.rows[0].1[0], Cell::Number(0.333_333_333_3));
    assert!(Changes::between(&read, &long).is_empty());
    assert_eq!(read.text(), long.text());
}

#[test]
fn a_change_of_three_in_a_thousand_million_is_seen_and_noise_is_not() {
    let kept = table(2.0, "within");
    let off = |by: f64| Changes::between(&kept, &table(2.0 + by, "within")).0.len();
    assert_eq!([off(0.0), off(1e-9), off(6e-9)], [0, 0, 1]);
    // the largest camber is 900 mm, so that of the straight piece is zero up to 9e-10 mm
    let with = |camber| {
        let mut new = table(2.0, "within");
        new.rows[0].1[2] = Cell::Number(camber);
        Changes::between(&kept, &new).0.len()
    };
    assert_eq!([with(4e-10), with(-2e-9)], [0, 1]);
}

#[test]
fn words_rows_and_columns_that_change_come_or_go_are_told() {
    let kept = table(2.0, "within");
    let worded = Changes::between(&kept, &table(2.0, "out"));
    assert_eq!(worded.0.len(), 2);
    let text = summary("made-up", 2, &worded);
    assert!(text.contains("2 of 2 rows differ") && text.contains("verdict within → out"), "{text}");
    let mut fewer = table(2.0, "within");
    fewer.rows.pop();
    assert_eq!(Changes::between(&kept, &fewer).0.len(), 3, "a row is gone");
    assert_eq!(Changes::between(&fewer, &kept).0.len(), 3, "a row is new");
}

#[test]
fn shows_the_job_behind_a_row() {
    let Ok(name) = var("SHOW_FROZEN") else { return };
    let found = jobs(1, 'p', 2508, Beside::Constraints).into_iter().find(|job| job.name == name);
    let text = found.map_or_else(|| format!("no row {name} of predictions"), |job| job.text);
    std::io::stderr().write_all(text.as_bytes()).unwrap();
}
