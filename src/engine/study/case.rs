//! One case of a study: its inputs, the job they make, and what is collected from it.

use super::axis::{Axis, Takes};
use super::bases::Base;
use super::collect::Collected;
use super::definition::Study;
use super::draws::DrawPlan;
use super::edit;
use super::file::LevelWord;
use super::joint::Joints;
use super::place::Target;
use super::typed::{AxisRoute, Ready, by_file};
use crate::input::Problem;
use crate::job::check;
use crate::job::file::JobFile;
use crate::prediction::{Field, Job, OutOfRange, Prediction, fits, outside};
use crate::scatter::draws_with;
use serde_json::Value;
use std::ops::Range;

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

/// Room to compute in, one a thread: jobs of the cases at hand.
#[derive(Debug, Default)]
pub(super) struct CaseRoom {
    jobs: Vec<Job>,
    levels: Vec<LevelWord>,
    cases: Vec<Begun>,
    values: Vec<usize>,
}

/// A case whose job is made.
#[derive(Debug)]
struct Begun {
    case: u64,
    inputs: Vec<Cell>,
    /// Joints to be solved.
    joints: Option<Joints>,
    /// Why there is no job.
    reason: Option<String>,
}

impl Study {
    /// Computes a case.
    pub fn row(&self, case: u64) -> Row {
        let mut rows = self.rows_of(case..case + 1, &mut CaseRoom::default());
        rows.pop().unwrap_or(Row { case, inputs: Vec::new(), results: Vec::new(), reason: None })
    }

    /// Computes cases that stand together: first all their jobs, then their predictions, so that many jobs of one layout
    /// can be walked at once.
    pub(super) fn rows_of(&self, cases: Range<u64>, room: &mut CaseRoom) -> Vec<Row> {
        let draws = self.draws_each();
        let CaseRoom { jobs, levels, cases: begun, values } = room;
        begun.clear();
        levels.clear();
        let mut made = 0;
        let many = self.draws.as_ref().map_or(0, DrawPlan::inputs);
        let mut drawn =
            self.draws.as_ref().map_or_else(Vec::new, |d| d.points(cases.clone().map(|c| c % draws)));
        self.draw(many, &mut drawn);
        for (at, case) in cases.enumerate() {
            self.grid.put(case / draws, values);
            let drawn = &drawn[at * many..][..many];
            let ready = self.next_job(values, drawn, jobs, made).and_then(|()| self.joints_at(values));
            if ready.is_ok() {
                made += 1;
                levels.push(if self.uses_strip() {
                    self.settings_at(values).level
                } else {
                    LevelWord::Formula
                });
            }
            let (joints, reason) = ready.map_or_else(|reason| (None, Some(reason)), |joints| (joints, None));
            begun.push(Begun { case, inputs: self.inputs(values, drawn), joints, reason });
        }
        let mut joints = begun.iter().filter(|begun| begun.reason.is_none()).map(|begun| &begun.joints);
        let mut found = Vec::with_capacity(made);
        self.each_prediction(&jobs[..made], levels, |job, predicted| {
            let joints = joints.next().and_then(Option::as_ref);
            found.push(self.collected(job, predicted, joints));
        });
        let mut found = found.into_iter();
        let row = |Begun { case, inputs, reason, .. }| {
            let (results, reason) = match reason {
                Some(reason) => (self.nothing(), Some(reason)),
                None => found.next().unwrap_or_else(|| (self.nothing(), None)),
            };
            Row { case, inputs, results, reason }
        };
        begun.drain(..).map(row).collect()
    }

    /// Results at a point of the grid and of the unit cube.
    pub(super) fn results(&self, values: &[usize], u: &[f64]) -> (Vec<f64>, Option<String>) {
        let mut jobs = Vec::new();
        let mut found = (self.nothing(), None);
        let ready = self.next_job(values, &self.drawn(u), &mut jobs, 0).and_then(|()| self.joints_at(values));
        match ready {
            Ok(joints) => self.each_prediction(&jobs, &[self.settings_at(values).level], |job, predicted| {
                found = self.collected(job, predicted, joints.as_ref());
            }),
            Err(reason) => found.1 = Some(reason),
        }
        found
    }

