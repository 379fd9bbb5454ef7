//! The member small under a chart: plates, splices and welds, so that the reader sees what is spoken of.

use crate::Done;
use crate::canvas::{At, Canvas, MARGIN, RIGHT_END};
use crate::side::{SideView, Weights};
use crate::theme::SMALL;
use weldbow_engine::member::Member;
use weldbow_engine::prediction::Job;
use weldbow_engine::units::show;

/// Height it takes, px.
pub(super) const STRIP: f64 = 128.0;
/// The deepest web, px.
const DEEPEST: f64 = 70.0;
const FLANGE: f64 = 4.0;
const LEFT: f64 = 92.0;
const WEIGHTS: Weights = Weights {
    web_alpha: 1.0,
    web_splice: 0.7,
    flange_splice: (FLANGE + 4.0, 1.6),
    weld: 1.6,
    inset: [2.5, 5.5],
};

/// Where it begins and ends, px.
pub(super) fn ends(job: &Job) -> (f64, f64) {
    let member = &job.member;
    let wide = member.length_mm * scale(member);
    let left = 0.5 * (LEFT + RIGHT_END - wide);
    (left, left + wide)
}

/// px per mm.
fn scale(member: &Member) -> f64 {
    ((RIGHT_END - LEFT) / member.length_mm).min(DEEPEST / member.depth.deepest_mm())
}

/// Draws it between `top` and `top` + [`STRIP`].
pub(super) fn strip(paper: &Canvas<'_>, job: &Job, top: f64) -> Done {
    let member = &job.member;
    let scale = scale(member);
    let (left, _) = ends(job);
    let base = top + 40.0 + member.depth.deepest_mm() * scale;
    let stations = member.depth.points().iter().map(|p| p.0).collect();
    let view = SideView { member, scale, left, base, bow: Vec::new(), times: 1.0, stations };
    let text = format!(
        "The member, {} long, near side in front: welds on the near side full, on the far side dashed",
        show::position(member.length_mm, job.units)
    );
    paper.text((MARGIN, top + 18.0), At::Left, &text, SMALL)?;
    view.plates(paper, &WEIGHTS, |_| FLANGE)?;
    view.welds(paper, job, &WEIGHTS)?;
    paper.text((left - 8.0, base), At::Right, "start", SMALL)
}
