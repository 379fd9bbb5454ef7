//! The member from the side and from the outer side, to one scale, with its bow drawn larger.

use super::dimension::span;
use super::measure::{Unit, plate_size};
use super::number::{number, round_down, ticks};
use super::paper::{At, Heading, MARGIN, Paper, Point, draw};
use super::theme::{
    BLACK, BLUE, FAR_WELD, GHOST, LABEL, NEAR_WELD, OUTLINE, PALE, SMALL, STEEL, Stroke, THIN, VALUE, WEB,
    WHITE, ZERO,
};
use super::{ChartError, Picture};
use crate::member::{Member, Seam};
use crate::prediction::{Bow, Job, Prediction};
use crate::units::{System, show};
use crate::welding::Side;

const SIZE: (f64, f64) = (900.0, 560.0);
/// Room at either end for a depth and the name of the end, px.
const END: f64 = 92.0;
/// Room for the side view: its heading, the deepest web, and the largest bow, px.
const SIDE_TOP: f64 = 82.0;
const DEEPEST: f64 = 110.0;
const CAMBER: f64 = 56.0;
/// Between the deepest web and the largest bow on one side, the labels, and the ruler on the other, px.
const ROOM: f64 = 166.0;
const RULER: f64 = 356.0;
const PLAN_TOP: f64 = 396.0;
const PLAN_AXIS: f64 = 466.0;
const SWEEP: f64 = 34.0;
const FOOT: f64 = 546.0;
/// The thickest flange is drawn about this thick, and none thinner than `THIN_FLANGE`, px.
const THICK_FLANGE: f64 = 7.0;
const THIN_FLANGE: f64 = 2.0;
/// How far inside the web edge a weld is drawn, px: the far one deeper, so that both show.
const NEAR_INSET: f64 = 3.5;
const FAR_INSET: f64 = 8.0;

/// The member and how it is put on paper.
struct View<'m> {
    member: &'m Member,
    camber: &'m Bow,
    system: System,
    /// px per mm.
    scale: f64,
    left: f64,
    /// Height of the unbent outer web edge, px.
    base: f64,
    camber_times: f64,
    thickness_times: f64,
    stations: Vec<f64>,
}

pub(super) fn elevation(job: &Job, prediction: &Prediction, system: System) -> Result<Picture, ChartError> {
    let view = View::of(&job.member, &prediction.camber, system);
    let sweep_times = times(SWEEP, &prediction.sweep, view.scale);
    let heading = Heading {
        name: "elevation",
        job: &job.title,
        what: "the member and its bow",
        subtitle: format!(
            "To scale, except: camber drawn {} ×, sweep {} ×, flange thickness {} ×.",
            number(view.camber_times, 0),
            number(sweep_times, 0),
            number(view.thickness_times, 0)
        ),
        description: format!(
            "Side view with camber {} mm at x = {} mm, and view from the outer side with sweep {} mm, both enlarged.",
            number(prediction.camber.max_mm, 1),
            number(prediction.camber.at_mm, 0),
            number(prediction.sweep.max_mm, 1)
        ),
    };
    draw(&heading, SIZE, |paper| {
        let toward = "Side view, near side in front; camber + is up, toward the inner flange";
        paper.text((MARGIN, SIDE_TOP - 4.0), At::Left, toward, SMALL)?;
        view.ghost(paper)?;
        view.plates(paper)?;
        view.welds(paper, job)?;
        view.depths(paper)?;
        view.names(paper)?;
        view.largest_camber(paper)?;
        view.ruler(paper)?;
        view.plan(paper, &prediction.sweep, sweep_times)?;
        foot(paper)
    })
}

/// Round factor that draws the largest offset up to `room` px; 1 for a straight member.
fn times(room: f64, bow: &Bow, scale: f64) -> f64 {
    let largest = bow.profile.iter().fold(bow.max_mm.abs(), |largest, p| largest.max(p[1].abs()));
    if largest < 1e-6 { 1.0 } else { round_down(room / (largest * scale)).max(1.0) }
}

