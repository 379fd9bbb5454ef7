//! A table as people read it: in the units of the job, small angles in mrad.

use super::definition::Study;
use super::table::{Column, Table, Values};
use crate::units::System;

const IN_MM: f64 = 25.4;
const KSI_MPA: f64 = 6.894_757;
const KIP_N: f64 = 4_448.222;
const LB_KG: f64 = 0.453_592_37;
const KJ_IN: f64 = 1000.0 / 25.4;

/// Unit shown instead of an engine unit, and how many engine units it has.
fn instead(unit: &str, system: System) -> Option<(&'static str, f64)> {
    match (unit, system) {
        ("rad", _) => Some(("mrad", 1e-3)),
        ("N", System::Si) => Some(("kN", 1e3)),
        ("J/mm", System::Si) => Some(("kJ/mm", 1e3)),
        ("N", System::Us) => Some(("kip", KIP_N)),
        ("J/mm", System::Us) => Some(("kJ/in", KJ_IN)),
        ("mm", System::Us) => Some(("in", IN_MM)),
        ("MPa", System::Us) => Some(("ksi", KSI_MPA)),
        ("kg", System::Us) => Some(("lb", LB_KG)),
        _ => None,
    }
}

impl Study {
    /// The table in the units of the job it starts from; inputs stay in the units of the study file.
    pub fn shown(&self, table: &Table) -> Table {
        let system = self.base().units;
        let inputs = table.columns.len() - self.collect.len();
        let column = |(i, column): (usize, &Column)| {
            let Some((unit, size)) = instead(&column.unit, system).filter(|_| i >= inputs) else {
                return column.clone();
            };
            let values = match &column.values {
                Values::Numbers(numbers) => Values::Numbers(numbers.iter().map(|n| n / size).collect()),
                words @ Values::Words(_) => words.clone(),
            };
            Column { unit: unit.to_owned(), values, ..column.clone() }
        };
        Table { columns: table.columns.iter().enumerate().map(column).collect() }
    }

    /// How many engine units a result has in the unit shown.
    pub(super) fn shown_unit(&self, unit: &str) -> f64 {
        instead(unit, self.base().units).map_or(1.0, |(_, size)| size)
    }
}
