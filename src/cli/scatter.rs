//! `weldbow scatter`: how likely a member is out, and what that rests on.

use super::study::{charts, findings};
use super::{BAD_INPUT, DONE, complain_on_stderr, show};
use crate::form::{Complaint, Paper, paper_of_path};
use crate::job::file::JobFile;
use crate::prediction::predict;
use crate::scatter::{Class, Distribution, INPUTS, Swing};
use crate::study::file::{JointShape, PlanShape, SampleShape, StudyFile};
use crate::study::{ChartKind, ChartWish, Study, Table};
use crate::tolerance::Quantity;
use serde::Serialize;
use std::collections::BTreeSet;
use std::io::{Error, Result, Write};
use std::path::{Path, PathBuf};

/// Inputs shown of what moves a result.
const MOST_SWINGS: usize = 5;

/// Arguments of `weldbow scatter`.
#[derive(Debug, clap::Args)]
pub struct Scatter {
    /// Job files
    #[arg(required_unless_present = "inputs", value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Draws of the model bias, which all pieces of a kind share
    #[arg(long, default_value_t = 500, value_parser = clap::value_parser!(u64).range(2..=100_000))]
    draws: u64,
    /// Pieces for each of them
    #[arg(long, default_value_t = 50, value_parser = clap::value_parser!(u64).range(2..=100_000))]
    pieces: u64,
    /// The same seed gives the same draws
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Print JSON (engine units)
    #[arg(long)]
    json: bool,
    /// Draw charts into this folder, as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    /// List what is taken to be unsure, how much, and why
    #[arg(long)]
    inputs: bool,
}

/// What drawn pieces of one job say.
#[derive(Serialize)]
struct Found {
    file: String,
    cases: u64,
    spreads: Vec<Spread>,
    chances: Vec<Chance>,
    swings: Vec<Moved>,
}

#[derive(Serialize)]
struct Spread {
    result: String,
    mean: Option<f64>,
    sd: Option<f64>,
    p05: f64,
    p50: f64,
    p95: f64,
    bias_sd: Option<f64>,
    scatter_sd: Option<f64>,
}

#[derive(Serialize)]
struct Chance {
    limit: String,
    chance: Option<f64>,
    standard_error: Option<f64>,
    if_model_right: Option<f64>,
    range: Option<(f64, f64)>,
}

#[derive(Serialize)]
struct Moved {
    result: &'static str,
    input: String,
    low: f64,
    high: f64,
}

/// The results whose movers are shown.
const MOVED: [&str; 4] =
    ["camber.max_mm", "sweep.max_mm", "flanges.outer.near_toe_mm", "flanges.inner.near_toe_mm"];

/// Camber off the wanted one, as judged.
const JUDGED_CAMBER: &str = "verdicts.camber.value_mm";

