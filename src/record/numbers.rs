//! Numbers that all readers of draws and records take off them alike.

use crate::data::Record;

/// Normals of their own for what the record does not know.
pub(crate) const SEED: u64 = 77;

/// Mean of numbers.
pub(crate) fn mean(x: &[f64]) -> f64 {
    x.iter().sum::<f64>() / x.len() as f64
}

/// Variance of numbers, with n − 1.
pub(crate) fn variance(x: &[f64]) -> f64 {
    let m = mean(x);
    x.iter().map(|x| (x - m).powi(2)).sum::<f64>() / (x.len() as f64 - 1.0)
}

/// Mean and standard deviation.
pub(crate) fn moments(x: &[f64]) -> (f64, f64) {
    (mean(x), variance(x).sqrt())
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
