//! Section properties against published examples and a finite-element geometry package.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::member::{Parts, Plates, Section, properties};

/// Plates from the top down: (width or depth, thickness), in the unit of the source.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Girder {
    top: (f64, f64),
    web: (f64, f64),
    bottom: (f64, f64),
}

const AREA: &str = "area";
const CENTROID: &str = "centroid from the bottom face";
const IN_PLANE: &str = "in-plane second moment";
const LATERAL: &str = "lateral second moment";
const POLAR: &str = "polar second moment";
const AT_TOP: &str = "section modulus at the top";
const AT_BOTTOM: &str = "section modulus at the bottom";

impl Girder {
    fn section(&self) -> Section {
        let plates = Plates { web_mm: self.web.1, outer_mm: self.top, inner_mm: self.bottom };
        properties(&plates, self.web.0, 0.0, Parts::ALL)
    }

    fn below_top(&self) -> f64 {
        self.section().centroid_mm + self.top.1
    }

    fn above_bottom(&self) -> f64 {
        self.top.1 + self.web.0 + self.bottom.1 - self.below_top()
    }
}

#[test]
fn published_girders_have_the_printed_properties() {
    const SHEET: &str = "plate_sections";
    check(SHEET, AREA, |g: &Girder| g.section().area_mm2);
    check(SHEET, CENTROID, Girder::above_bottom);
    check(SHEET, IN_PLANE, |g: &Girder| g.section().i_z_mm4);
    check(SHEET, POLAR, |g: &Girder| g.section().i_z_mm4 + g.section().i_y_mm4);
    all_checked::<Girder>(SHEET, &[AREA, CENTROID, IN_PLANE, POLAR]);
}

#[test]
fn a_finite_element_package_finds_the_same_properties() {
    const SHEET: &str = "computed_sections";
    check(SHEET, AREA, |g: &Girder| g.section().area_mm2);
    check(SHEET, CENTROID, Girder::above_bottom);
    check(SHEET, IN_PLANE, |g: &Girder| g.section().i_z_mm4);
    check(SHEET, LATERAL, |g: &Girder| g.section().i_y_mm4);
    check(SHEET, AT_TOP, |g: &Girder| g.section().i_z_mm4 / g.below_top());
    check(SHEET, AT_BOTTOM, |g: &Girder| g.section().i_z_mm4 / g.above_bottom());
    all_checked::<Girder>(SHEET, &[AREA, CENTROID, IN_PLANE, LATERAL, AT_TOP, AT_BOTTOM]);
}
