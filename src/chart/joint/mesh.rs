//! The elements: all of the joint, and the weld from near.

use super::bands::grown;
use super::clip::Vertex;
use super::drawn::Drawn;
use super::view::{View, all_edges};
use super::worded::{place, plates};
use crate::canvas::{At, Canvas, Heading, MARGIN, SIZE, corners, draw};
use crate::theme::{BLACK, BLUE, FULL, HEADING, Ink, SKY_PALE, STEEL, Stroke, THIN, VERMILION, WEB};
use crate::{Done, Picture};
use weldbow_engine::joint_solver::ElementKind;
use weldbow_engine::welding::Side;

const LINE: Stroke = Stroke::new(BLACK, 0.5, FULL);
/// The near view shows this many legs around the weld.
const LEGS: f64 = 2.2;

pub(super) fn mesh(drawn: &Drawn<'_>) -> Done<Picture> {
    let size = &drawn.result.size;
    let heading = Heading {
        name: "mesh",
        job: &drawn.job.title,
        what: &format!("mesh of the {}", place(drawn)),
        subtitle: format!(
            "{}: {} elements of eight nodes, {} unknowns of displacement, {} of heat.",
            plates(drawn),
            size.elements,
            size.unknowns,
            size.heat_unknowns
        ),
        description: "The elements of the joint, all of it on the left and the weld from near on the right."
            .to_owned(),
    };
    let joint = &drawn.result.joint;
    let half = joint.flange_width_mm / 2.0;
    let all = [-half, -joint.flange_mm, half, joint.web_stub_mm];
    draw(&heading, SIZE, |paper| {
        let whole = View::fitted(all, (MARGIN, 100.0), (430.0, 410.0));
        paper.text((MARGIN, 84.0), At::Left, "All of it", HEADING)?;
        elements(paper, &whole, drawn)?;
        let near = near_window(drawn);
        let close = View::fitted(near, (486.0, 100.0), (390.0, 410.0));
        paper.text((close.corner.0, 84.0), At::Left, "At the weld", HEADING)?;
        elements(paper, &close, drawn)?;
        let (a, b) = (whole.at([near[0], near[3]]), whole.at([near[2], near[1]]));
        paper.outline(&corners(a, b), Stroke { ink: VERMILION, width: 1.4, dash: FULL })?;
        paper.outline(&corners(close.corner, close.end()), THIN)?;
        whole.sides(paper, 18.0)
    })
}

/// The surroundings of the web foot.
pub(super) fn near_window(drawn: &Drawn<'_>) -> [f64; 4] {
    let joint = &drawn.result.joint;
    let leg = joint.near_leg_mm.unwrap_or(0.0).max(joint.far_leg_mm.unwrap_or(0.0)).max(2.0);
    let half = (joint.web_mm / 2.0 + LEGS * leg).min(joint.flange_width_mm / 2.0);
    let up = (2.0 * half - joint.flange_mm)
        .clamp(LEGS * leg, (2.0 * LEGS * leg).min(joint.web_stub_mm).max(LEGS * leg));
    [-half, -joint.flange_mm, half, up]
}

/// Colour of a part.
pub(super) const fn part_ink(part: ElementKind) -> Ink {
    match part {
        ElementKind::Flange => STEEL,
        ElementKind::Web => WEB,
        ElementKind::Fillet(Side::Near) => BLUE,
        ElementKind::Fillet(Side::Far) => VERMILION,
    }
}

fn elements(paper: &Canvas<'_>, view: &View, drawn: &Drawn<'_>) -> Done {
    let mesh = &drawn.outcome.mesh;
    for element in &mesh.elements {
        let vertex = |k: usize| Vertex { at: mesh.nodes_mm[element.nodes[k]], value: 0.0 };
        let shape = view.inside(&[0, 1, 2, 3].map(vertex));
        if !shape.is_empty() {
            let points: Vec<_> = shape.iter().map(|v| view.at(v.at)).collect();
            let ink = if element.part == ElementKind::Flange { SKY_PALE } else { part_ink(element.part) };
            let alpha = if matches!(element.part, ElementKind::Fillet(_)) { 0.45 } else { 1.0 };
            paper.fill(&if alpha < 1.0 { points } else { grown(&points) }, ink, alpha)?;
        }
    }
    for line in all_edges(mesh) {
        let points: Vec<[f64; 2]> = line.into_iter().map(|n| mesh.nodes_mm[n]).collect();
        view.path(paper, &points, LINE)?;
    }
    view.outlines(paper, mesh, &vec![true; mesh.elements.len()])
}
