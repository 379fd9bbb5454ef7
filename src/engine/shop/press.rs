//! The press for whole members.

use crate::input::findings::{Bounds, Findings, Lines, bounds, mm};
use crate::input::{Hint, shape};
use crate::straighten::plan::Press;
use crate::straighten::press::{Guides, Pads};
use crate::units::{Force, Length};

const SPAN: Bounds = bounds("a distance of supports", 300.0, 40_000.0, "300 mm to 40 m", "mm");
const FORCE: Bounds = bounds("a force of one ram", 1e3, 50e6, "1 kN to 50 MN", "N");
const STROKE: Bounds = bounds("a stroke", 1.0, 2000.0, "1 mm to 2 m", "mm");
const APART: Bounds = bounds("a distance of two rams", 100.0, 20_000.0, "100 mm to 20 m", "mm");
const PAD: Bounds = bounds("a length of a pad along the member", 10.0, 2000.0, "10 mm to 2 m", "mm");
const GIVE: Bounds = bounds("a give of frame and packing", 0.0, 50.0, "nothing to 50 mm", "mm");
const MU: Bounds =
    bounds("a curvature over that at first yield", 1.0, 10.0, "1 to 10 (5 if left out, our choice)", "");
const GUIDES: Bounds = bounds("a number of side guides", 0.0, 20.0, "none to 20", "guides");
const GUIDE_FORCE: Bounds = bounds("a force of a guide", 100.0, 1e6, "0.1 kN to 1 MN", "N");

/// What stands in for a line left out: a middling press (choice, no source).
const SHORTEST_MM: f64 = 3000.0;
const LONGEST_MM: f64 = 8000.0;
const MOST_N: f64 = 400e3;
const MOST_STROKE_MM: f64 = 200.0;
const PAD_MM: f64 = 250.0;
const GIVE_MM: f64 = 2.0;
const MOST_MU: f64 = 5.0;

shape! {
    /// A press for whole members.
    #[derive(Default)]
    pub struct PressShape {
        /// Shortest distance of its supports; 3 m without it.
        pub shortest_span: Option<Length> as "3 m",
        /// Longest distance of its supports; 8 m without it.
        pub longest_span: Option<Length> as "8 m",
        /// Most force of one ram; 400 kN without it.
        pub force: Option<Force> as "400 kN",
        /// Longest stroke of a ram; 200 mm without it.
        pub stroke: Option<Length> as "200 mm",
        /// Distance of two rams that push together; one ram without it.
        pub rams_apart: Option<Length> as "2.6 m",
        /// Length along the member of the pad under a ram; 250 mm without it.
        pub ram_pad: Option<Length> as "250 mm",
        /// Length along the member of the pad on a support; 250 mm without it.
        pub support_pad: Option<Length> as "250 mm",
        /// How far frame and packing give under the full force of one ram; 2 mm without it.
        pub give_at_full_force: Option<Length> as "2 mm",
        /// Largest curvature of a push over that at first yield, 1 to 10; 5 without it.
        pub most_curvature: Option<f64> as 5.0,
        /// Judge the web under pads by the patch load of EN 1993-1-5 too; no without it.
        #[serde(default)]
        pub patch_load: bool as true,
        /// Whether guides on both supports hold the member upright and both its flanges sideways; no without it, and then nothing is
        /// pushed about its strong axis.
        #[serde(default)]
        pub guides_at_supports: bool as true,
        /// Whether guides at each ram hold both flanges sideways; no without it.
        #[serde(default)]
        pub guides_at_rams: bool as true,
        /// Further pairs of side guides that can be set anywhere between the supports; none without it.
        pub side_guides: Option<u32> as 2,
        /// Most force sideways that one guide holds; not checked without it.
        pub guide_force: Option<Force> as "20 kN",
    }
}

impl PressShape {
    /// Checks it; the leg of the welds under its pads is the job's.
    pub(super) fn build(&self, findings: &mut Findings) -> Press {
        let mut lines = Lines::of("press", findings);
        let most_n = lines.one("force", self.force, MOST_N, &FORCE);
        let press = Press {
            spans_mm: (
                lines.one("shortest_span", self.shortest_span, SHORTEST_MM, &SPAN),
                lines.one("longest_span", self.longest_span, LONGEST_MM, &SPAN),
            ),
            most_n,
            most_stroke_mm: lines.one("stroke", self.stroke, MOST_STROKE_MM, &STROKE),
            rams_apart_mm: lines.given("rams_apart", self.rams_apart, &APART),
            pads: Pads {
                ram_mm: lines.one("ram_pad", self.ram_pad, PAD_MM, &PAD),
                support_mm: lines.one("support_pad", self.support_pad, PAD_MM, &PAD),
                leg_mm: 0.0,
            },
            give_mm_per_n: lines.one("give_at_full_force", self.give_at_full_force, GIVE_MM, &GIVE) / most_n,
            most_mu: lines.one("most_curvature", self.most_curvature, MOST_MU, &MU),
            patch: self.patch_load,
            guides: Guides {
                at_supports: self.guides_at_supports,
                at_rams: self.guides_at_rams,
                more: self.side_guides.unwrap_or(0),
                most_n: lines.given("guide_force", self.guide_force, &GUIDE_FORCE),
            },
        };
        lines.given("side_guides", self.side_guides, &GUIDES);
        self.places_fit(&press, findings);
        press
    }

    /// Checks where supports and rams can stand.
    fn places_fit(&self, press: &Press, findings: &mut Findings) {
        let (low, high) = press.spans_mm;
        if SPAN.hold(low) && SPAN.hold(high) && low > high {
            let key = if self.shortest_span.is_some() { "shortest_span" } else { "longest_span" };
            findings.push_hint(
                format!("press.{key}"),
                format!("supports from {} to {} apart", mm(low), mm(high)),
                "a shortest distance of supports not above the longest (`shortest_span`, `longest_span`)",
                Hint::Nothing,
            );
        } else if let Some(apart) = press.rams_apart_mm
            && APART.hold(apart)
            && SPAN.hold(high)
            && apart >= high
        {
            let found = format!("rams {} apart between supports of at most {}", mm(apart), mm(high));
            let wanted = "two rams nearer to each other than the supports";
            findings.push_hint("press.rams_apart", found, wanted, Hint::Nothing);
        }
    }
}
