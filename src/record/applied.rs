//! What the engine takes of a record, for each family, procedure and line together.

use crate::ask::Place;
use crate::chain::Normals;
use crate::numbers::{SEED, firsts};
use crate::prior::FACTORS;
use crate::{Draws, Kind, Model, Record};
use weldbow_engine::prediction::Learned as Applied;
use weldbow_engine::prediction::learned::UNSURE;

/// What the engine takes and for what.
#[derive(Debug, Clone, PartialEq)]
pub struct AppliedTo {
    /// Family; None for one that is not in the record.
    pub family: Option<usize>,
    /// Procedure; None for one that is not in the record.
    pub procedure: Option<usize>,
    /// Line.
    pub line: usize,
    /// Means, covariance, scatter.
    pub learned: Applied,
}

/// Means and covariance of the bias, for every family that the record knows and for another one, line by line.
pub(crate) fn applied(record: &Record, model: &Model, draws: &Draws) -> Vec<AppliedTo> {
    let bows = [Kind::Camber, Kind::Sweep].map(|kind| record.reads(kind));
    let scatters =
        Kind::ALL.map(|kind| if record.reads(kind) { draws.square(kind, 1.0).sqrt() } else { 0.0 });
    let of = |piece: usize, family: bool, procedure: bool| {
        let p = &record.pieces[piece];
        let mut of = Place::of(record, piece);
        of.family = of.family.filter(|_| family);
        of.procedure = of.procedure.filter(|_| procedure);
        let seams = model.seams_mm(p.member);
        let mut normals = Normals::new(SEED, 20);
        let rows: Vec<[f64; UNSURE]> = draws
            .z
            .iter()
            .map(|z| {
                let own = [0; 6].map(|_| normals.next());
                let mut row = model.bias(z, of, seams, own);
                for (bow, read) in row[FACTORS..].iter_mut().zip(bows) {
                    *bow = if read { *bow / of.length_m } else { 0.0 };
                }
                row
            })
            .collect();
        let (mean, covariance) = joint(&rows);
        let learned =
            Applied { from: String::new(), mean, covariance, scatter: scatters, seams: family && bows[0] };
        AppliedTo { family: of.family, procedure: of.procedure, line: p.line, learned }
    };
    let known = firsts(record, |i| {
        let p = &record.pieces[i];
        (p.family, p.procedure, p.line)
    });
    let mut all: Vec<AppliedTo> = known.into_iter().map(|i| of(i, true, true)).collect();
    let procedures = firsts(record, |i| (record.pieces[i].procedure, record.pieces[i].line));
    all.extend(procedures.into_iter().map(|i| of(i, false, true)));
    // pieces of a named procedure say less of another one
    if record.procedures.iter().any(|name| !name.is_empty()) {
        for i in firsts(record, |i| (record.pieces[i].family, record.pieces[i].line)) {
            all.push(of(i, true, false));
        }
        all.extend(firsts(record, |i| record.pieces[i].line).into_iter().map(|i| of(i, false, false)));
    }
    all
}

fn joint(rows: &[[f64; UNSURE]]) -> ([f64; UNSURE], [[f64; UNSURE]; UNSURE]) {
    let n = rows.len() as f64;
    let mut mean = [0.0; UNSURE];
    let mut covariance = [[0.0; UNSURE]; UNSURE];
    for (i, mean) in mean.iter_mut().enumerate() {
        *mean = rows.iter().map(|r| r[i]).sum::<f64>() / n;
    }
    for (i, row) in covariance.iter_mut().enumerate() {
        for (j, cell) in row.iter_mut().enumerate() {
            *cell = rows.iter().map(|r| (r[i] - mean[i]) * (r[j] - mean[j])).sum::<f64>() / (n - 1.0);
        }
    }
    (mean, covariance)
}
