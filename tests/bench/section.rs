//! Time of the section solver: `cargo bench --bench section`, on an idle machine.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use divan::{Bencher, black_box, counter::ItemsCount};
use std::time::Instant;
use weldbow::job::{STARTER, read_text};
use weldbow::joint_solver::{
    Fineness, Joint, Lengthwise, SectionSteel, Sequence, SolverSettings, StressModel, run,
};
use weldbow::verification::{Case, Meshing, Options, verify_all};
use weldbow::welding::{Side, Wait};

fn main() {
    for (name, sequence) in [("standard", standard()), ("coarse", coarse()), ("fibres", fibres())] {
        let outcome = run(&sequence).unwrap();
        let share = outcome.effort.solver.factorising.as_secs_f64() / outcome.effort.whole.as_secs_f64();
        println!(
            "{name}: {} elements, {} unknowns, {} of heat; {} steps, {} corrections, {} factorisations, {} halved; \
             heat {} factorisations; {:.0} % of the time in factorising",
            outcome.mesh.elements.len(),
            outcome.unknowns,
            outcome.heat_unknowns,
            outcome.tally.steps,
            outcome.tally.iterations,
            outcome.tally.factorisations,
            outcome.tally.cuts,
            outcome.heat_iterations,
            100.0 * share
        );
        let effort = outcome.effort;
        let solver = effort.solver.factorising + effort.solver.solving;
        println!(
            "{name}: {:.3} s, {:.2} times its own factorisations and solves",
            effort.whole.as_secs_f64(),
            effort.whole.as_secs_f64() / solver.as_secs_f64().max(1e-9)
        );
    }
    efficiency();
    divan::main();
}

/// Distinct joints one by one and on all cores: time over time, and over the number of cores.
fn efficiency() {
    let job = read_text("starter.toml", STARTER).unwrap();
    let options = Options { meshing: Meshing::Coarse, quick: true, ..Options::default() };
    let cases: Vec<Case> = (0..8)
        .map(|k| {
            let mut job = job.clone();
            job.passes.iter_mut().for_each(|pass| pass.heat_j_per_mm *= 1.0 + 0.02 * f64::from(k));
            Case::of(&job, job.member.length_mm / 3.0, job.passes[0].seam, &options).unwrap()
        })
        .collect();
    let time = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let once = || {
            let start = Instant::now();
            let solved = pool.install(|| verify_all(&cases, &options));
            assert!(solved.iter().all(Result::is_ok));
            start.elapsed().as_secs_f64()
        };
        (0..3).map(|_| once()).fold(f64::INFINITY, f64::min)
    };
    let (one, two) = (time(1), time(2));
    println!(
        "{} cases: {one:.2} s on one core, {two:.2} s on two, efficiency {:.2}",
        cases.len(),
        one / two / 2.0
    );
}

/// The reference tee: 200 × 12 on 150 × 8, two fillets of 6 mm with 1200 J/mm each.
fn tee(fineness: Fineness, settings: SolverSettings) -> Sequence {
    let joint = Joint::USUAL;
    let start = Sequence::of_joint(&joint, fineness, SectionSteel::hot(355.0), settings).unwrap();
    let near = start.weld(&joint, &[(Side::Near, 1200.0)], Wait::Cold).unwrap();
    near.weld(&joint, &[(Side::Far, 1200.0)], Wait::Cold).unwrap()
}

fn standard() -> Sequence {
    tee(Fineness::STANDARD, SolverSettings::STANDARD)
}

fn coarse() -> Sequence {
    tee(Fineness::COARSE, SolverSettings::COARSE)
}

fn fibres() -> Sequence {
    let settings = SolverSettings {
        model: StressModel::Fibres,
        release_c: None,
        lengthwise: Lengthwise::Held,
        ..SolverSettings::STANDARD
    };
    tee(Fineness::STANDARD, settings)
}

/// Two passes, about 580 elements and 130 steps a pass.
#[divan::bench(sample_count = 5)]
fn standard_two_passes(bencher: Bencher) {
    let sequence = standard();
    bencher.counter(ItemsCount::new(2_usize)).bench(|| run(black_box(&sequence)).unwrap());
}

/// Two passes, about 220 elements and 75 steps a pass.
#[divan::bench(sample_count = 10)]
fn coarse_two_passes(bencher: Bencher) {
    let sequence = coarse();
    bencher.counter(ItemsCount::new(2_usize)).bench(|| run(black_box(&sequence)).unwrap());
}

/// Two passes on the standard mesh, forces only.
#[divan::bench(sample_count = 10)]
fn fibres_two_passes(bencher: Bencher) {
    let sequence = fibres();
    bencher.counter(ItemsCount::new(2_usize)).bench(|| run(black_box(&sequence)).unwrap());
}
