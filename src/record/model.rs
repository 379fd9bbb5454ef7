//! How likely readings are, given the unknowns.
//!
//! A reading is the engine's answer with the factors of its piece, plus the bow that plates and assembly bring a family, plus
//! what differs from piece to piece: measuring (known), welding (the engine's own scatter, known), plates and assembly (an
//! unknown size). One reading in twenty is odd, with a deviation five times as large and heavy tails.

use crate::layout::{Layout, bow};
use crate::prior::{
    FACTORS, FAMILIES_APART, FORCE, FORCES_APART, MEAN_BOW_MM_PER_M, ODD_SHARE, ODD_WIDTH, factor_sd, scatter,
};
use crate::response::{Key, Response, Sloped};
use crate::{Kind, Record, RecordFault};

/// Half of ln 2π.
const HALF_LN_TAU: f64 = 0.918_938_533_204_672_8;

/// One reading, ready.
#[derive(Debug, Clone)]
pub(crate) struct Datum {
    /// Piece.
    pub(crate) piece: usize,
    /// Cell: what shares an answer of the engine.
    pub(crate) cell: usize,
    /// Its key in the answer.
    pub(crate) key: usize,
    /// Family.
    pub(crate) family: usize,
    /// Kind.
    pub(crate) kind: Kind,
    /// Length in metres if its scatter grows with it, else 1.
    pub(crate) size: f64,
    /// What of a parabola of unit rise stands at its place.
    pub(crate) shape: f64,
    /// Reading, mm.
    pub(crate) value_mm: f64,
    /// Variance of measuring and of welding, mm².
    pub(crate) known: f64,
    /// Deviation of the seams' own bias, mm.
    pub(crate) seams: f64,
}

/// What pieces of one member, procedure and line share.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Cell {
    pub member: usize,
    pub procedure: usize,
    pub line: usize,
}

/// A record ready to be asked.
#[derive(Debug, Clone)]
pub struct Model {
    /// Places of the unknowns.
    pub layout: Layout,
    /// Answers of each member.
    pub(crate) responses: Vec<Response>,
    pub(crate) cells: Vec<Cell>,
    pub(crate) data: Vec<Datum>,
    /// Readings of which the same is expected, as numbers of the data: what is computed once for all of them.
    alike: Vec<Vec<usize>>,
    sd: [f64; FACTORS],
}

/// What is expected of a reading, and how it scatters, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Expected {
    /// Its mean.
    pub(crate) mean_mm: f64,
    /// Deviation of an ordinary reading.
    pub(crate) sd_mm: f64,
}

/// Room to compute in.
#[derive(Debug, Clone, Default)]
pub(crate) struct Room {
    answers: Vec<Vec<Sloped>>,
    logs: Vec<[f64; FACTORS]>,
    /// Slopes of the log likelihood along the log factors of each cell.
    pull: Vec<[f64; FACTORS]>,
}

impl Model {
    /// Asks the engine for every member.
    ///
    /// # Errors
    /// A record that teaches nothing.
    pub fn new(record: &Record) -> Result<Self, RecordFault> {
        record.check()?;
        let keys = keys(record);
        let mut responses = Vec::with_capacity(keys.len());
        for (member, keys) in record.members.iter().zip(&keys) {
            let answer = Response::new(&member.job, keys);
            responses.push(answer.ok_or_else(|| RecordFault::Outside { member: member.name.clone() })?);
        }
        Ok(Self::with(record, responses))
    }

