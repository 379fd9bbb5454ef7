//! What formulas are written in: one number, or several side by side.
//!
//! A formula that takes any [`Number`] is written once. With `f64` it is the plain one; with [`Lanes`](super::Lanes) the compiler makes one instruction for
//! several cases. Both do the same steps in the same order: they differ by `exp` and `ln` alone, which lanes work out
//! themselves, to a few parts in 10¹⁶.

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, MulAssign, Neg, Sub, SubAssign};

/// One number or several.
pub trait Number:
    Copy
    + Debug
    + Default
    + PartialEq
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
    + Neg<Output = Self>
    + AddAssign
    + SubAssign
    + MulAssign
{
    /// How many values it holds.
    const COUNT: usize;

    /// From the value of each.
    fn of(value: impl FnMut(usize) -> f64) -> Self;

    /// One of its values.
    fn nth(self, index: usize) -> f64;

    /// Square root.
    #[must_use]
    fn sqrt(self) -> Self;

    /// Size without sign.
    #[must_use]
    fn abs(self) -> Self;

    /// e to its power.
    #[must_use]
    fn exp(self) -> Self;

    /// e to its power, less 1.
    #[must_use]
    fn exp_m1(self) -> Self;

    /// Natural logarithm, of a positive number.
    #[must_use]
    fn ln(self) -> Self;

    /// A positive number to some power.
    #[must_use]
    fn powf(self, power: f64) -> Self;

    /// The same to a power of its own each.
    #[must_use]
    fn to_the(self, power: Self) -> Self;

    /// `yes` where it is more than `limit`, else `no`.
    #[must_use]
    fn above(self, limit: Self, yes: Self, no: Self) -> Self;

    /// The same size with the sign of the other.
    #[must_use]
    fn signed_as(self, other: Self) -> Self;

    /// All of that value.
    #[inline(always)]
    fn all(value: f64) -> Self {
        Self::of(|_| value)
    }

    /// The larger.
    #[must_use]
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        self.above(other, self, other)
    }

    /// The smaller.
    #[must_use]
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        other.above(self, self, other)
    }

    /// Root of the sum of its square and the other's: the deviation of a sum of two that know nothing of each other.
    #[must_use]
    #[inline(always)]
    fn beside(self, other: Self) -> Self {
        (self * self + other * other).sqrt()
    }

    /// One over it.
    #[must_use]
    #[inline(always)]
    fn inverse(self) -> Self {
        Self::all(1.0) / self
    }

    /// Each of its values put through a function.
    #[must_use]
    #[inline(always)]
    fn each(self, value: impl Fn(f64) -> f64) -> Self {
        Self::of(|index| value(self.nth(index)))
    }

    /// Whether any of its values is so.
    #[inline(always)]
    fn any(self, so: impl Fn(f64) -> bool) -> bool {
        (0..Self::COUNT).any(|index| so(self.nth(index)))
    }

    /// Adds numbers up.
    #[inline(always)]
    fn sum(all: impl Iterator<Item = Self>) -> Self {
        let mut sum = Self::default();
        for one in all {
            sum += one;
        }
        sum
    }
}

/// What one number has under the same name.
macro_rules! of_its_own {
    ($($function:ident),+) => {$(
        #[inline(always)]
        fn $function(self) -> Self {
            Self::$function(self)
        }
    )+};
}

impl Number for f64 {
    const COUNT: usize = 1;

    #[inline(always)]
    fn of(mut value: impl FnMut(usize) -> f64) -> Self {
        value(0)
    }

    #[inline(always)]
    fn nth(self, _: usize) -> f64 {
        self
    }

    of_its_own! { sqrt, abs, exp, exp_m1, ln }

    #[inline(always)]
    fn powf(self, power: f64) -> Self {
        Self::powf(self, power)
    }

    #[inline(always)]
    fn to_the(self, power: Self) -> Self {
        Self::powf(self, power)
    }

    #[inline(always)]
    fn above(self, limit: Self, yes: Self, no: Self) -> Self {
        if self > limit { yes } else { no }
    }

    #[inline(always)]
    fn signed_as(self, other: Self) -> Self {
        self.copysign(other)
    }
}
