//! The words and signs of this program in one drawing, the same for every job.

use super::canvas::{At, Canvas, Heading, Point, SIZE, corners, draw};
use super::dimension::{arrow, span, turn};
use super::theme::{
    BLACK, BLUE, GHOST, GREEN, HEADING, Ink, LABEL, OUTLINE, SMALL, STEEL, Stroke, THIN, VALUE, VERMILION,
    WEB,
};
use super::{Done, Picture};
use std::f64::consts::PI;

/// The drawing of axes, sides, flanges and of everything that has a sign.
///
/// # Errors
/// Only a broken build gives one.
pub fn signs() -> Done<Picture> {
    let heading = Heading {
        name: "signs",
        job: "",
        what: "Words and signs",
        subtitle: "x runs from the start end, y from the outer web edge toward the inner flange, z toward the near side."
            .to_owned(),
        description: "Side view: the outer flange is straight, the inner one tapered; camber is positive toward the \
                      inner flange. View from the outer side: sweep is positive toward the near side. Sections seen \
                      from the start end, near side at the right: cup is positive when both toes rise toward the web, \
                      tilt when the near half is higher, toe offsets are positive toward the web, and the lever arm \
                      runs from the web plane to the line of action of a weld, positive toward the near side."
            .to_owned(),
    };
    draw(&heading, SIZE, |paper| {
        side_view(paper)?;
        outer_view(paper)?;
        // both halves rise toward the web; the near half is higher than the far half
        let cup = Section { middle: 626.0, web_edge: 226.0, near: 24.0, far: 24.0 };
        cup.turned(paper, "cup +", PI - 0.34, (-34.0, "mean rise of both halves"))?;
        let tilt = Section { middle: 800.0, web_edge: 226.0, near: 24.0, far: -24.0 };
        tilt.turned(paper, "tilt +", PI + 0.34, (-48.0, "half the difference"))?;
        Section { middle: 711.0, web_edge: 472.0, near: 34.0, far: 12.0 }.toes(paper)
    })
}

/// A line bent up by `rise` px between two ends of one height.
fn bent(from: f64, to: f64, y: impl Fn(f64) -> f64, rise: f64) -> Vec<Point> {
    (0..=40)
        .map(|i| f64::from(i) / 40.0)
        .map(|s| (from + s * (to - from), y(s) - rise * (PI * s).sin()))
        .collect()
}

fn band(lower: Vec<Point>, thick: f64) -> Vec<Point> {
    let upper: Vec<Point> = lower.iter().rev().map(|p| (p.0, p.1 - thick)).collect();
    lower.into_iter().chain(upper).collect()
}

fn side_view(paper: &Canvas<'_>) -> Done {
    const FROM: f64 = 74.0;
    const TO: f64 = 486.0;
    const BASE: f64 = 258.0;
    const RISE: f64 = 34.0;
    let inner = |s: f64| BASE - 62.0 - 50.0 * s;
    paper.text((24.0, 84.0), At::Left, "Side view: camber", HEADING)?;
    let mut web = bent(FROM, TO, |_| BASE, RISE);
    web.extend(bent(FROM, TO, inner, RISE).into_iter().rev());
    paper.shape(&web, WEB, 1.0, Stroke { width: 0.8, ..OUTLINE })?;
    for flange in [band(bent(FROM, TO, |_| BASE + 7.0, RISE), 7.0), band(bent(FROM, TO, inner, RISE), 7.0)] {
        paper.shape(&flange, STEEL, 0.8, Stroke { width: 0.8, ..OUTLINE })?;
    }
    paper.line(&[(FROM, BASE), (TO, BASE)], GHOST)?;
    let middle = 0.5 * (FROM + TO);
    span(paper, (middle, BASE), (middle, BASE - RISE), VERMILION)?;
    paper.text((middle + 8.0, BASE - 11.0), At::Left, "camber +", VALUE.in_ink(VERMILION))?;
    paper.text((middle, BASE - 79.0), At::Middle, "web, near side in front", LABEL)?;
    paper.text((196.0, 114.0), At::Middle, "inner flange, tapered side", LABEL)?;
    paper.text((middle, BASE + 22.0), At::Middle, "outer flange, straight side", LABEL)?;
    paper.text((FROM - 8.0, BASE - 20.0), At::Right, "start", LABEL)?;
    paper.text((TO + 8.0, BASE - 20.0), At::Left, "finish", LABEL)?;
    axes(paper, (FROM, BASE), "y", "z comes out of the picture")
}

fn outer_view(paper: &Canvas<'_>) -> Done {
    const FROM: f64 = 74.0;
    const TO: f64 = 486.0;
    const AXIS: f64 = 462.0;
    const RISE: f64 = 34.0;
    paper.text((24.0, 340.0), At::Left, "Seen from the outer side: sweep", HEADING)?;
    let flange = band(bent(FROM, TO, |_| AXIS + 22.0, RISE), 44.0);
    paper.shape(&flange, STEEL, 0.45, Stroke { width: 0.8, ..OUTLINE })?;
    paper.line(&bent(FROM, TO, |_| AXIS, RISE), Stroke { ink: BLACK, ..GHOST })?;
    paper.line(&[(FROM, AXIS), (TO, AXIS)], GHOST)?;
    let middle = 0.5 * (FROM + TO);
    span(paper, (middle, AXIS), (middle, AXIS - RISE), VERMILION)?;
    paper.text((middle + 8.0, AXIS - RISE - 10.0), At::Left, "sweep +", VALUE.in_ink(VERMILION))?;
    let near = "near side: faces up when the web lies flat in the line";
    paper.text((middle, AXIS - RISE - 36.0), At::Middle, near, LABEL)?;
    paper.text((middle, AXIS + 40.0), At::Middle, "far side", LABEL)?;
    paper.text((TO + 8.0, AXIS), At::Left, "chord", SMALL)?;
    axes(paper, (FROM, AXIS), "z", "y goes into the picture")
}

