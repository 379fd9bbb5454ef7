//! The shapes that tolerance formulas take, as data.

use super::{Band, Facts};
use crate::units::System;

/// The size a table of ranges is entered with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EntrySize {
    /// Member length.
    Length,
    /// Flange width.
    FlangeWidth,
}

impl EntrySize {
    fn of_mm(self, facts: &Facts) -> f64 {
        match self {
            Self::Length => facts.length_mm,
            Self::FlangeWidth => facts.flange_width_mm,
        }
    }
}

/// A formula for the allowed deviation; L member length, b flange width, t its thickness, d web depth, t_w its thickness, all mm. Every shape allows the same
/// to both sides except [`Rule::CamberCurve`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rule {
    /// The same for every member.
    Fixed {
        /// Allowed, mm.
        mm: f64,
    },
    /// max(L / over, at_least). "1/8 in for each 10 ft" is over = 960, "1 mm per metre" is over = 1000.
    Length {
        /// Divisor.
        over: f64,
        /// Floor, mm; 0 for none.
        at_least: f64,
    },
    /// L / over + plus.
    LengthPlus {
        /// Divisor.
        over: f64,
        /// Added, mm.
        plus: f64,
    },
    /// L / over, but at_least and at_most.
    LengthBetween {
        /// Divisor.
        over: f64,
        /// Floor, mm.
        at_least: f64,
        /// Cap, mm.
        at_most: f64,
    },
    /// L / over up to `from`; `flat` from there to `until`; beyond it L / over more for what is longer.
    LengthSteps {
        /// Divisor.
        over: f64,
        /// Where the flat part starts, mm.
        from_mm: f64,
        /// Where it ends, mm.
        until_mm: f64,
        /// Allowed there, mm.
        flat_mm: f64,
    },
    /// max(b / over, at_least).
    Width {
        /// Divisor.
        over: f64,
        /// Floor, mm; 0 for none.
        at_least: f64,
    },
    /// b / over for flanges up to `thin` times as wide as thick, b² / (thin · over · t) beyond: both meet there.
    ThinFlange {
        /// Divisor.
        over: f64,
        /// b/t from which the thickness counts.
        thin: f64,
    },
    /// max(d / over, at_least), d the clear web depth.
    Depth {
        /// Divisor.
        over: f64,
        /// Floor, mm; 0 for none.
        at_least: f64,
    },
    /// max(d / over, t_w): never less than the web is thick.
    DepthOrWeb {
        /// Divisor.
        over: f64,
    },
    /// The smaller side of a web panel over one divisor where d/t_w is below `split`, over another from there on.
    Panel {
        /// d/t_w.
        split: f64,
        /// Divisor below it.
        under: f64,
        /// Divisor from it on.
        above: f64,
    },
    /// min(b/2 · tan(degrees), at_most): an angle of the flange, measured at its toe.
    ToeAngle {
        /// Angle, degrees.
        degrees: f64,
        /// Cap at the toe, mm.
        at_most: f64,
    },
    /// b/2 · slope / 1000, the slope by ranges of b/2, upper ends included: an angular tolerance whose
    /// shorter leg is half the flange, measured at its toe.
    ToeSlope {
        /// Upper ends of the ranges of b/2, mm, rising, the last infinite.
        up_to_mm: &'static [f64],
        /// Slope in each range, mm per m.
        mm_per_m: &'static [f64],
    },
    /// A table by ranges of a size, upper ends included; silent below the first range.
    Ranges {
        /// What the table is entered with.
        of: EntrySize,
        /// Lower end of the first range, mm.
        from_mm: f64,
        /// Upper ends of the ranges, mm, rising, the last infinite.
        up_to_mm: &'static [f64],
        /// Allowed in each range, mm.
        mm: &'static [f64],
    },
    /// No less than the wanted camber anywhere; at most 4·m·s·(1 − s) more at s = x/L, so m at mid-length;
    /// m = short for L below the split, long from there on.
    CamberCurve {
        /// Length at which the allowance changes, mm.
        split_mm: f64,
        /// Allowed at mid-length below it, mm.
        short_mm: f64,
        /// Allowed at mid-length from it on, mm.
        long_mm: f64,
    },
    /// One rule in the metric column, another in the US column.
    EachSystem {
        /// Metric column.
        si: &'static Rule,
        /// US column.
        us: &'static Rule,
    },
}

impl Rule {
    /// The allowed band at s = x/L (0 … 1; only [`Rule::CamberCurve`] minds it). None if a table has no
    /// range for the size.
    pub(crate) fn band_at(&self, facts: &Facts, s: f64) -> Option<Band> {
        let half_width = facts.flange_width_mm / 2.0;
        let both = match *self {
            Self::Fixed { mm } => mm,
            Self::Length { over, at_least } => (facts.length_mm / over).max(at_least),
            Self::LengthPlus { over, plus } => facts.length_mm / over + plus,
            Self::LengthBetween { over, at_least, at_most } => {
                (facts.length_mm / over).max(at_least).min(at_most)
            }
            Self::LengthSteps { over, from_mm, until_mm, flat_mm } => match facts.length_mm {
                short if short < from_mm => short / over,
                long if long > until_mm => flat_mm + (long - until_mm) / over,
                _ => flat_mm,
            },
            Self::ThinFlange { over, thin } => {
                let width = facts.flange_width_mm;
                width / over * (width / (thin * facts.flange_mm)).max(1.0)
            }
            Self::Depth { over, at_least } => (facts.web_depth_mm / over).max(at_least),
            Self::DepthOrWeb { over } => (facts.web_depth_mm / over).max(facts.web_mm),
            Self::Panel { split, under, above } => {
                facts.panel_mm / if facts.web_depth_mm < split * facts.web_mm { under } else { above }
            }
            Self::Width { over, at_least } => (facts.flange_width_mm / over).max(at_least),
            Self::ToeAngle { degrees, at_most } => (half_width * degrees.to_radians().tan()).min(at_most),
            Self::ToeSlope { up_to_mm, mm_per_m } => {
                half_width * in_range(half_width, up_to_mm, mm_per_m)? / 1e3
            }
            Self::Ranges { of, from_mm, up_to_mm, mm } => {
                let size = of.of_mm(facts);
                if size < from_mm {
                    return None;
                }
                in_range(size, up_to_mm, mm)?
            }
            Self::CamberCurve { split_mm, short_mm, long_mm } => {
                let middle = if facts.length_mm < split_mm { short_mm } else { long_mm };
                return Some(Band { less_mm: 0.0, more_mm: 4.0 * middle * s * (1.0 - s) });
            }
            Self::EachSystem { si, us } => {
                let rule = if facts.units == System::Us { us } else { si };
                return rule.band_at(facts, s);
            }
        };
        Some(Band::both(both))
    }
}

/// The value of the first range whose upper end is not below the size.
fn in_range(size: f64, up_to: &[f64], values: &[f64]) -> Option<f64> {
    let place = up_to.iter().position(|end| size <= *end)?;
    values.get(place).copied()
}
