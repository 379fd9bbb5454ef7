//! Load against stroke of a push: up, springback, and what stays.

use super::super::axes::{Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Heading, corners, draw};
use super::super::measure::Unit;
use super::super::theme::{BLUE, GHOST, GREEN, PREDICTED, SMALL, Stroke, VALUE, WHITE};
use super::super::{ChartError, Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::plan::Push;
use weldbow_engine::straighten::press::{PressSpan, load_stroke};
use weldbow_engine::units::{System, show};

const SIZE: (f64, f64) = (640.0, 430.0);

/// The picture.
pub(super) fn stroke(job: &Job, push: &Push, system: System) -> Done<Picture> {
    let nominal = &push.bent.nominal;
    let span =
        PressSpan::new(&job.member, push.layout, None).map_err(|e| ChartError::Drawing(e.to_string()))?;
    let found = load_stroke(&span, nominal.force_n);
    let mm = |v: f64| show::offset(v, system);
    let finding = format!(
        "Push {} on the {}: {} stay of a stroke of {}",
        push.number,
        push.layout.from.place(),
        mm(nominal.set_mm),
        mm(nominal.stroke_mm)
    );
    let heading = Heading {
        name: "straighten-stroke",
        job: &job.title,
        what: "load and stroke",
        description: format!(
            "Force of each ram against its travel without the give of the frame. {finding}."
        ),
        subtitle: finding,
    };
    draw(&heading, SIZE, |paper| {
        let range = push.bent.stroke_mm;
        let right = range.high.max(nominal.stroke_mm) * 1.08;
        let x = Range::to(right);
        let y = Range::to(nominal.force_n.max(push.bent.force_n.high) * 1.14);
        let panel = Panel::new((92.0, 600.0), (BELOW_TITLE + 14.0, 372.0), x, y);
        let band = corners(panel.at(range.low, panel.y.low), panel.at(range.high, panel.y.high));
        paper.fill(&band, BLUE, 0.10)?;
        panel.y_axis(paper, Unit::force(system), "force of each ram")?;
        panel.x_axis(paper, Unit::offset(system), "ram travel without frame give")?;
        paper.line(&panel.path(found.pushed.iter().copied()), PREDICTED)?;
        let top = (nominal.stroke_mm, nominal.force_n);
        paper.line(&panel.path([top, (found.set_mm, 0.0)]), Stroke { ink: BLUE, ..GHOST })?;
        let set = panel.path([(0.0, 0.0), (found.set_mm, 0.0)]);
        paper.line(&set, Stroke { ink: GREEN, width: 5.0, ..PREDICTED })?;
        paper.dot(panel.at(top.0, top.1), 4.5, BLUE)?;
        let (sx, sy) = panel.at(found.set_mm, 0.0);
        let set = format!("set {}", mm(found.set_mm));
        paper.plated((sx + 8.0, sy - 12.0), At::Left, &set, VALUE.in_ink(GREEN), WHITE)?;
        let (mx, my) = panel.at(found.set_mm + 0.5 * nominal.springback_mm, 0.5 * nominal.force_n);
        let springback = format!("springback {}", mm(nominal.springback_mm));
        paper.plated((mx + 8.0, my + 6.0), At::Left, &springback, SMALL, WHITE)?;
        let (bx, by) = panel.at(0.5 * (range.low + range.high), panel.y.high);
        let text = format!("{} to {} may be needed", mm(range.low), mm(range.high));
        let half = 0.5 * paper.width_of(&text, SMALL)?;
        let x = bx.min(panel.right - half).max(panel.left + half);
        paper.text((x, by - 8.0), At::Middle, &text, SMALL)
    })
}
