//! Everything that is cut for one member.

use crate::strips::{Strip, strips};
use crate::web::Web;
use weldbow_engine::prediction::{CutPiece, Job, Prediction};
use weldbow_engine::units::{Message, System};

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
    /// Why the edges of the web are straight, if they are.
    pub why_straight: Option<Message>,
    /// What the web is cut for.
    aim: Message,
    /// Two standard deviations of the largest ordinate, mm.
    pub ordinate_2s_mm: f64,
    /// Mass of the member, kg.
    pub mass_kg: f64,
}

impl Plates {
    /// How ordinates of a bowed web are to be read.
    pub fn cut_how(&self, system: System) -> String {
        format!(
            "cut to the opposite bow, {}; ordinates from the straight line through the ends of the outer edge, + toward the inner flange",
            self.aim.in_units(system)
        )
    }

    /// Of a checked job and its prediction. The web is cut to the opposite bow where that is worth it
    /// ([`weldbow_engine::prediction::Allowance::cuts_the_web`]), else straight.
    pub fn of(job: &Job, prediction: &Prediction) -> Self {
        let allowance = &prediction.allowance;
        Self {
            title: job.title.clone(),
            web: Web::of(job, &allowance.web, allowance.cuts_the_web()),
            strips: strips(&job.member, &allowance.pieces),
            pieces: allowance.pieces.clone(),
            why_straight: allowance.why_straight(),
            aim: job.aim(),
            ordinate_2s_mm: prediction.camber.max_2s_mm,
            mass_kg: prediction.mass_kg,
        }
    }
}
