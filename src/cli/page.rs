//! `weldbow page`: one HTML file with report, bench, joint and course, that opens by double click.

use super::calibrate::part_of as record_part;
use super::choose::{book_of, shop_file};
use super::ended::{BAD_INPUT, DONE, Ended, Outcome, good_of};
use super::files::{self, Target};
use super::one_of::{UNITS, one_of};
use super::straighten::sheet_of;
use super::terminal::{progress, working};
use crate::chart;
use crate::choose::{Choice, Choosing, Constraints, choose};
use crate::input::text::path as text_path;
use crate::job::file::JobFile;
use crate::job::{alone, check, read_text};
use crate::member::Seam;
use crate::prediction::{Job, outside, predict};
use crate::reading::{Diagnostics, InputFile, read_file};
use crate::units::System;
use crate::verification::{Case, CaseError, HotHold, Meshing, Options, Solved, Verified, verify};
use std::collections::BTreeMap;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};
use weldbow_page::{
    Drawn, Held, Identity, Member, Page, Reported, course_members, drawn, fingerprint, lessons, report, whole,
};

/// Arguments of `weldbow page`.
#[derive(Debug, clap::Args)]
pub(super) struct PageCommand {
    /// Job files; each gets a report and can be taken to the bench
    #[arg(required_unless_present = "course", value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Put the course in: lessons with questions, each with the bench set to it
    #[arg(long)]
    course: bool,
    /// The file to write; a page that this command wrote before is replaced
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Solve the joints at mid-length from first principles for the report (some seconds each)
    #[arg(long)]
    joints: bool,
    /// Search the weld that holds every limit for the report, with the procedures of the shop (jobs with a [demand])
    #[arg(long)]
    choose: bool,
    /// Put the straightening sheet of every job into its report, for this shop
    #[arg(long, value_name = "SHOP")]
    shop: Option<PathBuf>,
    /// Put what this record of measured pieces teaches on the page: a CSV, a spreadsheet, or a folder of them
    #[arg(long, value_name = "RECORD")]
    record: Option<PathBuf>,
    /// Drawing, for the head of the report
    #[arg(long, default_value = "", value_name = "TEXT")]
    drawing: String,
    /// Revision of the drawing
    #[arg(long, default_value = "", value_name = "TEXT")]
    revision: String,
    /// Welding procedure specification; those that the job's passes name without it
    #[arg(long, default_value = "", value_name = "TEXT")]
    wps: String,
    /// Date of the report; left open to fill in without it, so that the same jobs give the same file
    #[arg(long, default_value = "", value_name = "TEXT")]
    date: String,
    /// Show results in these units instead of the first job's own
    #[arg(long, value_parser = one_of(UNITS))]
    units: Option<System>,
    #[command(flatten)]
    over: files::Force,
}

/// One job with all its report needs.
struct Ready {
    path: PathBuf,
    name: String,
    text: String,
    file: JobFile,
    job: Job,
    drawn: Drawn,
}

impl PageCommand {
    /// Writes the page.
    ///
    /// # Errors
    /// If the file exists and is no page, or cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let target = Target::new(&self.out, files::Kind::Html, self.over.force)?;
        let (ready, bad) = good_of(self.jobs.iter().map(|path| read(path)))?;
        if bad {
            return Ok(BAD_INPUT);
        }
        let bar = if self.course { working("solving joints") } else { progress(ready.len() as u64, "jobs") };
        let page = self.page(&ready, &|| bar.inc(1));
        bar.finish_and_clear();
        let text = whole(&page?).map_err(Error::other)?;
        target.write(text.as_bytes())?;
        let size = text.len() as f64 / 1e6;
        let name = text_path(&self.out);
        writeln!(out, "{name} written, {size:.1} MB: open it in a browser, no network needed")?;
        Ok(DONE)
    }

    fn page(&self, ready: &[Ready], done: &dyn Fn()) -> Outcome<Page> {
        let system = self.units.or_else(|| ready.first().map(|one| one.job.units));
        let system = system.unwrap_or(System::Si);
        let mut page = Page {
            title: match ready {
                [] => "Welding distortion, a course".to_owned(),
                [one] => one.job.title.clone(),
                many => format!("{} members", many.len()),
            },
            units: system.pick("si", "us"),
            members: ready.iter().map(member).collect(),
            ..Page::default()
        };
        for one in ready {
            let floor = self.shop.as_ref().map(|shop| sheet_of(&one.path, shop, system)).transpose()?;
            let choice = self.choose.then(|| self.choice(one)).transpose()?;
            page.reports.push(self.report(one, &floor.unwrap_or_default(), choice.as_ref(), system)?);
            done();
        }
        if let Some(record) = &self.record {
            page.record = record_part(record, self.shop.as_deref(), system)?;
        }
        if self.course {
            page.lessons = lessons().map_err(Error::other)?;
            page.members.extend(course_members());
            (page.pictures, page.restraint) = course_pictures(system)?;
        }
        Ok(page)
    }

    /// What weld holds every limit.
    fn choice(&self, one: &Ready) -> Outcome<Choice> {
        let book = book_of(&shop_file(self.shop.as_deref())?)?;
        let wishes = Constraints::usual(one.job.units);
        let asked = Choosing { job: &one.job, file: &one.file, book: &book, wishes: &wishes };
        choose(&asked).map_err(|fault| Ended::by_file(&one.path, fault))
    }

    fn report(
        &self,
        one: &Ready,
        floor: &maud::Markup,
        choice: Option<&Choice>,
        system: System,
    ) -> Result<maud::Markup> {
        let prediction = predict(&one.job);
        let pictures = match outside(&prediction).as_slice() {
            [] => chart::pictures(&one.job, &prediction, system).map_err(Error::other)?,
            _ => Vec::new(),
        };
        let pictures: Vec<(String, String)> = pictures.into_iter().map(|p| (p.name, p.svg)).collect();
        let options = Options { quick: true, ..Options::default() };
        let seams = Seam::BOTH.into_iter().filter(|_| self.joints);
        let joints = seams.filter_map(|seam| Some(solved(&one.job, seam, &options).ok()?.result));
        let joints: Vec<Verified> = joints.collect();
        let identity = Identity {
            mark: one.name.clone(),
            drawing: self.drawing.clone(),
            revision: self.revision.clone(),
            wps: self.wps.clone(),
            date: self.date.clone(),
            version: concat!("weldbow ", env!("CARGO_PKG_VERSION")).to_owned(),
            file: format!("{}.toml", one.name),
            hash: fingerprint(&one.text),
        };
        Ok(report(&Reported {
            job: &one.job,
            prediction: &prediction,
            drawn: &one.drawn,
            identity: &identity,
            pictures: &pictures,
            joints: &joints,
            choice,
            floor,
            system,
        }))
    }
}

