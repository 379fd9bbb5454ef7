//! Residual stress of the section solver against the pattern of design rules.

use crate::cases::{all_checked, check};
use crate::section_tee::along_near_mpa;
use serde::Deserialize;
use weldbow::joint_solver::{Fineness, Joint, Root, SectionSteel, Sequence, SolverSettings, run};
use weldbow::welding::{Side, Wait};

const SHEET: &str = "residual_patterns";
const YIELD_MPA: f64 = 355.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {}

/// Tip and weld line of a flange 200 mm wide on a web, welded on both sides and free, over yield.
fn tip_and_weld([flange_mm, web_mm, leg_mm, heat_j_per_mm]: [f64; 4]) -> [f64; 2] {
    let joint = Joint {
        flange_width_mm: 200.0,
        flange_mm,
        web_mm,
        web_stub_mm: 150.0,
        near_leg_mm: Some(leg_mm),
        far_leg_mm: Some(leg_mm),
        root: Root::Tied,
    };
    let steel = SectionSteel::hot(YIELD_MPA);
    let start = Sequence::of_joint(&joint, Fineness::COARSE, steel, SolverSettings::COARSE).unwrap();
    let near = start.weld(&joint, &[(Side::Near, heat_j_per_mm)], Wait::Cold).unwrap();
    let outcome = run(&near.weld(&joint, &[(Side::Far, heat_j_per_mm)], Wait::Cold).unwrap()).unwrap();
    [95.0, 0.0].map(|y| along_near_mpa(&outcome, [y, -0.5 * flange_mm]) / YIELD_MPA)
}

#[test]
fn tips_are_compressed_and_the_weld_is_near_yield_as_design_rules_draw_it() {
    let [tip, weld] = tip_and_weld([12.0, 8.0, 6.0, 1200.0]);
    check(SHEET, "flange tip", |_: &Given| tip);
    check(SHEET, "flange at the weld", |_: &Given| weld);
}

/// The pattern draws one section for all: full yield over a twentieth of the flange whatever the weld. A lighter weld, or
/// one on a thicker flange, pulls on less of it, and mid-thickness of the flange keeps below yield.
#[test]
fn lighter_welds_and_thicker_flanges_have_the_pattern_s_signs_and_less_of_its_size() {
    for joint in [[12.0, 6.0, 5.0, 710.0], [20.0, 8.0, 6.0, 1200.0]] {
        let [tip, weld] = tip_and_weld(joint);
        assert!((0.3..1.0).contains(&weld), "{joint:?}: {weld:.2} of yield at the weld, 1 in the pattern");
        assert!(
            (-0.30..-0.03).contains(&tip),
            "{joint:?}: {tip:.2} of yield at the tip, -0.25 in the pattern"
        );
    }
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    all_checked::<Given>(SHEET, &["flange tip", "flange at the weld"]);
}
