//! `weldbow choose`: weld size and procedure that hold the member in tolerance.

mod show;

use super::ended::{DONE, Ended, OUT_OF_TOLERANCE, Outcome};
use super::files;
use crate::choose::{
    Allow, Book, Choice, Choosing, Constraints, Objective, SearchSpace, Sides, USUAL_CONFIDENCE, Waits, Weld,
    choose, stitches_to_try, window, written,
};
use crate::cli::one_of::{OBJECTIVES, SIDES, WAITS, one_of};
use crate::cli::presented::Presented;
use crate::cli::show::Report;
use crate::cli::terminal::working;
use crate::input::text;
use crate::job::check;
use crate::job::file::JobFile;
use crate::prediction::Job;
use crate::reading::{Diagnostics, InputFile, read_file, read_text_as};
use crate::shop::{STARTER, ShopFile};
use crate::units::{Kind, System, read};
use files::Target;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// What the shop is called when no file is given.
const USUAL: &str = "the starter shop";

/// Arguments of `weldbow choose`.
#[derive(Debug, clap::Args)]
pub(super) struct Choose {
    /// Job file with a [demand] table
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// Shop file with the line and its qualified procedures (`weldbow new --shop` writes one, used without this)
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
    /// What to make small
    #[arg(long, visible_alias = "for", value_parser = one_of(OBJECTIVES), default_value = "least-time")]
    objective: Objective,
    /// Probability of being inside every tolerance, at least
    #[arg(long, default_value_t = USUAL_CONFIDENCE, value_name = "P", value_parser = chance)]
    confidence: f64,
    /// Steps that legs come in, as "0.5 mm" or "1/16 in"
    #[arg(long, value_name = "LENGTH", value_parser = step)]
    step: Option<f64>,
    /// No leg below this
    #[arg(long, value_name = "LENGTH", value_parser = leg)]
    least_leg: Option<f64>,
    /// No leg above this
    #[arg(long, value_name = "LENGTH", value_parser = leg)]
    largest_leg: Option<f64>,
    /// Sides of the web to weld
    #[arg(long, value_parser = one_of(SIDES), default_value = "any")]
    sides: Sides,
    /// Wait between runs through the line
    #[arg(long, value_parser = one_of(WAITS), default_value = "any")]
    wait: Waits,
    /// Use only this procedure of the book (may be given more than once)
    #[arg(long, value_name = "NAME")]
    procedure: Vec<String>,
    /// Plates are cut longer by the shortening that `weldbow predict` prints: judge the length after that
    #[arg(long)]
    cut_longer: bool,
    /// The web is cut to the ordinates of `weldbow cut`: judge the camber after that
    #[arg(long)]
    web_cut: bool,
    /// The flanges are preset as `weldbow predict` prints: judge them after that
    #[arg(long)]
    preset: bool,
    /// Part of each qualified range, current and speed, to keep free at either end
    #[arg(long, default_value_t = 0.05, value_name = "PART", value_parser = margin)]
    margin: f64,
    /// Do not try stitches (tried where the job has them, and on webs up to 4 mm)
    #[arg(long)]
    continuous: bool,
    #[command(flatten)]
    pub(super) presented: Presented,
    /// Write the job with the chosen passes to this file, remarks kept
    #[arg(long, value_name = "FILE")]
    write: Option<PathBuf>,
    /// Number of the option to write and to chart, as the table shows it [default: the one proposed]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(0..=9))]
    option: Option<u32>,
    /// End with status 3 if nothing holds every tolerance
    #[arg(long)]
    strict: bool,
}

/// Legs that a job may have, mm.
const LEGS_MM: (f64, f64) = (1.0, 25.0);
/// Steps that legs may come in, mm.
const STEPS_MM: (f64, f64) = (0.1, 5.0);

fn length(text: &str, what: &str, (low, high): (f64, f64)) -> std::result::Result<f64, String> {
    let mm = read(Kind::Length, text).map_err(|e| e.to_string())?;
    let inside = (low..=high).contains(&mm);
    if inside { Ok(mm) } else { Err(format!("{what} of {low} mm to {high} mm is wanted")) }
}

fn leg(text: &str) -> std::result::Result<f64, String> {
    length(text, "a leg", LEGS_MM)
}

fn step(text: &str) -> std::result::Result<f64, String> {
    length(text, "a leg increment", STEPS_MM)
}

fn chance(text: &str) -> std::result::Result<f64, String> {
    let found = text.trim().parse::<f64>().ok().filter(|p| (0.5..=0.999).contains(p));
    found.ok_or_else(|| "a probability of 0.5 to 0.999, as 0.9".to_owned())
}

fn margin(text: &str) -> std::result::Result<f64, String> {
    let found = text.trim().parse::<f64>().ok().filter(|p| (0.0..=0.4).contains(p));
    found.ok_or_else(|| "a part of each range, 0 to 0.4, as 0.05".to_owned())
}

/// The file of a shop, or the one every shop may start from.
///
/// # Errors
/// Mistakes in it.
pub(super) fn shop_file(path: Option<&Path>) -> std::result::Result<InputFile<ShopFile>, Diagnostics> {
    path.map_or_else(|| read_text_as(USUAL, STARTER), read_file)
}

