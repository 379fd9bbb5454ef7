//! Words that a stranger may have written: fit for one line of a terminal, a page or a spreadsheet.

use std::borrow::Cow;
use std::path::Path;

/// Longest name, title, mark or label taken, characters (a choice: two lines of a terminal).
pub const LONGEST: usize = 200;

/// One line without characters that move, hide or turn what stands beside them: line ends, tabs and control characters become
/// blanks, marks of writing direction and zero-width marks go; runs of blanks that this makes are one.
///
/// ```
/// use weldbow_engine::input::text::line;
/// assert_eq!(line("A\u{1b}[31mRED\n\neverything within"), "A [31mRED everything within");
/// assert_eq!(line("Rafter  R2"), "Rafter  R2");
/// assert_eq!(line("R\u{202e}2"), "R2");
/// ```
pub fn line(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| moves(c) || hides(c)) {
        return Cow::Borrowed(text);
    }
    let mut clean = String::with_capacity(text.len());
    for c in text.chars().filter(|c| !hides(*c)) {
        if !moves(c) {
            clean.push(c);
        } else if !clean.ends_with(' ') {
            clean.push(' ');
        }
    }
    Cow::Owned(clean.trim().to_owned())
}

/// The same, of at most [`LONGEST`] characters.
pub fn short(text: &str) -> Cow<'_, str> {
    let clean = line(text);
    if clean.chars().nth(LONGEST).is_none() {
        return clean;
    }
    Cow::Owned(cut(&clean, LONGEST))
}

/// The same, of at most so many characters.
pub fn cut(text: &str, most: usize) -> String {
    // a character that goes leaves room for one that stays: twice as many are enough to look at
    let start: String = text.chars().take(2 * most).collect();
    let clean = line(&start);
    if clean.chars().nth(most).is_none() && start.len() == text.len() {
        return clean.into_owned();
    }
    clean.chars().take(most.saturating_sub(1)).chain(['…']).collect()
}

/// First letter large.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A file's name, for people.
pub fn path(path: &Path) -> String {
    line(&path.display().to_string()).into_owned()
}

/// A text of several lines, as a file is quoted: every character that moves or hides becomes one of as many bytes that does
/// not, so that places in it stay where they are.
pub fn quoted(text: &str) -> Cow<'_, str> {
    let odd = |c: char| (moves(c) && !matches!(c, '\n' | '\t')) || hides(c);
    if !text.chars().any(odd) {
        return Cow::Borrowed(text);
    }
    let instead = |c: char| match c.len_utf8() {
        1 => ' ',
        2 => '·',
        _ => '\u{fffd}',
    };
    Cow::Owned(text.chars().map(|c| if odd(c) { instead(c) } else { c }).collect())
}

/// A cell of a spreadsheet that stays text: one that a spreadsheet would run as a formula gets an apostrophe in front. A
/// number, alone or with a unit, is no formula.
///
/// ```
/// use weldbow_engine::input::text::{cell, of_cell};
/// assert_eq!(cell("=1+1"), "'=1+1");
/// assert_eq!(cell("-5 mm"), "-5 mm");
/// assert_eq!(of_cell("'=1+1"), "=1+1");
/// ```
pub fn cell(text: &str) -> Cow<'_, str> {
    let runs = text.starts_with(['=', '+', '-', '@', '\t', '\r']) || text.starts_with("'=");
    if runs && !is_number(text) { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

/// What a cell made by [`cell`] was made of.
pub fn of_cell(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if cell(rest).starts_with('\'') => rest,
        _ => text,
    }
}

fn is_number(text: &str) -> bool {
    let end = text.find(' ').unwrap_or(text.len());
    let unit = text[end..].trim_start();
    text[..end].parse::<f64>().is_ok() && unit.chars().all(|c| c.is_alphabetic() || "%°²³·/".contains(c))
}

/// Line ends, tabs, control characters of both sets, line and paragraph separators.
const fn moves(c: char) -> bool {
    matches!(c, '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{2028}' | '\u{2029}')
}

/// Marks of writing direction (Unicode standard annex 9) and marks without width.
const fn hides(c: char) -> bool {
    matches!(
        c,
        '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_in_a_quoted_text_stay_where_they_are() {
        let odd = "a\u{1b}[2J\u{85}\u{202e}b\n\tc\u{feff}";
        let shown = quoted(odd);
        assert_eq!(shown.len(), odd.len());
        assert_eq!(shown.find('b'), odd.find('b'));
        assert!(shown.contains("\n\tc") && !shown.contains('\u{1b}') && !shown.contains('\u{202e}'));
    }

    #[test]
    fn formulas_are_told_from_numbers() {
        for formula in ["=cmd|' /C calc'!A0", "+1+1", "@SUM(1)", "-2+3", "-", "=1", "-5 mm;=1"] {
            assert_eq!(cell(formula), format!("'{formula}"));
            assert_eq!(of_cell(&cell(formula)), formula);
        }
        for plain in ["-5", "+1.5e3", "-10 %", "-3 kN/m", "R2", "", "'quoted'", "−4"] {
            assert_eq!(cell(plain), plain);
            assert_eq!(of_cell(plain), plain);
        }
        assert_eq!(of_cell(&cell("'=1")), "'=1");
    }

    #[test]
    fn a_long_name_is_cut() {
        assert_eq!(short(&"x".repeat(500)).chars().count(), LONGEST);
        assert_eq!(short(&"x".repeat(LONGEST)).chars().count(), LONGEST);
    }
}
