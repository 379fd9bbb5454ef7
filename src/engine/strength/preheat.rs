//! Preheat by process, steel and thickness, as data; and the formula that goes by the steel's own composition.

use super::Origin;
use super::minimum::SAME_PLATE;
use crate::steel::Steel;
use crate::tolerance::Trust;
use crate::units::{IN_MM, System};
use crate::welding::Process;
use serde::Serialize;

/// Temperature of steel in a shop that is heated, °C: what no preheat means (choice).
pub(crate) const SHOP_WARM_C: f64 = 20.0;
/// Yield strength from which a steel is taken for one of category C, MPa: 60 ksi (A572-60 is the first named there; for steels that
/// the table does not name a choice).
const CATEGORY_C_MPA: f64 = 413.0;

/// Group of processes and steels that one row of the table is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub(crate) enum Category {
    /// Covered electrodes that are not of low hydrogen, on steels to about 55 ksi.
    A,
    /// Submerged arc, gas metal arc, flux-cored and low-hydrogen electrodes, on steels to about 55 ksi.
    B,
    /// The same on steels of 60 ksi and over.
    C,
}

/// One row: temperatures up to 20, 38, 65 mm and above, °C; inches are 3/4, 1-1/2 and 2-1/2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreheatRow {
    /// Category.
    pub(crate) category: Category,
    /// Where it comes from.
    pub origin: Origin,
    /// Least temperature of the steel, °C, in the four steps of thickness.
    pub(crate) least_c: [f64; 4],
}

/// Steps of thickness of the table, mm and in (AWS D1.1:2015 Table 3.3, second hand).
const STEPS_MM: [f64; 3] = [20.0, 38.0, 65.0];
/// The same in inches.
const STEPS_IN: [f64; 3] = [0.75, 1.5, 2.5];

const D1_1: Origin = Origin::of("AWS D1.1", "2015", "Table 3.3", Trust::SecondHand);

/// AWS D1.1:2015 Table 3.3 (2020: Table 5.8), by the thickest part at the weld.
pub(crate) const PREHEATS: &[PreheatRow] = &[
    PreheatRow { category: Category::A, origin: D1_1, least_c: [0.0, 65.0, 110.0, 150.0] },
    PreheatRow { category: Category::B, origin: D1_1, least_c: [0.0, 10.0, 65.0, 110.0] },
    PreheatRow {
        category: Category::C,
        origin: Origin { trust: Trust::MemoryCheck, ..D1_1 },
        least_c: [10.0, 65.0, 110.0, 150.0],
    },
];

/// Category of a process on a steel. Of a covered electrode nothing is known of its hydrogen: it counts as one that is not low.
pub(crate) fn category(process: Process, steel: &Steel) -> Category {
    match (process, steel.yield_mpa >= CATEGORY_C_MPA) {
        (_, true) => Category::C,
        (Process::ManualMetalArc, false) => Category::A,
        _ => Category::B,
    }
}

/// Least temperature of the steel before welding plates up to that thickness (mm), and the row that says so. In US units the steps
/// are read in inches: 3/4 in is in the first, 20 mm is in SI.
///
/// ```
/// use weldbow_engine::{steel::{Steel, grade}, strength::preheat_by_table, units::System, welding::Process};
/// let steel = Steel::from(grade("S355").ok_or("no such grade")?);
/// let least = |t| preheat_by_table(Process::SubmergedArc, &steel, t, System::Si).0;
/// assert_eq!([20.0, 25.0, 40.0].map(least), [0.0, 10.0, 65.0]);
/// # Ok::<(), &str>(())
/// ```
pub fn preheat_by_table(
    process: Process,
    steel: &Steel,
    thickest_mm: f64,
    system: System,
) -> (f64, &'static PreheatRow) {
    let wanted = category(process, steel);
    let row = PREHEATS.iter().find(|row| row.category == wanted).unwrap_or(&PREHEATS[1]);
    let ends = system.pick(STEPS_MM, STEPS_IN.map(|inches| IN_MM * inches));
    let step = ends.iter().filter(|end| thickest_mm > **end * SAME_PLATE).count();
    (row.least_c[step], row)
}

/// Carbon equivalent CET, %, from parts of the plate's certificate, % by mass (EN 1011-2:2001 C.3):
/// C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40.
///
/// ```
/// // 0.16 % C, 1.40 % Mn
/// assert!((weldbow_engine::strength::cet([0.16, 1.40, 0.0, 0.0, 0.0, 0.0]) - 0.30).abs() < 1e-12);
/// ```
pub fn cet([c, mn, mo, cr, cu, ni]: [f64; 6]) -> f64 {
    c + (mn + mo) / 10.0 + (cr + cu) / 20.0 + ni / 40.0
}

/// Preheat by EN 1011-2:2001 method B, °C: 697·CET + 160·tanh(d/35) + 62·HD^0.35 + (53·CET − 32)·Q − 328, with CET in %, plate
/// thickness d in mm, hydrogen HD in ml per 100 g of weld metal, heat input Q in kJ/mm (formula second hand; its window, CET 0.2
/// to 0.5, d 10 to 90, HD 1 to 20, Q 0.5 to 4, memory). `None` outside the window.
///
/// ```
/// let preheat = weldbow_engine::strength::preheat_by_cet_c(0.31, 20.0, 5.0, 1.0);
/// assert_eq!(preheat.map(f64::round), Some(64.0));
/// ```
pub fn preheat_by_cet_c(
    cet: f64,
    thickness_mm: f64,
    hydrogen_ml_per_100_g: f64,
    heat_kj_per_mm: f64,
) -> Option<f64> {
    let inside = (0.2..=0.5).contains(&cet)
        && (10.0..=90.0).contains(&thickness_mm)
        && (1.0..=20.0).contains(&hydrogen_ml_per_100_g)
        && (0.5..=4.0).contains(&heat_kj_per_mm);
    let by_steel = 697.0 * cet + 160.0 * (thickness_mm / 35.0).tanh();
    let by_weld = 62.0 * hydrogen_ml_per_100_g.powf(0.35) + (53.0 * cet - 32.0) * heat_kj_per_mm;
    inside.then_some(by_steel + by_weld - 328.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::steel::grade;

    #[test]
    fn thicker_plates_and_harder_steels_ask_for_more() {
        for row in PREHEATS {
            assert!(row.least_c.windows(2).all(|w| w[0] <= w[1]), "{row:?}");
        }
        let steel = Steel::from(grade("A572-50").unwrap());
        let least = |process, mm| preheat_by_table(process, &steel, mm, System::Us).0;
        for (mm, wanted) in [(19.05, 0.0), (25.4, 10.0), (50.8, 65.0)] {
            let got = least(Process::SubmergedArc, mm);
            assert!((got - wanted).abs() < 1e-9, "{mm} mm: {got} °C, in the table {wanted} °C");
        }
        assert!((least(Process::ManualMetalArc, 25.4) - 65.0).abs() < 1e-9, "hydrogen unknown");
        let hard = Steel { yield_mpa: 460.0, ..steel.clone() };
        assert_eq!(category(Process::SubmergedArc, &hard), Category::C);
    }
}
