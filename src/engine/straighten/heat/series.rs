//! The heats that take a bow away.

use super::vee::SCATTER;
use super::{Response, Vee};
use crate::member::Member;
use crate::straighten::press::{Layout, PressError, PressSpan, PushFrom, best, kink_offset_mm};
use serde::Serialize;
use thiserror::Error;

/// Depth of a web vee over the clear web depth (75–100 % behave alike; FHWA manual, memory).
const WEB_SHARE: f64 = 0.75;
/// Most heats advised at one member (choice): beyond, something else is wrong.
const MOST_HEATS: usize = 60;
/// Jack ratio advised (0.25–0.50, never above; FHWA manual, memory).
const JACK_RATIO: f64 = 0.25;
/// Most places of a series.
const MOST_PLACES: usize = 8;

/// A series of vee heats at places along the member.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatSeries {
    /// Place (mm from the start end) and number of heats at it, one after the other.
    pub places: Vec<(f64, u32)>,
    /// Side whose edges or flange are heated: the convex side, where a ram would push.
    pub heated: PushFrom,
    /// Vee in each flange (sweep) or in the web (camber).
    pub vee: Vee,
    /// Width of the strip heat across the flange at the open end of the web vee, mm; None for sweep.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Moment of the jack over the plastic moment.
    pub jack_ratio: f64,
    /// Jack force midway between supports as far apart as given, N, set before heating and never pumped up during it.
    pub jack_n: f64,
    /// Rotation of one heat, rad.
    pub rotation_rad: f64,
    /// How the rotation is known.
    pub trust: &'static str,
    /// Highest temperature, °C.
    pub most_c: f64,
    /// Shortening of the member at its centroid, mm.
    pub shortening_mm: f64,
    /// Offset left at the stations if every heat turns as predicted, mm.
    pub left_mm: f64,
    /// One standard deviation of the bow taken away, mm.
    pub left_sd_mm: f64,
}

impl HeatSeries {
    /// All heats together.
    pub fn count(&self) -> u32 {
        self.places.iter().map(|p| p.1).sum()
    }
}

/// Why heat does not do it.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Blocked {
    /// The rotation of a heat is no positive number.
    #[error("a heat that turns {rad} rad takes nothing away")]
    NoRotation {
        /// Rotation, rad.
        rad: f64,
    },
    /// More heats than advised.
    #[error("{heats} heats would be needed; more than {most} are not advised")]
    TooMany {
        /// Needed.
        heats: usize,
        /// Most.
        most: usize,
    },
    /// No places leave little enough.
    #[error("no free places leave less than {left_mm:.1} mm")]
    NoPlaces {
        /// Least left, mm.
        left_mm: f64,
    },
    /// The jack cannot be worked out.
    #[error(transparent)]
    Jack(#[from] PressError),
}

/// The heats for offsets (mm, their bow positive) at stations x, to leave at most `target_mm`: N = ceil(turn needed/φ)
/// shared over the best places. Heats only at places that are `free`. The jack works midway between supports
/// `jack_span_mm` apart with at most `jack_most_n`, and never above a quarter of the plastic moment: with less a heat turns
/// less.
///
/// # Errors
/// [`Blocked`] says what stands in the way.
#[allow(clippy::too_many_arguments, reason = "each is a different thing of the shop floor")]
pub fn heats(
    member: &Member,
    x_mm: &[f64],
    offset_mm: &[f64],
    from: PushFrom,
    target_mm: f64,
    response: &Response,
    most_c: f64,
    jack_span_mm: f64,
    jack_most_n: f64,
    free: &dyn Fn(f64) -> bool,
) -> Result<HeatSeries, Blocked> {
    let (start, end) = (x_mm.first().copied().unwrap_or(0.0), x_mm.last().copied().unwrap_or(0.0));
    // stations need not reach the ends: rotations act between the first and the last
    let along: Vec<f64> = x_mm.iter().map(|x| x - start).collect();
    let length = end - start;
    let middle = 0.5 * member.length_mm;
    let plates = member.plates_at(middle);
    let wide = if from.strong() {
        WEB_SHARE * member.depth.depth_mm(middle)
    } else {
        plates.outer_mm.0.max(plates.inner_mm.0)
    };
    let vee = Vee::of_depth(wide);
    let jack =
        PressSpan::new(member, Layout::centred(middle, jack_span_mm.min(member.length_mm), from), None)?;
    let jack_n = (JACK_RATIO * jack.hinge_n()).min(jack_most_n.max(0.0));
    let jack_ratio = jack_n / jack.hinge_n();
    let rotation_rad = response.rotation_rad(vee.angle_deg, jack_ratio, most_c);
    if !(rotation_rad.is_finite() && rotation_rad > 0.0) {
        return Err(Blocked::NoRotation { rad: rotation_rad });
    }
    let mut least = f64::INFINITY;
    for count in 1..=MOST_PLACES {
        let Some(found) = best(&along, offset_mm, length, count, &|c| free(c + start)) else { break };
        let whole = rounded(&found.kinks, rotation_rad);
        let left_mm = left(&along, offset_mm, length, &whole, rotation_rad);
        least = least.min(left_mm);
        if left_mm > target_mm {
            continue;
        }
        let heats: u32 = whole.iter().map(|p| p.1).sum();
        if heats as usize > MOST_HEATS {
            return Err(Blocked::TooMany { heats: heats as usize, most: MOST_HEATS });
        }
        let bow = offset_mm.iter().fold(0.0, |m: f64, o| m.max(o.abs()));
        let n = f64::from(heats);
        return Ok(HeatSeries {
            heated: from,
            vee,
            strip_mm: from.strong().then_some(vee.base_mm),
            jack_ratio,
            jack_n,
            rotation_rad,
            trust: response.trust(),
            most_c,
            shortening_mm: n
                * rotation_rad
                * 0.5
                * if from.strong() { member.depth.depth_mm(middle) } else { wide },
            left_mm,
            left_sd_mm: SCATTER / n.sqrt() * bow,
            places: whole.into_iter().map(|(c, n)| (c + start, n)).collect(),
        });
    }
    Err(Blocked::NoPlaces { left_mm: least })
}

/// Whole heats at each place; places of none are dropped.
fn rounded(kinks: &[(f64, f64)], rotation: f64) -> Vec<(f64, u32)> {
    kinks.iter().map(|(x, angle)| (*x, (angle / rotation).round() as u32)).filter(|p| p.1 > 0).collect()
}

fn left(x_mm: &[f64], offset_mm: &[f64], length: f64, places: &[(f64, u32)], rotation: f64) -> f64 {
    x_mm.iter()
        .zip(offset_mm)
        .map(|(x, o)| {
            let gone: f64 =
                places.iter().map(|(c, n)| kink_offset_mm(*x, *c, length) * rotation * f64::from(*n)).sum();
            (o - gone).abs()
        })
        .fold(0.0, f64::max)
}