impl Scatter {
    /// Draws pieces of every job; a bad one is complained about and does not stop the others.
    ///
    /// # Errors
    /// If the output or a chart cannot be written.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        if self.inputs {
            return inputs(out).map(|()| DONE);
        }
        let mut status = DONE;
        let mut all = Vec::new();
        for file in &self.jobs {
            match self.study(file) {
                Ok(study) => {
                    let table = study.table(&study.rows(0..study.count()));
                    if self.json {
                        all.push(self.found(file, &study, &table));
                    } else {
                        self.show(&study, &table, out)?;
                    }
                    self.draw(file, &study, &table, out)?;
                }
                Err(complaint) => {
                    complain_on_stderr(&complaint)?;
                    status = BAD_INPUT;
                }
            }
        }
        match (self.json, all.as_slice()) {
            (false, _) => {}
            (true, [one]) if self.jobs.len() == 1 => put_json(one, out)?,
            (true, []) if self.jobs.len() == 1 => {}
            (true, many) => put_json(&many, out)?,
        }
        Ok(status)
    }

    /// The study that draws pieces of a job.
    fn study(&self, path: &Path) -> std::result::Result<Study, Complaint> {
        let paper: Paper<JobFile> = paper_of_path(path)?;
        let job = crate::job::build(&paper.shape).map_err(|problems| paper.complaint(problems))?;
        let judged: BTreeSet<&str> = predict(&job).verdicts.iter().map(|v| word(v.quantity)).collect();
        let mut collect: Vec<String> =
            ["shortening_mm"].into_iter().chain(MOVED).map(str::to_owned).collect();
        for word in &judged {
            collect.extend(["limit_mm", "beyond"].map(|part| format!("verdicts.{word}.{part}")));
        }
        collect.push("verdicts.any.beyond".to_owned());
        // where a camber is wanted, what is judged is the way off it, not the bow
        let camber =
            if paper.shape.camber.is_some() && judged.contains("camber") { JUDGED_CAMBER } else { MOVED[0] };
        if camber != MOVED[0] {
            collect.push(camber.to_owned());
        }
        let histogram = |word: &str, result: &str| ChartWish {
            kind: ChartKind::Histogram,
            title: None,
            x: Some(result.to_owned()),
            y: Vec::new(),
            by: None,
            panels: None,
            band: None,
            limit: judged.contains(word).then(|| format!("verdicts.{word}.limit_mm")),
            member: false,
        };
        let tornado = |result: &str| ChartWish {
            kind: ChartKind::Tornado,
            x: None,
            y: vec![result.to_owned()],
            limit: None,
            ..histogram("", result)
        };
        let file = StudyFile {
            title: job.title.clone(),
            lesson: None,
            job: path.display().to_string(),
            collect,
            vary: Vec::new(),
            sample: Some(SampleShape {
                count: self.draws,
                seed: self.seed,
                plan: PlanShape::Latin,
                pieces: self.pieces,
                indices: false,
                usual: true,
            }),
            correlate: Vec::new(),
            scatter: paper.shape.scatter.clone(),
            section: JointShape::default(),
            charts: vec![
                histogram("camber", camber),
                histogram("sweep", MOVED[1]),
                tornado(MOVED[0]),
                tornado(MOVED[1]),
            ],
        };
        Study::new(&file, |_| Ok(paper.shape.clone())).map_err(|problems| paper.complaint(problems))
    }

    fn show(&self, study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
        show::heading(&study.title, "", out)?;
        writeln!(out, "{} draws of the model bias × {} pieces; {}", self.draws, self.pieces, study.source())?;
        findings(study, table, out)?;
        if study.base().camber.is_some() {
            writeln!(
                out,
                "  camber: as if the web were cut straight; cut to the ordinates of `predict` it aims at the wanted one."
            )?;
        }
        show::heading(
            "What moves it",
            "each input alone from low to high (±1σ), all others at their middle",
            out,
        )?;
        let right = [2, 3];
        let mut shown = show::row_table(&["result", "input", "low", "high"], &right);
        for result in MOVED {
            for swing in study.swings(result).iter().take(MOST_SWINGS) {
                let [low, high] = swing.results.map(|mm| format!("{mm:.2}").replace('-', "−"));
                shown.add_row([result.to_owned(), swing.input.clone(), low, high]);
            }
        }
        show::put(shown, &right, out)?;
        writeln!(
            out,
            "  `weldbow scatter --inputs` says how unsure each input is taken to be; none of it is measured on members.\n  \
             A [scatter] table in the job puts your shop's own values in place."
        )
    }

    fn found(&self, file: &Path, study: &Study, table: &Table) -> Found {
        let spreads = study.spreads(table).into_iter().map(|s| {
            let parts = study.apart(table, &s.name);
            Spread {
                mean: s.all.mean(),
                sd: s.all.sd(),
                p05: s.quantiles[0],
                p50: s.quantiles[1],
                p95: s.quantiles[2],
                bias_sd: parts.as_ref().map(|p| p.bias_sd),
                scatter_sd: parts.as_ref().map(|p| p.scatter_sd),
                result: s.name,
            }
        });
        let chances = study.chances(table).into_iter().map(|c| Chance {
            chance: c.all.fraction(),
            standard_error: c.apart.map_or(c.all.standard_error(), |a| Some(a.overall.1)),
            if_model_right: c.apart.and_then(|a| a.model_right.fraction()),
            range: c.apart.map(|a| a.range),
            limit: c.name,
        });
        let moved = |(result, swing): (&'static str, Swing)| Moved {
            result,
            input: swing.input,
            low: swing.results[0],
            high: swing.results[1],
        };
        let swings = MOVED.into_iter().flat_map(|r| study.swings(r).into_iter().map(move |swing| (r, swing)));
        Found {
            file: file.display().to_string(),
            cases: study.count(),
            spreads: spreads.filter(|s| s.p50.is_finite()).collect(),
            chances: chances.collect(),
            swings: swings.map(moved).collect(),
        }
    }

    fn draw(&self, file: &Path, study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
        let Some(folder) = &self.charts else { return Ok(()) };
        super::files::folder(folder)?;
        let stem = file.file_stem().unwrap_or(file.as_os_str()).to_string_lossy();
        let drawn = charts(study, table, &format!("{stem}-scatter"), folder)?;
        if self.json { Ok(()) } else { writeln!(out, "{drawn} charts (SVG and PNG) in {}", folder.display()) }
    }
}

/// A quantity as the names of results have it.
const fn word(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Camber => "camber",
        Quantity::Sweep => "sweep",
        Quantity::FlangeTilt => "flange_tilt",
        Quantity::FlangeCup => "flange_cup",
        Quantity::FlangeToe => "flange_toe",
        Quantity::Length => "length",
    }
}

fn inputs(out: &mut dyn Write) -> Result<()> {
    let right = [2];
    let mut shown =
        show::row_table(&["input", "kind", "σ", "what it multiplies", "where it comes from"], &right);
    for input in &INPUTS {
        let kind = match input.class {
            Class::Bias => "bias",
            Class::Scatter => "scatter",
        };
        let deviation = match input.spread.distribution() {
            Distribution::Lognormal { cov, .. } => cov,
            Distribution::Normal { sd, .. } => sd,
            Distribution::Uniform { .. } | Distribution::Triangular { .. } => input.spread.sd(),
        };
        let deviation = format!("{:.0} %", 100.0 * deviation);
        shown.add_row([input.name, kind, &deviation, input.what, input.source]);
    }
    show::put(shown, &right, out)?;
    writeln!(
        out,
        "  bias: the same for every piece of a kind. scatter: from piece to piece, or pass to pass.\n  \
         In a job or a study, [scatter] with `force = 0.10` puts your own σ in place; 0 leaves an input out."
    )
}

fn put_json<T: Serialize>(value: &T, out: &mut dyn Write) -> Result<()> {
    serde_json::to_writer_pretty(&mut *out, value).map_err(Error::from)?;
    writeln!(out)
}
