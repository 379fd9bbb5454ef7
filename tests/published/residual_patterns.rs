//! Residual stress of the section solver against the pattern of design rules.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::section::{Fineness, Joint, Root, SectionSteel, Sequence, Settings, run};
use weldbow::welding::{Side, Wait};

const SHEET: &str = "residual_patterns";
const YIELD_MPA: f64 = 355.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {}

/// Tip and weld line of a flange 200 × 12 on a web of 8, welded on both sides and free, over yield.
fn tip_and_weld() -> [f64; 2] {
    let joint = Joint {
        flange_width_mm: 200.0,
        flange_mm: 12.0,
        web_mm: 8.0,
        web_stub_mm: 150.0,
        near_leg_mm: Some(6.0),
        far_leg_mm: Some(6.0),
        root: Root::Tied,
    };
    let steel = SectionSteel::hot(YIELD_MPA);
    let start = Sequence::of_joint(&joint, Fineness::COARSE, steel, Settings::COARSE).unwrap();
    let near = start.weld(&joint, &[(Side::Near, 1200.0)], Wait::Cold).unwrap();
    let outcome = run(&near.weld(&joint, &[(Side::Far, 1200.0)], Wait::Cold).unwrap()).unwrap();
    [95.0, 0.0].map(|y| outcome.along_near_mpa([y, -6.0]).unwrap() / YIELD_MPA)
}

#[test]
fn tips_are_compressed_and_the_weld_is_near_yield_as_design_rules_draw_it() {
    let [tip, weld] = tip_and_weld();
    check(SHEET, "flange tip", |_: &Given| tip);
    check(SHEET, "flange at the weld", |_: &Given| weld);
}

#[test]
fn no_value_of_the_sheet_goes_unchecked() {
    all_checked::<Given>(SHEET, &["flange tip", "flange at the weld"]);
}
