//! What lies behind the numbers: passes, welds across, angles of the flanges, what holds the joint, other methods, the level of model.

use super::report::Report;
use super::span::{fine, unit, with_span};
use super::table::Columns;
use crate::angular::hold::{Hold, Tacks};
use crate::cli::lists::{counted, grouped};
use crate::member::Seam;
use crate::prediction::{CrossWeld, CrossWelds, Estimate, FlangeAngles, Job, PassResult, Prediction};
use crate::units::{System, show};
use crate::welding::{Side, Stitch};

/// Heat and force of each pass; camber and sweep after each order.
pub(super) fn passes(prediction: &Prediction, system: System, out: &mut Report) {
    let remark = "force: pull this pass adds; on bare plates: what it would add if it were the first";
    out.heading("Pass by pass", remark);
    let along = |from, to| format!("{} … {}", show::position(from, system), show::position(to, system));
    let any = |has: fn(&PassResult) -> bool| prediction.passes.iter().any(has);
    Columns::of(&prediction.passes)
        .left("step", |p| p.order.to_string())
        .left("seam", |p| p.seam.name())
        .left("side", |p| p.side.name())
        .left("from … to", |p| along(p.from_mm, p.to_mm))
        .right("leg", |p| show::plate(p.leg_mm, system))
        .right("net heat", |p| show::heat_input(p.heat_input_j_per_mm, system))
        .right("force", |p| show::force(p.force_n, system))
        .right("on bare plates", |p| show::force(p.lone_force_n, system))
        .left_if(any(|p| p.stitch.is_some()), Stitch::HEAD, |p| Stitch::said(p.stitch.as_ref(), system))
        .left_if(any(|p| p.wps.is_some()), "WPS", |p| p.wps.clone().unwrap_or_default())
        .put(out);
    if prediction.build_up.len() > 1 {
        steps(prediction, system, out);
    }
}

fn steps(prediction: &Prediction, system: System, out: &mut Report) {
    out.heading("How it builds up", "so far, with each pass");
    Columns::of(&prediction.build_up)
        .left("pass", |s| s.pass.to_string())
        .left("step", |s| s.order.to_string())
        .left("seam", |s| s.seam.map_or("across", Seam::name))
        .left("side", |s| s.side.map_or("", Side::name))
        .right("shortening", |s| show::offset(s.shortening_mm, system))
        .right("camber", |s| show::offset(s.camber_mm, system))
        .right("sweep", |s| show::offset(s.sweep_mm, system))
        .put(out);
    for share in &prediction.fit_up {
        out.line(format!(
            "  step {}: the flange joins clamped straight, {:.0} % of the earlier sweep stays",
            share.order,
            100.0 * share.sweep_kept
        ));
    }
}

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

/// One row a stretch of flange.
pub(super) fn flanges(job: &Job, prediction: &Prediction, system: System, out: &mut Report) {
    out.heading("Flanges", "heat: net, in the joint over the square of the flange's thickness");
    let plate = |f: &&FlangeAngles| {
        format!("{} × {}", show::plate(f.width_mm, system), show::plate(f.thickness_mm, system))
    };
    Columns::of(&prediction.flanges)
        .left("flange", |f| f.flange.name())
        .left("from", |f| show::position(f.from_mm, system))
        .left("to", |f| show::position(f.to_mm, system))
        .right("plate", plate)
        .right("heat", |f| show::heat_density(f.q_j_per_mm3, system))
        .put(out);
    let t = &prediction.twist;
    let angle = |rad| show::turn(rad, system);
    out.say(format!(
        "Twist against the start end: {} ± {} at {}, end to end {} ± {}; the outer flange sweeps {}, the inner {}, each from the line between its \
         ends.",
        angle(t.max_rad),
        angle(t.max_2s_rad),
        show::position(t.at_mm, system),
        angle(t.end_to_end_rad),
        angle(t.end_to_end_2s_rad),
        show::offset(t.flange_sweep_mm[0], system),
        show::offset(t.flange_sweep_mm[1], system)
    ));
    out.say(format!("Twist {}.", t.max_2s_of.sentence().in_units(system)));
    let gap = if job.fit_up_gap_mm > 0.0 && prediction.hold.gap_can_close() {
        format!(" The root gap of {} closes as they turn.", show::offset(job.fit_up_gap_mm, system))
    } else {
        String::new()
    };
    out.say(format!(
        "Joint taken as {}: tilts are {:.0} % of what a free joint has by calculation, a judgement.{gap}",
        prediction.hold.words(),
        100.0 * prediction.hold.tilt_part()
    ))
}

