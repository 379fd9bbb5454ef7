//! What a study draws: which inputs, how often, and which go together.

use super::axis::{Axis, Takes};
use super::bases::Base;
use super::draws::DrawPlan;
use super::file::{SampleShape, StudyFile};
use super::place::Target;
use crate::input::Problem;
use crate::scatter::{Class, Correlation, CorrelationFault};

/// Most cases of one study (a choice: at full speed these are days).
pub(crate) const MOST_CASES: u64 = 10_000_000_000;

/// Which coordinates of a draw each axis takes, and the class of every coordinate.
pub(crate) fn coordinates(
    axes: &[(String, Axis)],
    bases: &[Base],
    problems: &mut Vec<Problem>,
) -> (Vec<(usize, usize)>, Vec<Class>) {
    let (mut places, mut classes) = (Vec::new(), Vec::new());
    for (index, (path, axis)) in axes.iter().enumerate() {
        let Takes::Draws(_, _, class) = axis.takes else {
            places.push((0, 0));
            continue;
        };
        let matches = |base: &Base| match &base.targets[index] {
            Target::Nodes(nodes) => nodes.len().max(base.draws.get(index).map_or(0, Vec::len)),
            Target::Length | Target::Job | Target::Setting(_) => 1,
        };
        let many = if axis.each { matches(&bases[0]) } else { 1 };
        if axis.each && bases.iter().any(|base| matches(base) != many) {
            let wanted = "jobs with equally many matches, if every match draws for itself";
            problems.push(Problem::new(format!("{path}.each"), "jobs of different make", wanted));
        }
        places.push((classes.len(), many));
        classes.resize(classes.len() + many, class);
    }
    (places, classes)
}

/// How the inputs that have a distribution are drawn; `None` if there are none. Problems beside which a plan can be made go to the others.
///
/// # Errors
/// The problem that leaves no plan.
pub(super) fn draws(
    file: &StudyFile,
    axes: &[(String, Axis)],
    coordinates: &[(usize, usize)],
    classes: Vec<Class>,
    problems: &mut Vec<Problem>,
) -> Result<Option<DrawPlan>, Problem> {
    let drawn = axes.iter().find(|(_, axis)| matches!(axis.takes, Takes::Draws(..)));
    let sample = match (&file.sample, drawn) {
        (None, None) => return Ok(None),
        (None, Some((path, _))) => {
            let wanted = "`sample = { count = 1000, seed = 1 }` beside it: how often to draw";
            let problem = Problem::new(path.clone(), "a distribution, but no `sample`", wanted);
            return Err(problem.example("sample = { count = 1000, seed = 1 }"));
        }
        (Some(_), None) => {
            let wanted = "an input with a distribution, or `usual = true` for the usual bias and scatter";
            let problem = Problem::new("sample", "nothing to draw", wanted);
            return Err(problem.example("sample = { count = 1000, usual = true }"));
        }
        (Some(sample), Some(_)) => sample,
    };
    sound(sample, &classes)?;
    let correlation = correlation(file, axes, coordinates, classes.len(), problems);
    if sample.indices && correlation.is_some() {
        let wanted = "independent inputs: variance-based indices have no meaning for correlated ones";
        let problem = Problem::new("sample.indices", "correlated inputs", wanted);
        problems.push(problem.example("sample = { count = 1000 }"));
    }
    DrawPlan::new(sample, classes, correlation).map(Some).map_err(|fault| {
        let problem = Problem::new("sample", "a plan that cannot be drawn", fault.to_string());
        problem.example("sample = { count = 100000, plan = \"latin\" }")
    })
}

fn sound(sample: &SampleShape, classes: &[Class]) -> Result<(), Problem> {
    for (key, value) in [("count", sample.count), ("pieces", sample.pieces)] {
        if !(1..=MOST_CASES).contains(&value) {
            let wanted = format!("1 to {MOST_CASES}");
            return Err(Problem::new(format!("sample.{key}"), value.to_string(), wanted));
        }
    }
    if sample.pieces > 1 && sample.indices {
        let wanted = "one of the two: draws for indices have no pieces";
        return Err(Problem::new("sample.pieces", "`pieces` and `indices`", wanted));
    }
    let both = [Class::Bias, Class::Scatter].iter().all(|class| classes.contains(class));
    if sample.pieces > 1 && !both {
        let wanted = "inputs of both classes, `class = \"bias\"` and `class = \"scatter\"`";
        return Err(Problem::new("sample.pieces", "inputs of one class only", wanted));
    }
    Ok(())
}

fn correlation(
    file: &StudyFile,
    axes: &[(String, Axis)],
    coordinates: &[(usize, usize)],
    inputs: usize,
    problems: &mut Vec<Problem>,
) -> Option<Correlation> {
    let mut pairs = Vec::new();
    for (i, shape) in file.correlate.iter().enumerate() {
        let mut place = |name: &str| {
            let found = axes.iter().position(|(_, axis)| axis.name == name.trim());
            let one = found.map(|index| coordinates[index]).filter(|(_, many)| *many == 1);
            if one.is_none() {
                let path = format!("correlate[{i}].between");
                let wanted = "the place of an input with a distribution, drawn once a case";
                problems.push(Problem::new(path, format!("`{name}`"), wanted));
            }
            one.map(|(first, _)| first)
        };
        let (a, b) = (place(&shape.between.0), place(&shape.between.1));
        if let (Some(a), Some(b)) = (a, b) {
            pairs.push((a, b, shape.rho));
        }
    }
    if pairs.is_empty() {
        return None;
    }
    let clash = |fault: CorrelationFault| {
        let wanted = worded(&fault, axes, coordinates);
        Problem::new("correlate", "correlations that cannot be", wanted).example("rho = 0.7")
    };
    Correlation::new(inputs, &pairs).map_err(|fault| problems.push(clash(fault))).ok()
}

/// A fault of correlations with the inputs' names.
fn worded(fault: &CorrelationFault, axes: &[(String, Axis)], coordinates: &[(usize, usize)]) -> String {
    let name = |input: usize| {
        let of = coordinates.iter().position(|(first, many)| *many == 1 && *first == input);
        of.map_or_else(|| format!("input {input}"), |index| format!("`{}`", axes[index].1.name))
    };
    let both = |i: usize, j: usize| format!("{} and {}", name(i), name(j));
    match *fault {
        CorrelationFault::OutOfRange { pair: (i, j, rho) } => {
            format!("{} go together by {rho}; it must lie between −1 and 1, ends excluded", both(i, j))
        }
        CorrelationFault::Clash { pair: (i, j, rho), possible: (low, high) } => {
            let beside = format!("beside the other pairs: these leave {low:.3} to {high:.3}");
            format!("{} cannot go together by {rho} {beside}", both(i, j))
        }
        CorrelationFault::Twice { pair: (i, j) } => format!("{} are named twice", both(i, j)),
        CorrelationFault::SameInput { input } => format!("{} cannot go together with itself", name(input)),
        ref other => other.to_string(),
    }
}
