//! The member from the side and from the outer side, to one scale, with its bow drawn larger.

/// The largest sweep is drawn up to this high, px.
const SWEEP: f64 = 34.0;
use super::canvas::{At, Canvas, Heading, MARGIN, Point, SIZE, draw};
use super::measure::Unit;
use super::number::{number, round_down, ticks};
use super::side::{SideView, Weights};
use super::smooth::smooth;
use super::theme::{FAR_WELD, GHOST, LABEL, NEAR_WELD, OUTLINE, SMALL, Stroke, ZERO};
use super::{Done, Picture};
use weldbow_engine::member::{Member, Seam};
use weldbow_engine::prediction::{Bow, Job, Prediction};
use weldbow_engine::units::{System, show};
use weldbow_engine::welding::Side;

/// Room at either end for a depth and the name of the end, px.
const END: f64 = 92.0;
/// Room for the side view: its heading, the deepest web, and the largest bow, px.
const SIDE_TOP: f64 = 82.0;
const DEEPEST: f64 = 110.0;
const CAMBER: f64 = 56.0;
/// Between the deepest web and the largest bow on one side, the labels, and the ruler on the other, px.
const ROOM: f64 = 166.0;
const RULER: f64 = 356.0;
const FOOT: f64 = 546.0;
/// A bow is drawn no larger than this: a very small one may look small.
const MOST_TIMES: f64 = 200.0;
/// The thickest flange is drawn about this thick, and none thinner than `THIN_FLANGE`, px.
pub(super) const THICK_FLANGE: f64 = 7.0;
const THIN_FLANGE: f64 = 2.0;
const WEIGHTS: Weights = Weights {
    web_alpha: 0.85,
    web_splice: 0.9,
    flange_splice: (THICK_FLANGE + 5.0, 1.8),
    weld: NEAR_WELD.width,
    inset: [3.5, 8.0],
};

/// The member from its side, and what is written on it.
pub(super) struct View<'m> {
    pub(crate) side: SideView<'m>,
    pub(crate) camber: &'m Bow,
    pub(crate) system: System,
    thickness_times: f64,
}

pub(super) fn elevation(job: &Job, prediction: &Prediction, system: System) -> Done<Picture> {
    let scale = View::scale_of(&job.member);
    let (camber_times, sweep_times) = both_times(prediction, scale, system);
    let view = View::of(&job.member, &prediction.camber, system, camber_times);
    let times = camber_times.max(sweep_times);
    let heading = Heading {
        name: "elevation",
        job: &job.title,
        what: "the member and its bow",
        subtitle: scales([("bows drawn", times), ("flange thickness", view.thickness_times)]),
        description: format!(
            "Side view with camber {} at x = {}, and view from the outer side with sweep {}, both enlarged.",
            show::offset(prediction.camber.max_mm, system),
            show::position(prediction.camber.at_mm, system),
            show::offset(prediction.sweep.max_mm, system)
        ),
    };
    draw(&heading, SIZE, |paper| {
        let toward = "Side view, near side in front; camber + is up, toward the inner flange";
        paper.text((MARGIN, SIDE_TOP - 4.0), At::Left, toward, SMALL)?;
        view.ghost(paper)?;
        view.side.plates(paper, &WEIGHTS, |thickness_mm| view.thickness(thickness_mm))?;
        view.side.welds(paper, job, &WEIGHTS)?;
        view.depths(paper)?;
        view.sizes(paper)?;
        view.largest_camber(paper)?;
        view.ruler(paper)?;
        view.plan(paper, &prediction.sweep, sweep_times)?;
        foot(paper, job)
    })
}

/// Round factor that draws the largest offset that may be met up to `room` px high; 1 for a member that
/// reads as straight.
fn times(room: f64, bow: &Bow, scale: f64, system: System) -> f64 {
    let largest =
        bow.profile.iter().fold(bow.max_mm.abs(), |largest, p| largest.max(p[1].abs())) + bow.max_2s_mm;
    if reads_straight(bow, system) {
        1.0
    } else {
        round_down(room / (largest * scale)).clamp(1.0, MOST_TIMES)
    }
}

/// How much larger camber and sweep are drawn: the same, so that the eye may compare them; 1 for one that reads as straight.
fn both_times(prediction: &Prediction, scale: f64, system: System) -> (f64, f64) {
    let camber = times(CAMBER, &prediction.camber, scale, system);
    let sweep = times(SWEEP, &prediction.sweep, scale, system);
    if camber > 1.0 && sweep > 1.0 { (camber.min(sweep), camber.min(sweep)) } else { (camber, sweep) }
}

/// What is drawn larger than the rest, and how much.
fn scales(times: [(&str, f64); 2]) -> String {
    let larger: Vec<String> = times
        .iter()
        .filter(|(_, times)| *times > 1.0)
        .map(|(what, times)| format!("{what} {} ×", number(*times, 0)))
        .collect();
    if larger.is_empty() {
        "To scale.".to_owned()
    } else {
        format!("To scale, except: {}.", larger.join(", "))
    }
}

/// Whether the offset is zero in the digits shown.
pub(super) fn reads_straight(bow: &Bow, system: System) -> bool {
    let unit = Unit::offset(system);
    bow.toward == "straight" || bow.max_mm.abs() / unit.mm < 0.5 * 0.1_f64.powi(unit.decimals as i32)
}

/// A bow as a line without corners: place and offset, mm.
pub(super) fn line_of(bow: &Bow) -> Vec<Point> {
    let stations: Vec<Point> = bow.profile.iter().map(|p| (p[0], p[1])).collect();
    smooth(&stations)
}

