//! A root between two ends of opposite sign.

use thiserror::Error;

/// Why no root was found.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RootError {
    /// Both ends lie on the same side of zero.
    #[error("no change of sign between {low} (value {at_low}) and {high} (value {at_high})")]
    NotBracketed {
        /// Low end.
        low: f64,
        /// Value there.
        at_low: f64,
        /// High end.
        high: f64,
        /// Value there.
        at_high: f64,
    },
    /// The function gave no number.
    #[error("no number at {at}")]
    NotFinite {
        /// Where.
        at: f64,
    },
}

/// More steps than halving needs to exhaust an f64 from any bracket of like signs.
const MOST_STEPS: usize = 200;

/// The place between `low` and `high` where `f` is zero, to `gap` in the place.
///
/// Inverse quadratic interpolation where Chandrupatla's test trusts it, halving elsewhere (T. R. Chandrupatla,
/// Advances in Engineering Software 28 (1997) 145–149; memory).
///
/// # Errors
/// [`RootError`] if the ends have the same sign or the function gives no number.
///
/// ```
/// let r = weldbow_engine::numerics::root(|x| x * x - 2.0, 0.0, 2.0, 1e-12)?;
/// assert!((r - 2.0_f64.sqrt()).abs() < 1e-12);
/// # Ok::<(), weldbow_engine::numerics::RootError>(())
/// ```
pub fn root(mut f: impl FnMut(f64) -> f64, low: f64, high: f64, gap: f64) -> Result<f64, RootError> {
    let mut value = |x: f64| {
        let y = f(x);
        if y.is_finite() { Ok(y) } else { Err(RootError::NotFinite { at: x }) }
    };
    let (mut a, mut b) = (high, low);
    let (mut fa, mut fb) = (value(a)?, value(b)?);
    if fa * fb > 0.0 {
        return Err(RootError::NotBracketed { low, at_low: fb, high, at_high: fa });
    }
    let mut t = 0.5;
    for _ in 0..MOST_STEPS {
        let x = a + t * (b - a);
        let fx = value(x)?;
        let (c, fc);
        if fx.signum() * fa.signum() > 0.0 {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, f_best) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let near = gap.max(4.0 * f64::EPSILON * best.abs()) / (b - a).abs();
        if near > 0.5 || f_best.abs() <= f64::MIN_POSITIVE {
            return Ok(best);
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        t = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        } else {
            0.5
        };
        t = t.clamp(near, 1.0 - near);
    }
    Ok(a)
}

/// Halves what lies between two ends, at most so often and while it is `wide`: the lower end moves up wherever `low_side` holds.
pub(crate) fn halved(
    [mut low, mut high]: [f64; 2],
    rounds: usize,
    wide: impl Fn(f64, f64) -> bool,
    mut low_side: impl FnMut(f64) -> bool,
) -> [f64; 2] {
    for _ in 0..rounds {
        if !wide(low, high) {
            break;
        }
        let middle = 0.5 * (low + high);
        if low_side(middle) { low = middle } else { high = middle }
    }
    [low, high]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steep_flat_and_exact_roots_are_found() {
        for (what, f, low, high, want) in [
            ("cubic", (|x| x * x * x - 8.0) as fn(f64) -> f64, 0.0, 100.0, 2.0),
            ("exponential", |x| x.exp() - 1e6, 0.0, 100.0, 1e6_f64.ln()),
            ("at an end", |x| x - 3.0, 3.0, 9.0, 3.0),
            ("step", |x| if x < 0.3 { -1.0 } else { 1.0 }, 0.0, 1.0, 0.3),
        ] {
            let got = root(f, low, high, 1e-12).unwrap();
            assert!((got - want).abs() < 1e-10, "{what}: {got} against {want}");
        }
    }

    #[test]
    fn ends_of_one_sign_and_missing_numbers_are_told_apart() {
        assert!(matches!(root(|x| x + 1.0, 0.0, 1.0, 1e-9), Err(RootError::NotBracketed { .. })));
        assert!(matches!(root(|_| f64::NAN, 0.0, 1.0, 1e-9), Err(RootError::NotFinite { .. })));
    }
}
