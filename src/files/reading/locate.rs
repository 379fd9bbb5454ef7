//! Where in the text a path stands.

use std::borrow::Cow;
use std::ops::Range;
use toml::de::{DeTable, DeValue};
use toml::{Spanned, Table, Value};
use weldbow_engine::input::{PathStep, old_word, steps_of};

/// Byte range of the value at a path, or of its deepest parent that exists; the key's range if `at_key`.
/// `None` if not even the first step exists.
pub(crate) fn range_of(table: &DeTable<'_>, path: &str, at_key: bool) -> Option<Range<usize>> {
    let mut range = None;
    let mut here: Option<&Spanned<DeValue<'_>>> = None;
    for step in steps_of(path) {
        let next = match (&step, here.map(Spanned::get_ref)) {
            (PathStep::Key(key), None) => of_key(table, key),
            (PathStep::Key(key), Some(DeValue::Table(inner))) => of_key(inner, key),
            (PathStep::Item(index), Some(DeValue::Array(items))) => {
                let Some(item) = items.get(*index) else { break };
                range = Some(item.span());
                here = Some(item);
                continue;
            }
            _ => None,
        };
        let Some((key, value)) = next else { break };
        // A table written only through dotted keys or sub-tables has no place of its own.
        let span = if at_key || value.span().is_empty() { key.span() } else { value.span() };
        range = Some(span);
        here = Some(value);
    }
    range
}

/// A key and its value, also where it stands under its old word.
fn of_key<'t, 'i>(
    table: &'t DeTable<'i>,
    key: &str,
) -> Option<(&'t Spanned<Cow<'i, str>>, &'t Spanned<DeValue<'i>>)> {
    table.get_key_value(key).or_else(|| table.get_key_value(old_word(key)?))
}

/// Where the lines of a text start: found once, so that many places cost no more than few.
pub(crate) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Of a text.
    pub(crate) fn of(text: &'t str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    /// Line and column of a byte, both from 1; columns count characters.
    pub(crate) fn place(&self, byte: usize) -> (usize, usize) {
        let byte = self.text.floor_char_boundary(byte);
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        (line, self.text.get(start..byte).map_or(0, |before| before.chars().count()) + 1)
    }
}

pub(super) fn child<'v>(here: &'v mut Value, step: &PathStep) -> Option<&'v mut Value> {
    match step {
        PathStep::Key(key) => here.get_mut(key.as_str()),
        PathStep::Item(index) => here.get_mut(*index),
    }
}

/// The value as written.
pub(super) fn value_at<'t>(table: &'t Table, steps: &[PathStep]) -> Option<&'t Value> {
    let mut steps = steps.iter();
    let Some(PathStep::Key(first)) = steps.next() else { return None };
    steps.try_fold(table.get(first)?, |here, step| match step {
        PathStep::Key(key) => here.get(key.as_str()),
        PathStep::Item(index) => here.get(*index),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "title = \"ü\"\n[member]\ndepth = [[\"0 m\", \"4 m\"]]\nweb.thickness = 5\n\
                        [procedure.\"a.b\"]\nwires = 2\n[[pass]]\nleg = 1\n[[pass]]\nleg = 2\n";

    fn found(path: &str, at_key: bool) -> &'static str {
        let table = DeTable::parse(TEXT).unwrap();
        &TEXT[range_of(table.get_ref(), path, at_key).unwrap()]
    }

    #[test]
    fn a_path_leads_to_its_value_in_every_way_toml_can_write_it() {
        assert_eq!(found("member.depth[0][1]", false), "\"4 m\"");
        assert_eq!(found("member.web.thickness", false), "5");
        assert_eq!(found("pass[1].leg", false), "2");
        assert_eq!(found("procedure.\"a.b\".wires", false), "2");
        assert_eq!(found("procedure.\"a.b\".wires", true), "wires");
    }

    #[test]
    fn a_word_of_older_files_is_found_under_the_new_one() {
        let text = "[[pass]]\norder = 7\n[[order]]\nnumber = 7\n";
        let table = DeTable::parse(text).unwrap();
        let found = |path| &text[range_of(table.get_ref(), path, false).unwrap()];
        assert_eq!((found("pass[0].step"), found("step[0].number")), ("7", "7"));
    }

    #[test]
    fn a_path_that_does_not_exist_leads_to_its_parent() {
        assert_eq!(found("member.length", false), "[member]");
        assert_eq!(found("pass[1].seam", false), "[[pass]]");
        assert_eq!(found("member.depth[7]", false), "[[\"0 m\", \"4 m\"]]");
    }

    #[test]
    fn columns_count_characters_and_never_split_one() {
        let lines = Lines::of(TEXT);
        assert_eq!(lines.place(9), (1, 10));
        assert_eq!(lines.place(10), (1, 10), "inside ü");
        assert_eq!(lines.place(11), (1, 11));
        assert_eq!(lines.place(9999).0, 11);
        assert_eq!(Lines::of("").place(0), (1, 1));
    }
}
