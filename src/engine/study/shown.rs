//! A table as people read it: in the units of the job, angles in degrees as everywhere else.

use super::definition::Study;
use super::table::{Column, Table, Values};
use crate::units::{IN_MM, Kind, LB_KG, System, Unit};

/// Unit shown instead of an engine unit, and how many engine units it has.
fn instead(unit: &str, system: System) -> Option<(&'static str, f64)> {
    match (unit, system) {
        ("rad", _) => Some(("°", std::f64::consts::PI / 180.0)),
        ("N", System::Si) => Some(("kN", 1e3)),
        ("J/mm", System::Si) => Some(("kJ/mm", 1e3)),
        ("N", System::Us) => of(Kind::Force, "kip"),
        ("J/mm", System::Us) => of(Kind::HeatInput, "kJ/in"),
        ("mm", System::Us) => of(Kind::Length, "in"),
        ("J/mm³", System::Us) => Some(("kJ/in³", 1e3 / (IN_MM * IN_MM * IN_MM))),
        ("MPa", System::Us) => of(Kind::Stress, "ksi"),
        ("kg", System::Us) => Some(("lb", LB_KG)),
        _ => None,
    }
}

/// Spellings of American units.
const AMERICAN: &[&str] = &[
    "in", "ft", "\"", "'", "in/min", "ipm", "kip", "lbf", "ksi", "psi", "kJ/in", "J/in", "°F", "F", "degF",
    "lb/h", "kip·ft", "kip ft", "kip-ft", "kip·in", "kip in", "kip/ft", "kip/in", "lbf/ft", "lbf/in",
    "in/10ft", "in/10 ft",
];

/// The unit an input is shown in instead of that it was written in, if it is one of the other system.
fn input_instead(spelling: &str, system: System) -> Option<(&'static Unit, &'static Unit)> {
    if AMERICAN.contains(&spelling) == (system == System::Us) {
        return None;
    }
    let (kind, written) = Kind::ALL.iter().find_map(|kind| Some((*kind, kind.unit(spelling)?)))?;
    let (si, us) = match kind {
        Kind::Length if matches!(spelling, "m" | "ft" | "'") => ("m", "ft"),
        Kind::Length => ("mm", "in"),
        Kind::Speed => ("m/min", "in/min"),
        Kind::Force => ("kN", "kip"),
        Kind::Stress => ("MPa", "ksi"),
        Kind::HeatInput => ("kJ/mm", "kJ/in"),
        Kind::Temperature => ("°C", "°F"),
        Kind::MassRate => ("kg/h", "lb/h"),
        Kind::Moment => ("kN·m", "kip·ft"),
        Kind::ForcePerLength => ("kN/m", "kip/ft"),
        Kind::Straightness => ("mm/m", "in/10ft"),
        _ => return None,
    };
    Some((written, kind.unit(if system == System::Us { us } else { si })?))
}

/// A unit that a reader may write, and how many engine units it has.
fn of(kind: Kind, spelling: &str) -> Option<(&'static str, f64)> {
    kind.unit(spelling).map(|unit| (unit.spelling, 1.0 / unit.of_engine(1.0)))
}

impl Study {
    /// Units its results are read in.
    pub const fn system(&self) -> System {
        self.system
    }

    /// Reads its results and its inputs in those units, instead of the job's own and those of the study file.
    #[must_use]
    pub const fn in_units(mut self, system: System) -> Self {
        self.system = system;
        self.inputs_too = true;
        self
    }

    /// An input column in the units asked for.
    fn shown_input(&self, column: &Column) -> Column {
        let (Values::Numbers(numbers), true) = (&column.values, self.inputs_too) else {
            return column.clone();
        };
        let Some((written, shown)) = input_instead(&column.unit, self.system) else { return column.clone() };
        let values = numbers.iter().map(|n| shown.of_engine(written.to_engine(*n))).collect();
        Column { unit: shown.spelling.to_owned(), values: Values::Numbers(values), ..column.clone() }
    }

    /// The table in the units it is read in; inputs stay in the units of the study file, unless others are asked for.
    pub fn shown(&self, table: &Table) -> Table {
        let system = self.system;
        let inputs = table.columns.len() - self.collect.len();
        let column = |(i, column): (usize, &Column)| {
            if i < inputs {
                return self.shown_input(column);
            }
            let Some((unit, size)) = instead(&column.unit, system) else { return column.clone() };
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
