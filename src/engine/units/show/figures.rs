//! Rounded numbers with their sign and unit.

use std::fmt::Write;

pub(super) fn unknown() -> String {
    "not known".to_owned()
}

pub(super) fn minus(value: f64) -> &'static str {
    if value < 0.0 { "−" } else { "" }
}

/// Room for a number and its unit.
const USUAL_LENGTH: usize = 24;

/// The digits with their sign, which is left off when all of them are zero.
fn digits(value: f64, decimals: usize) -> String {
    let mut text = String::with_capacity(USUAL_LENGTH);
    text.push_str(minus(value));
    let sign = text.len();
    // writing to a String cannot fail
    let _ = write!(text, "{:.decimals$}", value.abs());
    if sign > 0 && !text[sign..].contains(|c: char| c.is_ascii_digit() && c != '0') {
        text.drain(..sign);
    }
    text
}

fn with_unit(mut number: String, unit: &str) -> String {
    if unit != "°" {
        number.push(' ');
    }
    number.push_str(unit);
    number
}

pub(super) fn fixed(value: f64, decimals: usize, unit: &str) -> String {
    if value.is_finite() { with_unit(digits(value, decimals), unit) } else { unknown() }
}

pub(super) fn trimmed(value: f64, decimals: usize, unit: &str) -> String {
    if !value.is_finite() {
        return unknown();
    }
    let mut number = digits(value, decimals);
    number.truncate(number.trim_end_matches('0').trim_end_matches('.').len());
    with_unit(number, unit)
}

/// Three figures, but whole numbers in full and no more than two decimals.
pub(super) fn three_figures(value: f64, unit: &str) -> String {
    let decimals = match value.abs() {
        size if size >= 99.95 => 0,
        size if size >= 9.995 => 1,
        _ => 2,
    };
    fixed(value, decimals, unit)
}
