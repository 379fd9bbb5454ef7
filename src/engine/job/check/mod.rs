//! From the shape of a job file to a checked job. Every check runs, whatever an earlier one found.
//!
//! One file a subject: `member` with `pieces`, `plates` (how they come) and `steel`, `procedure`, `passes`, `joint`, `orders`, `demand`, `wanted` (camber,
//! tolerances, limits), and `notes` for what is odd but not wrong. `findings` collects.

use super::Job;
use super::file::{End, JobFile};
use crate::input::{Problem, findings, text};
use crate::member::Seam;
use crate::welding::{Procedure, Side};
use findings::Findings;
use passes::PassContext;

mod attachments;
mod demand;
mod joint;
mod learned;
mod member;
mod notes;
mod orders;
mod passes;
mod pieces;
mod plates;
mod procedure;
mod runs;
mod steel;
mod wanted;

/// Checks a job and builds what the engine needs.
///
/// # Errors
/// All problems, in no particular order.
pub fn check(file: &JobFile) -> Result<Job, Vec<Problem>> {
    check_traced(file).map(|(job, _)| job)
}

/// The same, with the place in the job of every pass of the file: a job has its passes sorted.
///
/// # Errors
/// As [`check`].
pub(crate) fn check_placed(file: &JobFile) -> Result<(Job, Vec<usize>), Vec<Problem>> {
    let (job, origins) = check_traced(file)?;
    // of several runs the first stands for the pass
    let mut places = vec![0; file.passes.len()];
    for (at, index) in origins.into_iter().enumerate().rev() {
        places[index] = at;
    }
    Ok((job, places))
}

/// The same, with the place in the file of every pass of the job: each run of a fillet is a pass of its own there, in a step numbered
/// anew, so that neither step nor place tells which pass of the file it is of.
///
/// # Errors
/// As [`check`].
pub(crate) fn check_traced(file: &JobFile) -> Result<(Job, Vec<usize>), Vec<Problem>> {
    let mut findings = Findings::default();
    let sound = member::member(&file.member, &mut findings);
    let procedures = procedure::all(&file.procedures, &mut findings);
    let factors = wanted::factors(&file.factors, &mut findings);
    let setting = PassContext {
        heat_from_leg: factors.heat_from_leg,
        length_mm: sound.length_mm,
        gap_mm: sound.gap_mm,
        procedures: &procedures,
    };
    let laid = passes::passes(&file.passes, &setting, &mut findings);
    let attachments = attachments::attachments(&file.attachments, &setting, &mut findings);
    let named: Vec<u32> = file.passes.iter().map(|pass| pass.order).collect();
    let orders = orders::orders(&file.orders, &named, &laid, &mut findings);
    let tolerances = wanted::tolerances(file, &mut findings);
    let own_limits = wanted::limits(&file.limits, sound.length_mm, &mut findings);
    let wanted_camber = wanted::camber(file.camber.as_ref(), sound.length_mm, &mut findings);
    let fitting = plates::fitting(&file.assembly, &mut findings);
    let head_limit_deg = wanted::head_limit(file.line.as_ref(), &mut findings);
    if let Some(member) = &sound.member {
        joint::joints(member, &laid, &mut findings);
    }
    let steel = sound.member.as_ref().map(|m| &m.steel);
    let carries = demand::demand(file.demand.as_ref(), sound.length_mm, steel, &mut findings);
    let mut notes = notes::notes(&laid, sound.gap_mm);
    notes.extend(sound.member.as_ref().and_then(notes::odd_web));
    findings.0.extend(crate::scatter::problems_of(&file.scatter));
    let (Some(member), []) = (sound.member, findings.0.as_slice()) else { return Err(findings.0) };

    let (mut laid, orders) = runs::run_by_run(laid, orders);
    laid.sort_by(|a, b| {
        let place = |seam: Seam, side: Side| (seam, side == Side::Far);
        let key = |laid: &passes::PlacedPass<'_>| (laid.pass.order, place(laid.pass.seam, laid.pass.side));
        key(a).cmp(&key(b)).then(a.pass.from_mm.total_cmp(&b.pass.from_mm))
    });
    let origins = laid.iter().map(|pass| pass.index).collect();
    let mut job = Job {
        title: file.title.as_deref().map_or("untitled member".into(), text::short).into_owned(),
        units: file.units,
        member,
        passes: laid.into_iter().map(|laid| laid.pass).collect(),
        orders,
        fit_up_gap_mm: sound.gap_mm,
        hold: wanted::hold(file.hold.as_ref()),
        attachments,
        used_as: file.member.used_as.unwrap_or_default(),
        held_ends: [End::Start, End::Finish].map(|end| file.member.held_ends.contains(&end)),
        thermally_cut_web: file.member.web_edges == super::file::WebEdges::ThermallyCut,
        factors,
        learned: None,
        assembly: crate::prediction::Assembly::default(),
        drawn: crate::prediction::Assembly::default(),
        fitting,
        wanted_camber,
        tolerances,
        own_limits,
        head_limit_deg,
        carries,
        notes,
        own_spread: (!file.scatter.is_empty()).then(|| file.scatter.clone().into()),
        recorded: None,
    };
    learned::apply(file, &mut job);
    Ok((job, origins))
}

/// The procedures that passes of a file name, each once.
pub(crate) fn procedures_used(file: &JobFile) -> Vec<Procedure> {
    let all = procedure::all(&file.procedures, &mut Findings::default());
    let used = |p: &Procedure| file.passes.iter().any(|pass| pass.procedure.as_ref() == Some(&p.name));
    all.into_values().flatten().filter(used).collect()
}

#[cfg(test)]
mod tests;
