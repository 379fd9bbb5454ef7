//! The member small under a chart: plates, splices and welds, so that the reader sees what is spoken of.

use crate::Done;
use crate::canvas::{At, Canvas, MARGIN, Point};
use crate::elevation::down;
use crate::theme::{FAR_WELD, NEAR_WELD, OUTLINE, SMALL, STEEL, Stroke, WEB};
use weldbow_engine::member::{Member, Seam};
use weldbow_engine::prediction::Job;
use weldbow_engine::units::show;
use weldbow_engine::welding::Side;

use super::width::RIGHT;

/// Height it takes, px.
pub(super) const STRIP: f64 = 128.0;
/// The deepest web, px.
const DEEPEST: f64 = 70.0;
const FLANGE: f64 = 4.0;
const LEFT: f64 = 92.0;
/// How far inside the web edge a weld is drawn, px.
const NEAR_INSET: f64 = 2.5;
const FAR_INSET: f64 = 5.5;

struct Small<'m> {
    member: &'m Member,
    scale: f64,
    left: f64,
    base: f64,
}

/// Where it begins and ends, px.
pub(super) fn ends(job: &Job) -> (f64, f64) {
    let member = &job.member;
    let wide = member.length_mm * scale(member);
    let left = 0.5 * (LEFT + RIGHT - wide);
    (left, left + wide)
}

/// px per mm.
fn scale(member: &Member) -> f64 {
    ((RIGHT - LEFT) / member.length_mm).min(DEEPEST / member.depth.deepest_mm())
}

/// Draws it between `top` and `top` + [`STRIP`].
pub(super) fn strip(paper: &Canvas<'_>, job: &Job, top: f64) -> Done {
    let member = &job.member;
    let deepest = member.depth.deepest_mm();
    let scale = scale(member);
    let (left, _) = ends(job);
    let small = Small { member, scale, left, base: top + 40.0 + deepest * scale };
    let text = format!(
        "The member, {} long, near side in front: welds on the near side full, on the far side dashed",
        show::position(member.length_mm, job.units)
    );
    paper.text((MARGIN, top + 18.0), At::Left, &text, SMALL)?;
    small.plates(paper)?;
    for pass in &job.passes {
        let (stroke, inset) = match pass.side {
            Side::Near => (NEAR_WELD, NEAR_INSET),
            Side::Far => (FAR_WELD, FAR_INSET),
        };
        let line = small.along(pass.seam, (pass.from_mm, pass.to_mm), -inset);
        paper.line(&line, Stroke { width: 1.6, ..stroke })?;
    }
    paper.text((left - 8.0, small.base), At::Right, "start", SMALL)
}

impl Small<'_> {
    fn along(&self, seam: Seam, (from_mm, to_mm): (f64, f64), out: f64) -> Vec<Point> {
        let kinks = self.member.depth.points().iter().map(|p| p.0).filter(|x| *x > from_mm && *x < to_mm);
        let stations = std::iter::once(from_mm).chain(kinks).chain([to_mm]);
        stations.map(|x| (self.left + x * self.scale, self.edge(seam, x) + out * down(seam))).collect()
    }

    fn edge(&self, seam: Seam, x_mm: f64) -> f64 {
        match seam {
            Seam::Outer => self.base,
            Seam::Inner => self.base - self.member.depth.depth_mm(x_mm) * self.scale,
        }
    }

    fn plates(&self, paper: &Canvas<'_>) -> Done {
        let edge = Stroke { width: 0.7, ..OUTLINE };
        let whole = (0.0, self.member.length_mm);
        let mut web = self.along(Seam::Inner, whole, 0.0);
        web.extend(self.along(Seam::Outer, whole, 0.0).into_iter().rev());
        paper.shape(&web, WEB, 1.0, edge)?;
        for piece in self.member.web.iter().filter(|piece| piece.splice.is_some()) {
            let x = self.left + piece.to_mm * self.scale;
            let ends = Seam::BOTH.map(|seam| (x, self.edge(seam, piece.to_mm)));
            paper.line(&ends, edge)?;
        }
        for seam in Seam::BOTH {
            for piece in self.member.flange(seam) {
                let ends = (piece.from_mm, piece.to_mm);
                let mut flange = self.along(seam, ends, 0.0);
                flange.extend(self.along(seam, ends, FLANGE).into_iter().rev());
                paper.shape(&flange, STEEL, 1.0, edge)?;
                if piece.splice.is_some() {
                    let (x, y) = (self.left + piece.to_mm * self.scale, self.edge(seam, piece.to_mm));
                    let tick = [(x, y), (x, y + (FLANGE + 4.0) * down(seam))];
                    paper.line(&tick, Stroke { width: 1.6, ..OUTLINE })?;
                }
            }
        }
        Ok(())
    }
}