    /// The same with answers that are there already.
    pub fn with(record: &Record, responses: Vec<Response>) -> Self {
        let (mut cells, mut data): (Vec<Cell>, Vec<Datum>) = (Vec::new(), Vec::new());
        for (at, piece) in record.pieces.iter().enumerate() {
            let own = Cell { member: piece.member, procedure: piece.procedure, line: piece.line };
            let cell = cells.iter().position(|c| *c == own).unwrap_or(cells.len());
            if cell == cells.len() {
                cells.push(own);
            }
            let (response, length) =
                (&responses[piece.member], record.members[piece.member].job.member.length_mm);
            for reading in &piece.readings {
                let asked = Key { what: reading.what, at_mm: reading.at_mm };
                let Some(key) = response.keys().iter().position(|k| *k == asked) else { continue };
                let kind = reading.what.kind();
                let s = reading.at_mm / length;
                data.push(Datum {
                    piece: at,
                    cell,
                    key,
                    family: piece.family,
                    kind,
                    size: if kind.grows() { 1e-3 * length } else { 1.0 },
                    shape: 4.0 * s * (1.0 - s),
                    value_mm: reading.value_mm,
                    known: reading.sd_mm.powi(2) + response.welding_sd_mm[key].powi(2),
                    seams: response.seams_sd_mm[key],
                });
            }
        }
        let alike = alike(&data);
        Self { layout: Layout::of(record), responses, cells, data, alike, sd: factor_sd() }
    }

    /// The same without the readings of a piece.
    pub(crate) fn without(&self, piece: usize) -> Self {
        let mut rest = self.clone();
        rest.data.retain(|d| d.piece != piece);
        rest.alike = alike(&rest.data);
        rest
    }

    /// Log factors of each cell.
    pub(crate) fn logs(&self, z: &[f64], cell: &Cell) -> [f64; FACTORS] {
        let mut logs = self.sd;
        logs.iter_mut().zip(z).for_each(|(l, z)| *l *= z);
        let groups = [self.layout.procedure(cell.procedure), self.layout.line(cell.line)];
        for (apart, own) in groups.into_iter().flatten() {
            logs[FORCE] += FORCES_APART.at(z[apart]) * z[own];
        }
        logs
    }

    fn answers(&self, z: &[f64], room: &mut Room) {
        room.answers.resize_with(self.cells.len(), Vec::new);
        room.logs.clear();
        for (cell, answers) in self.cells.iter().zip(&mut room.answers) {
            let logs = self.logs(z, cell);
            self.responses[cell.member].at(&logs, answers);
            room.logs.push(logs);
        }
    }

    /// Bow of a family beside the engine's answer, mm, with its slopes along the mean, how far families lie apart, and the
    /// family's own score.
    fn bow(&self, z: &[f64], d: &Datum, bow: usize) -> (f64, [f64; 3]) {
        let apart = FAMILIES_APART.at(z[Layout::apart(bow)]) * d.size * d.shape;
        let spread = apart.hypot(d.seams);
        let own = z[Layout::family(d.family, bow)];
        let mean = MEAN_BOW_MM_PER_M * d.size * d.shape;
        let along_apart = own * apart * apart * FAMILIES_APART.log_sd / spread.max(f64::MIN_POSITIVE);
        (mean * z[Layout::mean(bow)] + spread * own, [mean, along_apart, spread])
    }

    fn spread(&self, z: &[f64], d: &Datum) -> (f64, f64) {
        let own = (scatter(d.kind).at(z[Layout::scatter(d.kind)]) * d.size).powi(2);
        ((d.known + own).sqrt(), own)
    }

    /// What a reading is of.
    pub(crate) fn what(&self, datum: usize) -> crate::Quantity {
        let d = &self.data[datum];
        self.responses[self.cells[d.cell].member].keys()[d.key].what
    }

    /// What is expected of every reading.
    pub(crate) fn expected(&self, z: &[f64], room: &mut Room) -> Vec<Expected> {
        self.answers(z, room);
        let mut all = vec![Expected { mean_mm: 0.0, sd_mm: 0.0 }; self.data.len()];
        for (d, readings) in self.alike() {
            let bowed = bow(d.kind).map_or(0.0, |b| self.bow(z, d, b).0);
            let one = Expected { mean_mm: room.answers[d.cell][d.key].0 + bowed, sd_mm: self.spread(z, d).0 };
            readings.iter().for_each(|i| all[*i] = one);
        }
        all
    }

    /// Readings of which the same is expected, with one that stands for them.
    fn alike(&self) -> impl Iterator<Item = (&Datum, &[usize])> {
        self.alike.iter().filter_map(|all| Some((&self.data[*all.first()?], all.as_slice())))
    }

