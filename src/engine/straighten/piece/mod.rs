//! What planning needs of one member: the limits its job names, its offsets as predicted or as measured, the stress its seams
//! have locked in, and how likely a piece of the kind needs straightening at all.

mod chance;
mod goals;
mod measuring;
mod predicted;
mod thermal;

pub(crate) use chance::judged_as;
pub use chance::{Expected, expected};
pub use goals::{Judged, Named, goals};
pub use measuring::Measuring;
pub use predicted::{Fabrication, far_end, predicted, recorded_bow, weld_stress};
pub use thermal::thermal_bow_mm;

use crate::member::Member;
use crate::prediction::{Job, Prediction};
use crate::straighten::decide::Situation;
use crate::straighten::plan::{Decision, Equipment, Goals, Plan, Records, Task, decisions, make};
use crate::straighten::press::{Stiffener, WeldStress};
use crate::straighten::shape::OutOfStraight;
use crate::welding::Attachment;

/// One piece, ready to be planned for.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its offsets; camber is what differs from the wanted one.
    pub shape: OutOfStraight,
    /// How often it was measured independently.
    pub measurements: u32,
    /// Its limits.
    pub goals: Goals,
    /// The shop, with the leg of the job under its pads.
    pub shop: Equipment,
    /// What is known of the piece.
    pub situation: Situation,
    /// Stress its seams have locked in.
    pub weld: WeldStress,
    /// Stretches not to be pushed or heated, mm.
    pub keep_off_mm: Vec<(f64, f64)>,
    /// Stiffeners that a pad may bear on.
    pub stiffeners: Vec<Stiffener>,
    /// What the job welds across it.
    pub attachments: Vec<Attachment>,
    /// What is known of its family.
    pub records: Records,
}

impl Piece {
    /// A piece of that shape in a shop with those tools: an ordinary building member, measured once, nothing known of its
    /// family.
    pub fn of(
        job: &Job,
        prediction: &Prediction,
        shape: OutOfStraight,
        goals: Goals,
        tools: &Equipment,
    ) -> Self {
        Self {
            shape,
            measurements: 1,
            goals,
            shop: shop_for(tools, job),
            situation: Situation::USUAL,
            weld: weld_stress(job, prediction),
            keep_off_mm: Vec::new(),
            stiffeners: Vec::new(),
            attachments: job.attachments.clone(),
            records: Records::default(),
        }
    }

    /// What planning starts from.
    pub(crate) fn task<'a>(&'a self, member: &'a Member) -> Task<'a> {
        Task {
            member,
            shape: &self.shape,
            measurements: self.measurements,
            goals: self.goals,
            shop: self.shop,
            situation: self.situation,
            weld: self.weld,
            keep_off_mm: &self.keep_off_mm,
            stiffeners: &self.stiffeners,
            attachments: &self.attachments,
            records: self.records,
        }
    }

    /// What to do with each of its quantities.
    pub fn decisions(&self, member: &Member) -> Vec<Decision> {
        decisions(&self.task(member))
    }

    /// What to do with it, and how.
    pub fn plan(&self, member: &Member) -> Plan {
        make(&self.task(member))
    }
}

/// The shop with the smallest leg of a job's passes under its pads: the weld k = t_f + leg that AISC 360-22 J10.2 spreads a
/// force through.
pub fn shop_for(shop: &Equipment, job: &Job) -> Equipment {
    let leg = job.passes.iter().map(|p| p.leg_mm).fold(f64::INFINITY, f64::min);
    let mut shop = *shop;
    if let Some(press) = &mut shop.press {
        press.pads.leg_mm = if leg.is_finite() { leg } else { 0.0 };
    }
    shop
}
