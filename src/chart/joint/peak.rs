//! The highest temperature of every point, and what was molten.

use super::bands::{Field, grown};
use super::drawn::Drawn;
use super::legend::legend;
use super::levels::{MOLTEN, SOFT_C, lines, temperature};
use super::view::View;
use super::worded::{degree_name, degrees, layer, place, plates};
use crate::canvas::{At, Heading, MARGIN, SIZE, draw};
use crate::number::number;
use crate::theme::{HEADING, LABEL, SMALL, VERMILION};
use crate::{Done, Picture};
use weldbow_engine::joint_solver::ElementKind;
use weldbow_engine::units::show;
use weldbow_engine::verification::SolvedPass;

/// The near view reaches this many flange thicknesses, or legs, from the web.
const REACH: f64 = 4.0;

pub(super) fn peak(drawn: &Drawn<'_>) -> Done<Picture> {
    let joint = &drawn.result.joint;
    let deepest = |of: fn(&SolvedPass) -> f64| {
        show::offset(drawn.result.passes.iter().map(of).fold(0.0, f64::max), drawn.system)
    };
    let (flange, web) = (deepest(|p| p.melted.flange_mm), deepest(|p| p.melted.web_mm));
    let melted = format!("Molten {flange} into the flange, {web} into the web");
    let heading = Heading {
        name: "peak",
        job: &drawn.job.title,
        what: &format!("highest temperatures of the {}", place(drawn)),
        subtitle: format!(
            "Heavy line: what melted; the fillet arrives molten. Thin line: what passed {}.",
            show::temperature(SOFT_C, drawn.system)
        ),
        description: format!("Shades of the highest temperature around the weld. {melted}."),
    };
    let bands = temperature(drawn.system);
    let mesh = &drawn.outcome.mesh;
    let shown = vec![true; mesh.elements.len()];
    let plates_only: Vec<bool> =
        mesh.elements.iter().map(|e| !matches!(e.part, ElementKind::Fillet(_))).collect();
    let field = Field { mesh, values: &drawn.outcome.peak_c, shown: &shown };
    let leg = joint.near_leg_mm.unwrap_or(0.0).max(joint.far_leg_mm.unwrap_or(0.0));
    let half = (joint.web_mm / 2.0 + REACH * leg.max(joint.flange_mm)).min(joint.flange_width_mm / 2.0);
    let up = (1.1 * half).min(joint.web_stub_mm);
    let window = [-half, -joint.flange_mm, half, up];
    draw(&heading, SIZE, |paper| {
        let view = View::fitted(window, (MARGIN, 80.0), (690.0, 430.0));
        bands.fill(paper, &view, field)?;
        for element in mesh.elements.iter().filter(|e| matches!(e.part, ElementKind::Fillet(_))) {
            let corners = [0, 1, 2, 3].map(|k| view.at(mesh.nodes_mm[element.nodes[k]]));
            paper.fill(&grown(&corners), MOLTEN, 1.0)?;
        }
        Field { shown: &plates_only, ..field }.lines(paper, &view, lines())?;
        view.outlines(paper, mesh, &shown)?;
        let name = format!("Highest, {}", degree_name(drawn.system));
        let left = 752.0;
        legend(paper, &bands, (left, 92.0, 470.0), &name, |c| degrees(c, drawn.system), "molten")?;
        view.sides(paper, 18.0)?;
        paper.text((MARGIN, 92.0), At::Left, &plates(drawn), LABEL)?;
        let depth = format!(
            "{melted}: it follows from the assumed width of the source, and is no measure of penetration."
        );
        paper.text_within((MARGIN, SIZE.1 - 14.0), SIZE.0 - 2.0 * MARGIN, &depth, SMALL)?;
        let mut y = 120.0;
        for (k, pass) in drawn.result.passes.iter().enumerate() {
            let melted = &pass.melted;
            let text = format!("Step {}: {}", pass.order, layer(drawn, k));
            paper.text((MARGIN, y), At::Left, &text, HEADING)?;
            let share = format!(
                "molten {} % of the flange, {} % of the web",
                number(100.0 * melted.flange_share, 0),
                number(100.0 * melted.web_share, 0)
            );
            paper.text((MARGIN, y + 16.0), At::Left, &share, LABEL)?;
            if melted.through {
                let letters = HEADING.in_ink(VERMILION);
                paper.text((MARGIN, y + 32.0), At::Left, "melts a plate through", letters)?;
            }
            y += 56.0;
        }
        Ok(())
    })
}
