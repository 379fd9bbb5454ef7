//! One checked axis of a study: the values it takes, or the distribution it is drawn from.

use super::file::{Spacing, VaryShape};
use super::measure::{Measure, number};
use super::numbers::Numbers;
use crate::input::{Hint, Problem};
use crate::scatter::{Acts, Class, Distribution, INPUTS, Spread};
use serde_json::Value;
use std::collections::HashSet;
use std::hash::Hash;

/// Most values one axis may have (a choice: more is a slip).
const MOST_STEPS: u32 = 1_000_000;

/// What an axis takes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Takes {
    /// Numbers, in engine units.
    Numbers(Measure, Numbers),
    /// Anything else, each with its label.
    Others(Vec<(String, Value)>),
    /// Draws from a distribution, in engine units.
    Draws(Measure, Spread, Class),
}

/// One axis.
#[derive(Debug, Clone)]
pub(super) struct Axis {
    /// Its column's name: the place it sets, as written, or the name of a usual input.
    pub name: String,
    /// The place it sets.
    pub set: String,
    /// What it is called.
    pub words: String,
    /// What it takes.
    pub(crate) takes: Takes,
    /// Whether it multiplies what stands in the job.
    pub times: bool,
    /// Whether every match draws for itself.
    pub each: bool,
    /// Axes with the same word advance together.
    pub together: Option<String>,
    /// What it acts on, if it is a usual input.
    pub usual: Option<&'static Acts>,
}

impl Axis {
    /// How many values it has; `None` if it draws.
    pub(super) const fn values(&self) -> Option<usize> {
        match &self.takes {
            Takes::Numbers(_, numbers) => Some(numbers.count()),
            Takes::Others(others) => Some(others.len()),
            Takes::Draws(..) => None,
        }
    }

    /// How many of its values differ; `None` if it draws.
    pub(super) fn distinct(&self) -> Option<usize> {
        match &self.takes {
            Takes::Numbers(_, all) => Some(differing((0..all.count()).map(|index| all.at(index).to_bits()))),
            Takes::Others(others) => Some(differing(others.iter().map(|(label, _)| label))),
            Takes::Draws(..) => None,
        }
    }

    /// One of its values as a file holds it; null if it draws.
    pub(super) fn value(&self, index: usize) -> Value {
        match &self.takes {
            Takes::Numbers(measure, numbers) => measure.written(numbers.at(index)),
            Takes::Others(others) => others.get(index).map_or(Value::Null, |(_, value)| value.clone()),
            Takes::Draws(..) => Value::Null,
        }
    }

    /// Whether no place of a job file holds what it acts on.
    pub(crate) fn in_no_file(&self) -> bool {
        self.usual.is_some() && INPUTS.iter().any(|input| input.in_no_file() && input.name == self.name)
    }
}

/// How many of them differ.
fn differing<T: Eq + Hash>(all: impl Iterator<Item = T>) -> usize {
    all.collect::<HashSet<_>>().len()
}