/// Offset between the stations of a bow, mm.
fn offset_mm(bow: &Bow, x_mm: f64) -> f64 {
    for pair in bow.profile.windows(2) {
        if x_mm <= pair[1][0] {
            let share = (x_mm - pair[0][0]) / (pair[1][0] - pair[0][0]).max(1e-9);
            return pair[0][1] + share.clamp(0.0, 1.0) * (pair[1][1] - pair[0][1]);
        }
    }
    bow.profile.last().map_or(0.0, |p| p[1])
}

impl<'m> View<'m> {
    fn of(member: &'m Member, camber: &'m Bow, system: System) -> Self {
        let scale = ((SIZE.0 - 2.0 * END) / member.length_mm).min(DEEPEST / member.depth.deepest_mm());
        let thickest = member
            .outer_flange
            .iter()
            .chain(&member.inner_flange)
            .fold(1.0_f64, |t, p| t.max(p.thickness_mm));
        let camber_times = times(CAMBER, camber, scale);
        let bow = |pick: fn(f64, f64) -> f64| {
            camber.profile.iter().fold(0.0, |b, p| pick(b, p[1])) * camber_times * scale
        };
        let (lowest, highest) = (bow(f64::min), bow(f64::max));
        let spare = (ROOM - member.depth.deepest_mm() * scale - (highest - lowest)).max(0.0);
        let mut stations: Vec<f64> = camber.profile.iter().map(|p| p[0]).collect();
        stations.extend([0.0, member.length_mm]);
        stations.extend(member.depth.points().iter().map(|p| p.0));
        stations.extend(member.outer_flange.iter().chain(&member.inner_flange).map(|p| p.to_mm));
        stations.sort_by(f64::total_cmp);
        stations.dedup();
        Self {
            member,
            camber,
            system,
            scale,
            left: 0.5 * (SIZE.0 - member.length_mm * scale),
            base: SIDE_TOP + 36.0 + THICK_FLANGE + 0.3 * spare + highest + member.depth.deepest_mm() * scale,
            camber_times,
            thickness_times: round_down(THICK_FLANGE / (thickest * scale)).max(1.0),
            stations,
        }
    }

    fn x(&self, x_mm: f64) -> f64 {
        self.left + x_mm * self.scale
    }

    /// Height on paper of the bent web edge, px.
    fn edge(&self, seam: Seam, x_mm: f64) -> f64 {
        self.straight_edge(seam, x_mm) - offset_mm(self.camber, x_mm) * self.camber_times * self.scale
    }

    fn straight_edge(&self, seam: Seam, x_mm: f64) -> f64 {
        match seam {
            Seam::Outer => self.base,
            Seam::Inner => self.base - self.member.depth.depth_mm(x_mm) * self.scale,
        }
    }

    fn thickness(&self, thickness_mm: f64) -> f64 {
        (thickness_mm * self.scale * self.thickness_times).max(THIN_FLANGE)
    }

    /// Stations between two places, both included.
    fn between(&self, from_mm: f64, to_mm: f64) -> Vec<f64> {
        let inside = self.stations.iter().copied().filter(|x| *x > from_mm && *x < to_mm);
        std::iter::once(from_mm).chain(inside).chain([to_mm]).collect()
    }

    /// A line along a bent web edge, shifted away from the web by `out` px.
    fn along(&self, seam: Seam, (from_mm, to_mm): (f64, f64), out: f64) -> Vec<Point> {
        let stations = self.between(from_mm, to_mm);
        stations.into_iter().map(|x| (self.x(x), self.edge(seam, x) + out * down(seam))).collect()
    }

    fn ghost(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        let upper: Vec<Point> = self
            .member
            .depth
            .points()
            .iter()
            .map(|p| (self.x(p.0), self.straight_edge(Seam::Inner, p.0)))
            .collect();
        let (from, to) = (self.x(0.0), self.x(self.member.length_mm));
        let outline: Vec<Point> = upper.into_iter().chain([(to, self.base), (from, self.base)]).collect();
        paper.outline(&outline, GHOST)
    }