    fn nothing(&self) -> Vec<f64> {
        vec![f64::NAN; self.collect.len()]
    }

    fn collected(
        &self,
        job: &Job,
        predicted: Result<Option<&Prediction>, String>,
        joints: Option<&Joints>,
    ) -> (Vec<f64>, Option<String>) {
        let solved = joints.map(|joints| joints.solve(job)).transpose();
        let (solved, prediction) = match (solved, predicted) {
            (Ok(solved), Ok(prediction)) => (solved, prediction),
            (Err(reason), _) | (_, Err(reason)) => return (self.nothing(), Some(one_line(&reason))),
        };
        let joints = solved.as_ref().unwrap_or(&[None; 2]);
        let none = prediction.map_or_else(Vec::new, outside);
        let read = |c: &Collected| match none.iter().any(|outside| c.is_hidden_by(outside)) {
            true => f64::NAN,
            false => c.of(prediction, joints),
        };
        let results: Vec<f64> = self.collect.iter().map(read).collect();
        (results, none.first().map(|outside| one_line(&outside.reason.to_string())))
    }

    /// Drawn values, one for each coordinate.
    pub(super) fn drawn(&self, u: &[f64]) -> Vec<f64> {
        let mut out = u.to_vec();
        self.draw(u.len(), &mut out);
        out
    }

    /// Turns the coordinates of cases, one case after the other, `each` of each, into what is drawn there.
    fn draw(&self, each: usize, u: &mut [f64]) {
        let mut column = Vec::with_capacity(u.len() / each.max(1));
        for (axis, (first, many)) in self.axes.iter().zip(&self.coordinates) {
            let Takes::Draws(_, spread, _) = &axis.takes else { continue };
            for coordinate in *first..first + many {
                column.clear();
                column.extend(u.iter().skip(coordinate).step_by(each));
                spread.quantiles(&mut column);
                u.iter_mut().skip(coordinate).step_by(each).zip(&column).for_each(|(u, drawn)| *u = *drawn);
            }
        }
    }

    /// Makes a case's job the one at place `at` of the list.
    ///
    /// # Errors
    /// Why these inputs make no job.
    pub(super) fn next_job(
        &self,
        values: &[usize],
        drawn: &[f64],
        jobs: &mut Vec<Job>,
        at: usize,
    ) -> Result<(), String> {
        // a job counted for its warnings is read as a file is, its legs, heats and plates held against each other
        if self.collect.iter().any(Collected::warns) {
            put(self.job_by_file(values, drawn)?, jobs, at);
            return Ok(());
        }
        let base = self.base_at(values);
        let make = || {
            let file = by_file(&self.bases[base], &self.axes, &self.ways, values)?;
            Ready::of(&file, &self.axes, &self.ways, &self.bases[base].targets)
        };
        let kept = &self.kept[base];
        let own = if kept.keeps() { None } else { make() };
        let Some(ready) = own.as_ref().or_else(|| kept.get(values, make)) else {
            put(self.job_by_file(values, drawn)?, jobs, at);
            return Ok(());
        };
        match jobs.get_mut(at) {
            Some(job) => job.clone_from(&ready.job),
            None => jobs.push(ready.job.clone()),
        }
        let set = self.typed(&mut jobs[at], ready, base, values, drawn);
        if set.is_err() || !fits(&jobs[at]) {
            // the way of the file knows why, in its own words
            jobs[at] = self.job_by_file(values, drawn)?;
        }
        Ok(())
    }

    /// Sets the numbers of the typed axes, in their order.
    fn typed(
        &self,
        job: &mut Job,
        ready: &Ready,
        base: usize,
        values: &[usize],
        drawn: &[f64],
    ) -> Result<(), OutOfRange> {
        let base = &self.bases[base];
        for (index, (axis, fields)) in self.axes.iter().zip(&ready.fields).enumerate() {
            let mut act = |field: &Field, value: f64| {
                if axis.times { field.times(job, value) } else { field.set(job, value) }
            };
            match &axis.takes {
                Takes::Numbers(_, numbers) => {
                    fields.iter().try_for_each(|field| act(field, numbers.at(values[index])))?;
                }
                Takes::Draws(..) => {
                    let (first, many) = self.coordinates[index];
                    let own = &drawn[first..first + many];
                    if axis.each {
                        // runs that an axis adds draw with those that there are
                        let drawn = |i: usize| own[base.draws_for(index, i) % many];
                        fields.iter().enumerate().try_for_each(|(i, field)| act(field, drawn(i)))?;
                    } else {
                        fields.iter().try_for_each(|field| act(field, own[0]))?;
                    }
                }
                Takes::Others(_) => {}
            }
        }
        Ok(())
    }

