//! Where everything stands for one step: supports, rams, side guides, heats and the jack, seen as the piece lies.
//!
//! Camber is seen from the near side, inner flange on top; sweep from the inner flange, near side on top.

use super::super::canvas::{At, BELOW_TITLE, Canvas, Heading, draw};
use super::super::dimension::arrow;
use super::super::spread::spread;
use super::super::theme::{
    BLACK, BLUE, FULL, GREEN, HEADING, Ink, LABEL, ORANGE, OUTLINE, Stroke, THIN, VALUE, WEB, WHITE,
};
use super::super::{Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::heat::HeatSeries;
use weldbow_engine::straighten::plan::{Push, Step, Work};
use weldbow_engine::units::{System, show};

/// For the width of a page: its letters are then those of the text.
const SIZE: (f64, f64) = (560.0, 264.0);
const LEFT: f64 = 46.0;
const RIGHT: f64 = 514.0;
/// Top and bottom of the room for the member, px.
const ROOM: (f64, f64) = (BELOW_TITLE + 62.0, SIZE.1 - 66.0);
/// Gap between labels along the member, px.
const GAP: f64 = 10.0;
const TOOL: f64 = 26.0;

struct View<'a> {
    job: &'a Job,
    strong: bool,
    system: System,
}

/// The picture of a step; None if nothing of it stands at a place.
///
/// # Errors
/// If a value is not finite or the build is broken.
pub fn straightening_setup(job: &Job, step: &Step, system: System) -> Done<Option<Picture>> {
    let view = |strong| View { job, strong, system };
    match &step.work {
        Work::Push(push) => Ok(Some(view(push.layout.from.strong()).pushed(step.number, push)?)),
        Work::Heats(series) => {
            let Some(first) = series.places.first() else { return Ok(None) };
            Ok(Some(view(first.heated.strong()).heated(step.number, series)?))
        }
        Work::Fold { .. } | Work::Lines { .. } => Ok(None),
    }
}

