//! How a table, a heading and a paragraph look: no boxes, one rule under the column names.

use crate::cli::fitted::filled;
use crate::cli::lists::counted;
use crate::cli::terminal::{colours, width};
use crate::input::text::path;
use comfy_table::{
    Cell, CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, Row, Table, TableStyle, Width,
};
use std::io::{IsTerminal, Result, Write, stdout};
use std::path::Path;

/// Width used when the output goes to no terminal.
const PLAIN_WIDTH: usize = 110;
/// Widest table on a terminal.
const WIDEST: usize = 200;
/// Width from which tables have room for every column: below it cells of the longest would be broken (tried on the demo members).
const ROOMY: usize = 110;
/// Widest paragraph.
const PARAGRAPH: usize = 96;

/// Whether lines have room for every column; a screen of 80 has not.
pub(crate) fn roomy() -> bool {
    width(PLAIN_WIDTH) >= ROOMY
}

/// Whether colours may be used on the output.
fn colour() -> bool {
    colours(stdout().is_terminal())
}

/// A heading, with a remark after it, or under it where the line is too short for both.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn heading(title: &str, remark: &str, out: &mut dyn Write) -> Result<()> {
    let both = title.chars().count() + remark.chars().count() + "  ()".len();
    let bold = if colour() { format!("\u{1b}[1m{title}\u{1b}[0m") } else { title.to_owned() };
    match remark {
        "" => writeln!(out, "\n{bold}"),
        _ if both <= width(PLAIN_WIDTH) => writeln!(out, "\n{bold}  ({remark})"),
        _ => writeln!(out, "\n{bold}\n{}", plain_text(&format!("({remark})"), 1)),
    }
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
    ///
    /// # Errors
    /// Only those of `out`.
    pub(crate) fn put(self, out: &mut dyn Write) -> Result<()> {
        self.put_parts(&[], out)
    }

    /// The same, with lines of words in the places of rows that hold [`LINE`].
    ///
    /// # Errors
    /// Only those of `out`.
    pub(crate) fn put_parts(self, lines: &[String], out: &mut dyn Write) -> Result<()> {
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
                Some(words) => writeln!(out, "{words}")?,
                None => writeln!(out, "{lead}{}", line.trim_end())?,
            }
        }
        Ok(())
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

    /// Writes the table.
    ///
    /// # Errors
    /// Only those of `out`.
    pub(crate) fn put(self, out: &mut dyn Write) -> Result<()> {
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

/// A paragraph as wide as a table, so many blanks from the edge.
pub(crate) fn plain_text(text: &str, indent: usize) -> String {
    let lead = " ".repeat(indent);
    filled(text.split_whitespace(), width(PLAIN_WIDTH), [&lead, &lead])
}

/// A paragraph with a hanging indent.
pub(crate) fn wrapped(text: &str) -> String {
    wrapped_to(text, width(PARAGRAPH))
}

/// Writes such a paragraph.
pub(crate) fn say(out: &mut dyn Write, text: &str) -> Result<()> {
    writeln!(out, "{}", wrapped(text))
}

/// The same of several.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn say_all<S: AsRef<str>>(out: &mut dyn Write, texts: impl IntoIterator<Item = S>) -> Result<()> {
    texts.into_iter().try_for_each(|text| say(out, text.as_ref()))
}

/// The same, as wide as a table.
pub(crate) fn wide(text: &str) -> String {
    wrapped_to(text, width(PLAIN_WIDTH))
}

fn wrapped_to(text: &str, wide: usize) -> String {
    filled(text.split_whitespace(), wide, ["  • ", "    "])
}

/// "1 chart (SVG and PNG) in charts".
pub(crate) fn drawn(count: usize, folder: &Path) -> String {
    format!("{} (SVG and PNG) in {}", counted(count, "chart"), path(folder))
}
