//! What of a study is no number of its jobs and may vary all the same: the level members are predicted at, and how joints are solved.

use super::axis::{Axis, Takes};
use super::file::{JointShape, LevelWord};
use crate::input::Problem;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Setting {
    /// The level of predictions.
    Level,
    /// Where along the member joints are solved.
    At,
    /// Until when they are held.
    Hold,
    /// How finely they are cut.
    Mesh,
    /// Whether they may shorten while hot.
    Lengthwise,
    /// What is solved for.
    Model,
}

impl Setting {
    /// All, as `set` names them, with values each may take.
    const ALL: [(&'static str, Self, &'static str); 6] = [
        ("level", Self::Level, "values = [\"formula\", \"strip\"]"),
        ("section.at", Self::At, "values = [\"2 m\", \"7 m\"]"),
        ("section.hold", Self::Hold, "values = [\"none\", \"solid\", \"500 °C\"]"),
        ("section.mesh", Self::Mesh, "values = [\"coarse\", \"standard\"]"),
        ("section.lengthwise", Self::Lengthwise, "values = [\"free\", \"held\"]"),
        ("section.model", Self::Model, "values = [\"solid\", \"fibres\"]"),
    ];

    /// Values it may take.
    pub(super) fn example(self) -> &'static str {
        Self::ALL.iter().find(|one| one.1 == self).map_or("", |one| one.2)
    }

    /// The one of that name.
    pub(super) fn named(place: &str) -> Option<Self> {
        Self::ALL.iter().find(|one| one.0 == place).map(|one| one.1)
    }
}

/// All of them at one point of the grid.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Settings {
    /// Level of the predictions.
    pub level: LevelWord,
    /// How joints are solved.
    pub section: JointShape,
}

impl Settings {
    /// Sets one of them.
    ///
    /// # Errors
    /// What would be right.
    pub(super) fn set(&mut self, setting: Setting, value: &Value) -> Result<(), String> {
        fn word<T: DeserializeOwned>(value: &Value, into: &mut T) -> Result<(), String> {
            let of = |error: serde_json::Error| {
                let said = error.to_string();
                said.split_once("expected ").map_or(said.clone(), |(_, wanted)| wanted.to_owned())
            };
            *into = serde_json::from_value(value.clone()).map_err(of)?;
            Ok(())
        }
        let section = &mut self.section;
        match setting {
            Setting::Level => word(value, &mut self.level),
            Setting::At => word(value, &mut section.at),
            Setting::Hold => word(value, &mut section.hold),
            Setting::Mesh => word(value, &mut section.mesh),
            Setting::Lengthwise => word(value, &mut section.lengthwise),
            Setting::Model => word(value, &mut section.model),
        }
    }
}

/// What can be said of axes that turn settings before a study is made: they list values, and something is read from what they set.
pub(super) fn check(axes: &[(String, Axis)], joints: bool, problems: &mut Vec<Problem>) {
    for (path, axis) in axes {
        let Some(setting) = Setting::named(&axis.set) else { continue };
        let place = format!("{path}.set");
        if axis.times || matches!(axis.takes, Takes::Draws(..)) {
            let wanted = format!("`values` for `{}`, or `from`, `to` and `steps`", axis.set);
            let problem = Problem::new(place, "a setting of the study that is drawn or multiplied", wanted);
            problems.push(problem.example(setting.example()));
        } else if setting != Setting::Level && !joints {
            let wanted = "a result named `section.…`, `formula.…` or `moving.…` in `collect`: nothing else depends on it";
            let problem = Problem::new(place, format!("`{}`", axis.set), wanted);
            problems.push(problem.example("collect = [\"section.outer.last.force_n\"]"));
        }
    }
}
