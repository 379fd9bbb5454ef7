//! A table of the report: heads, then one row after the other.

use maud::{Markup, html};

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum As {
    /// Words, from the left.
    Words,
    /// Words that want room.
    Long,
    /// Numbers, against the right.
    Number,
    /// The number that the table is for.
    Result,
    /// A verdict.
    Verdict,
    /// Room to write by hand.
    Field,
}

impl As {
    const fn class(self) -> Option<&'static str> {
        match self {
            Self::Words => None,
            Self::Long => Some("long"),
            Self::Number => Some("n"),
            Self::Result => Some("n result"),
            Self::Verdict => Some("judged"),
            Self::Field => Some("field"),
        }
    }
}

/// A table under way: column by column, what it says of each item.
pub(super) struct Columns<'c, T> {
    items: Vec<T>,
    heads: Vec<(As, &'c str)>,
    rows: Vec<Vec<String>>,
}

impl<'c, T> Columns<'c, T> {
    /// A row for each item, as yet without columns.
    pub(super) fn of(items: impl IntoIterator<Item = T>) -> Self {
        let items: Vec<T> = items.into_iter().collect();
        let rows = vec![Vec::new(); items.len()];
        Self { items, heads: Vec::new(), rows }
    }

    /// One column more.
    pub(super) fn column<S: Into<String>>(mut self, set: As, head: &'c str, says: impl Fn(&T) -> S) -> Self {
        self.heads.push((set, head));
        self.rows.iter_mut().zip(&self.items).for_each(|(row, item)| row.push(says(item).into()));
        self
    }

    /// The table.
    pub(super) fn under(self, caption: &str) -> Markup {
        table(caption, &self.heads, self.rows)
    }
}

/// A table; a row may end early, what is missing stays empty.
pub(super) fn table(
    caption: &str,
    columns: &[(As, &str)],
    rows: impl IntoIterator<Item = Vec<String>>,
) -> Markup {
    html! {
        table {
            @if !caption.is_empty() { caption { (caption) } }
            thead { tr { @for (set, head) in columns { th class=[set.class()] { (head) } } } }
            tbody {
                @for row in rows {
                    tr {
                        @for (k, (set, _)) in columns.iter().enumerate() {
                            td class=[set.class()] { (row.get(k).map_or("", String::as_str)) }
                        }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_row_leaves_its_fields_empty_and_text_stays_text() {
        let made = table("", &[(As::Words, "what"), (As::Field, "by")], [vec!["<b>".to_owned()]]);
        let text = made.into_string();
        assert!(text.contains("<td>&lt;b&gt;</td><td class=\"field\"></td>"), "{text}");
    }
}
