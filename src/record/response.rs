//! What the engine says of a reading for any factors, from a few of its answers.
//!
//! Bows go with the factor on their force and arm, cups and tilts with theirs, exactly; a cup that is not the same on both sides
//! reads as a little tilt. What else depends on the factors is
//! tabulated at even points of the log factors, with a smooth curve through them. The test beside this
//! holds it to a thousandth of the engine itself.

use crate::Quantity;
use crate::numbers::moments;
use crate::prior::{ARM, FACTORS, FOLD, FORCE, HEAT, SECOND, TILT, factor_sd, own_seam_sd};
use rayon::prelude::*;
use weldbow_engine::member::Seam;
use weldbow_engine::prediction::field::multiply;
use weldbow_engine::prediction::{Field, Job, Prediction, Wanted, predict_only};
use weldbow_engine::scatter::{Draws, Pieces, by_welds_alone};
use weldbow_engine::welding::HeatSource;

/// How far the table goes, in standard deviations of each factor; beyond it the value stays.
const REACH: f64 = 4.0;
/// Points along each factor that bends the answer; close where the engine has corners (yield that holds a force down).
const POINTS: [usize; 3] = [33, 17, 5];
/// Points that a place of the curve rests on.
const LOCAL: usize = 4;
/// Step of the log of a seam's force, for its slope.
const SLOPE_STEP: f64 = 0.02;
/// Pieces drawn for the scatter of welding alone.
const DRAWN: Draws = Draws { bias: 2, pieces: 128, seed: 1 };
/// Factors that bend the answer.
const BENDING: [usize; 3] = [FORCE, HEAT, SECOND];

/// What is asked of a member: a quantity at a place (mm).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    /// Quantity.
    pub what: Quantity,
    /// Place, mm.
    pub at_mm: f64,
}

/// The answers of one member.
#[derive(Debug, Clone)]
pub struct Response {
    keys: Vec<Key>,
    /// Points along each of [`BENDING`]: one where it changes nothing.
    points: [Vec<f64>; 3],
    /// Values, first key fastest: the part that goes with the factors of its kind, and the part that goes with the fold.
    table: Vec<[f64; 2]>,
    /// Scatter of welding from piece to piece, for each key, mm.
    pub welding_sd_mm: Vec<f64>,
    /// What the seams' own bias is worth, for each key, mm.
    pub(crate) seams_sd_mm: Vec<f64>,
    /// The answer as computed, for each key, mm.
    pub(crate) nominal_mm: Vec<f64>,
}

/// A value with its slopes along the log of each factor.
pub(crate) type Sloped = (f64, [f64; FACTORS]);

/// Reads the answers off a prediction.
pub(crate) fn read(keys: &[Key], prediction: &Prediction) -> Vec<f64> {
    let at = |profile: &[[f64; 2]], x: f64| {
        let i = profile.partition_point(|p| p[0] < x).clamp(1, profile.len().max(2) - 1);
        match (profile.get(i - 1), profile.get(i)) {
            (Some(a), Some(b)) => a[1] + (x - a[0]) / (b[0] - a[0]) * (b[1] - a[1]),
            _ => f64::NAN,
        }
    };
    // half of near toe and of far toe, this one with its sign
    let toes = |seam: Seam, x: f64, far: f64| {
        let of = prediction.flanges.iter().filter(move |f| f.flange == seam);
        of.min_by(|a, b| (a.from_mm - x).max(x - a.to_mm).total_cmp(&(b.from_mm - x).max(x - b.to_mm)))
            .map_or(f64::NAN, |f| 0.5 * (f.near_toe_mm + far * f.far_toe_mm))
    };
    keys.iter()
        .map(|key| match key.what {
            Quantity::Camber => at(&prediction.camber.profile, key.at_mm),
            Quantity::Sweep => at(&prediction.sweep.profile, key.at_mm),
            Quantity::Shortening => prediction.shortening_mm,
            Quantity::Cup(seam) => toes(seam, key.at_mm, 1.0),
            Quantity::Tilt(seam) => toes(seam, key.at_mm, -1.0),
        })
        .collect()
}

