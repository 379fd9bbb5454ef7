//! The star of plates against closed forms and a separate fibre calculation.

use super::star_check_tests::{TimeRule, one_fillet};
use super::*;
use crate::joint_solver::{FillerState, MaterialLaw, SectionSteel, Surface, ThermalTable, USUAL_SPEED_MM_S};
use crate::member::{Parts, Seam};
use crate::steel::molten::Strength;
use crate::welding::Side;
use std::sync::LazyLock;

const E: f64 = 206_000.0;
const ALPHA: f64 = 12e-6;
const RHO_C: f64 = 4.5e-3;
/// α E/(ρ c), N per J/mm: what forces are measured in.
const UNIT: f64 = ALPHA * E / RHO_C;
/// 2 ln 2/√(2πe) (Okerblom 1955, derived).
const THIN: f64 = 0.335_44;
/// The closed forms hold for a line of heat at the joint; heat spread over some mm beside it shifts them a little.
const LINE_REL: f64 = 5e-3;

fn steel(yield_mpa: f64, hot: bool) -> SectionSteel {
    let law =
        if hot { MaterialLaw::HotEven(Strength::TwoPercent, ALPHA) } else { MaterialLaw::Constant(ALPHA) };
    SectionSteel { e_mpa: E, yield_mpa, hardening_mpa: 0.0, anneal_c: 1000.0, law }
}

/// No losses, all heat at once: the setting of the closed forms.
const SETTINGS: StripSettings = StripSettings {
    shape: PlateModel::Star { step_mm: 1.0, spread_mm: 3.0 },
    held: false,
    prior_mpa: 0.0,
    pulse_s: Some(0.05),
    deposit: FillerState::Cold,
    pulse_steps: 4,
    growth: 1.1,
    cold_k: 1.0,
    surface: Surface::INSULATED,
};

const TEE: StripSection = StripSection {
    depth_mm: 400.0,
    web_mm: 8.0,
    flanges_mm: [Some((200.0, 12.0)), None],
    legs_mm: [[None; 2]; 2],
};

const fn bead(seam: Seam, side: Side, leg_mm: f64, heat_j_per_mm: f64) -> StripBead {
    StripBead { seam, side, leg_mm, heat_j_per_mm, travel_speed_mm_s: USUAL_SPEED_MM_S }
}

fn run(
    section: StripSection,
    steel: SectionSteel,
    turns: Vec<StripStage>,
    settings: StripSettings,
) -> StripOutcome {
    let table = ThermalTable::constant(RHO_C, 40.0);
    let outcome = weld(&StripJob::new(section, steel, turns, settings), &table).unwrap();
    for turn in &outcome.turns {
        assert!(turn.energy_balance.abs() < 1e-6, "energy balance {:e}", turn.energy_balance);
    }
    outcome
}

/// Force over α E Q/(ρ c) of a line of heat at the joint of thin plates, held.
fn line(plates: [f64; 2], yield_mpa: f64, prior_mpa: f64, step_mm: f64, growth: f64) -> f64 {
    let [flange, web] = plates;
    let flanges_mm = [Some((1600.0, flange)), None];
    let section = StripSection { depth_mm: 800.0, web_mm: web, flanges_mm, legs_mm: [[None; 2]; 2] };
    let shape = PlateModel::Star { step_mm, spread_mm: 1.0 };
    let settings = StripSettings { shape, held: true, prior_mpa, growth, ..SETTINGS };
    let turns = vec![StripStage::cold(vec![bead(Seam::Outer, Side::Near, 0.1, 1000.0)])];
    run(section, steel(yield_mpa, false), turns, settings).turns[0].at(Seam::Outer).force_n / 1000.0 / UNIT
}

#[test]
fn a_line_of_heat_shrinks_with_the_force_of_the_bar_theory() {
    let finer = [(4.0, 1.2), (2.0, 1.1), (1.0, 1.05)].map(|(s, g)| line([4.0, 2.0], 355.0, 0.0, s, g));
    println!("theory {THIN}: {finer:.5?} with elements of 4, 2, 1 mm and steps growing by 1.2, 1.1, 1.05");
    assert!((finer[2] / THIN - 1.0).abs() < LINE_REL, "{finer:?}");
    let [first, second] = [finer[1] - finer[0], finer[2] - finer[1]].map(f64::abs);
    assert!(second < first && second < 2e-3 * THIN, "{finer:?}");
}

