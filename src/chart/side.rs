//! The member seen from its near side, to one scale: plates, splices and welds, bent or straight.

use super::Done;
use super::canvas::{Canvas, Point};
use super::theme::{FAR_WELD, NEAR_WELD, OUTLINE, STEEL, Stroke, WEB};
use weldbow_engine::member::{Member, Seam};
use weldbow_engine::numerics::along;
use weldbow_engine::prediction::Job;
use weldbow_engine::welding::Side;

/// The member and how it is put on paper.
pub(super) struct SideView<'m> {
    pub member: &'m Member,
    /// px per mm.
    pub(crate) scale: f64,
    pub left: f64,
    /// Height of the unbent outer web edge, px.
    pub(crate) base: f64,
    /// Its bow, mm, and how many times larger it is drawn; no points for a straight member.
    pub(crate) bow: Vec<Point>,
    pub(crate) times: f64,
    /// Places where a line along it may turn.
    pub(crate) stations: Vec<f64>,
}

/// How heavy its parts are drawn, px.
pub(super) struct Weights {
    /// Share of ink in the web.
    pub(crate) web_alpha: f64,
    pub(crate) web_splice: f64,
    /// How far a splice of a flange reaches out from the web edge, and its width.
    pub(crate) flange_splice: (f64, f64),
    pub(crate) weld: f64,
    /// How far inside the web edge welds on the near and on the far side are drawn: the far one deeper, so that both show.
    pub(crate) inset: [f64; 2],
}

impl SideView<'_> {
    pub(super) fn x(&self, x_mm: f64) -> f64 {
        self.left + x_mm * self.scale
    }

    /// Height on paper of the bent web edge, px.
    pub(super) fn edge(&self, seam: Seam, x_mm: f64) -> f64 {
        self.straight_edge(seam, x_mm) - along(&self.bow, x_mm) * self.times * self.scale
    }

    pub(super) fn straight_edge(&self, seam: Seam, x_mm: f64) -> f64 {
        match seam {
            Seam::Outer => self.base,
            Seam::Inner => self.base - self.member.depth.depth_mm(x_mm) * self.scale,
        }
    }

    /// Stations between two places, both included.
    pub(super) fn between(&self, from_mm: f64, to_mm: f64) -> Vec<f64> {
        let inside = self.stations.iter().copied().filter(|x| *x > from_mm && *x < to_mm);
        std::iter::once(from_mm).chain(inside).chain([to_mm]).collect()
    }

    /// A line along a bent web edge, shifted away from the web by `out` px.
    fn along(&self, seam: Seam, (from_mm, to_mm): (f64, f64), out: f64) -> Vec<Point> {
        let stations = self.between(from_mm, to_mm);
        stations.into_iter().map(|x| (self.x(x), self.edge(seam, x) + out * down(seam))).collect()
    }

    /// Web and flanges with their splices; `thick` gives the px that a flange of so many mm is drawn thick.
    pub(super) fn plates(&self, paper: &Canvas<'_>, weights: &Weights, thick: impl Fn(f64) -> f64) -> Done {
        let edge = Stroke { width: 0.7, ..OUTLINE };
        let whole = (0.0, self.member.length_mm);
        let mut web = self.along(Seam::Inner, whole, 0.0);
        web.extend(self.along(Seam::Outer, whole, 0.0).into_iter().rev());
        paper.shape(&web, WEB, weights.web_alpha, edge)?;
        for piece in self.member.web.iter().filter(|piece| piece.splice.is_some()) {
            let x = piece.to_mm;
            let ends = [Seam::Inner, Seam::Outer].map(|seam| (self.x(x), self.edge(seam, x)));
            paper.line(&ends, Stroke { width: weights.web_splice, ..OUTLINE })?;
        }
        for seam in Seam::BOTH {
            for piece in self.member.flange(seam) {
                let ends = (piece.from_mm, piece.to_mm);
                let mut flange = self.along(seam, ends, 0.0);
                flange.extend(self.along(seam, ends, thick(piece.thickness_mm)).into_iter().rev());
                paper.shape(&flange, STEEL, 1.0, edge)?;
                if piece.splice.is_some() {
                    let (x, y) = (self.x(piece.to_mm), self.edge(seam, piece.to_mm));
                    let (reach, width) = weights.flange_splice;
                    paper.line(&[(x, y), (x, y + reach * down(seam))], Stroke { width, ..OUTLINE })?;
                }
            }
        }
        Ok(())
    }

    pub(super) fn welds(&self, paper: &Canvas<'_>, job: &Job, weights: &Weights) -> Done {
        let [near, far] = weights.inset;
        job.passes.iter().try_for_each(|pass| {
            let (stroke, inset) = match pass.side {
                Side::Near => (NEAR_WELD, near),
                Side::Far => (FAR_WELD, far),
            };
            let line = self.along(pass.seam, (pass.from_mm, pass.to_mm), -inset);
            paper.line(&line, Stroke { width: weights.weld, ..stroke })
        })
    }
}

/// +1 where away from the web is down the paper.
pub(super) const fn down(seam: Seam) -> f64 {
    match seam {
        Seam::Outer => 1.0,
        Seam::Inner => -1.0,
    }
}
