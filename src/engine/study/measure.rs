//! Numbers of a study file, with or without a unit, and how they go back into a job.

use crate::units::{Kind, Unit, read};
use serde_json::Value;

/// What the numbers of an axis measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Measure {
    /// Whole numbers without a unit.
    Count,
    /// Numbers without a unit.
    Pure,
    /// Quantities, shown in the unit they were written in.
    Quantity(Kind, &'static Unit),
}

impl Measure {
    /// Unit for people; empty for pure numbers.
    pub(super) const fn unit(self) -> &'static str {
        match self {
            Self::Count | Self::Pure => "",
            Self::Quantity(_, unit) => unit.spelling,
        }
    }

    /// An engine number as shown.
    pub(super) fn shown(self, engine: f64) -> f64 {
        match self {
            Self::Count | Self::Pure => engine,
            Self::Quantity(_, unit) => unit.of_engine(engine),
        }
    }

    /// An engine number with its unit, in words: "6.2 mm".
    pub(super) fn worded(self, engine: f64) -> String {
        let number = format!("{:.4}", self.shown(engine));
        let number = number.trim_end_matches('0').trim_end_matches('.');
        format!("{number} {}", self.unit()).trim_end().to_owned()
    }

    /// An engine number as a job file holds it.
    pub(super) fn written(self, engine: f64) -> Value {
        match self {
            Self::Count if engine.fract().abs() < 1e-9 && engine.abs() < 1e15 => {
                Value::from(engine.round() as i64)
            }
            Self::Count | Self::Pure => Value::from(engine),
            Self::Quantity(kind, _) => Value::from(format!("{engine} {}", kind.units()[0].spelling)),
        }
    }
}

/// A number of a study file: what it measures, and its value in engine units.
pub(crate) fn number(value: &Value) -> Option<(Measure, f64)> {
    match value {
        Value::Number(number) => {
            let measure = if number.is_f64() { Measure::Pure } else { Measure::Count };
            number.as_f64().filter(|n| n.is_finite()).map(|n| (measure, n))
        }
        Value::String(text) => quantity(text),
        _ => None,
    }
}

fn quantity(text: &str) -> Option<(Measure, f64)> {
    let (kind, value) = Kind::ALL.iter().find_map(|kind| Some((*kind, read(*kind, text).ok()?)))?;
    let written = text.trim().replace('′', "'").replace('″', "\"");
    let spelt = kind.units().iter().filter(|unit| written.ends_with(unit.spelling));
    let unit = spelt.max_by_key(|unit| unit.spelling.len()).unwrap_or(&kind.units()[0]);
    Some((Measure::Quantity(kind, unit), value))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_quantity_keeps_the_unit_it_was_written_in_and_goes_back_exactly() {
        let (measure, engine) = number(&json!("5/16 in")).unwrap();
        assert_eq!((measure.unit(), measure.worded(engine)), ("in", "0.3125 in".to_owned()));
        assert_eq!(measure.written(engine), json!("7.9375 mm"));
        let (measure, engine) = number(&json!("1.1 m/min")).unwrap();
        assert!((measure.shown(engine) - 1.1).abs() < 1e-12, "{engine} mm/s");
    }

    #[test]
    fn whole_numbers_stay_whole() {
        let (measure, engine) = number(&json!(3)).unwrap();
        assert_eq!((measure, measure.written(engine)), (Measure::Count, json!(3)));
        assert_eq!(number(&json!(1.5)).unwrap().0, Measure::Pure);
        assert_eq!(number(&json!("twin-6")), None);
    }
}
