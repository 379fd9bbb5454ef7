//! Interval of a counted fraction against its printed examples.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::scatter::Chance;

const SHEET: &str = "proportions";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    out: usize,
    of: usize,
}

impl Given {
    fn interval(&self) -> (f64, f64) {
        Chance { out: self.out, of: self.of, failed: 0 }.interval().unwrap()
    }
}

#[test]
fn intervals_of_counted_fractions_are_the_printed_ones() {
    check(SHEET, "lower end", |given: &Given| given.interval().0);
    check(SHEET, "upper end", |given: &Given| given.interval().1);
    all_checked::<Given>(SHEET, &["lower end", "upper end"]);
}
