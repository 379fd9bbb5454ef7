//! Where in the unit cube a case is drawn: one coordinate for every drawn input.

use super::file::SampleShape;
use crate::scatter::{Class, Correlation, Points, SamplingFault, SamplingPlan, share_cases, share_point};

/// How drawn inputs are drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct DrawPlan {
    way: Way,
    /// Class of every drawn input.
    classes: Vec<Class>,
    correlation: Option<Correlation>,
}

#[derive(Debug, Clone, PartialEq)]
enum Way {
    /// Every draw new.
    Plain(Points),
    /// Every draw of the bias with so many pieces.
    Pieces { bias: Points, scatter: Points, pieces: usize },
    /// For variance-based indices.
    Shares(SamplingPlan),
}

impl DrawPlan {
    /// Draws as a study asks for them, for inputs of these classes.
    ///
    /// # Errors
    /// A plan beyond the limits of its layout.
    pub(super) fn new(
        sample: &SampleShape,
        classes: Vec<Class>,
        correlation: Option<Correlation>,
    ) -> Result<Self, SamplingFault> {
        let layout = sample.plan;
        let (count, pieces) = (sample.count as usize, sample.pieces as usize);
        let of = |class: Class| classes.iter().filter(|c| **c == class).count();
        let way = if sample.indices {
            Way::Shares(SamplingPlan::new(layout, count, sample.seed, 2 * classes.len())?)
        } else if pieces > 1 {
            let bias = SamplingPlan::new(layout, count, sample.seed, of(Class::Bias))?;
            let scatter = bias.beside(count.saturating_mul(pieces), of(Class::Scatter))?;
            Way::Pieces { bias: bias.into(), scatter: scatter.into(), pieces }
        } else {
            Way::Plain(SamplingPlan::new(layout, count, sample.seed, classes.len())?.into())
        };
        Ok(Self { way, classes, correlation })
    }

    /// Drawn inputs.
    pub(crate) const fn inputs(&self) -> usize {
        self.classes.len()
    }

    /// Cases.
    pub(super) const fn count(&self) -> u64 {
        (match &self.way {
            Way::Plain(points) | Way::Pieces { scatter: points, .. } => points.plan().count(),
            Way::Shares(plan) => share_cases(plan.count(), self.classes.len()),
        }) as u64
    }

    /// Pieces for each draw of the bias; 1 if these are not told apart.
    pub(super) const fn pieces(&self) -> usize {
        match &self.way {
            Way::Pieces { pieces, .. } => *pieces,
            Way::Plain(_) | Way::Shares(_) => 1,
        }
    }

    /// Whether the model's bias is among them.
    pub(super) fn biased(&self) -> bool {
        self.classes.contains(&Class::Bias)
    }

    /// Base count of the variance-based indices, if these are wanted.
    pub(super) const fn shares(&self) -> Option<usize> {
        match &self.way {
            Way::Shares(plan) => Some(plan.count()),
            Way::Plain(_) | Way::Pieces { .. } => None,
        }
    }

    /// Coordinates of a case.
    pub(super) fn point(&self, case: u64) -> Vec<f64> {
        self.points(std::iter::once(case))
    }

    /// Coordinates of cases, one case after the other.
    pub(super) fn points(&self, cases: impl Iterator<Item = u64> + Clone) -> Vec<f64> {
        let cases = cases.map(|case| case as usize);
        let each = self.classes.len();
        let mut all = vec![0.5; each * cases.clone().count()];
        match &self.way {
            Way::Plain(points) => points.points(cases, each, &mut all),
            Way::Shares(plan) => {
                cases.zip(all.chunks_exact_mut(each)).for_each(|(case, u)| share_point(plan, case, u));
            }
            Way::Pieces { bias, scatter, pieces } => {
                for (case, u) in cases.zip(all.chunks_exact_mut(each)) {
                    let mut deal = |points: &Points, case: usize, class: Class| {
                        let mut own = vec![0.5; points.plan().dimensions()];
                        points.point(case, &mut own);
                        let places = u.iter_mut().zip(&self.classes).filter(|(_, c)| **c == class);
                        places.zip(own).for_each(|((u, _), own)| *u = own);
                    };
                    deal(bias, case / pieces, Class::Bias);
                    deal(scatter, case, Class::Scatter);
                }
            }
        }
        if let Some(correlation) = &self.correlation {
            all.chunks_exact_mut(each).for_each(|u| correlation.apply(u));
        }
        all
    }

    /// Coordinates of a case with every bias at its middle: pieces as they would be if the model were right.
    pub(crate) fn point_without_bias(&self, case: u64) -> Vec<f64> {
        let mut u = self.point(case);
        u.iter_mut().zip(&self.classes).filter(|(_, c)| **c == Class::Bias).for_each(|(u, _)| *u = 0.5);
        u
    }
}
