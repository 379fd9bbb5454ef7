//! Rounding of pieces and hours: one decimal, and a little is not nothing.

/// "12.4", "< 0.1", "0"; no decimals from 100 on.
pub(crate) fn figure(value: f64) -> String {
    match value {
        v if !v.is_finite() => "not known".to_owned(),
        v if v <= 0.0 => "0".to_owned(),
        v if v < 0.05 => "< 0.1".to_owned(),
        v if v < 99.95 => format!("{v:.1}"),
        v => format!("{v:.0}"),
    }
}

/// "2.0 … 31": where the model bias leaves it.
pub(super) fn range(low: f64, high: f64) -> String {
    format!("{} … {}", figure(low), figure(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_little_is_not_nothing() {
        let all = [0.0, -0.0, 0.02, 0.05, 3.21, 99.96, 1234.5, f64::NAN].map(figure);
        assert_eq!(all, ["0", "0", "< 0.1", "0.1", "3.2", "100", "1234", "not known"]);
        assert_eq!(range(0.0, 31.2), "0 … 31.2");
    }
}
