//! One newtype per kind, for use inside a file: read from text with its unit, never from a bare number.

use super::kind::each_kind;
use super::{Kind, read};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Deserialize, Deserializer, Visitor};
use serde::ser::{Error as _, Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

struct QuantityText(Kind);

impl Visitor<'_> for QuantityText {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [one, two] = self.0.examples();
        write!(f, "{} {} with its unit, such as {one:?} or {two:?}", self.0.article(), self.0.noun())
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<f64, E> {
        read(self.0, text).map_err(E::custom)
    }
}

/// The shortest text that reads back to the very same number, in the engine's unit.
fn exact(kind: Kind, value: f64) -> String {
    let unit = kind.units()[0].spelling;
    // Rust writes a float out in full; powers of ten keep the far ends short.
    if value.abs() >= 1e15 || (value.abs() < 1e-5 && value.abs() > 0.0) {
        format!("{value:e} {unit}")
    } else {
        format!("{value} {unit}")
    }
}

macro_rules! quantities {
    ($(#[doc = $what:literal] $name:ident($($facts:tt)+),)+) => {$(
        #[doc = concat!($what, " In a file: text with its unit.")]
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("From a value in engine units:", $what)]
            pub const fn new(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("The value in engine units:", $what)]
            pub const fn value(self) -> f64 {
                self.0
            }
        }

        impl From<$name> for f64 {
            fn from(quantity: $name) -> Self {
                quantity.0
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                from.deserialize_str(QuantityText(Kind::$name)).map(Self)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                if !self.0.is_finite() {
                    let noun = Kind::$name.noun();
                    return Err(S::Error::custom(format!("a {noun} of {} cannot be written", self.0)));
                }
                to.serialize_str(&exact(Kind::$name, self.0))
            }
        }

        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                schema(Kind::$name)
            }
        }
    )+};
}

each_kind!(quantities);

fn schema(kind: Kind) -> Schema {
    let units: Vec<&str> = kind.units().iter().map(|u| u.spelling).collect();
    json_schema!({
        "type": "string",
        "description": format!("{} {} with its unit ({})", kind.article(), kind.noun(), units.join(", ")),
        "examples": kind.examples(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn refusal(json: &str) -> String {
        serde_json::from_str::<Length>(json).unwrap_err().to_string()
    }

    #[test]
    fn a_bare_number_is_refused_with_right_examples() {
        for json in ["9000", "0.5", "-3", "true", "null", "[]"] {
            let message = refusal(json);
            let wanted = r#"expected a length with its unit, such as "8 mm" or "5/16 in""#;
            assert!(message.contains(wanted), "{json}: {message}");
        }
    }

    #[test]
    fn the_readers_message_comes_through() {
        let expected = read(Kind::Length, "8 kg").unwrap_err().to_string();
        let message = refusal(r#""8 kg""#);
        assert!(message.starts_with(&expected), "{message} should start with {expected}");
    }

    #[test]
    fn a_quantity_in_a_job_file_reads_with_its_unit() {
        #[derive(serde::Deserialize)]
        struct Piece {
            thickness: Length,
        }
        let piece: Piece = toml::from_str(r#"thickness = "5/16 in""#).unwrap();
        let got = piece.thickness.value();
        assert!((got - 7.9375).abs() < 1e-12, "read {got}, expected 7.9375");
        assert!(toml::from_str::<Piece>("thickness = 8").is_err());
    }

    #[test]
    fn text_is_short_at_both_ends_of_the_scale() {
        for (value, text) in [(8.0, "8 mm"), (7.9375, "7.9375 mm"), (1e20, "1e20 mm"), (1e-7, "1e-7 mm")] {
            assert_eq!(serde_json::to_string(&Length::new(value)).unwrap(), format!("\"{text}\""));
        }
    }

    #[test]
    fn what_is_not_finite_is_not_written() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(serde_json::to_string(&Force::new(value)).is_err(), "{value} was written");
        }
    }

    #[test]
    fn the_schema_asks_for_text_and_shows_examples() {
        let schema = schemars::schema_for!(Angle);
        assert_eq!(schema.get("type").unwrap(), "string");
        assert_eq!(schema.get("examples").unwrap()[0], "1.5 deg");
        let description = schema.get("description").unwrap().as_str().unwrap();
        assert!(description.starts_with("an angle with its unit (rad, "), "{description}");
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_to_the_last_bit(value in proptest::num::f64::NORMAL | proptest::num::f64::SUBNORMAL | proptest::num::f64::ZERO) {
            for kind in Kind::ALL {
                let text = exact(kind, value);
                let back = read(kind, &text).unwrap();
                prop_assert_eq!(back.to_bits(), value.to_bits(), "{} as {} came back as {}", value, text, back);
            }
            let json = serde_json::to_string(&Temperature::new(value)).unwrap();
            let back: Temperature = serde_json::from_str(&json).unwrap();
            prop_assert_eq!(back.value().to_bits(), value.to_bits(), "{}", json);
        }
    }
}