    /// Log of posterior density, but for a constant, and its slopes.
    pub(crate) fn log_density(&self, z: &[f64], slope: &mut [f64], room: &mut Room) -> f64 {
        self.answers(z, room);
        room.pull.clear();
        room.pull.resize(self.cells.len(), [0.0; FACTORS]);
        let mut log = 0.0;
        for (s, z) in slope.iter_mut().zip(z) {
            *s = -z;
            log -= 0.5 * z * z;
        }
        for (d, readings) in self.alike() {
            let (answer, along) = &room.answers[d.cell][d.key];
            let bowed = bow(d.kind).map(|b| (b, self.bow(z, d, b)));
            let mean = answer + bowed.map_or(0.0, |(_, (mm, _))| mm);
            let (sd, own) = self.spread(z, d);
            let law = Law::of_all(readings.iter().map(|i| self.data[*i].value_mm - mean), sd);
            log += law.log;
            for (pull, along) in room.pull[d.cell].iter_mut().zip(along) {
                *pull += law.along_mean * along;
            }
            if let Some((b, (_, [mean, apart, own]))) = bowed {
                slope[Layout::mean(b)] += law.along_mean * mean;
                slope[Layout::apart(b)] += law.along_mean * apart;
                slope[Layout::family(d.family, b)] += law.along_mean * own;
            }
            slope[Layout::scatter(d.kind)] += law.along_sd * own / sd * scatter(d.kind).log_sd;
        }
        for (cell, pull) in self.cells.iter().zip(&room.pull) {
            for ((slope, pull), sd) in slope.iter_mut().zip(pull).zip(&self.sd) {
                *slope += pull * sd;
            }
            let groups = [self.layout.procedure(cell.procedure), self.layout.line(cell.line)];
            for (apart, own) in groups.into_iter().flatten() {
                let size = FORCES_APART.at(z[apart]);
                slope[own] += pull[FORCE] * size;
                slope[apart] += pull[FORCE] * size * FORCES_APART.log_sd * z[own];
            }
        }
        if log.is_finite() { log } else { f64::NEG_INFINITY }
    }
}

/// Log density of a residual, with slopes along the mean and the deviation, and how likely the reading is odd.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Law {
    pub log: f64,
    along_mean: f64,
    along_sd: f64,
    pub odd: f64,
}

/// Odd readings have Student's law of three degrees of freedom and deviation Wσ, f(r) = 2/(π·W·σ)·(1 + (r/Wσ)²)⁻², W = [`ODD_WIDTH`]; r =
/// residual, σ = deviation of an ordinary reading, mm. Far out ∂ ln f/∂ ln σ tends to 3, as of an ordinary reading at 2 σ, and the slope along
/// the mean to 0.
impl Law {
    /// Of one residual.
    pub(crate) fn of(residual: f64, sd: f64) -> Self {
        Self::of_all(std::iter::once(residual), sd)
    }

    /// Of several that scatter alike, added up.
    fn of_all(residuals: impl Iterator<Item = f64>, sd: f64) -> Self {
        // both over the density of a normal law at its middle
        let top = 2.0 * std::f64::consts::FRAC_2_PI.sqrt();
        let (ln_plain, ln_odd) = ((1.0 - ODD_SHARE).ln(), (top * ODD_SHARE / ODD_WIDTH).ln());
        let narrower = 1.0 / (ODD_WIDTH * ODD_WIDTH);
        let mut sum = Self { log: 0.0, along_mean: 0.0, along_sd: 0.0, odd: 0.0 };
        let mut count = 0.0;
        for residual in residuals {
            let t = residual / sd;
            let plain = ln_plain - 0.5 * t * t;
            let far = 1.0 + narrower * t * t;
            let odd = ln_odd - 2.0 * far.ln();
            // the smaller of both beside the larger
            let beside = (-(plain - odd).abs()).exp();
            let most = 1.0 / (1.0 + beside);
            let share = if odd > plain { most } else { beside * most };
            let weight = 1.0 - share + 4.0 * narrower / far * share;
            sum.log += plain.max(odd) + beside.ln_1p();
            sum.along_mean += weight * t;
            sum.along_sd += weight * t * t - 1.0;
            sum.odd += share;
            count += 1.0;
        }
        sum.log -= count * (sd.ln() + HALF_LN_TAU);
        (sum.along_mean, sum.along_sd) = (sum.along_mean / sd, sum.along_sd / sd);
        sum
    }

