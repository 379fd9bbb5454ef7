//! The jobs a study starts from, and what every axis sets in them.

use super::axis::{Axis, Takes};
use super::edit;
use super::place::{Target, at, find};
use crate::input::{Form, PathStep, Problem, counted};
use crate::job::check;
use crate::job::file::JobFile;
use serde_json::Value;

/// Where the usual inputs come from, in the study file.
pub(crate) const USUAL: &str = "sample.usual";

/// A job that a study starts from.
#[derive(Debug, Clone)]
pub(crate) struct Base {
    /// The job's shape.
    pub(crate) file: JobFile,
    /// The same as values to set.
    pub(crate) value: Value,
    /// What every axis sets in it.
    pub(crate) targets: Vec<Target>,
    /// Axis by axis which of the numbers that draw for themselves draws for each; empty for axes without such.
    pub(crate) draws: Vec<Vec<usize>>,
}

impl Base {
    /// The base of a job; `None` if it cannot be written down.
    pub(crate) fn new(file: JobFile) -> Option<Self> {
        let value = serde_json::to_value(&file).ok()?;
        Some(Self { file, value, targets: Vec::new(), draws: Vec::new() })
    }

    /// Which number of an axis draws for its number `i`.
    pub(crate) fn draws_for(&self, axis: usize, i: usize) -> usize {
        self.draws.get(axis).and_then(|draws| draws.get(i)).copied().unwrap_or(i)
    }

    /// Whether an axis acts on more numbers of the checked job than its file has places for: on each run of a pass.
    pub(crate) fn acts_on_runs(&self, axis: usize) -> bool {
        let Some(Target::Nodes(nodes)) = self.targets.get(axis) else { return false };
        self.draws.get(axis).is_some_and(|draws| draws.len() > nodes.len())
    }
}

/// The jobs a study starts from: those of a `job` axis, or the one.
pub(super) fn jobs(
    base: &JobFile,
    axes: &[(String, Axis)],
    read_job: &impl Fn(&str) -> Result<JobFile, String>,
    problems: &mut Vec<Problem>,
) -> Vec<JobFile> {
    let Some((path, axis)) = axes.iter().find(|(_, axis)| axis.set == "job") else {
        return vec![base.clone()];
    };
    let Takes::Others(others) = &axis.takes else {
        problems.push(Problem::new(format!("{path}.values"), "numbers", "names of job files"));
        return Vec::new();
    };
    let mut files = Vec::new();
    for (i, (_, value)) in others.iter().enumerate() {
        let place = format!("{path}.values[{i}]");
        match value.as_str().map(|name| (name, read_job(name))) {
            Some((_, Ok(file))) => files.push(file),
            Some((name, Err(why))) => problems.push(Problem::new(place, format!("`{name}`"), why)),
            None => problems.push(Problem::new(place, value.to_string(), "the name of a job file")),
        }
    }
    files
}

/// Finds what every axis sets in a job. Usual inputs that the job has no place for are dropped.
pub(crate) fn resolve(base: &mut Base, axes: &mut Vec<(String, Axis)>, problems: &mut Vec<Problem>) {
    let mut found = Vec::new();
    axes.retain(|(path, axis)| {
        let target = find(&axis.set, &base.value, JobFile::schema());
        let usual = path == USUAL;
        let stands = match &target {
            // a usual input acts on the checked job, where no number is left out
            Ok(Target::Nodes(_)) if usual => true,
            Ok(Target::Nodes(nodes)) => nodes.iter().all(|node| has_value(&base.value, node)),
            Ok(Target::Length) => true,
            Ok(Target::Job | Target::Setting(_)) | Err(_) => false,
        };
        match target {
            Ok(_) if axis.times && !stands && usual => return false,
            Ok(Target::Setting(setting)) => {
                found.push(Target::Setting(setting));
                return true;
            }
            Ok(_) if axis.times && !stands => {
                let wanted = "a number that the job holds; left out it cannot be multiplied";
                problems.push(Problem::new(format!("{path}.set"), format!("`{}`", axis.set), wanted));
            }
            Ok(target) => {
                found.push(target);
                return true;
            }
            Err(_) if usual => return false,
            Err(no) => problems.push(Problem::new(format!("{path}.set"), no.found, no.wanted).hint(no.hint)),
        }
        true
    });
    base.targets = found;
}

/// Whether a usual input acts on anything of a job; one that does not build is complained about elsewhere.
pub(crate) fn acts(file: &JobFile, axis: &Axis) -> bool {
    axis.usual.is_none_or(|usual| check(file).map_or(true, |job| !(usual.fields)(&job).is_empty()))
}

/// Whether there is a number to multiply: factors that are left out are 1.
fn has_value(job: &Value, node: &[PathStep]) -> bool {
    at(job, node).is_some_and(|value| !value.is_null()) || edit::is_factor(node)
}

/// Axes that set the same thing: only one of them could be what a row says.
pub(crate) fn twice(base: &Base, axes: &[(String, Axis)], problems: &mut Vec<Problem>) {
    for (at, (path, axis)) in axes.iter().enumerate() {
        let same = |other: usize| {
            let (before, now) = (&axes[other].1, axis);
            let drowned = !now.times || before.name == now.name;
            drowned && touch(&base.targets[other], &base.targets[at])
        };
        if let Some(first) = (0..at).find(|other| same(*other)) {
            let found = format!("`{}`, which {} sets already", axis.set, counted(&axes[first].0));
            problems.push(Problem::new(format!("{path}.set"), found, "each place in one axis"));
        }
    }
}

fn touch(one: &Target, other: &Target) -> bool {
    match (one, other) {
        (Target::Nodes(one), Target::Nodes(other)) => one.iter().any(|node| other.contains(node)),
        (Target::Length, Target::Length) | (Target::Job, Target::Job) => true,
        (Target::Setting(one), Target::Setting(other)) => one == other,
        _ => false,
    }
}