#[test]
fn neither_yield_nor_the_number_of_plates_changes_that_force() {
    for yield_mpa in [235.0, 355.0, 690.0] {
        for plates in [[4.0, 1.0], [4.0, 4.0], [2.0, 8.0]] {
            let got = line(plates, yield_mpa, 0.0, 1.0, 1.1);
            println!("flange, web {plates:?} mm, {yield_mpa} MPa: {got:.5}");
            assert!((got / THIN - 1.0).abs() < LINE_REL, "{plates:?}, {yield_mpa}: {got}");
        }
    }
}

#[test]
fn prior_stress_takes_its_logarithm_off_the_force() {
    for share in [-0.25, 0.25, 0.5, 0.75] {
        let got = line([4.0, 2.0], 355.0, 355.0 * share, 1.0, 1.1) / THIN;
        let want = (2.0 / (1.0 + share)).log2();
        println!("prior stress {share} of yield: {got:.4}, ln(2/(1 + φ))/ln 2 = {want:.4}");
        assert!((got - want).abs() < 0.01, "{share}: {got} against {want}");
    }
}

#[test]
fn the_same_pass_again_adds_nothing_and_a_larger_one_counts_alone() {
    let pass = |heat| StripStage::cold(vec![bead(Seam::Outer, Side::Near, 6.0, heat)]);
    let settings = StripSettings { held: true, ..SETTINGS };
    for (second, want) in [(1000.0, 1.0), (1500.0, 1.5), (2000.0, 2.0)] {
        let outcome = run(TEE, steel(355.0, false), vec![pass(1000.0), pass(second)], settings);
        let [first, both] = [0, 1].map(|k| outcome.turns[k].at(Seam::Outer).force_n);
        println!("{second} J/mm after 1000: {:.4} of the first, rule {want}", both / first);
        // The separate fibre calculation has 0.994/0.993, 1.49 and 1.98 of the closed form.
        assert!((both / first / want - 1.0).abs() < 0.015, "{second}: {}", both / first);
    }
}

/// Own fibre calculation of the tee apart from the crate, its script not kept: it guards against slips alone. Wait, then F kN, camber
/// and sweep over 8 m in mm, with constant and with hot properties. Its record says that source spread and place move sweep by ±4 %
/// and the second side by −9 … +9 %.
const TEE_ROWS: [(Option<f64>, [f64; 3], [f64; 3]); 5] = [
    (Some(1.0), [425.0, 18.4, -0.15], [355.0, 15.4, -0.15]),
    (Some(40.0), [375.0, 16.3, -3.5], [317.0, 13.8, -2.7]),
    (Some(160.0), [319.0, 14.0, -1.9], [274.0, 12.1, -0.9]),
    (Some(320.0), [293.0, 12.9, -1.1], [255.0, 11.3, -0.3]),
    (None, [277.0, 12.2, -0.9], [249.0, 11.0, -0.7]),
];
/// Forces, cambers and sweeps of the two calculations.
const FIBRES_REL: f64 = 0.03;
/// Steps of the separate calculation: its record has 75 to 400.
const THEIR_STEPS: i32 = 150;

/// What is left of a one-sided sweep when heat is stepped as the separate calculation did, over the same refined.
static THEIR_STEPPING: LazyLock<f64> = LazyLock::new(|| {
    one_fillet(1.0, THEIR_STEPS, TimeRule::BackwardEuler)[1] / one_fillet(1.0, 300, TimeRule::TwoStage)[1]
});

