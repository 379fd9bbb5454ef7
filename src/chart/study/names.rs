//! What several columns have in common, and what sets their lines apart.

use super::worded::{column, head};
use crate::canvas::clean;
use weldbow_engine::study::{Column, Table};

/// More columns than this are not all named beside the axis.
const MOST: usize = 3;

/// Names of several columns in one; the lines themselves name each of many.
pub(super) fn together(columns: &[&Column], between: &str) -> String {
    let heads: Vec<String> = columns.iter().map(|c| head(c)).collect();
    if let Some((fronts, tail)) = one_tail(&heads) {
        return format!("{tail}{between}{}", fronts.join(" and "));
    }
    match heads.as_slice() {
        [first, ..] if heads.len() > MOST => first.clone(),
        few => match apart(few) {
            Some((front, middles, back)) => {
                let middles = middles.join(between);
                [front, middles, back].into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" ")
            }
            None => few.join(between),
        },
    }
}

/// Of "section: force" and "formula: force": what sets them apart, and what they share.
fn one_tail(heads: &[String]) -> Option<(Vec<String>, String)> {
    let parts: Option<Vec<(&str, &str)>> = heads.iter().map(|h| h.split_once(": ")).collect();
    let parts = parts.filter(|parts| parts.len() > 1)?;
    let tail = parts[0].1;
    parts
        .iter()
        .all(|p| p.1 == tail)
        .then(|| (parts.iter().map(|p| p.0.to_owned()).collect(), tail.to_owned()))
}

/// Of "cup of the outer flange" and "tilt of the outer flange": the words before, what differs, the words behind.
fn apart(heads: &[String]) -> Option<(String, Vec<String>, String)> {
    let words: Vec<Vec<&str>> = heads.iter().map(|h| h.split(' ').collect()).collect();
    let least = words.iter().map(Vec::len).min().filter(|_| words.len() > 1)?;
    let alike = |same: &dyn Fn(&[&str], usize) -> String| {
        (0..least.saturating_sub(1))
            .take_while(|k| words.iter().all(|w| same(w, *k) == same(&words[0], *k)))
            .count()
    };
    let front = alike(&|w, k| w[k].to_owned());
    let back = alike(&|w, k| w[w.len() - 1 - k].to_owned()).min(least - 1 - front);
    if front + back == 0 {
        return None;
    }
    let middles: Vec<String> = words.iter().map(|w| w[front..w.len() - back].join(" ")).collect();
    let first = &words[0];
    Some((first[..front].join(" "), middles, first[first.len() - back..].join(" ")))
}

/// A line goes by its value of `by`, and by what sets its column apart where there are several.
pub(super) fn line_name(ys: &[&Column], column: &Column, label: &str) -> String {
    if ys.len() < 2 {
        return label.to_owned();
    }
    let heads: Vec<String> = ys.iter().map(|c| head(c)).collect();
    let twins = heads.iter().filter(|other| **other == head(column)).count() > 1;
    let at = ys.iter().position(|other| std::ptr::eq(*other, column)).unwrap_or_default();
    let of_it = match (one_tail(&heads), apart(&heads)) {
        (Some((fronts, _)), _) => fronts[at].clone(),
        _ if twins => clean(&column.words),
        (_, Some((_, middles, _))) if ys.len() <= MOST => middles[at].clone(),
        _ => head(column),
    };
    if label.is_empty() { of_it } else { format!("{of_it}, {label}") }
}

/// ", by order", ", by order and leg": what sets lines and plots apart.
pub(super) fn sorted_by(by: Option<&Column>, panels: Option<&Column>) -> String {
    let heads: Vec<String> = by.into_iter().chain(panels).map(head).collect();
    if heads.is_empty() { String::new() } else { format!(", by {}", heads.join(" and ")) }
}

/// Front of the names of columns that hold what other authors compute.
const OTHERS: &str = "estimates.";

/// Whether one prediction stands before what others say of it.
pub(super) fn one_of_many(ys: &[&Column]) -> bool {
    let others = |c: &&Column| c.name.starts_with(OTHERS);
    matches!(ys, [own, rest @ ..] if rest.len() >= MOST && !others(own) && rest.iter().all(others))
}

/// A value at which a result turns from one thing to another, and what it is called there.
pub(super) fn threshold(y: &Column) -> Option<(f64, &'static str)> {
    (y.name == "ripple.over_critical").then_some((1.0, "above 1 it may ripple"))
}

/// Whether two columns of a table are one quantity from two sources, to be compared at one scale.
pub(super) fn one_quantity(table: &Table, a: Option<&String>, b: Option<&String>) -> bool {
    let tail = |name: &String| name.split_once('.').map(|(front, tail)| (front.to_owned(), tail.to_owned()));
    let parts = a.and_then(tail).zip(b.and_then(tail));
    let sources = |front: &str| ["section", "formula"].contains(&front);
    let units = || column(table, a).map(|c| &c.unit) == column(table, b).map(|c| &c.unit);
    parts.is_some_and(|(a, b)| a.1 == b.1 && a.0 != b.0 && sources(&a.0) && sources(&b.0)) && units()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heads(all: &[&str]) -> Vec<String> {
        all.iter().map(|h| (*h).to_owned()).collect()
    }

    #[test]
    fn what_columns_share_is_said_once() {
        let cup = apart(&heads(&["cup of the outer flange", "tilt of the outer flange"])).unwrap();
        assert_eq!(cup, (String::new(), heads(&["cup", "tilt"]), "of the outer flange".to_owned()));
        let place = apart(&heads(&["place of the largest camber", "place of the largest sweep"])).unwrap();
        assert_eq!(place, ("place of the largest".to_owned(), heads(&["camber", "sweep"]), String::new()));
        assert_eq!(apart(&heads(&["camber", "sweep"])), None);
    }
}
