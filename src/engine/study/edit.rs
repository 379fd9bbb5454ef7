//! Setting a value in a job.

use super::axis::{Axis, Takes};
use super::measure::number;
use super::place::{NoPlace, Target, at, find, make};
use crate::input::{Form, PathStep};
use crate::job::file::JobFile;
use serde_json::Value;

/// Puts a value into a job's shape at a place that is named as an axis of a study names it.
///
/// # Errors
/// If a word of the name leads nowhere in this job.
pub fn put(job: &mut Value, place: &str, value: &Value) -> Result<(), NoPlace> {
    let target = find(place, job, JobFile::schema())?;
    set(job, &target, None, value);
    Ok(())
}

/// Sets what an axis that is not drawn sets with one of its values.
pub(super) fn set_listed(job: &mut Value, target: &Target, axis: &Axis, value: usize) {
    match &axis.takes {
        Takes::Numbers(_, numbers) if axis.times => multiply(job, target, None, numbers.at(value)),
        _ => set(job, target, None, &axis.value(value)),
    }
}

/// Puts a value at the places of a target: all of them, or one.
pub(super) fn set(job: &mut Value, target: &Target, only: Option<usize>, value: &Value) {
    match target {
        Target::Length if only.is_none() => stretch(job, value),
        Target::Job | Target::Setting(_) | Target::Length => {}
        Target::Nodes(nodes) => {
            for node in chosen(nodes, only) {
                if let Some(place) = make(job, node) {
                    *place = value.clone();
                }
            }
        }
    }
}

fn chosen(nodes: &[Vec<PathStep>], only: Option<usize>) -> &[Vec<PathStep>] {
    only.map_or(nodes, |only| nodes.get(only..=only).unwrap_or_default())
}

/// Multiplies what stands at the places of a target: all of them, or one.
pub(crate) fn multiply(job: &mut Value, target: &Target, only: Option<usize>, factor: f64) {
    match target {
        Target::Job | Target::Setting(_) => {}
        Target::Length => {
            if let Some(length) = job.pointer("/member/length").cloned() {
                stretch(job, &times(&length, factor));
            }
        }
        Target::Nodes(nodes) => {
            for node in chosen(nodes, only) {
                let before = at(job, node).cloned().unwrap_or(Value::Null);
                if before.is_null() && !is_factor(node) {
                    continue;
                }
                if let Some(place) = make(job, node) {
                    *place = times(&before, factor);
                }
            }
        }
    }
}

/// Whether a place holds a factor, which is 1 if left out.
pub(crate) fn is_factor(node: &[PathStep]) -> bool {
    let key = |step: Option<&PathStep>, word: &str| step == Some(&PathStep::Key(word.to_owned()));
    key(node.first(), "factors") || key(node.last(), "force_factor")
}

fn times(before: &Value, factor: f64) -> Value {
    match number(before) {
        Some((measure, value)) => measure.written(factor * value),
        None => Value::from(factor),
    }
}

/// Gives the member a length and moves everything along it in proportion.
fn stretch(job: &mut Value, length: &Value) {
    let before = job.pointer("/member/length").and_then(number);
    let (Some((_, old)), Some((_, new))) = (before, number(length)) else { return };
    let scale = |place: Option<&mut Value>| {
        if let Some(place) = place.filter(|place| !place.is_null()) {
            *place = times(place, new / old);
        }
    };
    let items = |list: Option<&mut Value>, each: &dyn Fn(&mut Value)| {
        list.and_then(Value::as_array_mut).into_iter().flatten().for_each(each);
    };
    let ends = |item: &mut Value| {
        scale(item.get_mut("from"));
        scale(item.get_mut("to"));
    };
    if let Some(member) = job.get_mut("member") {
        items(member.get_mut("depth"), &|point| scale(point.get_mut(0)));
        for plates in ["web", "outer_flange", "inner_flange"] {
            items(member.get_mut(plates), &ends);
        }
        if let Some(place) = member.get_mut("length") {
            *place = length.clone();
        }
    }
    items(job.get_mut("pass"), &ends);
    items(job.get_mut("attachment"), &|item| items(item.get_mut("at"), &|place| scale(Some(place))));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, check, file_of_text};
    use crate::study::place::find;

    fn starter() -> Value {
        serde_json::to_value(file_of_text("starter.toml", STARTER).unwrap()).unwrap()
    }

    #[test]
    fn a_stretched_member_still_makes_sense() {
        let mut job = starter();
        let before: JobFile = serde_json::from_value(job.clone()).unwrap();
        set(&mut job, &Target::Length, None, &Value::from("13.7 m"));
        let after: JobFile = serde_json::from_value(job).unwrap();
        let built = check(&after).unwrap();
        assert!((built.member.length_mm - 13_700.0).abs() < 1e-9);
        let (old, new) = (before.member.length.value(), after.member.length.value());
        for (a, b) in before.member.depth.iter().zip(&after.member.depth) {
            assert!((b.0.value() / a.0.value().max(1e-9) - new / old).abs() < 1e-9 || a.0.value() < 1e-9);
        }
    }

    #[test]
    fn factors_that_are_left_out_count_as_one() {
        let mut job = starter();
        let target = find("factors.cup", &job, JobFile::schema()).unwrap();
        multiply(&mut job, &target, None, 1.5);
        multiply(&mut job, &target, None, 0.5);
        assert_eq!(job.pointer("/factors/cup"), Some(&Value::from(0.75)));
    }

    #[test]
    fn a_multiplied_quantity_keeps_its_unit() {
        let mut job = starter();
        let target = find("pass.leg", &job, JobFile::schema()).unwrap();
        let leg = |job: &Value| number(job.pointer("/pass/1/leg").unwrap()).unwrap().1;
        let before = leg(&job);
        multiply(&mut job, &target, Some(1), 1.1);
        assert!((leg(&job) - 1.1 * before).abs() < 1e-9);
    }
}