/// A joint at mid-length.
fn solved(job: &Job, seam: Seam, options: &Options) -> std::result::Result<Solved, CaseError> {
    verify(&Case::of(job, job.member.length_mm / 2.0, seam, options)?, options)
}

fn read(path: &Path) -> std::result::Result<Ready, Diagnostics> {
    let mut paper: InputFile<JobFile> = read_file(path)?;
    paper.text = alone(&paper).map_err(|problem| paper.complaint(vec![problem]))?;
    let job = check(&paper.shape).map_err(|problems| paper.complaint(problems))?;
    let drawn = drawn(&paper.shape, 0, 0, &[]).unwrap_or_default();
    let name = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
    Ok(Ready { path: path.to_owned(), name, text: paper.text, file: paper.shape, job, drawn })
}

fn member(one: &Ready) -> Member {
    Member { name: one.name.clone(), title: one.job.title.clone(), toml: one.text.clone() }
}

/// Drawings of the course: signs, and a joint of its first beam under every restraint of the bracket.
fn course_pictures(system: System) -> Result<(BTreeMap<String, String>, Vec<Held>)> {
    let mut pictures = BTreeMap::from([("signs".to_owned(), chart::signs().map_err(Error::other)?.svg)]);
    let beam = course_members().into_iter().next().map(|m| m.toml).unwrap_or_default();
    let job = read_text("course", &beam).map_err(|complaint| Error::other(complaint.to_string()))?;
    // restraints are solved below, so the bracket about this one is not wanted
    let options = Options { times_s: vec![1.0, 8.0, 60.0], quick: true, ..Options::default() };
    let solved = solved(&job, Seam::Outer, &options).map_err(Error::other)?;
    for picture in
        chart::joint_pictures(&job, &solved.result, &solved.outcome, system).map_err(Error::other)?
    {
        pictures.insert(picture.name.rsplit('-').next().unwrap_or(&picture.name).to_owned(), picture.svg);
    }
    pictures.retain(|name, _| ["signs", "temperatures", "stress"].contains(&name.as_str()));
    let restraint = HOLDS.into_iter().map(|hold| held(&job, hold)).collect::<Result<_>>()?;
    Ok((pictures, restraint))
}

/// Restraints of the course: never held, held until the weld is solid as cold plate about a moving arc holds it, and longer.
const HOLDS: [HotHold; 5] =
    [HotHold::None, HotHold::SOLID, HotHold::Until(700.0), HotHold::Until(300.0), HotHold::Until(30.0)];

/// Cup of the joint of a beam at mid-length under one restraint.
fn held(job: &Job, hold: HotHold) -> Result<Held> {
    let options = Options { hold, quick: true, meshing: Meshing::Coarse, ..Options::default() };
    let solved = solved(job, Seam::Outer, &options).map_err(Error::other)?;
    let cup = solved.result.passes.last().and_then(|p| p.section.cup_rad).unwrap_or_default();
    Ok(Held { hold_c: hold.release_c(), cup_deg: cup.to_degrees() })
}
