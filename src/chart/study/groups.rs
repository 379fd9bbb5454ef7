//! Rows sorted by the value of one column.

use super::axis::distinct;
use super::worded::{at, head, told_apart, word};
use weldbow_engine::study::{Column, Values};

/// The different values of a column in order, and the rows of each.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Groups {
    /// "10 mm"; a word as it is.
    pub(crate) labels: Vec<String>,
    /// Rows of each.
    pub(crate) rows: Vec<Vec<usize>>,
}

impl Groups {
    /// Numbers rise, words keep their order. Rows without a value are in none. Without a column, all rows
    /// are one group without a label.
    pub(super) fn of(column: Option<&Column>, rows: &[usize]) -> Self {
        let Some(column) = column else {
            return Self { labels: vec![String::new()], rows: vec![rows.to_vec()] };
        };
        match &column.values {
            Values::Numbers(_) => {
                let (values, groups): (Vec<f64>, _) = at_places(rows, |row| at(column, *row)).unzip();
                Self { labels: told_apart(&values, &column.unit), rows: groups }
            }
            Values::Words(_) => {
                let mut labels: Vec<String> = Vec::new();
                let mut groups: Vec<Vec<usize>> = Vec::new();
                for row in rows {
                    let text = word(column, *row);
                    match labels.iter().position(|label| *label == text) {
                        Some(rank) => groups[rank].push(*row),
                        None => {
                            labels.push(text);
                            groups.push(vec![*row]);
                        }
                    }
                }
                Self { labels, rows: groups }
            }
        }
    }
}

/// The different places of some things, rising, and what is at each; what has no place is at none.
pub(super) fn at_places<T: Copy>(
    all: &[T],
    place: impl Fn(&T) -> f64,
) -> impl Iterator<Item = (f64, Vec<T>)> {
    let places = distinct(all.iter().map(&place));
    let mut there = vec![Vec::new(); places.len()];
    for one in all {
        if let Some(rank) = nearest(&places, place(one)) {
            there[rank].push(*one);
        }
    }
    places.into_iter().zip(there)
}

/// Rank of the value nearest to a number; none for NaN.
pub(super) fn nearest(rising: &[f64], value: f64) -> Option<usize> {
    if !value.is_finite() || rising.is_empty() {
        return None;
    }
    let after = rising.partition_point(|v| *v < value).min(rising.len() - 1);
    let before = after.saturating_sub(1);
    Some(if (rising[before] - value).abs() < (rising[after] - value).abs() { before } else { after })
}

/// "leg 10 mm" of the value "10 mm" of the column of legs; a word stands for itself.
pub(super) fn named(column: &Column, label: &str) -> String {
    match &column.values {
        Values::Numbers(_) => format!("{} {label}", head(column)),
        Values::Words(_) => label.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(values: Values) -> Column {
        Column { name: "c".to_owned(), words: "leg".to_owned(), unit: "mm".to_owned(), values }
    }

    #[test]
    fn numbers_rise_and_rounding_makes_no_new_group() {
        let legs = column(Values::Numbers(vec![0.3, 0.1 + 0.2, 0.1, f64::NAN]));
        let groups = Groups::of(Some(&legs), &[0, 1, 2, 3]);
        assert_eq!(groups.labels, ["0.1 mm", "0.3 mm"]);
        assert_eq!(groups.rows, [vec![2], vec![0, 1]]);
    }

    #[test]
    fn words_keep_their_order() {
        let words = column(Values::Words(["b", "a", "b"].map(str::to_owned).to_vec()));
        let groups = Groups::of(Some(&words), &[0, 1, 2]);
        assert_eq!((groups.labels, groups.rows), (vec!["b".into(), "a".into()], vec![vec![0, 2], vec![1]]));
    }
}
