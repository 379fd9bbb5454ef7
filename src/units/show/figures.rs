//! Rounded numbers with their sign and unit.

pub(super) fn unknown() -> String {
    "not known".to_owned()
}

pub(super) fn minus(value: f64) -> &'static str {
    if value < 0.0 { "−" } else { "" }
}

/// The digits with their sign, which is left off when all of them are zero.
fn digits(value: f64, decimals: usize) -> String {
    let size = format!("{:.decimals$}", value.abs());
    let sign = if size.contains(|c: char| c.is_ascii_digit() && c != '0') { minus(value) } else { "" };
    format!("{sign}{size}")
}

fn with_unit(number: &str, unit: &str) -> String {
    let gap = if unit == "°" { "" } else { " " };
    format!("{number}{gap}{unit}")
}

pub(super) fn fixed(value: f64, decimals: usize, unit: &str) -> String {
    if value.is_finite() { with_unit(&digits(value, decimals), unit) } else { unknown() }
}

pub(super) fn trimmed(value: f64, decimals: usize, unit: &str) -> String {
    if !value.is_finite() {
        return unknown();
    }
    with_unit(digits(value, decimals).trim_end_matches('0').trim_end_matches('.'), unit)
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