    fn plates(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        let whole = (0.0, self.member.length_mm);
        let mut web = self.along(Seam::Inner, whole, 0.0);
        web.extend(self.along(Seam::Outer, whole, 0.0).into_iter().rev());
        paper.fill(&web, WEB, 0.85)?;
        paper.outline(&web, Stroke { width: 0.7, ..OUTLINE })?;
        for piece in &self.member.web {
            if piece.splice.is_some() {
                let x = piece.to_mm;
                let ends = [(self.x(x), self.edge(Seam::Inner, x)), (self.x(x), self.edge(Seam::Outer, x))];
                paper.line(&ends, Stroke { width: 0.9, ..OUTLINE })?;
            }
        }
        for seam in Seam::BOTH {
            for piece in self.member.flange(seam) {
                let ends = (piece.from_mm, piece.to_mm);
                let thick = self.thickness(piece.thickness_mm);
                let mut flange = self.along(seam, ends, 0.0);
                flange.extend(self.along(seam, ends, thick).into_iter().rev());
                paper.fill(&flange, STEEL, 1.0)?;
                paper.outline(&flange, Stroke { width: 0.7, ..OUTLINE })?;
                if piece.splice.is_some() {
                    let (x, y) = (self.x(piece.to_mm), self.edge(seam, piece.to_mm));
                    let tick = [(x, y), (x, y + (THICK_FLANGE + 5.0) * down(seam))];
                    paper.line(&tick, Stroke { width: 1.8, ..OUTLINE })?;
                }
            }
        }
        Ok(())
    }

    fn welds(&self, paper: &Paper<'_>, job: &Job) -> Result<(), ChartError> {
        for pass in &job.passes {
            let (stroke, inset) = match pass.side {
                Side::Near => (NEAR_WELD, NEAR_INSET),
                Side::Far => (FAR_WELD, FAR_INSET),
            };
            paper.line(&self.along(pass.seam, (pass.from_mm, pass.to_mm), -inset), stroke)?;
        }
        Ok(())
    }

    /// Clear web depth beside both ends and across the web at every kink.
    fn depths(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        let points = self.member.depth.points();
        let last = points.len().saturating_sub(1);
        for (i, (x_mm, depth_mm)) in points.iter().copied().enumerate() {
            let (top, bottom) = (self.edge(Seam::Inner, x_mm), self.edge(Seam::Outer, x_mm));
            let text = show::plate(depth_mm, self.system);
            let (shift, from, name) = match i {
                0 => (-13.0, At::Right, "start"),
                _ if i == last => (13.0, At::Left, "finish"),
                _ => (0.0, At::Left, ""),
            };
            let x = self.x(x_mm) + shift;
            let middle = 0.5 * (top + bottom);
            span(paper, (x, top), (x, bottom), BLACK)?;
            let beside = x + if shift < 0.0 { -6.0 } else { 6.0 };
            paper.plated((beside, middle), from, &text, LABEL, if name.is_empty() { WEB } else { WHITE })?;
            if !name.is_empty() {
                paper.text((beside, middle + 17.0), from, name, SMALL)?;
            }
        }
        Ok(())
    }

