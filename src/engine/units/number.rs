//! The number at the start of a text: decimal, fraction, or whole and fraction.

use super::error::Fault;

/// Reads "9.5", "1.2e3", "5/16", "1-1/4" or "1 1/4", without a sign, and gives the value and what follows.
///
/// The whole may be parted from its fraction by a hyphen or blanks; the fraction must then be proper, since
/// "1-5/4" is far likelier a slip than 2.25.
pub(super) fn take_number(text: &str) -> Result<(f64, &str), Fault> {
    let word: String = text.chars().take_while(|c| c.is_alphabetic()).collect::<String>().to_lowercase();
    if ["inf", "infinity", "nan"].contains(&word.as_str()) {
        return Err(Fault::NotFinite);
    }
    let (number, rest) = text.split_at(decimal_len(text));
    let value: f64 = number.parse().map_err(|_| Fault::NotANumber)?;
    let (value, rest) = if !number.bytes().all(|b| b.is_ascii_digit()) {
        (value, rest)
    } else if rest.starts_with('/') {
        let (fraction, rest) = take_fraction(text).ok_or(Fault::NotANumber)?;
        (fraction.value()?, rest)
    } else if let Some((fraction, rest)) = take_fraction(rest.strip_prefix('-').unwrap_or(rest).trim_start())
    {
        let part = fraction.value()?;
        if part >= 1.0 {
            return Err(Fault::NotANumber);
        }
        (value + part, rest)
    } else {
        (value, rest)
    };
    if rest.starts_with(',') {
        return Err(Fault::Comma);
    }
    if rest.trim_start().starts_with(|c: char| c.is_ascii_digit() || "./+-−".contains(c)) {
        return Err(Fault::NotANumber);
    }
    if value.is_finite() { Ok((value, rest)) } else { Err(Fault::NotFinite) }
}

struct Fraction {
    over: f64,
    under: f64,
}

impl Fraction {
    fn value(&self) -> Result<f64, Fault> {
        if self.under > 0.0 { Ok(self.over / self.under) } else { Err(Fault::DividesByZero) }
    }
}

fn take_fraction(text: &str) -> Option<(Fraction, &str)> {
    let (over, rest) = text.split_at(digits(text));
    let rest = rest.strip_prefix('/')?;
    let (under, rest) = rest.split_at(digits(rest));
    Some((Fraction { over: over.parse().ok()?, under: under.parse().ok()? }, rest))
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

fn decimal_len(text: &str) -> usize {
    let mut len = digits(text);
    if text[len..].starts_with('.') {
        len += 1 + digits(&text[len + 1..]);
    }
    if text[len..].starts_with(['e', 'E']) {
        let sign = usize::from(text[len + 1..].starts_with(['+', '-']));
        let power = digits(&text[len + 1 + sign..]);
        if power > 0 {
            len += 1 + sign + power;
        }
    }
    len
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_takes_what_belongs_to_it_and_leaves_the_rest() {
        let cases = [
            ("8 mm", 8.0, " mm"),
            ("8mm", 8.0, "mm"),
            ("5.mm", 5.0, "mm"),
            (".5 mm", 0.5, " mm"),
            ("1.5e-3mm", 0.0015, "mm"),
            ("1E2 mm", 100.0, " mm"),
            ("5 e", 5.0, " e"),
            ("2em", 2.0, "em"),
            ("5/16in", 0.3125, "in"),
            ("1-1/4 in", 1.25, " in"),
            ("1 1/4 in", 1.25, " in"),
            ("24 ft", 24.0, " ft"),
        ];
        for (text, value, rest) in cases {
            let (got, left) = take_number(text).unwrap();
            assert!((got - value).abs() < 1e-15, "{text}: read {got}, expected {value}");
            assert_eq!(left, rest, "{text}");
        }
    }

    #[test]
    fn each_fault_in_a_number_is_named() {
        let cases = [
            ("mm", Fault::NotANumber),
            (".", Fault::NotANumber),
            ("1.2.3 mm", Fault::NotANumber),
            ("9 000 mm", Fault::NotANumber),
            ("24-6 in", Fault::NotANumber),
            ("5/ in", Fault::NotANumber),
            ("1.5/2 in", Fault::NotANumber),
            ("1-5/4 in", Fault::NotANumber),
            ("1/2/3 in", Fault::NotANumber),
            ("9,5 mm", Fault::Comma),
            ("1,000 mm", Fault::Comma),
            ("inf mm", Fault::NotFinite),
            ("NaN mm", Fault::NotFinite),
            ("1e999 mm", Fault::NotFinite),
            ("5/0 in", Fault::DividesByZero),
            ("1-5/0 in", Fault::DividesByZero),
        ];
        for (text, fault) in cases {
            assert_eq!(take_number(text).unwrap_err(), fault, "{text}");
        }
    }
}
