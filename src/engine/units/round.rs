//! A text in SI units, in round American ones: for starters, where a size is an example and not a measurement.

use super::show;
use super::unit::{FT_MM, IN_MM, LBF_N};

/// Every quantity of the text (`8 mm`, `1.2 m/min`) in the nearest round size of the American system; all else stays, and a remark
/// stays in its column.
///
/// ```
/// use weldbow_engine::units::in_round_us;
/// assert_eq!(in_round_us("stroke = \"200 mm\" # or 3 m"), "stroke = \"8 in\"   # or 10 ft");
/// assert_eq!(in_round_us("[\"450 A\", \"0.6 m/min\"]"), "[\"450 A\", \"24 in/min\"]");
/// ```
pub fn in_round_us(text: &str) -> String {
    text.split_inclusive('\n').map(line).collect()
}

fn line(text: &str) -> String {
    let Some((value, remark)) = text.split_once(" #").filter(|(value, _)| !value.trim().is_empty()) else {
        return quantities(text);
    };
    let wide = value.chars().count();
    format!("{:<wide$} #{}", quantities(value).trim_end(), quantities(remark))
}

fn quantities(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, from) = rest.split_at(at);
        out.push_str(before);
        let end = from.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(from.len());
        let (number, after) = from.split_at(end);
        let free = !before.ends_with(|c: char| c.is_alphanumeric() || "-_.".contains(c));
        match quantity(number, after).filter(|_| free) {
            Some((us, used)) => {
                out.push_str(&us);
                rest = &after[used..];
            }
            None => {
                out.push_str(number);
                rest = after;
            }
        }
    }
    out + rest
}

/// The quantity in American units, and how much of what follows the number was its unit.
fn quantity(number: &str, after: &str) -> Option<(String, usize)> {
    let value: f64 = number.parse().ok()?;
    let unit_text = after.strip_prefix(' ')?;
    let end = unit_text.find(|c: char| !(c.is_alphabetic() || "/°²".contains(c))).unwrap_or(unit_text.len());
    let us = match &unit_text[..end] {
        "mm" => inches(value),
        "m" => feet(1000.0 * value),
        "kN" => format!("{:.0} kip", nearest(1000.0 * value / (1000.0 * LBF_N), 5.0)),
        "m/min" => format!("{:.0} in/min", 1000.0 * value / IN_MM),
        "°C" => format!("{:.0} °F", nearest(1.8 * value + 32.0, 10.0)),
        "kJ/mm" => format!("{:.0} kJ/in", value * IN_MM),
        _ => return None,
    };
    Some((us, 1 + end))
}

fn nearest(value: f64, step: f64) -> f64 {
    (value / step).round().max(1.0) * step
}

/// Sixty-fourths up to 4 mm, sixteenths up to 50 mm, then half inches.
fn inches(mm: f64) -> String {
    let parts = match mm {
        m if m <= 4.0 => 64.0,
        m if m <= 50.0 => 16.0,
        _ => 2.0,
    };
    let count = (mm / IN_MM * parts).round().max(1.0) as u32;
    format!("{} in", show::inches(f64::from(count), parts))
}

/// Half feet.
fn feet(mm: f64) -> String {
    let halves = (mm / FT_MM * 2.0).round().max(1.0) as u32;
    match (halves / 2, halves % 2) {
        (0, _) => "6 in".to_owned(),
        (feet, 0) => format!("{feet} ft"),
        (feet, _) => format!("{feet} ft 6 in"),
    }
}