    /// Chance of a residual below this.
    pub(crate) fn below(residual: f64, sd: f64) -> f64 {
        let normal = |t: f64| 0.5 * statrs::function::erf::erfc(-t / std::f64::consts::SQRT_2);
        let t = residual / sd;
        let u = t / ODD_WIDTH;
        let odd = 0.5 + (u / (1.0 + u * u) + u.atan()) * std::f64::consts::FRAC_1_PI;
        (1.0 - ODD_SHARE) * normal(t) + ODD_SHARE * odd
    }
}

/// Data of which the same is expected at all unknowns.
fn alike(data: &[Datum]) -> Vec<Vec<usize>> {
    let same = |a: &Datum, b: &Datum| {
        let bits = |d: &Datum| [d.size, d.shape, d.known, d.seams].map(f64::to_bits);
        (a.cell, a.key, a.family) == (b.cell, b.key, b.family) && bits(a) == bits(b)
    };
    let mut all: Vec<Vec<usize>> = Vec::new();
    for (i, d) in data.iter().enumerate() {
        match all.iter_mut().find(|known| same(&data[known[0]], d)) {
            Some(known) => known.push(i),
            None => all.push(vec![i]),
        }
    }
    all
}

/// Distinct questions to each member, those at mid-length first.
fn keys(record: &Record) -> Vec<Vec<Key>> {
    let middle = |member: &crate::Member| {
        Model::AT_MIDDLE.map(|what| Key { what, at_mm: 0.5 * member.job.member.length_mm }).to_vec()
    };
    let mut keys: Vec<Vec<Key>> = record.members.iter().map(middle).collect();
    for piece in &record.pieces {
        for reading in &piece.readings {
            let key = Key { what: reading.what, at_mm: reading.at_mm };
            if !keys[piece.member].contains(&key) {
                keys[piece.member].push(key);
            }
        }
    }
    keys
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::{Shop, invented};

    #[test]
    fn the_slopes_are_those_of_the_density() {
        let record = invented(&Shop::default(), 12, 3);
        let model = Model::new(&record).unwrap();
        let n = model.layout.count();
        let mut room = Room::default();
        let z: Vec<f64> = (0..n).map(|i| (f64::from(i as u32) * 1.7).sin()).collect();
        let mut slope = vec![0.0; n];
        model.log_density(&z, &mut slope, &mut room);
        for i in 0..n {
            let step = 1e-5;
            let mut at = |by: f64| {
                let mut z = z.clone();
                z[i] += by;
                model.log_density(&z, &mut vec![0.0; n], &mut room)
            };
            let want = (at(step) - at(-step)) / (2.0 * step);
            assert!(
                (slope[i] - want).abs() < 1e-5 * want.abs().max(10.0),
                "unknown {i}: {} against {want}",
                slope[i]
            );
        }
    }

    #[test]
    fn the_law_integrates_to_one_and_its_share_below_is_its_integral() {
        let (sd, step, end) = (1.7, 0.001, 600.0);
        // of Student's law of the odd ones a little lies beyond
        let mut sum = Law::below(-end, sd);
        let mut at = -end;
        while at < end {
            sum += step * Law::of(at + 0.5 * step, sd).log.exp();
            at += step;
            if (at - 2.3).abs() < 0.5 * step {
                assert!((sum - Law::below(2.3, sd)).abs() < 1e-6, "{sum} against {}", Law::below(2.3, sd));
            }
        }
        sum += 1.0 - Law::below(end, sd);
        assert!((sum - 1.0).abs() < 1e-6, "{sum} against 1");
    }
}
