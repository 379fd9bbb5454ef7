//! Families of an order, the one to fix first on top, and what to pull forward.

use super::words::figure;
use crate::cli::lists::counted;
use crate::cli::show::{Columns, Report};
use crate::order::{MarkResult, OrderResult};

/// Most families shown (a choice).
const MOST: usize = 60;

/// Families, the one to fix first on top.
pub(super) fn families(found: &OrderResult, marks: bool, out: &mut Report) {
    out.heading("Families", "the one to fix first on top; … is the range from model error, 5 % to 95 %");
    Columns::of(found.families.iter().take(MOST))
        .left("family", |f| f.name.clone())
        .right("marks", |f| f.marks.len().to_string())
        .right("pieces", |f| f.quantity.to_string())
        .right("out", |f| figure(found.marks.iter().filter(|m| m.family == f.name).map(pieces_out).sum()))
        .right("need it", |f| figure(f.totals.needing.expected))
        .right("not here", |f| figure(f.totals.blocked.expected))
        .right("press h", |f| figure(f.totals.press_h.expected))
        .right("heat h", |f| figure(f.totals.heat_h.expected))
        .right("money", |f| format!("{:.0}", f.totals.money.expected))
        .right("money …", |f| format!("{:.0} … {:.0}", f.totals.money.low, f.totals.money.high))
        .put(out);
    out.line(
        "  out: of any limit, lengths and web too; need it: are straightened; not here: not in this shop",
    );
    if !marks {
        out.line("  --marks shows every mark; --csv and --json have them all");
    }
}

/// Pieces of a mark that are out of any limit, expected.
pub(super) fn pieces_out(mark: &MarkResult) -> f64 {
    f64::from(mark.quantity) * mark.out.map_or(0.0, |likely| likely.chance)
}

/// What to pull forward.
pub(crate) fn levelling(found: &OrderResult, out: &mut Report) {
    let Some(levelled) = &found.levelled else { return };
    out.heading("Levelling", "expected hours; work may be done earlier than wanted, never later");
    if levelled.pulls.is_empty() && levelled.short.is_empty() {
        return out.line("  every week has hours enough at press and torch");
    }
    for p in &levelled.pulls {
        let pieces = counted(p.pieces as usize, "piece");
        out.line(format!("  pull {pieces} of {} forward from week {} to week {}", p.mark, p.from, p.to));
    }
    for s in &levelled.short {
        let tool = |(name, h): (&str, f64)| (h > 0.01).then(|| format!("{} h at the {name}", figure(h)));
        let said: Vec<String> =
            [("press", s.press_h), ("torch", s.heat_h)].into_iter().filter_map(tool).collect();
        out.line(format!(
            "  week {} stays short of {}: a second shift, or prevention",
            s.week,
            said.join(" and ")
        ));
    }
}
