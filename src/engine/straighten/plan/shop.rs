//! What the shop has and what its time costs.

use crate::member::{Member, Seam};
use crate::straighten::decide::{Family, Limits, Situation};
use crate::straighten::flange::Torch;
use crate::straighten::heat::{VeeModel, VeeTurn, most_c};
use crate::straighten::press::{Bears, Guides, Pads, Stiffener, WeldStress};
use crate::straighten::shape::{OutOfStraight, Toes};
use crate::units::Message;
use crate::welding::Attachment;
use serde::Serialize;

/// A press for whole members.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Press {
    /// Shortest and longest distance of supports, mm.
    pub spans_mm: (f64, f64),
    /// Most force of one ram, N.
    pub most_n: f64,
    /// Longest stroke, mm.
    pub most_stroke_mm: f64,
    /// Distance of its two rams, mm; None if it has one.
    pub rams_apart_mm: Option<f64>,
    /// Pads under rams and supports, and the weld they stand on.
    pub pads: Pads,
    /// Give of frame and packing, mm per N of all rams.
    pub give_mm_per_n: f64,
    /// Largest κ/κ_y of a push: 5 normal, up to 10 with a caution, never more (choice).
    pub most_mu: f64,
    /// Judge the web by the patch load of EN 1993-1-5 as well.
    pub patch: bool,
    /// What keeps a member from going sideways.
    pub guides: Guides,
}

/// Rollers or dies that bend a flange back.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Roller {
    /// Width of flange that bends, mm.
    pub bend_mm: f64,
    /// Arm of the force from the web face, mm.
    pub arm_mm: f64,
    /// Contact length along the member, mm.
    pub contact_mm: f64,
    /// Most force, N.
    pub most_n: f64,
}

/// Torches.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HeatTools {
    /// How much a vee heat turns.
    pub response: VeeTurn,
    /// Distance of the supports the jack works between, mm.
    pub jack_span_mm: f64,
    /// Most force of the jack, N.
    pub jack_most_n: f64,
    /// Torch for lines along a flange.
    pub torch: Torch,
    /// Most places heated in turn while others cool, each with a jack of its own.
    pub interleaved: u32,
}

impl HeatTools {
    /// Recalled vee coefficients, jack of 200 kN over 4 m, line of 500 J/mm, two places in turn (choices).
    pub const USUAL: Self = Self {
        response: VeeTurn::Model(VeeModel::RECALLED),
        jack_span_mm: 4000.0,
        jack_most_n: 200e3,
        torch: Torch { heat_j_per_mm: 500.0, inherent: crate::straighten::flange::INHERENT[0] },
        interleaved: 2,
    };
}

/// Minutes and money. The default is a set of placeholders: no published time or cost of straightening one member of a building
/// was found, so put in your own.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Rates {
    /// Whether these are the placeholders.
    pub placeholders: bool,
    /// Money per hour, crew and place together.
    pub per_hour: f64,
    /// Money for what heat uses up, per heat.
    pub per_heat: f64,
    /// Minutes to set a press up.
    pub press_setup_min: f64,
    /// Minutes to move the member to the next place.
    pub position_min: f64,
    /// Pushes at a place until it is right.
    pub pushes_a_place: f64,
    /// Minutes of one push.
    pub push_min: f64,
    /// Minutes of one measurement.
    pub measure_min: f64,
    /// Minutes to measure a piece the first time: camber, sweep and toes.
    pub first_measure_min: f64,
    /// Minutes to set up for heat.
    pub heat_setup_min: f64,
    /// Minutes of fire of one heat.
    pub fire_min: f64,
    /// Minutes of cooling before the next heat at a place.
    pub cool_min: f64,
    /// Metres a minute of a roller or a line of heat.
    pub line_m_per_min: f64,
    /// Money to cut the seams, fit and weld again, and test.
    pub rework: f64,
}

impl Rates {
    /// Placeholders (choice, no source).
    pub const PLACEHOLDERS: Self = Self {
        placeholders: true,
        per_hour: 100.0,
        per_heat: 2.0,
        press_setup_min: 15.0,
        position_min: 5.0,
        pushes_a_place: 2.5,
        push_min: 1.0,
        measure_min: 2.0,
        first_measure_min: 10.0,
        heat_setup_min: 20.0,
        fire_min: 3.0,
        cool_min: 20.0,
        line_m_per_min: 0.5,
        rework: 900.0,
    };
}

/// Everything the shop brings.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Equipment {
    /// Press for whole members.
    pub press: Option<Press>,
    /// Rollers for flanges.
    pub roller: Option<Roller>,
    /// Torches.
    pub heat: Option<HeatTools>,
    /// Times and money.
    pub rates: Rates,
}

/// Limits of the piece, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Goals {
    /// Of the camber less the wanted one.
    pub camber: Limits,
    /// Of the sweep.
    pub sweep: Limits,
    /// Of a flange toe from its square line, tilt and cup together.
    pub toe: Limits,
    /// Of a flange toe by cup alone.
    pub cup: Limits,
    /// Of a flange toe by tilt alone.
    pub tilt: Limits,
}

impl Goals {
    /// Nothing limited.
    pub const NONE: Self = Self {
        camber: Limits::NONE,
        sweep: Limits::NONE,
        toe: Limits::NONE,
        cup: Limits::NONE,
        tilt: Limits::NONE,
    };

