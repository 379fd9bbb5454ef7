//! The limit a result is held against, both ways, along an axis.

use super::groups::at_places;
use super::worded::{at, bare, head, value};
use crate::axes::{FAR_LIMIT, Range};
use weldbow_engine::study::Column;

/// A limit and where it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Limits {
    /// Place and size, from left to right: the tightest of those at one place.
    sizes: Vec<(f64, f64)>,
    head: String,
    unit: String,
    /// Sides on which it is drawn: below, above.
    sides: Vec<f64>,
}

impl Limits {
    /// Of rows at their places; none if no row has a limit. `values` decide where it is drawn: on the
    /// side, or sides, where values are.
    pub(super) fn of(
        column: Option<&Column>,
        rows: &[usize],
        place: impl Fn(usize) -> f64,
        values: &[f64],
    ) -> Option<Self> {
        let column = column?;
        let tightest = |rows: Vec<usize>| {
            rows.into_iter().map(|row| at(column, row).abs()).filter(|size| size.is_finite()).reduce(f64::min)
        };
        let sizes: Vec<(f64, f64)> = at_places(rows, |row| place(*row))
            .filter_map(|(place, rows)| Some((place, tightest(rows)?)))
            .collect();
        let least = sizes.iter().map(|s| s.1).reduce(f64::min)?;
        let largest = values.iter().filter(|v| v.is_finite()).fold(0.0_f64, |l, v| l.max(v.abs()));
        let near = largest <= 0.0 || least <= FAR_LIMIT * largest;
        let below = values.iter().any(|v| *v < 0.0);
        let above = values.iter().any(|v| *v > 0.0) || !below;
        let sides = [(-1.0, below), (1.0, above)].into_iter().filter(|s| s.1 && near).map(|s| s.0).collect();
        Some(Self { sizes, head: head(column), unit: column.unit.clone(), sides })
    }

    /// The one size, if it is the same everywhere.
    pub(super) fn size(&self) -> Option<f64> {
        let (first, rest) = self.sizes.split_first()?;
        rest.iter().all(|s| (s.1 - first.1).abs() <= 1e-9 * first.1).then_some(first.1)
    }

    /// Values that the axis up the side shall hold.
    pub(super) fn reach(&self) -> Vec<f64> {
        self.sides.iter().flat_map(|side| self.sizes.iter().map(move |s| side * s.1)).collect()
    }

    /// The same with zero, which a limit both ways is counted from.
    pub(super) fn span(&self) -> Vec<f64> {
        let reach = self.reach();
        if reach.is_empty() { reach } else { [reach, vec![0.0]].concat() }
    }

    /// Its lines across a plot that spans `x`.
    pub(super) fn lines(&self, x: Range) -> Vec<Vec<(f64, f64)>> {
        let line = |side: &f64| match self.size() {
            Some(size) => vec![(x.low, side * size), (x.high, side * size)],
            None => self.sizes.iter().map(|s| (s.0, side * s.1)).collect(),
        };
        self.sides.iter().map(line).collect()
    }

    /// "limit ±9 mm", "limit ±5 to 24 mm" where it varies, "limit ±40 mm, off the plot".
    pub(super) fn text(&self) -> String {
        let size = match self.size() {
            // a window that ends where it is counted from has no other side here
            Some(size) if size <= 0.0 => format!("{} {}", self.head, value(0.0, &self.unit)),
            Some(size) => format!("{} ±{}", self.head, value(size, &self.unit)),
            None => {
                let ends =
                    self.sizes.iter().fold((f64::INFINITY, 0.0_f64), |e, s| (e.0.min(s.1), e.1.max(s.1)));
                format!("{} ±{} to {}", self.head, bare(ends.0), value(ends.1, &self.unit))
            }
        };
        if self.sides.is_empty() { format!("{size}, off the plot") } else { size }
    }
}

/// How many rows lie beyond their own limit.
pub(super) fn beyond(rows: &[usize], value: &Column, limit: &Column) -> Vec<bool> {
    let sound = rows.iter().filter(|row| at(value, **row).is_finite());
    sound.map(|row| at(value, *row).abs() > at(limit, *row).abs()).collect()
}

/// "2 bands cross it": of rows inside their limit whose band is not; empty if there is none.
pub(super) fn band_beyond(rows: &[usize], value: &Column, band: &Column, limit: &Column) -> String {
    let crosses = |row: &&usize| {
        let (size, half, limit) = (at(value, **row).abs(), at(band, **row).abs(), at(limit, **row).abs());
        size <= limit && size + half > limit
    };
    match rows.iter().filter(crosses).count() {
        0 => String::new(),
        1 => "1 band crosses it".to_owned(),
        many => format!("{many} bands cross it"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use weldbow_engine::study::Values;

    fn column(sizes: &[f64]) -> Column {
        let values = Values::Numbers(sizes.to_vec());
        Column { name: "limit_mm".to_owned(), words: "limit".to_owned(), unit: "mm".to_owned(), values }
    }

    fn of(sizes: &[f64], values: &[f64]) -> Limits {
        let rows: Vec<usize> = (0..sizes.len()).collect();
        Limits::of(Some(&column(sizes)), &rows, |row| row as f64, values).unwrap()
    }

    const WHOLE: Range = Range { low: -1.0, high: 5.0 };

    #[test]
    fn a_limit_runs_across_the_plot_on_the_sides_where_values_are() {
        let limits = of(&[9.0, 9.0], &[3.0, 4.0]);
        assert_eq!(limits.lines(WHOLE), [[(-1.0, 9.0), (5.0, 9.0)]]);
        assert_eq!(limits.text(), "limit ±9 mm");
        assert_eq!(of(&[9.0, 9.0], &[-3.0, 4.0]).lines(WHOLE).len(), 2);
    }

    #[test]
    fn a_limit_that_varies_is_drawn_so() {
        let limits = of(&[9.0, 10.0, 12.0], &[3.0, -4.0]);
        assert_eq!(limits.lines(WHOLE)[0], [(0.0, -9.0), (1.0, -10.0), (2.0, -12.0)]);
        assert_eq!(limits.text(), "limit ±9 to 12 mm");
    }

    #[test]
    fn a_far_limit_is_named_and_not_drawn() {
        let limits = of(&[90.0, 90.0], &[3.0, 4.0]);
        assert!(limits.lines(WHOLE).is_empty() && limits.reach().is_empty());
        assert_eq!(limits.text(), "limit ±90 mm, off the plot");
    }

    #[test]
    fn a_band_that_crosses_a_limit_is_told() {
        let (value, limit) = (column(&[3.0, 7.0, 10.0, f64::NAN]), column(&[9.0; 4]));
        let said = |band: f64| band_beyond(&[0, 1, 2, 3], &value, &column(&[band; 4]), &limit);
        assert_eq!(said(1.0), "");
        assert_eq!(said(2.5), "1 band crosses it");
        assert_eq!(said(7.0), "2 bands cross it");
    }

    #[test]
    fn rows_beyond_their_own_limit_are_counted_and_failed_ones_are_not() {
        let count = beyond(&[0, 1, 2], &column(&[-10.0, 8.0, f64::NAN]), &column(&[9.0, 9.0, 9.0]));
        assert_eq!(count, [true, false]);
    }
}
