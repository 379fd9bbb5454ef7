//! The residual stress along the member, with its course across the flange and up the web.

use super::bands::Field;
use super::drawn::Drawn;
use super::legend::legend;
use super::levels::stress as levels;
use super::mesh::near_window;
use super::view::View;
use super::worded::{held, place, stress_unit};
use crate::axes::{Panel, Range};
use crate::canvas::{At, Canvas, Heading, Point, corners, draw};
use crate::measure::Unit;
use crate::number::signed;
use crate::theme::{BLACK, LABEL, LIMIT, PREDICTED, SHORT, SMALL, Stroke, THIN, VERMILION, WHITE};
use crate::{Done, Picture};
use weldbow_engine::joint_solver::at_nodes;

const SIZE: (f64, f64) = (900.0, 700.0);
/// The joint lies in this box, px.
const LEFT: f64 = 96.0;
const TOP: f64 = 92.0;
const WIDE: f64 = 400.0;
const TALL: f64 = 360.0;
/// The weld from near: its corner and its size, px.
const NEAR: (Point, (f64, f64)) = ((590.0, 508.0), (270.0, 170.0));
/// Height of the plot under it, width of the plot beside it, px.
const BELOW: f64 = 150.0;
const BESIDE: f64 = 190.0;
/// Where there is no stress along the member: without it compression and tension are one in a grey print.
const NOTHING: Stroke = Stroke::new(BLACK, 1.4, SHORT);

pub(super) fn stress(drawn: &Drawn<'_>) -> Done<Picture> {
    let residual = &drawn.result.residual;
    let (unit, mpa) = stress_unit(drawn.system);
    let value = |stress: f64| format!("{} {unit}", signed(stress / mpa, if mpa > 1.0 { 1 } else { 0 }));
    let finding = format!(
        "Largest {}, flange edges {} near and {} far",
        value(residual.peak_mpa),
        value(residual.near_edge_mpa),
        value(residual.far_edge_mpa)
    );
    let heading = Heading {
        name: "stress",
        job: &drawn.job.title,
        what: &format!("residual stress in the {}", place(drawn)),
        subtitle:
            "+ tension inside the dashed line, compression outside. Above yield: pulled three ways at once."
                .to_owned(),
        description: format!("Shades of the stress along the member, + tension. {finding}."),
    };
    let joint = &drawn.result.joint;
    let half = joint.flange_width_mm / 2.0;
    let mesh = &drawn.outcome.mesh;
    let nodes = at_nodes(mesh, &drawn.outcome.along_mpa, &drawn.outcome.solid);
    let field = Field { mesh, values: &nodes, shown: &drawn.outcome.solid };
    let bands = levels(drawn.result.yield_mpa, mpa);
    let shaded = |paper: &Canvas<'_>, view: &View| {
        bands.fill(paper, view, field)?;
        field.lines(paper, view, [(0.0, NOTHING)])?;
        view.outlines(paper, mesh, &drawn.outcome.solid)
    };
    draw(&heading, SIZE, |paper| {
        let window = [-half, -joint.flange_mm, half, joint.web_stub_mm];
        let view = View::fitted(window, (LEFT, TOP), (WIDE, TALL));
        shaded(paper, &view)?;
        across(paper, &view, drawn)?;
        up(paper, &view, drawn)?;
        let near = View::fitted(near_window(drawn), NEAR.0, NEAR.1);
        shaded(paper, &near)?;
        paper.outline(&corners(near.corner, near.end()), THIN)?;
        paper.text((near.corner.0, near.corner.1 - 10.0), At::Left, "At the weld", SMALL)?;
        let foot = format!("{finding}. {}.", held(drawn));
        paper.text((LEFT, SIZE.1 - 12.0), At::Left, &foot, SMALL)?;
        let name = format!("Stress, {unit}");
        legend(paper, &bands, (806.0, TOP, 470.0), &name, |s| s / mpa, "over")
    })
}

fn span(values: &[[f64; 2]], yield_mpa: f64) -> Range {
    Range::around(values.iter().map(|p| p[1]).chain([yield_mpa]), 10.0)
}

/// Along the middle of the flange, under the joint and to its scale.
fn across(paper: &Canvas<'_>, view: &View, drawn: &Drawn<'_>) -> Done {
    let profile = &drawn.result.residual.flange_profile;
    let end = view.end();
    let x = Range { low: view.window[0], high: view.window[2] };
    let y = span(profile, drawn.result.yield_mpa);
    let panel = Panel::new((view.corner.0, end.0), (end.1 + 34.0, end.1 + 34.0 + BELOW), x, y);
    let (name, mpa) = stress_unit(drawn.system);
    paper.text((panel.left, panel.top - 12.0), At::Left, "Along the middle of the flange", SMALL)?;
    panel.y_axis(paper, Unit { name, mm: mpa, decimals: 0 }, "stress")?;
    panel.x_axis(paper, Unit::offset(drawn.system), "from the web plane, + near side")?;
    let fy = panel.py(drawn.result.yield_mpa);
    paper.line(&[(panel.left, fy), (panel.right, fy)], LIMIT)?;
    paper.text((panel.right + 6.0, fy), At::Left, "yield", LABEL.in_ink(VERMILION))?;
    paper.line(&panel.path(profile.iter().map(|p| (p[0], p[1]))), PREDICTED)
}

/// Along the middle of the web, beside the joint and to its scale.
fn up(paper: &Canvas<'_>, view: &View, drawn: &Drawn<'_>) -> Done {
    let profile = &drawn.result.residual.web_profile;
    let left = view.end().0 + 46.0;
    let range = span(profile, drawn.result.yield_mpa);
    let (foot, head) = (view.at([0.0, 0.0]).1, view.at([0.0, view.window[3]]).1);
    let panel = Panel::new((left, left + BESIDE), (head, foot), range, Range::to(1.0));
    let (name, mpa) = stress_unit(drawn.system);
    panel.x_grid(paper, mpa, 3.0, 14.0)?;
    let fy = panel.px(drawn.result.yield_mpa);
    paper.line(&[(fy, head), (fy, foot)], LIMIT)?;
    paper.plated((fy, head - 8.0), At::Middle, "yield", LABEL.in_ink(VERMILION), WHITE)?;
    paper.text((left, head - 8.0), At::Left, "Up the web", SMALL)?;
    paper.text((left + 0.5 * BESIDE, foot + 31.0), At::Middle, &format!("stress, {name}"), SMALL)?;
    let line: Vec<_> = profile.iter().map(|p| (panel.px(p[1]), view.at([0.0, p[0]]).1)).collect();
    paper.line(&line, PREDICTED)
}
