//! Families of an order, the one to fix first on top, and what to pull forward.

use super::figures::figure;
use crate::cli::show::{heading, row_table};
use crate::order::OrderResult;
use std::io::{Result, Write};

/// Most families shown (a choice).
const MOST: usize = 60;

/// Families, the one to fix first on top.
pub(super) fn families(found: &OrderResult, marks: bool, out: &mut dyn Write) -> Result<()> {
    heading("Families", "the one to fix first on top; … is the range from model error, 5 % to 95 %", out)?;
    let names = ["family", "marks", "pieces", "need it", "not here", "press h", "heat h", "money", "money …"];
    let mut table = row_table(&names, 1..9);
    for f in found.families.iter().take(MOST) {
        let t = &f.totals;
        table.add_row([
            f.name.clone(),
            f.marks.len().to_string(),
            f.quantity.to_string(),
            figure(t.needing.expected),
            figure(t.blocked.expected),
            figure(t.press_h.expected),
            figure(t.heat_h.expected),
            format!("{:.0}", t.money.expected),
            format!("{:.0} … {:.0}", t.money.low, t.money.high),
        ]);
    }
    table.put(out)?;
    if !marks {
        writeln!(out, "  --marks shows every mark; --csv and --json have them all")?;
    }
    Ok(())
}

/// What to pull forward.
pub(crate) fn levelling(found: &OrderResult, out: &mut dyn Write) -> Result<()> {
    let Some(levelled) = &found.levelled else { return Ok(()) };
    heading("Levelling", "expected hours; work may be done earlier than wanted, never later", out)?;
    if levelled.pulls.is_empty() && levelled.short.is_empty() {
        return writeln!(out, "  every week has hours enough at press and torch");
    }
    for p in &levelled.pulls {
        let s = if p.pieces == 1 { "" } else { "s" };
        writeln!(
            out,
            "  pull {} piece{s} of {} forward from week {} to week {}",
            p.pieces, p.mark, p.from, p.to
        )?;
    }
    for s in &levelled.short {
        let tool = |name: &str, h: f64| {
            if h > 0.01 { format!("{} h at the {name}", figure(h)) } else { String::new() }
        };
        let both = [tool("press", s.press_h), tool("torch", s.heat_h)];
        let said: Vec<&str> = both.iter().map(String::as_str).filter(|t| !t.is_empty()).collect();
        writeln!(
            out,
            "  week {} stays short of {}: a second shift, or prevention",
            s.week,
            said.join(" and ")
        )?;
    }
    Ok(())
}
