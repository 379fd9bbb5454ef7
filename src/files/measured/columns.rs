//! The head of the table: which column is what, in which unit.

use super::front_values::short;
use weldbow_engine::input::{Problem, near};
use weldbow_engine::units::Kind;

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
    let (name, unit) = match plain.split_once(['[', '(']) {
        Some((name, unit)) => {
            (name.trim().to_owned(), Some(unit.trim_end_matches([']', ')']).trim().to_owned()))
        }
        None => match plain.rsplit_once(' ') {
            Some((name, unit)) if length_unit(unit).is_some() => {
                (name.trim().to_owned(), Some(unit.to_owned()))
            }
            _ => (plain.clone(), None),
        },
    };
    let names: Vec<&str> = NAMES.iter().map(|n| n.0).collect();
    let Some(found) = NAMES.iter().find(|n| n.0 == name) else {
        let problem = Problem::new(
            "head of the table",
            format!("unknown column `{}`", short(head)),
            near::wanted(&name, &names),
        );
        return Err(problem.example("x [m], camber [mm], sweep [mm]"));
    };
    let Some(written) = unit else { return Ok((found.1, None)) };
    match length_unit(&written) {
        Some(unit) => Ok((found.1, Some(unit))),
        None => Err(Problem::new(
            found.0,
            format!("`{}` as a unit", short(&written)),
            "a unit of length: mm, cm, m, in or ft",
        )
        .example(format!("{} [mm]", found.0))),
    }
}

/// The unit of length with that spelling.
pub(crate) fn length_unit(text: &str) -> Option<&'static str> {
    Kind::Length.unit(text.trim().trim_matches(['[', ']', '(', ')'])).map(|u| u.spelling)
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