/// The procedures of a shop.
///
/// # Errors
/// What is wrong with them.
pub(super) fn book_of(shop: &InputFile<ShopFile>) -> std::result::Result<Book, Diagnostics> {
    shop.shape.welding().map_err(|problems| shop.complaint(problems))
}

/// A job and a book that could be read, and the answer.
struct Asked {
    paper: InputFile<JobFile>,
    job: Job,
    book: Book,
    wishes: Constraints,
    choice: Choice,
}

impl Asked {
    /// Where the search looked.
    fn ground(&self) -> SearchSpace<'_> {
        SearchSpace::new(&self.job, &self.book, &self.choice.stretches, &self.wishes)
    }
}

impl Choose {
    /// Chooses and shows.
    ///
    /// # Errors
    /// If the output, a chart or the job cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        self.presented.ready()?;
        let job = self.presented.target(self.write.as_ref(), files::Kind::Toml)?;
        let asked = self.ask()?;
        let system = self.presented.units.unwrap_or(asked.job.units);
        let book = self.shop.as_ref().map_or_else(|| USUAL.to_owned(), |p| text::path(p));
        let said = |said: &mut Report| show::show(&asked.choice, &asked.job, &book, system, said);
        self.presented.tell(&asked.choice, said, out)?;
        self.presented.draw(|| self.drawn(&asked, system), out)?;
        job.map(|job| self.write_back(&asked, &job, out)).transpose()?;
        Ok(if self.strict && !asked.choice.feasible { OUT_OF_TOLERANCE } else { DONE })
    }

    fn ask(&self) -> Outcome<Asked> {
        let mut paper: InputFile<JobFile> = read_file(&self.job)?;
        let shop = shop_file(self.shop.as_deref());
        if let Ok(shop) = &shop {
            shop.shape.lend(&mut paper.shape);
        }
        let job = check(&paper.shape).map_err(|problems| paper.complaint(problems))?;
        let book = book_of(&shop?)?;
        let wishes = self.wishes(&job, &paper.shape);
        let bar = working("looking for welds that hold every limit");
        let found = choose(&Choosing { job: &job, file: &paper.shape, book: &book, wishes: &wishes });
        bar.finish_and_clear();
        let choice = found.map_err(|fault| Ended::by_file(&self.job, fault))?;
        Ok(Asked { paper, job, book, wishes, choice })
    }

    fn wishes(&self, job: &Job, file: &JobFile) -> Constraints {
        let usual = Constraints::usual(job.units);
        Constraints {
            objective: self.objective,
            confidence: self.confidence,
            step_mm: self.step.unwrap_or(usual.step_mm),
            least_leg_mm: self.least_leg,
            largest_leg_mm: self.largest_leg,
            sides: self.sides,
            waits: self.wait,
            only: self.procedure.clone(),
            margin: self.margin,
            stitches: if self.continuous { Vec::new() } else { stitches_to_try(job, file) },
            allow: [
                (self.cut_longer, Allow::Length),
                (self.web_cut, Allow::Camber),
                (self.preset, Allow::Flanges),
            ]
            .into_iter()
            .filter_map(|(made, allow)| made.then_some(allow))
            .collect(),
            ..usual
        }
    }

    /// The option to write, with its number: the one named, or the one proposed; where nothing holds, the nearest.
    fn picked<'a>(&self, choice: &'a Choice) -> Result<(usize, &'a Weld)> {
        let number = self.option.map_or(choice.proposed.unwrap_or(1), |named| named as usize);
        let weld = choice.options.get(number).ok_or_else(|| {
            let last = choice.options.len().saturating_sub(1);
            let found = match last {
                0 => "nothing else was found".to_owned(),
                1 => "option 1 was found".to_owned(),
                _ => format!("options 1 to {last} were found"),
            };
            Error::other(format!("--option {number}: 0 is current practice; {found}"))
        })?;
        Ok((number, weld))
    }

    /// The option to chart: that to write, but current practice has no window of its own.
    fn charted<'a>(&self, choice: &'a Choice) -> Option<&'a Weld> {
        let (_, weld) = self.picked(choice).ok()?;
        let first = || choice.options.get(1);
        if weld.candidate.is_some() || self.option.is_some() { Some(weld) } else { first() }
    }

    fn write_back(&self, asked: &Asked, to: &Target, out: &mut dyn Write) -> Result<()> {
        let (number, weld) = self.picked(&asked.choice)?;
        let written = written(&asked.paper.text, &asked.ground(), weld).map_err(Error::other)?;
        to.write(written.as_bytes())?;
        let as_it_is = if weld.candidate.is_none() { ": the job as it is" } else { "" };
        let line = format!("Option {number} ({}) written to {}{as_it_is}", weld.name, to.said());
        self.presented.beside(&line, out)
    }

    fn drawn(&self, asked: &Asked, system: System) -> Result<Vec<crate::chart::Picture>> {
        let candidate = self.charted(&asked.choice).and_then(|w| w.candidate.as_ref());
        let window = candidate.and_then(|c| window(&asked.ground(), c, 0, system));
        let pictures =
            crate::chart::choice_pictures(&asked.choice, window.as_ref(), system).map_err(Error::other)?;
        let stem = self.job.file_stem().unwrap_or_default().to_string_lossy();
        Ok(files::pictures_of(&stem, pictures))
    }
}
