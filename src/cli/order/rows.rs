//! One row a mark, for a spreadsheet.

use crate::input::text::cell;
use crate::order::{ExpectedRange, MarkResult, OrderResult};
use crate::tolerance::Likely;

/// Names of the columns; hours, pieces and mm.
const HEADS: &str = "mark,job,family,week,quantity,chance,chance_standard_error,chance_if_model_right,chance_low,\
    chance_high,chance_toe,chance_sweep,chance_camber,out,out_standard_error,out_toe,out_sweep,out_camber,\
    needing,needing_low,needing_high,measure_again,measure_again_out,no_method,still_out,push_places,heats,flange_runs,press_h,heat_h,measure_h,\
    hours,hours_low,hours_high,hours_may_be_wrong_share,best_measure,hours_saved,blocked_by";

/// The line of names, by which a file of ours is known.
pub(crate) fn header() -> Vec<u8> {
    format!("{HEADS}\n").into_bytes()
}

/// The file's text.
pub(super) fn csv(found: &OrderResult) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // writing to memory cannot fail
    let _ = writer.write_record(HEADS.split(','));
    for mark in &found.marks {
        let _ = writer.write_record(row(mark));
    }
    writer.into_inner().unwrap_or_default()
}

fn row(m: &MarkResult) -> Vec<String> {
    let t = &m.totals;
    let best = m.fixes.first().filter(|fix| fix.hours_saved.expected > 0.0);
    let measure = |fix: &crate::order::Fix| {
        serde_json::to_value(fix.measure).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    };
    let mut row = vec![
        cell(&m.mark).into_owned(),
        cell(&m.job).into_owned(),
        cell(&m.family).into_owned(),
        m.week.map(|w| w.to_string()).unwrap_or_default(),
        m.quantity.to_string(),
        number(m.likely.chance),
        number(m.likely.standard_error),
        m.likely.if_model_right.map(number).unwrap_or_default(),
        number(m.likely.range.0),
        number(m.likely.range.1),
    ];
    row.extend(m.parts.iter().map(|part| number(part.likely.chance)));
    let likely = |out: Option<Likely>, of: fn(Likely) -> f64| out.map(of).map(number).unwrap_or_default();
    row.extend([likely(m.out, |l| l.chance), likely(m.out, |l| l.standard_error)]);
    row.extend(m.parts.iter().map(|part| likely(part.out, |l| l.chance)));
    let ends = |s: &ExpectedRange| [number(s.expected), number(s.low), number(s.high)];
    row.extend(ends(&t.needing));
    let one = [&t.again, &t.again_out, &t.blocked, &t.still_out, &t.push_places, &t.heats, &t.runs];
    row.extend(one.into_iter().chain([&t.press_h, &t.heat_h, &t.measure_h]).map(|s| number(s.expected)));
    row.extend(ends(&t.hours));
    row.extend([
        number(m.may_be_wrong),
        best.map(measure).unwrap_or_default(),
        best.map(|fix| number(fix.hours_saved.expected)).unwrap_or_default(),
        m.blocks
            .first()
            .and_then(|b| b.methods.first())
            .map(|b| cell(&format!("{}: {}", b.method, b.found)).into_owned())
            .unwrap_or_default(),
    ]);
    row
}

/// Four significant decimals are more than is known.
fn number(value: f64) -> String {
    if value.is_finite() { format!("{}", (value * 1e4).round() / 1e4 + 0.0) } else { String::new() }
}
