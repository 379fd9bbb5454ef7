//! Deviations that a shop gives in place of the usual ones.

use super::{Distribution, INPUTS, Input, Spread};
use crate::input::{Problem, near};
use std::collections::BTreeMap;

/// Largest relative standard deviation taken (a choice: beyond it nothing is known at all).
const LARGEST: f64 = 2.0;

/// Deviations by the names of usual inputs; 0 leaves an input out.
pub type Deviations = BTreeMap<String, f64>;

/// What is wrong with a `[scatter]` table.
pub(crate) fn problems_of(own: &Deviations) -> Vec<Problem> {
    let names: Vec<&str> =
        INPUTS.iter().filter(|i| !i.recorded() && !i.of_plates()).map(|i| i.name).collect();
    let wrong = |(name, deviation): (&String, &f64)| {
        let path = format!("scatter.{name}");
        if !names.contains(&name.as_str()) {
            let found = format!("unknown key `{name}`");
            return Some(Problem::new(path, found, near::wanted(name, &names)).example("force = 0.10"));
        }
        let wanted = format!("a relative standard deviation from 0 (left out) to {LARGEST}");
        let sound = (0.0..=LARGEST).contains(deviation);
        (!sound).then(|| Problem::new(path, deviation.to_string(), wanted).example(format!("{name} = 0.10")))
    };
    own.iter().filter_map(wrong).collect()
}

impl Input {
    /// Its spread with a shop's own relative deviation in place of the usual one; None if that is 0: the input keeps its
    /// value.
    ///
    /// ```
    /// use weldbow_engine::scatter::input;
    /// let force = input("force").ok_or("no such input")?;
    /// assert!(force.with_deviation(Some(0.0)).is_none());
    /// assert!(force.with_deviation(Some(0.05)).is_some_and(|own| own.sd() < 0.5 * force.spread.sd()));
    /// # Ok::<(), &str>(())
    /// ```
    pub fn with_deviation(&self, own: Option<f64>) -> Option<Spread> {
        let distribution = match (own, self.spread.distribution()) {
            (None, _) => return Some(self.spread),
            (Some(cov), Distribution::Lognormal { median, .. }) => Distribution::Lognormal { median, cov },
            (Some(sd), _) => Distribution::Normal { mean: 1.0, sd },
        };
        // a deviation of 0, checked to be none below, is no spread
        Spread::new(distribution, None, None).ok()
    }
}
