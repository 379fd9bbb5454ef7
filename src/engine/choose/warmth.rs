//! How warm the steel must be before an arc.

use super::book::{Entry, USUAL_HYDROGEN};
use crate::prediction::Job;
use crate::strength::{SHOP_WARM_C, preheat_by_cet_c, preheat_by_table};
use crate::welding::{Pass, Process};

/// How warm the steel must be.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Warmth {
    /// At least, °C.
    pub(crate) least_c: f64,
    /// Who says so.
    pub(crate) by: String,
}

/// What of a procedure decides it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Deposited {
    process: Process,
    hydrogen_ml_per_100_g: f64,
    /// After arc efficiency, in the window of the formula.
    heat_kj_per_mm: f64,
}

/// Thinnest plate of the formula that goes by composition, mm: a thinner one is taken as that.
const CET_THIN_MM: f64 = 10.0;

impl Deposited {
    pub(super) fn of_entry(entry: &Entry) -> Self {
        Self {
            process: entry.process,
            hydrogen_ml_per_100_g: entry.hydrogen_ml_per_100_g,
            heat_kj_per_mm: entry.least_heat_kj_per_mm(),
        }
    }

    /// Of a pass of a job, whose weld metal is taken to be dry.
    pub(super) fn of_pass(pass: &Pass, process: Process) -> Self {
        let heat_kj_per_mm = (1e-3 * pass.heat_j_per_mm).clamp(0.5, 4.0);
        Self { process, hydrogen_ml_per_100_g: USUAL_HYDROGEN, heat_kj_per_mm }
    }

    /// By the table, or by the composition of the plates where the job states it and it asks for more.
    pub(super) fn warmth(&self, job: &Job, thickest_mm: f64) -> Warmth {
        let (least_c, row) = preheat_by_table(self.process, &job.member.steel, thickest_mm, job.units);
        let Self { hydrogen_ml_per_100_g: hydrogen, heat_kj_per_mm: heat, .. } = *self;
        let composition = job.carries.as_ref().and_then(|c| c.cet).and_then(|cet| {
            Some((cet, preheat_by_cet_c(cet, thickest_mm.max(CET_THIN_MM), hydrogen, heat)?.ceil()))
        });
        match composition {
            Some((cet, more_c)) if more_c > least_c.max(SHOP_WARM_C) => Warmth {
                least_c: more_c,
                by: format!(
                    "EN 1011-2:2001 C.3 (second hand): CET {cet} %, hydrogen {hydrogen} ml/100 g, {heat:.1} kJ/mm"
                ),
            },
            _ => Warmth { least_c, by: format!("{}, category {:?}", row.origin.marked(), row.category) },
        }
    }
}