/// Checks an axis as written; `path` is where it stands in the study file.
///
/// # Errors
/// Every problem found.
pub(crate) fn axis(path: &str, shape: &VaryShape) -> Result<Axis, Vec<Problem>> {
    let takes = takes(path, shape)?;
    let mut problems = Vec::new();
    let draws = matches!(takes, Takes::Draws(..));
    if !draws {
        for (key, given) in [("each", shape.each), ("class", shape.class.is_some())] {
            if given {
                let wanted = format!("`{key}` only with a distribution");
                problems.push(Problem::new(format!("{path}.{key}"), "values that are not drawn", wanted));
            }
        }
    }
    if let (Some(together), true) = (&shape.together, draws) {
        let wanted = "axes with values; inputs that are drawn go together by `[[correlate]]`";
        problems.push(Problem::new(format!("{path}.together"), format!("`{together}`"), wanted));
    }
    if let (Takes::Others(_), true) = (&takes, shape.times) {
        problems.push(Problem::new(format!("{path}.times"), "values that are no numbers", "numbers"));
    }
    if let (Takes::Numbers(m, _) | Takes::Draws(m, ..), true) = (&takes, shape.times)
        && matches!(m, Measure::Quantity(..))
    {
        let wanted = "factors without a unit: `times` multiplies what stands in the job";
        let problem = Problem::new(format!("{path}.times"), format!("values in {}", m.unit()), wanted);
        problems.push(problem.example("values = [0.9, 1.1]"));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(Axis {
        name: shape.set.trim().to_owned(),
        set: shape.set.trim().to_owned(),
        words: shape.words.clone().unwrap_or_else(|| words(&shape.set, shape.times)),
        takes,
        times: shape.times,
        each: shape.each,
        together: shape.together.clone(),
        usual: None,
    })
}

/// One problem, where there is no going on.
fn wrong<T>(problem: Problem) -> Result<T, Vec<Problem>> {
    Err(vec![problem])
}

/// "inner_flange.thickness" as "inner flange thickness", "pass.leg" as "leg".
fn words(set: &str, times: bool) -> String {
    let short = ["member.", "pass."].into_iter().find_map(|lead| set.trim().strip_prefix(lead));
    let plain = short.unwrap_or_else(|| set.trim()).replace(['.', '_'], " ");
    if times { format!("{plain}, factor") } else { plain }
}

fn takes(path: &str, shape: &VaryShape) -> Result<Takes, Vec<Problem>> {
    let stepped = shape.from.is_some() || shape.to.is_some() || shape.steps.is_some();
    let ways = [
        ("values", shape.values.is_some()),
        ("from", stepped),
        ("normal", shape.normal.is_some()),
        ("lognormal", shape.lognormal.is_some()),
        ("uniform", shape.uniform.is_some()),
        ("triangular", shape.triangular.is_some()),
    ];
    let given: Vec<&str> = ways.iter().filter(|(_, given)| *given).map(|(way, _)| *way).collect();
    match given.as_slice() {
        ["values"] => listed(path, shape),
        ["from"] => spaced(path, shape),
        [_] => drawn(path, shape),
        [] => {
            let wanted = "`values = […]`, `from`, `to` and `steps`, or a distribution";
            wrong(Problem::new(path, "no values", wanted).example("values = [\"4 mm\", \"6 mm\"]"))
        }
        many => {
            let found = format!("`{}` together", many.join("` and `"));
            let problem = Problem::new(path, found, "one way of giving values");
            wrong(problem.example("values = [\"4 mm\", \"6 mm\"]"))
        }
    }
}

fn listed(path: &str, shape: &VaryShape) -> Result<Takes, Vec<Problem>> {
    let values = shape.values.as_deref().unwrap_or_default();
    let place = format!("{path}.values");
    if let Some(at) = values.iter().position(holds_nothing) {
        let wanted = "a number, a quantity, a name or a table; a value that is not finite is none";
        return wrong(Problem::new(format!("{place}[{at}]"), "`nan` or `inf`", wanted));
    }
    if values.is_empty() {
        return wrong(Problem::new(place, "an empty list", "at least one value"));
    }
    if let Some(labels) = shape.labels.as_ref().filter(|labels| labels.len() != values.len()) {
        let found = format!("{} labels for {} values", labels.len(), values.len());
        return wrong(Problem::new(format!("{path}.labels"), found, "one label a value"));
    }
    let numbers: Option<Vec<(Measure, f64)>> = values.iter().map(number).collect();
    match numbers {
        Some(numbers) if shape.labels.is_none() => {
            let measure = one_measure(&place, &numbers, values)?;
            Ok(Takes::Numbers(measure, Numbers::Listed(numbers.into_iter().map(|n| n.1).collect())))
        }
        _ => {
            let label = |i: usize, value: &Value| match (&shape.labels, value.as_str()) {
                (Some(labels), _) => labels[i].clone(),
                (None, Some(text)) => text.to_owned(),
                (None, None) => (i + 1).to_string(),
            };
            Ok(Takes::Others(values.iter().enumerate().map(|(i, v)| (label(i, v), v.clone())).collect()))
        }
    }
}

/// Whether a value is, or holds, a number that is not finite: such a number comes as nothing.
fn holds_nothing(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(items) => items.iter().any(holds_nothing),
        Value::Object(fields) => fields.values().any(holds_nothing),
        Value::Bool(_) | Value::Number(_) | Value::String(_) => false,
    }
}

