//! What to allow for when cutting and fitting.

use super::headline::both_as_one;
use super::hold::remedies;
use super::span::unit;
use super::table::{heading, plain, put, row_table, wrapped};
use crate::prediction::{Job, Prediction};
use crate::units::{System, show};
use std::io::{Result, Write};

/// Web ordinates shown, ends included; `weldbow cut` has every station that is needed.
const ORDINATES: usize = 9;

/// Presets shown without being asked for (a choice: a plain member has one for each flange).
const MOST_PRESETS: usize = 2;

/// Lean from which a firmer hold is worth a word, rad (a choice: 1 mm on a flange of 200 mm).
const LEANS_RAD: f64 = 0.01;

/// Cut lengths, web edges, flange presets: of many stretches only if the `whole` is wanted.
pub fn allowance(
    job: &Job,
    prediction: &Prediction,
    system: System,
    whole: bool,
    out: &mut dyn Write,
) -> Result<()> {
    let remark =
        "finished length + weld shrinkage + half of what each splice draws in, less half of its root gap";
    heading("Cut to", remark, out)?;
    let right = [3, 4, 5, 6];
    let mut table =
        row_table(&["plate", "from", "to", "finished", "shrinkage", "splices", "cut length"], &right);
    for p in &prediction.allowance.pieces {
        table.add_row([
            format!("{} {}", p.part.replace('_', " "), p.piece),
            show::position(p.from_mm, system),
            show::position(p.to_mm, system),
            show::fine_cut(p.finished_mm, system),
            show::offset(p.shrinkage_mm, system),
            show::offset(p.splices_mm, system),
            show::fine_cut(p.cut_mm, system),
        ]);
    }
    put(table, &right, out)?;
    web_edges(job, prediction, system, out)?;
    presets(prediction, system, whole, out)
}

fn web_edges(job: &Job, prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    if let Some(why) = prediction.allowance.why_straight() {
        heading("Web pre-camber ordinates", "", out)?;
        return writeln!(out, "{}", wrapped(&why.in_units(system)));
    }
    let edges = &prediction.allowance.web_edges;
    let remark = format!(
        "{}, from the line through the ends of the outer edge; to cut from: `weldbow cut`",
        job.aim().in_units(system)
    );
    heading("Web pre-camber ordinates", &remark, out)?;
    let length = job.member.length_mm;
    let stations: Vec<f64> = (0..ORDINATES).map(|i| length * i as f64 / (ORDINATES - 1) as f64).collect();
    let outer = |x: f64| between(edges.iter().map(|e| (e.x_mm, e.outer_mm)), x);
    // stations side by side: three lines instead of a page
    let right: Vec<usize> = (1..=ORDINATES).collect();
    let mut table = plain(&right);
    let mut row = |name: &str, of: &dyn Fn(f64) -> f64| {
        let name = format!("{name}, {}", unit(system));
        table.add_row(std::iter::once(name).chain(stations.iter().map(|x| bare(of(*x), system))));
    };
    row("from the start", &|x| x);
    row("outer edge", &outer);
    row("inner edge", &|x| outer(x) + job.member.depth.depth_mm(x));
    put(table, &right, out)
}

/// The same for a row that names its unit.
fn bare(mm: f64, system: System) -> String {
    show::ordinate(mm, system).trim_end_matches(unit(system)).trim_end().to_owned()
}

/// Straight between the points around x.
fn between(points: impl Iterator<Item = (f64, f64)>, x: f64) -> f64 {
    let mut before: Option<(f64, f64)> = None;
    for (at, value) in points {
        match before {
            Some((x0, v0)) if x <= at => return v0 + (x - x0) / (at - x0) * (value - v0),
            None if x <= at => return value,
            _ => before = Some((at, value)),
        }
    }
    before.map_or(0.0, |(_, v)| v)
}

fn presets(prediction: &Prediction, system: System, whole: bool, out: &mut dyn Write) -> Result<()> {
    let presets = &prediction.allowance.presets;
    if let Some(why) = prediction.allowance.why_no_preset() {
        heading("Flange preset", "", out)?;
        return writeln!(out, "{}", wrapped(&why.in_units(system)));
    }
    heading("Flange preset", "before welding, away from the web; packing under the flange toes", out)?;
    let mut rows = Vec::with_capacity(presets.len());
    for p in presets {
        let place = [
            format!("{} flange", p.flange.name()),
            format!("{} to {}", show::position(p.from_mm, system), show::position(p.to_mm, system)),
        ];
        let set = if p.is_worth_setting() {
            [
                format!(
                    "pre-bend {}, pre-tilt {}",
                    show::angle(p.crown_rad, system),
                    show::angle(p.lean_rad, system)
                ),
                format!(
                    "packing near {}, far {}",
                    show::offset(p.near_packing_mm, system),
                    show::offset(p.far_packing_mm, system)
                ),
            ]
        } else {
            ["not needed".to_owned(), String::new()]
        };
        let [[flange, along], [bend, packing]] = [place, set];
        rows.push([flange, along, bend, packing]);
    }
    let rows = both_as_one(rows);
    if whole || rows.len() <= MOST_PRESETS {
        let mut table = plain(&[]);
        rows.into_iter().for_each(|row| {
            table.add_row(row);
        });
        put(table, &[], out)?;
    } else {
        let words = "Each stretch by what is said above: pre-bend its cup, pre-tilt its tilt, packing its toes (--methods).";
        writeln!(out, "{}", wrapped(words))?;
    }
    let leans = prediction.allowance.presets.iter().any(|p| p.lean_rad.abs() > LEANS_RAD);
    match remedies(&prediction.hold).filter(|_| leans) {
        Some(what) => writeln!(out, "{}", wrapped(&format!("Against the tilt instead: {what}."))),
        None => Ok(()),
    }
}
