//! What is written on the side view: depths, plate sizes, the largest camber.

use super::Done;
use super::canvas::{At, Canvas};
use super::dimension::span;
use super::elevation::{THICK_FLANGE, View, largest, reads_straight};
use super::measure::plate_size;
use super::side::down;
use super::theme::{BLACK, BLUE, LABEL, SMALL, THIN, VALUE, WEB, WHITE};
use weldbow_engine::member::Seam;
use weldbow_engine::units::show;

/// Width kept for a depth beside a kink, px.
const DEPTH: f64 = 70.0;

impl View<'_> {
    /// Clear web depth beside both ends, with their names, and across the web at every kink.
    pub(super) fn depths(&self, paper: &Canvas<'_>) -> Done {
        let points = self.side.member.depth.points();
        let last = points.len().saturating_sub(1);
        let mut taken_to = f64::MIN;
        for (i, (x_mm, depth_mm)) in points.iter().copied().enumerate() {
            let (top, bottom) = (self.side.edge(Seam::Inner, x_mm), self.side.edge(Seam::Outer, x_mm));
            let text = show::plate(depth_mm, self.system);
            let middle = 0.5 * (top + bottom);
            if i == 0 || i == last {
                let (side, from, name) =
                    if i == 0 { (-1.0, At::Right, "start") } else { (1.0, At::Left, "finish") };
                let x = self.side.x(x_mm) + side * 13.0;
                span(paper, (x, top), (x, bottom), BLACK)?;
                paper.text((x + side * 6.0, middle), from, &text, LABEL)?;
                paper.text((x + side * 6.0, middle + 17.0), from, name, SMALL)?;
                continue;
            }
            let x = self.side.x(x_mm);
            span(paper, (x, top), (x, bottom), BLACK)?;
            let fits_right = x + DEPTH < self.side.x(self.side.member.length_mm);
            let (from, shift) = if fits_right { (At::Left, 6.0) } else { (At::Right, -6.0) };
            let left = if fits_right { x } else { x - DEPTH };
            if left > taken_to {
                paper.plated((x + shift, middle), from, &text, LABEL, WEB)?;
                taken_to = left + DEPTH;
            }
        }
        Ok(())
    }

    /// Plate sizes: flanges outside their pieces, web on its own, wherever there is room.
    pub(super) fn sizes(&self, paper: &Canvas<'_>) -> Done {
        for seam in Seam::BOTH {
            let mut named = false;
            for piece in self.side.member.flange(seam) {
                let size = plate_size(piece.width_mm, piece.thickness_mm, self.system);
                let with_name = format!("{} flange {size}", seam.name());
                let room = (piece.to_mm - piece.from_mm) * self.side.scale - 8.0;
                let first = !named && paper.width_of(&with_name, LABEL)? <= room;
                let text = if first { with_name } else { size };
                let width = paper.width_of(&text, LABEL)?;
                if width > room {
                    continue;
                }
                named |= first;
                let reach = 0.5 * width / self.side.scale;
                let x_mm = self.beside_camber(seam, (piece.from_mm, piece.to_mm), reach);
                let y = self.clear(seam, x_mm - reach, x_mm + reach) + (THICK_FLANGE + 11.0) * down(seam);
                paper.text((self.side.x(x_mm), y), At::Middle, &text, LABEL)?;
            }
        }
        self.web_sizes(paper)
    }

    fn web_sizes(&self, paper: &Canvas<'_>) -> Done {
        // a depth stands beside its kink; the arrow of a negative camber stands in the web
        let camber = (self.camber.max_mm < 0.0 && !reads_straight(self.camber, self.system))
            .then(|| (self.side.x(self.camber.at_mm), 8.0));
        let taken: Vec<(f64, f64)> =
            self.side.member.depth.points().iter().map(|p| (self.side.x(p.0), DEPTH)).chain(camber).collect();
        for piece in &self.side.member.web {
            let text = format!("web {}", show::plate(piece.thickness_mm, self.system));
            let half = 0.5 * paper.width_of(&text, LABEL)?;
            let place = |share: f64| self.side.x(piece.from_mm + share * (piece.to_mm - piece.from_mm));
            let free = |x: f64| {
                let from_ends = (x - place(0.0)).min(place(1.0) - x);
                from_ends > half + 4.0
                    && taken.iter().all(|(at, right)| x + half + 6.0 < *at || x - half > at + right)
            };
            let Some(x) = [0.5, 0.35, 0.65, 0.2, 0.8].into_iter().map(place).find(|x| free(*x)) else {
                continue;
            };
            let x_mm = (x - self.side.left) / self.side.scale;
            let y = 0.5 * (self.side.edge(Seam::Inner, x_mm) + self.side.edge(Seam::Outer, x_mm));
            paper.plated((x, y), At::Middle, &text, LABEL, WEB)?;
        }
        Ok(())
    }

    /// Where a plate size is centred: mid-piece, unless the leader of the camber would run through it.
    fn beside_camber(&self, seam: Seam, (from_mm, to_mm): (f64, f64), reach_mm: f64) -> f64 {
        let (middle, leader) = (0.5 * (from_mm + to_mm), self.camber.at_mm);
        let clear = reach_mm + 8.0 / self.side.scale;
        if seam == Seam::Inner || reads_straight(self.camber, self.system) || (middle - leader).abs() > clear
        {
            middle
        } else if leader - clear - reach_mm > from_mm {
            leader - clear
        } else if leader + clear + reach_mm < to_mm {
            leader + clear
        } else {
            middle
        }
    }

    /// The outermost height, bent or not, of a web edge between two places.
    fn clear(&self, seam: Seam, from_mm: f64, to_mm: f64) -> f64 {
        let heights = self
            .side
            .between(from_mm, to_mm)
            .into_iter()
            .flat_map(|x| [self.side.edge(seam, x), self.side.straight_edge(seam, x)]);
        match seam {
            Seam::Outer => heights.fold(f64::MIN, f64::max),
            Seam::Inner => heights.fold(f64::MAX, f64::min),
        }
    }

    /// The largest camber, from the unbent to the bent outer web edge, and its value below.
    pub(super) fn largest_camber(&self, paper: &Canvas<'_>) -> Done {
        let y = self.clear(Seam::Outer, 0.0, self.side.member.length_mm) + THICK_FLANGE + 30.0;
        let text = largest("camber", self.camber, self.system);
        if reads_straight(self.camber, self.system) {
            let middle = self.side.x(0.5 * self.side.member.length_mm);
            return paper.text((middle, y), At::Middle, &text, VALUE.in_ink(BLUE));
        }
        let x = self.side.x(self.camber.at_mm);
        let (straight, bent) = (self.side.base, self.side.edge(Seam::Outer, self.camber.at_mm));
        paper.line(&[(x, straight.max(bent)), (x, y - 9.0)], THIN)?;
        span(paper, (x, straight), (x, bent), BLUE)?;
        paper.plated((x, y), At::Middle, &text, VALUE.in_ink(BLUE), WHITE)
    }
}
