//! Pass by pass, and the shape after each order.

use super::table::{Columns, heading};
use crate::member::Seam;
use crate::prediction::{PassResult, Prediction};
use crate::units::{System, show};
use crate::welding::{Side, Stitch};
use std::io::{Result, Write};

/// Heat and force of each pass; camber and sweep after each order.
pub(super) fn passes(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "force: pull this pass adds; on bare plates: what it would add if it were the first";
    heading("Pass by pass", remark, out)?;
    let along = |from, to| format!("{} … {}", show::position(from, system), show::position(to, system));
    let table = Columns::of(&prediction.passes)
        .left("step", |p| p.order.to_string())
        .left("seam", |p| p.seam.name())
        .left("side", |p| p.side.name())
        .left("from … to", |p| along(p.from_mm, p.to_mm))
        .right("leg", |p| show::plate(p.leg_mm, system))
        .right("net heat", |p| show::heat_input(p.heat_input_j_per_mm, system))
        .right("force", |p| show::force(p.force_n, system))
        .right("on bare plates", |p| show::force(p.lone_force_n, system));
    let any = |has: fn(&PassResult) -> bool| prediction.passes.iter().any(has);
    let stitched = any(|p| p.stitch.is_some());
    let table =
        if stitched { table.left(Stitch::HEAD, |p| Stitch::said(p.stitch.as_ref(), system)) } else { table };
    let named = any(|p| p.wps.is_some());
    let table = if named { table.left("WPS", |p| p.wps.clone().unwrap_or_default()) } else { table };
    table.put(out)?;
    if prediction.build_up.len() > 1 {
        steps(prediction, system, out)?;
    }
    Ok(())
}

fn steps(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    heading("How it builds up", "so far, with each pass", out)?;
    Columns::of(&prediction.build_up)
        .left("pass", |s| s.pass.to_string())
        .left("step", |s| s.order.to_string())
        .left("seam", |s| s.seam.map_or("across", Seam::name))
        .left("side", |s| s.side.map_or("", Side::name))
        .right("shortening", |s| show::offset(s.shortening_mm, system))
        .right("camber", |s| show::offset(s.camber_mm, system))
        .right("sweep", |s| show::offset(s.sweep_mm, system))
        .put(out)?;
    for share in &prediction.fit_up {
        writeln!(
            out,
            "  step {}: the flange joins clamped straight, {:.0} % of the earlier sweep stays",
            share.order,
            100.0 * share.sweep_kept
        )?;
    }
    Ok(())
}
