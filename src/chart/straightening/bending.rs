//! Moment against curvature of the section that yields first, with the working point of a push.

use super::super::axes::{Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Heading, draw};
use super::super::measure::Unit;
use super::super::theme::{BLUE, GHOST, LABEL, PREDICTED, SMALL, VALUE, WHITE};
use super::super::{ChartError, Done, Picture};
use weldbow_engine::numerics::between;
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::plan::Push;
use weldbow_engine::straighten::press::{PressSpan, moment_curvature};

const SIZE: (f64, f64) = (640.0, 430.0);
/// Curvature shown beyond the working point.
const BEYOND: f64 = 1.4;
const LEAST_MU: f64 = 3.0;
const PURE: Unit = Unit { name: "over that at first yield", mm: 1.0, decimals: 1 };

/// The picture.
pub(super) fn bending(job: &Job, push: &Push) -> Done<Picture> {
    let nominal = &push.bent.nominal;
    let mu = nominal.mu;
    let span =
        PressSpan::new(&job.member, push.layout, None).map_err(|e| ChartError::Drawing(e.to_string()))?;
    let to = (BEYOND * mu).max(LEAST_MU);
    let curve = moment_curvature(&span, to);
    let limit = span.weakest().map_or(1.0, |s| s.plastic_n_mm / s.first_yield_n_mm);
    let finding = format!(
        "Push {} on the {}: {mu:.1} times the curvature at first yield, strain {:.2} %",
        push.number,
        push.layout.from.place(),
        100.0 * nominal.strain
    );
    let heading = Heading {
        name: "straighten-bending",
        job: &job.title,
        what: "moment and curvature",
        description: format!(
            "Moment over that at first yield against curvature over that at first yield. {finding}."
        ),
        subtitle: finding,
    };
    draw(&heading, SIZE, |paper| {
        let top = limit * 1.08;
        let panel = Panel::new((92.0, 560.0), (BELOW_TITLE + 14.0, 372.0), Range::to(to), Range::to(top));
        panel.y_axis(paper, PURE, "moment")?;
        panel.x_axis(paper, PURE, "curvature of the section that yields first")?;
        paper.line(&panel.path([(0.0, limit), (to, limit)]), GHOST)?;
        paper.line(&panel.path(curve.iter().copied()), PREDICTED)?;
        let places: Vec<f64> = curve.iter().map(|p| p.0).collect();
        let y = between(&places, |i| curve[i].1, mu);
        // letting off goes back along the elastic line
        paper.line(&panel.path([(mu, y), (mu - y, 0.0)]), GHOST)?;
        let (px, py) = panel.at(mu, y);
        paper.line(&[(px, py), (px, panel.bottom)], GHOST)?;
        paper.dot((px, py), 4.5, BLUE)?;
        paper.plated((px + 8.0, py + 20.0), At::Left, "working point", VALUE.in_ink(BLUE), WHITE)?;
        let (hx, hy) = panel.at(to, limit);
        paper.text((hx + 6.0, hy), At::Left, "hinge", LABEL)?;
        let (rx, ry) = panel.at(mu - 0.5 * y, 0.5 * y);
        paper.plated((rx - 8.0, ry), At::Right, "unload", SMALL, WHITE)
    })
}
