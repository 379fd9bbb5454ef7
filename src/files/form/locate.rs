//! Where in the text a path stands.

use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use weldbow_engine::input::{Step, steps_of};

/// Byte range of the value at a path, or of its deepest parent that exists; the key's range if `at_key`.
/// `None` if not even the first step exists.
pub fn range_of(table: &DeTable<'_>, path: &str, at_key: bool) -> Option<Range<usize>> {
    let mut range = None;
    let mut here: Option<&Spanned<DeValue<'_>>> = None;
    for step in steps_of(path) {
        let next = match (&step, here.map(Spanned::get_ref)) {
            (Step::Key(key), None) => table.get_key_value(key.as_str()),
            (Step::Key(key), Some(DeValue::Table(inner))) => inner.get_key_value(key.as_str()),
            (Step::Item(index), Some(DeValue::Array(items))) => {
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

/// Line and column of a byte, both from 1; columns count characters.
pub fn line_and_column(text: &str, byte: usize) -> (usize, usize) {
    let byte = (0..=byte.min(text.len())).rev().find(|b| text.is_char_boundary(*b)).unwrap_or(0);
    let before = &text[..byte];
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
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
    fn a_path_that_does_not_exist_leads_to_its_parent() {
        assert_eq!(found("member.length", false), "[member]");
        assert_eq!(found("pass[1].seam", false), "[[pass]]");
        assert_eq!(found("member.depth[7]", false), "[[\"0 m\", \"4 m\"]]");
    }

    #[test]
    fn columns_count_characters_and_never_split_one() {
        assert_eq!(line_and_column(TEXT, 9), (1, 10));
        assert_eq!(line_and_column(TEXT, 10), (1, 10), "inside ü");
        assert_eq!(line_and_column(TEXT, 11), (1, 11));
        assert_eq!(line_and_column(TEXT, 9999).0, 11);
    }
}