    /// The offsets of a flange that are judged, mm, each with its limits.
    pub(crate) fn of_toes(&self, toes: &Toes) -> [(f64, Limits); 4] {
        let (cup, tilt) = (0.5 * (toes.near_mm + toes.far_mm), 0.5 * (toes.near_mm - toes.far_mm));
        [(toes.near_mm, self.toe), (toes.far_mm, self.toe), (cup, self.cup), (tilt, self.tilt)]
    }

    /// What the limits leave for the cup of a flange with those toes, mm: a toe is out by cup and tilt together, a cup by itself.
    pub(super) fn room_mm(&self, toes: &Toes) -> f64 {
        let size = |l: &Limits| l.highest.min(-l.lowest);
        let tilt = 0.5 * (toes.near_mm - toes.far_mm).abs();
        size(&self.cup).min(size(&self.toe) - tilt).max(0.0)
    }
}

/// Records of the family the piece belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Records {
    /// Of camber.
    pub camber: Option<Family>,
    /// Of sweep.
    pub sweep: Option<Family>,
}

/// One piece on the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Task<'a> {
    /// The member.
    pub member: &'a Member,
    /// Its offsets; camber is what differs from the wanted one.
    pub shape: &'a OutOfStraight,
    /// How often it was measured independently.
    pub measurements: u32,
    /// Its limits.
    pub goals: Goals,
    /// The shop.
    pub shop: Equipment,
    /// What is known of the piece.
    pub situation: Situation,
    /// Stress its seams have locked in, for the range of a push.
    pub weld: WeldStress,
    /// Stretches not to be pushed or heated (stiffeners, holes), mm.
    pub keep_off_mm: &'a [(f64, f64)],
    /// Stiffeners that a pad may bear on.
    pub stiffeners: &'a [Stiffener],
    /// What is welded across the finished member: no pad stands on a cleat or on the welds of an end plate.
    pub attachments: &'a [Attachment],
    /// Records of its family.
    pub records: Records,
}

/// How far beside a ram a push about the weak axis yields, mm: the moment falls to that at first yield of a flange, two thirds of its
/// plastic one, a third of the way to a support 1.5 m off (derived for supports 3 m apart, and kept for others: a choice).
pub(super) const BESIDE_MM: f64 = 500.0;

impl Task<'_> {
    /// What pads of a press bear on.
    pub(crate) fn bears_on(&self, press: &Press) -> Bears<'_> {
        Bears { pads: press.pads, patch: press.patch, stiffeners: self.stiffeners }
    }

    /// Whether x is clear of ends, splices and kept-off stretches: by one depth of the member, or for a bend about the weak axis by the
    /// larger of the wider flange and 500 mm where that is less.
    pub(crate) fn is_free(&self, x_mm: f64, strong: bool) -> bool {
        let m = self.member;
        let plates = m.plates_at(x_mm);
        let depth = m.depth.depth_mm(x_mm) + plates.outer_mm.1 + plates.inner_mm.1;
        let beside = plates.outer_mm.0.max(plates.inner_mm.0).max(BESIDE_MM);
        let clear = if strong { depth } else { depth.min(beside) };
        [0.0, m.length_mm].into_iter().chain(self.splices_mm()).all(|place| (x_mm - place).abs() >= clear)
            && !self.keep_off_mm.iter().any(|(from, to)| x_mm >= *from && x_mm <= *to)
    }

    /// Whether a pad of that length may stand at x, on the outside of that flange or on the edges of both: clear of splices, of kept-off
    /// stretches and of what is welded on there. (A kink keeps further off.)
    pub(crate) fn bears(&self, x_mm: f64, pad_mm: f64, face: Option<Seam>) -> bool {
        self.in_the_way(x_mm, pad_mm, face).is_none()
    }

    /// What such a pad would stand on, in words.
    pub(super) fn in_the_way(&self, x_mm: f64, pad_mm: f64, face: Option<Seam>) -> Option<Message> {
        let half = 0.5 * pad_mm;
        if self.splices_mm().any(|place| (x_mm - place).abs() < half)
            || self.keep_off_mm.iter().any(|(from, to)| x_mm + half > *from && x_mm - half < *to)
        {
            return Some("a splice or a stretch to keep off".into());
        }
        let under = |a: &&Attachment| {
            let outside = face.and_then(|seam| a.outside_mm(seam));
            outside.is_some_and(|reach| (x_mm - a.at_mm).abs() < half + reach)
        };
        self.attachments.iter().find(under).map(Attachment::told)
    }

    /// Where its plates end, mm.
    fn splices_mm(&self) -> impl Iterator<Item = f64> {
        let m = self.member;
        m.web.iter().map(|p| p.to_mm).chain(m.outer_flange.iter().chain(&m.inner_flange).map(|p| p.to_mm))
    }

    /// Hottest its steel may be made, °C; None where nobody knows.
    pub(super) fn most_c(&self) -> Option<f64> {
        most_c(self.situation.delivery.planned(self.member.steel.yield_mpa))
    }

    /// Thickest plate of the member, mm.
    pub(crate) fn thickest_mm(&self) -> f64 {
        let m = self.member;
        let flanges = m.outer_flange.iter().chain(&m.inner_flange).map(|p| p.thickness_mm);
        m.web.iter().map(|p| p.thickness_mm).chain(flanges).fold(0.0, f64::max)
    }
}
