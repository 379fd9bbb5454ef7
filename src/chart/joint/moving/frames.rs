//! Instants of the joint while the arc travels: how hot its face is and how its halves stand, seen from the near side and a little from above.

use super::drawn::{Drawn, cup, tilt};
use crate::canvas::{At, Canvas, Heading, MARGIN, Point, WIDTH, draw};
use crate::joint::bands::Bands;
use crate::joint::clip::Vertex;
use crate::joint::legend::legend;
use crate::joint::levels::temperature;
use crate::joint::worded::{angle, degree_name, degrees};
use crate::number::{number, round_down};
use crate::theme::{GHOST, HEADING, LABEL, OUTLINE, SMALL};
use crate::{Done, Picture};
use weldbow_engine::moving_arc::{Frame, PassTravelled};
use weldbow_engine::units::show;

/// Right of the pictures for the legend, px.
const BAR: f64 = 110.0;
const COLUMNS: usize = 3;
const ROWS: usize = 2;
/// Between pictures, and over each for its words, px.
const APART: f64 = 18.0;
const WORDS: f64 = 34.0;
/// A millimetre across is drawn so much of one along: to the left and down for the near side.
const SLANT: [f64; 2] = [0.30, 0.42];
/// Height of web that is drawn, of its flange's width.
const WEB: f64 = 0.35;
/// The highest edge is drawn about so far from flat, parts of the flange's width.
const RISE: f64 = 0.16;
/// Instants shown while the arc is on the joint, parts of its time; then how long after it, times that time; the last is cold.
const WHILE: [f64; 4] = [0.2, 0.5, 0.8, 1.0];
const AFTER: f64 = 1.5;

pub(super) fn frames(drawn: &Drawn<'_>) -> Done<Picture> {
    let scene = Scene::of(drawn);
    let row = WORDS + scene.tall + APART;
    let passes = drawn.passes();
    let height = 84.0 + passes.len() as f64 * (26.0 + ROWS as f64 * row) + 14.0;
    let heading = Heading {
        name: "moving-frames",
        job: &drawn.job.title,
        what: &format!("the {} while the arc travels", drawn.place()),
        subtitle: format!("{}. Rise of the flange's halves drawn {} ×.", drawn.case(), number(scene.times, 0)),
        description: "Small pictures of flange and web at instants while the arc travels and after it: shades of temperature, and how far the \
                      halves of the flange have turned."
            .to_owned(),
    };
    let bands = temperature(drawn.system);
    draw(&heading, (WIDTH, height.max(460.0)), |paper| {
        let mut top = 84.0;
        for (k, pass) in passes.iter().enumerate() {
            paper.text((MARGIN, top), At::Left, &format!("Pass {}", k + 1), HEADING)?;
            top += 26.0;
            for (n, frame) in chosen(drawn, pass).into_iter().enumerate() {
                let at =
                    (MARGIN + (n % COLUMNS) as f64 * (scene.wide + APART), top + (n / COLUMNS) as f64 * row);
                scene.draw(paper, &bands, frame, at)?;
            }
            top += ROWS as f64 * row;
        }
        let place = (WIDTH - MARGIN - BAR + 40.0, 96.0, height.max(460.0) - 24.0);
        let name = degree_name(drawn.system);
        legend(paper, &bands, place, name, |c| degrees(c, drawn.system), "molten")
    })
}

/// Frames nearest to the instants that are shown.
fn chosen<'p>(drawn: &Drawn<'_>, pass: &'p PassTravelled) -> Vec<&'p Frame> {
    let over_s = drawn.travel().length_mm / drawn.travel().speed_mm_s;
    let wanted = WHILE.into_iter().chain([1.0 + AFTER]).map(|part| part * over_s);
    let near =
        |t: f64| pass.frames.iter().min_by(|a, b| (a.time_s - t).abs().total_cmp(&(b.time_s - t).abs()));
    wanted.filter_map(near).chain(pass.frames.last()).collect()
}

/// How the joint lies on the paper.
struct Scene<'a> {
    drawn: &'a Drawn<'a>,
    /// Size of a picture, px.
    wide: f64,
    tall: f64,
    /// px of a millimetre.
    scale: f64,
    /// Rises are drawn so many times.
    times: f64,
    half_mm: f64,
}

