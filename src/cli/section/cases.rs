//! Several cases in one table.

use super::super::show::{Columns, Report, bare, unit};
use super::asked::Asked;
use super::words::{angle, held, mesh, percent};
use crate::cli::lists::counted;
use crate::units::{System, show};
use crate::verification::{HotHold, Solved, SolvedPass};
use std::path::Path;
use std::time::Duration;

/// One row a case, after its last pass.
pub(super) fn table(
    Asked { job, options, system }: Asked<'_>,
    file: &Path,
    solved: &[Solved],
    took: Duration,
    out: &mut Report,
) {
    out.line(&job.title);
    let remark = format!("{}, {}", held(options.hold, options.lengthwise, system), mesh(options.meshing));
    out.heading(&format!("{} joints after their last pass", solved.len()), &remark);
    Columns::of(solved)
        .left("seam", |one| one.result.seam.name())
        .left("at", |one| show::position(one.result.x_mm, system))
        .left(format!("flange, web, {}", unit(system)), |one| plates(one, solved, system))
        .right("passes", |one| one.result.passes.len().to_string())
        .right("force", |one| last(one, |l| Some(l.section.force_n), |n| show::force(n, system)))
        .right("off by", |one| last(one, |l| l.difference.force, percent))
        .right("cup", |one| last(one, |l| l.section.cup_rad, angle))
        .right("off by", |one| last(one, |l| l.difference.cup, percent))
        .right("tilt", |one| last(one, |l| l.section.tilt_rad, angle))
        .right("formula", |one| last(one, |l| l.formula.tilt_rad, angle))
        .left("edges", |one| show::stress(one.result.residual.edge_over_yield * one.result.yield_mpa, system))
        .put(out);
    let distinct = solved.iter().enumerate().filter(|(k, one)| first_of(solved, one) == *k).count();
    let runs: usize = distinct * options.setups().len();
    let differ =
        if distinct == 1 { "All are alike".to_owned() } else { format!("{distinct} of them differ") };
    let runs = counted(runs, "run");
    out.line("  off by: formula over section; edges: residual stress at the flange edges.");
    out.line(format!("  {differ}; {runs}, {:.2} s.{}", took.as_secs_f64(), never_held(solved)));
    let mut cautions: Vec<&String> = solved.iter().flat_map(|one| &one.result.cautions).collect();
    cautions.dedup();
    out.say_all(cautions);
    out.line(format!(
        "\nOne joint alone gives the full report: weldbow section {} --at {} --seam {}",
        crate::input::text::path(file),
        format_args!("{:.0}mm", solved[0].result.x_mm),
        solved[0].result.seam.name()
    ))
}

fn first_of(all: &[Solved], one: &Solved) -> usize {
    all.iter().position(|other| other.same_as == one.same_as).unwrap_or_default()
}

fn plates(one: &Solved, all: &[Solved], system: System) -> String {
    let first = &all[first_of(all, one)];
    if !std::ptr::eq(first, one) {
        let seam = if first.result.seam == one.result.seam { "" } else { first.result.seam.name() };
        return format!("as {seam} at {}", show::position(first.result.x_mm, system)).replace("  ", " ");
    }
    let joint = &one.result.joint;
    let [width, flange, web] =
        [joint.flange_width_mm, joint.flange_mm, joint.web_mm].map(|mm| bare(&show::plate(mm, system)));
    format!("{width} × {flange}, {web}")
}

/// A number after the last pass; nothing where there is none.
fn last(one: &Solved, of: fn(&SolvedPass) -> Option<f64>, shown: impl Fn(f64) -> String) -> String {
    one.result.passes.last().and_then(of).map_or_else(String::new, shown)
}

fn never_held(solved: &[Solved]) -> String {
    let never = |one: &Solved| {
        let free = one.result.bracket.iter().find(|b| b.setup.hold == HotHold::None)?;
        free.passes.last()?.cup_rad
    };
    let cups: Vec<f64> = solved.iter().filter_map(never).collect();
    let least = cups.iter().copied().fold(f64::INFINITY, f64::min);
    let most = cups.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if cups.is_empty() {
        return String::new();
    }
    format!(
        " Never held, the cups are {} to {}: how the plates are held decides them.",
        angle(least),
        angle(most)
    )
}
