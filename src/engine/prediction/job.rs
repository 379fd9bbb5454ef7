//! What a prediction starts from: a member, its passes and what is wanted of it. All values checked by
//! whoever builds it; the engine takes them as they are.

use super::factors::Factors;
use super::fitting::Fitting;
use super::learned::{Assembly, Learned};
use super::recorded::Recorded;
use crate::angular::hold::Hold;
use crate::bow::BowShape;
use crate::member::{Member, Seam};
use crate::numerics::{clone_in_place, parabola};
use crate::strength::{Code, Demand, Electrode, Minimum, Service};
use crate::tolerance::{Quantity, Set, Use};
use crate::units::System;
use crate::welding::{Attachment, Pass, WeldingOrder};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Relative deviations by the names of usual inputs; 0 leaves an input out.
pub type Deviations = BTreeMap<String, f64>;

/// The camber the finished member should have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedCamber {
    /// Offset at mid-length, mm, without sign; the shape is a parabola.
    pub rise_mm: f64,
    /// The flange it bows toward.
    pub toward: Seam,
}

impl WantedCamber {
    /// Wanted offset at x (mm) of a member of length L (mm); + toward the inner flange.
    pub fn offset_mm(&self, x_mm: f64, length_mm: f64) -> f64 {
        self.signed_mm() * parabola(x_mm / length_mm)
    }

    /// Wanted offset at mid-length, mm, + toward the inner flange.
    pub(super) fn signed_mm(&self) -> f64 {
        if self.toward == Seam::Inner { self.rise_mm } else { -self.rise_mm }
    }
}

impl Job {
    /// A camber less the wanted one, + toward the inner flange: what is off if the web is cut straight.
    pub(super) fn off_wanted(&self, camber: &BowShape) -> BowShape {
        let camber = camber.clone();
        match self.wanted_camber {
            Some(wanted) => camber.raised(-wanted.signed_mm()),
            None => camber,
        }
    }

    /// Thinnest and thickest plate of web and flange along a pass, mm.
    pub(crate) fn plates_along_mm(&self, pass: &Pass) -> (f64, f64) {
        let web = self.member.web.iter().map(|p| (p.from_mm, p.to_mm, p.thickness_mm));
        let flange = self.member.flange(pass.seam).iter().map(|p| (p.from_mm, p.to_mm, p.thickness_mm));
        let along = web.chain(flange).filter(|p| p.0 < pass.to_mm && p.1 > pass.from_mm);
        along.fold((f64::INFINITY, 0.0), |(thin, thick), p| (p.2.min(thin), p.2.max(thick)))
    }

    /// Numbers of the welding procedure specifications its passes name, each once in the order of laying, with its steps where
    /// there are several: "W-12 (step 1), W-13 (steps 2 and 3), none named (step 4)". Nothing if no pass names one.
    pub fn wps_said(&self) -> Option<String> {
        let mut named: Vec<(Option<&str>, Vec<u32>)> = Vec::new();
        for pass in &self.passes {
            let wps = pass.wps.as_deref();
            match named.iter_mut().find(|known| known.0 == wps) {
                Some((_, steps)) if steps.last() == Some(&pass.order) => {}
                Some((_, steps)) => steps.push(pass.order),
                None => named.push((wps, vec![pass.order])),
            }
        }
        if named.iter().all(|(wps, _)| wps.is_none()) {
            return None;
        }
        if let [(Some(only), _)] = named.as_slice() {
            return Some((*only).to_owned());
        }
        let each = |(wps, steps): &(Option<&str>, Vec<u32>)| {
            let numbers: Vec<String> = steps.iter().map(u32::to_string).collect();
            let noun = if steps.len() == 1 { "step" } else { "steps" };
            let steps = match numbers.split_last() {
                Some((last, [])) => last.clone(),
                Some((last, first)) => format!("{} and {last}", first.join(", ")),
                None => String::new(),
            };
            format!("{} ({noun} {steps})", wps.unwrap_or("none named"))
        };
        Some(named.iter().map(each).collect::<Vec<_>>().join(", "))
    }
}

/// A limit the user set, beside the standards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnLimit {
    /// What it limits.
    pub quantity: Quantity,
    /// Largest allowed size, mm, without sign.
    pub limit_mm: f64,
    /// Divisor of the member's length that it was given as ("L/500"): it follows a length that is varied.
    pub(crate) part_of_length: Option<f64>,
}

/// What the web-to-flange welds must carry, and by which rules.
#[derive(Debug, Clone, PartialEq)]
pub struct Carries {
    /// Shear and moment, or shear flow.
    pub demand: Demand,
    /// Code for the strength.
    pub code: Code,
    /// Filler metal and f_u.
    pub(crate) electrode: Electrode,
    /// Kind of load.
    pub service: Service,
    /// Stretches (from, to) where both sides must be welded, mm.
    pub(crate) both_sides_mm: Vec<(f64, f64)>,
    /// Rules for the smallest fillet.
    pub(crate) minimums: Vec<&'static Minimum>,
    /// Carbon equivalent CET of the plates, %, where it is known.
    pub(crate) cet: Option<f64>,
}

/// A checked job.
#[derive(Debug, PartialEq)]
pub struct Job {
    /// Title from the file.
    pub title: String,
    /// Units the user wants to read.
    pub units: System,
    /// The member.
    pub member: Member,
    /// Passes, sorted by order.
    pub passes: Vec<Pass>,
    /// Every order that the passes name, rising.
    pub orders: Vec<WeldingOrder>,
    /// Root gap left by fit-up, mm.
    pub fit_up_gap_mm: f64,
    /// What holds the flanges square while they are welded and cool.
    pub hold: Hold,
    /// Whether start and finish end keep both flanges from turning sideways against each other.
    pub held_ends: [bool; 2],
    /// What is welded across the member when its seams are cold, along x.
    pub attachments: Vec<Attachment>,
    /// Whether the web edges were cut by flame or plasma.
    pub thermally_cut_web: bool,
    /// Multipliers on what the model computes.
    pub factors: Factors,
    /// What the shop's own pieces say; it is in the factors and in the assembly already.
    pub learned: Option<Box<Learned>>,
    /// What plates and assembly add to all pieces alike, by the shop's record.
    pub assembly: Assembly,
    /// What they add to this piece, if it is one that was drawn.
    pub drawn: Assembly,
    /// What assembly differs by from piece to piece.
    pub fitting: Fitting,
    /// Camber wanted, if any.
    pub wanted_camber: Option<WantedCamber>,
    /// Tolerance sets to judge by.
    pub tolerances: Vec<Set>,
    /// Limits of the user's own.
    pub own_limits: Vec<OwnLimit>,
    /// What the member is used as: one standard asks.
    pub used_as: Use,
    /// Inclination the weld heads can follow, degrees.
    pub head_limit_deg: f64,
    /// What the welds must carry, if the job says; a prediction does not ask.
    pub carries: Option<Carries>,
    /// Notes made while reading the job (mismatched leg and heat …).
    pub notes: Vec<super::Warning>,
    /// How unsure its inputs are by the shop's own account, by the names that `[scatter]` takes; the usual where nothing is said.
    pub own_spread: Option<Arc<Deviations>>,
    /// The shop's record beside it, to be asked anew when passes change.
    pub recorded: Option<Arc<Recorded>>,
}

clone_in_place! {
    Job: title, units, member, passes, orders, fit_up_gap_mm, hold, held_ends, attachments, thermally_cut_web, factors, learned,
        assembly, drawn, fitting, wanted_camber, tolerances, own_limits, used_as, head_limit_deg, carries, notes, own_spread, recorded
}