impl<'m> View<'m> {
    fn scale_of(member: &Member) -> f64 {
        ((SIZE.0 - 2.0 * END) / member.length_mm).min(DEEPEST / member.depth.deepest_mm())
    }

    fn of(member: &'m Member, camber: &'m Bow, system: System, camber_times: f64) -> Self {
        let scale = Self::scale_of(member);
        let flanges = || member.outer_flange.iter().chain(&member.inner_flange);
        let thickest = flanges().fold(1.0_f64, |t, p| t.max(p.thickness_mm));
        let camber_line = line_of(camber);
        let bow = |pick: fn(f64, f64) -> f64| {
            camber_line.iter().fold(0.0, |b, p| pick(b, p.1)) * camber_times * scale
        };
        let (lowest, highest) = (bow(f64::min), bow(f64::max));
        let spare = (ROOM - member.depth.deepest_mm() * scale - (highest - lowest)).max(0.0);
        let mut stations: Vec<f64> = camber_line.iter().map(|p| p.0).collect();
        stations.extend([0.0, member.length_mm]);
        stations.extend(member.depth.points().iter().map(|p| p.0));
        stations.extend(flanges().map(|p| p.to_mm));
        stations.sort_by(f64::total_cmp);
        stations.dedup();
        let base = SIDE_TOP + 36.0 + THICK_FLANGE + 0.3 * spare + highest + member.depth.deepest_mm() * scale;
        let left = 0.5 * (SIZE.0 - member.length_mm * scale);
        Self {
            side: SideView { member, scale, left, base, bow: camber_line, times: camber_times, stations },
            camber,
            system,
            thickness_times: round_down(THICK_FLANGE / (thickest * scale)).max(1.0),
        }
    }

    fn thickness(&self, thickness_mm: f64) -> f64 {
        (thickness_mm * self.side.scale * self.thickness_times).max(THIN_FLANGE)
    }

    fn ghost(&self, paper: &Canvas<'_>) -> Done {
        let side = &self.side;
        let depths = side.member.depth.points().iter();
        let upper = depths.map(|p| (side.x(p.0), side.straight_edge(Seam::Inner, p.0)));
        let (from, to) = (side.x(0.0), side.x(side.member.length_mm));
        let outline: Vec<Point> = upper.chain([(to, side.base), (from, side.base)]).collect();
        paper.outline(&outline, GHOST)
    }

    /// Places along the member, between the two views.
    fn ruler(&self, paper: &Canvas<'_>) -> Done {
        let unit = Unit::along(self.system);
        let side = &self.side;
        let length = side.member.length_mm;
        let (marks, decimals) = ticks(0.0, length / unit.mm, length * side.scale / 75.0);
        paper.line(&[(side.x(0.0), RULER), (side.x(length), RULER)], ZERO)?;
        for mark in marks {
            let x = side.x(mark * unit.mm);
            paper.line(&[(x, RULER - 4.0), (x, RULER + 4.0)], ZERO)?;
            paper.text((x, RULER + 13.0), At::Middle, &number(mark, decimals), LABEL)?;
        }
        paper.text((side.x(length) + 13.0, RULER), At::Left, &format!("x, {}", unit.name), SMALL)?;
        let whole = format!("L {}", show::position(length, self.system));
        paper.text((side.x(0.0) - 13.0, RULER), At::Right, &whole, SMALL)
    }
}

/// "camber 9.2 ± 2.8 mm at 4.93 m", "camber 0.0 ± 0.4 mm" or "no camber".
pub(super) fn largest(name: &str, bow: &Bow, system: System) -> String {
    let size = Unit::offset(system).size_2s(bow.max_mm, bow.max_2s_mm);
    if !reads_straight(bow, system) {
        format!("{name} {size} at {}", show::position(bow.at_mm, system))
    } else if bow.max_2s_mm > 0.0 {
        format!("{name} {size}")
    } else {
        format!("no {name}")
    }
}

/// What the line kinds mean, of those that are there.
fn foot(paper: &Canvas<'_>, job: &Job) -> Done {
    let on = |side: Side| job.passes.iter().any(|pass| pass.side == side);
    let splice = Stroke { width: WEIGHTS.flange_splice.1, ..OUTLINE };
    let web = Stroke { width: WEIGHTS.web_splice, ..OUTLINE };
    let flanges = || Seam::BOTH.into_iter().flat_map(|seam| job.member.flange(seam));
    // a stroke as it lies in the picture, and the room before its words
    let lying = ([(0.0, 0.0), (28.0, 0.0)], 34.0);
    let upright = ([(0.0, -6.0), (0.0, 6.0)], 8.0);
    let kinds = [
        (on(Side::Near), NEAR_WELD, lying, "weld on the near side"),
        (on(Side::Far), FAR_WELD, lying, "weld on the far side"),
        (true, GHOST, lying, "unbent"),
        (flanges().any(|piece| piece.splice.is_some()), splice, upright, "flange splice"),
        (job.member.web.iter().any(|piece| piece.splice.is_some()), web, upright, "web splice"),
    ];
    let mut x = MARGIN;
    for (_, stroke, (ends, lead), text) in kinds.into_iter().filter(|kind| kind.0) {
        paper.line(&ends.map(|end: Point| (x + end.0, FOOT + end.1)), stroke)?;
        paper.text((x + lead, FOOT), At::Left, text, SMALL)?;
        x += lead + paper.width_of(text, SMALL)? + 26.0;
    }
    Ok(())
}
