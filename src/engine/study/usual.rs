//! The usual model bias and scatter as axes of a study.

use super::axis::{Axis, Takes};
use super::measure::Measure;
use crate::scatter::{INPUTS, Input};
use std::collections::BTreeMap;

/// Where an input acts in a job: places, and whether every match draws for itself.
pub(super) fn acts_on(input: &Input) -> (&'static [&'static str], bool) {
    match input.name {
        "force" => (&["factors.force"], false),
        "heat-from-leg" => (&["factors.heat_from_leg"], false),
        "arm" => (&["factors.arm"], false),
        "fold" | "fold-each-piece" => (&["factors.cup"], false),
        "tilt" | "tilt-each-piece" => (&["factors.tilt"], false),
        "force-each-pass" => (&["pass.force_factor"], true),
        "leg" => (&["pass.leg"], true),
        "plate" => (&["web.thickness", "outer_flange.thickness", "inner_flange.thickness"], true),
        _ => (&[], false),
    }
}

/// The usual inputs as axes, with the deviations that a job or a study gives in place of the usual ones (0 leaves an
/// input out).
pub fn usual_axes(own: &BTreeMap<String, f64>) -> Vec<Axis> {
    INPUTS.iter().flat_map(|input| axes_of(input, own.get(input.name).copied())).collect()
}

fn axes_of(input: &Input, own: Option<f64>) -> Vec<Axis> {
    let Some(spread) = input.with_deviation(own) else { return Vec::new() };
    let (places, each) = acts_on(input);
    let named = |place: &str| match places.len() {
        1 => input.name.to_owned(),
        _ => format!("{} {}", input.name, place.split('.').next().unwrap_or(place)),
    };
    let axis = |place: &&str| Axis {
        name: named(place),
        set: (*place).to_owned(),
        words: named(place).replace('_', " "),
        takes: Takes::Draws(Measure::Pure, spread, input.class),
        times: true,
        each,
        together: None,
    };
    places.iter().map(axis).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_named_input_acts_somewhere() {
        for input in &INPUTS {
            assert!(!acts_on(input).0.is_empty(), "{} acts on nothing", input.name);
        }
    }
}