#[test]
fn a_second_star_has_our_sweep_when_refined_and_the_separate_one_when_stepped_like_it() {
    let near = StripStage::cold(vec![bead(Seam::Outer, Side::Near, 6.0, 1158.0)]);
    let turn = &run(TEE, steel(355.0, false), vec![near], SETTINGS).turns[0];
    let ours = [turn.at(Seam::Outer).force_n, -turn.plane[1] * 8e6];
    let refined =
        [(1.0, 150), (1.0, 300), (0.5, 300)].map(|(cell, n)| one_fillet(cell, n, TimeRule::TwoStage));
    let euler = [75, 150, 400].map(|n| one_fillet(1.0, n, TimeRule::BackwardEuler));
    println!(
        "force N, sweep mm: ours {ours:.2?}; second star {refined:.2?} (1 mm, 150 and 300 steps; 0.5 mm, 300 steps)"
    );
    println!("backward Euler in 75, 150, 400 steps {euler:.2?}; the separate calculation 215200, 4.44");
    let last = refined[2];
    assert!((refined[1][1] / last[1] - 1.0).abs() < 5e-3, "cells matter: {refined:?}");
    assert!((ours[0] / last[0] - 1.0).abs() < 0.005 && (ours[1] / last[1] - 1.0).abs() < 0.012, "{ours:?}");
    // first order: the error falls with the number of steps, and takes sweep away
    assert!(euler[0][1] < euler[1][1] && euler[1][1] < euler[2][1] && euler[2][1] < last[1], "{euler:?}");
    assert!(
        (euler[0][1] / 4.44 - 1.0).abs() < FIBRES_REL && (euler[0][0] / 215_200.0 - 1.0).abs() < FIBRES_REL
    );
}
/// Sweep left after the second side: printed to one figure, mm.
const SWEEP_LEFT_MM: f64 = 0.15;

#[test]
fn a_tee_with_a_second_side_after_any_time_is_that_of_a_separate_fibre_calculation() {
    for hot in [false, true] {
        let first = if hot { [188.6, 8.28, 3.87] } else { [215.2, 9.44, 4.44] };
        for (wait_s, constant, en) in TEE_ROWS {
            let near = StripStage::cold(vec![bead(Seam::Outer, Side::Near, 6.0, 1158.0)]);
            let far =
                StripStage { wait_s, ..StripStage::cold(vec![bead(Seam::Outer, Side::Far, 6.0, 1158.0)]) };
            let outcome = run(TEE, steel(355.0, hot), vec![near, far], SETTINGS);
            let got = [0, 1].map(|k| {
                let turn = &outcome.turns[k];
                [turn.at(Seam::Outer).force_n / 1e3, turn.plane[2] * 8e6, -turn.plane[1] * 8e6]
            });
            let both = if hot { en } else { constant };
            println!("hot {hot}, wait {wait_s:?}: {got:.2?} against {first:?}, {both:?}");
            for (got, want) in got.iter().zip([first, both]) {
                assert!((got[0] / want[0] - 1.0).abs() < FIBRES_REL, "force {got:?} against {want:?}");
                assert!((got[1] / want[1] - 1.0).abs() < FIBRES_REL, "camber {got:?} against {want:?}");
            }
            let theirs = got[0][2] * *THEIR_STEPPING;
            assert!((theirs / first[2] - 1.0).abs() < FIBRES_REL, "{got:?}, stepped like theirs {theirs}");
            assert!((got[1][2] - both[2]).abs() < SWEEP_LEFT_MM, "{got:?} against {both:?}");
        }
    }
}

fn beam() -> StripSection {
    let flange = Some((200.0, 10.0));
    StripSection { depth_mm: 600.0, web_mm: 6.0, flanges_mm: [flange; 2], legs_mm: [[None; 2]; 2] }
}

/// Shortening mm/m at the centroid, camber and sweep over 12 m, mm, from the state after the last turn.
fn bows(outcome: &StripOutcome) -> [f64; 3] {
    let [at_edge, across, up] = outcome.turns[outcome.turns.len() - 1].plane;
    let k = 12_000.0 * 12_000.0 / 8.0;
    [-1e3 * (at_edge + 300.0 * up), k * up, -k * across]
}

