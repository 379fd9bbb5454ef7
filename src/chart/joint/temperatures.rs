//! Temperatures at chosen times after the start of each pass: one row a pass, one column a time.

use super::bands::Field;
use super::drawn::Drawn;
use super::legend::legend;
use super::levels::{SOFT_C, lines, temperature};
use super::view::View;
use super::worded::{degree_name, degrees, layer, place, plates};
use crate::canvas::{At, Heading, MARGIN, WIDTH, draw};
use crate::number::number;
use crate::theme::{HEADING, LABEL, SMALL};
use crate::{Done, Picture};
use weldbow_engine::joint_solver::Snapshot;
use weldbow_engine::units::show;

/// Right of the rows for the legend, px.
const BAR: f64 = 128.0;
/// Between columns, px.
const APART: f64 = 14.0;
/// Over each row for its name and times, px.
const NAMES: f64 = 44.0;
/// Tallest picture of one time, px.
const TALLEST: f64 = 290.0;
/// Half the width shown, mm, at most: all that gets warm soon; and in legs: what gets hot.
const HALF_MM: f64 = 70.0;
const HALF_LEGS: f64 = 5.0;

/// Nothing if no time was kept.
pub(super) fn temperatures(drawn: &Drawn<'_>) -> Done<Option<Picture>> {
    let snapshots = &drawn.outcome.snapshots;
    let columns = (0..drawn.result.passes.len())
        .map(|k| snapshots.iter().filter(|s| s.pass == k + 1).count())
        .max()
        .unwrap_or(0);
    if columns == 0 {
        return Ok(None);
    }
    let joint = &drawn.result.joint;
    let leg = joint.near_leg_mm.unwrap_or(0.0).max(joint.far_leg_mm.unwrap_or(0.0));
    let half = HALF_MM.min(joint.flange_width_mm / 2.0).min(0.5 * joint.web_mm + HALF_LEGS * leg);
    let wide = (WIDTH - 2.0 * MARGIN - BAR - APART * columns as f64) / columns as f64;
    let rows = drawn.result.passes.len() as f64;
    // One row is as tall as the legend, several keep their shape.
    let tallest = if rows > 1.5 { wide } else { TALLEST };
    let up =
        (2.0 * half * tallest / wide - joint.flange_mm).clamp(0.2 * half, joint.web_stub_mm.max(0.2 * half));
    let window = [-half, -joint.flange_mm, half, up];
    let tall = (wide * (up + joint.flange_mm) / (2.0 * half)).min(TALLEST);
    let height = (76.0 + rows * (NAMES + tall + 14.0) + 20.0).max(400.0);
    let heading = Heading {
        name: "temperatures",
        job: &drawn.job.title,
        what: &format!("temperatures of the {}", place(drawn)),
        subtitle: format!(
            "{}. Heavy line: molten; thin line: {}. Time after the arc, and the hottest point.",
            plates(drawn),
            show::temperature(SOFT_C, drawn.system)
        ),
        description:
            "Shades of temperature around the weld, one row for each pass and one column for each time."
                .to_owned(),
    };
    let bands = temperature(drawn.system);
    let picture = draw(&heading, (WIDTH, height), |paper| {
        let mut top = 84.0;
        for k in 0..drawn.result.passes.len() {
            let name = format!("Step {}: {}", drawn.result.passes[k].order, layer(drawn, k));
            paper.text((MARGIN, top), At::Left, &name, HEADING)?;
            let mut left = MARGIN;
            for snapshot in snapshots.iter().filter(|s| s.pass == k + 1) {
                let view = View::fitted(window, (left, top + NAMES - 12.0), (wide, tall));
                let shown = there(drawn, k);
                let field = Field { mesh: &drawn.outcome.mesh, values: &snapshot.t_c, shown: &shown };
                bands.fill(paper, &view, field)?;
                field.lines(paper, &view, lines())?;
                view.outlines(paper, &drawn.outcome.mesh, &shown)?;
                let at = (view.corner.0, view.corner.1 + 12.0);
                paper.text(at, At::Left, &time(snapshot), LABEL)?;
                let hottest = snapshot.t_c.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                paper.text(
                    (at.0, at.1 + 16.0),
                    At::Left,
                    &show::temperature(hottest, drawn.system),
                    SMALL,
                )?;
                left += wide + APART;
            }
            top += NAMES + tall + 14.0;
        }
        let place = (WIDTH - MARGIN - BAR + 40.0, 84.0, height - 24.0);
        let name = degree_name(drawn.system);
        legend(paper, &bands, place, name, |c| degrees(c, drawn.system), "molten")
    })?;
    Ok(Some(picture))
}

fn time(snapshot: &Snapshot) -> String {
    let decimals = usize::from(snapshot.time_s < 10.0 && snapshot.time_s.fract() > 1e-9);
    format!("{} s", number(snapshot.time_s, decimals))
}

/// Elements that are there while a layer is laid: fillets of later layers are not.
pub(super) fn there(drawn: &Drawn<'_>, layer: usize) -> Vec<bool> {
    use weldbow_engine::joint_solver::ElementKind;
    let laid = |part: ElementKind| match part {
        ElementKind::Fillet(side) => drawn
            .result
            .passes
            .iter()
            .take(layer + 1)
            .any(|laid| laid.beads.iter().any(|bead| bead.side == side)),
        ElementKind::Flange | ElementKind::Web => true,
    };
    drawn.outcome.mesh.elements.iter().map(|e| laid(e.part)).collect()
}
