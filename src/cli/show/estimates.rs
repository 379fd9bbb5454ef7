//! How far published methods differ on this member.

use super::report::Report;
use super::table::Columns;
use crate::prediction::{Estimate, Prediction};
use crate::units::{System, show};

/// The three bows side by side, then the cups.
pub(super) fn estimates(prediction: &Prediction, system: System, out: &mut Report) {
    let remark = "no method, ours included, was checked on a real member; the spread is not an error band";
    out.heading("What other methods say", remark);
    let of = |quantity: &'static str| prediction.estimates.iter().filter(move |e| e.quantity == quantity);
    let mm = |mm: f64| show::offset(mm, system);
    let same = |method: Method<'_>, quantity: &'static str, ours: f64| match method {
        None => mm(ours),
        Some(e) => of(quantity).find(|o| o.method == e.method).map_or_else(String::new, |o| mm(o.value)),
    };
    Columns::of(with_ours(of("shortening_mm")))
        .left("method", |e| name(*e))
        .right("shortening", |e| mm(e.map_or(prediction.shortening_mm, |e| e.value)))
        .right("camber", |e| same(*e, "camber.max_mm", prediction.camber.max_mm))
        .right("sweep", |e| same(*e, "sweep.max_mm", prediction.sweep.max_mm))
        .left("source", |e| e.map_or("", |e| e.source))
        .put(out);
    out.plain("Sweep of the other methods: with their force at the centroid of the fillet, as they have it; ours pulls nearer to the \
                web. Camber and shortening: through the same beam.");
    cups(prediction, system, out)
}

fn cups(prediction: &Prediction, system: System, out: &mut Report) {
    let of = |quantity: &'static str| prediction.estimates.iter().filter(move |e| e.quantity == quantity);
    let (outer, inner) = ("flanges.outer.cup_rad", "flanges.inner.cup_rad");
    let ours = |flange: &str| {
        let cups = prediction.flanges.iter().filter(|f| f.flange.name() == flange).map(|f| f.cup_rad);
        show::angle(cups.fold(0.0, f64::max), system)
    };
    let same = |method: Method<'_>, flange: &str, quantity: &'static str| match method {
        None => ours(flange),
        Some(e) => of(quantity)
            .find(|o| o.method == e.method)
            .map_or_else(String::new, |o| show::angle(o.value, system)),
    };
    out.line("");
    Columns::of(with_ours(of(if of(outer).next().is_some() { outer } else { inner })))
        .left("method", |e| name(*e))
        .right("cup, outer", |e| same(*e, "outer", outer))
        .right("cup, inner", |e| same(*e, "inner", inner))
        .left("source", |e| e.map_or("", |e| e.source))
        .put(out)
}

/// A published method; none: this prediction.
type Method<'e> = Option<&'e Estimate>;

/// This prediction first, then the others.
fn with_ours<'e>(others: impl Iterator<Item = &'e Estimate>) -> impl Iterator<Item = Method<'e>> {
    std::iter::once(None).chain(others.map(Some))
}

fn name(method: Method<'_>) -> String {
    let Some(e) = method else { return "this prediction".to_owned() };
    if e.bound { format!("{} (bound)", e.method) } else { e.method.to_string() }
}