#[test]
fn a_beam_in_any_sequence_is_that_of_a_separate_fibre_calculation() {
    let [outer, inner] = Seam::BOTH.map(|seam| bead(seam, Side::Near, 5.0, 804.0));
    let tee = Parts::WEB.with(Parts::OUTER_FLANGE);
    let first = |parts, beads| StripStage { joined: parts, ..StripStage::cold(beads) };
    let follows = StripStage { follows: true, ..StripStage::cold(vec![inner]) };
    // Straight or following, the second flange sweeps as printed only on top of what the first left.
    type Case = (&'static str, Vec<StripStage>, [[f64; 3]; 2]);
    let cases: [Case; 4] = [
        ("both at once", vec![StripStage::cold(vec![outer, inner])], [[0.190, 0.0, 6.9], [0.169, 0.0, 6.1]]),
        ("outer alone", vec![StripStage::cold(vec![outer])], [[0.095, 8.2, 3.5], [0.084, 7.2, 3.1]]),
        (
            "outer, then inner",
            vec![StripStage::cold(vec![outer]), StripStage::cold(vec![inner])],
            [[0.185, 0.14, 6.8], [0.164, 0.13, 6.0]],
        ),
        (
            "tee, then a flange that follows",
            vec![first(tee, vec![outer]), follows],
            [[0.154, 2.9, 10.3], [0.136, 2.6, 9.1]],
        ),
    ];
    for (name, turns, printed) in cases {
        for (hot, want) in [false, true].into_iter().zip(printed) {
            let got = bows(&run(beam(), steel(355.0, hot), turns.clone(), SETTINGS));
            println!("{name}, hot {hot}: {got:.3?} against {want:?}");
            // Printed to three figures, cambers of a few tenths to a tenth.
            assert!((got[0] - want[0]).abs() < 0.001 + FIBRES_REL * want[0], "shortening {got:?} {want:?}");
            assert!((got[1] - want[1]).abs() < 0.10 + FIBRES_REL * want[1], "camber {got:?} {want:?}");
            let theirs = got[2] * *THEIR_STEPPING;
            assert!((theirs / want[2] - 1.0).abs() < FIBRES_REL, "sweep {theirs}, {want:?}");
        }
    }
}

#[test]
fn one_sided_beams_of_all_sizes_are_those_of_a_separate_fibre_calculation() {
    // Depth, web, flange, leg, heat; force over 2 Q 184.3 N with constant and hot properties, lateral arm, mm.
    for ([depth, web, width, flange, leg, heat], ratios, arm) in [
        ([200.0, 4.0, 100.0, 5.0, 4.0, 515.0], [0.991, 0.841], 2.3),
        ([200.0, 4.0, 100.0, 5.0, 5.0, 804.0], [0.974, 0.791], 2.4),
        ([400.0, 5.0, 150.0, 8.0, 5.0, 804.0], [0.996, 0.869], 3.2),
        ([900.0, 8.0, 250.0, 16.0, 6.0, 1158.0], [1.007, 0.905], 4.7),
    ] {
        let flanges_mm = [Some((width, flange)); 2];
        let section = StripSection { depth_mm: depth, web_mm: web, flanges_mm, legs_mm: [[None; 2]; 2] };
        for (hot, want) in [false, true].into_iter().zip(ratios) {
            let beads = Seam::BOTH.map(|seam| bead(seam, Side::Near, leg, heat)).to_vec();
            let outcome = run(section, steel(355.0, hot), vec![StripStage::cold(beads)], SETTINGS);
            let pull = outcome.turns[0].at(Seam::Outer).plus(outcome.turns[0].at(Seam::Inner));
            let (ratio, lateral) = (pull.force_n / (2.0 * heat * 184.3), pull.near_n_mm / pull.force_n);
            println!(
                "{depth} × {web}, {heat} J/mm, hot {hot}: {ratio:.3} against {want}, arm {lateral:.2} against {arm} mm"
            );
            assert!((ratio / want - 1.0).abs() < FIBRES_REL, "{ratio} against {want}");
            // It does not say with which properties it found the arm; in the smallest section it matters.
            assert!(!hot || (lateral / arm - 1.0).abs() < FIBRES_REL, "{lateral} against {arm} mm");
        }
    }
}
