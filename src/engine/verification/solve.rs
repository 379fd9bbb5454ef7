//! The runs of cases: each distinct joint under each restraint once, on all cores, back in order.

use super::case::{Case, CaseError, Layer};
use super::formula::formula;
use super::melt::melted;
use super::options::{Options, Setup};
use super::residual::residual;
use super::result::{Bracketed, Difference, LayerNumbers, SolvedPass, SolvedSize, Verified};
use crate::joint_solver::{Lengthwise, Outcome, PassOutcome, SolveEffort, run_watched};
use crate::welding::{Side, Wait};
use rayon::prelude::*;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A case with everything pictures need.
#[derive(Debug, Clone)]
pub struct Solved {
    /// The result.
    pub result: Verified,
    /// The welded section under the wanted restraint.
    pub outcome: Arc<Outcome>,
    /// Time of that run; of every run of the bracket.
    pub efforts: Vec<SolveEffort>,
    /// Number of the first case with the same joint and passes, from 0.
    pub same_as: usize,
}

/// One case.
///
/// # Errors
/// As the section room's, under the wanted restraint; another of the bracket that fails becomes a caution.
pub fn verify(case: &Case, options: &Options) -> Result<Solved, CaseError> {
    verify_all(std::slice::from_ref(case), options).remove(0)
}

/// Every case, in order. Places with the same joint and passes are solved once.
pub fn verify_all(cases: &[Case], options: &Options) -> Vec<Result<Solved, CaseError>> {
    verify_watched(cases, options, &|_, _| {})
}

/// The same, saying how many of how many calculations are done: before the first one and after each, from any thread.
pub fn verify_watched(
    cases: &[Case],
    options: &Options,
    done: &(dyn Fn(usize, usize) + Sync),
) -> Vec<Result<Solved, CaseError>> {
    let first = |case: &Case| cases.iter().position(|other| other.same_as(case)).unwrap_or_default();
    let firsts: Vec<usize> = cases.iter().map(first).collect();
    let setups = options.setups();
    let runs: Vec<(usize, Setup)> = (0..cases.len())
        .filter(|k| firsts[*k] == *k)
        .flat_map(|k| setups.iter().map(move |setup| (k, *setup)))
        .collect();
    let finished = AtomicUsize::new(0);
    done(0, runs.len());
    let one = |(k, setup): &(usize, Setup)| {
        let outcome = one_run(&cases[*k], options, *setup);
        done(finished.fetch_add(1, Ordering::Relaxed) + 1, runs.len());
        outcome
    };
    let outcomes: Vec<Result<Outcome, CaseError>> = runs.par_iter().map(one).collect();
    let mut solved: Vec<Option<Result<Solved, CaseError>>> = vec![None; cases.len()];
    let mut outcomes = outcomes.into_iter();
    for (k, _) in runs.iter().step_by(setups.len()) {
        let own = outcomes.by_ref().take(setups.len()).collect();
        solved[*k] = Some(assemble(*k, &cases[*k], options, &setups, own));
    }
    for (k, case) in cases.iter().enumerate().filter(|(k, _)| firsts[*k] != *k) {
        let there = |solved: Solved| {
            let result = Verified { seam: case.seam, x_mm: case.x_mm, ..solved.result };
            Solved { result, ..solved }
        };
        solved[k] = solved[firsts[k]].clone().map(|done| done.map(there));
    }
    solved.into_iter().flatten().collect()
}

fn one_run(case: &Case, options: &Options, setup: Setup) -> Result<Outcome, CaseError> {
    let sequence = case.sequence(options, setup)?;
    let times: &[f64] = if setup == options.setups()[0] { &options.times_s } else { &[] };
    run_watched(&sequence, times).map_err(|cause| case.failed(cause))
}