    /// Plate sizes: flanges outside their pieces, web on its own, wherever there is room.
    fn names(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        for seam in Seam::BOTH {
            for (i, piece) in self.member.flange(seam).iter().enumerate() {
                let size = plate_size(piece.width_mm, piece.thickness_mm, self.system);
                let named = format!("{} flange {size}", seam.name());
                let room = (piece.to_mm - piece.from_mm) * self.scale - 8.0;
                let text = if i == 0 && paper.width_of(&named, LABEL)? <= room { named } else { size };
                let width = paper.width_of(&text, LABEL)?;
                if width > room {
                    continue;
                }
                let reach = 0.5 * width / self.scale;
                let x_mm = self.beside_camber(seam, (piece.from_mm, piece.to_mm), reach);
                let y = self.clear(seam, x_mm - reach, x_mm + reach) + (THICK_FLANGE + 11.0) * down(seam);
                paper.text((self.x(x_mm), y), At::Middle, &text, LABEL)?;
            }
        }
        // a depth stands right of its kink; the arrow of a negative camber stands in the web
        let camber = (self.camber.max_mm < 0.0).then(|| (self.x(self.camber.at_mm), 8.0));
        let taken: Vec<(f64, f64)> =
            self.member.depth.points().iter().map(|p| (self.x(p.0), 70.0)).chain(camber).collect();
        for piece in &self.member.web {
            let text = format!("web {}", show::plate(piece.thickness_mm, self.system));
            let half = 0.5 * paper.width_of(&text, LABEL)?;
            let place = |share: f64| self.x(piece.from_mm + share * (piece.to_mm - piece.from_mm));
            let free = |x: f64| {
                let from_ends = (x - place(0.0)).min(place(1.0) - x);
                from_ends > half + 4.0
                    && taken.iter().all(|(at, right)| x + half + 6.0 < *at || x - half > at + right)
            };
            let Some(x) = [0.5, 0.35, 0.65, 0.2, 0.8].into_iter().map(place).find(|x| free(*x)) else {
                continue;
            };
            let x_mm = (x - self.left) / self.scale;
            let y = 0.5 * (self.edge(Seam::Inner, x_mm) + self.edge(Seam::Outer, x_mm));
            paper.plated((x, y), At::Middle, &text, LABEL, WEB)?;
        }
        Ok(())
    }