    /// The checked job at a point, through its file.
    ///
    /// # Errors
    /// Why these inputs make no job.
    pub(super) fn job_by_file(&self, values: &[usize], drawn: &[f64]) -> Result<Job, String> {
        let base = &self.bases[self.base_at(values)];
        let mut job = base.value.clone();
        let beside = |index: usize, axis: &Axis| axis.in_no_file() || base.acts_on_runs(index);
        for (index, axis) in self.axes.iter().enumerate().filter(|(index, axis)| !beside(*index, axis)) {
            self.apply(&mut job, base, index, axis, values[index], drawn);
        }
        let file: JobFile = serde_json::from_value(job).map_err(|error| one_line(&error.to_string()))?;
        let mut job = check(&file).map_err(|problems| problems.first().map_or_else(String::new, reason))?;
        for (index, axis) in self.axes.iter().enumerate().filter(|(index, axis)| beside(*index, axis)) {
            self.act_beside(&mut job, (index, axis), drawn).map_err(|out| out.to_string())?;
        }
        Ok(job)
    }

    /// What plates bring, what a record leaves in doubt, and runs of a pass stand in no file: it acts on the checked job.
    fn act_beside(
        &self,
        job: &mut Job,
        (index, axis): (usize, &Axis),
        drawn: &[f64],
    ) -> Result<(), OutOfRange> {
        let (first, many) = self.coordinates[index];
        let fields = axis.usual.map_or_else(Vec::new, |usual| (usual.fields)(job));
        let draws = if axis.each { draws_with(job, &fields) } else { vec![0; fields.len()] };
        fields.iter().zip(draws).try_for_each(|(field, draw)| field.times(job, drawn[first + draw % many]))
    }

    fn base_at(&self, values: &[usize]) -> usize {
        self.ways.iter().position(|way| *way == AxisRoute::Job).map_or(0, |index| values[index])
    }

    fn apply(&self, job: &mut Value, base: &Base, index: usize, axis: &Axis, value: usize, drawn: &[f64]) {
        let target = &base.targets[index];
        let Takes::Draws(measure, ..) = &axis.takes else {
            return edit::set_listed(job, target, axis, value);
        };
        let (first, many) = self.coordinates[index];
        let own = &drawn[first..first + many];
        for i in 0..many {
            let drawn = own[base.draws_for(index, i)];
            let only = axis.each.then_some(i);
            if axis.times {
                edit::multiply(job, target, only, drawn);
            } else {
                edit::set(job, target, only, &measure.written(drawn));
            }
        }
    }

    /// The inputs of a case, one a column.
    fn inputs(&self, values: &[usize], drawn: &[f64]) -> Vec<Cell> {
        let mut cells = Vec::with_capacity(self.axes.len() + drawn.len());
        let base = &self.bases[self.base_at(values)];
        for (index, axis) in self.axes.iter().enumerate() {
            match &axis.takes {
                Takes::Others(others) => cells.push(Cell::Word(others[values[index]].0.clone())),
                Takes::Numbers(measure, numbers) => {
                    cells.push(Cell::Number(measure.shown(numbers.at(values[index]))));
                }
                Takes::Draws(measure, ..) => {
                    let (first, many) = self.coordinates[index];
                    let own = &drawn[first..first + many];
                    let cell = |i: usize| Cell::Number(measure.shown(own[base.draws_for(index, i)]));
                    cells.extend((0..many).map(cell));
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

/// Puts a job at that place of the list, or at its end.
fn put(made: Job, jobs: &mut Vec<Job>, at: usize) {
    match jobs.get_mut(at) {
        Some(job) => *job = made,
        None => jobs.push(made),
    }
}

fn reason(problem: &Problem) -> String {
    one_line(&format!("{}: found {}; wanted {}", problem.path, problem.found, problem.wanted))
}

/// A reason fits in one row.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
