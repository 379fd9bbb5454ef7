//! Pass by pass, and the shape after each order.

use super::report::Report;
use super::table::Columns;
use crate::member::Seam;
use crate::prediction::{PassResult, Prediction};
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
