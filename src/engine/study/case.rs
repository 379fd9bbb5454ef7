//! One case of a study: its inputs, the job they make, and what is collected from it.

use super::axis::{Axis, Takes};
use super::bases::Base;
use super::definition::Study;
use super::edit;
use super::place::Target;
use crate::input::Problem;
use crate::job::build;
use crate::job::file::JobFile;
use crate::prediction::{Job, predict};
use serde_json::Value;

/// A value in an input column.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// A number, in the unit shown.
    Number(f64),
    /// A label.
    Word(String),
}

/// What a case brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Number of the case, from 0.
    pub case: u64,
    /// Its inputs, one a column.
    pub inputs: Vec<Cell>,
    /// Its results, one a column; NaN where there is none.
    pub results: Vec<f64>,
    /// Why it failed, if it did.
    pub reason: Option<String>,
}

impl Study {
    /// Computes a case.
    pub fn row(&self, case: u64) -> Row {
        let draws = self.draws_each();
        let values = self.grid.at(case / draws);
        let u = self.draws.as_ref().map_or_else(Vec::new, |d| d.point(case % draws));
        let (results, reason) = self.results(&values, &u);
        Row { case, inputs: self.inputs(&values, &u), results, reason }
    }

    /// Results at a point of the grid and of the unit cube.
    pub(super) fn results(&self, values: &[usize], u: &[f64]) -> (Vec<f64>, Option<String>) {
        let answered = self.job_at(values, u).and_then(|job| {
            let joints = self.joints.as_ref().map_or(Ok([None; 2]), |joints| joints.solve(&job))?;
            Ok((predict(&job), joints))
        });
        match answered {
            Ok((prediction, joints)) => {
                (self.collect.iter().map(|c| c.of(&prediction, &joints)).collect(), None)
            }
            Err(reason) => (vec![f64::NAN; self.collect.len()], Some(reason)),
        }
    }

    /// The checked job at a point of the grid and of the unit cube.
    ///
    /// # Errors
    /// Why these inputs make no job.
    pub(super) fn job_at(&self, values: &[usize], u: &[f64]) -> Result<Job, String> {
        let base = self.base_at(values);
        let mut job = base.value.clone();
        for (index, axis) in self.axes.iter().enumerate() {
            self.apply(&mut job, base, index, axis, values[index], u);
        }
        let file: JobFile = serde_json::from_value(job).map_err(|error| one_line(&error.to_string()))?;
        build(&file).map_err(|problems| problems.first().map_or_else(String::new, reason))
    }

    fn base_at(&self, values: &[usize]) -> &Base {
        let job = self.axes.iter().position(|axis| axis.set == "job");
        &self.bases[job.map_or(0, |index| values[index])]
    }

    fn apply(&self, job: &mut Value, base: &Base, index: usize, axis: &Axis, value: usize, u: &[f64]) {
        let target = &base.targets[index];
        match &axis.takes {
            Takes::Others(others) => edit::set(job, target, &others[value].1),
            Takes::Numbers(_, numbers) if axis.times => edit::multiply(job, target, None, numbers[value]),
            Takes::Numbers(measure, numbers) => edit::set(job, target, &measure.written(numbers[value])),
            Takes::Draws(measure, spread, _) => {
                let (first, many) = self.coordinates[index];
                for (i, u) in u[first..first + many].iter().enumerate() {
                    let drawn = spread.quantile(*u);
                    let only = axis.each.then_some(i);
                    match (axis.times, only) {
                        (true, _) => edit::multiply(job, target, only, drawn),
                        (false, Some(i)) => edit::set_one(job, target, i, &measure.written(drawn)),
                        (false, None) => edit::set(job, target, &measure.written(drawn)),
                    }
                }
            }
        }
    }

    /// The inputs of a case, one a column.
    fn inputs(&self, values: &[usize], u: &[f64]) -> Vec<Cell> {
        let mut cells = Vec::with_capacity(self.axes.len() + u.len());
        for (index, axis) in self.axes.iter().enumerate() {
            match &axis.takes {
                Takes::Others(others) => cells.push(Cell::Word(others[values[index]].0.clone())),
                Takes::Numbers(measure, numbers) => {
                    cells.push(Cell::Number(measure.shown(numbers[values[index]])));
                }
                Takes::Draws(measure, spread, _) => {
                    let (first, many) = self.coordinates[index];
                    let drawn = u[first..first + many].iter().map(|u| spread.quantile(*u));
                    cells.extend(drawn.map(|drawn| Cell::Number(measure.shown(drawn))));
                }
            }
        }
        cells
    }

    /// Whether an axis turns whole jobs.
    pub(super) fn turns_jobs(&self, index: usize) -> bool {
        matches!(self.bases[0].targets[index], Target::Job)
    }
}

fn reason(problem: &Problem) -> String {
    one_line(&format!("{}: found {}; wanted {}", problem.path, problem.found, problem.wanted))
}

/// A reason fits in one row.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
