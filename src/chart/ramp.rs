//! Shades for values, even to the eye and in a grey print.

use crate::theme::Ink;

/// Ends of the ramps: pale, dark, and the dark of the other sign.
const PALE: Ink = Ink(0xf2, 0xf6, 0xfa);
const DARK: Ink = Ink(0x0a, 0x3a, 0x66);
const OTHER: Ink = Ink(0x6a, 0x26, 0x02);

/// How values become shades.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Ramp {
    /// Pale at the first, dark at the second: from the smallest size to the largest.
    OneWay(f64, f64),
    /// Pale at zero, blue above and brown below, equally dark at this size.
    BothWays(f64),
}

impl Ramp {
    /// For values between those two. Signs count as mixed if the smaller side reaches 2 % of the larger
    /// (a choice).
    pub(super) fn of(low: f64, high: f64) -> Self {
        let largest = low.abs().max(high.abs());
        if low < 0.0 && high > 0.0 && low.abs().min(high) > 0.02 * largest {
            Self::BothWays(largest)
        } else if low.abs() > high.abs() {
            Self::OneWay(high, low)
        } else {
            Self::OneWay(low, high)
        }
    }

    /// How dark a value is: 0 pale to 1 dark, below zero for the other sign.
    pub(super) fn depth(self, value: f64) -> f64 {
        let part = match self {
            Self::OneWay(pale, dark) if (dark - pale).abs() > 0.0 => {
                ((value - pale) / (dark - pale)).max(0.0)
            }
            Self::OneWay(..) => 0.4,
            Self::BothWays(largest) => value / largest,
        };
        part.clamp(-1.0, 1.0)
    }

    /// Shade of a value.
    pub(super) fn ink(self, value: f64) -> Ink {
        self.ink_of(self.depth(value))
    }

    /// Shade of a depth.
    pub(super) fn ink_of(self, depth: f64) -> Ink {
        mix(PALE, if depth < 0.0 { OTHER } else { DARK }, depth.abs())
    }
}

/// Shade number `n` of `of`, from a quarter to full depth: for classes that must show on white.
pub(super) fn class_ink(n: usize, of: usize) -> Ink {
    mix(PALE, DARK, 0.3 + 0.7 * n as f64 / of.saturating_sub(1).max(1) as f64)
}

/// Between two colours, by equal steps for the eye (Ottosson 2020, "A perceptual color space for image
/// processing", Oklab; coefficients from memory, checked in the tests against white and red).
pub(super) fn mix(a: Ink, b: Ink, part: f64) -> Ink {
    let (a, b) = (lab(a), lab(b));
    ink([0, 1, 2].map(|i| a[i] + part * (b[i] - a[i])))
}

fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
}

fn channel(linear: f64) -> u8 {
    let c = linear.clamp(0.0, 1.0);
    let c = if c <= 0.003_130_8 { 12.92 * c } else { 1.055 * c.powf(1.0 / 2.4) - 0.055 };
    (255.0 * c).round() as u8
}

fn dot(row: [f64; 3], v: [f64; 3]) -> f64 {
    row[0] * v[0] + row[1] * v[1] + row[2] * v[2]
}

fn lab(ink: Ink) -> [f64; 3] {
    let rgb = [linear(ink.0), linear(ink.1), linear(ink.2)];
    let cones = [
        dot([0.412_221_470_8, 0.536_332_536_3, 0.051_445_992_9], rgb).cbrt(),
        dot([0.211_903_498_2, 0.680_699_545_1, 0.107_396_956_6], rgb).cbrt(),
        dot([0.088_302_461_9, 0.281_718_837_6, 0.629_978_700_5], rgb).cbrt(),
    ];
    [
        dot([0.210_454_255_3, 0.793_617_785_0, -0.004_072_046_8], cones),
        dot([1.977_998_495_1, -2.428_592_205_0, 0.450_593_709_9], cones),
        dot([0.025_904_037_1, 0.782_771_766_2, -0.808_675_766_0], cones),
    ]
}

fn ink(lab: [f64; 3]) -> Ink {
    let cones = [
        dot([1.0, 0.396_337_777_4, 0.215_803_757_3], lab).powi(3),
        dot([1.0, -0.105_561_345_8, -0.063_854_172_8], lab).powi(3),
        dot([1.0, -0.089_484_177_5, -1.291_485_548_0], lab).powi(3),
    ];
    Ink(
        channel(dot([4.076_741_662_1, -3.307_711_591_3, 0.230_969_929_2], cones)),
        channel(dot([-1.268_438_004_6, 2.609_757_401_1, -0.341_319_396_5], cones)),
        channel(dot([-0.004_196_086_3, -0.703_418_614_7, 1.707_614_701_0], cones)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CIE 1976 lightness L* of a colour (CIE 15; luminance weights of IEC 61966-2-1), 0 to 100.
    fn lightness(ink: Ink) -> f64 {
        let y = dot([0.2126, 0.7152, 0.0722], [linear(ink.0), linear(ink.1), linear(ink.2)]);
        if y > 216.0 / 24389.0 { 116.0 * y.cbrt() - 16.0 } else { y * 24389.0 / 27.0 }
    }

    #[test]
    fn white_and_red_have_their_published_places() {
        // Ottosson's page lists L = 1, a = b = 0 for white and 0.628, 0.225, 0.126 for red (memory)
        let white = lab(Ink(255, 255, 255));
        assert!((white[0] - 1.0).abs() < 1e-4 && white[1].abs() < 1e-4 && white[2].abs() < 1e-4, "{white:?}");
        let red = lab(Ink(255, 0, 0));
        assert!((red[0] - 0.628).abs() < 1e-3 && (red[1] - 0.225).abs() < 1e-3, "{red:?}");
    }

    #[test]
    fn shades_darken_in_even_steps() {
        for sign in [1.0, -1.0] {
            let ramp = Ramp::BothWays(1.0);
            let steps: Vec<f64> = (0..=10).map(|n| lightness(ramp.ink(sign * f64::from(n) / 10.0))).collect();
            let drops: Vec<f64> = steps.windows(2).map(|p| p[0] - p[1]).collect();
            let mean = (steps[0] - steps[10]) / 10.0;
            assert!(mean > 6.0, "{steps:?}");
            assert!(drops.iter().all(|drop| (drop - mean).abs() < 0.25 * mean), "{drops:?}");
        }
    }

    #[test]
    fn equal_sizes_of_both_signs_are_equally_dark() {
        for size in [0.3, 0.6, 1.0] {
            let (plus, minus) = (Ramp::BothWays(1.0).ink(size), Ramp::BothWays(1.0).ink(-size));
            assert!((lightness(plus) - lightness(minus)).abs() < 6.0, "{size}: {plus:?} {minus:?}");
        }
    }

    #[test]
    fn the_largest_size_is_darkest() {
        assert_eq!(Ramp::of(2.0, 9.0), Ramp::OneWay(2.0, 9.0));
        assert_eq!(Ramp::of(-9.0, -2.0), Ramp::OneWay(-2.0, -9.0));
        assert_eq!(Ramp::of(-9.0, 4.0), Ramp::BothWays(9.0));
        assert!(Ramp::of(3.0, 3.0).depth(3.0) > 0.0);
    }
}
