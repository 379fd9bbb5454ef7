//! `weldbow section --moving`: the arc travels along a length of one joint.

use super::super::show::{heading, paragraph, put, row_table};
use super::asked;
use super::words::{angle, fine, plates_of};
use crate::cli::one_of::{Word, one_of};
use crate::cli::output;
use crate::moving_arc::{Foot, Grip, Travel};
use crate::prediction::Job;
use crate::units::{System, show};
use crate::verification::{Case, Meshing, Moved, Numbers, Options, formula, moving_mesh};
use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;
use std::io::{Result, Write};

/// What the numbers of this level rest on.
const TRUST: &str = "moving arc: staggered slices joined by their plates, from first principles; nothing measured. Tilt in practice is \
                     about 0.6 of a free one (a judgement)";
/// Longest part of a table: so many slices and instants are shown, all are in the JSON.
const MOST_ROWS: usize = 12;

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

/// Arguments of the travelling arc.
#[derive(Debug, clap::Args)]
pub(super) struct Moving {
    /// Let the arc travel along a length of the first joint asked for, instead of solving one slice (half a minute, minutes when fine);
    /// how a slice is held, its root and times do not matter then
    #[arg(long, conflicts_with_all = ["every", "charts"])]
    pub moving: bool,
    /// Length of joint
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "300mm", requires = "moving")]
    length: f64,
    /// How web and flange meet before they are welded
    #[arg(long, value_parser = one_of(FEET), default_value = "one-piece", requires = "moving")]
    foot: Foot,
    /// A stretch tacked on both sides beforehand, such as 0mm..30mm; may be given several times
    #[arg(long, value_name = "FROM..TO", value_parser = stretch, requires = "moving")]
    tack: Vec<Stretch>,
    /// What holds flange and web
    #[arg(long, value_parser = one_of(HOLDS), default_value = "free", requires = "moving")]
    grip: Held,
    /// How far rolls reach before and behind the arc
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "60mm", requires = "moving")]
    reach: f64,
    /// Slices [default: one every 15 mm, every 25 mm when coarse]
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

#[derive(Serialize)]
struct Whole<'a> {
    title: &'a str,
    level: &'static str,
    trust: &'static str,
    yield_mpa: f64,
    formula: Vec<Numbers>,
    moving: &'a Moved,
}

impl Moving {
    /// How the arc is to travel on that joint.
    pub fn travel(&self, case: &Case, meshing: Meshing) -> Travel {
        let coarse = meshing == Meshing::Coarse;
        let every = if coarse { 25.0 } else { 15.0 };
        let slices = self.slices.unwrap_or_else(|| ((self.length / every).round() as usize).clamp(8, 100));
        let grip = match self.grip {
            Held::Free => Grip::Free,
            Held::Guided => Grip::Guided,
            Held::Square => Grip::Square,
            Held::Rolls => Grip::Rolls(self.reach),
        };
        let first = case.layers.first().map_or(12.0, |layer| layer.speed_mm_s());
        Travel {
            foot: self.foot,
            tacks_mm: self.tack.iter().map(|&(from, to)| [from, to]).collect(),
            grip,
            slices,
            step_mm: if coarse { 8.0 } else { 5.0 },
            ..Travel::of(self.length, first)
        }
    }
}

/// Drawn on a terminal only.
pub(super) fn progress() -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(1000), indicatif::ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent} %, {eta} left") {
        bar.set_style(style.progress_chars("━╸─"));
    }
    bar
}

/// All of it as JSON.
///
/// # Errors
/// Only those of `out`.
pub(super) fn json(job: &Job, case: &Case, moved: &Moved, out: &mut dyn Write) -> Result<()> {
    let whole = Whole {
        title: &job.title,
        level: "moving arc",
        trust: TRUST,
        yield_mpa: case.yield_mpa,
        formula: formula(case, false),
        moving: moved,
    };
    output::json_of(&whole, out)
}

