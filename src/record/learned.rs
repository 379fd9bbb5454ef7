//! What came out, in words of the engine.

use crate::agreement::Agreement;
use crate::applied::{AppliedTo, applied};
use crate::ask::Place;
use crate::chain::Normals;
use crate::check::{Checks, checks};
use crate::data::{Kind, Quantity, Record, RecordFault};
use crate::layout::Layout;
use crate::model::Model;
use crate::numbers::{SEED, firsts, moments, quantile};
use crate::prior::{ARM, FACTORS, FORCE, NAMES, factor_sd, scatter};
use crate::sample::{Draws, Effort, sample};
use crate::watch::{Chart, watch};
use serde::Serialize;

/// One input, before the record and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// Its name, as in `[scatter]`; the scatter of plates and assembly is called after what it moves.
    pub input: String,
    /// "bias" or "scatter".
    pub class: &'static str,
    /// "" for a factor, else mm or mm/m.
    pub unit: &'static str,
    /// Mean after.
    pub mean: f64,
    /// Standard deviation after.
    pub sd: f64,
    /// 5 % and 95 % of what it can be.
    pub band: [f64; 2],
    /// Mean before.
    pub before: f64,
    /// Standard deviation before.
    pub before_sd: f64,
}

/// A family, procedure or line beside the others.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// Its name.
    pub name: String,
    /// "family", "procedure" or "line".
    pub of: &'static str,
    /// Pieces of it.
    pub pieces: usize,
    /// What it differs in: "camber", "sweep" (mm) or "force" (relative).
    pub what: &'static str,
    /// Mean of the difference.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
}

/// One quantity of a member, before the record and after, and its next piece.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Next {
    /// Member.
    pub member: String,
    /// Family.
    pub family: String,
    /// Procedure of its latest piece, by which the next one is taken to be welded; empty if none is named.
    pub procedure: String,
    /// Line of its latest piece; empty if none is named.
    pub line: String,
    /// Quantity, at mid-length.
    pub what: Quantity,
    /// Mean as computed, mm.
    pub before_mm: f64,
    /// Deviation of what all pieces may share beside that: what the model may be wrong by, what plates and assembly bring, mm.
    pub before_bias_sd_mm: f64,
    /// Mean after, mm.
    pub mean_mm: f64,
    /// Deviation of the bias that is left, mm.
    pub bias_sd_mm: f64,
    /// Deviation from piece to piece, mm.
    pub scatter_sd_mm: f64,
    /// What of it the engine's own scatter of welding explains, mm.
    pub welding_sd_mm: f64,
    /// Where nine of ten next pieces lie, mm.
    pub band_mm: [f64; 2],
}

/// What more readings of a kind would teach.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Teaches {
    /// Kind of reading.
    pub kind: Kind,
    /// Mean share by which ten of them would cut the variance of the bias that is left.
    pub share: f64,
}

/// Everything a record taught.
#[derive(Debug, Clone, Serialize)]
pub struct Learned {
    /// Pieces.
    pub pieces: usize,
    /// Readings.
    pub readings: usize,
    /// Inputs.
    #[serde(rename = "learned")]
    pub inputs: Vec<Input>,
    /// What bows a member sideways: the product of force and arm, which sweeps tell better than either.
    pub moment: Input,
    /// Families, procedures, lines.
    pub groups: Vec<Group>,
    /// Members.
    pub next: Vec<Next>,
    /// What to read next, best first.
    pub teaches: Vec<Teaches>,
    /// Every piece predicted from the others.
    pub checks: Checks,
    /// Charts in the order of welding, and where the shop moved.
    pub watch: Vec<Chart>,
    /// How far the numbers can be trusted.
    pub agreement: Agreement,
    /// What the engine takes, for each family, procedure and line together.
    #[serde(skip)]
    pub applied: Vec<AppliedTo>,
}

/// What ten more readings are.
const MORE: f64 = 10.0;
/// Draws of the prior for what was known before.
const BEFORE: usize = 1000;

/// Learns from a record.
///
/// # Errors
/// A record that teaches nothing.
pub fn learn(record: &Record, effort: Effort) -> Result<Learned, RecordFault> {
    let model = Model::new(record)?;
    let draws = sample(&model, effort)?;
    Ok(Learned {
        pieces: record.pieces.len(),
        readings: record.readings(),
        inputs: inputs(record, &draws),
        moment: moment(&draws),
        groups: groups(record, &model, &draws),
        next: next(record, &model, &draws),
        teaches: teaches(record, &model, &draws),
        checks: checks(record, &model, &draws, effort),
        watch: watch(record, &model, &draws),
        agreement: draws.agreement,
        applied: applied(record, &model, &draws),
    })
}

