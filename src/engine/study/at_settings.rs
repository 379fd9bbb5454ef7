//! A study at its settings: which level predicts a case, which joints are solved, and whether every value of a setting can be taken.

use super::axis::{Axis, Takes};
use super::definition::Study;
use super::file::LevelWord;
use super::joint::Joints;
use super::place::Target;
use super::settings::{Setting, Settings};
use crate::input::Problem;
use crate::prediction::{Job, Prediction, predict_each, predict_only, predict_strip};

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

    /// Shows the prediction of each job at its level, or why there is none; nothing if nothing is read from it.
    pub(super) fn each_prediction(
        &self,
        jobs: &[Job],
        levels: &[LevelWord],
        mut take: impl FnMut(&Job, Result<Option<&Prediction>, String>),
    ) {
        let Some(wanted) = &self.wanted else {
            jobs.iter().for_each(|job| take(job, Ok(None)));
            return;
        };
        if !self.uses_strip() {
            predict_each(jobs, wanted, |job, prediction| take(job, Ok(Some(prediction))));
            return;
        }
        for (job, level) in jobs.iter().zip(levels) {
            match level {
                LevelWord::Formula => take(job, Ok(Some(&predict_only(job, wanted)))),
                LevelWord::Strip => match predict_strip(job) {
                    Ok(prediction) => take(job, Ok(Some(&prediction))),
                    Err(failure) => take(job, Err(failure.to_string())),
                },
            }
        }
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
