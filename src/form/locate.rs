//! Where in the text a path stands.

use std::fmt::Write;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// One step of a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// Key of a table.
    Key(String),
    /// Item of a list, from 0.
    Item(usize),
}

/// A path as text: `member.web[1].to`. Keys that are not bare words are quoted.
pub fn text_of(steps: &[Step]) -> String {
    let mut path = String::new();
    for step in steps {
        // Writing to a String cannot fail.
        let _ = match step {
            Step::Item(index) => write!(path, "[{index}]"),
            Step::Key(key) => {
                let dot = if path.is_empty() { "" } else { "." };
                let bare =
                    !key.is_empty() && key.chars().all(|c| c.is_ascii_alphanumeric() || "_-".contains(c));
                if bare { write!(path, "{dot}{key}") } else { write!(path, "{dot}{key:?}") }
            }
        };
    }
    path
}

/// The steps of a path as [`text_of`] writes it.
pub fn steps_of(path: &str) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut rest = path;
    while !rest.is_empty() {
        rest = rest.strip_prefix('.').unwrap_or(rest);
        if let Some(inside) = rest.strip_prefix('[') {
            let (index, after) = inside.split_once(']').unwrap_or((inside, ""));
            steps.push(Step::Item(index.parse().unwrap_or(0)));
            rest = after;
        } else if let Some(quoted) = rest.strip_prefix('"') {
            let (key, after) = unquote(quoted);
            steps.push(Step::Key(key));
            rest = after;
        } else {
            let end = rest.find(['.', '[']).unwrap_or(rest.len());
            steps.push(Step::Key(rest[..end].to_owned()));
            rest = &rest[end..];
        }
    }
    steps
}

/// The key up to its closing quote, and what follows; only `\"` and `\\` are undone, which is enough to find
/// a key that a person would write.
fn unquote(quoted: &str) -> (String, &str) {
    let mut key = String::new();
    let mut chars = quoted.char_indices();
    while let Some((at, c)) = chars.next() {
        match c {
            '"' => return (key, &quoted[at + 1..]),
            '\\' => key.extend(chars.next().map(|(_, escaped)| escaped)),
            _ => key.push(c),
        }
    }
    (key, "")
}

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

/// Where the lines of a text start: found once, so that many places cost no more than few.
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Of a text.
    pub fn of(text: &'t str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    /// Line and column of a byte, both from 1; columns count characters.
    pub fn place(&self, byte: usize) -> (usize, usize) {
        let byte = self.text.floor_char_boundary(byte);
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        (line, self.text.get(start..byte).map_or(0, |before| before.chars().count()) + 1)
    }
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
    fn paths_survive_being_written_and_read() {
        let path = "procedure.\"a.b\".arcs[3].voltage";
        assert_eq!(text_of(&steps_of(path)), path);
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
