//! What may have gone wrong with all readings of a kind at once: a unit, a sign, or how well they are said to be known. The model
//! swallows none of it: it would take such a column for a shop that hardly pulls.

use super::gather::Gathered;
use super::words::quantity;
use crate::record::{Learned, Next, Reading};
use crate::units::{IN_MM, System, show};

/// Fewest readings that are judged together (choice).
const FEWEST: usize = 5;
/// Deviations of what was known before from which on a mean is far off, and below which another one fits (choices).
const FAR: f64 = 3.0;
const FITS: f64 = 2.0;
/// Part of its measuring uncertainty that a reading differs by at least: of eight readings one set in 900 differs less by chance
/// (χ² with seven degrees of freedom; choice).
const AGREE: f64 = 0.3;
const AGREEING: usize = 8;
/// How far from mid-length, over the length, a reading is still one of mid-length.
const MIDDLE: f64 = 0.02;
/// What readings may have to be multiplied by, how far off they must be before that is thought of, and what it means. A small size fits
/// much: what is divided must have been far beyond all that plates and clamps do (choice).
const SLIPS: [(f64, f64, &str); 4] = [
    (-1.0, FAR, "with the other sign"),
    (IN_MM, FAR, "read as inches"),
    (10.0, FAR, "read as centimetres"),
    (1.0 / IN_MM, 10.0 * FAR, "divided by 25.4 (millimetres below a head in inches?)"),
];

/// Kinds of readings of a member that only fit once they are read otherwise.
pub(super) fn slips(gathered: &Gathered, found: &Learned, system: System) -> Vec<String> {
    found.next.iter().filter_map(|n| one(&readings(gathered, n), n, system)).collect()
}

fn readings<'g>(gathered: &'g Gathered, n: &Next) -> Vec<&'g Reading> {
    let record = &gathered.record;
    let own = record
        .pieces
        .iter()
        .filter(|p| record.members[p.member].name == n.member && record.families[p.family] == n.family);
    let all = own.flat_map(|p| {
        let length = record.members[p.member].job.member.length_mm;
        p.readings.iter().map(move |r| (r, (r.at_mm - 0.5 * length).abs() <= MIDDLE * length))
    });
    all.filter(|(r, middle)| r.what == n.what && *middle).map(|(r, _)| r).collect()
}

fn one(readings: &[&Reading], n: &Next, system: System) -> Option<String> {
    if readings.len() < FEWEST {
        return None;
    }
    let count = readings.len() as f64;
    let mean = readings.iter().map(|r| r.value_mm).sum::<f64>() / count;
    let differ = (readings.iter().map(|r| (r.value_mm - mean).powi(2)).sum::<f64>() / (count - 1.0)).sqrt();
    let measuring = readings.iter().map(|r| r.sd_mm).sum::<f64>() / count;
    let off = |mean: f64, differ: f64| {
        (mean - n.before_mm).abs() / n.before_bias_sd_mm.hypot(differ.max(measuring) / count.sqrt())
    };
    let what = format!("all readings of {} of {}", quantity(n.what), n.member);
    let fits = |(times, far, _): &(f64, f64, &str)| {
        off(mean, differ) > *far && off(times * mean, times.abs() * differ) < FITS
    };
    let mm = |mm: f64| show::offset(mm, system);
    let agree = readings.len() >= AGREEING && differ < AGREE * measuring;
    if off(mean, differ) > FAR {
        let (_, _, otherwise) = SLIPS.into_iter().find(fits)?;
        return Some(format!(
            "{what} lie about {}, where {} is predicted; {otherwise} they would fit. Look at the head of that column before anything \
             here is used.",
            mm(mean),
            mm(n.before_mm)
        ));
    }
    agree.then(|| {
        format!(
            "{what} agree to {}, better than readings good to {} can: is the unit of the column right? If you measure that well, say so \
             with `# camber uncertainty`, `# sweep uncertainty`, `# toe uncertainty` or in the shop file.",
            mm(differ),
            mm(measuring)
        )
    })
}