/// x to the right and another axis up, from their common zero.
fn axes(paper: &Canvas<'_>, zero: Point, up: &str, third: &str) -> Done {
    let (x, y) = (zero.0 - 30.0, zero.1 + 50.0);
    arrow(paper, (x, y), (x + 52.0, y), GREEN)?;
    arrow(paper, (x, y), (x, y - 44.0), GREEN)?;
    paper.text((x + 62.0, y), At::Middle, "x", VALUE.in_ink(GREEN))?;
    paper.text((x - 10.0, y - 40.0), At::Middle, up, VALUE.in_ink(GREEN))?;
    paper.text((x + 78.0, y), At::Left, third, SMALL)
}

/// One flange under its web, seen from the start end.
struct Section {
    /// Web plane, px.
    middle: f64,
    /// Height of the web edge, px.
    web_edge: f64,
    /// Rise of the near and of the far toe, px.
    near: f64,
    far: f64,
}

impl Section {
    const HALF: f64 = 68.0;
    const THICK: f64 = 11.0;
    const WEB: f64 = 112.0;
    const FACE: f64 = 3.5;

    fn at(&self, z: f64, toward: f64) -> Point {
        (self.middle + z, self.web_edge - toward)
    }

    fn plates(&self, paper: &Canvas<'_>, heading: &str, half: f64) -> Done {
        paper.text((self.middle, self.web_edge - Self::WEB - 24.0), At::Middle, heading, HEADING)?;
        let web = corners(self.at(-Self::FACE, 0.0), self.at(Self::FACE, Self::WEB));
        paper.shape(&web, WEB, 1.0, OUTLINE)?;
        let body = [
            self.at(half, self.near),
            self.at(0.0, 0.0),
            self.at(-half, self.far),
            self.at(-half, self.far - Self::THICK),
            self.at(0.0, -Self::THICK),
            self.at(half, self.near - Self::THICK),
        ];
        paper.shape(&body, STEEL, 0.75, OUTLINE)?;
        paper.line(&[self.at(-half - 16.0, 0.0), self.at(half + 16.0, 0.0)], GHOST)
    }

    fn fillet(&self, paper: &Canvas<'_>, ink: Ink) -> Done {
        let lean = self.near / Self::HALF;
        let corner = |z: f64, up: f64| self.at(Self::FACE + z, up + lean * z);
        paper.fill(&[corner(0.0, 0.0), corner(13.0, 0.0), self.at(Self::FACE, 13.0)], ink, 1.0)
    }

    /// How the halves turn: the near one toward the web, the far one to an angle; with words at a height.
    fn turned(&self, paper: &Canvas<'_>, heading: &str, far: f64, (height, words): (f64, &str)) -> Done {
        self.plates(paper, heading, Self::HALF)?;
        let (x, y) = self.at(12.0, Self::WEB - 12.0);
        paper.text((x, y), At::Left, "near", SMALL)?;
        paper.text((2.0 * self.middle - x, y), At::Right, "far", SMALL)?;
        turn(paper, self.at(0.0, 0.0), 76.0, 0.0, 0.34, VERMILION)?;
        turn(paper, self.at(0.0, 0.0), 76.0, PI, far, VERMILION)?;
        paper.text(self.at(0.0, height), At::Middle, words, SMALL)
    }

    /// Toe offsets and the lever arm of a weld.
    fn toes(&self, paper: &Canvas<'_>) -> Done {
        let half = 84.0;
        self.plates(paper, "flange toe offsets and lever arm", half)?;
        Section { near: self.near * Self::HALF / half, ..*self }.fillet(paper, BLUE)?;
        for (side, toward, name) in [(1.0, self.near, "near toe +"), (-1.0, self.far, "far toe +")] {
            let z = side * (half + 8.0);
            arrow(paper, self.at(z, 0.0), self.at(z, toward), VERMILION)?;
            let from = if side > 0.0 { At::Left } else { At::Right };
            paper.text(self.at(side * (half + 16.0), 0.5 * toward), from, name, VALUE.in_ink(VERMILION))?;
        }
        let dashed = "dashed: square line, from which toes are measured";
        paper.text(self.at(0.0, -34.0), At::Middle, dashed, SMALL)?;
        // the line of action lies inside the weld's heated metal, here near its throat
        let (arm, level) = (14.0, 58.0);
        paper.line(&[self.at(0.0, Self::WEB + 6.0), self.at(0.0, -20.0)], Stroke { ink: BLACK, ..GHOST })?;
        paper.line(&[self.at(arm, 6.0), self.at(arm, level + 4.0)], THIN)?;
        arrow(paper, self.at(44.0, level), self.at(arm, level), GREEN)?;
        arrow(paper, self.at(-30.0, level), self.at(0.0, level), GREEN)?;
        paper.text(self.at(48.0, level), At::Left, "lever arm +", VALUE.in_ink(GREEN))?;
        paper.text(self.at(14.0, Self::WEB), At::Left, "near", SMALL)?;
        paper.text(self.at(-14.0, Self::WEB), At::Right, "far", SMALL)
    }
}
