//! The same pieces with a measure of prevention taken: the predicted shape out of every piece, or half the scatter.

use super::case::Case;
use super::drawn::Drawn;
use super::work::Basis;
use crate::straighten::shape::{OutOfStraight, Toes};
use serde::Serialize;

/// Part of the scatter that is left when it is narrowed (choice).
pub(crate) const NARROWED: f64 = 0.5;

/// What could be done before welding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// Webs cut to the opposite of the predicted camber.
    PreCamber,
    /// Passes laid so that the predicted sweep does not come.
    Balance,
    /// Flanges preset against the predicted cup and tilt.
    Preset,
    /// Scatter from piece to piece halved.
    NarrowScatter,
}

impl Measure {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::PreCamber, Self::Balance, Self::Preset, Self::NarrowScatter];
}

/// All pieces once for each measure.
pub(super) fn scenarios(
    basis: &Basis,
    drawn: &Drawn,
    nominal: &OutOfStraight,
) -> Vec<(Measure, Vec<Option<Case>>)> {
    let without = |measure: Measure| {
        let (camber, sweep) = (measure == Measure::PreCamber, measure == Measure::Balance);
        let taken = nominal.only(camber, sweep, |_| measure == Measure::Preset);
        let one = |case: &Case| Case::new(basis, less(&case.shape, &taken));
        drawn.cases.iter().map(|case| case.as_ref().map(one)).collect()
    };
    let cases = |measure| match measure {
        Measure::NarrowScatter => narrowed(basis, drawn),
        Measure::PreCamber | Measure::Balance | Measure::Preset => without(measure),
    };
    Measure::ALL.map(|measure| (measure, cases(measure))).into()
}

/// A piece less a shape at the same stations.
pub(super) fn less(piece: &OutOfStraight, taken: &OutOfStraight) -> OutOfStraight {
    let minus = |from: &[f64], what: &[f64]| from.iter().zip(what).map(|(a, b)| a - b).collect();
    OutOfStraight {
        x_mm: piece.x_mm.clone(),
        camber_mm: minus(&piece.camber_mm, &taken.camber_mm),
        sweep_mm: minus(&piece.sweep_mm, &taken.sweep_mm),
        toes: toes_less(&piece.toes, &taken.toes),
    }
}

/// Toes less those that the prediction expects at the nearest place of the same flange.
fn toes_less(toes: &[Toes], nominal: &[Toes]) -> Vec<Toes> {
    let expected = |t: &Toes| {
        nominal
            .iter()
            .filter(|n| n.seam == t.seam)
            .min_by(|a, b| (a.x_mm - t.x_mm).abs().total_cmp(&(b.x_mm - t.x_mm).abs()))
            .map_or((0.0, 0.0), |n| (n.near_mm, n.far_mm))
    };
    let one = |t: &Toes| {
        let (near, far) = expected(t);
        Toes { near_mm: t.near_mm - near, far_mm: t.far_mm - far, ..*t }
    };
    toes.iter().map(one).collect()
}

/// Every piece moved half of the way to the mean of its draw.
fn narrowed(basis: &Basis, drawn: &Drawn) -> Vec<Option<Case>> {
    let mut out = Vec::with_capacity(drawn.cases.len());
    for draw in drawn.cases.chunks(drawn.each.max(1)) {
        let shapes: Vec<&OutOfStraight> = draw.iter().flatten().map(|c| &c.shape).collect();
        let mean = |of: &dyn Fn(&OutOfStraight) -> Option<f64>| {
            let values: Vec<f64> = shapes.iter().filter_map(|s| of(s)).collect();
            values.iter().sum::<f64>() / values.len().max(1) as f64
        };
        let toward = |value: f64, mean: f64| mean + NARROWED * (value - mean);
        let stations = shapes.first().map_or(0, |s| s.x_mm.len());
        let cambers: Vec<f64> = (0..stations).map(|i| mean(&|s| s.camber_mm.get(i).copied())).collect();
        let sweeps: Vec<f64> = (0..stations).map(|i| mean(&|s| s.sweep_mm.get(i).copied())).collect();
        let toes = shapes.first().map_or(0, |s| s.toes.len());
        let nears: Vec<f64> = (0..toes).map(|i| mean(&|s| s.toes.get(i).map(|t| t.near_mm))).collect();
        let fars: Vec<f64> = (0..toes).map(|i| mean(&|s| s.toes.get(i).map(|t| t.far_mm))).collect();
        out.extend(draw.iter().map(|case| {
            let mut shape = case.as_ref()?.shape.clone();
            shape.camber_mm.iter_mut().zip(&cambers).for_each(|(v, mean)| *v = toward(*v, *mean));
            shape.sweep_mm.iter_mut().zip(&sweeps).for_each(|(v, mean)| *v = toward(*v, *mean));
            for (t, (near, far)) in shape.toes.iter_mut().zip(nears.iter().zip(&fars)) {
                (t.near_mm, t.far_mm) = (toward(t.near_mm, *near), toward(t.far_mm, *far));
            }
            Some(Case::new(basis, shape))
        }));
    }
    out
}
