//! Turns on a whole beam: sides, waits, plates that join, preheat; and what is refused.

use super::*;
use crate::joint_solver::{SectionError, SectionSteel, ThermalTable, USUAL_SPEED_MM_S};
use crate::member::{Parts, Plates, Seam, properties};
use crate::welding::Side;
use std::sync::LazyLock;

static TABLE: LazyLock<ThermalTable> = LazyLock::new(ThermalTable::steel);

fn run(job: &StripJob) -> StripOutcome {
    let outcome = weld(job, &TABLE).unwrap();
    for turn in &outcome.turns {
        assert!(turn.energy_balance.abs() < 1e-3, "energy {:e}", turn.energy_balance);
    }
    outcome
}

/// Both joints of a beam.
fn beam() -> StripSection {
    StripSection {
        depth_mm: 500.0,
        web_mm: 6.0,
        flanges_mm: [Some((180.0, 10.0)), Some((180.0, 10.0))],
        legs_mm: [[None; 2]; 2],
    }
}

const fn at(seam: Seam, side: Side) -> StripBead {
    StripBead { seam, side, leg_mm: 5.0, heat_j_per_mm: 800.0, travel_speed_mm_s: USUAL_SPEED_MM_S }
}

fn welded(turns: Vec<StripStage>) -> StripOutcome {
    run(&StripJob::new(beam(), SectionSteel::hot(355.0), turns, StripSettings::STANDARD))
}

#[test]
fn mirrored_welds_pull_the_mirrored_way() {
    let lone = |seam, side| welded(vec![StripStage::cold(vec![at(seam, side)])]).turns[0].clone();
    let first = lone(Seam::Outer, Side::Near);
    for (seam, side) in [(Seam::Outer, Side::Far), (Seam::Inner, Side::Near), (Seam::Inner, Side::Far)] {
        let (a, b) = (first.at(Seam::Outer), lone(seam, side).at(seam));
        println!("{seam:?} {side:?}: {b:.0?}");
        assert!((b.force_n / a.force_n - 1.0).abs() < 1e-6 && (b.up_n_mm / a.up_n_mm - 1.0).abs() < 1e-4);
        assert!((b.near_n_mm / a.near_n_mm - side.sign()).abs() < 1e-4, "{b:?} against {a:?}");
    }
}

#[test]
fn forces_of_a_turn_give_back_the_strains_of_the_section() {
    // N, M over E A, E I of the plates alone.
    let outcome = welded(vec![
        StripStage::cold(vec![at(Seam::Outer, Side::Near)]),
        StripStage::cold(vec![at(Seam::Inner, Side::Far)]),
    ]);
    let turn = &outcome.turns[1];
    let plates = Plates { web_mm: 6.0, outer_mm: (180.0, 10.0), inner_mm: (180.0, 10.0) };
    let s = properties(&plates, 500.0, 0.0, Parts::ALL);
    let [outer, inner] = Seam::BOTH.map(|seam| turn.at(seam));
    let e = -(outer.force_n + inner.force_n) / (210e3 * s.area_mm2);
    let moment = outer.up_n_mm - outer.force_n * s.centroid_mm - inner.up_n_mm
        + inner.force_n * (500.0 - s.centroid_mm);
    let (g, h) = (-moment / (210e3 * s.i_z_mm4), -(outer.near_n_mm + inner.near_n_mm) / (210e3 * s.i_y_mm4));
    let [axis, across, up] = turn.plane;
    println!("{:?} against {e}, {h}, {g}", turn.plane);
    assert!(((axis + up * s.centroid_mm) / e - 1.0).abs() < 1e-6 && (up / g - 1.0).abs() < 1e-3);
    assert!((across / h - 1.0).abs() < 0.02, "fillets beside the web: {across} against {h}");
}

#[test]
fn a_second_side_soon_after_the_first_pulls_as_if_at_once_and_more_than_later_or_cold() {
    let [near, far] = [Side::Near, Side::Far].map(|side| at(Seam::Outer, side));
    let after =
        |wait_s| vec![StripStage::cold(vec![near]), StripStage { wait_s, ..StripStage::cold(vec![far]) }];
    let all = [vec![StripStage::cold(vec![near, far])], after(Some(5.0)), after(Some(60.0)), after(None)];
    let forces = all.map(|turns| welded(turns).turns.last().unwrap().at(Seam::Outer).force_n);
    println!("at once, after 5 s, 60 s, cold: {forces:.0?} N");
    assert!((forces[1] / forces[0] - 1.0).abs() < 0.02, "{forces:?}");
    assert!(forces[1] > 1.1 * forces[2] && forces[2] > 1.05 * forces[3], "{forces:?}");
}

#[test]
fn a_flange_that_joins_brings_nothing_and_feels_only_what_comes_after() {
    let tee = StripStage {
        joined: Parts::WEB.with(Parts::OUTER_FLANGE),
        ..StripStage::cold(vec![at(Seam::Outer, Side::Near)])
    };
    for follows in [false, true] {
        let outcome = welded(vec![tee.clone(), StripStage { follows, ..StripStage::cold(vec![]) }]);
        let (alone, joined) = (outcome.turns[0].at(Seam::Outer), outcome.turns[1].at(Seam::Outer));
        let brought = outcome.turns[1].at(Seam::Inner);
        let [before, after] = [0, 1].map(|k| outcome.turns[k].plane);
        println!(
            "follows {follows}: {alone:.0?} then {joined:.0?}, flange {brought:.1?}; sweep {} {}",
            before[1], after[1]
        );
        assert!(
            (joined.force_n / alone.force_n - 1.0).abs() < 1e-3
                && brought.force_n.abs() < 1e-3 * alone.force_n
        );
        // Two flanges alike: clamped straight, half of the sweep stays.
        let kept = if follows { 1.0 } else { 0.5 };
        assert!((after[1] / before[1] - kept).abs() < 0.01, "{} of {}", after[1], before[1]);
    }
}

