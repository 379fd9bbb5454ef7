//! `weldbow section --moving`: the arc travels along a length of one joint.

mod report;

use super::super::complain::fault;
use super::{BAD_INPUT, DONE, Section, asked};
use crate::chart;
use crate::cli::one_of::{Word, one_of};
use crate::cli::{STOPPED, files, output};
use crate::joint_solver::{Lengthwise, Model, SectionError};
use crate::moving_arc::{Foot, Grip, Travel};
use crate::prediction::Job;
use crate::units::System;
use crate::verification::{
    Case, CaseError, Hold, Meshing, Moved, Numbers, Options, formula_so, held_so, moving, referee, travel_of,
};
use crate::welding::Side;
use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;
use std::io::{Error, Result, Write};
use std::sync::atomic::{AtomicBool, Ordering};

/// What the numbers of this level rest on.
const TRUST: &str = "moving arc: staggered slices joined by their plates, from first principles, nothing fitted, nothing measured. Beside a separate \
                     calculation in three dimensions cups are within 10 % and tilts within 15 % (reference-cases/moving_slices.md says where not: \
                     fillets with so little heat that they hardly melt). Tilt in practice is about 0.6 of a free one (a judgement)";

/// Whether the user wants no more.
static STOP: AtomicBool = AtomicBool::new(false);

/// How web and flange meet.
const FEET: &[Word<Foot>] = &[
    ("one-piece", Foot::OnePiece, "They are one, as tacks at short spacing leave them"),
    ("touching", Foot::Touching, "They touch and may part until welded"),
    ("apart", Foot::Apart, "A gap between them until welded"),
];

/// What holds flange and web; rolls by their reach.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Held {
    Free,
    Guided,
    Square,
    Rolls,
}

const HOLDS: &[Word<Held>] = &[
    ("free", Held::Free, "Nothing but six supports"),
    ("guided", Held::Guided, "The far edge of the web is guided"),
    ("square", Held::Square, "Flange edges and web are held square until cold, then let go"),
    ("rolls", Held::Rolls, "Rolls travel with the arc and keep flange and web square there"),
];

/// Sides of the web that tacks are on: one, or both.
type TackSides = &'static [Side];

const TACK_SIDES: &[Word<TackSides>] = &[
    ("both", &[Side::Near, Side::Far], "Both sides"),
    ("near", &[Side::Near], "The near side"),
    ("far", &[Side::Far], "The far side"),
];

/// Arguments of the travelling arc.
#[derive(Debug, clap::Args)]
pub(super) struct Moving {
    /// Let the arc travel along a length of the first joint asked for, instead of solving one slice (half a minute, minutes when fine);
    /// how a slice is held, its root and times do not matter then
    #[arg(long, conflicts_with = "every")]
    pub moving: bool,
    /// Length of joint
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "300mm", requires = "moving")]
    length: f64,
    /// How web and flange meet before they are welded
    #[arg(long, value_parser = one_of(FEET), default_value = "one-piece", requires = "moving")]
    foot: Foot,
    /// A stretch tacked beforehand, such as 0mm..30mm; may be given several times
    #[arg(long, value_name = "FROM..TO", value_parser = stretch, requires = "moving")]
    tack: Vec<Stretch>,
    /// Side of the tacks
    #[arg(long, value_parser = one_of(TACK_SIDES), default_value = "both", requires = "moving")]
    tack_side: TackSides,
    /// What holds flange and web
    #[arg(long, value_parser = one_of(HOLDS), default_value = "free", requires = "moving")]
    grip: Held,
    /// How far rolls reach before and behind the arc
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "60mm", requires = "moving")]
    reach: f64,
    /// Slices [default: one every 15 mm; every 25 mm when coarse, every 8 mm when fine]
    #[arg(long, value_name = "N", requires = "moving")]
    slices: Option<usize>,
}

/// A stretch of joint: from, to, mm.
type Stretch = (f64, f64);

fn stretch(text: &str) -> std::result::Result<Stretch, String> {
    let (from, to) = text
        .split_once("..")
        .ok_or_else(|| format!("a tack runs from..to, such as 0mm..30mm; {text} does not"))?;
    let (from, to) = (asked::length(from)?, asked::length(to)?);
    if to > from { Ok((from, to)) } else { Err(format!("a tack ends behind its start; {text} does not")) }
}

/// What three ways of calculating say of one joint, pass by pass: the formulas (held as the arc finds it), one slice held until its weld is
/// solid, and the slice amid the length of the travelling arc.
#[derive(Serialize)]
pub(super) struct Beside {
    /// Part of the free tilt that the formulas leave.
    formula_tilt_part: f64,
    formula: Vec<Numbers>,
    slice: Vec<Numbers>,
    arc: Vec<Numbers>,
}

impl Beside {
    /// The slice is left out if it cannot be solved.
    fn of(case: &Case, moved: &Moved, options: &Options) -> Self {
        let alone = Options {
            hold: Hold::SOLID,
            lengthwise: Lengthwise::Free,
            model: Model::Solid,
            times_s: Vec::new(),
            quick: true,
            ..options.clone()
        };
        let slice = referee(case, &alone)
            .map_or_else(|_| Vec::new(), |one| one.result.passes.iter().map(|pass| pass.section).collect());
        let so = held_so(&moved.travel);
        Self {
            formula_tilt_part: so.hold.tilt_part(),
            formula: formula_so(case, false, so),
            slice,
            arc: moved.numbers(),
        }
    }
}

#[derive(Serialize)]
struct Whole<'a> {
    title: &'a str,
    level: &'static str,
    trust: &'static str,
    yield_mpa: f64,
    beside: &'a Beside,
    moving: &'a Moved,
}

impl Moving {
    /// How the arc is to travel on that joint.
    fn travel(&self, case: &Case, meshing: Meshing) -> Travel {
        let grip = match self.grip {
            Held::Free => Grip::Free,
            Held::Guided => Grip::Guided,
            Held::Square => Grip::Square,
            Held::Rolls => Grip::Rolls(self.reach),
        };
        let usual = travel_of(case, meshing, self.length);
        Travel {
            foot: self.foot,
            tacks_mm: self.tack.iter().map(|&(from, to)| [from, to]).collect(),
            tack_sides: self.tack_side.to_vec(),
            grip,
            slices: self.slices.unwrap_or(usual.slices),
            ..usual
        }
    }
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

    fn travelled(&self, case: &Case, options: &Options) -> std::result::Result<Moved, CaseError> {
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

    fn draw_moving(&self, job: &Job, moved: &Moved, system: System, out: &mut dyn Write) -> Result<()> {
        let Some(folder) = &self.charts else { return Ok(()) };
        let stem = self.job.file_stem().unwrap_or(self.job.as_os_str()).to_string_lossy().into_owned();
        let pictures = chart::moving_pictures(job, moved, system).map_err(Error::other)?;
        let case = format!("{stem}-{}-{:.0}", moved.seam.name(), moved.x_mm);
        let drawn = files::charts(folder, self.over.force, files::pictures_of(&case, pictures))?;
        if self.json {
            return Ok(());
        }
        writeln!(out, "\n{drawn} charts (SVG and PNG) in {}", crate::input::text::path(folder))
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
