//! Where the lines of a graded mesh run.

/// Most even steps.
const MOST_STEPS: f64 = 1e6;

/// Places from 0 to `length`, rising strictly: `even` steps of about `first`, then steps growing by `growth`; all are
/// shrunk alike so that the last falls on `length`.
///
/// A growth below 1 counts as 1, and a first step that would make more than a million as the whole length.
pub fn graded(length: f64, first: f64, even: usize, growth: f64) -> Vec<f64> {
    let mut places = vec![0.0];
    let growth = growth.max(1.0);
    let first = if first * MOST_STEPS >= length { first } else { length };
    let (mut at, mut step) = (0.0, first);
    // A last step of less than half its size is not worth a row of elements.
    while at + step / 2.0 < length {
        at += step;
        places.push(at);
        if places.len() > even {
            step *= growth;
        }
    }
    if places.len() == 1 {
        return vec![0.0, length];
    }
    let scale = length / at;
    places.iter().map(|p| p * scale).collect()
}

/// How many steps [`graded`] makes, near enough to refuse a mesh before it is made.
pub(crate) fn steps(length: f64, first: f64, even: usize, growth: f64) -> f64 {
    let (even, uniform) = (even as f64, (length / first).max(1.0));
    if uniform <= even || growth <= 1.0 {
        return uniform;
    }
    even + (1.0 + (uniform - even) * (growth - 1.0)).ln() / growth.ln()
}

/// `count` equal steps from `from` to `to`, ends included.
pub(crate) fn even(from: f64, to: f64, count: usize) -> Vec<f64> {
    (0..=count).map(|i| from + (to - from) * i as f64 / count as f64).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_of_no_size_end_too() {
        for (first, growth) in [(0.0, 1.2), (-1.0, 1.2), (f64::NAN, 1.0), (1.0, 0.1), (1e-12, 1.0)] {
            assert!(graded(10.0, first, 0, growth).len() < 20, "{first}, {growth}");
        }
    }

    #[test]
    fn lines_rise_from_nought_to_the_length_and_are_as_many_as_foretold() {
        for (length, first, fine, growth) in
            [(84.0, 1.5, 4, 1.2), (12.0, 1.5, 8, 1.15), (0.4, 1.5, 4, 1.2), (1.5, 1.5, 0, 1.0)]
        {
            let lines = graded(length, first, fine, growth);
            assert!(lines.windows(2).all(|w| w[1] > w[0]), "{lines:?}");
            assert!((lines[lines.len() - 1] - length).abs() < 1e-12, "{lines:?}");
            let (got, told) = (lines.len() as f64 - 1.0, steps(length, first, fine, growth));
            assert!((got - told).abs() <= 1.5, "{got} steps, {told} foretold");
        }
    }
}
