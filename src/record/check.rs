//! Every piece predicted from the others, beside its readings.
//!
//! The draws are weighed by how much less likely the piece is with each of them (importance weights, smoothed); where these
//! cannot be trusted the record is sampled again without the piece.

use crate::model::{Expected, Law, Model, Room};
use crate::pareto::{TRUSTED, smooth};
use crate::prior::{ODD_SHARE, ODD_WIDTH};
use crate::sample::{Draws, Effort, sample};
use crate::{Quantity, Record};
use rayon::prelude::*;
use serde::Serialize;

/// Most pieces sampled again (choice: beyond, the record contradicts itself and more of the same says no more), and most readings
/// that are gone through for it: a large record is moved little by one piece.
const MOST_AGAIN: usize = 12;
const MOST_READINGS: usize = 2000;

/// Chance from which on a reading is called odd.
const ODD: f64 = 0.5;

/// Whether a reading that is odd with this chance is called so: it is to be read again, and tells no move of the shop.
pub(crate) fn is_odd(chance: f64) -> bool {
    chance > ODD
}

/// One reading beside what the other pieces say of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CheckedReading {
    /// Number of the piece in the record.
    #[serde(skip)]
    pub at: usize,
    /// Piece.
    pub piece: String,
    /// Quantity.
    pub what: Quantity,
    /// The reading, mm.
    pub value_mm: f64,
    /// What the others expect, mm.
    pub expected_mm: f64,
    /// Standard deviation of that, with scatter and measuring, mm.
    pub sd_mm: f64,
    /// Chance of a smaller reading, by the others: even over 0 to 1 if the predictions are honest.
    pub below: f64,
    /// How likely the reading is odd, by all.
    pub odd: f64,
}

impl CheckedReading {
    /// Whether it is to be read again.
    pub fn is_odd(&self) -> bool {
        is_odd(self.odd)
    }
}

/// All of them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Checks {
    /// Readings inside the band that should hold nine of ten.
    pub inside: usize,
    /// Readings in all.
    pub of: usize,
    /// Pieces whose weights could not be trusted, and were sampled again.
    pub again: usize,
    /// Pieces whose weights could not be trusted and were left at that.
    pub untrusted: usize,
    /// Reading by reading.
    pub readings: Vec<CheckedReading>,
}

/// What one piece gives: for each of its readings mean, deviation and share below.
type Found = Vec<(f64, f64, f64)>;

/// Checks a record.
pub(crate) fn checks(record: &Record, model: &Model, draws: &Draws, effort: Effort) -> Checks {
    let mut room = Room::default();
    let laws: Vec<_> = draws.z.iter().map(|z| model.expected(z, &mut room)).collect();
    let odd = model.odd(draws);
    let of_piece: Vec<Vec<usize>> = (0..record.pieces.len())
        .map(|p| (0..model.data.len()).filter(|i| model.data[*i].piece == p).collect())
        .collect();
    let weighed: Vec<(Found, f64)> =
        of_piece.par_iter().map(|readings| weigh(model, &laws, readings)).collect();
    let doubtful: Vec<usize> = (0..weighed.len()).filter(|p| weighed[*p].1 > TRUSTED).collect();
    let again: Vec<(usize, Found)> = doubtful
        .iter()
        .take(MOST_AGAIN.min(MOST_READINGS / model.data.len().max(1)))
        .filter_map(|p| Some((*p, without(model, *p, &of_piece[*p], effort)?)))
        .collect();
    let mut found: Vec<Found> = weighed.into_iter().map(|w| w.0).collect();
    let count = again.len();
    for (piece, better) in again {
        found[piece] = better;
    }
    let mut readings = Vec::with_capacity(model.data.len());
    for (piece, (indices, found)) in of_piece.iter().zip(found).enumerate() {
        for (i, (expected_mm, sd_mm, below)) in indices.iter().zip(found) {
            readings.push(CheckedReading {
                at: piece,
                piece: record.pieces[piece].name.clone(),
                what: model.what(*i),
                value_mm: model.data[*i].value_mm,
                expected_mm,
                sd_mm,
                below,
                odd: odd[*i],
            });
        }
    }
    let inside = readings.iter().filter(|r| (0.05..=0.95).contains(&r.below)).count();
    Checks { inside, of: readings.len(), again: count, untrusted: doubtful.len() - count, readings }
}

fn weigh(model: &Model, laws: &[Vec<Expected>], readings: &[usize]) -> (Found, f64) {
    let log = |law: &Vec<Expected>| {
        let one = |i: &usize| Law::of(model.data[*i].value_mm - law[*i].mean_mm, law[*i].sd_mm).log;
        -readings.iter().map(one).sum::<f64>()
    };
    let mut weights: Vec<f64> = laws.iter().map(log).collect();
    let shape = smooth(&mut weights);
    let weights: Vec<f64> = weights.iter().map(|w| w.exp()).collect();
    let all =
        |i: &usize| mixed(model.data[*i].value_mm, laws.iter().map(|l| l[*i]).zip(weights.iter().copied()));
    (readings.iter().map(all).collect(), shape)
}

/// Mean, deviation and share below of a mixture of laws.
fn mixed(value: f64, laws: impl Iterator<Item = (Expected, f64)>) -> (f64, f64, f64) {
    let wide = 1.0 - ODD_SHARE + ODD_SHARE * ODD_WIDTH * ODD_WIDTH;
    let (mut mean, mut square, mut below) = (0.0, 0.0, 0.0);
    for (Expected { mean_mm: m, sd_mm: sd }, w) in laws {
        mean += w * m;
        square += w * (m * m + wide * sd * sd);
        below += w * Law::below(value - m, sd);
    }
    (mean, (square - mean * mean).max(0.0).sqrt(), below)
}

/// The record sampled without a piece, asked for its readings.
fn without(model: &Model, piece: usize, readings: &[usize], effort: Effort) -> Option<Found> {
    let rest = model.without(piece);
    let quick = Effort { chains: 2, warm_up: 100, draws: effort.draws.min(300), ..effort };
    let draws = sample(&rest, quick).ok()?;
    let mut room = Room::default();
    let laws: Vec<_> = draws.z.iter().map(|z| model.expected(z, &mut room)).collect();
    let even = 1.0 / laws.len() as f64;
    let one = |i: &usize| mixed(model.data[*i].value_mm, laws.iter().map(|l| (l[*i], even)));
    Some(readings.iter().map(one).collect())
}
