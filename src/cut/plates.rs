//! Everything that is cut for one member.

use crate::strips::{Strip, strips};
use crate::web::Web;
use weldbow_engine::prediction::{CutPiece, Job, Prediction, web_curve};

/// The plates of one member.
#[derive(Debug, Clone, PartialEq)]
pub struct Plates {
    /// Title of the job.
    pub title: String,
    /// The web.
    pub web: Web,
    /// The flanges, outer first.
    pub strips: Vec<Strip>,
    /// Every plate with what its length is made of, as the prediction has it.
    pub pieces: Vec<CutPiece>,
    /// Two standard deviations of the largest ordinate, mm.
    pub ordinate_2s_mm: f64,
    /// Mass of the member, kg.
    pub mass_kg: f64,
}

impl Plates {
    /// Of a checked job and its prediction. The web is cut to the opposite bow where that is worth it
    /// ([`weldbow_engine::prediction::Allowance::cuts_the_web`]), else straight.
    pub fn of(job: &Job, prediction: &Prediction) -> Self {
        let allowance = &prediction.allowance;
        Self {
            title: job.title.clone(),
            web: Web::of(job, &web_curve(job), allowance.cuts_the_web()),
            strips: strips(&job.member, &allowance.pieces),
            pieces: allowance.pieces.clone(),
            ordinate_2s_mm: prediction.camber.max_2s_mm,
            mass_kg: prediction.mass_kg,
        }
    }
}
