//! A checked study, ready to run: from a study file and its jobs.

use super::axis::{Axis, Takes, axis};
use super::bases::{Base, USUAL, acts, jobs, resolve, twice};
use super::collect::{Collected, collected};
use super::draws::DrawPlan;
use super::file::{LevelWord, StudyFile};
use super::fingerprint::fingerprint;
use super::grid::{Grid, Uneven};
use super::joint::Joints;
use super::measure::Measure;
use super::place::Target;
use super::sampling::{MOST_CASES, coordinates, draws};
use super::settings::{self, Settings};
use super::typed::{AxisRoute, Kept, Ready, ways};
use super::usual::usual_axes;
use super::warnings::Warned;
use super::{ChartSpec, edit};
use crate::input::Problem;
use crate::job::file::JobFile;
use crate::member::Seam;
use crate::prediction::Wanted;
use crate::scatter::problems_of;
use crate::units::System;
use serde_json::Value;

/// A study ready to run.
#[derive(Debug, Clone)]
pub struct Study {
    /// Title.
    pub title: String,
    /// What the reader should see, and why.
    pub lesson: Option<String>,
    /// The job's name as the study file gives it.
    pub job: String,
    /// What is kept of every case.
    pub collect: Vec<Collected>,
    /// Charts wanted.
    pub charts: Vec<ChartSpec>,
    /// Changes with what a row holds.
    pub fingerprint: u64,
    pub(super) axes: Vec<Axis>,
    pub(super) bases: Vec<Base>,
    pub(super) grid: Grid,
    pub(super) draws: Option<DrawPlan>,
    /// Level, and how joints are solved, where no axis says otherwise.
    pub(super) settings: Settings,
    /// Seams whose joints are solved in every case.
    pub(super) seams: [bool; 2],
    /// Those of them along which an arc travels too.
    pub(super) travels: [bool; 2],
    /// Which coordinates of a draw an axis takes: first, and how many.
    pub(super) coordinates: Vec<(usize, usize)>,
    /// How every axis gets into a job.
    pub(super) ways: Vec<AxisRoute>,
    /// Jobs that are ready, base by base.
    pub(super) kept: Vec<Kept>,
    /// Units its results are read in.
    pub(super) system: System,
    /// Whether inputs are shown in them too, and not as the study file has them.
    pub(super) inputs_too: bool,
    /// What its cases warn of, if that was looked at: said beside its source, marked in charts.
    pub(super) warned: Option<Warned>,
    /// What is asked of every prediction; none if only joints are.
    pub(super) wanted: Option<Wanted>,
}

