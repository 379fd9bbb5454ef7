//! A table as people read it: in the units of the job, angles in degrees as everywhere else.

use super::definition::Study;
use super::table::{Column, Table, Values};
use crate::units::{Kind, System};

/// Kilograms of a pound, exact.
const LB_KG: f64 = 0.453_592_37;

/// Unit shown instead of an engine unit, and how many engine units it has.
fn instead(unit: &str, system: System) -> Option<(&'static str, f64)> {
    match (unit, system) {
        ("rad", _) => Some(("°", std::f64::consts::PI / 180.0)),
        ("N", System::Si) => Some(("kN", 1e3)),
        ("J/mm", System::Si) => Some(("kJ/mm", 1e3)),
        ("N", System::Us) => of(Kind::Force, "kip"),
        ("J/mm", System::Us) => of(Kind::HeatInput, "kJ/in"),
        ("mm", System::Us) => of(Kind::Length, "in"),
        ("MPa", System::Us) => of(Kind::Stress, "ksi"),
        ("kg", System::Us) => Some(("lb", LB_KG)),
        _ => None,
    }
}

/// A unit that a reader may write, and how many engine units it has.
fn of(kind: Kind, spelling: &str) -> Option<(&'static str, f64)> {
    kind.unit(spelling).map(|unit| (unit.spelling, 1.0 / unit.of_engine(1.0)))
}

impl Study {
    /// Reads its results in those units instead of the job's own.
    #[must_use]
    pub const fn in_units(mut self, system: System) -> Self {
        self.system = system;
        self
    }

    /// The table in the units it is read in; inputs stay in the units of the study file.
    pub fn shown(&self, table: &Table) -> Table {
        let system = self.system;
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

    /// A result for people: its words, the unit it is shown in, and how many engine units that has.
    pub fn shown_as(&self, name: &str) -> Option<(&str, &'static str, f64)> {
        let result = self.collect.iter().find(|c| c.name == name)?;
        let (unit, size) = instead(result.unit, self.system).unwrap_or((result.unit, 1.0));
        Some((&result.words, unit, size))
    }

    /// How many engine units a result has in the unit shown.
    pub(super) fn shown_unit(&self, unit: &str) -> f64 {
        instead(unit, self.system).map_or(1.0, |(_, size)| size)
    }
}
