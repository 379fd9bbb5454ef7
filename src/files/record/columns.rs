//! The head of a record: which column is what, in which unit.

use crate::measured::KEYS;
use crate::measured::columns::{length_unit, name_and_length_unit, no_length_unit};
use crate::measured::front_values::short;
use weldbow_engine::input::{Problem, near};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    /// A word: its place in [`WORDS`].
    Word(usize),
    /// A length: its place in [`LENGTHS`].
    Length(usize),
    /// What is known of the piece, as in front of the file of one piece: its place among the keys.
    Key(usize),
    /// Something of the shop's own, which is not read.
    Own,
}

/// Columns of words.
pub(crate) const WORDS: [&str; 10] =
    ["job", "mark", "marks", "piece", "date", "line", "procedure", "family", "web", "readings"];
/// Columns of lengths.
pub(crate) const LENGTHS: [&str; 9] = [
    "at",
    "camber",
    "sweep",
    "shortening",
    "outer near toe",
    "outer far toe",
    "inner near toe",
    "inner far toe",
    "shortening uncertainty",
];
/// Columns of remarks that many sheets have; names here are like some of them.
const REMARKS: [&str; 5] = ["remark", "remarks", "comment", "comments", "notes"];
/// Words in the head of something that was read.
const READ: [&str; 4] = ["camber", "sweep", "toe", "short"];
/// What a right head looks like.
pub(crate) const EXAMPLE: &str = "job, piece, date, sweep [mm], camber [mm]";

impl Column {
    /// Its name.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Word(i) => WORDS[i],
            Self::Length(i) => LENGTHS[i],
            Self::Key(i) => KEYS[i].0,
            Self::Own => "",
        }
    }
}

/// The column and unit that a head names. A head behind `#`, an empty one, or one like no name here and without a unit of length is of
/// the shop's own: a record is the sheet the shop keeps anyway.
///
/// # Errors
/// A name or a unit that is none, or a length without one.
pub(crate) fn column(head: &str) -> Result<(Column, &'static str), Problem> {
    if head.trim().is_empty() || head.starts_with('#') {
        return Ok((Column::Own, ""));
    }
    let plain = head.trim().to_lowercase().replace('_', " ");
    let (name, unit) = name_and_length_unit(&plain);
    if REMARKS.contains(&name) {
        return Ok((Column::Own, ""));
    }
    let find = |all: &[&str]| all.iter().position(|known| *known == name);
    if let Some(i) = find(&WORDS) {
        return Ok((Column::Word(i), ""));
    }
    if let Some(i) = find(&LENGTHS) {
        let name = LENGTHS[i];
        let Some(written) = unit else {
            let found = format!("`{}` without a unit", short(head));
            return Err(Problem::new(name, found, "its unit with the name").example(format!("{name} [mm]")));
        };
        let unit = length_unit(written).ok_or_else(|| no_length_unit(name, written))?;
        return Ok((Column::Length(i), unit));
    }
    if let Some(i) = KEYS.iter().position(|key| key.0 == name) {
        return Ok((Column::Key(i), ""));
    }
    let names: Vec<&str> = WORDS.into_iter().chain(LENGTHS).chain(KEYS.map(|key| key.0)).collect();
    let reading = unit.and_then(length_unit).is_some() || READ.iter().any(|word| name.contains(word));
    if !reading && near::meant(name, &names).is_none() {
        return Ok((Column::Own, ""));
    }
    let nearest = near::nearest(name, names.iter().copied());
    let listed = || near::listed(WORDS.into_iter().chain(LENGTHS));
    let wanted = nearest.map_or_else(listed, |nearest| format!("did you mean `{nearest}`?"));
    let wanted = format!("{wanted} A column of your own, which is not read, starts with #");
    Err(Problem::new("head of the table", format!("unknown column `{}`", short(head)), wanted)
        .example(EXAMPLE))
}