impl Study {
    /// Checks a study. `read_job` reads the job files it names.
    ///
    /// # Errors
    /// Every problem found, in places of the study file.
    pub fn new(
        file: &StudyFile,
        read_job: impl Fn(&str) -> Result<JobFile, String>,
    ) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let base =
            read_job(&file.job).map_err(|why| vec![Problem::new("job", format!("`{}`", file.job), why)])?;
        let mut axes = Vec::new();
        for (i, shape) in file.vary.iter().enumerate() {
            match axis(&format!("vary[{i}]"), shape) {
                Ok(axis) => axes.push((format!("vary[{i}]"), axis)),
                Err(more) => problems.extend(more),
            }
        }
        problems.extend(problems_of(&file.scatter));
        if file.sample.as_ref().is_some_and(|sample| sample.usual) {
            let mut own = base.scatter.clone();
            own.extend(file.scatter.clone());
            axes.extend(usual_axes(&own).into_iter().map(|axis| (USUAL.to_owned(), axis)));
        }
        let collect = collect(&file.collect, &mut problems);
        let seams = Seam::BOTH.map(|seam| collect.iter().any(|c| c.joint() == Some(seam)));
        let travels = Seam::BOTH.map(|seam| collect.iter().any(|c| c.travelled() == Some(seam)));
        // what is wrong with it is found before any axis turns it
        Joints::new(seams, travels, &file.section, &mut problems);
        settings::check(&axes, seams.contains(&true), &mut problems);
        let files = jobs(&base, &axes, &read_job, &mut problems);
        let mut bases: Vec<Base> = files.into_iter().filter_map(Base::new).collect();
        axes.retain(|(_, axis)| bases.iter().any(|base| acts(&base.file, axis)));
        for base in &mut bases {
            resolve(base, &mut axes, &mut problems);
        }
        if bases.is_empty() || !problems.is_empty() {
            return Err(problems);
        }
        twice(&bases[0], &axes, &mut problems);
        let ways = ways(&axes, &bases);
        let plain: Vec<Axis> = axes.iter().map(|(_, axis)| axis.clone()).collect();
        for base in &mut bases {
            let ready = Ready::of(&base.file, &plain, &ways, &base.targets);
            base.draws = ready.map(|ready| ready.draws).unwrap_or_default();
        }
        let grid = grid(&axes, &mut problems);
        let (coordinates, classes) = coordinates(&axes, &bases, &mut problems);
        let draws = draws(file, &axes, &coordinates, classes, &mut problems).unwrap_or_else(|problem| {
            problems.push(problem);
            None
        });
        let study = Self {
            kept: bases.iter().map(|_| Kept::new(&plain, &ways)).collect(),
            ways,
            wanted: wanted(&collect, file.sample.as_ref().is_some_and(|sample| sample.usual)),
            system: base.units,
            inputs_too: false,
            warned: None,
            fingerprint: fingerprint(file, &bases.iter().map(|base| &base.file).collect::<Vec<_>>()),
            title: file.title.clone(),
            lesson: file.lesson.clone(),
            job: file.job.clone(),
            collect,
            charts: file.charts.clone(),
            axes: plain,
            bases,
            grid: grid.unwrap_or_default(),
            draws,
            settings: Settings { level: file.level, section: file.section.clone() },
            seams,
            travels,
            coordinates,
        };
        study.try_values(&axes, &mut problems);
        study.try_settings(&axes, &mut problems);
        match study.cases() {
            Some(count) if (1..=MOST_CASES).contains(&count) => {}
            count => {
                let found =
                    count.map_or("more cases than can be counted".to_owned(), |n| format!("{n} cases"));
                let wanted = format!("1 to {MOST_CASES} cases; fewer steps");
                problems.push(Problem::new("vary", found, wanted).example("steps = 7"));
            }
        }
        if problems.is_empty() { Ok(study) } else { Err(problems) }
    }

    /// Cases in all; `None` if they cannot be counted.
    fn cases(&self) -> Option<u64> {
        self.grid.count()?.checked_mul(self.draws_each())
    }

    /// Cases in all.
    pub fn count(&self) -> u64 {
        self.cases().unwrap_or(0)
    }

    /// Draws for each point of the grid; 1 without a sample.
    pub(crate) fn draws_each(&self) -> u64 {
        self.draws.as_ref().map_or(1, DrawPlan::count)
    }

    /// What is computed, in one line: "28 cases of jobs/rafter.toml, formula level, not measured: leg (4) × …".
    pub fn source(&self) -> String {
        let mut parts: Vec<(Option<&str>, String, usize)> = Vec::new();
        for axis in &self.axes {
            let Some(values) = axis.values() else { continue };
            let group = axis.together.as_deref();
            match parts.iter_mut().find(|(of, ..)| group.is_some() && *of == group) {
                Some((_, words, _)) => *words = format!("{words} with {}", axis.words),
                None => parts.push((group, axis.words.clone(), values)),
            }
        }
        let mut parts: Vec<String> =
            parts.into_iter().map(|(_, words, n)| format!("{words} ({n})")).collect();
        if let Some(draws) = &self.draws {
            parts.push(format!("{} draws of {} inputs", draws.count(), draws.inputs()));
        }
        let of = if parts.is_empty() { String::new() } else { format!(": {}", parts.join(" × ")) };
        let noun = if self.count() == 1 { "case" } else { "cases" };
        let level = match (self.solves_joints(), self.uses_strip(), self.settings.level) {
            (true, false, _) if self.travels.contains(&true) => {
                "travelling arcs and sections solved, and formulas"
            }
            (true, false, _) => "sections solved and formulas",
            (true, true, _) => "sections solved, formulas and strip level",
            (false, true, LevelWord::Strip) => "strip level",
            (false, true, LevelWord::Formula) => "formula and strip level",
            (false, false, _) => "formula level",
        };
        let note = self.warned.as_ref().and_then(Warned::said);
        let note = note.map_or_else(String::new, |note| format!(" {note}."));
        format!("{} {noun} of {}, {level}, not measured{of}.{note}", self.count(), self.job)
    }

    /// The same with what its cases warn of, for its charts to mark and to say.
    #[must_use]
    pub fn with_warned(mut self, warned: Option<Warned>) -> Self {
        self.warned = warned;
        self
    }

    /// Whether a case is known to carry a warning.
    pub fn marks(&self, case: u64) -> bool {
        self.warned.as_ref().is_some_and(|warned| warned.marks(case))
    }

    /// The job that the first case starts from.
    pub fn base(&self) -> &JobFile {
        &self.bases[0].file
    }

    /// Tries every listed value once, so that a value of the wrong kind is found before anything is computed.
    fn try_values(&self, axes: &[(String, Axis)], problems: &mut Vec<Problem>) {
        for (index, (path, axis)) in axes.iter().enumerate() {
            let values: Vec<Value> = match &axis.takes {
                _ if axis.times
                    || matches!(self.bases[0].targets[index], Target::Job | Target::Setting(_)) =>
                {
                    continue;
                }
                Takes::Numbers(measure, numbers) => vec![measure.written(numbers.at(0))],
                Takes::Others(others) => others.iter().map(|(_, value)| value.clone()).collect(),
                Takes::Draws(measure, spread, _) => vec![measure.written(spread.quantile(0.5))],
            };
            for (i, value) in values.into_iter().enumerate() {
                let mut job = self.bases[0].value.clone();
                edit::set(&mut job, &self.bases[0].targets[index], None, &value);
                if let Err(error) = serde_json::from_value::<JobFile>(job) {
                    let place = match axis.takes {
                        Takes::Others(_) => format!("{path}.values[{i}]"),
                        Takes::Numbers(..) | Takes::Draws(..) => format!("{path}.set"),
                    };
                    let found = format!("{value} for `{}`", axis.set);
                    let wanted = format!("what a job takes there: {error}");
                    problems.push(Problem::new(place, found, wanted));
                }
            }
        }
    }
}