fn input(
    name: String,
    class: &'static str,
    unit: &'static str,
    after: impl Iterator<Item = f64>,
    before: impl Iterator<Item = f64>,
) -> Input {
    let mut after: Vec<f64> = after.collect();
    let (mean, sd) = moments(&after);
    let (was, was_sd) = moments(&before.collect::<Vec<_>>());
    let band = [quantile(&mut after, 0.05), quantile(&mut after, 0.95)];
    Input { input: name, class, unit, mean, sd, band, before: was, before_sd: was_sd }
}

/// The product of force and arm.
fn moment(draws: &Draws) -> Input {
    let sd = factor_sd();
    let mut normals = Normals::new(SEED, 3);
    let product = |force: f64, arm: f64| (sd[FORCE] * force + sd[ARM] * arm).exp();
    let after = draws.z.iter().map(|z| product(z[FORCE], z[ARM]));
    let before = (0..BEFORE).map(|_| product(normals.next(), normals.next()));
    input("force and arm".to_owned(), "bias", "", after, before)
}

fn inputs(record: &Record, draws: &Draws) -> Vec<Input> {
    let sd = factor_sd();
    let scores = || {
        let mut normals = Normals::new(SEED, 1);
        (0..BEFORE).map(move |_| normals.next())
    };
    let column = |i: usize| draws.z.iter().map(move |z| z[i]);
    let mut all: Vec<Input> = NAMES
        .iter()
        .enumerate()
        .map(|(i, name)| {
            let factor = move |z: f64| (sd[i] * z).exp();
            input((*name).to_owned(), "bias", "", column(i).map(factor), scores().map(factor))
        })
        .collect();
    for kind in Kind::ALL {
        if record.reads(kind) {
            let unit = if kind.grows() { "mm/m" } else { "mm" };
            let size = move |z: f64| scatter(kind).at(z);
            let name = format!("{}_each_piece", kind.name());
            let after = column(Layout::scatter(kind)).map(size);
            all.push(input(name, "scatter", unit, after, scores().map(size)));
        }
    }
    all
}

fn groups(record: &Record, model: &Model, draws: &Draws) -> Vec<Group> {
    let mut all = Vec::new();
    for piece in firsts(record, |i| record.pieces[i].family) {
        let p = &record.pieces[piece];
        let seams = model.seams_mm(p.member);
        let of = Place::of(record, piece);
        let count = record.pieces.iter().filter(|o| o.family == p.family).count();
        for (b, kind) in [Kind::Camber, Kind::Sweep].into_iter().enumerate() {
            let mut pieces = record.pieces.iter().filter(|o| o.family == p.family);
            if !pieces.any(|o| o.readings.iter().any(|r| r.what.kind() == kind)) {
                continue;
            }
            let bows: Vec<f64> =
                draws.z.iter().map(|z| model.bias(z, of, seams, [0.0; 6])[FACTORS + b]).collect();
            let (mean, sd) = moments(&bows);
            let name = record.families[p.family].clone();
            all.push(Group { name, of: "family", pieces: count, what: kind.name(), mean, sd });
        }
    }
    for (of, names) in [("procedure", &record.procedures), ("line", &record.lines)] {
        for (i, name) in names.iter().enumerate() {
            let places = if of == "line" { model.layout.line(i) } else { model.layout.procedure(i) };
            let Some((apart, own)) = places else { continue };
            let force = |z: &Vec<f64>| (crate::prior::FORCES_APART.at(z[apart]) * z[own]).exp_m1();
            let (mean, sd) = moments(&draws.z.iter().map(force).collect::<Vec<_>>());
            let is = |p: &&crate::Piece| if of == "line" { p.line == i } else { p.procedure == i };
            let pieces = record.pieces.iter().filter(is).count();
            all.push(Group { name: name.clone(), of, pieces, what: "force", mean, sd });
        }
    }
    all
}

