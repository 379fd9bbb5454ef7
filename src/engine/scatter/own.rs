//! Deviations that a shop gives in place of the usual ones.

use super::{Distribution, INPUTS, Input, Spread, input};
use crate::input::{Problem, near};
use crate::prediction::Deviations;

/// Largest relative standard deviation taken (a choice: beyond it nothing is known at all).
const LARGEST: f64 = 2.0;

/// What is wrong with a `[scatter]` table.
pub(crate) fn problems_of(own: &Deviations) -> Vec<Problem> {
    let names: Vec<&str> = INPUTS.iter().filter(|i| !i.in_no_file()).map(|i| i.name).collect();
    let wrong = |(name, deviation): (&String, &f64)| {
        let path = format!("scatter.{name}");
        let sound = (0.0..=LARGEST).contains(deviation);
        if names.contains(&name.as_str()) {
            let wanted = format!("a relative standard deviation from 0 (left out) to {LARGEST}");
            let line = format!("{name} = 0.10");
            return (!sound).then(|| Problem::new(path, deviation.to_string(), wanted).example(line));
        }
        let found = format!("unknown key `{name}`");
        Some(match of_today(name).filter(|now| names.contains(now)) {
            Some(now) if sound => {
                let wanted = format!("`{now}`: it is called that now");
                Problem::new(path, found, wanted).right(format!("{now} = {deviation:?}"))
            }
            _ => Problem::new(path, found, near::wanted(name, &names)).example("force = 0.10"),
        })
    };
    own.iter().filter_map(wrong).collect()
}

/// The name of today of an input that older files call otherwise: with hyphens, the cup of a flange a fold.
fn of_today(name: &str) -> Option<&'static str> {
    input(&name.replace('-', "_").replace("fold", "cup")).map(|input| input.name)
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
