//! The press for whole members.

use crate::input::findings::{Bounds, Findings, bounds, mm};
use crate::straighten::plan::Press;
use crate::straighten::press::{Guides, Pads};
use crate::units::{Force, Length};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

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

/// A press for whole members.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PressShape {
    /// Shortest distance of its supports; 3 m without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"3 m")]
    pub shortest_span: Option<Length>,
    /// Longest distance of its supports; 8 m without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"8 m")]
    pub longest_span: Option<Length>,
    /// Most force of one ram; 400 kN without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"400 kN")]
    pub force: Option<Force>,
    /// Longest stroke of a ram; 200 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"200 mm")]
    pub stroke: Option<Length>,
    /// Distance of two rams that push together; one ram without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2.6 m")]
    pub rams_apart: Option<Length>,
    /// Length along the member of the pad under a ram; 250 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"250 mm")]
    pub ram_pad: Option<Length>,
    /// Length along the member of the pad on a support; 250 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"250 mm")]
    pub support_pad: Option<Length>,
    /// How far frame and packing give under the full force of one ram; 2 mm without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2 mm")]
    pub give_at_full_force: Option<Length>,
    /// Largest curvature of a push over that at first yield, 1 to 10; 5 without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &5.0)]
    pub most_curvature: Option<f64>,
    /// Judge the web under pads by the patch load of EN 1993-1-5 too; no without it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[schemars(example = &true)]
    pub patch_load: bool,
    /// Whether guides on both supports hold the member upright and both its flanges sideways; no without it, and then nothing is
    /// pushed about its strong axis.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[schemars(example = &true)]
    pub guides_at_supports: bool,
    /// Whether guides at each ram hold both flanges sideways; no without it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[schemars(example = &true)]
    pub guides_at_rams: bool,
    /// Further pairs of side guides that can be set anywhere between the supports; none without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &2)]
    pub side_guides: Option<u32>,
    /// Most force sideways that one guide holds; not checked without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"20 kN")]
    pub guide_force: Option<Force>,
}

impl PressShape {
    /// Checks it; the leg of the welds under its pads is the job's.
    pub(super) fn build(&self, findings: &mut Findings) -> Option<Press> {
        let mut length = |key: &str, given: Option<Length>, usual: f64, bounds: &Bounds| match given {
            Some(given) => findings.length(format!("press.{key}"), given, bounds),
            None => Some(usual),
        };
        let shortest = length("shortest_span", self.shortest_span, SHORTEST_MM, &SPAN);
        let longest = length("longest_span", self.longest_span, LONGEST_MM, &SPAN);
        let stroke = length("stroke", self.stroke, MOST_STROKE_MM, &STROKE);
        let ram_pad = length("ram_pad", self.ram_pad, PAD_MM, &PAD);
        let support_pad = length("support_pad", self.support_pad, PAD_MM, &PAD);
        let give = length("give_at_full_force", self.give_at_full_force, GIVE_MM, &GIVE);
        let apart = self.rams_apart.map(|a| findings.length("press.rams_apart", a, &APART));
        let force = match self.force {
            Some(given) => findings.bounded("press.force", given.value(), &FORCE),
            None => Some(MOST_N),
        };
        let mu = match self.most_curvature {
            Some(given) => findings.bounded("press.most_curvature", given, &MU),
            None => Some(MOST_MU),
        };
        let more = match self.side_guides {
            Some(given) => findings.bounded("press.side_guides", f64::from(given), &GUIDES),
            None => Some(0.0),
        };
        let guide = self.guide_force.map(|f| findings.bounded("press.guide_force", f.value(), &GUIDE_FORCE));
        let rams_apart_mm = apart.map_or(Some(None), |a| a.map(Some));
        if let (Some(low), Some(high)) = (shortest, longest)
            && low > high
        {
            let key = if self.shortest_span.is_some() { "shortest_span" } else { "longest_span" };
            findings.push(
                format!("press.{key}"),
                format!("supports from {} to {} apart", mm(low), mm(high)),
                "a shortest distance of supports not above the longest (`shortest_span`, `longest_span`)",
            );
            return None;
        }
        if let (Some(Some(apart)), Some(high)) = (rams_apart_mm, longest)
            && apart >= high
        {
            findings.push(
                "press.rams_apart",
                format!("rams {} apart between supports of at most {}", mm(apart), mm(high)),
                "two rams nearer to each other than the supports",
            );
            return None;
        }
        let most_n = force?;
        Some(Press {
            spans_mm: (shortest?, longest?),
            most_n,
            most_stroke_mm: stroke?,
            rams_apart_mm: rams_apart_mm?,
            pads: Pads { ram_mm: ram_pad?, support_mm: support_pad?, leg_mm: 0.0 },
            give_mm_per_n: give? / most_n,
            most_mu: mu?,
            patch: self.patch_load,
            guides: Guides {
                at_supports: self.guides_at_supports,
                at_rams: self.guides_at_rams,
                more: more.map(|_| self.side_guides.unwrap_or(0))?,
                most_n: guide.map_or(Some(None), |g| g.map(Some))?,
            },
        })
    }
}