#[test]
fn preheat_alone_leaves_nothing_and_before_a_pass_takes_some_of_its_force() {
    let pass = |preheat_c, beads| StripStage { preheat_c, ..StripStage::cold(beads) };
    let bead = at(Seam::Outer, Side::Near);
    let force = |turns| welded(turns).turns.last().unwrap().at(Seam::Outer).force_n;
    let [cold, warm] = [20.0, 150.0].map(|t| force(vec![pass(t, vec![bead])]));
    println!("cold {cold:.0} N, at 150 °C {warm:.0} N");
    assert!(warm < 0.97 * cold && warm > 0.7 * cold);
    let idle = force(vec![pass(150.0, vec![]), pass(20.0, vec![bead])]);
    assert!((idle / cold - 1.0).abs() < 1e-3, "{idle} against {cold}");
}

#[test]
fn a_job_that_makes_no_sense_is_refused_before_it_starts() {
    let steel = SectionSteel::hot(355.0);
    let refused = |section, bead: StripBead, change: fn(&mut StripJob)| {
        let mut job =
            StripJob::new(section, steel, vec![StripStage::cold(vec![bead]); 2], StripSettings::STANDARD);
        change(&mut job);
        let error = weld(&job, &TABLE).unwrap_err();
        println!("{error}");
        error
    };
    let bead = at(Seam::Outer, Side::Near);
    let thin = StripSection { web_mm: 0.5, ..beam() };
    assert!(matches!(
        refused(thin, bead, |_| ()),
        SectionError::OutOfRange { name: "web thickness, mm", .. }
    ));
    let large = refused(beam(), StripBead { leg_mm: 90.0, ..bead }, |_| ());
    assert!(matches!(large, SectionError::FilletTooLarge { .. }));
    for heat_j_per_mm in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        refused(beam(), StripBead { heat_j_per_mm, ..bead }, |_| ());
    }
    let waits: [fn(&mut StripJob); 3] = [
        |j| j.turns[1].wait_s = Some(0.0),
        |j| j.turns[1].wait_s = Some(-3.0),
        |j| j.turns[1].wait_s = Some(f64::NAN),
    ];
    for wait in waits {
        assert!(matches!(refused(beam(), bead, wait), SectionError::NotPositive { name: "wait, s", .. }));
    }
    refused(beam(), bead, |j| j.turns[0].preheat_c = 900.0);
    refused(beam(), bead, |j| j.settings.growth = 0.5);
    let empty: fn(&mut StripJob) = |j| j.turns.iter_mut().for_each(|t| t.beads.clear());
    assert_eq!(refused(beam(), bead, empty), SectionError::NoPass);
    let lone = StripSection { flanges_mm: [Some((180.0, 10.0)), None], ..beam() };
    assert!(matches!(refused(lone, at(Seam::Inner, Side::Near), |_| ()), SectionError::NoSuchFillet { .. }));
}

#[test]
fn a_step_without_equilibrium_is_an_error_that_names_turn_and_time() {
    // Without hardening and with next to no strength every bar flows and none says how far.
    let steel = SectionSteel { yield_mpa: 1e-9, hardening_mpa: 0.0, ..SectionSteel::hot(355.0) };
    let turns = vec![StripStage::cold(vec![at(Seam::Outer, Side::Near)])];
    let error = weld(&StripJob::new(beam(), steel, turns, StripSettings::STANDARD), &TABLE).unwrap_err();
    println!("{error}");
    assert!(
        matches!(error, SectionError::NoEquilibrium { pass: 1, time_s, .. } | SectionError::Linear { pass: 1, time_s, .. } if time_s > 0.0),
        "{error}"
    );
}

#[test]
fn odd_sections_come_to_numbers_and_melting_through_is_seen() {
    let section = |depth, web, flange| StripSection {
        depth_mm: depth,
        web_mm: web,
        flanges_mm: [Some(flange), Some(flange)],
        legs_mm: [[None; 2]; 2],
    };
    for (section, leg_mm, heat_j_per_mm, through) in [
        (section(40.0, 2.0, (60.0, 3.0)), 3.0, 250.0, false),
        (section(30.0, 3.0, (60.0, 3.0)), 8.0, 5000.0, true),
        (section(900.0, 25.0, (400.0, 60.0)), 10.0, 3000.0, false),
        (section(2000.0, 5.0, (500.0, 5.0)), 6.0, 3000.0, true),
        (section(300.0, 8.0, (200.0, 12.0)), 6.0, 1.0, false),
    ] {
        let bead = |seam| StripBead { leg_mm, heat_j_per_mm, ..at(seam, Side::Near) };
        let turns = vec![StripStage::cold(Seam::BOTH.map(bead).to_vec())];
        let outcome = run(&StripJob::new(section, SectionSteel::hot(355.0), turns, StripSettings::STANDARD));
        println!("{heat_j_per_mm} J/mm: {:.0?} {:?}", outcome.turns[0].at(Seam::Outer), outcome.melted[0]);
        assert!(!serde_json::to_string(&outcome).unwrap().contains("null"), "no numbers: {outcome:?}");
        let (_, flange) = section.flanges_mm[0].unwrap();
        assert_eq!(outcome.melted[0].flange_mm > 0.9 * flange, through, "{:?}", outcome.melted);
    }
}
