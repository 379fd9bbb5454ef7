//! `weldbow section`: joints of a job solved from first principles, beside the formulas.

mod asked;
mod moving;
mod report;
mod words;

use super::complain::fault;
use super::ended::{BAD_INPUT, BAD_USAGE, DONE, Ended, Outcome};
use super::files;
use crate::chart;
use crate::cli::lists::grouped;
use crate::cli::one_of::{LENGTHWISE, ROOTS, SEAMS, one_of};
use crate::cli::presented::{Presented, json_of};
use crate::cli::show::Report;
use crate::cli::terminal::progress;
use crate::job::read_path;
use crate::joint_solver::{Lengthwise, Root};
use crate::member::Seam;
use crate::prediction::Job;
use crate::verification::{Case, Options, Solved, Verified, verify_watched};
use asked::{Asked, Times, hold, length, meshing, step, times};
use rayon::prelude::*;
use serde::Serialize;
use std::io::{Error, Result, Write};
use std::path::PathBuf;
use std::time::Instant;

/// What the numbers of this level rest on.
const TRUST: &str = "section level: heat and thermo-plasticity of one slice, nothing fitted to members; held until the weld is \
                     solid it cups as a moving arc in three dimensions, its tilt is a lower estimate";

/// Arguments of `weldbow section`.
#[derive(Debug, clap::Args)]
pub(super) struct Section {
    /// Job file
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// Place along the member, such as 4.5m or "14 ft 6 in"; may be given several times [default: mid-length]
    #[arg(long, value_name = "X", value_parser = length, allow_hyphen_values = true)]
    at: Vec<f64>,
    /// Places this far apart along the whole member
    #[arg(long, value_name = "STEP", value_parser = step, conflicts_with = "at")]
    every: Option<f64>,
    /// Seam
    #[arg(long, value_parser = one_of(SEAMS), default_value = "both")]
    seam: SeamAsked,
    /// Flange edges and web top are held until the weld is `solid`, until the hottest point is below this, or `none`
    #[arg(long, value_name = "T", value_parser = hold, default_value = "solid")]
    hold: crate::verification::HotHold,
    /// Whether the slice may shorten and bend while hot
    #[arg(long, value_parser = one_of(LENGTHWISE), default_value = "free")]
    lengthwise: Lengthwise,
    /// coarse, standard, fine, or the number of elements along a leg
    #[arg(long, value_name = "MESH", value_parser = meshing, default_value = "standard")]
    mesh: crate::verification::Meshing,
    /// How the web foot meets the flange
    #[arg(long, value_parser = one_of(ROOTS), default_value = "tied")]
    root: Root,
    /// Times after the start of each pass to draw temperatures at
    #[arg(long, value_name = "TIMES", value_parser = times, default_value = "5s,20s,100s")]
    times: Times,
    /// Leave the bracket (narrower and wider arc, never held) out
    #[arg(long)]
    quick: bool,
    #[command(flatten)]
    pub(super) presented: Presented,
    #[command(flatten)]
    moving: moving::Moving,
}

/// A seam, or each that is welded there: an alias, so that the argument is not taken for one that may be left out.
type SeamAsked = Option<Seam>;

/// All cases of a job.
#[derive(Serialize)]
struct Whole<'a> {
    title: &'a str,
    model: Model,
    cases: Vec<&'a Verified>,
}

#[derive(Serialize)]
struct Model {
    level: &'static str,
    e_mpa: f64,
    yield_mpa: f64,
    trust: &'static str,
}

