//! What is welded across the member, and what it does.

use super::report::Report;
use super::span::{fine, unit, with_span};
use super::table::Columns;
use crate::cli::lists::{counted, grouped};
use crate::prediction::{CrossWeld, CrossWelds, Job};
use crate::units::{System, show};

/// "3 stiffener pairs, 1 web splice": kinds in the order in which they come along the member.
fn kinds(welds: &[CrossWeld]) -> String {
    let kinds = grouped(welds.iter().map(|weld| (weld.what, weld)));
    kinds.iter().map(|(what, all)| counted(all.len(), what)).collect::<Vec<_>>().join(", ")
}

/// What of the bows is theirs.
pub(crate) fn part(cross: &CrossWelds, system: System) -> String {
    format!(
        "Of it attachments ({}): length \u{2212}{}, camber {}, sweep {}.",
        kinds(&cross.welds),
        with_span(cross.shortening_mm, cross.shortening_2s_mm, system),
        show::offset(cross.amid_mm(0), system),
        show::offset(cross.amid_mm(1), system)
    )
}

/// One row each.
pub(crate) fn each(cross: &CrossWelds, system: System, out: &mut Report) {
    let remark = "made when its seams are cold; ± 90 %, most of it shared by all";
    out.heading("Welds across the member", remark);
    let mm = |name: &str| format!("{name}, {}", unit(system));
    let fine = |mm: f64| fine(mm, system).replace('-', "\u{2212}");
    Columns::of(&cross.welds)
        .left("what", |w| w.what)
        .right("from the start", |w| show::position(w.at_mm, system))
        .right(mm("plate shrinks"), |w| fine(w.shrinkage_mm))
        .right(mm("shortening"), |w| fine(w.shortening_mm))
        .right(mm("camber there"), |w| fine(w.camber_mm))
        .right(mm("sweep there"), |w| fine(w.sweep_mm))
        .right("angle if free", |w| show::angle(w.fold_rad, system))
        .put(out)
}

/// What a job says of its attachments, worked out as far as heat.
pub(crate) fn said(job: &Job, system: System, out: &mut Report) {
    if job.attachments.is_empty() {
        return;
    }
    out.heading("Attachments", "welded across when the seams are cold");
    Columns::of(&job.attachments)
        .left("what", |a| a.kind.name())
        .right("from the start", |a| show::position(a.at_mm, system))
        .left("welded to", |a| a.to.names().map(|name| name.replace('_', " ")).collect::<Vec<_>>().join(", "))
        .right("leg", |a| show::plate(a.leg_mm, system))
        .right("net heat, each fillet", |a| show::heat_input(a.heat_j_per_mm, system))
        .left("heat from", |a| a.heat_source.words())
        .put(out)
}
