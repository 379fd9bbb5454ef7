//! The member from its outer side, with its sweep drawn larger: flanges one behind the other, the web hidden
//! behind them.

use super::Done;
use super::canvas::{At, Canvas, MARGIN, Point};
use super::dimension::span;
use super::elevation::{View, largest, line_of, reads_straight};
use super::theme::{BLACK, BLUE, GHOST, OUTLINE, PALE, SMALL, STEEL, Stroke, THIN, VALUE, WHITE};
use weldbow_engine::member::Seam;
use weldbow_engine::numerics::along;
use weldbow_engine::prediction::Bow;

const TOP: f64 = 396.0;
/// Height of the straight web, px.
const AXIS: f64 = 466.0;

impl View<'_> {
    /// Draws it under the ruler of the side view.
    pub(super) fn plan(&self, paper: &Canvas<'_>, sweep: &Bow, sweep_times: f64) -> Done {
        let toward = "Seen from the outer side; sweep + is up, toward the near side";
        paper.text((MARGIN, TOP + 4.0), At::Left, toward, SMALL)?;
        let length = self.side.member.length_mm;
        let line = line_of(sweep);
        let rise = |x: f64| along(&line, x) * sweep_times * self.side.scale;
        let at = |x: f64, z: f64| (self.side.x(x), AXIS - rise(x) - z);
        let (from, to) = (self.side.x(0.0), self.side.x(length));
        let mut widest = 0.0_f64;
        for (seam, ink) in [(Seam::Inner, PALE), (Seam::Outer, STEEL)] {
            for piece in self.side.member.flange(seam) {
                let half = 0.5 * piece.width_mm * self.side.scale;
                widest = widest.max(half);
                let stations = self.side.between(piece.from_mm, piece.to_mm);
                let mut shape: Vec<Point> = stations.iter().map(|x| at(*x, half)).collect();
                shape.extend(stations.iter().rev().map(|x| at(*x, -half)));
                let alpha = if seam == Seam::Outer { 0.55 } else { 1.0 };
                paper.shape(&shape, ink, alpha, Stroke { width: 0.7, ..OUTLINE })?;
            }
        }
        let middle: Vec<Point> = self.side.stations.iter().map(|x| at(*x, 0.0)).collect();
        paper.line(&middle, Stroke { ink: BLACK, ..GHOST })?;
        paper.line(&[(from, AXIS), (to, AXIS)], GHOST)?;
        for (x, from) in [(from - 13.0, At::Right), (to + 13.0, At::Left)] {
            paper.text((x, AXIS - 9.0), from, "near side", SMALL)?;
            paper.text((x, AXIS + 9.0), from, "far side", SMALL)?;
        }
        let text = largest("sweep", sweep, self.system);
        if reads_straight(sweep, self.system) {
            let at = (0.5 * (from + to), AXIS + widest + 15.0);
            return paper.text(at, At::Middle, &text, VALUE.in_ink(BLUE));
        }
        let x = self.side.x(sweep.at_mm);
        let peak = AXIS - rise(sweep.at_mm);
        span(paper, (x, AXIS), (x, peak), BLUE)?;
        let below = if peak < AXIS { AXIS } else { peak };
        let y = below + widest + 15.0;
        paper.line(&[(x, below), (x, y - 8.0)], THIN)?;
        paper.plated((x, y), At::Middle, &text, VALUE.in_ink(BLUE), WHITE)
    }
}