/// The one measure of several numbers.
fn one_measure(place: &str, numbers: &[(Measure, f64)], written: &[Value]) -> Result<Measure, Vec<Problem>> {
    let first = numbers.first().map_or(Measure::Pure, |n| n.0);
    let bare = |m: Measure| matches!(m, Measure::Count | Measure::Pure);
    let same = |m: Measure| m == first || bare(m) && bare(first);
    if let Some(at) = numbers.iter().position(|n| !same(n.0)) {
        let found = format!("{} beside {}", written[0], written[at]);
        return wrong(Problem::new(place, found, "one unit for all values of an axis"));
    }
    let pure = numbers.iter().any(|n| n.0 == Measure::Pure);
    Ok(if pure { Measure::Pure } else { first })
}

/// The one measure of both ends; one without its unit is pointed at, with the unit of the other.
fn ends_measure(
    path: &str,
    numbers: [(Measure, f64); 2],
    written: [&Value; 2],
) -> Result<Measure, Vec<Problem>> {
    let bare = |at: usize| matches!(numbers[at].0, Measure::Count | Measure::Pure);
    let unit = |at: usize| numbers[at].0.unit();
    for (key, at) in [("from", 0), ("to", 1)] {
        if bare(at) && !bare(1 - at) {
            let found = format!("{}, without a unit, beside {}", written[at], written[1 - at]);
            let right = format!("\"{} {}\"", numbers[at].1, unit(1 - at));
            let problem = Problem::new(format!("{path}.{key}"), found, "one unit for both ends");
            return wrong(problem.hint(Hint::Value(right)));
        }
    }
    one_measure(&format!("{path}.to"), &numbers, &written.map(Value::clone))
}

fn spaced(path: &str, shape: &VaryShape) -> Result<Takes, Vec<Problem>> {
    let (Some(from), Some(to), Some(steps)) = (&shape.from, &shape.to, shape.steps) else {
        let has =
            [("from", shape.from.is_some()), ("to", shape.to.is_some()), ("steps", shape.steps.is_some())];
        let missing: Vec<&str> = has.iter().filter(|(_, has)| !has).map(|(key, _)| *key).collect();
        let found = format!("no `{}`", missing.join("` and no `"));
        let problem = Problem::new(path, found, "`from`, `to` and `steps` together");
        return wrong(problem.example("from = \"4 mm\"\nto = \"8 mm\"\nsteps = 5"));
    };
    let [from_n, to_n] = numbers(path, [("from", from), ("to", to)])?;
    let measure = ends_measure(path, [from_n, to_n], [from, to])?;
    if steps == 0 || steps > MOST_STEPS {
        let wanted = format!("1 to {MOST_STEPS} steps");
        return wrong(Problem::new(format!("{path}.steps"), steps.to_string(), wanted));
    }
    let (low, high) = (from_n.1, to_n.1);
    if steps == 1 && (low - high).abs() > 0.0 {
        let wanted = "2 steps or more to show both ends, or `values = [...]` for one value alone";
        return wrong(Problem::new(format!("{path}.steps"), format!("1 step from {from} to {to}"), wanted));
    }
    let log = shape.spacing == Some(Spacing::Log);
    if log && (low <= 0.0 || high <= 0.0) {
        let found = format!("{from} to {to}");
        return wrong(Problem::new(format!("{path}.spacing"), found, "values above zero for equal ratios"));
    }
    let values = if log { Numbers::Ratio(steps, [low, high]) } else { Numbers::Even(steps, [low, high]) };
    if !values.are_finite() {
        let wanted = "ends whose difference is a number";
        return wrong(Problem::new(format!("{path}.to"), format!("{from} to {to}"), wanted));
    }
    // whole numbers between whole ends stay whole numbers only if every step is one
    let measure = if measure == Measure::Count && !values.are_whole() { Measure::Pure } else { measure };
    Ok(Takes::Numbers(measure, values))
}

