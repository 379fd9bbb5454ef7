//! Lengths as a picture shows them: the axis along the member in m or ft, everything else in mm or in.
//! Single values are worded by `units::show`; here is what axes and tight places need beside it.

use super::number::number;
use weldbow_engine::units::{FT_MM, IN_MM, LBF_N, System, show};

/// A unit of an axis.
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
    /// Places along the member.
    pub(super) fn along(system: System) -> Self {
        let (name, mm, decimals) = system.pick(("m", 1000.0, 2), ("ft", FT_MM, 1));
        Self { name, mm, decimals }
    }

    /// Offsets and shortening.
    pub(super) fn offset(system: System) -> Self {
        let (name, mm, decimals) = system.pick(("mm", 1.0, 1), ("in", IN_MM, 2));
        Self { name, mm, decimals }
    }

    /// Forces of a press or of a weld; N for mm.
    pub(super) fn force(system: System) -> Self {
        let (name, mm, decimals) = system.pick(("kN", 1000.0, 0), ("kip", 1000.0 * LBF_N, 1));
        Self { name, mm, decimals }
    }

    /// The same with a decimal more.
    pub(super) const fn finer(self) -> Self {
        Self { decimals: self.decimals + 1, ..self }
    }

    /// "9.2 ± 2.8 mm": size and two standard deviations, sign left out.
    pub(super) fn size_2s(self, mm: f64, two_s_mm: f64) -> String {
        // a spread that is not zero is not shown as zero
        let fine = two_s_mm > 0.0 && two_s_mm / self.mm < 0.5 * 0.1_f64.powi(self.decimals as i32);
        let unit = if fine { self.finer() } else { self };
        format!("{} ± {} {}", unit.bare(mm.abs()), unit.bare(two_s_mm), unit.name)
    }

    /// One decimal more when everything to be compared is at most ten of the last digit.
    pub(super) fn to_tell_apart(self, largest_mm: f64) -> Self {
        let small = largest_mm / self.mm < 10.0 * 0.1_f64.powi(self.decimals as i32);
        Self { decimals: self.decimals + usize::from(small), ..self }
    }

    /// "−9.2", no unit.
    pub(super) fn bare(self, mm: f64) -> String {
        number(mm / self.mm, self.decimals)
    }
}

/// Width by thickness, unit once: "180 × 10 mm", "8 × 3/8 in".
pub(super) fn plate_size(width_mm: f64, thickness_mm: f64, system: System) -> String {
    let width = show::plate(width_mm, system);
    let bare = width.split(' ').next().unwrap_or(&width);
    format!("{bare} × {}", show::plate(thickness_mm, system))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_name_their_unit_once() {
        assert_eq!(Unit::offset(System::Si).size_2s(-9.24, 2.8), "9.2 ± 2.8 mm");
        assert_eq!(Unit::offset(System::Us).size_2s(0.4, 0.12), "0.016 ± 0.005 in");
        let unit = Unit::offset(System::Si);
        assert_eq!(
            (unit.to_tell_apart(0.9).bare(0.234), unit.to_tell_apart(1.1).bare(0.234)),
            ("0.23".into(), "0.2".into())
        );
        assert_eq!(plate_size(203.2, 9.525, System::Us), "8 × 3/8 in");
        assert_eq!(plate_size(180.0, 10.0, System::Si), "180 × 10 mm");
    }
}
