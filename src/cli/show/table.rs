//! How a table, a heading and a paragraph look: no boxes, one rule under the column names.

use super::report::{PLAIN_WIDTH, Report, colour};
use crate::cli::lists::counted;
use crate::cli::terminal::width;
use crate::input::text::path;
use comfy_table::{
    Cell, CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, Row, Table, TableStyle, Width,
};
use std::io::{IsTerminal, stdout};
use std::path::Path;

/// Widest table on a terminal.
const WIDEST: usize = 200;
/// Width from which tables have room for every column: below it cells of the longest would be broken (tried on the demo members).
const ROOMY: usize = 110;

/// Whether lines have room for every column; a screen of 80 has not.
pub(crate) fn roomy() -> bool {
    width(PLAIN_WIDTH) >= ROOMY
}

/// A table in the making: which of its columns are numbers, aligned right, is said once.
pub(crate) struct Rows {
    table: Table,
    right: Vec<usize>,
}

/// What a row holds in its first cell to be written as a line of its own: [`Rows::put_parts`] puts the next line there.
pub(crate) const LINE: &str = "\u{1}";

impl Rows {
    /// One more row.
    pub(crate) fn add_row(&mut self, row: impl Into<Row>) {
        self.table.add_row(row);
    }

    /// Writes the table.
    pub(crate) fn put(self, out: &mut Report) {
        self.put_parts(&[], out)
    }

    /// The same, with lines of words in the places of rows that hold [`LINE`].
    pub(crate) fn put_parts(self, lines: &[String], out: &mut Report) {
        let mut table = self.table;
        // columns exist only once there are rows
        for column in self.right {
            if let Some(column) = table.column_mut(column) {
                column.set_cell_alignment(CellAlignment::Right);
            }
        }
        let lead = if roomy() && fits(&table) {
            ""
        } else {
            // columns closer together, rather than cells broken
            table.column_iter_mut().for_each(|column| {
                column.set_padding((0, 1));
            });
            if !fits(&table) {
                keep_words(&mut table);
            }
            " "
        };
        let mut lines = lines.iter();
        for line in table.lines() {
            match if line.contains(LINE) { lines.next() } else { None } {
                Some(words) => out.line(words),
                None => out.line(format!("{lead}{}", line.trim_end())),
            }
        }
    }
}

/// A table with column names; the columns in `right` are aligned right.
pub(crate) fn row_table(names: &[impl AsRef<str>], right: impl IntoIterator<Item = usize>) -> Rows {
    let mut rows = plain(right);
    rows.table.set_header(names.iter().map(|name| name.as_ref()));
    rows
}

/// A table under way: column by column, what it says of each item.
pub(crate) struct Columns<T> {
    items: Vec<T>,
    heads: Vec<String>,
    right: Vec<usize>,
    rows: Vec<Vec<String>>,
}

impl<T> Columns<T> {
    /// A row for each item, as yet without columns.
    pub(crate) fn of(items: impl IntoIterator<Item = T>) -> Self {
        let items: Vec<T> = items.into_iter().collect();
        let rows = vec![Vec::new(); items.len()];
        Self { items, heads: Vec::new(), right: Vec::new(), rows }
    }

    /// One column more, aligned left.
    pub(crate) fn left<S: Into<String>>(mut self, head: impl Into<String>, says: impl Fn(&T) -> S) -> Self {
        self.heads.push(head.into());
        self.rows.iter_mut().zip(&self.items).for_each(|(row, item)| row.push(says(item).into()));
        self
    }

    /// One column more, aligned right.
    pub(crate) fn right<S: Into<String>>(mut self, head: impl Into<String>, says: impl Fn(&T) -> S) -> Self {
        self.right.push(self.heads.len());
        self.left(head, says)
    }

    /// A column that stands only where it says something.
    pub(crate) fn left_if<S: Into<String>>(self, there: bool, head: &str, says: impl Fn(&T) -> S) -> Self {
        if there { self.left(head, says) } else { self }
    }

    /// The same, of numbers.
    pub(crate) fn right_if<S: Into<String>>(self, there: bool, head: &str, says: impl Fn(&T) -> S) -> Self {
        if there { self.right(head, says) } else { self }
    }

    /// Writes the table.
    pub(crate) fn put(self, out: &mut Report) {
        let mut table = row_table(&self.heads, self.right);
        self.rows.into_iter().for_each(|row| table.add_row(row));
        table.put(out)
    }
}

/// The same where there is room; on a narrow screen names without a rule under them.
pub(crate) fn head_table(names: &[impl AsRef<str>], right: impl IntoIterator<Item = usize>) -> Rows {
    if roomy() {
        return row_table(names, right);
    }
    let mut rows = plain(right);
    rows.add_row(names.iter().map(|name| name.as_ref()).collect::<Vec<&str>>());
    rows
}

/// A table without column names.
pub(crate) fn plain(right: impl IntoIterator<Item = usize>) -> Rows {
    let mut table = Table::new();
    let rule = LineStyle::none().fill('─').junction('─');
    table.load_style(TableStyle::new().header_separator(rule));
    table.set_content_arrangement(ContentArrangement::Dynamic);
    let most = if stdout().is_terminal() { WIDEST } else { PLAIN_WIDTH };
    // the blank before a line of a narrow table
    let wide = if roomy() { width(most) } else { width(most) - 1 };
    table.set_width(u16::try_from(wide).unwrap_or(u16::MAX));
    if colour() {
        table.enforce_styling()
    } else {
        table.force_no_tty()
    };
    Rows { table, right: right.into_iter().collect() }
}

/// Whether a table has room as it is, without a broken cell.
fn fits(table: &Table) -> bool {
    let mut free = table.clone();
    free.set_content_arrangement(ContentArrangement::Disabled);
    let widest = free.lines().map(|line| line.chars().count()).max().unwrap_or(0);
    table.width().is_none_or(|room| widest <= usize::from(room))
}

/// Cells are broken between words, not in them, if there is room for the longest word of each column.
fn keep_words(table: &mut Table) {
    let of_row = |row: &Row| -> Vec<usize> {
        let longest =
            |cell: &Cell| cell.content().split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
        row.cell_iter().map(longest).collect()
    };
    let mut longest = vec![0; table.column_count()];
    for row in table.header().into_iter().chain(table.row_iter()) {
        longest.iter_mut().zip(of_row(row)).for_each(|(most, here)| *most = here.max(*most));
    }
    // the padding of a column and what parts it from the next
    let needed: usize = longest.iter().map(|word| word + 2).sum();
    if table.width().is_some_and(|room| needed > usize::from(room) + 1) {
        return;
    }
    for (column, word) in table.column_iter_mut().zip(longest) {
        let least = u16::try_from(word + 1).unwrap_or(u16::MAX);
        column.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(least)));
    }
}

/// "1 chart (SVG and PNG) in charts".
pub(crate) fn drawn(count: usize, folder: &Path) -> String {
    format!("{} (SVG and PNG) in {}", counted(count, "chart"), path(folder))
}

/// Its columns without those named and without empty ones, figures with a real minus sign.
pub(crate) fn listed(
    title: &str,
    remark: &str,
    list: &crate::cut::Table,
    without: &[&str],
    out: &mut Report,
) {
    out.heading(title, remark);
    let shown = list.shown(without);
    let heads: Vec<String> = shown.iter().map(|i| list.head_in_words(*i)).collect();
    let right = (0..shown.len()).filter(|k| list.is_of_figures(shown[*k]));
    let mut rows = head_table(&heads, right);
    for row in &list.rows {
        rows.add_row(shown.iter().map(|i| list.said(&row[*i])));
    }
    rows.put(out)
}
