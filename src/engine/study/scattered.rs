//! "How likely is it out, and what does that rest on?": drawn pieces of one job as a study, and what they say.

use super::definition::Study;
use super::file::{SampleShape, StudyFile};
use super::table::Table;
use super::{ChartKind, ChartSpec};
use crate::input::Problem;
use crate::job::check;
use crate::job::file::JobFile;
use crate::prediction::judged;
use crate::scatter::{Draws, SamplingMethod};
use crate::tolerance::Likely;
use serde::Serialize;
use std::collections::BTreeSet;

/// What drawn pieces of a job say, in engine units.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Scattered {
    /// Pieces drawn.
    pub cases: u64,
    /// How results spread.
    pub spreads: Vec<ResultSpread>,
    /// How likely limits are passed.
    pub chances: Vec<LimitChance>,
    /// How far each input moves a result.
    pub swings: Vec<ResultMoved>,
}

/// Spread of one result.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ResultSpread {
    /// Its name, as `weldbow study --results` lists it.
    pub result: String,
    /// Mean.
    pub mean: Option<f64>,
    /// Standard deviation.
    pub sd: Option<f64>,
    /// 5 % quantile.
    pub p05: f64,
    /// Median.
    pub p50: f64,
    /// 95 % quantile.
    pub p95: f64,
    /// Standard deviation of what all pieces share.
    pub bias_sd: Option<f64>,
    /// Standard deviation from piece to piece.
    pub scatter_sd: Option<f64>,
}

/// Chance of one limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LimitChance {
    /// The result that says whether it is passed.
    pub limit: String,
    /// How likely that is.
    #[serde(flatten)]
    pub likely: Likely,
}

/// One input moved alone.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ResultMoved {
    /// The result it moves.
    pub result: String,
    /// The input.
    pub input: String,
    /// The result at −1 σ.
    pub low: f64,
    /// The result at +1 σ.
    pub high: f64,
}

/// The results whose movers are shown: camber and sweep, then toes. With a wanted camber the camber is what is judged: its
/// deviation.
fn moved(camber_judged: bool) -> [&'static str; 4] {
    let camber = if camber_judged { "verdicts.camber.value_mm" } else { "camber.max_mm" };
    [camber, "sweep.max_mm", "flanges.outer.near_toe_mm", "flanges.inner.near_toe_mm"]
}

impl Study {
    /// The study that draws pieces of a job, called `name`, with the job's own deviations.
    ///
    /// # Errors
    /// What is wrong with the job, or a plan that cannot be drawn.
    pub fn of_pieces(file: &JobFile, name: &str, draws: Draws) -> Result<Self, Vec<Problem>> {
        let job = check(file)?;
        let words: BTreeSet<&str> = judged(&job).iter().map(|v| v.quantity.key()).collect();
        let results = moved(job.wanted_camber.is_some() && words.contains("camber"));
        let mut collect: Vec<String> =
            ["shortening_mm"].into_iter().chain(results).map(str::to_owned).collect();
        for word in &words {
            collect.extend(["limit_mm", "beyond"].map(|part| format!("verdicts.{word}.{part}")));
        }
        collect.push("verdicts.any.beyond".to_owned());
        let histogram = |word: &str, result: &str| ChartSpec {
            kind: ChartKind::Histogram,
            x: Some(result.to_owned()),
            limit: words.contains(word).then(|| format!("verdicts.{word}.limit_mm")),
            ..ChartSpec::default()
        };
        let tornado = |result: &str| ChartSpec {
            kind: ChartKind::Tornado,
            y: vec![result.to_owned()],
            ..ChartSpec::default()
        };
        let study = StudyFile {
            title: job.title.clone(),
            job: name.to_owned(),
            collect,
            sample: Some(SampleShape {
                count: draws.bias as u64,
                seed: draws.seed,
                plan: SamplingMethod::Latin,
                pieces: draws.pieces as u64,
                indices: false,
                usual: true,
            }),
            scatter: file.scatter.clone(),
            charts: vec![
                histogram("camber", results[0]),
                histogram("sweep", results[1]),
                tornado(results[0]),
                tornado(results[1]),
            ],
            ..StudyFile::default()
        };
        Self::new(&study, |_| Ok(file.clone()))
    }

    /// The results of a study of pieces whose movers are of interest.
    pub fn movers(&self) -> Vec<&str> {
        let of_verdict = |name: &str| name.starts_with("verdicts.") && !name.ends_with(".value_mm");
        let names = self.collect.iter().map(|c| c.name.as_str());
        names.filter(|name| !of_verdict(name) && *name != "shortening_mm").collect()
    }

    /// What the table of a study of pieces says.
    pub fn scattered(&self, table: &Table) -> Scattered {
        let spreads = self.spreads(table).into_iter().map(|s| {
            let parts = self.bias_and_scatter(table, &s.name);
            ResultSpread {
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
        let chances = self.chances(table).into_iter().filter_map(|c| {
            let likely = Likely::from(c.bias_and_scatter.as_ref()?);
            Some(LimitChance { limit: c.name, likely })
        });
        let swings = self.movers().into_iter().flat_map(|result| {
            let size = self.shown_as(result).map_or(1.0, |shown| shown.2);
            let one = move |swing: crate::scatter::OneAtATime| ResultMoved {
                result: result.to_owned(),
                input: swing.input,
                low: size * swing.results[0],
                high: size * swing.results[1],
            };
            self.swings(result).into_iter().map(one)
        });
        Scattered {
            cases: self.count(),
            spreads: spreads.filter(|s| s.p50.is_finite()).collect(),
            chances: chances.collect(),
            swings: swings.collect(),
        }
    }
}
