//! One look for every picture: colours, line weights, dash patterns, letter sizes.
//!
//! Colours are the eight of Okabe and Ito (2008, "Color universal design"; memory, sure), chosen to stay
//! apart for colour-blind eyes; every series also has its own dashes, so that a grey print still reads.

/// A colour: red, green, blue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ink(pub u8, pub u8, pub u8);

pub(super) const BLACK: Ink = Ink(0x22, 0x22, 0x22);
pub(super) const GREY: Ink = Ink(0x5a, 0x5f, 0x66);
pub(super) const PALE: Ink = Ink(0xd9, 0xdc, 0xe0);
pub(super) const WHITE: Ink = Ink(0xff, 0xff, 0xff);
pub(super) const WEB: Ink = Ink(0xe9, 0xec, 0xef);
pub(super) const STEEL: Ink = Ink(0x8d, 0x96, 0xa0);
pub(super) const BLUE: Ink = Ink(0x00, 0x72, 0xb2);
pub(super) const VERMILION: Ink = Ink(0xd5, 0x5e, 0x00);
pub(super) const GREEN: Ink = Ink(0x00, 0x9e, 0x73);
const PURPLE: Ink = Ink(0xcc, 0x79, 0xa7);
pub(super) const ORANGE: Ink = Ink(0xe6, 0x9f, 0x00);
const SKY: Ink = Ink(0x56, 0xb4, 0xe9);
/// Sky thinned with white: beside blue it also reads as the pale one in grey.
pub(super) const SKY_PALE: Ink = Ink(0xcc, 0xe6, 0xf8);

/// Dash patterns in px: drawn, left out, drawn …; empty for a full line.
pub(super) type Dash = &'static [f64];
pub(super) const FULL: Dash = &[];
pub(super) const DASHED: Dash = &[7.0, 4.0];
pub(super) const SHORT: Dash = &[3.5, 2.5];
pub(super) const DOTTED: Dash = &[1.6, 3.0];
pub(super) const DASH_DOT: Dash = &[9.0, 3.5, 2.0, 3.5];

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stroke {
    /// Colour.
    pub(crate) ink: Ink,
    /// Width, px.
    pub width: f64,
    /// Dashes.
    pub dash: Dash,
}

impl Stroke {
    pub(super) const fn new(ink: Ink, width: f64, dash: Dash) -> Self {
        Self { ink, width, dash }
    }
}

/// Lines of a grid.
pub(super) const GRID: Stroke = Stroke::new(PALE, 0.8, FULL);
/// The line of zero.
pub(super) const ZERO: Stroke = Stroke::new(GREY, 1.0, FULL);
/// Dimension and leader lines.
pub(super) const THIN: Stroke = Stroke::new(GREY, 0.8, FULL);
/// The unbent shape, the square line.
pub(super) const GHOST: Stroke = Stroke::new(GREY, 0.9, SHORT);
/// Edges of plates.
pub(super) const OUTLINE: Stroke = Stroke::new(BLACK, 1.0, FULL);
/// What is predicted.
pub(super) const PREDICTED: Stroke = Stroke::new(BLUE, 2.2, FULL);
/// A tolerance limit.
pub(super) const LIMIT: Stroke = Stroke::new(VERMILION, 1.4, DASHED);
/// What is wanted.
pub(super) const WANTED: Stroke = Stroke::new(GREEN, 1.6, DASH_DOT);
/// A weld on the near side; a weld on the far side is hidden behind the web, hence dashed.
pub(super) const NEAR_WELD: Stroke = Stroke::new(BLUE, 2.4, FULL);
/// A weld on the far side.
pub(super) const FAR_WELD: Stroke = Stroke::new(VERMILION, 2.4, SHORT);

/// Share of ink in an uncertainty band.
pub(super) const BAND_ALPHA: f64 = 0.18;

/// The n-th of several lines in one plot; patterns and colours repeat with different periods.
pub(super) fn series(n: usize) -> Stroke {
    const INKS: [Ink; 6] = [BLUE, VERMILION, GREEN, PURPLE, ORANGE, SKY];
    const DASHES: [Dash; 5] = [FULL, DASHED, DASH_DOT, SHORT, DOTTED];
    Stroke::new(INKS[n % INKS.len()], 2.0, DASHES[n % DASHES.len()])
}

/// Letters: size in px, colour, weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Letters {
    /// Size, px.
    pub size: f64,
    /// Colour.
    pub(crate) ink: Ink,
    /// Heavy or not.
    pub(crate) bold: bool,
}

impl Letters {
    const fn new(size: f64, ink: Ink, bold: bool) -> Self {
        Self { size, ink, bold }
    }

    /// The same in another colour, darkened where letters in it would be too pale on white.
    pub(super) const fn in_ink(self, ink: Ink) -> Self {
        Self { ink: ink.for_letters(), ..self }
    }
}

impl Ink {
    /// The colour for letters: contrast to white of at least 4.5 to 1, as WCAG 2.2, 1.4.3 asks; a line may be paler.
    const fn for_letters(self) -> Self {
        match self {
            VERMILION => Self(0xad, 0x48, 0x00),
            GREEN => Self(0x00, 0x76, 0x56),
            PURPLE => Self(0x9c, 0x4a, 0x78),
            ORANGE => Self(0x88, 0x5c, 0x00),
            SKY => Self(0x1d, 0x6b, 0x9e),
            other => other,
        }
    }
}

pub(super) const TITLE: Letters = Letters::new(17.0, BLACK, true);
pub(super) const SUBTITLE: Letters = Letters::new(12.5, GREY, false);
pub(super) const HEADING: Letters = Letters::new(12.5, BLACK, true);
pub(super) const LABEL: Letters = Letters::new(12.0, BLACK, false);
pub(super) const VALUE: Letters = Letters::new(12.0, BLACK, true);
pub(super) const SMALL: Letters = Letters::new(11.0, GREY, false);

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast of a colour to white: (L₁ + 0.05) / (L₂ + 0.05) with the relative luminance of WCAG 2.2.
    fn contrast(ink: Ink) -> f64 {
        let linear = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        1.05 / (0.2126 * linear(ink.0) + 0.7152 * linear(ink.1) + 0.0722 * linear(ink.2) + 0.05)
    }

    #[test]
    fn letters_are_dark_enough_to_read() {
        assert!((contrast(Ink(0, 0, 0)) - 21.0).abs() < 1e-9, "black on white is 21 to 1");
        assert!(contrast(VERMILION) < 4.5, "as a line it may be paler");
        for ink in [BLACK, GREY, BLUE, VERMILION, GREEN, PURPLE, ORANGE, SKY] {
            let letters = LABEL.in_ink(ink).ink;
            assert!(contrast(letters) >= 4.5, "{letters:?}: {:.2}", contrast(letters));
        }
    }

    #[test]
    fn twelve_lines_in_one_plot_all_look_different() {
        let strokes: Vec<Stroke> = (0..12).map(series).collect();
        for (i, a) in strokes.iter().enumerate() {
            for (j, b) in strokes.iter().enumerate().skip(i + 1) {
                assert!(a != b, "lines {i} and {j} are both {a:?}");
            }
        }
    }
}
