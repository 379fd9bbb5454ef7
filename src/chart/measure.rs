//! Lengths as a picture shows them: along the member in m or ft, everything else in mm or in.

use super::number::number;
use crate::units::System;

/// A unit on a picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unit {
    /// As written behind a number.
    pub name: &'static str,
    /// Engine mm in one of it.
    pub mm: f64,
    /// Decimals a reading deserves.
    pub decimals: usize,
}

impl Unit {
    /// Places along the member: m with two decimals, ft with one.
    pub(super) const fn along(system: System) -> Self {
        match system {
            System::Si => Self { name: "m", mm: 1000.0, decimals: 2 },
            System::Us => Self { name: "ft", mm: 304.8, decimals: 1 },
        }
    }

    /// Offsets and shortening: mm with one decimal, in with two.
    pub(super) const fn offset(system: System) -> Self {
        match system {
            System::Si => Self { name: "mm", mm: 1.0, decimals: 1 },
            System::Us => Self { name: "in", mm: 25.4, decimals: 2 },
        }
    }

    /// "9.2 mm"; the sign is left out.
    pub(super) fn size(self, mm: f64) -> String {
        format!("{} {}", number(mm.abs() / self.mm, self.decimals), self.name)
    }

    /// "9.2 ± 2.8 mm": size and two standard deviations, sign left out.
    pub(super) fn size_2s(self, mm: f64, two_s_mm: f64) -> String {
        format!("{} ± {} {}", self.bare(mm.abs()), self.bare(two_s_mm), self.name)
    }

    /// "−9.2", no unit.
    pub(super) fn bare(self, mm: f64) -> String {
        number(mm / self.mm, self.decimals)
    }
}

/// Plate sizes and depths: as few decimals as say the same, "180" and "12.7" mm, "7.09" in.
pub(super) fn plate(mm: f64, system: System) -> String {
    let unit = Unit::offset(system);
    let text = number(mm / unit.mm, if system == System::Si { 1 } else { 3 });
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}

/// The name of the unit of [`plate`].
pub(super) const fn plate_unit(system: System) -> &'static str {
    Unit::offset(system).name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_a_shop_writes_them() {
        assert_eq!(Unit::offset(System::Si).size_2s(-9.24, 2.8), "9.2 ± 2.8 mm");
        assert_eq!(Unit::offset(System::Us).size(25.4), "1.00 in");
        assert_eq!(Unit::along(System::Us).size(9144.0), "30.0 ft");
        assert_eq!(plate(180.0, System::Si), "180");
        assert_eq!(plate(12.7, System::Us), "0.5");
        assert_eq!(plate(7.94, System::Us), "0.313");
    }
}
