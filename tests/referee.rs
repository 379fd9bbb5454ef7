//! The formula level against the section solved from first principles: what the formulas were fitted to, and beyond.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use weldbow::angular::fold::fold_rad;
use weldbow::section::{
    Fineness, Joint, Lengthwise, Model, Outcome, Root, SectionSteel, Sequence, Settings, run,
};
use weldbow::shrinkage::tendon::{heat_parameter, held_force_n};
use weldbow::welding::{Side, Wait};

/// Flange width and thickness, web, leg, mm; net heat, J/mm; yield, MPa.
const JOINTS: [[f64; 6]; 5] = [
    [150.0, 6.0, 5.0, 4.0, 500.0, 355.0],
    [180.0, 8.0, 6.0, 5.0, 700.0, 345.0],
    [200.0, 12.0, 8.0, 6.0, 1158.0, 355.0],
    [250.0, 16.0, 8.0, 6.0, 1158.0, 355.0],
    [300.0, 25.0, 10.0, 8.0, 1600.0, 345.0],
];

fn welded([width, flange, web, leg, heat, yield_mpa]: [f64; 6], settings: Settings) -> Outcome {
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
    let near = start.weld(&joint, &[(Side::Near, heat)], Wait::Cold).unwrap();
    run(&near.weld(&joint, &[(Side::Far, heat)], Wait::Cold).unwrap()).unwrap()
}

#[test]
fn the_force_formula_is_within_its_fit_of_the_section() {
    let settings = Settings {
        model: Model::Fibres,
        lengthwise: Lengthwise::Held,
        release_c: None,
        ..Settings::STANDARD
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

#[test]
fn the_fold_formula_is_within_its_fit_of_the_section() {
    for joint in JOINTS {
        let [_, flange, web, _, heat, yield_mpa] = joint;
        let section = welded(joint, Settings::COARSE).passes[1].shape.unwrap().cup_rad * 1e3;
        let formula = fold_rad(heat_parameter(heat, flange, web), yield_mpa) * 1e3;
        let off = formula / section - 1.0;
        println!("{joint:?}: section {section:.2} mrad, formula {formula:.2} mrad, {:+.0} %", 100.0 * off);
        // Worst of the 16 fitted cases 20 %; legs and widths here are others.
        assert!(off.abs() < 0.30, "{joint:?}: {off}");
    }
}
