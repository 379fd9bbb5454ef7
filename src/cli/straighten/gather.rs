//! One piece of a job: what is read for it, whether the readings are of it, and what its log says of the pushes made.

use super::advice;
use super::asked::{Asked, Logged};
use super::word::stops;
use super::words::reading_of;
use crate::chart::{ChartError, Picture};
use crate::cli::cut;
use crate::cli::whose::{Label, Whose, not_listed};
use crate::input::findings::mm;
use crate::input::{Problem, text};
use crate::job::read_in_shop;
use crate::prediction::Job;
use crate::reading::Diagnostics;
use crate::shop::measured::{Front, Measured};
use crate::shop::push_log::Pushed;
use crate::shop::{Answer, Ask, AskFault, Shop};
use crate::straighten::piece::Fabrication;
use crate::straighten::plan::{Next, Odd, Push, Work, next, yield_mpa};
use crate::units::{System, show};
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
        let mut job = read_in_shop(file, &given.shop)?;
        let measured = given.measured.as_ref().map(|(_, measured)| measured);
        let ask = Ask { job: &job, shop: &given.shop, making: given.making, front: &given.front, measured };
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
            piece: given.front.label.get("piece").map(|name| text::short(name).into_owned()),
            hash: given.measured.as_ref().and_then(|(path, _)| fingerprint(path)),
            date: today(),
        };
        if let Some((path, log)) = &given.log {
            asked.logged = logged(&asked, path, log)?;
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

/// Holds the job that the front of the readings names (`# job:`, or `# mark:` with `# marks:`) against the one of the command line.
///
/// # Errors
/// If they are two, or if the list of marks does not say.
pub(super) fn member(given: &Given, job: &Path) -> Result<(), Diagnostics> {
    let label = |key: &str| given.front.label.get(key).map(String::as_str);
    let (named, mark, marks) = (label("job"), label("mark"), label("marks"));
    let key = if named.is_some() { "job" } else { "mark" };
    // what comes through a pipe has no name to compare
    if (named.is_none() && mark.is_none()) || !job.is_file() {
        return Ok(());
    }
    let complaint = |key: &str, problem: Problem| {
        let in_file = given.measured.as_ref().and_then(|(_, m)| m.complaint_at(key, problem.clone()));
        in_file.unwrap_or_else(|| Diagnostics::whole("--note", problem))
    };
    let stands_in_file = given.measured.as_ref().filter(|(_, m)| m.gives(key));
    let folder = stands_in_file.and_then(|(path, _)| path.parent()).unwrap_or(Path::new(""));
    let written = named.or(mark).unwrap_or_default();
    let whose = Whose::of(&Label { job: named.unwrap_or_default(), mark: written, marks }, folder);
    let measured = match whose {
        Ok(Whose::Job(path)) => path,
        Ok(Whose::Mark(list, mark)) => of_mark(&list, &mark).map_err(|fault| match fault {
            Fault::List(complaint) => complaint,
            Fault::Mark(problem) => complaint("mark", problem),
        })?,
        // a file that lies elsewhere by now still has its name
        Err(_) if named.is_some() => folder.join(written),
        Err((problem, _)) if marks.is_some() => return Err(complaint("marks", problem)),
        // a mark by itself says nothing of the job
        Err(_) => return Ok(()),
    };
    if same(&measured, job) {
        return Ok(());
    }
    let here = std::env::current_dir().and_then(|here| here.canonicalize()).unwrap_or_default();
    let (own, asked) = (text::path(measured.strip_prefix(&here).unwrap_or(&measured)), text::path(job));
    let found = match named {
        Some(_) => format!("`{}`, where the readings are judged as those of {asked}", text::short(written)),
        None => {
            format!(
                "`{}`, a mark of {own}, where the readings are judged as those of {asked}",
                text::short(written)
            )
        }
    };
    let wanted = format!(
        "readings of the member that is judged: give that job (`weldbow straighten {own} …`), or mend this line if the piece is one of {asked}"
    );
    Err(complaint(key, Problem::new(key, found, wanted)))
}

/// Whether two paths are one file; of a file that is not there only the name is compared.
fn same(measured: &Path, job: &Path) -> bool {
    match (measured.canonicalize(), job.canonicalize()) {
        (Ok(measured), Ok(job)) => measured == job,
        _ => measured.file_name() == job.file_name(),
    }
}

/// What keeps a list from saying the job of a mark.
enum Fault {
    List(Diagnostics),
    Mark(Problem),
}

/// The job file of a mark.
fn of_mark(list: &Path, mark: &str) -> Result<PathBuf, Fault> {
    let mut jobs = cut::jobs_of(list).map_err(Fault::List)?;
    let names: Vec<&str> = jobs.iter().map(|(mark, _)| mark.as_str()).collect();
    let Some(at) = names.iter().position(|name| *name == mark) else {
        return Err(Fault::Mark(not_listed(mark, list, &names)));
    };
    Ok(jobs.swap_remove(at).1)
}

/// Every place of the log.
///
/// # Errors
/// A step that is no push of the plan.
pub(crate) fn logged(asked: &Asked, path: &Path, log: &[Pushed]) -> Result<Vec<Logged>, Diagnostics> {
    let one = |pushed: &Pushed| {
        let push = push(asked, pushed.step).ok_or_else(|| {
            let found = format!("readings of step {}", pushed.step);
            let problem = Problem::new(
                "step",
                found,
                "a step of this plan that is a push; log and plan are of one measured file",
            );
            Diagnostics::whole(&path.display().to_string(), problem)
        })?;
        Ok(Logged {
            step: pushed.step,
            pushes: pushed.readings.len(),
            yield_mpa: yield_mpa(push, &asked.job.member, asked.found.piece.weld, &pushed.readings),
            next: next(push, &pushed.readings),
        })
    };
    log.iter().map(one).collect()
}

fn push(asked: &Asked, number: usize) -> Option<&Push> {
    let mut steps = asked.found.plan.chosen.iter().flat_map(|c| &c.way.steps);
    match &steps.find(|s| s.number == number)?.work {
        Work::Push(push) => Some(push),
        _ => None,
    }
}

/// One place in words.
pub(crate) fn next_push(logged: &Logged, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    let steel = logged.yield_mpa.map_or(String::new(), |y| {
        format!(
            " The steel yields at about {} to {} (without and with stress in the seams).",
            show::stress(y.low, system),
            show::stress(y.high, system)
        )
    });
    let what = match &logged.next {
        Next::Enough => "the wanted set is reached: stop.".to_owned(),
        Next::TooMuch { over_mm } => {
            format!(
                "the set is {} more than wanted: stop, log it, measure the piece and plan anew. Do not push back by this plan.",
                mm(*over_mm)
            )
        }
        Next::Again(again) => format!(
            "push {}: stop where force and travel from the new rest meet on this line: {}. Without a force gauge: travel {} ({} to {}; the lower \
             end never goes too far). {} are missing.",
            again.number,
            stops(&again.stops, system),
            mm(again.travel_mm),
            mm(again.band_mm.low),
            mm(again.band_mm.high),
            mm(again.missing_mm)
        ),
        Next::GiveUp { missing_mm } => {
            format!(
                "three pushes left {} missing: stop, measure the piece and plan anew with the yield found here.",
                mm(*missing_mm)
            )
        }
        Next::ReadAgain { number, why } => {
            format!("push {number}: {} Read again before anything is pushed.", odd(why, system))
        }
    };
    format!("Step {}, {}: {what}{steel}", logged.step, reading_of(logged.pushes))
}

fn odd(why: &Odd, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    match why {
        Odd::SetFell => "the set in all is less than before it.".to_owned(),
        Odd::MoreThanTravel => "the set is more than the ram travelled.".to_owned(),
        Odd::Springback { read_mm, expected_mm } => format!(
            "it sprang back by {}, the force asks for {}: travel, force or set is misread, or a support slips.",
            mm(*read_mm),
            mm(*expected_mm)
        ),
        Odd::Force { read_n, most_n } => {
            format!(
                "{} read, never more than {} allowed: stop.",
                show::force(*read_n, system),
                show::force(*most_n, system)
            )
        }
    }
}