fn next(record: &Record, model: &Model, draws: &Draws) -> Vec<Next> {
    let mut all = Vec::new();
    let order = record.in_order();
    let own = |i: usize| (record.pieces[i].member, record.pieces[i].family);
    for first in firsts(record, own) {
        // the next piece is welded as the latest one was
        let piece = order.iter().rev().copied().find(|i| own(*i) == own(first)).unwrap_or(first);
        let p = &record.pieces[piece];
        let of = Place::of(record, piece);
        let before = model.answers_before(p.member, of.length_m, BEFORE, SEED);
        let after: Vec<[f64; 7]> = draws.z.iter().map(|z| model.answers_of(z, of, p.member)).collect();
        for (k, what) in Model::AT_MIDDLE.into_iter().enumerate() {
            let read = record.pieces.iter().filter(|o| o.member == p.member);
            let read = read.flat_map(|o| &o.readings).any(|r| r.what == what);
            if !read {
                continue;
            }
            let (mean_mm, bias_sd_mm) = moments(&after.iter().map(|a| a[k]).collect::<Vec<_>>());
            let welding = model.responses[p.member].welding_sd_mm[k];
            let size = if what.kind().grows() { of.length_m } else { 1.0 };
            let own =
                |z: &Vec<f64>| (size * scatter(what.kind()).at(z[Layout::scatter(what.kind())])).powi(2);
            let plates = draws.square(what.kind(), size);
            let mut normals = Normals::new(SEED, 9);
            let mut pieces: Vec<f64> = after
                .iter()
                .zip(&draws.z)
                .map(|(a, z)| a[k] + normals.residual(welding.hypot(own(z).sqrt())))
                .collect();
            all.push(Next {
                member: record.members[p.member].name.clone(),
                family: record.families[p.family].clone(),
                procedure: record.procedures[p.procedure].clone(),
                line: record.lines[p.line].clone(),
                what,
                before_mm: model.responses[p.member].nominal_mm[k],
                before_bias_sd_mm: moments(&before.iter().map(|b| b[k]).collect::<Vec<_>>()).1,
                mean_mm,
                bias_sd_mm,
                scatter_sd_mm: welding.hypot(plates.sqrt()),
                welding_sd_mm: welding,
                band_mm: [quantile(&mut pieces, 0.05), quantile(&mut pieces, 0.95)],
            });
        }
    }
    all
}

/// Standard uncertainty of a reading of a kind, mm: as the record has it, else a millimetre of string and a third of that at toes
/// (choice).
fn measuring_mm(record: &Record, kind: Kind) -> f64 {
    let own = record.pieces.iter().flat_map(|p| &p.readings).find(|r| r.what.kind() == kind);
    own.map_or(if kind.grows() { 1.0 } else { 0.35 }, |r| r.sd_mm)
}

/// How much ten more readings of each kind would cut the variance of the bias left, by the covariance of the draws.
fn teaches(record: &Record, model: &Model, draws: &Draws) -> Vec<Teaches> {
    let pieces = firsts(record, |i| record.pieces[i].member);
    let mut sums = [0.0; 5];
    for piece in &pieces {
        let p = &record.pieces[*piece];
        let of = Place::of(record, *piece);
        let after: Vec<[f64; 7]> = draws.z.iter().map(|z| model.answers_of(z, of, p.member)).collect();
        let column = |k: usize| after.iter().map(|a| a[k]).collect::<Vec<f64>>();
        let columns: Vec<Vec<f64>> = (0..7).map(column).collect();
        let own: Vec<(f64, f64)> = columns.iter().map(|c| moments(c)).collect();
        for kind in Kind::ALL {
            let mut best = 0.0_f64;
            for (k, what) in Model::AT_MIDDLE.into_iter().enumerate().filter(|(_, w)| w.kind() == kind) {
                let size = if what.kind().grows() { of.length_m } else { 1.0 };
                let plates = draws.square(kind, size);
                let welding = model.responses[p.member].welding_sd_mm[k];
                let noise = (measuring_mm(record, kind).powi(2) + plates + welding.powi(2)) / MORE;
                let share = |t: usize| {
                    let product = columns[k].iter().zip(&columns[t]);
                    let covariance = product.map(|(a, b)| (a - own[k].0) * (b - own[t].0)).sum::<f64>()
                        / (draws.z.len() as f64 - 1.0);
                    let whole = (own[k].1.powi(2) + noise) * own[t].1.powi(2);
                    if whole > 0.0 { covariance.powi(2) / whole } else { 0.0 }
                };
                best = best.max((0..7).map(share).sum::<f64>() / 7.0);
            }
            sums[kind as usize] += best / pieces.len() as f64;
        }
    }
    let mut all: Vec<Teaches> =
        Kind::ALL.into_iter().map(|kind| Teaches { kind, share: sums[kind as usize] }).collect();
    all.sort_by(|a, b| b.share.total_cmp(&a.share));
    all
}
