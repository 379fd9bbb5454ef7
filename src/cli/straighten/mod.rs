//! `weldbow straighten`: does a member need straightening, and how?
//!
//! `gather` reads files and asks the engine; `words` says a step as a foreman reads it, `advice` what to change first, `show`
//! prints, `sheet` makes the page for the floor.

mod advice;
mod gather;
mod sheet;
mod show;
mod words;

use super::{BAD_INPUT, BAD_USAGE, DONE, Units, complain_on_stderr, files};
use crate::form::Complaint;
use crate::shop;
use crate::shop::measured::{self, Front};
use crate::units::System;
use gather::{Asked, Given};
use rayon::prelude::*;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Arguments of `weldbow straighten`.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Notes on the piece (--piece, or # lines of a measured file): delivery, service, state, keep off, \
    steel temperature, straightened before, approved procedure, measurements, camber record, sweep record \
    (mean, scatter and number of earlier pieces of the family).\n\
    Without --measured the predicted shape is planned for. A plan that cannot be made is a result: it names the limit and what helps."
)]
pub struct Straighten {
    /// Job files
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Measured offsets of one piece (CSV: x [m], camber [mm], sweep [mm], toes), instead of the predicted ones
    #[arg(long, value_name = "CSV")]
    measured: Option<PathBuf>,
    /// What the shop has and what its time costs (`weldbow new --shop` writes one)
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
    /// The web was cut to the ordinates that `weldbow predict` prints
    #[arg(long)]
    web_cut: bool,
    /// The flanges were preset as `weldbow predict` prints
    #[arg(long)]
    preset: bool,
    /// What is known of the piece, as "delivery: unknown" or "keep off: 4.9 m to 5.2 m"; may be repeated
    #[arg(long, value_name = "KEY: VALUE")]
    piece: Vec<String>,
    /// Print JSON (engine units)
    #[arg(long)]
    json: bool,
    /// Draw charts into this folder, as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    /// Write a page to print for the floor
    #[arg(long, value_name = "FILE.html")]
    sheet: Option<PathBuf>,
    /// Show results in these units instead of the job's own
    #[arg(long, value_enum)]
    units: Option<Units>,
}

impl Straighten {
    /// Plans every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output, a chart or the sheet cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        if self.measured.is_some() && self.jobs.len() > 1 {
            let said = "--measured is one piece: give one job with it";
            writeln!(std::io::stderr(), "weldbow: {said}")?;
            return Ok(BAD_USAGE);
        }
        let given = match self.given() {
            Ok(given) => given,
            Err(complaints) => {
                for complaint in &complaints {
                    complain_on_stderr(complaint)?;
                }
                return Ok(BAD_INPUT);
            }
        };
        let read: Vec<_> = self.jobs.par_iter().map(|file| Asked::new(file, &given)).collect();
        let (mut all, mut status) = (Vec::new(), DONE);
        for one in read {
            match one {
                Ok(asked) => all.push(asked),
                Err(complaint) => {
                    status = BAD_INPUT;
                    complain_on_stderr(&complaint)?;
                }
            }
        }
        if self.json {
            self.print_json(&all, out)?;
        } else {
            for (i, asked) in all.iter().enumerate() {
                if i > 0 {
                    writeln!(out, "\n{}", "─".repeat(80))?;
                }
                show::report(asked, self.system(asked), out)?;
            }
        }
        self.leave(&all, out)?;
        Ok(status)
    }

    fn system(&self, asked: &Asked) -> System {
        self.units.map_or(asked.job.units, System::from)
    }

    /// Everything but the jobs; every file's mistakes at once.
    fn given(&self) -> std::result::Result<Given, Vec<Complaint>> {
        let mut complaints = Vec::new();
        let mut keep = |complaint: Complaint| complaints.push(complaint);
        let shop = match &self.shop {
            None => Some(shop::Shop::usual()),
            Some(path) => shop::read_path(path).map_err(&mut keep).ok(),
        };
        let mut measured = match &self.measured {
            None => Some(None),
            Some(path) => measured::read_path(path).map_err(&mut keep).ok().map(Some),
        };
        let mut front = match &mut measured {
            Some(Some(m)) => std::mem::take(&mut m.front),
            _ => Front::default(),
        };
        let notes = measured::read_notes("--piece", &self.piece, &mut front).map_err(&mut keep).ok();
        match (shop, measured, notes) {
            (Some(shop), Some(mut measured), Some(())) => {
                if let Some(m) = &mut measured {
                    m.front = front.clone();
                }
                Ok(Given {
                    shop,
                    own_shop: self.shop.is_some(),
                    measured: measured.map(|m| (self.measured.clone().unwrap_or_default(), m)),
                    front,
                    web_cut: self.web_cut,
                    preset: self.preset,
                })
            }
            _ => Err(complaints),
        }
    }

    fn print_json(&self, all: &[Asked], out: &mut dyn Write) -> Result<()> {
        match all {
            [one] if self.jobs.len() == 1 => serde_json::to_writer_pretty(&mut *out, &one.result())?,
            [] if self.jobs.len() == 1 => return Ok(()),
            many => {
                let results: Vec<_> = many.iter().map(Asked::result).collect();
                serde_json::to_writer_pretty(&mut *out, &results)?;
            }
        }
        writeln!(out)
    }

    /// Charts and the sheet.
    fn leave(&self, all: &[Asked], out: &mut dyn Write) -> Result<()> {
        if let Some(path) = &self.sheet
            && !all.is_empty()
        {
            let pages: Result<Vec<_>> =
                all.iter().map(|a| sheet::page(a, self.system(a)).map_err(Error::other)).collect();
            files::write_whole(path, sheet::whole(&pages?).as_bytes())?;
            if !self.json {
                writeln!(out, "\nsheet for the floor: {}", path.display())?;
            }
        }
        let Some(folder) = &self.charts else { return Ok(()) };
        files::folder(folder)?;
        let mut drawn = 0;
        for asked in all {
            let stem = asked.file.file_stem().unwrap_or(asked.file.as_os_str()).to_string_lossy();
            for picture in asked.pictures(self.system(asked)).map_err(Error::other)? {
                let path = |ending: &str| folder.join(format!("{stem}-{}.{ending}", picture.name));
                files::write_whole(&path("svg"), picture.svg.as_bytes())?;
                files::write_whole(&path("png"), &crate::chart::png(&picture.svg).map_err(Error::other)?)?;
                drawn += 1;
            }
        }
        if self.json {
            Ok(())
        } else {
            writeln!(out, "\n{drawn} charts (SVG and PNG) in {}", folder.display())
        }
    }
}

/// The page for the floor of one job's predicted shape, with a shop's file or the usual shop.
///
/// # Errors
/// What is wrong with the shop's file or the job; a picture that cannot be drawn.
pub fn sheet_of(file: &Path, shop: &Path, system: System) -> std::result::Result<maud::Markup, SheetFault> {
    let given = Given {
        shop: shop::read_path(shop).map_err(|c| SheetFault::File(Box::new(c)))?,
        own_shop: true,
        measured: None,
        front: Front::default(),
        web_cut: false,
        preset: false,
    };
    let asked = Asked::new(file, &given).map_err(|c| SheetFault::File(Box::new(c)))?;
    sheet::page(&asked, system).map_err(SheetFault::Picture)
}

/// Why there is no sheet.
#[derive(Debug)]
pub enum SheetFault {
    /// Mistakes in a file.
    File(Box<Complaint>),
    /// A picture.
    Picture(crate::chart::ChartError),
}
