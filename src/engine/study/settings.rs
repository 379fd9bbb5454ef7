//! What of a study is no number of its jobs and may vary all the same: the level members are predicted at, and how joints are solved.

use super::axis::{Axis, Takes};
use super::definition::Study;
use super::file::{JointShape, LevelWord};
use super::joint::Joints;
use super::place::Target;
use crate::input::Problem;
use crate::prediction::{Job, Prediction, predict_many, predict_only, predict_strip};
use serde::de::DeserializeOwned;
use serde_json::Value;

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
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
    /// All, as `set` names them.
    pub const ALL: [(&'static str, Self); 6] = [
        ("level", Self::Level),
        ("section.at", Self::At),
        ("section.hold", Self::Hold),
        ("section.mesh", Self::Mesh),
        ("section.lengthwise", Self::Lengthwise),
        ("section.model", Self::Model),
    ];

    /// Values it may take.
    const fn example(self) -> &'static str {
        match self {
            Self::Level => "values = [\"formula\", \"strip\"]",
            Self::At => "values = [\"2 m\", \"7 m\"]",
            Self::Hold => "values = [\"none\", \"solid\", \"500 °C\"]",
            Self::Mesh => "values = [\"coarse\", \"standard\"]",
            Self::Lengthwise => "values = [\"free\", \"held\"]",
            Self::Model => "values = [\"solid\", \"fibres\"]",
        }
    }

    /// The one of that name.
    pub fn named(place: &str) -> Option<Self> {
        Self::ALL.iter().find(|(name, _)| *name == place).map(|(_, setting)| *setting)
    }
}

/// All of them at one point of the grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
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
    pub fn set(&mut self, setting: Setting, value: &Value) -> Result<(), String> {
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
pub fn check(axes: &[(String, Axis)], joints: bool, problems: &mut Vec<Problem>) {
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

impl Study {
    /// The settings at a point of the grid.
    pub(super) fn settings_at(&self, values: &[usize]) -> Settings {
        let mut settings = self.settings.clone();
        for (index, axis) in self.axes.iter().enumerate() {
            let Target::Setting(setting) = &self.bases[0].targets[index] else { continue };
            let value = axis.value(values[index]);
            // every value was tried when the study was made
            let _ = settings.set(*setting, &value);
        }
        settings
    }

    /// Joints to be solved at a point of the grid, if any are.
    ///
    /// # Errors
    /// Why they cannot be.
    pub(super) fn joints_at(&self, values: &[usize]) -> Result<Option<Joints>, String> {
        if !self.solves_joints() {
            return Ok(None);
        }
        let mut problems = Vec::new();
        let joints = Joints::new(self.seams, self.travels, &self.settings_at(values).section, &mut problems);
        problems.first().map_or(Ok(Some(joints)), |problem| Err(problem.wanted.clone()))
    }

    /// Whether joints are solved in every case.
    pub(super) fn solves_joints(&self) -> bool {
        self.seams.contains(&true)
    }

    /// Whether the strip model predicts any case.
    pub(super) fn uses_strip(&self) -> bool {
        let varies = |target: &Target| *target == Target::Setting(Setting::Level);
        self.wanted.is_some()
            && (self.settings.level == LevelWord::Strip || self.bases[0].targets.iter().any(varies))
    }

    /// Whether a case takes as long as thousands of others.
    pub(super) fn is_slow(&self) -> bool {
        self.solves_joints() || self.uses_strip()
    }

    /// Predictions of jobs, each at its level; none if nothing is read from them.
    pub(super) fn predictions(&self, jobs: &[Job], levels: &[LevelWord]) -> Vec<Result<Prediction, String>> {
        let Some(wanted) = &self.wanted else { return Vec::new() };
        if !self.uses_strip() {
            return predict_many(jobs, wanted).into_iter().map(Ok).collect();
        }
        let one = |(job, level): (&Job, &LevelWord)| match level {
            LevelWord::Formula => Ok(predict_only(job, wanted)),
            LevelWord::Strip => predict_strip(job).map_err(|failure| failure.to_string()),
        };
        jobs.iter().zip(levels).map(one).collect()
    }

    /// Tries every value of the axes that turn settings.
    pub(super) fn try_settings(&self, axes: &[(String, Axis)], problems: &mut Vec<Problem>) {
        for (index, (path, axis)) in axes.iter().enumerate() {
            let Target::Setting(setting) = &self.bases[0].targets[index] else { continue };
            // ends of evenly spaced values stand for those between them
            let all = axis.values().unwrap_or_default();
            let tried = if matches!(axis.takes, Takes::Others(_)) { all } else { all.min(1) };
            for value in (0..tried).map(|i| (i, axis.value(i))) {
                let mut settings = self.settings.clone();
                let mut found = Vec::new();
                let wanted = match settings.set(*setting, &value.1) {
                    Ok(()) => {
                        Joints::new([false; 2], [false; 2], &settings.section, &mut found);
                        found.pop().map(|problem| problem.wanted)
                    }
                    Err(wanted) => Some(wanted),
                };
                if let Some(wanted) = wanted {
                    let place = format!("{path}.values[{}]", value.0);
                    let problem = Problem::new(place, format!("{} for `{}`", value.1, axis.set), wanted);
                    problems.push(problem.example(setting.example()));
                }
            }
        }
    }
}

impl Axis {
    /// One of its values as a file holds it; null if it draws.
    fn value(&self, index: usize) -> Value {
        match &self.takes {
            Takes::Numbers(measure, numbers) => measure.written(numbers.at(index)),
            Takes::Others(others) => others.get(index).map_or(Value::Null, |(_, value)| value.clone()),
            Takes::Draws(..) => Value::Null,
        }
    }
}
