//! Exponentials and logarithms of several numbers at once: without a branch, so that one instruction serves all.

use super::number::Number;

/// ln 2 in two parts, the first with zeros at its end, so that a whole number times it is exact (W. J. Cody and W. Waite, Software Manual for
/// the Elementary Functions, 1980; memory, sure of the method, the digits computed).
const LN_2: [f64; 2] = [0.693_147_180_369_123_8, 1.908_214_929_270_587_7e-10];
/// Added to a number, this rounds it to a whole one, which then stands in the last bits: 1.5·2⁵².
const ROUNDS: f64 = 6_755_399_441_055_744.0;
/// Bits of a fraction.
const FRACTION: u32 = 52;
/// Bits of 1.
const ONE: u64 = 1.0_f64.to_bits();

/// c₀ + c₁·x + … with its terms taken in pairs and pairs of pairs, so that few of them wait for each other (G. Estrin 1960; memory, sure): the
/// first eight, the next two and four, and x², x⁴, x⁸.
#[inline(always)]
fn pairs<N: Number, const K: usize>(terms: [f64; K], x: N) -> ([N; 3], [N; 3]) {
    let square = x * x;
    let fourth = square * square;
    let pair = |first: usize| x * terms[first + 1] + terms[first];
    let four = |first: usize| pair(first) + pair(first + 2) * square;
    let last = if K > 11 { pair(10) } else { N::all(terms[10]) };
    ([four(0) + four(4) * fourth, pair(8), last], [square, fourth, fourth * fourth])
}

/// Added to a third of an exponent and its first bits, as they stand in the upper half of a number, this makes them those of the cube root to
/// 5 % (W. Kahan's, as in FreeBSD's msun; memory, sure).
const CUBE_ROOT: u64 = 715_094_163;

/// A little above the cube root of a number ≥ 0, by at most 0.3 %: one step of Newton's method, which ends above from either side. To start from.
#[inline(always)]
pub(crate) fn cube_root_above<N: Number>(x: N) -> N {
    let near = x.each(|x| f64::from_bits(((x.to_bits() >> 32) / 3 + CUBE_ROOT) << 32));
    (near * 2.0 + x / (near * near)) * (1.0 / 3.0)
}

/// 1/n! from n = 0.
const EXPONENTIAL: [f64; 14] = {
    let (mut terms, mut factorial, mut n) = ([1.0; 14], 1.0, 1);
    while n < terms.len() {
        factorial *= n as f64;
        terms[n] = 1.0 / factorial;
        n += 1;
    }
    terms
};

/// r and 2ⁿ of x = n·ln 2 + r, |r| ≤ ½ ln 2. Beyond ±708 as at ±708.
#[inline(always)]
fn reduced<N: Number>(x: N) -> (N, N) {
    const MOST: f64 = 708.0;
    // NaN stays NaN
    let x = x.above(N::all(MOST), N::all(MOST), x);
    let x = N::all(-MOST).above(x, N::all(-MOST), x);
    let shifted = x * std::f64::consts::LOG2_E + ROUNDS;
    let n = shifted - ROUNDS;
    let r = (x - n * LN_2[0]) - n * LN_2[1];
    (r, shifted.each(|whole| f64::from_bits((whole.to_bits() << FRACTION).wrapping_add(ONE))))
}

/// e to the power of x without a branch, so that it is computed for all lanes at once: the series of eʳ to r¹³ (the rest is below 10⁻¹⁷).
#[inline(always)]
pub(crate) fn exp<N: Number>(x: N) -> N {
    let (r, two_to_n) = reduced(x);
    let ([eight, two, next], [square, fourth, eighth]) = pairs(EXPONENTIAL, r);
    let last = r * EXPONENTIAL[13] + EXPONENTIAL[12];
    (eight + (two + next * square + last * fourth) * eighth) * two_to_n
}

