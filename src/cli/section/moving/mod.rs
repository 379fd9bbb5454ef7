//! `weldbow section --moving`: the arc travels along a length of one joint.

mod args;
mod beside;
mod report;

use super::super::complain::fault;
use super::super::ended::{Ended, Outcome};
use super::Section;
use super::asked::Asked;
use crate::chart;
use crate::cli::output;
use crate::cli::status::{BAD_INPUT, DONE, STOPPED};
use crate::joint_solver::SectionError;
use crate::verification::{Case, CaseError, Options, TravelledCase, moving};
pub(crate) use args::Moving;
use beside::{Beside, TRUST};
use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;
use std::io::Write;
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
        asked: Asked<'_>,
        cases: &[Case],
        faults: &[String],
        out: &mut dyn Write,
    ) -> Outcome {
        let Asked { job, options, system } = asked;
        let Some(case) = cases.first() else {
            faults.iter().try_for_each(|one| fault(Some(&self.job), one))?;
            return Ok(BAD_INPUT);
        };
        let moved = self.travelled(case, options).map_err(|error| match error {
            CaseError::Section { cause: SectionError::Stopped, .. } => {
                Ended::Fault(None, "stopped; nothing was written".to_owned(), STOPPED)
            }
            error => Ended::by_file(&self.job, error),
        })?;
        let beside = Beside::of(case, &moved, options);
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
            report::report(asked, case, &moved, &beside, out)?;
        }
        if self.charts.is_some() {
            let pictures = chart::moving_pictures(job, &moved, system)?;
            self.keep(self.named(moved.seam, moved.x_mm, pictures), out)?;
        }
        Ok(DONE)
    }

    fn travelled(&self, case: &Case, options: &Options) -> Result<TravelledCase, CaseError> {
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
}

/// Drawn on a terminal only.
fn progress() -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(1000), indicatif::ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent} %, {eta} left") {
        bar.set_style(style.progress_chars("━╸─"));
    }
    bar
}
