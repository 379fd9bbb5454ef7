//! Whether the shop has moved: readings in the order of welding, beside what is expected of them.
//!
//! Each is compared with the mean of those before it, which needs no settled past: scores of a steady shop are independent
//! standard normal numbers from the third piece on (self-starting charts: Hawkins 1987, The Statistician 36, 299; memory). They
//! go on a chart of individuals with moving ranges (ISO 7870-2: limits at 3 σ; σ by the median
//! moving range over 0.954, which an odd piece does not widen: Wheeler and Chambers 1992; memory)
//! and on an exponentially weighted moving average (ISO 7870-6; λ 0.2 and L 2.86 give one false alarm in about 370 pieces:
//! Lucas and Saccucci 1990, Technometrics 32, 1; memory). A line that is watched by several charts is accused no oftener: each has
//! wider limits (`width`). The place of the change is the likeliest one before the signal. Readings called odd are left out, so that a slip of
//! the pen neither tells a move nor sets its size; several in a row on one side stay (`without_slips`).

use crate::check::is_odd;
use crate::numbers::{mean, quantile};
use crate::{Draws, Kind, Model, Record};
use serde::Serialize;
use weldbow_engine::input::day_text;

/// Weight of the newest piece.
const NEWEST: f64 = 0.2;
/// Width of the limits of the average on a chart alone, in its standard deviations.
const WIDTH: f64 = 2.86;
/// Width of the limits of individuals.
const INDIVIDUAL: f64 = 3.0;
/// Median range of two normal numbers over their deviation.
const RANGE_OF_TWO: f64 = 0.954;
/// Upper limit of a moving range over its median.
const RANGE_LIMIT: f64 = 3.865;
/// A score counts as this at most: one odd piece is no shift.
const MOST: f64 = 3.0;
/// Pieces by which the beginning of a shift may be off (choice: the likeliest place of a shift of two deviations is that near in
/// nine of ten).
const NEAR: usize = 3;
/// Changes of a name in a series from which on it says nothing of a shift (choice).
const MOST_CHANGES: usize = 4;
/// Odd pieces in a row on one side that are no slips (choice: two slips of a hand stand side by side now and then, three hardly ever).
const NO_SLIPS: usize = 3;
/// Fewest pieces that are watched.
const FEWEST: usize = 6;

/// One piece on a chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Point {
    /// Number of the piece in the record.
    #[serde(skip)]
    pub at: usize,
    /// Piece.
    pub piece: String,
    /// Day it was welded.
    pub date: Option<String>,
    /// Reading less what is expected, mm.
    pub off_mm: f64,
    /// Range to the piece before, mm.
    pub range_mm: f64,
    /// Score against the pieces before it.
    pub score: f64,
    /// Moving average of the scores.
    pub average: f64,
    /// Its limit.
    pub limit: f64,
}

/// A shift.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Shift {
    /// Number of the piece in the record at which it began.
    #[serde(skip)]
    pub at: usize,
    /// Piece at which it began.
    pub piece: String,
    /// Day that piece was welded.
    pub date: Option<String>,
    /// Pieces from there to the one that told.
    pub told_after: usize,
    /// Mean of the pieces from there on less that of those before, mm.
    pub by_mm: f64,
    /// Two standard deviations of that, mm.
    pub by_2s_mm: f64,
    /// What changed about there.
    pub with: Vec<Change>,
}

impl Shift {
    /// Whether it is more than pieces differ by.
    pub fn is_clear(&self) -> bool {
        self.by_mm.abs() > self.by_2s_mm
    }

    /// Whether what is learned averages over before and after: procedures and families are told apart, nothing else is that changes.
    pub fn is_averaged(&self) -> bool {
        self.is_clear() && self.with.is_empty()
    }
}

/// What changed from one piece to the next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Change {
    /// "procedure" or "family".
    pub what: &'static str,
    /// Its name before.
    pub before: String,
    /// Its name after.
    pub after: String,
    /// First piece after.
    pub piece: String,
}

/// A chart of one kind of readings on one line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Chart {
    /// Line; empty if there is but one without a name.
    pub line: String,
    /// Kind.
    pub kind: Kind,
    /// Middle of the individuals, mm.
    pub middle_mm: f64,
    /// Standard deviation by the moving ranges, mm.
    pub sd_mm: f64,
    /// Limits of individuals, mm.
    pub limits_mm: [f64; 2],
    /// Limit of moving ranges, mm.
    pub range_limit_mm: f64,
    /// Pieces, in order, without those that were only read oddly.
    pub points: Vec<Point>,
    /// The first shift.
    pub shift: Option<Shift>,
}