fn assemble(
    number: usize,
    case: &Case,
    options: &Options,
    setups: &[Setup],
    outcomes: Vec<Result<Outcome, CaseError>>,
) -> Result<Solved, CaseError> {
    let mut outcomes = outcomes.into_iter().zip(setups);
    let Some((main, _)) = outcomes.next() else {
        return Err(case.failed(crate::joint_solver::SectionError::NoPass));
    };
    let main = main?;
    let mut efforts = vec![main.effort];
    let mut cautions = case.cautions.clone();
    let mut bracket = Vec::new();
    for (outcome, setup) in outcomes {
        match outcome {
            Ok(outcome) => {
                efforts.push(outcome.effort);
                bracket
                    .push(Bracketed { setup: *setup, passes: outcome.passes.iter().map(numbers).collect() });
            }
            Err(error) => cautions.push(format!("One case of the bracket gave no result: {error}")),
        }
    }
    let formulas = formula(case, options.lengthwise == Lengthwise::Held);
    let passes: Vec<SolvedPass> = case
        .layers
        .iter()
        .enumerate()
        .zip(&main.passes)
        .zip(formulas)
        .map(|(((k, layer), pass), formula)| laid(case, &main, k, layer, pass, formula))
        .collect();
    for laid in passes.iter().filter(|laid| laid.melted.through) {
        let heat = laid.beads.iter().map(|bead| bead.heat_j_per_mm).fold(0.0, f64::max);
        cautions.push(format!(
            "Order {} melts a plate through ({:.0} % of the flange, {:.0} % of the web): {heat:.0} J/mm is too much for these \
             plates, and the section no longer describes what happens.",
            laid.order,
            100.0 * laid.melted.flange_share,
            100.0 * laid.melted.web_share
        ));
    }
    let sides: Vec<Side> = case.layers.iter().flat_map(|l| l.beads.iter().map(|b| b.side)).collect();
    let result = Verified {
        seam: case.seam,
        x_mm: case.x_mm,
        joint: case.joint,
        area_mm2: case.joint.area_mm2(&sides),
        yield_mpa: case.yield_mpa,
        start_c: case.start_c,
        hold: options.hold,
        lengthwise: options.lengthwise,
        mesh: options.meshing,
        passes,
        bracket,
        residual: residual(&case.joint, &main, options.lengthwise, case.yield_mpa),
        size: size(&main),
        cautions,
    };
    Ok(Solved { result, outcome: Arc::new(main), efforts, same_as: number })
}

fn laid(
    case: &Case,
    outcome: &Outcome,
    k: usize,
    layer: &Layer,
    pass: &PassOutcome,
    formula: LayerNumbers,
) -> SolvedPass {
    let section = numbers(pass);
    let sides: Vec<Side> = layer.beads.iter().map(|bead| bead.side).collect();
    let wait_s = match layer.wait {
        Wait::Seconds(s) if k > 0 => Some(s),
        Wait::Seconds(_) | Wait::Cold => None,
    };
    SolvedPass {
        order: layer.order,
        beads: layer.beads.clone(),
        wait_s,
        seconds: pass.seconds,
        hottest_c: pass.hottest_c,
        energy_balance: pass.energy_balance,
        section,
        formula,
        difference: Difference::of(&formula, &section),
        melted: melted(&case.joint, &outcome.mesh, &pass.peak_c, &sides),
    }
}

fn numbers(pass: &PassOutcome) -> LayerNumbers {
    LayerNumbers::of(&pass.shrinkage, pass.shape)
}

fn size(outcome: &Outcome) -> SolvedSize {
    SolvedSize {
        elements: outcome.mesh.elements.len(),
        unknowns: outcome.unknowns,
        heat_unknowns: outcome.heat_unknowns,
        steps: outcome.tally.steps,
        corrections: outcome.tally.iterations,
        factorisations: outcome.tally.factorisations,
        halved_steps: outcome.tally.cuts,
        heat_iterations: outcome.heat_iterations,
        worst_left: outcome.tally.worst_left,
    }
}
