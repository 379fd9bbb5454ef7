//! What is welded across the member, and what it does.

use super::span::{fine, unit, with_span};
use super::table::{heading, row_table};
use crate::prediction::{CrossWeld, CrossWelds, Job};
use crate::units::{System, show};
use std::io::{Result, Write};

/// "3 stiffener pairs, 1 web splice": kinds in the order in which they come along the member.
fn counted(welds: &[CrossWeld]) -> String {
    let mut kinds: Vec<(&str, usize)> = Vec::new();
    for weld in welds {
        match kinds.iter_mut().find(|(what, _)| *what == weld.what) {
            Some((_, count)) => *count += 1,
            None => kinds.push((weld.what, 1)),
        }
    }
    let words =
        |(what, count): &(&str, usize)| format!("{count} {what}{}", if *count == 1 { "" } else { "s" });
    kinds.iter().map(words).collect::<Vec<_>>().join(", ")
}

/// What of the bows is theirs.
pub(crate) fn part(cross: &CrossWelds, system: System) -> String {
    format!(
        "Of it attachments ({}): length \u{2212}{}, camber {}, sweep {}.",
        counted(&cross.welds),
        with_span(cross.shortening_mm, cross.shortening_2s_mm, system),
        show::offset(cross.amid_mm(0), system),
        show::offset(cross.amid_mm(1), system)
    )
}

/// One row each.
pub(crate) fn each(cross: &CrossWelds, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "made when its seams are cold; ± 90 %, most of it shared by all";
    heading("Welds across the member", remark, out)?;
    let mm = |name: &str| format!("{name}, {}", unit(system));
    let names = [
        "what",
        "from the start",
        &mm("plate shrinks"),
        &mm("shortening"),
        &mm("camber there"),
        &mm("sweep there"),
        "angle if free",
    ];
    let mut table = row_table(&names, 1..7);
    for w in &cross.welds {
        let fine = |mm: f64| fine(mm, system).replace('-', "\u{2212}");
        table.add_row([
            w.what.to_owned(),
            show::position(w.at_mm, system),
            fine(w.shrinkage_mm),
            fine(w.shortening_mm),
            fine(w.camber_mm),
            fine(w.sweep_mm),
            show::angle(w.fold_rad, system),
        ]);
    }
    table.put(out)
}

/// What a job says of its attachments, worked out as far as heat.
pub(crate) fn said(job: &Job, system: System, out: &mut dyn Write) -> Result<()> {
    if job.attachments.is_empty() {
        return Ok(());
    }
    heading("Attachments", "welded across when the seams are cold", out)?;
    let mut table = row_table(
        &["what", "from the start", "welded to", "leg", "net heat, each fillet", "heat from"],
        [1, 3, 4],
    );
    for a in &job.attachments {
        table.add_row([
            a.kind.name().to_owned(),
            show::position(a.at_mm, system),
            a.to.names().map(|name| name.replace('_', " ")).collect::<Vec<_>>().join(", "),
            show::plate(a.leg_mm, system),
            show::heat_input(a.heat_j_per_mm, system),
            a.heat_source.words().to_owned(),
        ]);
    }
    table.put(out)
}
