//! Pass by pass, and the shape after each order.

use super::table::{heading, row_table};
use crate::member::Seam;
use crate::prediction::Prediction;
use crate::units::{System, show};
use crate::welding::Side;
use std::io::{Result, Write};

/// Heat and force of each pass; camber and sweep after each order.
pub(super) fn passes(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let remark = "force: pull this pass adds; on bare plates: what it would add if it were the first";
    heading("Pass by pass", remark, out)?;
    let named = prediction.passes.iter().any(|p| p.wps.is_some());
    let mut names = vec!["step", "seam", "side", "from … to", "leg", "net heat", "force", "on bare plates"];
    names.extend(named.then_some("WPS"));
    let mut table = row_table(&names, 4..8);
    for p in &prediction.passes {
        let mut row = vec![
            format!("{}", p.order),
            p.seam.name().to_owned(),
            p.side.name().to_owned(),
            format!("{} … {}", show::position(p.from_mm, system), show::position(p.to_mm, system)),
            show::plate(p.leg_mm, system),
            show::heat_input(p.heat_input_j_per_mm, system),
            show::force(p.force_n, system),
            show::force(p.lone_force_n, system),
        ];
        row.extend(named.then(|| p.wps.clone().unwrap_or_default()));
        table.add_row(row);
    }
    table.put(out)?;
    if prediction.build_up.len() > 1 {
        steps(prediction, system, out)?;
    }
    Ok(())
}

fn steps(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    heading("How it builds up", "so far, with each pass", out)?;
    let mut table = row_table(&["pass", "step", "seam", "side", "shortening", "camber", "sweep"], 4..7);
    for s in &prediction.build_up {
        table.add_row([
            s.pass.to_string(),
            s.order.to_string(),
            s.seam.map_or("across", Seam::name).to_owned(),
            s.side.map_or("", Side::name).to_owned(),
            show::offset(s.shortening_mm, system),
            show::offset(s.camber_mm, system),
            show::offset(s.sweep_mm, system),
        ]);
    }
    table.put(out)?;
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
