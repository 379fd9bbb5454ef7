//! `weldbow section --moving`: the arc travels along a length of one joint.

mod args;
mod report;

use super::super::complain::fault;
use super::super::ended::{Ended, Outcome};
use super::Section;
use super::asked::Asked;
use crate::chart;
use crate::cli::ended::{BAD_INPUT, DONE, STOPPED};
use crate::cli::interrupt::{is_stopped, watch_for_interrupt};
use crate::cli::terminal::look;
use crate::joint_solver::SectionError;
use crate::verification::{Case, CaseError, Options, TravelledCase, moving};
pub(crate) use args::Moving;
use indicatif::ProgressBar;
use report::{Beside, TRUST};
use serde::Serialize;
use std::io::Write;

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
        let whole = Whole {
            title: &job.title,
            level: "moving arc",
            trust: TRUST,
            yield_mpa: case.yield_mpa,
            beside: &beside,
            moving: &moved,
        };
        self.presented.tell(&whole, |said| report::report(asked, case, &moved, &beside, said), out)?;
        if self.presented.charts.is_some() {
            let pictures = chart::moving_pictures(job, &moved, system)?;
            self.presented.draw(|| Ok(self.named(moved.seam, moved.x_mm, pictures)), out)?;
        }
        Ok(DONE)
    }

    fn travelled(&self, case: &Case, options: &Options) -> Result<TravelledCase, CaseError> {
        watch_for_interrupt();
        // drawn on a terminal only
        let bar = ProgressBar::new(1000).with_style(look("{bar:30} {percent} %, {eta} left"));
        let mut watch = |part: f64| {
            bar.set_position((1000.0 * part) as u64);
            !is_stopped()
        };
        let moved = moving(case, options, &self.moving.travel(case, options.meshing), &mut watch);
        bar.finish_and_clear();
        moved
    }
}
