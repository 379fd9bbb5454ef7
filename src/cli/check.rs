//! `weldbow check`: what a job says, worked out as far as heat, legs and sections, without predicting.

use super::ended::{DONE, Ended, Outcome};
use super::presented::json;
use super::show::{Columns, Report, attachments, list_warnings};
use crate::cli::one_of::{UNITS, one_of};
use crate::job::read_path;
use crate::member::{Parts, Section, properties, spans};
use crate::prediction::{Job, job_warnings};
use crate::units::{IN_MM, System, show as units};
use crate::welding::{Attachment, Stitch, fillet};
use serde::Serialize;
use serde_json::Value;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Arguments of `weldbow check`.
#[derive(Debug, clap::Args)]
pub(super) struct Check {
    /// Job files
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Print JSON (engine units)
    #[arg(long)]
    pub(super) json: bool,
    /// Show values in these units instead of the job's own
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<System>,
}

/// Section at one station.
#[derive(Debug, Serialize)]
struct Station {
    x_mm: f64,
    depth_mm: f64,
    #[serde(flatten)]
    section: Section,
}

impl Check {
    /// Explains every job; several as JSON go into one array.
    ///
    /// # Errors
    /// If the output cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let (mut status, mut all) = (DONE, Vec::new());
        for file in &self.jobs {
            match read_path(file) {
                Ok(job) if self.json => all.push(as_json(file, &job)),
                Ok(job) => Report::put(out, |said| print(&job, self.units.unwrap_or(job.units), said))?,
                Err(complaint) => status = Ended::from(complaint).say()?,
            }
        }
        if self.json {
            json(self.jobs.len(), &all, out)?;
        }
        Ok(status)
    }
}

/// Both ends of every stretch in which nothing jumps: at a splice or kink the station comes twice.
fn stations(job: &Job) -> Vec<Station> {
    let along = spans(&job.member, job.passes.iter().flat_map(|p| [p.from_mm, p.to_mm]));
    let of = |span: &crate::member::Span, x_mm: f64| Station {
        x_mm,
        depth_mm: span.depth_mm(x_mm),
        section: properties(&span.plates, span.depth_mm(x_mm), span.slope, Parts::ALL),
    };
    along.iter().flat_map(|span| [of(span, span.from_mm), of(span, span.to_mm)]).collect()
}

fn as_json(file: &Path, job: &Job) -> Value {
    let passes: Vec<_> = job
        .passes
        .iter()
        .map(|p| {
            serde_json::json!({
                "seam": p.seam, "side": p.side, "order": p.order, "from_mm": p.from_mm, "to_mm": p.to_mm,
                "leg_mm": p.leg_mm, "throat_mm": fillet::throat_mm(p.leg_mm), "deposit_mm2": p.deposit_mm2,
                "heat_input_j_per_mm": p.heat_j_per_mm, "heat_source": p.heat_source, "stitch": p.stitch,
            })
        })
        .collect();
    serde_json::json!({
        "attachments": attached(job),
        "file": file.display().to_string(), "title": job.title, "stations": stations(job), "passes": passes, "warnings": job_warnings(job),
    })
}

fn attached(job: &Job) -> Vec<Value> {
    let one = |a: &Attachment| {
        serde_json::json!({
            "kind": a.kind, "at_mm": a.at_mm, "side": a.side, "to": a.to, "leg_mm": a.leg_mm, "fillets": a.fillets,
            "heat_input_j_per_mm": a.heat_j_per_mm, "heat_source": a.heat_source, "thickness_mm": a.thickness_mm,
        })
    };
    job.attachments.iter().map(one).collect()
}

fn print(job: &Job, system: System, out: &mut Report) {
    out.line(format!("{}: the job is in order", job.title));
    out.heading("Sections", "whole member; a splice or kink shows the section on either side");
    // section properties in the units of section tables: cm or inches
    let (unit, mm) = system.pick(("cm", 10.0_f64), ("in", IN_MM));
    Columns::of(stations(job))
        .left("from the start", |s| units::position(s.x_mm, system))
        .right("web depth", |s| units::plate(s.depth_mm, system))
        .right(format!("area, {unit}²"), |s| format!("{:.1}", s.section.area_mm2 / mm.powi(2)))
        .right("centroid", |s| units::plate(s.section.centroid_mm, system))
        .right(format!("I in plane, {unit}⁴"), |s| format!("{:.0}", s.section.i_z_mm4 / mm.powi(4)))
        .right(format!("I sideways, {unit}⁴"), |s| format!("{:.0}", s.section.i_y_mm4 / mm.powi(4)))
        .put(out);
    passes(job, system, out);
    attachments(job, system, out);
    list_warnings("Warnings", &job_warnings(job), system, out)
}

fn passes(job: &Job, system: System, out: &mut Report) {
    out.heading("Passes", "heat into the steel, after arc efficiency");
    let (unit, decimals, mm2) = system.pick(("mm²", 1, 1.0), ("in²", 3, IN_MM * IN_MM));
    let along = |from, to| format!("{} … {}", units::position(from, system), units::position(to, system));
    let stitched = job.passes.iter().any(|p| p.stitch.is_some());
    Columns::of(&job.passes)
        .left("step", |p| p.order.to_string())
        .left("seam", |p| p.seam.name())
        .left("side", |p| p.side.name())
        .left("from … to", |p| along(p.from_mm, p.to_mm))
        .right("leg", |p| units::plate(p.leg_mm, system))
        .right("throat", |p| units::plate(fillet::throat_mm(p.leg_mm), system))
        .right(format!("deposit, {unit}"), |p| format!("{:.decimals$}", p.deposit_mm2 / mm2))
        .right("net heat", |p| units::heat_input(p.heat_j_per_mm, system))
        .left("heat from", |p| p.heat_source.words())
        .left_if(stitched, Stitch::HEAD, |p| Stitch::said(p.stitch.as_ref(), system))
        .put(out)
}