/// The job with its factors multiplied; None where it does not take them.
pub(crate) fn with_factors(job: &Job, logs: &[f64; FACTORS]) -> Option<Job> {
    let mut job = job.clone();
    multiply(&mut job, logs).ok().map(|()| job)
}

/// What a reading is multiplied by, as a sign for each factor.
const fn straight(what: Quantity) -> [f64; FACTORS] {
    let mut of = [0.0; FACTORS];
    match what {
        Quantity::Camber | Quantity::Shortening => of[FORCE] = 1.0,
        Quantity::Sweep => {
            of[FORCE] = 1.0;
            of[ARM] = 1.0;
        }
        Quantity::Cup(_) => of[FOLD] = 1.0,
        Quantity::Tilt(_) => of[TILT] = 1.0,
    }
    of
}

impl Response {
    /// Asks the engine. None if it gives no number.
    pub fn new(job: &Job, keys: &[Key]) -> Option<Self> {
        let light = Job { carries: None, notes: Vec::new(), title: String::new(), ..job.clone() };
        let answer = |job: &Job| read(keys, &predict_only(job, &Wanted::SHAPE));
        let nominal_mm = answer(&light);
        let sd = factor_sd();
        let from_leg = light.passes.iter().any(|p| p.heat_source == HeatSource::Leg);
        let two_sided = Seam::BOTH.iter().any(|s| !Field::seam(&light, *s, true).is_empty());
        let points = [true, from_leg, two_sided];
        let mut axis = 0;
        let points = points.map(|bends| {
            let (reach, count) = (REACH * sd[BENDING[axis]], POINTS[axis]);
            axis += 1;
            if bends { even(reach, count) } else { vec![0.0] }
        });
        let count = points.iter().map(Vec::len).product();
        let rows: Vec<Option<Vec<[f64; 2]>>> = (0..count)
            .into_par_iter()
            .map(|n| {
                let mut logs = [0.0; FACTORS];
                let mut rest = n;
                for (axis, factor) in BENDING.into_iter().enumerate() {
                    logs[factor] = points[axis][rest % points[axis].len()];
                    rest /= points[axis].len();
                }
                let once = answer(&with_factors(&light, &logs)?);
                let force = logs[FORCE];
                logs[TILT] = std::f64::consts::LN_2;
                let twice = answer(&with_factors(&light, &logs)?);
                let parts = |((once, twice), key): ((f64, f64), &Key)| match key.what {
                    Quantity::Tilt(_) => [twice - once, 2.0 * once - twice],
                    what => [once * (-straight(what)[FORCE] * force).exp(), 0.0],
                };
                Some(once.into_iter().zip(twice).zip(keys).map(parts).collect())
            })
            .collect();
        let mut table = Vec::with_capacity(count * keys.len());
        for row in rows {
            table.extend(row?);
        }
        let welding_sd_mm = welding_sd(&light, keys)?;
        let seams_sd_mm = seams_sd(&light, keys, &nominal_mm)?;
        let all = table.as_flattened().iter().chain(&nominal_mm).chain(&welding_sd_mm).chain(&seams_sd_mm);
        let sound = all.into_iter().all(|v| v.is_finite());
        let keys = keys.to_vec();
        sound.then_some(Self { keys, points, table, welding_sd_mm, seams_sd_mm, nominal_mm })
    }

    /// Answers that nothing bends: nominal values (mm), what welding scatters them by and what the seams' own bias is worth, for
    /// checks without an engine.
    pub fn straight(keys: &[Key], nominal_mm: &[f64], welding_sd_mm: &[f64], seams_sd_mm: &[f64]) -> Self {
        Self {
            keys: keys.to_vec(),
            points: [0, 1, 2].map(|_| vec![0.0]),
            table: nominal_mm.iter().map(|v| [*v, 0.0]).collect(),
            welding_sd_mm: welding_sd_mm.to_vec(),
            seams_sd_mm: seams_sd_mm.to_vec(),
            nominal_mm: nominal_mm.to_vec(),
        }
    }