impl<'a> Scene<'a> {
    fn of(drawn: &'a Drawn<'a>) -> Self {
        let width_mm = drawn.moved.joint.flange_width_mm;
        let wide = (WIDTH - 2.0 * MARGIN - BAR) / COLUMNS as f64 - APART;
        let scale = wide / (drawn.travel().length_mm + SLANT[0] * width_mm);
        let rises = drawn.passes().iter().flat_map(|pass| &pass.frames).flat_map(|frame| &frame.slices);
        let largest = rises.map(|g| g.near_rad.abs().max(g.far_rad.abs())).fold(0.0, f64::max);
        let times = if largest < 1e-6 { 1.0 } else { round_down(2.0 * RISE / largest).max(1.0) };
        let tall = scale * width_mm * (SLANT[1] + WEB + RISE);
        Self { drawn, wide, tall, scale, times, half_mm: width_mm / 2.0 }
    }

    /// Where a place lies: along, across with the near side positive, up, mm.
    fn at(&self, corner: Point, [x, y, z]: [f64; 3]) -> Point {
        let across = self.half_mm - y;
        let down = (2.0 * self.half_mm * WEB + SLANT[1] * (y + self.half_mm) - z) * self.scale;
        (corner.0 + self.scale * (x + SLANT[0] * across), corner.1 + WORDS + down)
    }

    fn draw(&self, paper: &Canvas<'_>, bands: &Bands, frame: &Frame, corner: Point) -> Done {
        let length_mm = self.drawn.travel().length_mm;
        let web = |x: f64, z: f64| self.at(corner, [x, 0.0, z]);
        let high = 2.0 * self.half_mm * WEB;
        self.half(paper, bands, frame, corner, -1.0)?;
        paper.outline(&[web(0.0, 0.0), web(length_mm, 0.0), web(length_mm, high), web(0.0, high)], GHOST)?;
        self.half(paper, bands, frame, corner, 1.0)?;
        if (0.0..=length_mm).contains(&frame.arc_mm) {
            let at = web(frame.arc_mm, 0.0);
            paper.line(&[(at.0, at.1 - 26.0), (at.0, at.1 - 4.0)], OUTLINE)?;
            paper.text((at.0, at.1 - 32.0), At::Middle, "arc", SMALL)?;
        }
        let amid = frame.slices.get(frame.slices.len() / 2);
        let (cup, tilt) = amid.map_or((0.0, 0.0), |glance| (cup(glance), tilt(glance)));
        let hottest = frame.slices.iter().map(|g| g.hottest_c).fold(f64::NEG_INFINITY, f64::max);
        let decimals = usize::from(frame.time_s < 100.0);
        let hottest = show::temperature(hottest, self.drawn.system);
        let time = format!("{} s, hottest {hottest}", number(frame.time_s, decimals));
        paper.text((corner.0, corner.1 + 4.0), At::Left, &time, LABEL)?;
        let words = format!("amid: cup {}, tilt {}", angle(cup), angle(tilt));
        paper.text((corner.0, corner.1 + 20.0), At::Left, &words, SMALL)
    }

    /// One half of the flange, in its shades.
    fn half(&self, paper: &Canvas<'_>, bands: &Bands, frame: &Frame, corner: Point, side: f64) -> Done {
        let travel = self.drawn.travel();
        let across = &self.drawn.moved.outcome.across_mm;
        let places: Vec<usize> = (0..across.len()).filter(|&k| side * across[k] >= -1e-9).collect();
        let last = frame.slices.len().saturating_sub(1);
        // the first and last slice stand for all out to the ends
        let x = |s: usize| match s {
            0 => 0.0,
            s if s == last => travel.length_mm,
            s => travel.place_mm(s),
        };
        let vertex = |s: usize, k: usize| {
            let glance = &frame.slices[s];
            let rise = if side > 0.0 { glance.near_rad } else { glance.far_rad };
            let at = self.at(corner, [x(s), across[k], self.times * rise * across[k].abs()]);
            Vertex { at: [at.0, at.1], value: glance.face_c.get(k).copied().unwrap_or(0.0) }
        };
        for s in 1..frame.slices.len() {
            for pair in places.windows(2) {
                let corners = [(s - 1, pair[0]), (s, pair[0]), (s, pair[1]), (s - 1, pair[1])];
                bands.piece(paper, &corners.map(|(s, k)| vertex(s, k)))?;
            }
        }
        let edge = if side > 0.0 { across.len().saturating_sub(1) } else { 0 };
        let rim = |k: usize| (0..frame.slices.len()).map(move |s| (s, k));
        let point = |(s, k): (usize, usize)| {
            let at = vertex(s, k).at;
            (at[0], at[1])
        };
        let outer: Vec<Point> = rim(edge).map(point).collect();
        paper.line(&outer, OUTLINE)?;
        for s in [0, last] {
            let end: Vec<Point> = places.iter().map(|&k| point((s, k))).collect();
            paper.line(&end, OUTLINE)?;
        }
        Ok(())
    }
}
