//! Coordinates in which a sampler moves freely.
//!
//! What a family lies off by is its score times how far families lie apart. The more its readings say of that product, the less
//! the score may move once the distance has: a chain that moves scores hardly enters large distances, and what shares a sum with
//! the product (force, arm) comes out too sure. A chain that moves products is stuck in small distances where readings say little.
//! So each moves as its readings ask (partly non-centred: Papaspiliopoulos, Roberts, Sköld 2007, Statistical Science 22, 59;
//! Betancourt and Girolami 2015, arXiv:1312.0906; memory): with the coordinate u and the distance S (S₀ at its median)
//! the score is u·(S₀/S)^c, and c is the share that readings have in what is known of the product.

use crate::layout::{Layout, bow};
use crate::model::{Model, Room};
use crate::prior::{FACTORS, FAMILIES_APART, FORCE, FORCES_APART, Size, scatter};

/// A score that stands for a product with a distance.
#[derive(Debug, Clone, Copy)]
struct Group {
    /// Place of the distance.
    apart: usize,
    /// Place of the score.
    own: usize,
    /// The distance without its floor.
    size: Size,
    /// What is added to it as a square: the seams' own bias.
    floor: f64,
    /// c.
    share: f64,
}

/// A model in those coordinates.
#[derive(Debug)]
pub(crate) struct Centred<'m> {
    model: &'m Model,
    groups: Vec<Group>,
    z: Vec<f64>,
    room: Room,
}

impl Group {
    /// Log of S₀/S, and the slope of ln S along the score of the distance.
    fn stretch(&self, z: f64) -> (f64, f64) {
        let free = self.size.at(z);
        let whole = free.hypot(self.floor);
        let slope = (free / whole).powi(2) * self.size.log_sd;
        ((self.size.median.hypot(self.floor) / whole).ln(), slope)
    }
}

/// What readings say of a product before they are read: the sum of (what the median of it moves each by over its deviation)².
fn share(of: impl Iterator<Item = f64>) -> f64 {
    let told: f64 = of.map(|ratio| ratio * ratio).sum();
    told / (1.0 + told)
}

impl<'m> Centred<'m> {
    /// Of a model.
    pub(crate) fn new(model: &'m Model) -> Self {
        let mut groups = families(model);
        groups.extend(forces(model));
        Self { model, groups, z: Vec::new(), room: Room::default() }
    }

    /// How many.
    pub(crate) fn count(&self) -> usize {
        self.model.layout.count()
    }

    /// The scores at a point.
    pub(crate) fn place(&self, u: &[f64]) -> Vec<f64> {
        let mut z = u.to_vec();
        for group in &self.groups {
            z[group.own] *= (group.share * group.stretch(u[group.apart]).0).exp();
        }
        z
    }

    /// Log of the density, but for a constant, and its slopes.
    pub(crate) fn log_density(&mut self, u: &[f64], slope: &mut [f64]) -> f64 {
        self.z = self.place(u);
        let mut log = self.model.log_density(&self.z, slope, &mut self.room);
        for group in &self.groups {
            let (stretched, along) = group.stretch(u[group.apart]);
            let times = group.share * stretched;
            log += times;
            slope[group.apart] -= group.share * along * (1.0 + slope[group.own] * self.z[group.own]);
            slope[group.own] *= times.exp();
        }
        if log.is_finite() { log } else { f64::NEG_INFINITY }
    }
}

/// Bows of families.
fn families(model: &Model) -> Vec<Group> {
    let mut groups = Vec::new();
    for (own, family, b) in model.layout.families() {
        let data = || model.data.iter().filter(move |d| d.family == family && bow(d.kind) == Some(b));
        let count = data().count().max(1) as f64;
        let mean = |of: &dyn Fn(&crate::model::Datum) -> f64| data().map(of).sum::<f64>() / count;
        let metres = mean(&|d| d.size * d.shape);
        let ratio = |d: &crate::model::Datum| {
            let moved = (FAMILIES_APART.median * d.size * d.shape).hypot(d.seams);
            moved / (d.known + (scatter(d.kind).median * d.size).powi(2)).sqrt()
        };
        let share = share(data().map(ratio));
        let size = Size { median: FAMILIES_APART.median * metres, ..FAMILIES_APART };
        if share > 0.0 && size.median > 0.0 {
            groups.push(Group { apart: Layout::apart(b), own, size, floor: mean(&|d| d.seams), share });
        }
    }
    groups
}

/// Forces of procedures and lines.
fn forces(model: &Model) -> Vec<Group> {
    let mut along = Vec::new();
    let slopes: Vec<Vec<f64>> = model
        .cells
        .iter()
        .map(|cell| {
            model.responses[cell.member].at(&[0.0; FACTORS], &mut along);
            along.iter().map(|(_, slopes)| slopes[FORCE]).collect()
        })
        .collect();
    let ratio = |d: &crate::model::Datum| {
        let deviation = (d.known + (scatter(d.kind).median * d.size).powi(2)).sqrt();
        FORCES_APART.median * slopes[d.cell][d.key] / deviation
    };
    let of = |(apart, own): (usize, usize), mine: &dyn Fn(&crate::model::Cell) -> bool| {
        let share = share(model.data.iter().filter(|d| mine(&model.cells[d.cell])).map(ratio));
        Group { apart, own, size: FORCES_APART, floor: 0.0, share }
    };
    let most = |of: &dyn Fn(&crate::model::Cell) -> usize| model.cells.iter().map(of).max().unwrap_or(0);
    let procedures = (0..=most(&|c| c.procedure))
        .filter_map(|i| Some(of(model.layout.procedure(i)?, &|c| c.procedure == i)));
    let lines = (0..=most(&|c| c.line)).filter_map(|i| Some(of(model.layout.line(i)?, &|c| c.line == i)));
    procedures.chain(lines).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::{Shop, invented};

    #[test]
    fn the_slopes_are_those_of_the_density_and_the_density_that_of_the_scores() {
        let mut record = invented(&Shop::default(), 12, 3);
        record.procedures = vec!["a".to_owned(), "b".to_owned()];
        record.pieces.iter_mut().enumerate().for_each(|(i, p)| p.procedure = i % 2);
        let model = Model::new(&record).unwrap();
        let mut centred = Centred::new(&model);
        let n = centred.count();
        let u: Vec<f64> = (0..n).map(|i| (f64::from(i as u32) * 1.7).sin()).collect();
        let mut slope = vec![0.0; n];
        let log = centred.log_density(&u, &mut slope);
        // the determinant of a triangular map is the product of its diagonal, here by differences
        let z = centred.place(&u);
        let mut determinant = 1.0;
        for i in 0..n {
            let step = 1e-5;
            let mut at = |by: f64| {
                let mut u = u.clone();
                u[i] += by;
                (centred.log_density(&u, &mut vec![0.0; n]), centred.place(&u)[i])
            };
            let ((up, z_up), (down, z_down)) = (at(step), at(-step));
            let want = (up - down) / (2.0 * step);
            assert!(
                (slope[i] - want).abs() < 1e-5 * want.abs().max(10.0),
                "{i}: {} against {want}",
                slope[i]
            );
            determinant *= (z_up - z_down) / (2.0 * step);
        }
        let plain = model.log_density(&z, &mut vec![0.0; n], &mut Room::default());
        println!("ln of the determinant {:.6}, by densities {:.6}", determinant.ln(), log - plain);
        assert!((determinant.ln() - (log - plain)).abs() < 1e-6 && determinant.ln().abs() > 0.1);
    }
}