/// Charts of every line and kind that has pieces enough.
pub fn watch(record: &Record, model: &Model, draws: &Draws) -> Vec<Chart> {
    let expected = model.expected_alike(draws);
    let odd = model.odd(draws);
    let order = record.in_order();
    let mut all = Vec::new();
    for line in 0..record.lines.len() {
        let series = Kind::ALL.map(|kind| {
            let of = |piece: &usize| {
                let own = model.data.iter().enumerate().filter(|(_, d)| d.piece == *piece && d.kind == kind);
                let (odd, sound): (Vec<_>, Vec<_>) = own.partition(|(i, _)| is_odd(odd[*i]));
                let read = if sound.is_empty() { &odd } else { &sound };
                let offs: Vec<f64> = read.iter().map(|(i, d)| d.value_mm - expected[*i].0).collect();
                (!offs.is_empty()).then(|| (*piece, mean(&offs), sound.is_empty()))
            };
            let here = order.iter().filter(|p| record.pieces[**p].line == line);
            (kind, without_slips(&here.filter_map(of).collect::<Vec<_>>()))
        });
        let watched = || series.iter().filter(|(_, series)| series.len() >= FEWEST);
        let width = width(watched().count());
        all.extend(watched().map(|(kind, series)| chart(record, line, *kind, series, width)));
    }
    all
}

/// Pieces with how far they are off, of those with whether they are odd: an odd one is left out, unless it is one of [`NO_SLIPS`] or more
/// in a row on one side, as after a shop moved far.
fn without_slips(series: &[(usize, f64, bool)]) -> Vec<(usize, f64)> {
    let runs = series.chunk_by(|a, b| a.2 && b.2 && a.1.is_sign_positive() == b.1.is_sign_positive());
    let kept = runs.filter(|run| !run[0].2 || run.len() >= NO_SLIPS).flatten();
    kept.map(|(piece, off_mm, _)| (*piece, *off_mm)).collect()
}

/// Width L of the limits of each of n charts of one line, so that together they give a false alarm in as many pieces as one alone:
/// L² = 2.86² + 2·ln n. The run length grows as exp(L²/2): by a Markov chain (Brook and Evans 1972, Biometrika 59, 539; memory; own
/// calculation) 370 pieces at 2.86, 1040 at 3.2, 2863 at 3.5, within 1 % of this.
fn width(charts: usize) -> f64 {
    (WIDTH * WIDTH + 2.0 * (charts.max(1) as f64).ln()).sqrt()
}

fn chart(record: &Record, line: usize, kind: Kind, series: &[(usize, f64)], width: f64) -> Chart {
    let offs: Vec<f64> = series.iter().map(|s| s.1).collect();
    let ranges: Vec<f64> = offs.windows(2).map(|w| (w[1] - w[0]).abs()).collect();
    let usual_range = quantile(&mut ranges.clone(), 0.5);
    let middle_mm = quantile(&mut offs.clone(), 0.5);
    let sd_mm = usual_range / RANGE_OF_TWO;
    let scores = scores(&offs);
    let (mut average, mut points) = (0.0, Vec::new());
    let mut told = None;
    for (i, (piece, off_mm)) in series.iter().enumerate() {
        average += NEWEST * (scores[i] - average);
        let counted = i.saturating_sub(1) as i32;
        let limit = width * (NEWEST / (2.0 - NEWEST) * (1.0 - (1.0 - NEWEST).powi(2 * counted))).sqrt();
        if told.is_none() && counted > 0 && average.abs() > limit {
            told = Some(i);
        }
        points.push(Point {
            at: *piece,
            piece: record.pieces[*piece].name.clone(),
            date: record.pieces[*piece].day.map(day_text),
            off_mm: *off_mm,
            range_mm: if i > 0 { ranges[i - 1] } else { 0.0 },
            score: scores[i],
            average,
            limit,
        });
    }
    Chart {
        line: record.lines[line].clone(),
        kind,
        middle_mm,
        sd_mm,
        limits_mm: [middle_mm - INDIVIDUAL * sd_mm, middle_mm + INDIVIDUAL * sd_mm],
        range_limit_mm: RANGE_LIMIT * usual_range,
        shift: told.map(|told| shift(record, series, told, sd_mm)),
        points,
    }
}