impl View<'_> {
    fn px(&self, x_mm: f64) -> f64 {
        LEFT + x_mm / self.job.member.length_mm * (RIGHT - LEFT)
    }

    /// Lower and upper edge at x, px; below is the outer flange or the far side.
    fn edges(&self, x_mm: f64) -> (f64, f64) {
        let (top, bottom) = ROOM;
        let part = if self.strong {
            self.job.member.depth.depth_mm(x_mm) / self.job.member.depth.deepest_mm()
        } else {
            0.6
        };
        (bottom, bottom - part * (bottom - top))
    }

    /// A picture of one step: the member, and on it what is drawn for that kind of step.
    fn picture(&self, number: usize, tools: impl FnOnce(&Canvas<'_>) -> Done) -> Done<Picture> {
        let seen = if self.strong {
            "seen from the near side, inner flange on top"
        } else {
            "seen from the inner flange, near side on top"
        };
        let heading = Heading {
            name: "straighten-setup",
            // in the place of the job, whose title is on the page already
            job: &format!("Step {number}"),
            what: "where everything stands",
            description: format!(
                "Step {number}, {seen}: supports, rams or heats, and guides along the member."
            ),
            subtitle: format!("Seen {}", seen.trim_start_matches("seen ")),
        };
        draw(&heading, SIZE, |paper| {
            self.member(paper)?;
            tools(paper)
        })
    }

    fn member(&self, paper: &Canvas<'_>) -> Done {
        let m = &self.job.member;
        let mut x = vec![0.0];
        x.extend(m.depth.points().iter().map(|p| p.0).filter(|x| *x > 0.0 && *x < m.length_mm));
        x.push(m.length_mm);
        let upper = x.iter().map(|x| (self.px(*x), self.edges(*x).1));
        let lower = x.iter().rev().map(|x| (self.px(*x), self.edges(*x).0));
        let shape: Vec<(f64, f64)> = upper.chain(lower).collect();
        paper.shape(&shape, WEB, 1.0, OUTLINE)?;
        let middle = 0.5 * (self.edges(0.0).0 + self.edges(0.0).1);
        paper.upward((LEFT - 16.0, middle), "START", HEADING)?;
        let sides = if self.strong { ["inner flange", "outer flange"] } else { ["near side", "far side"] };
        paper.text((8.0, BELOW_TITLE + 3.0), At::Left, sides[0], HEADING)?;
        paper.text((8.0, SIZE.1 - 12.0), At::Left, sides[1], HEADING)
    }

    /// Tools on one side with their places, labels kept apart.
    fn side(
        &self,
        paper: &Canvas<'_>,
        above: bool,
        what: &str,
        places_mm: impl IntoIterator<Item = f64>,
        ink: Ink,
    ) -> Done {
        let places: Vec<f64> = places_mm.into_iter().collect();
        let name = |x_mm: &f64| format!("{what} {}", show::position(*x_mm, self.system));
        let names: Vec<String> = places.iter().map(name).collect();
        let wanted: Vec<f64> = places.iter().map(|x_mm| self.px(*x_mm)).collect();
        let wide = paper.widest(&names, VALUE)?;
        let placed = spread(&wanted, wide + GAP, LEFT - 10.0, RIGHT + 10.0);
        for (((x_mm, name), x), label) in places.iter().zip(&names).zip(&wanted).zip(placed) {
            let (lower, upper) = self.edges(*x_mm);
            let (edge, out) = if above { (upper, -TOOL) } else { (lower, TOOL) };
            arrow(paper, (*x, edge + out), (*x, edge), ink)?;
            let at = if above { ROOM.0 - TOOL - 12.0 } else { ROOM.1 + TOOL + 9.0 };
            paper.line(&[(*x, edge + out), (label, at + if above { 8.0 } else { -8.0 })], THIN)?;
            paper.text((label, at), At::Middle, name, VALUE.in_ink(ink))?;
        }
        Ok(())
    }

    fn pushed(&self, number: usize, push: &Push) -> Done<Picture> {
        self.picture(number, |paper| {
            for x in &push.stability.restraints_mm {
                let (lower, upper) = self.edges(*x);
                let px = self.px(*x);
                for side in [-3.0, 3.0] {
                    let guide = [(px + side, lower + 6.0), (px + side, upper - 6.0)];
                    paper.line(&guide, Stroke::new(BLUE, 1.6, FULL))?;
                }
            }
            let above = push.layout.from.sign() < 0.0;
            self.side(paper, above, "ram", push.layout.rams.places_mm(), BLACK)?;
            self.side(paper, !above, "support", push.layout.supports_mm, GREEN)?;
            let guides = push.stability.restraints_mm.len();
            if guides == 0 {
                return Ok(());
            }
            let text = format!("double lines: {guides} side guides on both flanges, places below");
            paper.text((SIZE.0 - 10.0, SIZE.1 - 12.0), At::Right, &text, LABEL.in_ink(BLUE))
        })
    }

    fn heated(&self, number: usize, series: &HeatSeries) -> Done<Picture> {
        self.picture(number, |paper| {
            for p in &series.places {
                let above = p.heated.sign() < 0.0;
                let (lower, upper) = self.edges(p.x_mm);
                let deep = (lower - upper)
                    * if self.strong { p.vee.depth_mm / self.job.member.depth.depth_mm(p.x_mm) } else { 0.9 };
                let (edge, apex) = if above { (upper, upper + deep) } else { (lower, lower - deep) };
                let half = (0.5 * p.vee.base_mm / self.job.member.length_mm * (RIGHT - LEFT)).max(3.0);
                let x = self.px(p.x_mm);
                paper.fill(&[(x - half, edge), (x + half, edge), (x, apex)], ORANGE, 1.0)?;
                paper.plated((x, 0.5 * (edge + apex)), At::Middle, &p.turn.to_string(), HEADING, WHITE)?;
            }
            let Some(first) = series.places.iter().min_by_key(|p| p.turn) else { return Ok(()) };
            let above = first.heated.sign() < 0.0;
            self.side(paper, above, "foot", first.jack.feet_mm, BLACK)?;
            self.side(paper, !above, "support", first.jack.supports_mm, GREEN)?;
            let text = "numbers: order of the heats; jack drawn for heat 1";
            paper.text((SIZE.0 - 10.0, SIZE.1 - 12.0), At::Right, text, LABEL)
        })
    }
}
