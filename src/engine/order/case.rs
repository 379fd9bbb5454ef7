//! One drawn piece: its shape, what is decided, and the sizes its work is read off by.

use super::work::{Basis, WorkKind};
use crate::member::Seam;
use crate::numerics::largest;
use crate::straighten::decide::{Action, Limits, MeasuredValue};
use crate::straighten::plan::{Decision, asks_after_lines};
use crate::straighten::shape::{OutOfStraight, add_bow};
use crate::tolerance::Quantity;

/// A drawn piece, decided.
#[derive(Debug, Clone)]
pub(super) struct Case {
    pub shape: OutOfStraight,
    /// What to do with toe, sweep and camber.
    pub(crate) actions: [Action; 3],
    /// Which flanges are out.
    toes_out: [bool; 2],
    /// Whether it is too near a limit for one measurement, needs nothing else, and is out of that limit.
    pub(crate) doubtful_and_out: bool,
}

/// What is decided of a quantity; what nothing limits is accepted.
fn decided(decisions: &[Decision], quantity: Quantity) -> Action {
    decisions.iter().find(|d| d.quantity == quantity).map_or(Action::Accept, |d| d.action)
}

impl Case {
    pub(super) fn new(basis: &Basis, shape: OutOfStraight) -> Self {
        let decisions = basis.decide(&shape);
        let actions =
            [Quantity::FlangeToe, Quantity::Sweep, Quantity::Camber].map(|q| decided(&decisions, q));
        let out = |seam| {
            let toes =
                shape.toes.iter().filter(|t| t.seam == seam).flat_map(|t| basis.piece.goals.of_toes(t));
            let measurements = basis.piece.measurements;
            toes.into_iter().any(|(value, limits)| {
                limits.is_some()
                    && MeasuredValue { value, measurements }.action(&limits) == Action::Straighten
            })
        };
        let toes_out = Seam::BOTH.map(out);
        let doubtful = actions.iter().any(|a| *a != Action::Accept) && !actions.contains(&Action::Straighten);
        let doubtful_and_out = doubtful && basis.is_out(&shape);
        Self { shape, actions, toes_out, doubtful_and_out }
    }

    pub(super) fn action(&self, quantity: Quantity) -> Action {
        match quantity {
            Quantity::FlangeToe => self.actions[0],
            Quantity::Sweep => self.actions[1],
            _ => self.actions[2],
        }
    }

    /// Whether it has to be straightened for anything.
    pub(crate) fn needs(&self) -> bool {
        self.actions.contains(&Action::Straighten)
    }

    /// Quantities that have to be measured again or asked about.
    pub(crate) fn measured_again(&self) -> usize {
        let again = |a: &&Action| matches!(a, Action::MeasureAgain | Action::AskEngineer);
        self.actions.iter().filter(again).count()
    }

    /// Whether a plan is asked for of that kind.
    pub(crate) fn asks(&self, kind: WorkKind) -> bool {
        self.action(kind.quantity()) == Action::Straighten
            && match kind {
                WorkKind::Toe(seam) => self.toes_out[usize::from(seam == Seam::Inner)],
                WorkKind::Sweep | WorkKind::Camber => true,
            }
    }

    /// Size with sign: the farthest from the middle of the limits (mm), or the largest angle between the halves of a
    /// flange (rad).
    pub(super) fn size(&self, basis: &Basis, kind: WorkKind) -> f64 {
        match kind {
            WorkKind::Toe(seam) => {
                let width = |x_mm| basis.member.plates_at(x_mm).flange_mm(seam).0;
                let toes = self.shape.toes.iter().filter(|t| t.seam == seam);
                largest(toes.map(|t| t.angle_rad(width(t.x_mm))))
            }
            WorkKind::Sweep => self.peak(&self.shape.sweep_mm, &basis.piece.goals.sweep),
            WorkKind::Camber => self.peak(&self.shape.camber_mm, &basis.piece.goals.camber),
        }
    }

    fn peak(&self, offset_mm: &[f64], limits: &Limits) -> f64 {
        largest(offset_mm.iter().zip(self.along()).map(|(o, s)| o - limits.middle(s)))
    }