    /// What is asked.
    pub fn keys(&self) -> &[Key] {
        &self.keys
    }

    /// Answers for these logs of the factors, with slopes.
    pub fn at(&self, logs: &[f64; FACTORS], out: &mut Vec<Sloped>) {
        let basis = [0, 1, 2].map(|i| smooth(&self.points[i], logs[BENDING[i]]));
        let keys = self.keys.len();
        let fold = logs[FOLD].exp();
        out.clear();
        out.extend(self.keys.iter().enumerate().map(|(k, key)| {
            let straight = straight(key.what);
            let times = straight.iter().zip(logs).map(|(s, l)| s * l).sum::<f64>().exp();
            let (mut own, mut rest, mut slopes) = (0.0, 0.0, [0.0; 3]);
            let [across, along] = [self.points[0].len(), self.points[1].len()];
            for (z, c, dc) in &basis[2] {
                for (y, b, db) in &basis[1] {
                    for (x, a, da) in &basis[0] {
                        let [v, w] = self.table[((z * along + y) * across + x) * keys + k];
                        let (v, w) = (times * v, fold * w);
                        own += a * b * c * v;
                        rest += a * b * c * w;
                        slopes[0] += da * b * c * (v + w);
                        slopes[1] += a * db * c * (v + w);
                        slopes[2] += a * b * dc * (v + w);
                    }
                }
            }
            let mut all = straight.map(|s| s * own);
            all[FOLD] += rest;
            for (slope, factor) in slopes.into_iter().zip(BENDING) {
                all[factor] += slope;
            }
            (own + rest, all)
        }));
    }
}

fn even(reach: f64, count: usize) -> Vec<f64> {
    let step = 2.0 * reach / (count as f64 - 1.0);
    (0..count).map(|i| step * i as f64 - reach).collect()
}

/// The smooth curve through even points (cubic between neighbours, with the slope at each as that between the points beside it:
/// Catmull and Rom 1974; memory): each point's place, part and slope. Beyond the outermost points x is held there, without slope.
fn smooth(points: &[f64], x: f64) -> Vec<(usize, f64, f64)> {
    let n = points.len();
    if n < LOCAL {
        return vec![(0, 1.0, 0.0)];
    }
    let (first, last, step) = (points[0], points[n - 1], points[1] - points[0]);
    let held = x.clamp(first, last);
    let at = points.partition_point(|p| *p <= held).clamp(1, n - 1) - 1;
    let from = at.saturating_sub(1).min(n - LOCAL);
    let u = (held - points[at]) / step;
    let v = 1.0 - u;
    let ends = [[(1.0 + 2.0 * u) * v * v, -6.0 * u * v], [u * u * (3.0 - 2.0 * u), 6.0 * u * v]];
    let slopes = [[u * v * v, v * (1.0 - 3.0 * u)], [-u * u * v, u * (3.0 * u - 2.0)]];
    let mut parts = [[0.0; 2]; LOCAL];
    let mut add = |place: usize, times: f64, by: [f64; 2]| {
        parts[place - from][0] += times * by[0];
        parts[place - from][1] += times * by[1];
    };
    for end in [0, 1] {
        let place = at + end;
        add(place, 1.0, ends[end]);
        let beside: &[(usize, f64)] = match place {
            0 => &[(0, -1.5), (1, 2.0), (2, -0.5)],
            _ if place == n - 1 => &[(n - 1, 1.5), (n - 2, -2.0), (n - 3, 0.5)],
            _ => &[(place - 1, -0.5), (place + 1, 0.5)],
        };
        beside.iter().for_each(|(other, times)| add(*other, *times, slopes[end]));
    }
    let moves = f64::from(u8::from(x > first && x < last));
    parts.iter().enumerate().map(|(i, [part, slope])| (from + i, *part, moves * slope / step)).collect()
}

