//! What a model says of a member, of its families, and of readings that nobody made.

use crate::chain::Normals;
use crate::layout::{Layout, bow};
use crate::model::{Cell, Law, Model, Room};
use crate::prior::{FACTORS, FAMILIES_APART, FORCE, FORCES_APART, MEAN_BOW_MM_PER_M, factor_sd};
use crate::{Draws, Quantity, Record};
use weldbow_engine::member::Seam;

/// Whose bias is asked for.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Place {
    pub family: Option<usize>,
    pub procedure: Option<usize>,
    pub line: Option<usize>,
    pub length_m: f64,
}

impl Place {
    /// That of a piece of the record.
    pub(crate) fn of(record: &Record, piece: usize) -> Self {
        let p = &record.pieces[piece];
        let length_m = 1e-3 * record.members[p.member].job.member.length_mm;
        Self { family: Some(p.family), procedure: Some(p.procedure), line: Some(p.line), length_m }
    }
}

impl Model {
    /// What every member is asked at mid-length.
    pub const AT_MIDDLE: [Quantity; 7] = [
        Quantity::Camber,
        Quantity::Sweep,
        Quantity::Shortening,
        Quantity::Cup(Seam::Outer),
        Quantity::Cup(Seam::Inner),
        Quantity::Tilt(Seam::Outer),
        Quantity::Tilt(Seam::Inner),
    ];

    /// Bias of a member in a family by these unknowns: the log of each factor, then the bows of plates and assembly at
    /// mid-length, mm a metre. `family`: None for one that is not in the record, with scores of its own.
    pub(crate) fn bias(&self, z: &[f64], of: Place, seams_mm: [f64; 2], own: [f64; 6]) -> [f64; FACTORS + 2] {
        let mut out = [0.0; FACTORS + 2];
        let cell = Cell { member: 0, procedure: of.procedure.unwrap_or(0), line: of.line.unwrap_or(0) };
        out[..FACTORS].copy_from_slice(&self.logs(z, &cell));
        // a procedure or a line that the record does not know is drawn as one more of them
        let groups = [(of.procedure, self.layout.procedure(0)), (of.line, self.layout.line(0))];
        for (at, (known, place)) in groups.into_iter().enumerate() {
            match (known, place) {
                (None, Some((apart, first))) => {
                    out[FORCE] += FORCES_APART.at(z[apart]) * (own[at] - z[first]);
                }
                (None, None) => out[FORCE] += FORCES_APART.at(own[4 + at]) * own[at],
                (Some(_), _) => {}
            }
        }
        for b in 0..2 {
            let apart = FAMILIES_APART.at(z[Layout::apart(b)]) * of.length_m;
            let mean = MEAN_BOW_MM_PER_M * of.length_m * z[Layout::mean(b)];
            out[FACTORS + b] = match of.family {
                Some(family) => mean + apart.hypot(seams_mm[b]) * z[Layout::family(family, b)],
                None => mean + apart * own[2 + b],
            };
        }
        out
    }

    /// What the own bias of its seams is worth in the camber and the sweep of a member, mm at mid-length.
    pub(crate) fn seams_mm(&self, member: usize) -> [f64; 2] {
        let found = &self.responses[member].seams_sd_mm;
        [found[0], found[1]]
    }

    /// Answers at mid-length by these unknowns.
    pub(crate) fn answers_of(&self, z: &[f64], of: Place, member: usize) -> [f64; 7] {
        let bias = self.bias(z, of, self.seams_mm(member), [0.0; 6]);
        let mut logs = [0.0; FACTORS];
        logs.copy_from_slice(&bias[..FACTORS]);
        let mut found = Vec::new();
        self.responses[member].at(&logs, &mut found);
        let mut out = [0.0; 7];
        out.iter_mut().zip(&found).for_each(|(o, f)| *o = f.0);
        out[0] += bias[FACTORS];
        out[1] += bias[FACTORS + 1];
        out
    }

    /// Answers at mid-length by what is taken to be so before any record: the engine's own bias, and the bow that plates and assembly
    /// may bring to all pieces of a family.
    pub(crate) fn answers_before(
        &self,
        member: usize,
        length_m: f64,
        draws: usize,
        seed: u64,
    ) -> Vec<[f64; 7]> {
        let mut normals = Normals::new(seed, 2);
        let mut found = Vec::new();
        let one = |_| {
            let logs = factor_sd().map(|sd| sd * normals.next());
            self.responses[member].at(&logs, &mut found);
            let seams = &self.responses[member].seams_sd_mm;
            let mut out = [0.0; 7];
            for (k, ((o, f), s)) in out.iter_mut().zip(&found).zip(seams).enumerate() {
                let own = match bow(Self::AT_MIDDLE[k].kind()) {
                    Some(_) => (FAMILIES_APART.at(normals.next()) * length_m).hypot(*s),
                    None => *s,
                };
                *o = f.0 + own * normals.next();
                if bow(Self::AT_MIDDLE[k].kind()).is_some() {
                    *o += MEAN_BOW_MM_PER_M * length_m * normals.next();
                }
            }
            out
        };
        (0..draws).map(one).collect()
    }

    /// Mean of what is expected of every reading over the draws, without what procedures and lines differ by, and the mean of
    /// its deviation: what a chart over time is drawn from.
    pub(crate) fn expected_alike(&self, draws: &Draws) -> Vec<(f64, f64)> {
        let mut room = Room::default();
        let mut sums = vec![(0.0, 0.0); self.data.len()];
        let n = draws.z.len() as f64;
        for z in &draws.z {
            let mut z = z.clone();
            z.truncate(self.layout.alike());
            z.resize(self.layout.count(), 0.0);
            for (sum, e) in sums.iter_mut().zip(self.expected(&z, &mut room)) {
                sum.0 += e.mean_mm / n;
                sum.1 += e.sd_mm / n;
            }
        }
        sums
    }

    /// How likely each reading is odd.
    pub fn odd(&self, draws: &Draws) -> Vec<f64> {
        let mut room = Room::default();
        let mut sums = vec![0.0; self.data.len()];
        for z in &draws.z {
            let expected = self.expected(z, &mut room);
            for ((sum, e), d) in sums.iter_mut().zip(expected).zip(&self.data) {
                *sum += Law::of(d.value_mm - e.mean_mm, e.sd_mm).odd / draws.z.len() as f64;
            }
        }
        sums
    }

    /// Unknowns drawn from what is taken to be so before any record, and readings that such a shop would make, in place of those
    /// there; the unknowns come back.
    pub fn invent(&mut self, seed: u64) -> Vec<f64> {
        let mut normals = Normals::new(seed, 0);
        let truth: Vec<f64> = (0..self.layout.count()).map(|_| normals.next()).collect();
        let expected = self.expected(&truth, &mut Room::default());
        for (d, e) in self.data.iter_mut().zip(expected) {
            d.value_mm = e.mean_mm + normals.residual(e.sd_mm);
        }
        truth
    }

    /// Puts its readings into the record that it was made from.
    pub fn put_into(&self, record: &mut Record) {
        let mut data = self.data.iter();
        for piece in &mut record.pieces {
            for (reading, d) in piece.readings.iter_mut().zip(&mut data) {
                reading.value_mm = d.value_mm;
            }
        }
    }
}
