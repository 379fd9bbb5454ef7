//! How far published methods differ on this member.

use super::table::{heading, plain_text, row_table};
use crate::prediction::{Estimate, Prediction};
use crate::units::{System, show};
use std::io::{Result, Write};

/// The three bows side by side, then the cups.
pub(super) fn estimates(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "no method, ours included, was checked on a real member; the spread is not an error band";
    heading("What other methods say", remark, out)?;
    let mut table = row_table(&["method", "shortening", "camber", "sweep", "source"], 1..4);
    table.add_row([
        "this prediction".to_owned(),
        show::offset(prediction.shortening_mm, system),
        show::offset(prediction.camber.max_mm, system),
        show::offset(prediction.sweep.max_mm, system),
        String::new(),
    ]);
    let of = |quantity: &'static str| prediction.estimates.iter().filter(move |e| e.quantity == quantity);
    let same = |quantity: &'static str, method: &str| {
        of(quantity).find(|e| e.method == method).map_or_else(String::new, |e| show::offset(e.value, system))
    };
    for e in of("shortening_mm") {
        table.add_row([
            name(e),
            show::offset(e.value, system),
            same("camber.max_mm", e.method),
            same("sweep.max_mm", e.method),
            e.source.to_owned(),
        ]);
    }
    table.put(out)?;
    let arms = "Sweep of the other methods: with their force at the centroid of the fillet, as they have it; ours pulls nearer to the \
                web. Camber and shortening: through the same beam.";
    writeln!(out, "{}", plain_text(arms, 1))?;
    cups(prediction, system, out)
}

fn cups(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let of = |quantity: &'static str| prediction.estimates.iter().filter(move |e| e.quantity == quantity);
    let (outer, inner) = ("flanges.outer.cup_rad", "flanges.inner.cup_rad");
    let ours = |flange: &str| {
        let cups = prediction.flanges.iter().filter(|f| f.flange.name() == flange).map(|f| f.cup_rad);
        show::angle(cups.fold(0.0, f64::max), system)
    };
    let mut table = row_table(&["method", "cup, outer", "cup, inner", "source"], 1..3);
    table.add_row(["this prediction".to_owned(), ours("outer"), ours("inner"), String::new()]);
    let angle = |e: &Estimate| show::angle(e.value, system);
    let listed = if of(outer).next().is_some() { outer } else { inner };
    for e in of(listed) {
        let same = |quantity: &'static str| {
            of(quantity).find(|o| o.method == e.method).map_or_else(String::new, angle)
        };
        table.add_row([name(e), same(outer), same(inner), e.source.to_owned()]);
    }
    writeln!(out)?;
    table.put(out)
}

fn name(e: &Estimate) -> String {
    if e.bound { format!("{} (bound)", e.method) } else { e.method.to_string() }
}
