//! Where a prediction is outside what its model covers: its numbers are then none.

use super::{Bow, Prediction, WarningCode};
use crate::tolerance::Quantity;
use crate::units::Message;
use serde::{Serialize, Serializer};
use serde_json::{Map, Value};

/// Largest bow over the length: rotations are taken as small (choice: at a fiftieth a bow's ends turn by 5°, and tan differs from
/// the angle by 0.2 %; finished members lie within a five-hundredth).
pub(crate) const LARGEST_BOW: f64 = 1.0 / 50.0;

/// A result that is no number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outside {
    /// Fields of the prediction that hold no number because of it.
    pub fields: &'static [&'static str],
    /// Why.
    pub reason: Message,
}

/// What of a prediction is outside the model; nothing, mostly.
pub fn outside(prediction: &Prediction) -> Vec<Outside> {
    const ALL: &[&str] = &[
        "shortening_mm",
        "shortening",
        "camber",
        "sweep",
        "passes",
        "build_up",
        "ripple",
        "twist",
        "estimates",
        "allowance",
        "verdicts",
    ];
    let through = prediction.warnings.iter().filter(|w| w.code == WarningCode::HeatedThrough);
    let mut all: Vec<Outside> = through.map(|w| Outside { fields: ALL, reason: w.text.clone() }).collect();
    let fields: [&[&str]; 2] = [&["camber", "build_up", "allowance"], &["sweep", "build_up", "twist"]];
    for ((name, bow), fields) in
        [("camber", &prediction.camber), ("sweep", &prediction.sweep)].into_iter().zip(fields)
    {
        if !within(bow, prediction.model.length_mm) {
            let reason = format!(
                "{name} would be more than a fiftieth of the length: the model takes rotations as small; check heat, legs, plates and \
                 factors of the job"
            );
            all.push(Outside { fields, reason: reason.into() });
        }
    }
    all
}

fn within(bow: &Bow, length_mm: f64) -> bool {
    // what is no number is not within either
    (bow.max_mm.abs() + bow.max_2s_mm.abs()).is_finite() && bow.max_mm.abs() <= LARGEST_BOW * length_mm
}

/// A prediction for other programs: fields outside the model are null, and `outside` says why.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'a>(pub &'a Prediction);

impl Serialize for Shown<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match outside(self.0).as_slice() {
            [] => self.0.serialize(serializer),
            all => withheld(self.0, all).map_err(serde::ser::Error::custom)?.serialize(serializer),
        }
    }
}

fn withheld(prediction: &Prediction, all: &[Outside]) -> serde_json::Result<Value> {
    let mut value = serde_json::to_value(prediction)?;
    let Some(fields) = value.as_object_mut() else { return Ok(value) };
    for field in all.iter().flat_map(|one| one.fields) {
        fields.insert((*field).to_owned(), Value::Null);
        for (of, quantity) in [("camber", Quantity::Camber), ("sweep", Quantity::Sweep)] {
            if of == *field {
                no_verdict(fields, quantity);
            }
        }
    }
    fields.insert("outside".to_owned(), serde_json::to_value(all)?);
    Ok(value)
}

/// Nothing is judged by a bow that is no number.
fn no_verdict(fields: &mut Map<String, Value>, quantity: Quantity) {
    let name = serde_json::to_value(quantity).unwrap_or_default();
    let Some(Value::Array(verdicts)) = fields.get_mut("verdicts") else { return };
    for verdict in verdicts.iter_mut().filter(|v| v.get("quantity") == Some(&name)) {
        for field in ["value", "value_2s", "margin", "verdict", "likely", "drawn"] {
            if let Some(held) = verdict.get_mut(field) {
                *held = Value::Null;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::prediction::predict;
    use crate::scatter::say_chances;

    #[test]
    fn a_bow_outside_the_model_is_null_with_its_verdicts_and_says_why() {
        let job = read_text("starter", STARTER).unwrap();
        let mut prediction = predict(&job);
        say_chances(&job, &mut prediction);
        let inside = serde_json::to_value(Shown(&prediction)).unwrap();
        assert_eq!(inside, serde_json::to_value(&prediction).unwrap(), "inside the model nothing is changed");
        prediction.sweep.max_mm = 1e6;
        let seen = serde_json::to_value(Shown(&prediction)).unwrap();
        assert!(
            seen["sweep"].is_null() && seen["build_up"].is_null() && seen["camber"].is_object(),
            "{seen}"
        );
        assert!(seen["outside"][0]["reason"].as_str().unwrap().starts_with("sweep"), "{seen}");
        assert!(seen["twist"].is_null(), "flanges sweep with the member: {}", seen["twist"]);
        for verdict in seen["verdicts"].as_array().unwrap() {
            for field in ["verdict", "value", "value_2s", "margin"] {
                assert_eq!(verdict[field].is_null(), verdict["quantity"] == "sweep", "{field}: {verdict}");
            }
            let by_chance = ["likely", "drawn"].map(|field| &verdict[field]);
            assert!(verdict["quantity"] != "sweep" || by_chance.iter().all(|v| v.is_null()), "{verdict}");
        }
    }
}
