//! `weldbow straighten`: does a member need straightening, and how?
//!
//! `gather` reads files, holds the readings against the job, asks the engine and reads what the pushes made so far say; `words` says a step as a foreman reads it, `advice` what to change first, `show`
//! prints, `sheet` makes the foreman's pages and `engineer` the
//! engineer's; `piece` says what is known of the piece.

mod advice;
mod asked;
mod engineer;
mod framed;
mod gather;
mod heat_words;
mod piece;
mod sheet;
mod show;
mod word;
mod words;

pub(crate) use words::ground;

use super::ended::{BAD_INPUT, DONE, Ended, Outcome, good_of};
use super::files;
use crate::cli::presented::{Presented, json};
use crate::cli::show::Report;
use crate::reading::Diagnostics;
use crate::shop;
use crate::shop::measured::{self, Front};
use crate::straighten::piece::Fabrication;
use crate::units::System;
use asked::Asked;
use files::{Kind, Target};
use gather::Given;
use rayon::prelude::*;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Arguments of `weldbow straighten`.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Notes on the piece (--note, or # lines of a measured file): delivery, service, state, keep off, \
    stiffener at, yield, steel temperature, straightened before, approved procedure, measurements, camber record, sweep record \
    (mean, scatter and number of earlier pieces of the family).\n\
    Without --measured the predicted shape is planned for. A plan that cannot be made is a result: it names the limit and what helps."
)]
pub(super) struct Straighten {
    /// Job files
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Measured offsets of one piece (CSV: x [m], camber [mm], sweep [mm], toes), instead of the predicted ones
    #[arg(long, value_name = "CSV")]
    measured: Option<PathBuf>,
    /// Readings of the pushes made so far (CSV: step, travel [mm], force [kN], set [mm]); says the next one
    #[arg(long, value_name = "CSV")]
    log: Option<PathBuf>,
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
    #[arg(long = "note", alias = "piece", value_name = "KEY: VALUE")]
    notes: Vec<String>,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// Write a page to print for the floor
    #[arg(long, value_name = "FILE.html")]
    sheet: Option<PathBuf>,
}

impl Straighten {
    /// Plans every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output, a chart or the sheet cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        for (given, what) in [(&self.measured, "--measured is"), (&self.log, "--log is of")] {
            if given.is_some() && self.jobs.len() > 1 {
                return Err(Ended::by_usage(None, format!("{what} one piece: give one job with it")));
            }
        }
        if self.log.is_some() && self.measured.is_none() {
            let wanted = "--log is of one measured piece, whose readings the pushes were planned by: give them with --measured";
            return Err(Ended::by_usage(self.log.as_deref(), wanted));
        }
        let given = self.given()?;
        self.presented.ready()?;
        let sheet = self.presented.target(self.sheet.as_ref(), Kind::Html)?;
        let asked = |file: &PathBuf| gather::member(&given, file).and_then(|()| Asked::new(file, &given));
        let read: Vec<_> = self.jobs.par_iter().map(asked).collect();
        let (all, bad) = good_of(read)?;
        if self.presented.json {
            json(self.jobs.len(), &all.iter().map(Asked::result).collect::<Vec<_>>(), out)?;
        } else {
            for (i, asked) in all.iter().enumerate() {
                if i > 0 {
                    writeln!(out, "\n{}", "─".repeat(80))?;
                }
                Report::put(out, |said| show::report(asked, self.system(asked), said))?;
            }
        }
        out.flush()?;
        self.leave(&all, sheet, out)?;
        Ok(if bad { BAD_INPUT } else { DONE })
    }

    fn system(&self, asked: &Asked) -> System {
        self.presented.units.unwrap_or(asked.job.units)
    }

    /// Everything but the jobs; every file's mistakes at once.
    fn given(&self) -> std::result::Result<Given, Vec<Diagnostics>> {
        let mut complaints = Vec::new();
        let mut keep = |complaint: Diagnostics| complaints.push(complaint);
        let shop = self.shop.as_deref().map_or_else(|| Ok(shop::Shop::usual()), shop::read_path);
        let shop = shop.map_err(&mut keep).ok();
        let measured = self.measured.as_deref().map(measured::read_path).transpose();
        let mut measured = measured.map_err(&mut keep).ok();
        let mut front = match &mut measured {
            Some(Some(m)) => std::mem::take(&mut m.front),
            _ => Front::default(),
        };
        let notes = measured::read_notes("--note", &self.notes, &mut front).map_err(&mut keep).ok();
        let read = |path: &Path| Ok((path.to_owned(), shop::push_log::read_path(path)?));
        let log = self.log.as_deref().map(read).transpose().map_err(&mut keep).ok();
        match (shop, measured, notes, log) {
            (Some(shop), Some(mut measured), Some(()), Some(log)) => {
                if let Some(m) = &mut measured {
                    m.front = front.clone();
                }
                Ok(Given {
                    shop,
                    own_shop: self.shop.is_some(),
                    measured: measured.map(|m| (self.measured.clone().unwrap_or_default(), m)),
                    front,
                    log,
                    making: Fabrication { web_cut: self.web_cut, flanges_preset: self.preset },
                })
            }
            _ => Err(complaints),
        }
    }

    /// Charts and the sheet.
    fn leave(&self, all: &[Asked], sheet: Option<Target>, out: &mut dyn Write) -> Result<()> {
        if let Some(sheet) = sheet.filter(|_| !all.is_empty()) {
            let pages: Result<Vec<_>> =
                all.iter().map(|a| sheet::page(a, self.system(a)).map_err(Error::other)).collect();
            sheet.write(sheet::whole(&pages?).as_bytes())?;
            self.presented.beside(&format!("sheet for the floor: {}", sheet.said()), out)?;
        }
        let stems = files::stems(all.iter().map(|a| a.file.as_path()));
        let one = |(asked, stem): (&Asked, &String)| {
            let drawn = asked.pictures(self.system(asked)).map_err(Error::other)?;
            Ok(files::pictures_of(stem, drawn))
        };
        let pictures = || Ok(all.iter().zip(&stems).map(one).collect::<Result<Vec<_>>>()?.concat());
        self.presented.draw(pictures, out)
    }
}

/// The page for the floor of one job's predicted shape, with a shop's file or the usual shop.
///
/// # Errors
/// What is wrong with the shop's file or the job; a picture that cannot be drawn.
pub(crate) fn sheet_of(file: &Path, shop: &Path, system: System) -> Outcome<maud::Markup> {
    let given = Given {
        shop: shop::read_path(shop)?,
        own_shop: true,
        measured: None,
        front: Front::default(),
        log: None,
        making: Fabrication::default(),
    };
    Ok(sheet::page(&Asked::new(file, &given)?, system)?)
}