/// The same less 1, likewise, also where little is left: (eʳ − 1)·2ⁿ + 2ⁿ − 1.
#[inline(always)]
pub(crate) fn exp_m1<N: Number>(x: N) -> N {
    // (eʳ − 1)/r has the same series from its second term on
    let [_, terms @ ..] = EXPONENTIAL;
    let (r, two_to_n) = reduced(x);
    let ([eight, two, next], [square, fourth, eighth]) = pairs(terms, r);
    r * (eight + (two + next * square + fourth * terms[12]) * eighth) * two_to_n + (two_to_n - 1.0)
}

/// 1/n of the odd n from 1.
const ARTANH: [f64; 11] = {
    let (mut terms, mut n) = ([1.0; 11], 1);
    while n < terms.len() {
        terms[n] = 1.0 / (2 * n + 1) as f64;
        n += 1;
    }
    terms
};

/// Natural logarithm of a positive normal number, likewise: x = 2ⁿ·m, m from √½ to √2, ln m = 2·artanh((m − 1)/(m + 1)) by its series to the 21st
/// power (the rest is below 10⁻¹⁷).
#[inline(always)]
pub(crate) fn ln<N: Number>(x: N) -> N {
    /// 2⁵², whose last bits hold a whole number when it is added.
    const WHOLE: f64 = 4_503_599_627_370_496.0;
    const BIAS: f64 = 1023.0;
    let fraction = x.each(|x| f64::from_bits((x.to_bits() & ((1 << FRACTION) - 1)) | ONE));
    let power = x.each(|x| f64::from_bits((x.to_bits() >> FRACTION) | WHOLE.to_bits())) - WHOLE - BIAS;
    let halve = N::all(std::f64::consts::SQRT_2);
    let m = fraction.above(halve, fraction * 0.5, fraction);
    let n = fraction.above(halve, power + 1.0, power);
    let s = (m - 1.0) / (m + 1.0);
    let ([eight, two, last], [square, _, eighth]) = pairs(ARTANH, s * s);
    n * LN_2[0] + (n * LN_2[1] + s * 2.0 * (eight + (two + last * square) * eighth))
}

#[cfg(test)]
mod tests {
    use crate::numerics::{Lanes, Number};

    #[test]
    fn a_cube_root_is_started_a_little_above_it() {
        for k in -4000..=4000 {
            let x = (0.01 * f64::from(k)).exp();
            let over = super::cube_root_above(x) / x.cbrt() - 1.0;
            assert!((-1e-15..0.003).contains(&over), "{x}: {over} above");
        }
        assert!(super::cube_root_above(0.0) < 1e-100, "nothing of nothing");
    }

    /// Against the standard library's, which is right to the last bit or so.
    #[test]
    fn lanes_know_exponentials_logarithms_and_powers() {
        let apart = |ours: f64, theirs: f64| (ours / theirs - 1.0).abs();
        let mut worst = [0.0_f64; 4];
        for k in -70_000..=70_000 {
            let x = 0.01 * f64::from(k);
            worst[0] = worst[0].max(apart(Lanes::all(x).exp().nth(0), x.exp()));
            let y = (0.001 * f64::from(k)).exp();
            worst[1] = worst[1].max((Lanes::all(y).ln().nth(1) - y.ln()).abs() / y.ln().abs().max(1e-3));
            let z = (5e-5 * f64::from(k)).exp();
            worst[2] = worst[2].max(apart(Lanes::all(z).powf(4.39).nth(3), z.powf(4.39)));
            let little = x * 1e-3 + 1e-9;
            worst[3] = worst[3].max(apart(Lanes::all(little).exp_m1().nth(2), little.exp_m1()));
        }
        println!("exp, ln, power and exp less 1, relative: {worst:?}");
        assert!(worst[0] < 6e-16 && worst[1] < 1e-15 && worst[2] < 1e-14 && worst[3] < 1e-15, "{worst:?}");
        let exp = |x: f64| Lanes::all(x).exp().nth(2);
        assert!(exp(f64::NAN).is_nan() && exp(-1e9) < 1e-300 && exp(1e9) > 1e300);
    }
}
