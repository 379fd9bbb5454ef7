//! A record's answer on the terminal.

use super::gather::Gathered;
use super::told::{self, Body};
use crate::cli::show::{heading, row_table, say_all};
use crate::record::Learned;
use crate::units::System;
use std::io::{Result, Write};

/// Everything, in the order a foreman asks.
///
/// # Errors
/// Only those of `out`.
pub(super) fn report(
    gathered: &Gathered,
    found: &Learned,
    system: System,
    out: &mut dyn Write,
) -> Result<()> {
    writeln!(out, "{}", told::head(gathered, found))?;
    for part in told::parts(gathered, found, system) {
        heading(part.title, &part.remark, out)?;
        match part.body {
            Body::Lines(lines) => say_all(out, lines)?,
            Body::Table { heads, right, rows, rest } => {
                let mut table = row_table(heads, right.iter().copied());
                rows.into_iter().for_each(|row| table.add_row(row));
                table.put(out)?;
                if let Some(rest) = rest {
                    writeln!(out, "  {rest}; --json has all")?;
                }
            }
        }
    }
    writeln!(out, "\n{}", told::foot(found))
}
