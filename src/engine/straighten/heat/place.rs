//! One place to heat: vee, strip, jack and supports by the section that is there.
//!
//! The jack bends the heated side into compression from both sides of the heat: over a spreader, or as two, with its feet clear of
//! the hot steel and the vee in the even moment between them. Nothing bears on the strip that is being heated.

use super::{Vee, VeeTurn};
use crate::member::{Member, Parts, Seam, properties};
use crate::steel::hot::{k_elastic, k_yield};
use crate::straighten::press::{
    Bears, Height, PressLayout, PushFrom, Sideways, checks, kink_offset_mm, plastic_n_mm,
};
use serde::Serialize;

/// Depth of a web vee over the clear web depth (75–100 % behave alike; FHWA manual, memory).
pub const WEB_SHARE: f64 = 0.75;
/// Jack moment over the cold plastic moment (0.25–0.50, never above; FHWA manual, memory).
pub(crate) const JACK_RATIO: f64 = 0.25;
/// From the edge of the heat to a foot of the jack, mm: heat spreads by about 2·√(12 mm²/s · 3 min) = 93 mm while the flame is on
/// (own limit).
const CLEAR_OF_HEAT_MM: f64 = 100.0;
/// From the middle of a vee to a weld across the member, mm: half of the widest vee, and clear of its heat (handbooks of the trade keep heats
/// off splices and stiffener welds; memory).
pub(crate) const CLEAR_OF_WELDS_MM: f64 = 0.5 * Vee::WIDEST_MM + CLEAR_OF_HEAT_MM;
/// Plate buckling: 4 for a hot strip held along its edges, 23.9 for a web in bending (any text on plates; memory), times
/// π²/12(1 − 0.3²).
const HOT_STRIP: f64 = 4.0 * 0.903_8;
/// The same of a web in bending.
const WEB_BENDING: f64 = 23.9 * 0.903_8;
/// Jack force over that at which the member would go sideways, held at the supports alone (own limit).
const SIDEWAYS_SHARE: f64 = 1.0 / 3.0;

/// What jacks with.
#[derive(Clone, Copy)]
pub(crate) struct JackTools<'a> {
    /// Distance of the supports, mm.
    pub(crate) span_mm: f64,
    /// Most force of the jack, N.
    pub(crate) most_n: f64,
    /// What its feet and supports bear on.
    pub(crate) on: Bears<'a>,
    /// Whether a pad of that length (mm) may stand at x (mm) on the outside of that flange, or on the edges of both.
    pub(crate) stands: &'a dyn Fn(f64, f64, Option<Seam>) -> bool,
}

/// A jack set before heating and left alone during it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Jack {
    /// Supports on the side that is not heated, mm from the start end.
    pub supports_mm: [f64; 2],
    /// Feet on the heated side, each side of the heat, mm.
    pub feet_mm: [f64; 2],
    /// Force of both feet together, N.
    pub force_n: f64,
    /// Moment at the heat over the cold plastic moment there.
    pub ratio: f64,
    /// Wedge under the feet or supports on an inclined inner flange, rad; 0 if none is needed.
    pub wedge_rad: f64,
}

/// A place that is heated.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatPlace {
    /// Where, mm from the start end.
    pub x_mm: f64,
    /// Heats there; more than one is the exception, each in a later round.
    pub heats: u32,
    /// Its turn in the first round: from the middle out.
    pub turn: usize,
    /// Its group: places of one group may be heated while others of it cool, as their jacks stand clear of each other.
    pub group: usize,
    /// Side whose edges or flange are heated: the convex side, where a ram would push.
    pub heated: PushFrom,
    /// Vee in each flange (sweep) or in the web (camber).
    pub vee: Vee,
    /// Clear web depth (camber) or width of the narrower flange (sweep) there, mm.
    pub plate_mm: f64,
    /// Width of the strip heat across the flange at the open end of the web vee, mm; None for sweep.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// The jack.
    pub jack: Jack,
    /// Rotation of one heat, rad.
    pub rotation_rad: f64,
    /// What one heat takes off the bow at its own place, measured from the chord of the member, mm.
    pub off_the_bow_mm: f64,
}

impl HeatPlace {
    /// Turn of all its heats, rad.
    pub(crate) fn turn_rad(&self) -> f64 {
        f64::from(self.heats) * self.rotation_rad
    }
}

/// Why a place is not heated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Unfit {
    /// The supports of the jack do not fit on the member about it.
    Supports {
        /// Place, mm.
        x_mm: f64,
        /// Distance of the supports, mm.
        span_mm: f64,
    },
    /// A foot or support would stand on a splice, a stretch to keep off or what is welded there.
    Bearing {
        /// Place of the heat, mm.
        x_mm: f64,
        /// Where it would stand, mm.
        at_mm: f64,
    },
    /// Between feet clear of the heat and supports nothing is left to bend.
    Short {
        /// Place, mm.
        x_mm: f64,
        /// From a foot to its support, mm.
        arm_mm: f64,
    },
}

