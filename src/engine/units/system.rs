//! The two systems of units a user may want to read.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Units for display; reading accepts both, whatever this says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum System {
    /// Millimetres, kilonewtons, degrees Celsius.
    #[default]
    Si,
    /// Feet and inches, kips, degrees Fahrenheit.
    Us,
}

impl System {
    /// Of two things the one that goes with this system: that for metric units first.
    pub fn pick<T>(self, si: T, us: T) -> T {
        match self {
            Self::Si => si,
            Self::Us => us,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_systems_are_written_si_and_us() {
        let both: Vec<System> = serde_json::from_str(r#"["si", "us"]"#).unwrap();
        assert_eq!(both, [System::Si, System::Us]);
        assert_eq!(serde_json::to_string(&both).unwrap(), r#"["si","us"]"#);
        assert!(serde_json::from_str::<System>(r#""metric""#).is_err());
    }
}
