//! A record's answer on the terminal.

use super::gather::Gathered;
use super::told::{self, Body};
use crate::cli::show::{Report, row_table};
use crate::record::Learned;
use crate::units::System;

/// Everything, in the order a foreman asks.
pub(super) fn report(gathered: &Gathered, found: &Learned, system: System, out: &mut Report) {
    out.line(told::head(gathered, found));
    for part in told::parts(gathered, found, system) {
        out.heading(part.title, &part.remark);
        match part.body {
            Body::Lines(lines) => out.say_all(lines),
            Body::Table { heads, right, rows, rest } => {
                let mut table = row_table(heads, right.iter().copied());
                rows.into_iter().for_each(|row| table.add_row(row));
                table.put(out);
                if let Some(rest) = rest {
                    out.line(format!("  {rest}; --json has all"));
                }
            }
        }
    }
    out.line(format!("\n{}", told::foot(found)))
}