/// The heat at x on that side.
///
/// # Errors
/// [`Unfit`] if the jack cannot be set up there.
pub(crate) fn place(
    member: &Member,
    x_mm: f64,
    heated: PushFrom,
    response: &VeeTurn,
    most_c: f64,
    jack: &JackTools<'_>,
) -> Result<HeatPlace, Unfit> {
    let plates = member.plates_at(x_mm);
    let depth = member.depth.depth_mm(x_mm);
    let (plate_mm, thickness) = if heated.strong() {
        // a vee reaches along a taper: its shallow side counts
        let half = 0.5 * Vee::WIDEST_MM;
        let shallow = member.depth.depth_mm(x_mm - half).min(member.depth.depth_mm(x_mm + half)).min(depth);
        (shallow, plates.web_mm)
    } else {
        (plates.outer_mm.0.min(plates.inner_mm.0), plates.outer_mm.1.min(plates.inner_mm.1))
    };
    let share = if heated.strong() { WEB_SHARE } else { 1.0 };
    let vee = Vee::within(share * plate_mm, hot_strip_mm(member, thickness, most_c));
    let pads = jack.on.pads;
    let aside = 0.5 * vee.base_mm + CLEAR_OF_HEAT_MM + 0.5 * pads.ram_mm;
    let layout = PressLayout::pair(x_mm, jack.span_mm, 2.0 * aside, heated);
    let [a, b] = layout.supports_mm;
    let half_pad = 0.5 * pads.support_mm;
    if a < half_pad || b > member.length_mm - half_pad {
        return Err(Unfit::Supports { x_mm, span_mm: jack.span_mm });
    }
    let bends = if heated.strong() { depth } else { plates.outer_mm.0.max(plates.inner_mm.0) };
    let arm_mm = layout.arm_mm();
    if arm_mm < 0.5 * (pads.ram_mm + pads.support_mm) + bends {
        return Err(Unfit::Short { x_mm, arm_mm });
    }
    let feet_mm = layout.rams.both_mm();
    let [foot_on, support_on] = heated.faces();
    let (support, foot) = ((pads.support_mm, support_on), (pads.ram_mm, foot_on));
    let bearings = [(a, support), (b, support), (feet_mm[0], foot), (feet_mm[1], foot)];
    if let Some((at_mm, _)) = bearings.into_iter().find(|(at, (pad, on))| !(jack.stands)(*at, *pad, *on)) {
        return Err(Unfit::Bearing { x_mm, at_mm });
    }
    let foot_n = foot_n(member, x_mm, &layout, most_c, jack);
    let ratio = foot_n * arm_mm / plastic_n_mm(member, x_mm, heated);
    let rotation_rad = response.rotation_rad(vee.angle_deg, ratio, most_c);
    Ok(HeatPlace {
        x_mm,
        heats: 1,
        turn: 0,
        group: 0,
        heated,
        plate_mm,
        strip_mm: heated.strong().then_some(vee.base_mm),
        jack: Jack {
            supports_mm: layout.supports_mm,
            feet_mm,
            force_n: 2.0 * foot_n,
            ratio,
            wedge_rad: layout.wedge_rad(member),
        },
        rotation_rad,
        off_the_bow_mm: rotation_rad * kink_offset_mm(x_mm, x_mm, member.length_mm),
        vee,
    })
}

/// Widest hot strip of a plate that yields before it buckles out of its plane, held hot by the cold steel around it: mm.
/// b = t·√(4·π²·k_E·E/(12(1 − ν²)·k_y·f_y)), k_E and k_y of EN 1993-1-2 at the highest temperature (own limit).
fn hot_strip_mm(member: &Member, thickness_mm: f64, most_c: f64) -> f64 {
    let steel = &member.steel;
    thickness_mm * (HOT_STRIP * k_elastic(most_c) * steel.e_mpa / (k_yield(most_c) * steel.yield_mpa)).sqrt()
}

/// Force of each foot: the least of a quarter of the cold plastic moment wherever it bends, first yield of the hot section, buckling of
/// a web that is hot all over, a third of what would send the member sideways, the plates under its feet, and the jack.
fn foot_n(member: &Member, x_mm: f64, layout: &PressLayout, most_c: f64, jack: &JackTools<'_>) -> f64 {
    let from = layout.from;
    let arm = layout.arm_mm();
    let [a, b] = layout.supports_mm;
    let [first, last] = layout.rams.both_mm();
    let mut most = 0.5 * jack.most_n;
    for x in [0.5 * (a + first), first, x_mm, last, 0.5 * (last + b)] {
        most = most.min(JACK_RATIO * plastic_n_mm(member, x, from) / layout.moment_of_rams(x));
    }
    let (plates, depth) = (member.plates_at(x_mm), member.depth.depth_mm(x_mm));
    let s = properties(&plates, depth, member.depth.slope(x_mm), Parts::ALL);
    let steel = &member.steel;
    let modulus = if from.strong() {
        s.i_z_mm4 / (s.centroid_mm + plates.outer_mm.1).max(depth + plates.inner_mm.1 - s.centroid_mm)
    } else {
        2.0 * s.i_y_mm4 / plates.outer_mm.0.max(plates.inner_mm.0)
    };
    most = most.min(k_yield(most_c) * steel.yield_mpa * modulus / arm);
    if from.strong() {
        let critical = WEB_BENDING * k_elastic(most_c) * steel.e_mpa * (plates.web_mm / depth).powi(2);
        most = most.min(critical * modulus / arm);
    }
    // every bearing check grows with the force
    let bearing = checks(member, layout, &jack.on, 1.0).into_iter().map(|c| c.ratio).fold(0.0, f64::max);
    if bearing > 0.0 {
        most = most.min(1.0 / bearing);
    }
    if from.strong() {
        let held = layout.supports_mm;
        let beam = Sideways::graded(member, layout, &held, Height::PushedFlange, COARSE);
        if !beam.stands(&held, most / SIDEWAYS_SHARE)
            && let Some(critical) = beam.critical_n(&held, most / SIDEWAYS_SHARE)
        {
            most = most.min(SIDEWAYS_SHARE * critical);
        }
    }
    most
}

/// Longest element over the span of the jack: a third of a critical load asks for no more.
const COARSE: f64 = 0.21;