fn numbers<const N: usize>(
    path: &str,
    given: [(&str, &Value); N],
) -> Result<[(Measure, f64); N], Vec<Problem>> {
    let mut out = [(Measure::Pure, 0.0); N];
    let mut problems = Vec::new();
    for ((key, value), out) in given.into_iter().zip(&mut out) {
        match number(value) {
            Some(number) => *out = number,
            None => {
                let wanted = "a number, with its unit if it has one";
                let found = if value.is_null() { "`nan` or `inf`".to_owned() } else { value.to_string() };
                problems.push(Problem::new(format!("{path}.{key}"), found, wanted));
            }
        }
    }
    if problems.is_empty() { Ok(out) } else { Err(problems) }
}

fn drawn(path: &str, shape: &VaryShape) -> Result<Takes, Vec<Problem>> {
    let (name, given): (&str, [Option<(&str, &Value)>; 4]) = if let Some(n) = &shape.normal {
        let cuts = [n.low.as_ref().map(|v| ("low", v)), n.high.as_ref().map(|v| ("high", v))];
        ("normal", [Some(("mean", &n.mean)), Some(("sd", &n.sd)), cuts[0], cuts[1]])
    } else if let Some(l) = &shape.lognormal {
        let cuts = [l.low.as_ref().map(|v| ("low", v)), l.high.as_ref().map(|v| ("high", v))];
        ("lognormal", [Some(("median", &l.median)), None, cuts[0], cuts[1]])
    } else if let Some(u) = &shape.uniform {
        ("uniform", [Some(("low", &u.low)), Some(("high", &u.high)), None, None])
    } else if let Some(t) = &shape.triangular {
        ("triangular", [Some(("low", &t.low)), Some(("mode", &t.mode)), Some(("high", &t.high)), None])
    } else {
        return Err(Vec::new());
    };
    let given: Vec<(&str, &Value)> = given.into_iter().flatten().collect();
    let place = format!("{path}.{name}");
    let mut read = Vec::new();
    for (key, value) in &given {
        let [number] = numbers(&place, [(*key, *value)])?;
        read.push(number);
    }
    let written: Vec<Value> = given.iter().map(|(_, value)| (*value).clone()).collect();
    let measure = one_measure(&place, &read, &written)?;
    let measure = if measure == Measure::Count { Measure::Pure } else { measure };
    let of = |key: &str| given.iter().position(|(k, _)| *k == key).map(|i| read[i].1);
    let must = |key: &str| of(key).unwrap_or_default();
    let distribution = match name {
        "normal" => Distribution::Normal { mean: must("mean"), sd: must("sd") },
        "lognormal" => {
            let cov = shape.lognormal.as_ref().map_or(0.0, |l| l.cov);
            Distribution::Lognormal { median: must("median"), cov }
        }
        "uniform" => Distribution::Uniform { low: must("low"), high: must("high") },
        _ => Distribution::Triangular { low: must("low"), mode: must("mode"), high: must("high") },
    };
    let cut = |key: &str| if matches!(name, "normal" | "lognormal") { of(key) } else { None };
    match Spread::new(distribution, cut("low"), cut("high")) {
        Ok(spread) => Ok(Takes::Draws(measure, spread, shape.class.unwrap_or(Class::Scatter))),
        Err(fault) => wrong(Problem::new(place, "numbers that describe no spread", fault.to_string())),
    }
}
