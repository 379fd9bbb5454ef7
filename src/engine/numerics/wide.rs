//! The widest registers that this processor has.

use super::Number;

/// Work on numbers side by side.
pub(crate) trait Work {
    /// What it brings.
    type Done;

    /// Does it. Whatever it calls is compiled for wide registers only if it is inlined into it: `#[inline(always)]`.
    fn run(self) -> Self::Done;
}

/// Does work with instructions for the widest registers there are. Each number is worked on as in narrow ones, nothing is fused: the result is
/// the same to the last bit on every processor.
#[cfg(all(feature = "plans", target_arch = "x86_64"))]
#[inline]
fn wide<W: Work>(work: W) -> W::Done {
    struct Op<W>(W);

    impl<W: Work> pulp::WithSimd for Op<W> {
        type Output = W::Done;

        #[inline(always)]
        fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
            self.0.run()
        }
    }

    pulp::Arch::new().dispatch(Op(work))
}

/// The same where all registers are alike.
#[cfg(not(all(feature = "plans", target_arch = "x86_64")))]
#[inline]
fn wide<W: Work>(work: W) -> W::Done {
    work.run()
}

/// Does work that is written in `N`: of several numbers in the widest registers, if that is compiled; of one as it stands.
pub(crate) fn in_lanes<N: Number, W: Work>(work: W) -> W::Done {
    if cfg!(wide) && N::COUNT > 1 { wide(work) } else { work.run() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::Lanes;

    struct Powers(Lanes);

    impl Work for Powers {
        type Done = Lanes;

        #[inline(always)]
        fn run(self) -> Lanes {
            (self.0 * self.0 + 1.0).powf(0.37) / (self.0.abs() + 2.0).sqrt() + self.0.exp()
        }
    }

    /// With multiplications and additions fused this would fail.
    #[test]
    fn wide_registers_change_no_bit() {
        for k in 0..1000 {
            let numbers = Lanes::of(|lane| 0.013 * f64::from(k) - 4.0 + 0.1 * lane as f64);
            let (narrow, wide) = (Powers(numbers).run(), wide(Powers(numbers)));
            for lane in 0..Lanes::COUNT {
                assert_eq!(narrow.nth(lane).to_bits(), wide.nth(lane).to_bits(), "{k}, lane {lane}");
            }
        }
    }
}
