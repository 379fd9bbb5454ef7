//! Several cases in one table.

use super::super::show::{heading, row_table, say, unit};
use super::asked::Asked;
use super::words::{angle, held, mesh, percent};
use crate::units::{System, show};
use crate::verification::{HotHold, LayerNumbers, Solved};
use std::io::{Result, Write};
use std::path::Path;
use std::time::Duration;

/// One row a case, after its last pass.
///
/// # Errors
/// Only those of `out`.
pub(super) fn table(
    Asked { job, options, system }: Asked<'_>,
    file: &Path,
    solved: &[Solved],
    took: Duration,
    out: &mut dyn Write,
) -> Result<()> {
    writeln!(out, "{}", job.title)?;
    let remark = format!("{}, {}", held(options.hold, options.lengthwise, system), mesh(options.meshing));
    heading(&format!("{} joints after their last pass", solved.len()), &remark, out)?;
    let plates = format!("flange, web, {}", unit(system));
    let names =
        ["seam", "at", &plates, "passes", "force", "off by", "cup", "off by", "tilt", "formula", "edges"];
    let mut rows = row_table(&names, 3..10);
    for one in solved {
        rows.add_row(row(one, solved, system));
    }
    rows.put(out)?;
    let distinct = solved.iter().enumerate().filter(|(k, one)| first_of(solved, one) == *k).count();
    let runs: usize = distinct * options.setups().len();
    let differ =
        if distinct == 1 { "All are alike".to_owned() } else { format!("{distinct} of them differ") };
    let plural = if runs == 1 { "" } else { "s" };
    writeln!(out, "  off by: formula over section; edges: residual stress at the flange edges.")?;
    writeln!(out, "  {differ}; {runs} run{plural}, {:.2} s.{}", took.as_secs_f64(), never_held(solved))?;
    let mut cautions: Vec<&String> = solved.iter().flat_map(|one| &one.result.cautions).collect();
    cautions.dedup();
    for caution in cautions {
        say(out, caution)?;
    }
    writeln!(
        out,
        "\nOne joint alone gives the full report: weldbow section {} --at {} --seam {}",
        crate::input::text::path(file),
        place(solved),
        solved[0].result.seam.name()
    )
}

fn place(solved: &[Solved]) -> String {
    format!("{:.0}mm", solved[0].result.x_mm)
}

fn first_of(all: &[Solved], one: &Solved) -> usize {
    all.iter().position(|other| other.same_as == one.same_as).unwrap_or_default()
}

fn row(one: &Solved, all: &[Solved], system: System) -> [String; 11] {
    let result = &one.result;
    let first = &all[first_of(all, one)];
    let same = !std::ptr::eq(first, one);
    let plates = if same {
        let seam = if first.result.seam == result.seam { "" } else { first.result.seam.name() };
        format!("as {seam} at {}", show::position(first.result.x_mm, system)).replace("  ", " ")
    } else {
        let joint = &result.joint;
        let bare = |mm: f64| show::plate(mm, system).split(' ').next().unwrap_or_default().to_owned();
        let (width, flange) = (bare(joint.flange_width_mm), bare(joint.flange_mm));
        format!("{width} × {flange}, {}", bare(joint.web_mm))
    };
    let last = result.passes.last();
    let number = |of: fn(&LayerNumbers) -> Option<f64>, shown: &dyn Fn(f64) -> String| {
        last.and_then(|l| of(&l.section)).map_or_else(String::new, shown)
    };
    let off = |part: Option<f64>| part.map_or_else(String::new, percent);
    let difference = last.map(|l| l.difference);
    [
        result.seam.name().to_owned(),
        show::position(result.x_mm, system),
        plates,
        result.passes.len().to_string(),
        number(|n| Some(n.force_n), &|n| show::force(n, system)),
        off(difference.and_then(|d| d.force)),
        number(|n| n.cup_rad, &angle),
        off(difference.and_then(|d| d.cup)),
        number(|n| n.tilt_rad, &angle),
        last.and_then(|l| l.formula.tilt_rad).map_or_else(String::new, angle),
        show::stress(result.residual.edge_over_yield * result.yield_mpa, system),
    ]
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
