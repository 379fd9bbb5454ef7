//! The formula level against the section solved from first principles: what the formulas were fitted to, and beyond.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use weldbow::angular::cup::{FoldingHeat, cup_rad};
use weldbow::joint_solver::{
    FillerState, Fineness, Joint, Lengthwise, Outcome, Root, SOLID_C, SectionSteel, Sequence, SolverSettings,
    StressModel, run,
};
use weldbow::shrinkage::tendon::{heat_parameter, held_force_n};
use weldbow::verification::{SOURCE_LEGS, USUAL_SPEED_MM_S};
use weldbow::welding::{Side, Wait};

/// Flange width and thickness, web, leg, mm; net heat, J/mm; yield, MPa.
const JOINTS: [[f64; 6]; 5] = [
    [150.0, 6.0, 5.0, 4.0, 500.0, 355.0],
    [180.0, 8.0, 6.0, 5.0, 700.0, 345.0],
    [200.0, 12.0, 8.0, 6.0, 1158.0, 355.0],
    [250.0, 16.0, 8.0, 6.0, 1158.0, 355.0],
    [300.0, 25.0, 10.0, 8.0, 1600.0, 345.0],
];

fn welded(joint: [f64; 6], settings: SolverSettings) -> Outcome {
    laid(joint, settings, &[&[Side::Near], &[Side::Far]])
}

/// One order after the other, each side of an order at once.
fn laid(
    [width, flange, web, leg, heat, yield_mpa]: [f64; 6],
    settings: SolverSettings,
    orders: &[&[Side]],
) -> Outcome {
    let joint = Joint {
        flange_width_mm: width,
        flange_mm: flange,
        web_mm: web,
        web_stub_mm: 150.0,
        near_leg_mm: Some(leg),
        far_leg_mm: Some(leg),
        root: Root::Tied,
    };
    let start = Sequence::of_joint(&joint, Fineness::COARSE, SectionSteel::hot(yield_mpa), settings).unwrap();
    let weld = |sequence: Sequence, sides: &&[Side]| {
        let beads: Vec<(Side, f64)> = sides.iter().map(|side| (*side, heat)).collect();
        sequence.weld(&joint, &beads, Wait::Cold).unwrap().travelling(USUAL_SPEED_MM_S)
    };
    run(&orders.iter().fold(start, weld)).unwrap()
}

#[test]
fn the_force_formula_is_within_its_fit_of_the_section() {
    let settings = SolverSettings {
        model: StressModel::Fibres,
        lengthwise: Lengthwise::Held,
        release_c: None,
        ..SolverSettings::STANDARD
    };
    for joint in JOINTS {
        let [_, flange, web, _, heat, yield_mpa] = joint;
        let section = welded(joint, settings).passes[0].shrinkage.force_n;
        let formula = held_force_n(heat, flange, web, yield_mpa);
        let off = formula / section - 1.0;
        println!("{joint:?}: section {section:.0} N, formula {formula:.0} N, {:+.1} %", 100.0 * off);
        // Worst of the fitted joints 8 %; these are others.
        assert!(off.abs() < 0.08, "{joint:?}: {off}");
    }
}

/// The law is fitted to moving arcs in three dimensions, not to sections: a slice held until the weld is solid gives 1.03 ± 0.15 of their
/// cups, at most half as much again on the thickest flange.
#[test]
fn the_cup_law_is_as_near_to_the_section_as_two_dimensions_are_to_three() {
    let settings = SolverSettings {
        release_c: Some(SOLID_C),
        deposit: FillerState::Molten,
        source_legs: SOURCE_LEGS,
        ..SolverSettings::COARSE
    };
    for joint in JOINTS {
        let [_, flange, web, leg, heat, _] = joint;
        let section = welded(joint, settings).passes[1].shape.unwrap().cup_rad * 1e3;
        let law = 2e3 * cup_rad(FoldingHeat::of(heat_parameter(heat, flange, web), web, leg));
        let off = law / section - 1.0;
        println!("{joint:?}: section {section:.2} mrad, law {law:.2} mrad, {:+.0} %", 100.0 * off);
        assert!(off.abs() < 0.35, "{joint:?}: {off}");
    }
}

/// Both sides at once fold a thick flange by more than both in turn. The section has 3.0 on 10 mm, an arc in slices 2.2 as the law has
/// (`reference-cases/moving_range.csv`): a section is an upper estimate there.
#[test]
fn both_sides_at_once_fold_a_thick_flange_by_more_than_twice_one() {
    let settings = SolverSettings {
        release_c: Some(SOLID_C),
        deposit: FillerState::Molten,
        source_legs: SOURCE_LEGS,
        ..SolverSettings::COARSE
    };
    for joint in [[180.0, 10.0, 6.0, 6.0, 400.0, 355.0], [180.0, 16.0, 6.0, 6.0, 1000.0, 355.0]] {
        let [_, flange, web, leg, heat, _] = joint;
        let cup = |orders: &[&[Side]]| laid(joint, settings, orders).passes[0].shape.unwrap().cup_rad;
        let section = cup(&[&[Side::Near, Side::Far]]) / cup(&[&[Side::Near]]);
        let one = FoldingHeat::of(heat_parameter(heat, flange, web), web, leg);
        let law = cup_rad(one.beside(one)) / cup_rad(one);
        println!("{joint:?}: both at once over one, section {section:.2}, law {law:.2}");
        assert!(section > 2.2 && (law / section - 1.0).abs() < 0.30, "{joint:?}: {section} and {law}");
    }
}