/// Scores of each number against those before it: Student's t with i − 2 degrees of freedom, turned into a normal score by
/// Wallace's approximation (1959, Annals of Mathematical Statistics 30, 1124; memory). The first two have none.
fn scores(x: &[f64]) -> Vec<f64> {
    let mut out = Vec::with_capacity(x.len());
    let (mut n, mut mean, mut square) = (0.0_f64, 0.0_f64, 0.0_f64);
    for x in x {
        let score = if n >= 2.0 && square > 0.0 {
            let freedom = n - 1.0;
            let t = (x - mean) * (n / (n + 1.0)).sqrt() / (square / freedom).sqrt();
            let normal =
                (8.0 * freedom + 1.0) / (8.0 * freedom + 3.0) * (freedom * (t * t / freedom).ln_1p()).sqrt();
            normal.min(MOST).copysign(t)
        } else {
            0.0
        };
        out.push(score);
        n += 1.0;
        let off = x - mean;
        mean += off / n;
        square += off * (x - mean);
    }
    out
}

/// The likeliest beginning: the split of the pieces up to the signal that takes most of their sum of squares away.
fn shift(record: &Record, series: &[(usize, f64)], told: usize, sd_mm: f64) -> Shift {
    let mean = |part: &[(usize, f64)]| part.iter().map(|s| s.1).sum::<f64>() / part.len() as f64;
    let until = &series[..=told];
    let gain = |at: usize| {
        let (a, b) = until.split_at(at);
        let parts = a.len() as f64 * b.len() as f64 / until.len() as f64;
        parts * (mean(b) - mean(a)).powi(2)
    };
    let at = (1..=told).max_by(|a, b| gain(*a).total_cmp(&gain(*b))).unwrap_or(told);
    let (before, after) = series.split_at(at);
    let each = 1.0 / before.len() as f64 + 1.0 / after.len() as f64;
    Shift {
        at: series[at].0,
        piece: record.pieces[series[at].0].name.clone(),
        date: record.pieces[series[at].0].day.map(day_text),
        told_after: told - at + 1,
        by_mm: mean(after) - mean(before),
        by_2s_mm: 2.0 * sd_mm * each.sqrt(),
        with: changes(record, series, at, told),
    }
}

/// What changed from one piece to the next about the beginning of a shift, the nearest change of each.
fn changes(record: &Record, series: &[(usize, f64)], at: usize, told: usize) -> Vec<Change> {
    let named = [("procedure", &record.procedures), ("family", &record.families)];
    let number = |what: &str, i: usize| {
        let piece = &record.pieces[series[i].0];
        if what == "procedure" { piece.procedure } else { piece.family }
    };
    let about = at.saturating_sub(NEAR).max(1)..=told.min(at + NEAR);
    let one = |(what, names): (&'static str, &Vec<String>)| {
        // what changes all the time changed with nothing
        let changed = |i: &usize| number(what, i - 1) != number(what, *i);
        if (1..series.len()).filter(changed).count() > MOST_CHANGES {
            return None;
        }
        let i = about.clone().filter(changed).min_by_key(|i| i.abs_diff(at))?;
        let name = |i: usize| names[number(what, i)].clone();
        let piece = record.pieces[series[i].0].name.clone();
        Some(Change { what, before: name(i - 1), after: name(i), piece })
    };
    named.into_iter().filter_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chain::Normals;

    fn moved(seed: u64, charts: usize, count: usize, from: usize, by: f64) -> Option<usize> {
        let mut normals = Normals::new(seed, 3);
        let record = crate::tests::named(count);
        let series: Vec<(usize, f64)> =
            (0..count).map(|i| (i, normals.next() + if i >= from { by } else { 0.0 })).collect();
        let found = chart(&record, 0, Kind::Sweep, &series, width(charts)).shift?;
        Some(found.at + found.told_after - 1)
    }

    #[test]
    fn a_steady_shop_is_rarely_accused() {
        let (trials, count) = (400, 50);
        // one in about 370 pieces, on however many charts: of 48 watched, 1 − exp(−48/370) = 12 %
        for charts in [1, 5] {
            let any = |s: u64| {
                (0..charts).any(|c| moved(s + trials * c, charts as usize, count, count, 0.0).is_some())
            };
            let share = (0..trials).filter(|s| any(*s)).count() as f64 / trials as f64;
            println!(
                "steady: {:.1} % accused in 50 pieces on {charts} charts, 12 % by the run length",
                100.0 * share
            );
            assert!((0.06..0.20).contains(&share), "{charts}: {share}");
        }
    }

    #[test]
    fn a_shift_of_two_deviations_is_told_within_a_few_pieces() {
        let mut waits: Vec<f64> = Vec::new();
        let mut missed = 0;
        for seed in 0..200 {
            match moved(seed, 1, 40, 20, 2.0) {
                Some(told) if told >= 20 => waits.push((told - 19) as f64),
                Some(_) => {}
                None => missed += 1,
            }
        }
        let middle = quantile(&mut waits, 0.5);
        println!("2 σ at piece 21: told after {middle} pieces at the middle, missed {missed} of 200");
        assert!(middle <= 6.0 && missed <= 10, "{middle}, {missed}");
    }
}