impl Section {
    /// Solves every case; one that cannot be solved is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let job = read_path(&self.job)?;
        let length_mm = job.member.length_mm;
        if let Some(wrong) = self.every.and_then(|step| asked::too_many(step, length_mm)) {
            return Err(Ended::by_usage(None, wrong));
        }
        self.presented.ready()?;
        let options = self.options();
        let start = Instant::now();
        let (cases, mut faults) = self.cases(&job, &options);
        let system = self.presented.units.unwrap_or(job.units);
        let asked = Asked { job: &job, options: &options, system };
        if self.moving.moving {
            return self.run_moving(asked, &cases, &faults, out);
        }
        let bar = progress(1, "calculations of a joint");
        let outcomes = verify_watched(&cases, &options, &|done, all| match done {
            0 => bar.set_length(all as u64),
            _ => bar.inc(1),
        });
        bar.finish_and_clear();
        let good = outcomes.into_iter().filter_map(|one| one.map_err(|f| faults.push(f.to_string())).ok());
        let solved: Vec<Solved> = good.collect();
        faults.dedup();
        faults.iter().try_for_each(|one| fault(Some(&self.job), one))?;
        if self.presented.json {
            self.print_json(&job, &solved, out)?;
        } else {
            match solved.as_slice() {
                [] => {}
                [one] => Report::put(out, |said| report::report(asked, one, start.elapsed(), said))?,
                many => {
                    Report::put(out, |said| report::table(asked, &self.job, many, start.elapsed(), said))?
                }
            }
        }
        self.draw(asked, &solved, out)?;
        let off = self.at.iter().any(|x| !(0.0..=length_mm).contains(x));
        Ok(match (off, faults.is_empty()) {
            // a place off the member is a wrong option, not a wrong file
            (true, _) => BAD_USAGE,
            (false, true) => DONE,
            (false, false) => BAD_INPUT,
        })
    }

    fn options(&self) -> Options {
        Options {
            hold: self.hold,
            lengthwise: self.lengthwise,
            meshing: self.mesh,
            root: self.root,
            times_s: self.times.0.clone(),
            quick: self.quick,
            ..Options::default()
        }
    }

    /// Every joint asked for, in order of place, and what is wrong with the others. A seam that was not named may be bare at a
    /// place, as long as the other is welded there; so may places that a step brought about.
    fn cases(&self, job: &Job, options: &Options) -> (Vec<Case>, Vec<String>) {
        let (places, swept) = asked::places(&self.at, self.every, job.member.length_mm);
        let seams: &[Seam] = self.seam.as_ref().map_or(&Seam::BOTH, std::slice::from_ref);
        let (mut cases, mut faults) = (Vec::new(), Vec::new());
        for x_mm in places {
            let tried: Vec<_> = seams.iter().map(|seam| Case::of(job, x_mm, *seam, options)).collect();
            let any = tried.iter().any(|one| one.is_ok());
            for one in tried {
                match one {
                    Ok(case) => cases.push(case),
                    Err(crate::verification::CaseError::NoPass { .. }) if any || swept => {}
                    Err(fault) => faults.push(fault.to_string()),
                }
            }
        }
        if cases.is_empty() && faults.is_empty() {
            faults.push("no place of that step is welded".to_owned());
        }
        (cases, faults)
    }

    fn print_json(&self, job: &Job, solved: &[Solved], out: &mut dyn Write) -> Result<()> {
        if solved.is_empty() {
            return Ok(());
        }
        let model = Model {
            level: "section",
            e_mpa: crate::joint_solver::SectionSteel::hot(job.member.steel.yield_mpa).e_mpa,
            yield_mpa: job.member.steel.yield_mpa,
            trust: TRUST,
        };
        let whole = Whole { title: &job.title, model, cases: solved.iter().map(|s| &s.result).collect() };
        json_of(&whole, out)
    }

    /// Draws every picture of every distinct joint.
    fn draw(&self, of: Asked<'_>, solved: &[Solved], out: &mut dyn Write) -> Result<()> {
        let one = |alike: &[&Solved]| {
            let Solved { result, outcome, .. } = alike[0];
            let pictures = chart::joint_pictures(of.job, result, outcome, of.system);
            Ok(self.named(result.seam, result.x_mm, pictures.map_err(Error::other)?))
        };
        let all = || {
            let joints = grouped(solved.iter().map(|one| (one.same_as, one)));
            let drawn: Vec<Result<Vec<_>>> = joints.par_iter().map(|(_, alike)| one(alike)).collect();
            Ok(drawn.into_iter().collect::<Result<Vec<_>>>()?.concat())
        };
        self.presented.draw(all, out)
    }

    /// Pictures of one case.
    fn named(&self, seam: Seam, x_mm: f64, pictures: Vec<chart::Picture>) -> Vec<chart::Picture> {
        let stem = self.job.file_stem().unwrap_or(self.job.as_os_str()).to_string_lossy();
        files::pictures_of(&format!("{stem}-{}-{x_mm:.0}", seam.name()), pictures)
    }
}
