//! Values, units and columns in the words of a chart.

use crate::canvas::clean;
use crate::number::number;
use weldbow_engine::input::text::capital;
use weldbow_engine::study::{Column, Table, Values};

/// Beyond this size no length, force or share means anything: such a value counts as failed.
const LARGEST: f64 = 1e100;
/// Digits a value in a label has (a choice: more cannot be read off a chart).
const DIGITS: i32 = 3;

/// The number if it can be drawn: NaN for what is infinite or beyond sense, zero for what is next to
/// nothing.
pub(super) fn sound(value: f64) -> f64 {
    if !value.is_finite() || value.abs() > LARGEST {
        f64::NAN
    } else if value.abs() < 1.0 / LARGEST {
        0.0
    } else {
        value
    }
}

/// Number in a row of a column, NaN if there is none.
pub(super) fn at(column: &Column, row: usize) -> f64 {
    column.numbers().and_then(|numbers| numbers.get(row)).map_or(f64::NAN, |value| sound(*value))
}

/// Column of a spec; the check before has seen that it is there.
pub(super) fn column<'t>(table: &'t Table, name: Option<&String>) -> Option<&'t Column> {
    name.and_then(|name| table.column(name))
}

/// Power of ten taken out of numbers of that size: none between a thousandth and a million.
pub(super) fn power(largest: f64) -> i32 {
    let size = largest.abs();
    if !(size.is_finite() && size > 0.0) || (1e-3..1e6).contains(&size) {
        return 0;
    }
    3 * (size.log10() / 3.0).floor() as i32
}

/// "10⁶", "10⁻³".
pub(super) fn ten_to(power: i32) -> String {
    const DIGIT: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let digits = power.unsigned_abs().to_string();
    let raised = digits.chars().filter_map(|c| c.to_digit(10)).map(|d| DIGIT[d as usize % 10]);
    let sign = if power < 0 { "⁻" } else { "" };
    format!("10{sign}{}", raised.collect::<String>())
}

/// "9.2 mm", "−0.6 kJ/mm", "1.25 × 10⁶ N", "12 %": three digits, no zeros behind.
pub(super) fn value(number: f64, unit: &str) -> String {
    with_unit(bare(number), unit)
}

fn with_unit(text: String, unit: &str) -> String {
    match unit {
        "" => text,
        "°" => format!("{text}°"),
        _ => format!("{text} {unit}"),
    }
}

/// The same without unit.
pub(super) fn bare(value: f64) -> String {
    digits(value, DIGITS)
}

/// A result in words: two digits, as many as an unsure number deserves.
pub(super) fn rough(value: f64) -> String {
    digits(value, DIGITS - 1)
}

fn digits(value: f64, digits: i32) -> String {
    let value = sound(value);
    if !value.is_finite() {
        return "–".to_owned();
    }
    let power = power(value);
    let shown = value / 10_f64.powi(power);
    let size = if shown.abs() > 0.0 { shown.abs().log10().floor() as i32 } else { 0 };
    let text = trimmed(&number(shown, (digits - 1 - size).clamp(0, 6) as usize));
    if power == 0 { text } else { format!("{text} × {}", ten_to(power)) }
}

/// Values that tell lines apart: as many digits as that takes, at most six.
pub(super) fn told_apart(values: &[f64], unit: &str) -> Vec<String> {
    let words = |text: Vec<String>| -> Vec<String> {
        if unit.is_empty() { text } else { text.into_iter().map(|t| format!("{t} {unit}")).collect() }
    };
    let largest = values.iter().fold(0.0_f64, |largest, v| largest.max(v.abs()));
    let (power, tail) = tail(largest);
    let scaled: Vec<f64> = values.iter().map(|v| v / 10_f64.powi(power)).collect();
    let whole = |decimals: i32| {
        let unit = 10_f64.powi(decimals);
        scaled.iter().all(|v| (v * unit - (v * unit).round()).abs() < 1e-6 * unit.max(v.abs() * unit))
    };
    let all = |decimals: usize| scaled.iter().map(|v| trimmed(&number(*v, decimals)) + &tail).collect();
    let alike = |texts: &[String]| texts.iter().enumerate().any(|(n, text)| texts[..n].contains(text));
    let short: Vec<String> = match (0..=4).find(|decimals| whole(*decimals)) {
        Some(decimals) => all(decimals as usize),
        None => values.iter().map(|v| bare(*v)).collect(),
    };
    words(if alike(&short) { all(6) } else { short })
}

/// Results side by side, all with the digits that a hundredth of their range needs.
pub(super) fn alike(values: &[f64], span: f64) -> Vec<String> {
    let largest = values.iter().fold(0.0_f64, |largest, v| largest.max(v.abs()));
    let (power, tail) = tail(largest);
    let span = span.abs() / 10_f64.powi(power);
    let decimals = if span > 0.0 { (2 - span.log10().floor() as i32).clamp(0, 6) } else { 2 };
    values.iter().map(|v| format!("{}{tail}", number(v / 10_f64.powi(power), decimals as usize))).collect()
}

/// Power of ten taken out of numbers of that size, and how it is written behind them.
fn tail(largest: f64) -> (i32, String) {
    let power = power(largest);
    (power, if power == 0 { String::new() } else { format!(" × {}", ten_to(power)) })
}