    /// Stations as a part of the length.
    fn along(&self) -> impl Iterator<Item = f64> {
        let x = &self.shape.x_mm;
        let (from, to) = (x.first().copied().unwrap_or(0.0), x.last().copied().unwrap_or(1.0));
        x.iter().map(move |x| (x - from) / (to - from))
    }

    /// The same once lines of heat on its flanges have brought an even camber (mm at mid-length): decided anew.
    pub(super) fn bent(&self, basis: &Basis, camber_mm: f64) -> Self {
        let mut bent = self.clone();
        if camber_mm.abs() > 0.0 {
            bent.bend(camber_mm);
            let then = decided(&basis.decide(&bent.shape), Quantity::Camber);
            bent.actions[2] = if asks_after_lines(then) { Action::Straighten } else { then };
        }
        bent
    }

    /// Adds an even bow to the camber, mm at mid-length.
    pub(crate) fn bend(&mut self, camber_mm: f64) {
        add_bow(&self.shape.x_mm, &mut self.shape.camber_mm, camber_mm);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::order::basis::basis;
    use crate::prediction::predict;
    use crate::scatter::{Distribution, SamplingMethod, SamplingPlan, Spread};
    use crate::shop::Shop;
    use crate::straighten::decide::Family;

    /// Pieces with a sweep drawn from a normal law, as measured: mean, scatter and measuring uncertainty.
    fn drawn(count: usize, basis: &Basis, mean: f64, sd: f64) -> Vec<Case> {
        let plan = SamplingPlan::new(SamplingMethod::Latin, count, 9, 1).unwrap();
        let seen = sd.hypot(basis.piece.goals.sweep.measuring_sd);
        let law = Spread::new(Distribution::Normal { mean, sd: seen }, None, None).unwrap();
        let length = basis.member.length_mm;
        let x: Vec<f64> = (0..=8).map(|i| length * f64::from(i) / 8.0).collect();
        let case = |n: usize| {
            let mut u = [0.0];
            plan.point(n, &mut u);
            let bow = law.quantile(u[0]);
            let sweep = x.iter().map(|x| 4.0 * bow * x * (length - x) / (length * length)).collect();
            let shape = OutOfStraight::new(length, x.clone(), vec![0.0; x.len()], sweep, vec![]).unwrap();
            Case::new(basis, shape)
        };
        (0..count).map(case).collect()
    }

    /// The closed form of `Family::against`: share outside the limits less the guard band, as measured.
    #[test]
    fn the_share_acted_on_is_that_of_the_normal_law() {
        let job = read_text("starter.toml", STARTER).unwrap();
        let mut basis = basis(&job, &predict(&job), &Shop::usual());
        basis.piece.goals.sweep = Limits::both(10.0, 1.0);
        let law = Family { mean: 6.0, sd: 4.0, pieces: None }.against(&basis.piece.goals.sweep).unwrap();
        for count in [100, 1000, 10_000] {
            let cases = drawn(count, &basis, 6.0, 4.0);
            let acted = cases.iter().filter(|c| c.action(Quantity::Sweep) != Action::Accept).count();
            let share = acted as f64 / count as f64;
            println!("{count} pieces: {share:.4} acted on, {:.4} by the normal law", law.acted_on);
            // a Latin plan counts each tail to within a piece
            assert!((share - law.acted_on).abs() <= 2.0 / count as f64);
            let asked = cases.iter().filter(|c| c.needs()).count();
            let sized = cases.iter().filter(|c| c.size(&basis, WorkKind::Sweep).abs() > 10.0 + 1.645).count();
            assert_eq!(asked, sized, "straightened: outside by more than the guard band");
        }
    }

    #[test]
    fn an_even_bow_is_added_to_the_camber_alone() {
        let job = read_text("starter.toml", STARTER).unwrap();
        let basis = basis(&job, &predict(&job), &Shop::usual());
        let mut case = drawn(2, &basis, 3.0, 1.0).remove(0);
        let before = case.shape.sweep_mm.clone();
        case.bend(-2.5);
        assert!(
            (case.size(&basis, WorkKind::Camber) + 2.5 + basis.piece.goals.camber.middle(0.5)).abs() < 1e-9
        );
        assert_eq!(case.shape.sweep_mm, before);
    }
}