    /// Where a plate size is centred: mid-piece, unless the leader of the camber would run through it.
    fn beside_camber(&self, seam: Seam, (from_mm, to_mm): (f64, f64), reach_mm: f64) -> f64 {
        let (middle, leader) = (0.5 * (from_mm + to_mm), self.camber.at_mm);
        let clear = reach_mm + 8.0 / self.scale;
        if seam == Seam::Inner || self.camber.toward == "straight" || (middle - leader).abs() > clear {
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
            .between(from_mm, to_mm)
            .into_iter()
            .flat_map(|x| [self.edge(seam, x), self.straight_edge(seam, x)]);
        match seam {
            Seam::Outer => heights.fold(f64::MIN, f64::max),
            Seam::Inner => heights.fold(f64::MAX, f64::min),
        }
    }

    fn largest_camber(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        let y = self.clear(Seam::Outer, 0.0, self.member.length_mm) + THICK_FLANGE + 30.0;
        if self.camber.toward == "straight" {
            return paper.text((self.x(0.5 * self.member.length_mm), y), At::Middle, "no camber", VALUE);
        }
        let x = self.x(self.camber.at_mm);
        let (straight, bent) = (self.base, self.edge(Seam::Outer, self.camber.at_mm));
        paper.line(&[(x, straight.max(bent)), (x, y - 9.0)], THIN)?;
        span(paper, (x, straight), (x, bent), BLUE)?;
        let text = format!("camber {}", largest(self.camber, self.system));
        paper.plated((x, y), At::Middle, &text, VALUE.in_ink(BLUE), WHITE)
    }

    /// Places along the member, between the two views.
    fn ruler(&self, paper: &Paper<'_>) -> Result<(), ChartError> {
        let unit = Unit::along(self.system);
        let length = self.member.length_mm;
        let (marks, decimals) = ticks(0.0, length / unit.mm, length * self.scale / 75.0);
        paper.line(&[(self.x(0.0), RULER), (self.x(length), RULER)], ZERO)?;
        for mark in marks {
            let x = self.x(mark * unit.mm);
            paper.line(&[(x, RULER - 4.0), (x, RULER + 4.0)], ZERO)?;
            paper.text((x, RULER + 13.0), At::Middle, &number(mark, decimals), LABEL)?;
        }
        paper.text((self.x(length) + 13.0, RULER), At::Left, &format!("x, {}", unit.name), SMALL)?;
        paper.text(
            (self.x(0.0) - 13.0, RULER),
            At::Right,
            &format!("L {}", show::position(length, self.system)),
            SMALL,
        )
    }

    /// From the outer side: flanges one behind the other, the web hidden behind them.
    fn plan(&self, paper: &Paper<'_>, sweep: &Bow, sweep_times: f64) -> Result<(), ChartError> {
        let toward = "Seen from the outer side; sweep + is up, toward the near side";
        paper.text((MARGIN, PLAN_TOP + 4.0), At::Left, toward, SMALL)?;
        let length = self.member.length_mm;
        let rise = |x: f64| offset_mm(sweep, x) * sweep_times * self.scale;
        let at = |x: f64, z: f64| (self.x(x), PLAN_AXIS - rise(x) - z);
        let (from, to) = (self.x(0.0), self.x(length));
        let mut widest = 0.0_f64;
        for (seam, ink) in [(Seam::Inner, PALE), (Seam::Outer, STEEL)] {
            for piece in self.member.flange(seam) {
                let half = 0.5 * piece.width_mm * self.scale;
                widest = widest.max(half);
                let stations = self.between(piece.from_mm, piece.to_mm);
                let mut shape: Vec<Point> = stations.iter().map(|x| at(*x, half)).collect();
                shape.extend(stations.iter().rev().map(|x| at(*x, -half)));
                paper.fill(&shape, ink, if seam == Seam::Outer { 0.55 } else { 1.0 })?;
                paper.outline(&shape, Stroke { width: 0.7, ..OUTLINE })?;
            }
        }
        let middle: Vec<Point> = self.stations.iter().map(|x| at(*x, 0.0)).collect();
        paper.line(&middle, Stroke { ink: BLACK, ..GHOST })?;
        paper.line(&[(from, PLAN_AXIS), (to, PLAN_AXIS)], GHOST)?;
        for (x, from) in [(from - 13.0, At::Right), (to + 13.0, At::Left)] {
            paper.text((x, PLAN_AXIS - 9.0), from, "near side", SMALL)?;
            paper.text((x, PLAN_AXIS + 9.0), from, "far side", SMALL)?;
        }
        if sweep.toward == "straight" {
            return paper.text((0.5 * (from + to), PLAN_AXIS + widest + 15.0), At::Middle, "no sweep", VALUE);
        }
        let x = self.x(sweep.at_mm);
        let peak = PLAN_AXIS - rise(sweep.at_mm);
        span(paper, (x, PLAN_AXIS), (x, peak), BLUE)?;
        let below = if peak < PLAN_AXIS { PLAN_AXIS } else { peak };
        let y = below + widest + 15.0;
        paper.line(&[(x, below), (x, y - 8.0)], THIN)?;
        let text = format!("sweep {}", largest(sweep, self.system));
        paper.plated((x, y), At::Middle, &text, VALUE.in_ink(BLUE), WHITE)
    }
}

/// +1 where away from the web is down the paper.
const fn down(seam: Seam) -> f64 {
    match seam {
        Seam::Outer => 1.0,
        Seam::Inner => -1.0,
    }
}

/// "9.2 ± 2.8 mm at 4.93 m".
fn largest(bow: &Bow, system: System) -> String {
    let size = Unit::offset(system).size_2s(bow.max_mm, bow.max_2s_mm);
    format!("{size} at {}", show::position(bow.at_mm, system))
}

/// What the line kinds mean.
fn foot(paper: &Paper<'_>) -> Result<(), ChartError> {
    let kinds = [(NEAR_WELD, "weld on the near side"), (FAR_WELD, "weld on the far side"), (GHOST, "unbent")];
    let mut x = MARGIN;
    for (stroke, text) in kinds {
        paper.line(&[(x, FOOT), (x + 28.0, FOOT)], stroke)?;
        paper.text((x + 34.0, FOOT), At::Left, text, SMALL)?;
        x += 34.0 + paper.width_of(text, SMALL)? + 26.0;
    }
    paper.line(&[(x, FOOT - 6.0), (x, FOOT + 6.0)], Stroke { width: 1.8, ..OUTLINE })?;
    paper.text((x + 8.0, FOOT), At::Left, "flange splice", SMALL)
}
