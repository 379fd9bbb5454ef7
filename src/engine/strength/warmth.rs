//! How warm the steel must be before an arc: by the table of processes, or by the composition of the plates where it is known.

use super::preheat::{SHOP_WARM_C, preheat_by_cet_c, preheat_by_table};
use crate::steel::Steel;
use crate::units::{Message, Part, System};
use crate::welding::Process;

/// Hydrogen taken where nothing is said, ml per 100 g of weld metal (choice: dried flux).
pub(crate) const USUAL_HYDROGEN: f64 = 5.0;
/// Thinnest plate of the formula that goes by composition, mm: a thinner one is taken as that.
const CET_THIN_MM: f64 = 10.0;
/// Heat inputs of that formula, kJ/mm: one beyond is taken as the end.
const CET_HEAT: (f64, f64) = (0.5, 4.0);

/// What of a weld decides it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Deposited {
    pub(crate) process: Process,
    pub(crate) hydrogen_ml_per_100_g: f64,
    /// After arc efficiency.
    pub(crate) heat_kj_per_mm: f64,
}

/// How warm the plates must be.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Warmth {
    /// At least, °C.
    pub(crate) least_c: f64,
    thickest_mm: f64,
    by: String,
}

impl Deposited {
    /// By the table, or by the composition (`cet`, %) where it is known and asks for more.
    pub(crate) fn warmth(&self, steel: &Steel, cet: Option<f64>, thickest_mm: f64, system: System) -> Warmth {
        let (least_c, row) = preheat_by_table(self.process, steel, thickest_mm, system);
        let hydrogen = self.hydrogen_ml_per_100_g;
        let heat = self.heat_kj_per_mm.clamp(CET_HEAT.0, CET_HEAT.1);
        let by_composition =
            |cet| Some((cet, preheat_by_cet_c(cet, thickest_mm.max(CET_THIN_MM), hydrogen, heat)?.ceil()));
        match cet.and_then(by_composition).filter(|(_, more_c)| *more_c > least_c.max(SHOP_WARM_C)) {
            Some((cet, least_c)) => {
                let by = format!(
                    "EN 1011-2:2001 C.3 (second hand): CET {cet} %, hydrogen {hydrogen} ml/100 g, {heat:.1} kJ/mm"
                );
                Warmth { least_c, thickest_mm, by }
            }
            None => {
                let by = format!("{}, category {:?}", row.origin.marked(), row.category);
                Warmth { least_c, thickest_mm, by }
            }
        }
    }
}

impl Warmth {
    /// Whether steel is as warm; a warm shop counts.
    pub(crate) fn holds(&self, steel_c: f64) -> bool {
        steel_c.max(SHOP_WARM_C) + 1e-9 >= self.least_c
    }

    /// What the plates ask for.
    pub(crate) fn asked(&self) -> Message {
        let parts = [Part::Plate(self.thickest_mm), Part::Hottest(self.least_c), self.by.clone().into()];
        Message::of("plates of {} ask for steel of {} at least ({})", parts)
    }
}
