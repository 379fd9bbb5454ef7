//! How a table, a heading and a paragraph look: no boxes, one rule under the column names.

use crate::cli::fitted::filled;
use crate::cli::terminal::{colours, width};
use crate::input::text::path;
use comfy_table::{CellAlignment, ContentArrangement, LineStyle, Table, TableStyle};
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

/// A table with column names; the columns in `right` are aligned right.
pub(crate) fn row_table(names: &[&str], right: &[usize]) -> Table {
    let mut table = plain(right);
    table.set_header(names.iter().copied());
    align(&mut table, right);
    table
}

/// The same where there is room; on a narrow screen names without a rule under them.
pub(crate) fn head_table(names: &[&str], right: &[usize]) -> Table {
    if roomy() {
        return row_table(names, right);
    }
    let mut table = plain(right);
    table.add_row(names.iter().copied());
    table
}

/// A table without column names.
pub(crate) fn plain(right: &[usize]) -> Table {
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
    align(&mut table, right);
    table
}

fn align(table: &mut Table, right: &[usize]) {
    for &column in right {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
}

/// Writes a table with its rows; alignment is set anew, since columns exist only once there are rows.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn put(table: Table, right: &[usize], out: &mut dyn Write) -> Result<()> {
    put_parts(table, right, &[], out)
}

/// What a row holds in its first cell to be written as a line of its own: [`put_parts`] puts the next line there.
pub(crate) const LINE: &str = "\u{1}";

/// The same, with lines of words in the places of rows that hold [`LINE`].
///
/// # Errors
/// Only those of `out`.
pub(crate) fn put_parts(
    mut table: Table,
    right: &[usize],
    lines: &[String],
    out: &mut dyn Write,
) -> Result<()> {
    align(&mut table, right);
    let lead = if roomy() {
        ""
    } else {
        // columns closer together
        table.column_iter_mut().for_each(|column| {
            column.set_padding((0, 1));
        });
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

/// The same, as wide as a table.
pub(crate) fn wide(text: &str) -> String {
    wrapped_to(text, width(PLAIN_WIDTH))
}

fn wrapped_to(text: &str, wide: usize) -> String {
    filled(text.split_whitespace(), wide, ["  • ", "    "])
}

/// "1 chart (SVG and PNG) in charts".
pub(crate) fn drawn(count: usize, folder: &Path) -> String {
    let many = if count == 1 { "" } else { "s" };
    format!("{count} chart{many} (SVG and PNG) in {}", path(folder))
}
