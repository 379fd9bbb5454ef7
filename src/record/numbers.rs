//! Numbers that all readers of draws and records take off them alike.

use crate::ask::Place;
use crate::data::Record;

/// Normals of their own for what the record does not know.
pub(crate) const SEED: u64 = 77;

/// Mean and standard deviation.
pub(crate) fn moments(x: &[f64]) -> (f64, f64) {
    let n = x.len() as f64;
    let mean = x.iter().sum::<f64>() / n;
    (mean, (x.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt())
}

/// A quantile of numbers.
pub(crate) fn quantile(x: &mut [f64], p: f64) -> f64 {
    x.sort_by(f64::total_cmp);
    let place = p * (x.len() as f64 - 1.0);
    let (low, part) = (place.floor() as usize, place.fract());
    match (x.get(low), x.get(low + 1)) {
        (Some(a), Some(b)) => a + part * (b - a),
        (Some(a), None) => *a,
        _ => f64::NAN,
    }
}

/// Whose bias, for a piece of the record.
pub(crate) fn place(record: &Record, piece: usize, length_m: f64) -> Place {
    let p = &record.pieces[piece];
    Place { family: Some(p.family), procedure: Some(p.procedure), line: Some(p.line), length_m }
}

pub(crate) fn length_m(record: &Record, member: usize) -> f64 {
    1e-3 * record.members[member].job.member.length_mm
}

/// First piece of each distinct thing.
pub(crate) fn firsts<K: PartialEq>(record: &Record, key: impl Fn(usize) -> K) -> Vec<usize> {
    let mut found: Vec<usize> = Vec::new();
    for at in 0..record.pieces.len() {
        if found.iter().all(|f| key(*f) != key(at)) {
            found.push(at);
        }
    }
    found
}
