//! The same pieces with a measure of prevention taken: the predicted shape out of every piece, or half the scatter.
//!
//! Prevention, with what it saves and the number that goes with it.

use super::case::Case;
use super::drawn::Drawn;
use super::tally::ExpectedRange;
use super::work::Basis;
use crate::member::Seam;
use crate::prediction::Prediction;
use crate::straighten::shape::{OutOfStraight, Toes};
use serde::Serialize;

/// Part of the scatter that is left when it is narrowed (choice).
const NARROWED: f64 = 0.5;

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

/// One measure of prevention for a mark or a family.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fix {
    /// What is done.
    pub measure: Measure,
    /// Hours it saves; below 0 it costs some.
    pub hours_saved: ExpectedRange,
    /// Pieces that then need no straightening.
    pub pieces_saved: ExpectedRange,
    /// Pieces among these that no method mends today.
    pub blocked_saved: ExpectedRange,
    /// The mark whose number is told.
    pub mark: String,
    /// Size of it, mm, with its sign: web ordinate, sweep to be balanced, packing under a toe; 0 for scatter.
    pub size_mm: f64,
    /// Where along the member, mm from the start end.
    pub at_mm: f64,
    /// The flange to be preset.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flange: Option<Seam>,
    /// Angle to crown each flange half away from the web, rad, and to lean the flange.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub preset_rad: Option<(f64, f64)>,
    /// Part of the scatter left.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scatter_left: Option<f64>,
}

/// Hours that a piece which no method mends counts for in the order of what to fix (choice: it costs more than any press).
pub(crate) const BLOCKED_H: f64 = 1.0;

impl Fix {
    /// Hours saved, with an hour for each piece that no method mends today: what measures are put in order by.
    pub fn worth_h(&self) -> f64 {
        self.hours_saved.expected + BLOCKED_H * self.blocked_saved.expected
    }
}

/// A measure with the number of one mark, from its allowance; `saved`: hours, pieces, pieces that no method mends.
pub(super) fn fix(
    measure: Measure,
    mark: &str,
    p: &Prediction,
    [hours_saved, pieces_saved, blocked_saved]: [ExpectedRange; 3],
) -> Fix {
    let mut fix = Fix {
        measure,
        hours_saved,
        pieces_saved,
        blocked_saved,
        mark: mark.to_owned(),
        size_mm: 0.0,
        at_mm: 0.0,
        flange: None,
        preset_rad: None,
        scatter_left: None,
    };
    match measure {
        Measure::PreCamber => (fix.size_mm, fix.at_mm) = p.allowance.web.largest(),
        Measure::Balance => (fix.size_mm, fix.at_mm) = (p.sweep.max_mm, p.sweep.at_mm),
        Measure::Preset => {
            let size = |near: f64, far: f64| if near.abs() > far.abs() { near } else { far };
            let presets = p.allowance.presets.iter();
            let most = presets.max_by(|a, b| {
                let of =
                    |f: &crate::prediction::FlangePreset| size(f.near_packing_mm, f.far_packing_mm).abs();
                of(a).total_cmp(&of(b))
            });
            if let Some(f) = most {
                fix.size_mm = size(f.near_packing_mm, f.far_packing_mm);
                fix.at_mm = 0.5 * (f.from_mm + f.to_mm);
                fix.flange = Some(f.flange);
                fix.preset_rad = Some((f.crown_rad, f.lean_rad));
            }
        }
        Measure::NarrowScatter => fix.scatter_left = Some(NARROWED),
    }
    fix
}
