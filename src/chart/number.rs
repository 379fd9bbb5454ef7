//! Numbers on pictures: a real minus sign, no "−0", thousands apart, round steps.

/// A number with that many decimals: `−1 234.5`, never `-0.0`. Thousands are set apart by a narrow
/// no-break space from 10 000 on.
pub(super) fn number(value: f64, decimals: usize) -> String {
    let plain = format!("{:.*}", decimals, value.abs());
    let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
    let mut text = String::new();
    if value < 0.0 && plain.bytes().any(|b| (b'1'..=b'9').contains(&b)) {
        text.push('\u{2212}');
    }
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && whole.len() > 4 && (whole.len() - i).is_multiple_of(3) {
            text.push('\u{202f}');
        }
        text.push(digit);
    }
    if !part.is_empty() {
        text.push('.');
        text.push_str(part);
    }
    text
}

/// A number with a sign in front, `+` too; zero has none.
pub(super) fn signed(value: f64, decimals: usize) -> String {
    let text = number(value, decimals);
    let zero = !text.bytes().any(|b| (b'1'..=b'9').contains(&b));
    if zero || value < 0.0 { text } else { format!("+{text}") }
}

/// The largest of 1, 2, 5 times a power of ten that is not above `value`; 1 if that makes no sense.
pub(super) fn round_down(value: f64) -> f64 {
    if !value.is_finite() || value <= 0.0 {
        return 1.0;
    }
    let power = 10_f64.powf(value.log10().floor());
    let lead = value / power * (1.0 + 1e-9);
    power * [5.0, 2.0, 1.0].into_iter().find(|step| lead >= *step).unwrap_or(1.0)
}

/// Round ticks inside [low, high], about as many as asked for, and the decimals they need.
pub(super) fn ticks(low: f64, high: f64, about: f64) -> (Vec<f64>, usize) {
    let wanted = (high - low) / about.max(1.0);
    let below = round_down(wanted);
    let step = if wanted > below * 1.5 { next_up(below) } else { below };
    let decimals = (-step.log10().floor()).max(0.0) as usize;
    let first = (low / step - 1e-9).ceil() as i64;
    let last = (high / step + 1e-9).floor() as i64;
    ((first..=last.min(first + 100)).map(|n| n as f64 * step).collect(), decimals)
}

fn next_up(step: f64) -> f64 {
    let lead = step / 10_f64.powf(step.log10().floor());
    if lead > 1.5 && lead < 2.5 { step * 2.5 } else { step * 2.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minus_is_a_minus_and_zero_has_no_sign() {
        assert_eq!(number(-12.34, 1), "\u{2212}12.3");
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(9000.0, 0), "9000");
        assert_eq!(number(-1_234_567.0, 0), "\u{2212}1\u{202f}234\u{202f}567");
        assert_eq!(signed(3.0, 1), "+3.0");
        assert_eq!(signed(0.001, 1), "0.0");
    }

    #[test]
    fn factors_are_one_two_five() {
        for (value, want) in
            [(0.7, 0.5), (1.0, 1.0), (4.99, 2.0), (5.0, 5.0), (99.0, 50.0), (f64::NAN, 1.0), (0.0, 1.0)]
        {
            assert!((round_down(value) - want).abs() < 1e-12, "{value}: {} for {want}", round_down(value));
        }
    }

    #[test]
    fn ticks_are_round_and_inside() {
        assert_eq!(ticks(-0.5, 9.5, 5.0).0, [0.0, 2.0, 4.0, 6.0, 8.0]);
        let (t, decimals) = ticks(-0.12, 0.31, 5.0);
        assert_eq!((t.len(), decimals), (5, 1), "{t:?}");
    }
}