/// What results ask of a prediction; none if nothing does.
fn wanted(collect: &[Collected], piece: bool) -> Option<Wanted> {
    let mut wanted = Wanted { piece, ..Wanted::default() };
    let any = collect.iter().filter(|c| c.joint().is_none()).map(|c| c.ask(&mut wanted)).count() > 0;
    any.then_some(wanted)
}

fn collect(names: &[String], problems: &mut Vec<Problem>) -> Vec<Collected> {
    if names.is_empty() {
        problems.push(Problem::new("collect", "an empty list", "at least one result, as \"camber.max_mm\""));
    }
    let mut collect: Vec<Collected> = Vec::new();
    for (i, name) in names.iter().enumerate() {
        let path = format!("collect[{i}]");
        match collected(name.trim()) {
            Ok(more) if collect.iter().any(|c| more.iter().any(|m| m.name == c.name)) => {
                problems.push(Problem::new(path, format!("`{name}` again"), "each result once"));
            }
            Ok(more) => collect.extend(more),
            Err(no) => problems.push(Problem::new(path, format!("`{name}`"), no.wanted).hint(no.hint)),
        }
    }
    collect
}

fn grid(axes: &[(String, Axis)], problems: &mut Vec<Problem>) -> Option<Grid> {
    let wheels: Vec<_> = axes.iter().map(|(_, axis)| (axis.values(), axis.together.as_deref())).collect();
    let uneven = |(first, values, other, others): Uneven| {
        let wanted = format!("{values}, as `{}` has, with which it goes together", axes[first].1.name);
        Problem::new(format!("{}.together", axes[other].0), format!("{others} values"), wanted)
    };
    Grid::new(&wheels).map_err(|fault| problems.push(uneven(fault))).ok()
}

impl Axis {
    /// Words of a coordinate: with its number if every match draws for itself.
    pub(super) fn coordinate(&self, number: usize, many: usize) -> (String, String) {
        if many == 1 {
            (self.name.clone(), self.words.clone())
        } else {
            (format!("{} {}", self.name, number + 1), format!("{} {}", self.words, number + 1))
        }
    }

    /// Measure of its numbers.
    pub(super) const fn measure(&self) -> Option<Measure> {
        match self.takes {
            Takes::Numbers(measure, _) | Takes::Draws(measure, ..) => Some(measure),
            Takes::Others(_) => None,
        }
    }
}