/// Standard deviation from piece to piece by the engine's own scatter: passes, legs, folds, tilts, plates.
fn welding_sd(job: &Job, keys: &[Key]) -> Option<Vec<f64>> {
    let job = by_welds_alone(job);
    let pieces = Pieces::new(&job, DRAWN, 0).ok()?;
    let rows: Vec<Vec<f64>> = (0..DRAWN.pieces)
        .into_par_iter()
        .map_init(
            || pieces.room(),
            |room, n| {
                let piece = pieces.piece_without_bias(n, room).ok()?;
                Some(read(keys, &predict_only(piece, &Wanted::SHAPE)))
            },
        )
        .flatten()
        .collect();
    let one = |k: usize| moments(&rows.iter().map(|r| r[k]).collect::<Vec<_>>()).1;
    (rows.len() > 1).then(|| (0..keys.len()).map(one).collect())
}

/// What the own bias of both seams is worth, by the slope of each.
fn seams_sd(job: &Job, keys: &[Key], nominal_mm: &[f64]) -> Option<Vec<f64>> {
    let mut sum = vec![0.0; keys.len()];
    for seam in Seam::BOTH {
        let both = !Field::seam(job, seam, true).is_empty();
        let mut moved = job.clone();
        Field::ForceOfSeam(seam).times(&mut moved, SLOPE_STEP.exp()).ok()?;
        let values = read(keys, &predict_only(&moved, &Wanted::SHAPE));
        for ((sum, value), nominal) in sum.iter_mut().zip(values).zip(nominal_mm) {
            *sum += ((value - nominal) / SLOPE_STEP * own_seam_sd(both)).powi(2);
        }
    }
    Some(sum.into_iter().map(f64::sqrt).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::job;

    const ALL: [Quantity; 7] = crate::Model::AT_MIDDLE;

    #[test]
    fn the_table_is_the_engine_to_a_thousandth() {
        for name in ["rafter", "stall_rafter", "wire_rafter", "column", "gallery_beam", "haunch"] {
            let job = job(name);
            let keys = ALL.map(|what| Key { what, at_mm: 0.5 * job.member.length_mm });
            let table = Response::new(&job, &keys).unwrap();
            let sd = factor_sd();
            let mut worst = (0.0_f64, 0.0_f64);
            for n in 0..40_u32 {
                // points of a plain lattice, two deviations either way
                let u =
                    |k: u32| (f64::from(n) * [0.137, 0.311, 0.529, 0.677, 0.811, 0.907][k as usize]).fract();
                let logs = [0, 1, 2, 3, 4, 5].map(|k: u32| sd[k as usize] * (4.0 * u(k) - 2.0));
                let truth = read(&keys, &predict_only(&with_factors(&job, &logs).unwrap(), &Wanted::SHAPE));
                let mut found = Vec::new();
                table.at(&logs, &mut found);
                for ((t, f), s) in truth.iter().zip(&found).zip(&table.nominal_mm) {
                    worst.0 = worst.0.max((t - f.0).abs() / t.abs().max(s.abs()).max(0.5));
                }
                let step = 1e-5;
                for k in 0..FACTORS {
                    let mut near = logs;
                    near[k] += step;
                    let mut moved = Vec::new();
                    table.at(&near, &mut moved);
                    for (m, f) in moved.iter().zip(&found) {
                        worst.1 = worst.1.max(((m.0 - f.0) / step - f.1[k]).abs() / f.0.abs().max(0.5));
                    }
                }
            }
            println!("{name}: off by {:.1e}, slopes by {:.1e}", worst.0, worst.1);
            assert!(worst.0 < 1e-3, "{name}: {:.2e} of the value", worst.0);
            assert!(worst.1 < 1e-3, "{name}: slopes {:.2e}", worst.1);
        }
    }
}
