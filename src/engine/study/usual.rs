//! The usual model bias and scatter as axes of a study.

use super::axis::{Axis, Takes};
use super::measure::Measure;
use crate::scatter::{Acts, INPUTS, Input};
use std::collections::BTreeMap;

/// The usual inputs as axes, with the deviations that a job or a study gives in place of the usual ones (0 leaves an
/// input out).
pub(crate) fn usual_axes(own: &BTreeMap<String, f64>) -> Vec<Axis> {
    INPUTS.iter().flat_map(|input| axes_of(input, own.get(input.name).copied())).collect()
}

fn axes_of(input: &Input, own: Option<f64>) -> Vec<Axis> {
    let Some(spread) = input.with_deviation(own) else { return Vec::new() };
    let named = |part: &str| format!("{} {part}", input.name).trim_end().to_owned();
    let axis = |acts: &'static Acts| Axis {
        name: named(acts.part),
        set: acts.set.to_owned(),
        words: named(acts.part).replace('_', " "),
        takes: Takes::Draws(Measure::Pure, spread, input.class),
        times: true,
        each: input.each,
        together: None,
        usual: Some(acts),
    };
    input.acts.iter().map(axis).collect()
}
