//! How a table, a heading and a paragraph look: no boxes, one rule under the column names.

use crate::cli::terminal::{colours, room, width};
use comfy_table::{CellAlignment, ContentArrangement, LineStyle, Table, TableStyle};
use std::io::{IsTerminal, Result, Write, stdout};

/// Width used when the output goes to no terminal.
const PLAIN_WIDTH: u16 = 110;
/// Widest paragraph.
const PARAGRAPH: usize = 96;

/// Whether colours may be used on the output.
pub fn colour() -> bool {
    colours(stdout().is_terminal())
}

/// A heading, with a remark after it.
///
/// # Errors
/// Only those of `out`.
pub fn heading(title: &str, remark: &str, out: &mut dyn Write) -> Result<()> {
    let title = if colour() { format!("\u{1b}[1m{title}\u{1b}[0m") } else { title.to_owned() };
    if remark.is_empty() { writeln!(out, "\n{title}") } else { writeln!(out, "\n{title}  ({remark})") }
}

/// A table with column names; the columns in `right` are aligned right.
pub fn row_table(names: &[&str], right: &[usize]) -> Table {
    let mut table = plain(right);
    table.set_header(names.iter().copied());
    align(&mut table, right);
    table
}

/// A table without column names.
pub fn plain(right: &[usize]) -> Table {
    let mut table = Table::new();
    let rule = LineStyle::none().fill('─').junction('─');
    table.load_style(TableStyle::new().header_separator(rule));
    table.set_content_arrangement(ContentArrangement::Dynamic);
    // told, since a table without colours asks no terminal
    table.set_width(room(false).and_then(|here| u16::try_from(here).ok()).unwrap_or(PLAIN_WIDTH));
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
pub fn put(mut table: Table, right: &[usize], out: &mut dyn Write) -> Result<()> {
    align(&mut table, right);
    for line in table.lines() {
        writeln!(out, "{}", line.trim_end())?;
    }
    Ok(())
}

/// A paragraph as wide as a table, so many blanks from the edge.
pub fn plain_text(text: &str, indent: usize) -> String {
    let mut lines = vec![String::new()];
    let widest = width(usize::from(PLAIN_WIDTH));
    for word in text.split_whitespace() {
        let used = lines.last().map_or(0, |line| line.chars().count());
        if used > 0 && indent + used + 1 + word.chars().count() > widest {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            line.push_str(if line.is_empty() { "" } else { " " });
            line.push_str(word);
        }
    }
    let lead = " ".repeat(indent);
    lines.iter().map(|line| format!("{lead}{line}")).collect::<Vec<_>>().join("\n")
}

/// A paragraph with a hanging indent.
pub fn wrapped(text: &str) -> String {
    wrapped_to(text, width(PARAGRAPH))
}

/// The same, as wide as a table.
pub fn wide(text: &str) -> String {
    wrapped_to(text, width(usize::from(PLAIN_WIDTH)))
}

fn wrapped_to(text: &str, wide: usize) -> String {
    let mut lines = vec![String::from("  •")];
    for word in text.split_whitespace() {
        if lines.last().is_some_and(|l| l.chars().count() + 1 + word.chars().count() > wide) {
            lines.push(String::from("   "));
        }
        if let Some(line) = lines.last_mut() {
            line.push(' ');
            line.push_str(word);
        }
    }
    lines.join("\n")
}
