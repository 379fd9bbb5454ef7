//! `weldbow section --moving`: the arc travels along a length of one joint.

mod args;
mod beside;
mod report;

use super::super::complain::fault;
use super::Section;
use crate::chart;
use crate::cli::status::{BAD_INPUT, DONE, STOPPED};
use crate::cli::{files, output};
use crate::joint_solver::SectionError;
use crate::prediction::Job;
use crate::units::System;
use crate::verification::{Case, CaseError, Options, TravelledCase, moving};
pub(crate) use args::Moving;
use beside::{Beside, TRUST};
use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;
use std::io::{Error, Result, Write};
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether the user wants no more.
static STOP: AtomicBool = AtomicBool::new(false);

#[derive(Serialize)]
struct Whole<'a> {
    title: &'a str,
    level: &'static str,
    trust: &'static str,
    yield_mpa: f64,
    beside: &'a Beside,
    moving: &'a TravelledCase,
}

impl Section {
    /// Lets the arc travel along the first joint asked for.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub(super) fn run_moving(
        &self,
        job: &Job,
        cases: &[Case],
        faults: &[String],
        options: &Options,
        out: &mut dyn Write,
    ) -> Result<u8> {
        let Some(case) = cases.first() else {
            faults.iter().try_for_each(|one| fault(Some(&self.job), one))?;
            return Ok(BAD_INPUT);
        };
        let moved = match self.travelled(case, options) {
            Ok(moved) => moved,
            Err(CaseError::Section { cause: SectionError::Stopped, .. }) => {
                fault(None, "stopped; nothing was written")?;
                return Ok(STOPPED);
            }
            Err(error) => {
                fault(Some(&self.job), &error.to_string())?;
                return Ok(BAD_INPUT);
            }
        };
        let beside = Beside::of(case, &moved, options);
        let system = self.units.unwrap_or(job.units);
        if self.json {
            let whole = Whole {
                title: &job.title,
                level: "moving arc",
                trust: TRUST,
                yield_mpa: case.yield_mpa,
                beside: &beside,
                moving: &moved,
            };
            output::json_of(&whole, out)?;
        } else {
            report::report(job, case, &moved, &beside, options, system, out)?;
        }
        self.draw_moving(job, &moved, system, out)?;
        Ok(DONE)
    }

    fn travelled(&self, case: &Case, options: &Options) -> std::result::Result<TravelledCase, CaseError> {
        // the first Ctrl-C ends it after the step at hand; the second, or the first where none can be watched for, at once
        let _ = ctrlc::set_handler(|| {
            if STOP.swap(true, Ordering::Relaxed) {
                std::process::exit(i32::from(STOPPED));
            }
        });
        let bar = progress();
        let mut watch = |part: f64| {
            bar.set_position((1000.0 * part) as u64);
            !STOP.load(Ordering::Relaxed)
        };
        let moved = moving(case, options, &self.moving.travel(case, options.meshing), &mut watch);
        bar.finish_and_clear();
        moved
    }

    fn draw_moving(
        &self,
        job: &Job,
        moved: &TravelledCase,
        system: System,
        out: &mut dyn Write,
    ) -> Result<()> {
        let Some(folder) = &self.charts else { return Ok(()) };
        let stem = self.job.file_stem().unwrap_or(self.job.as_os_str()).to_string_lossy().into_owned();
        let pictures = chart::moving_pictures(job, moved, system).map_err(Error::other)?;
        let case = format!("{stem}-{}-{:.0}", moved.seam.name(), moved.x_mm);
        let drawn = files::charts(folder, self.over.force, files::pictures_of(&case, pictures))?;
        if self.json {
            return Ok(());
        }
        writeln!(out, "\n{}", crate::cli::show::drawn(drawn, folder))
    }
}

/// Drawn on a terminal only.
fn progress() -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(1000), indicatif::ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent} %, {eta} left") {
        bar.set_style(style.progress_chars("━╸─"));
    }
    bar
}
