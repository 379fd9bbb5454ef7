//! When pieces are wanted.

use serde::{Serialize, Serializer};
use std::fmt::{Display, Formatter};

/// A week: a number, or a number in a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Week {
    /// Year, if given.
    pub year: Option<u32>,
    /// Number of the week, from 1.
    pub number: u32,
}

/// Weeks of a year at most (ISO 8601).
const MOST: u32 = 53;
/// Last week without a year: two years ahead (choice).
const MOST_PLAIN: u32 = 104;

impl Week {
    /// Reads "3", "W3" or "2026-W14".
    ///
    /// ```
    /// use weldbow_engine::order::Week;
    /// assert_eq!(Week::read("2026-W14"), Some(Week { year: Some(2026), number: 14 }));
    /// assert_eq!(Week::read("w3"), Some(Week { year: None, number: 3 }));
    /// assert_eq!(Week::read("2026-W54"), None);
    /// ```
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim().to_uppercase();
        let (year, week) = match text.split_once('-') {
            Some((year, week)) => (Some(year.parse().ok().filter(|y| (1900..=2999).contains(y))?), week),
            None => (None, text.as_str()),
        };
        let number = week.strip_prefix('W').unwrap_or(week).parse().ok()?;
        let most = if year.is_some() { MOST } else { MOST_PLAIN };
        (1..=most).contains(&number).then_some(Self { year, number })
    }

    /// The ISO week of a date written as "2026-04-03".
    ///
    /// Weeks begin on Monday; week 1 holds the first Thursday of the year (ISO 8601).
    /// ```
    /// use weldbow_engine::order::Week;
    /// let week = |text| Week::of_date(text).map(|w| w.to_string());
    /// assert_eq!(week("2021-01-03").as_deref(), Some("2020-W53"));
    /// assert_eq!(week("2026-04-03").as_deref(), Some("2026-W14"));
    /// assert_eq!(week("2026-02-30"), None);
    /// ```
    pub fn of_date(text: &str) -> Option<Self> {
        let date = chrono::NaiveDate::parse_from_str(text.trim(), "%Y-%m-%d").ok()?;
        let week = chrono::Datelike::iso_week(&date);
        let year = u32::try_from(week.year()).ok().filter(|y| (1900..=2999).contains(y))?;
        Some(Self { year: Some(year), number: week.week() })
    }
}

impl Display for Week {
    fn fmt(&self, f: &mut Formatter<'_>) -> std::fmt::Result {
        match self.year {
            Some(year) => write!(f, "{year}-W{:02}", self.number),
            None => write!(f, "{}", self.number),
        }
    }
}

impl Serialize for Week {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// Whole pieces of each mark in each of `weeks` weeks, in the order of the list: every week takes as many pieces as the next,
/// or one more.
///
/// ```
/// // 5 and 3 pieces over 3 weeks: 2, 3, 3 pieces a week
/// assert_eq!(weldbow_engine::order::spread_over_weeks(&[5, 3], 3), [[2, 3, 0], [0, 0, 3]]);
/// ```
pub fn spread_over_weeks(pieces: &[u32], weeks: u32) -> Vec<Vec<u32>> {
    let all: u64 = pieces.iter().map(|n| u64::from(*n)).sum();
    let edge = |week: u32| all * u64::from(week) / u64::from(weeks.max(1));
    let mut from = 0;
    pieces
        .iter()
        .map(|count| {
            let to = from + u64::from(*count);
            let inside = |week: u32| edge(week + 1).min(to).saturating_sub(edge(week).max(from));
            let row = (0..weeks).map(|week| u32::try_from(inside(week)).unwrap_or(u32::MAX)).collect();
            from = to;
            row
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_piece_is_in_one_week_and_weeks_differ_by_one_piece() {
        let pieces = [7, 1, 30, 2, 11];
        for weeks in 1..=9 {
            let rows = spread_over_weeks(&pieces, weeks);
            for (row, count) in rows.iter().zip(pieces) {
                assert_eq!(row.iter().sum::<u32>(), count, "{weeks} weeks: {rows:?}");
            }
            let sums = (0..weeks as usize).map(|w| rows.iter().map(|row| row[w]).sum::<u32>());
            let (least, most) = sums.fold((u32::MAX, 0), |(l, m), n| (l.min(n), m.max(n)));
            assert!(most - least <= 1, "{weeks} weeks: {rows:?}");
        }
    }
}
