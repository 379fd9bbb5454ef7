//! Days of the calendar as people write them.

use chrono::{Datelike, NaiveDate};

/// Days from the first of January of the year 1 to that of 1970, from where days are counted.
const EPOCH: i32 = 719_163;

/// Number of the day written as 2026-05-12 or 12.05.2026, counted from 1970-01-01. With slashes nobody can tell day from month.
///
/// ```
/// use weldbow_engine::input::{day_number, day_text};
/// assert_eq!(day_number("1970-01-02"), Some(1));
/// assert_eq!(day_number("12.05.2026").map(day_text).as_deref(), Some("2026-05-12"));
/// assert_eq!(day_number("2026-02-30"), None);
/// ```
pub fn day_number(text: &str) -> Option<i32> {
    let text = text.trim();
    let read = |form| NaiveDate::parse_from_str(text, form).ok();
    let date = read("%Y-%m-%d").or_else(|| read("%d.%m.%Y"))?;
    (1900..=2999).contains(&date.year()).then(|| date.num_days_from_ce() - EPOCH)
}

/// The day of that number, as 2026-05-12; empty for one beyond the calendar.
pub fn day_text(day: i32) -> String {
    day.checked_add(EPOCH)
        .and_then(NaiveDate::from_num_days_from_ce_opt)
        .map_or_else(String::new, |date| date.to_string())
}
