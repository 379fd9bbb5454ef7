//! Several numbers side by side.

use super::number::Number;
use super::powers;
use std::ops::{Add, AddAssign, Div, DivAssign, Mul, MulAssign, Neg, Sub, SubAssign};

/// Cases side by side in [`Lanes`]: two registers of four for each number, so that one is worked on while the other waits (a choice, measured:
/// with four cases a row of bows takes a seventh more).
pub(crate) const LANES: usize = 8;

/// Numbers of as many cases side by side.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
#[repr(align(16))]
pub(crate) struct Lanes([f64; LANES]);

impl Number for Lanes {
    const COUNT: usize = LANES;

    #[inline(always)]
    fn of(mut value: impl FnMut(usize) -> f64) -> Self {
        // a formula is thousands of these: as loops they would take the compiler minutes
        Self([value(0), value(1), value(2), value(3), value(4), value(5), value(6), value(7)])
    }

    #[inline(always)]
    fn nth(self, index: usize) -> f64 {
        self.0[index]
    }

    #[inline(always)]
    fn sqrt(self) -> Self {
        self.each(f64::sqrt)
    }

    #[inline(always)]
    fn abs(self) -> Self {
        self.each(f64::abs)
    }

    #[inline(always)]
    fn exp(self) -> Self {
        powers::exp(self)
    }

    #[inline(always)]
    fn exp_m1(self) -> Self {
        powers::exp_m1(self)
    }

    #[inline(always)]
    fn ln(self) -> Self {
        powers::ln(self)
    }

    #[inline(always)]
    fn powf(self, power: f64) -> Self {
        (self.ln() * power).exp()
    }

    #[inline(always)]
    fn to_the(self, power: Self) -> Self {
        (self.ln() * power).exp()
    }

    #[inline(always)]
    fn any(self, so: impl Fn(f64) -> bool) -> bool {
        let [a, b, c, d, e, f, g, h] = self.0;
        so(a) | so(b) | so(c) | so(d) | so(e) | so(f) | so(g) | so(h)
    }

    #[inline(always)]
    fn above(self, limit: Self, yes: Self, no: Self) -> Self {
        Self::of(|k| if self.0[k] > limit.0[k] { yes.0[k] } else { no.0[k] })
    }

    #[inline(always)]
    fn signed_as(self, other: Self) -> Self {
        Self::of(|k| self.0[k].copysign(other.0[k]))
    }
}

/// What numbers do lane by lane.
macro_rules! lane_by_lane {
    ($($trait:ident $function:ident $assign:ident $assigning:ident $sign:tt;)*) => {$(
        impl $trait for Lanes {
            type Output = Self;

            #[inline(always)]
            fn $function(self, other: Self) -> Self {
                Self::of(|k| self.0[k] $sign other.0[k])
            }
        }

        impl $trait<f64> for Lanes {
            type Output = Self;

            #[inline(always)]
            fn $function(self, other: f64) -> Self {
                Self::of(|k| self.0[k] $sign other)
            }
        }

        impl $assign for Lanes {
            #[inline(always)]
            fn $assigning(&mut self, other: Self) {
                *self = *self $sign other;
            }
        }
    )*};
}

lane_by_lane! {
    Add add AddAssign add_assign +;
    Sub sub SubAssign sub_assign -;
    Mul mul MulAssign mul_assign *;
    Div div DivAssign div_assign /;
}

impl Neg for Lanes {
    type Output = Self;

    #[inline(always)]
    fn neg(self) -> Self {
        self.each(|value| -value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lanes_do_what_numbers_do() {
        let (a, b) = (Lanes::of(|k| 3.0 * k as f64 - 3.5), Lanes::of(|k| 2.0 - 0.75 * k as f64));
        let pairs = [
            (a + b, (|a, b| a + b) as fn(f64, f64) -> f64),
            (a - b * 3.0, |a, b| a - b * 3.0),
            (a / b - 1.0, |a, b| a / b - 1.0),
            (a.max(b), f64::max),
            (a.min(b), f64::min),
            (a.abs().sqrt().signed_as(b), |a, b| a.abs().sqrt().copysign(b)),
            (a.above(b, -a, b.inverse()), |a, b| if a > b { -a } else { 1.0 / b }),
        ];
        for (number, (lanes, plain)) in pairs.into_iter().enumerate() {
            for k in 0..LANES {
                let want = plain(a.nth(k), b.nth(k));
                assert_eq!(lanes.nth(k).to_bits(), want.to_bits(), "{number}, lane {k}");
            }
        }
        let last = a.nth(LANES - 1);
        assert!(a.any(|v| v >= last) && !a.any(|v| v > last));
    }
}
