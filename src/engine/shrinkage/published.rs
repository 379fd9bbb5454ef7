//! Other authors' estimates of the shrinkage force, each as its author defined it.
//!
//! They share laboratories and theories, so their spread shows how far methods differ, not how far any of them
//! is from a real member.

use super::{second_side, tendon};

/// What the methods may use of one pass.
#[derive(Debug, Clone, Copy)]
pub struct MethodInput {
    /// Net heat input, J/mm.
    pub heat_j_per_mm: f64,
    /// Nominal section z²/2, mm².
    pub nominal_mm2: f64,
    /// Young's modulus, MPa.
    pub e_mpa: f64,
}

/// How a method adds the second side of a web to the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SecondSide {
    /// By lag, as [`second_side::second_side_of_proportional`].
    ByLag,
    /// Total over first is this, whatever the lag.
    Fixed(f64),
}

impl SecondSide {
    /// Total over first at that lag (time/t*).
    pub fn factor(self, lag: f64) -> f64 {
        match self {
            Self::ByLag => second_side::second_side_of_proportional(lag),
            Self::Fixed(k) => k,
        }
    }
}

/// One published estimate.
#[derive(Debug, Clone, Copy)]
pub struct PublishedMethod {
    /// What it computes, in a few words.
    pub method: &'static str,
    /// Author, year, how known.
    pub source: &'static str,
    /// Force of one pass, N.
    pub force_n: fn(&MethodInput) -> f64,
    /// Rule for the second side.
    pub second: SecondSide,
    /// A bound rather than a mean.
    pub bound: bool,
}

/// Every method, mean estimates first, the bound last.
pub const METHODS: &[PublishedMethod] = &[
    PublishedMethod {
        method: "thin-plate bar theory, 0.335 αE/ρc · Q",
        source: "Okerblom 1955/1958 (memory, derived again)",
        force_n: |w| tendon::okerblom(w.heat_j_per_mm),
        second: SecondSide::ByLag,
        bound: false,
    },
    PublishedMethod {
        method: "thick-plate bar theory, 0.255 αE/ρc · Q",
        source: "derived from the same theory",
        force_n: |w| tendon::thick_plate(w.heat_j_per_mm),
        second: SecondSide::ByLag,
        bound: false,
    },
    PublishedMethod {
        method: "tendon force, 0.2 kN per J/mm",
        source: "White, Leggatt and Dwight 1977–1980 (memory)",
        force_n: |w| 200.0 * w.heat_j_per_mm,
        second: SecondSide::ByLag,
        bound: false,
    },
    PublishedMethod {
        method: "shrinkage volume, 0.86·10⁻⁶ cm³/J",
        source: "Nikolaev, Kuzminov, Vinokurov (memory, check)",
        force_n: |w| 0.86e-3 * w.e_mpa * w.heat_j_per_mm,
        second: SecondSide::ByLag,
        bound: false,
    },
    PublishedMethod {
        method: "170 N per J/mm, low-alloy steel",
        source: "shop rule of shipyards for heavy sections, source not recorded",
        force_n: |w| 170.0 * w.heat_j_per_mm,
        second: SecondSide::ByLag,
        bound: false,
    },
    PublishedMethod {
        method: "tension block, 12000·p·A, p = 0.9",
        source: "ECCS 1976 (memory; p to be confirmed)",
        force_n: |w| 12_000.0 * 0.9 * w.nominal_mm2,
        second: SecondSide::Fixed(1.189_207_115_002_721),
        bound: false,
    },
    PublishedMethod {
        method: "bowing formula 0.005·A·L²·d/I, as a force",
        source: "Blodgett 1966 (memory)",
        force_n: |w| 0.04 * w.e_mpa * w.nominal_mm2,
        second: SecondSide::Fixed(2.0),
        bound: false,
    },
    PublishedMethod {
        method: "weld-area constant 0.0735, submerged arc",
        source: "weld-area rule, k₁ 0.071–0.076, source not recorded",
        force_n: |w| 0.0735 * w.e_mpa * w.nominal_mm2,
        second: SecondSide::Fixed(1.375),
        bound: false,
    },
    PublishedMethod {
        method: "0.025 of the length × weld over plate area",
        source: "Guyot 1947 (memory, check)",
        force_n: |w| 0.025 * w.e_mpa * w.nominal_mm2,
        second: SecondSide::Fixed(2.0),
        bound: false,
    },
    PublishedMethod {
        method: "whole plastic zone at yield, 316 N per J/mm",
        source: "Leggatt 2008, as in BS 7910 (memory): an upper bound",
        force_n: |w| 2.0 * 1.033 * 153.0 * w.heat_j_per_mm,
        second: SecondSide::ByLag,
        bound: true,
    },
];

/// Shop rule for fillets: 0.8 mm per 3 m for each weld (shop rule, source not recorded).
pub(crate) const SHOP_RULE_MM_PER_MM: f64 = 0.8 / 3000.0;

/// Fillets lengthwise, mm per m of member: 0.1 … 0.3 (German shop rule, Malisius school; memory, check).
pub(crate) const FILLETS_MM_PER_M: (f64, f64) = (0.1, 0.3);

/// Allowance for a welded I with all four seams, mm per m: 0.6 up to 1 m deep and 25 mm thick, 1.4 when thicker, 0.2 when
/// deeper (cutting allowances of shops, source not recorded). High side by intent.
///
/// ```
/// use weldbow_engine::shrinkage::published::four_seams_mm_per_m;
/// assert!(four_seams_mm_per_m(600.0, 12.0) == 0.6 && four_seams_mm_per_m(1200.0, 12.0) == 0.2);
/// ```
pub fn four_seams_mm_per_m(depth_mm: f64, thickest_mm: f64) -> f64 {
    match (depth_mm <= 1000.0, thickest_mm <= 25.0) {
        (true, true) => 0.6,
        (true, false) => 1.4,
        (false, _) => 0.2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mean_estimates_of_a_six_millimetre_leg_stay_within_a_factor_of_three() {
        let weld = MethodInput { heat_j_per_mm: 1158.0, nominal_mm2: 18.0, e_mpa: 206e3 };
        let forces: Vec<f64> =
            METHODS.iter().filter(|m| !m.bound).map(|m| (m.force_n)(&weld) / 1e3).collect();
        let (least, most) = forces.iter().fold((f64::MAX, 0.0_f64), |(a, b), f| (a.min(*f), b.max(*f)));
        assert!((least - 92.7).abs() < 0.1 && (most - 272.5).abs() < 0.1, "{least:.1} … {most:.1} kN");
    }
}
