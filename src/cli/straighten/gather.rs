//! One job read, and the answer for it.

use super::advice;
use super::asked::{Asked, Logged};
use super::log;
use crate::chart::{ChartError, Picture};
use crate::input::Problem;
use crate::input::findings::mm;
use crate::job::read_in_shop;
use crate::prediction::Job;
use crate::reading::Diagnostics;
use crate::shop::measured::{Front, Measured};
use crate::shop::push_log::Pushed;
use crate::shop::{Answer, Ask, AskFault, Shop};
use crate::straighten::piece::Fabrication;
use crate::units::System;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// What the command line gives beside the jobs.
pub(super) struct Given {
    pub shop: Shop,
    /// Whether a shop file was given.
    pub(crate) own_shop: bool,
    pub measured: Option<(PathBuf, Measured)>,
    /// What is known of the piece.
    pub front: Front,
    /// Pushes made so far.
    pub log: Option<(PathBuf, Vec<Pushed>)>,
    pub making: Fabrication,
}

impl Asked {
    /// Reads a job and plans for it.
    pub(super) fn new(file: &Path, given: &Given) -> Result<Self, Diagnostics> {
        let (mut job, own) = read_in_shop(file, &given.shop)?;
        let measured = given.measured.as_ref().map(|(_, measured)| measured);
        let ask = Ask {
            job: &job,
            own: &own,
            shop: &given.shop,
            making: given.making,
            front: &given.front,
            measured,
        };
        let found = ask.answer().map_err(|fault| complaint(fault, file, &job, measured))?;
        job.member = ask.member();
        let mut asked = Self {
            file: file.to_owned(),
            shop: given.shop.clone(),
            own_shop: given.own_shop,
            measured: given.measured.as_ref().map(|(path, _)| path.clone()),
            found,
            job,
            logged: Vec::new(),
            piece: given.front.label.get("piece").map(|name| crate::input::text::short(name).into_owned()),
            hash: given.measured.as_ref().and_then(|(path, _)| fingerprint(path)),
            date: today(),
        };
        if let Some((path, log)) = &given.log {
            asked.logged = log::logged(&asked, path, log)?;
        }
        Ok(asked)
    }

    /// Pictures of the plan.
    pub(super) fn pictures(&self, system: System) -> Result<Vec<Picture>, ChartError> {
        crate::chart::straightening_pictures(&self.job, &self.found.piece, &self.found.plan, system)
    }

    /// Everything for other programs.
    pub(super) fn result(&self) -> Outcome<'_> {
        Outcome {
            file: self.file.display().to_string(),
            shape_from: if self.measured.is_some() { "measured" } else { "predicted" },
            measured: self.measured.as_ref().map(|p| p.display().to_string()),
            change_first: advice::change_first(self, self.job.units),
            summary: advice::summary(self),
            answer: self.found.answer(&self.job.title, &self.shop),
            push_log: &self.logged,
        }
    }
}

/// Fingerprint of a file, the first eight bytes of its SHA-256: a sheet is known to belong to its readings.
fn fingerprint(path: &Path) -> Option<String> {
    let bytes = std::fs::read(path).ok()?;
    Some(format!("{:.16x}", Sha256::digest(&bytes)))
}

/// Today, or the day of SOURCE_DATE_EPOCH if that is set, so that a sheet can be made again to the letter.
fn today() -> String {
    let set = std::env::var("SOURCE_DATE_EPOCH").ok().and_then(|s| s.parse::<i64>().ok());
    let now =
        std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).map_or(0, |d| d.as_secs() as i64);
    chrono::DateTime::from_timestamp(set.unwrap_or(now), 0)
        .map_or(String::new(), |d| d.date_naive().to_string())
}

/// A fault at its place: in the readings, on the command line, or in the job.
fn complaint(fault: AskFault, file: &Path, job: &Job, measured: Option<&Measured>) -> Diagnostics {
    let length_mm = job.member.length_mm;
    let about = |found: &str, wanted: String| {
        Diagnostics::whole(&file.display().to_string(), Problem::new("", found, wanted))
    };
    match fault {
        AskFault::KeepOff { to_mm } => {
            let wanted = format!("a stretch on the member, which is {} long", mm(length_mm));
            let problem = Problem::new("keep off", format!("a stretch to {}", mm(to_mm)), wanted);
            let in_file = measured.and_then(|m| m.complaint_at("keep off", problem.clone()));
            in_file.unwrap_or_else(|| Diagnostics::whole("--note", problem))
        }
        AskFault::Readings(complaint) => *complaint,
        AskFault::Outside { why } => about("a job outside what the model covers", why),
        other => about(&other.to_string(), "a member that can be predicted".to_owned()),
    }
}

/// The names other programs rely on.
#[derive(Serialize)]
pub(super) struct Outcome<'a> {
    file: String,
    shape_from: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<String>,
    change_first: Vec<String>,
    summary: String,
    #[serde(flatten)]
    answer: Answer<'a>,
    #[serde(skip_serializing_if = "<[Logged]>::is_empty")]
    push_log: &'a [Logged],
}