/// The report.
///
/// # Errors
/// Only those of `out`.
pub(super) fn report(
    job: &Job,
    case: &Case,
    moved: &Moved,
    options: &Options,
    system: System,
    out: &mut dyn Write,
) -> Result<()> {
    let travel = &moved.travel;
    writeln!(out, "{}", job.title)?;
    writeln!(
        out,
        "{} seam as at {} from the start, {} of it welded by an arc that travels at {}",
        moved.seam.name(),
        show::position(moved.x_mm, system),
        show::plate(travel.length_mm, system),
        show::speed(travel.speed_mm_s, system)
    )?;
    heading("What was solved", "", out)?;
    writeln!(
        out,
        "  {}, {}",
        plates_of(&moved.joint, system),
        super::words::mesh(moving_mesh(options.meshing))
    )?;
    writeln!(
        out,
        "  {}; {} slices, {:.0} mm of travel a step",
        held(travel, system),
        travel.slices,
        travel.step_mm
    )?;
    for ((number, pass), formula) in (1..).zip(&moved.outcome.passes).zip(formula(case, false)) {
        let sides: Vec<&str> = case.layers[number - 1].beads.iter().map(|bead| bead.side.name()).collect();
        heading(&format!("After pass {number}, {}", sides.join(" and ")), "along the joint", out)?;
        let right = [0, 1, 2, 3, 4, 5, 6];
        let mut rows =
            row_table(&["at", "cup", "tilt", "narrowing", "force", "flowed, mm²", "tension"], &right);
        let every = pass.along.len().div_ceil(MOST_ROWS);
        for slice in pass.along.iter().skip(every / 2).step_by(every) {
            rows.add_row([
                show::plate(slice.x_mm, system),
                slice.shape.map_or_else(String::new, |shape| angle(shape.cup_rad)),
                slice.shape.and_then(|shape| shape.tilt_rad).map_or_else(String::new, angle),
                slice.shape.map_or_else(String::new, |shape| fine(shape.narrowing_mm, system)),
                show::force(slice.shrinkage.force_n, system),
                format!("{:.0}", slice.plastic_mm2),
                show::stress(slice.tension_mpa, system),
            ]);
        }
        put(rows, &right, out)?;
        let word = |rad: Option<f64>| rad.map_or_else(String::new, angle);
        writeln!(
            out,
            "  By the formulas: cup {}, tilt {} for practice.",
            word(formula.cup_rad),
            word(formula.tilt_rad)
        )?;
        turning(pass, system, out)?;
    }
    for caution in &moved.cautions {
        writeln!(out, "{}", paragraph(caution))?;
    }
    let work = &moved.outcome.work;
    writeln!(
        out,
        "\n{}\n{} steps, {} corrections, {} factors, {:.1} s; heat balance {:.5}.",
        paragraph(TRUST),
        work.steps,
        work.corrections,
        work.factorisations,
        moved.outcome.took.as_secs_f64(),
        1.0 + moved
            .outcome
            .passes
            .iter()
            .map(|p| p.energy_balance)
            .fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a })
    )
}

/// How mid-length turned while the arc came and went.
fn turning(pass: &crate::moving_arc::PassTravelled, system: System, out: &mut dyn Write) -> Result<()> {
    heading("Mid-length while the arc comes and goes", "", out)?;
    let right = [0, 1, 2, 3, 4];
    let mut rows = row_table(&["time", "arc at", "hottest", "near half", "far half"], &right);
    let every = pass.frames.len().div_ceil(MOST_ROWS);
    for frame in pass.frames.iter().rev().step_by(every).collect::<Vec<_>>().into_iter().rev() {
        let Some(slice) = frame.slices.get(frame.slices.len() / 2) else { continue };
        let arc = if frame.arc_mm > 1.2 * pass.along.last().map_or(0.0, |last| last.x_mm) {
            "gone".to_owned()
        } else {
            show::plate(frame.arc_mm, system)
        };
        rows.add_row([
            format!("{:.1} s", frame.time_s),
            arc,
            show::temperature(slice.hottest_c, system),
            angle(slice.near_rad),
            angle(slice.far_rad),
        ]);
    }
    put(rows, &right, out)
}

fn held(travel: &Travel, system: System) -> String {
    let foot = match travel.foot {
        Foot::OnePiece => "web and flange one piece",
        Foot::Touching => "web and flange touching",
        Foot::Apart => "web and flange apart",
    };
    let tacks = match travel.tacks_mm.as_slice() {
        [] => String::new(),
        tacks => {
            let said: Vec<String> = tacks
                .iter()
                .map(|[from, to]| format!("{} to {}", show::plate(*from, system), show::plate(*to, system)))
                .collect();
            format!(", tacked at {}", said.join(", "))
        }
    };
    let grip = match travel.grip {
        Grip::Free => "free".to_owned(),
        Grip::Guided => "web guided".to_owned(),
        Grip::Square => "held square until cold".to_owned(),
        Grip::Rolls(reach) => format!("rolls {} before and behind the arc", show::plate(reach, system)),
    };
    format!("{foot}{tacks}; {grip}")
}