pub(super) fn trimmed(text: &str) -> String {
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text.to_owned()
    }
}

/// What a column is, in few words: "camber" of "camber, + toward the inner flange".
pub(super) fn head(column: &Column) -> String {
    let words = clean(&column.words);
    let words = if words.is_empty() { clean(&column.name) } else { words };
    words.split_once(", ").map_or(words.clone(), |(head, _)| head.to_owned())
}

/// Name of an axis: what, unit with the power of ten taken out, which way is plus.
pub(super) fn axis_name(column: &Column, power: i32) -> String {
    let words = clean(&column.words);
    let tail = words.split_once(", ").map_or(String::new(), |(_, tail)| format!("  ({tail})"));
    format!("{}{}{tail}", head(column), behind(&column.unit, power))
}

/// ", mm", ", 10⁶ N", ", × 10⁻³" or nothing.
pub(super) fn behind(unit: &str, power: i32) -> String {
    match (unit.is_empty(), power) {
        (true, 0) => String::new(),
        (false, 0) => format!(", {}", clean(unit)),
        (true, _) => format!(", × {}", ten_to(power)),
        (false, _) => format!(", {} {}", ten_to(power), clean(unit)),
    }
}

/// "1 case", "12 cases".
pub(super) fn cases(count: usize) -> String {
    counted(count, "case")
}

/// What of the cases failed and is crossed out in the picture; nothing where none did.
pub(super) fn crossed_out(failed: usize) -> String {
    if failed > 0 { format!("{} failed (×)", cases(failed)) } else { String::new() }
}

/// "1 bar", "12 bars".
pub(super) fn counted(count: usize, what: &str) -> String {
    format!("{} {what}{}", number(count as f64, 0), if count == 1 { "" } else { "s" })
}

/// Sentences of a line under the title; those that are empty are left out.
pub(super) fn sentences(parts: &[String]) -> String {
    let said: Vec<String> = parts.iter().filter(|part| !part.is_empty()).map(|part| capital(part)).collect();
    if said.is_empty() { String::new() } else { format!("{}.", said.join(". ")) }
}

/// "From 3.1 to 12 mm over 24 cases", of the numbers that are no NaN.
pub(super) fn reach(values: &[f64], unit: &str) -> String {
    let good = || values.iter().copied().filter(|v| v.is_finite());
    let (Some(low), Some(high)) = (good().reduce(f64::min), good().reduce(f64::max)) else {
        return "No case gave a value".to_owned();
    };
    let (from, to, over) = (rough(low), with_unit(rough(high), unit), cases(good().count()));
    if from == rough(high) {
        format!("{} in {over}", capital(&to))
    } else {
        format!("From {from} to {to} over {over}")
    }
}

/// "none beyond the limit", "1 case beyond the limit".
pub(super) fn beyond_in_words(beyond: &[bool], limit: &str) -> String {
    let count = beyond.iter().filter(|beyond| **beyond).count();
    if count == 0 {
        format!("None beyond the {limit}")
    } else {
        format!("{} beyond the {limit}", cases(count))
    }
}

/// Word in a row of a column, empty if there is none.
pub(super) fn word(column: &Column, row: usize) -> String {
    match &column.values {
        Values::Words(words) => words.get(row).map_or(String::new(), |word| clean(word)),
        Values::Numbers(_) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_have_three_digits_a_real_minus_and_no_zeros_behind() {
        for (number, unit, want) in [
            (10.0, "mm", "10 mm"),
            (-0.6, "kJ/mm", "−0.6 kJ/mm"),
            (9.237, "mm", "9.24 mm"),
            (1.25e6, "N", "1.25 × 10⁶ N"),
            (-4.2e-5, "", "−42 × 10⁻⁶"),
            (0.0, "mm", "0 mm"),
            (f64::NAN, "mm", "– mm"),
        ] {
            assert_eq!(value(number, unit), want);
        }
    }

    #[test]
    fn lines_keep_the_digits_that_tell_them_apart() {
        assert_eq!(told_apart(&[4.0, 5.0], "mm"), ["4 mm", "5 mm"]);
        assert_eq!(told_apart(&[4.7625, 4.7626], "mm"), ["4.7625 mm", "4.7626 mm"]);
        assert_eq!(told_apart(&[1234.5, 1234.6], ""), ["1234.5", "1234.6"]);
    }

    #[test]
    fn what_makes_no_sense_counts_as_failed_and_next_to_nothing_as_nothing() {
        assert!(sound(1e200).is_nan() && sound(f64::NEG_INFINITY).is_nan());
        assert!(sound(5e-324).abs() < f64::MIN_POSITIVE);
    }

    #[test]
    fn an_axis_names_quantity_unit_and_sense() {
        let column = Column {
            name: "camber.max_mm".to_owned(),
            words: "camber, + toward the inner flange".to_owned(),
            unit: "mm".to_owned(),
            values: Values::Numbers(Vec::new()),
        };
        assert_eq!(axis_name(&column, 0), "camber, mm  (+ toward the inner flange)");
        assert_eq!(axis_name(&column, -6), "camber, 10⁻⁶ mm  (+ toward the inner flange)");
    }
}
