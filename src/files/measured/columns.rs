//! Columns of measured offsets, and the readings under them.

use super::front::Front;
use super::front_values::short;
use crate::readings::name_and_unit;
use std::ops::Range;
use weldbow_engine::input::{Problem, near};
use weldbow_engine::straighten::shape::Toes;
use weldbow_engine::units::{Kind, read};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Column {
    /// Place from the start end.
    X,
    /// Camber offset.
    Camber,
    /// Sweep offset.
    Sweep,
    /// A toe: outer (0) or inner (1) flange, near (0) or far (1).
    Toe(usize, usize),
}

const NAMES: [(&str, Column); 7] = [
    ("x", Column::X),
    ("camber", Column::Camber),
    ("sweep", Column::Sweep),
    ("outer near toe", Column::Toe(0, 0)),
    ("outer far toe", Column::Toe(0, 1)),
    ("inner near toe", Column::Toe(1, 0)),
    ("inner far toe", Column::Toe(1, 1)),
];

/// A right head.
pub(crate) const EXAMPLE: &str = "x [m], camber [mm], sweep [mm]";
/// Farthest place or offset that is a number at all, mm (choice: a hundred times the longest member).
const FARTHEST_MM: f64 = 1e7;

impl Column {
    /// Its name.
    pub(crate) fn name(self) -> &'static str {
        NAMES.iter().find(|n| n.1 == self).map_or("", |n| n.0)
    }
}

/// The column and unit that a head names: "camber [mm]", "camber (mm)", "camber_mm", or "camber" with its unit elsewhere.
///
/// # Errors
/// A name or a unit that is none.
pub(crate) fn column(head: &str) -> Result<(Column, Option<&'static str>), Problem> {
    let plain = head.trim().to_lowercase().replace('_', " ");
    let (name, unit) = name_and_length_unit(&plain);
    let names: Vec<&str> = NAMES.iter().map(|n| n.0).collect();
    let Some(found) = NAMES.iter().find(|n| n.0 == name) else {
        let found = format!("unknown column `{}`", short(head));
        let problem = Problem::new("head of the table", found, near::wanted(name, &names));
        return Err(problem.example(EXAMPLE));
    };
    let Some(written) = unit else { return Ok((found.1, None)) };
    length_unit(written).map(|unit| (found.1, Some(unit))).ok_or_else(|| no_length_unit(found.0, written))
}

/// Name and unit of a head in lower case; the unit may stand behind the name without brackets.
pub(crate) fn name_and_length_unit(plain: &str) -> (&str, Option<&str>) {
    match (name_and_unit(plain), plain.rsplit_once(' ')) {
        ((_, None), Some((name, unit))) if length_unit(unit).is_some() => (name.trim(), Some(unit)),
        (found, _) => found,
    }
}

/// A length (mm) from a cell of a column whose unit stands in its head; `number` is the cell as it is read.
///
/// # Errors
/// If it is none.
pub(crate) fn length_of(name: &str, cell: &str, number: &str, unit: &str) -> Result<f64, Problem> {
    let value = read(Kind::Length, &format!("{number} {unit}")).ok().filter(|mm| mm.abs() <= FARTHEST_MM);
    value.ok_or_else(|| {
        let wanted = format!("a finite number of {unit}, as 12.5 or −3 (the unit stands in the head)");
        Problem::new(name, format!("`{}`", short(cell)), wanted)
    })
}

/// A column's unit that is none of length.
pub(crate) fn no_length_unit(name: &str, written: &str) -> Problem {
    let found = format!("`{}` as a unit", short(written));
    Problem::new(name, found, "a unit of length: mm, cm, m, in or ft").example(format!("{name} [mm]"))
}

/// The unit of length with that spelling.
pub(crate) fn length_unit(text: &str) -> Option<&'static str> {
    Kind::Length.unit(text.trim().trim_matches(['[', ']', '(', ')'])).map(|u| u.spelling)
}

/// What was measured, as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Stations, mm.
    pub x_mm: Vec<f64>,
    /// Camber readings, mm; None if there is no such column.
    pub camber_mm: Option<Vec<f64>>,
    /// Sweep readings, mm.
    pub sweep_mm: Option<Vec<f64>>,
    /// Toes.
    pub toes: Vec<Toes>,
    /// What is known of the piece and the measurement.
    pub front: Front,
    /// Where it was read, for complaints.
    pub(super) source: Source,
}

/// A column of the table: what it holds, its unit, and where its head stands.
pub(super) type Head = (Column, &'static str, Range<usize>);

/// The text behind the readings.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Source {
    pub file: String,
    pub text: String,
    /// Columns in their order.
    pub heads: Vec<Head>,
    /// Where each cell of each station stands.
    pub rows: Vec<Vec<Range<usize>>>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_may_stand_in_any_usual_way() {
        for head in ["camber [mm]", "Camber (mm)", "camber_mm", " camber mm "] {
            assert_eq!(column(head), Ok((Column::Camber, Some("mm"))), "{head}");
        }
        assert_eq!(column("outer_near_toe_in"), Ok((Column::Toe(0, 0), Some("in"))));
        assert_eq!(column("x"), Ok((Column::X, None)));
        assert!(column("chamber [mm]").unwrap_err().wanted.contains("did you mean `camber`"));
        assert!(column("camber [kg]").is_err());
    }
}