/// Nothing at the formula level.
pub(super) fn level(prediction: &Prediction, system: System, out: &mut Report) {
    let Some(notes) = &prediction.strip else { return };
    let remark = format!(
        "{} solved, at most {:.1} % lost between stations, heat balanced to {:.0e}",
        if notes.stations == 1 { "1 section".to_owned() } else { format!("{} sections", notes.stations) },
        100.0 * notes.station_gap,
        notes.energy_balance
    );
    out.heading("Level of model: strip", &remark);
    let strip = [prediction.shortening_mm, prediction.camber.max_mm, prediction.sweep.max_mm];
    let formula = [notes.formula_shortening_mm, notes.formula_camber_mm, notes.formula_sweep_mm];
    Columns::of([("strip", strip), ("formula", formula)])
        .left("level", |(name, _)| *name)
        .right("shortening", |(_, mm)| show::offset(mm[0], system))
        .right("camber", |(_, mm)| show::offset(mm[1], system))
        .right("sweep", |(_, mm)| show::offset(mm[2], system))
        .put(out)
}

/// "3 stiffener pairs, 1 web splice": kinds in the order in which they come along the member.
fn kinds(welds: &[CrossWeld]) -> String {
    let kinds = grouped(welds.iter().map(|weld| (weld.what, weld)));
    kinds.iter().map(|(what, all)| counted(all.len(), what)).collect::<Vec<_>>().join(", ")
}

/// What of the bows is theirs.
pub(crate) fn cross_part(cross: &CrossWelds, system: System) -> String {
    format!(
        "Of it attachments ({}): length \u{2212}{}, camber {}, sweep {}.",
        kinds(&cross.welds),
        with_span(cross.shortening_mm, cross.shortening_2s_mm, system),
        show::offset(cross.amid_mm(0), system),
        show::offset(cross.amid_mm(1), system)
    )
}

/// One row each.
pub(crate) fn cross_welds(cross: &CrossWelds, system: System, out: &mut Report) {
    let remark = "made when its seams are cold; ± 90 %, most of it shared by all";
    out.heading("Welds across the member", remark);
    let mm = |name: &str| format!("{name}, {}", unit(system));
    let fine = |mm: f64| fine(mm, system).replace('-', "\u{2212}");
    Columns::of(&cross.welds)
        .left("what", |w| w.what)
        .right("from the start", |w| show::position(w.at_mm, system))
        .right(mm("plate shrinks"), |w| fine(w.shrinkage_mm))
        .right(mm("shortening"), |w| fine(w.shortening_mm))
        .right(mm("camber there"), |w| fine(w.camber_mm))
        .right(mm("sweep there"), |w| fine(w.sweep_mm))
        .right("angle if free", |w| show::angle(w.fold_rad, system))
        .put(out)
}

/// What a job says of its attachments, worked out as far as heat.
pub(crate) fn attachments(job: &Job, system: System, out: &mut Report) {
    if job.attachments.is_empty() {
        return;
    }
    out.heading("Attachments", "welded across when the seams are cold");
    Columns::of(&job.attachments)
        .left("what", |a| a.kind.name())
        .right("from the start", |a| show::position(a.at_mm, system))
        .left("welded to", |a| a.to.names().map(|name| name.replace('_', " ")).collect::<Vec<_>>().join(", "))
        .right("leg", |a| show::plate(a.leg_mm, system))
        .right("net heat, each fillet", |a| show::heat_input(a.heat_j_per_mm, system))
        .left("heat from", |a| a.heat_source.words())
        .put(out)
}

/// What may be done about the tilt: "tacks along the seam (tilt × 0.90) or holding the flange square until cold (tilt × 0.58)".
pub(crate) fn remedies(hold: &Hold) -> Option<String> {
    let one = |firmer: &Hold| {
        let what = if firmer.square_until_cold {
            "flange held square until cold"
        } else if firmer.tacks == Tacks::Along && hold.tacks != Tacks::Along {
            "tacks along the seam"
        } else {
            "rolls that press flange and web together"
        };
        format!("{what} × {:.2}", firmer.tilt_part() / hold.tilt_part())
    };
    let all: Vec<String> = hold.firmer().iter().map(one).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_told_of_tacks_and_of_holding_square() {
        assert_eq!(
            Hold::LINE.words(),
            "tacked at the leading end, pressed to the web by the rolls around the arc, free behind it"
        );
        let said = remedies(&Hold::LINE).unwrap();
        assert_eq!(said, "tacks along the seam × 0.90, flange held square until cold × 0.58");
        assert_eq!(remedies(&Hold::HELD_SQUARE), None);
        assert!(
            remedies(&Hold::NOTHING).unwrap().starts_with("rolls that press flange and web together × 0.60")
        );
    }
}
