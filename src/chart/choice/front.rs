//! Arc time against distortion: everything screened, the front that nothing beats, and the options.

use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, Point, SIZE, corners, draw};
use crate::measure::Unit;
use crate::theme::{BLUE, GREY, Ink, LIMIT, Letters, PREDICTED, SMALL, STEEL, THIN, VALUE, VERMILION, WHITE};
use crate::{Done, Picture};
use weldbow_engine::choose::Choice;

/// Shares above this are not worth the room.
const MOST_USED: f64 = 1.6;
const MINUTES: Unit = Unit { name: "min", mm: 60.0, decimals: 1 };
const PERCENT: Unit = Unit { name: "%", mm: 0.01, decimals: 0 };

pub(super) fn front(choice: &Choice) -> Done<Picture> {
    let shown: Vec<(f64, f64, bool)> = choice.cloud.iter().copied().filter(|p| p.1 <= MOST_USED).collect();
    let heading = Heading {
        name: "front",
        job: &choice.title,
        what: "arc time against distortion",
        subtitle: format!(
            "Small squares: candidates, blue inside every tolerance with {:.0} %. Line: nothing is faster and straighter.",
            100.0 * choice.wishes.confidence
        ),
        description: format!(
            "{} candidates by arc time and by the share of the tightest tolerance, with the front and {} options.",
            shown.len(),
            choice.options.len()
        ),
    };
    let options: Vec<(f64, f64)> =
        choice.options.iter().map(|w| (w.score.effort.arc_s, w.score.used.min(MOST_USED))).collect();
    let x = shown.iter().map(|p| p.0).chain(options.iter().map(|o| o.0));
    let y = shown.iter().map(|p| p.1).chain(options.iter().map(|o| o.1)).chain([1.0]);
    let x = Range::to(1.05 * x.fold(60.0, f64::max));
    let y = Range::to(1.05 * y.fold(0.0, f64::max));
    let panel = Panel::new((88.0, 640.0), (BELOW_TITLE + 16.0, SIZE.1 - 62.0), x, y);
    draw(&heading, SIZE, |paper| {
        panel.y_axis(paper, PERCENT, "share of the tightest tolerance used")?;
        panel.x_axis(paper, MINUTES, "arc time of the member")?;
        for (arc, used, inside) in &shown {
            let (ink, alpha) = if *inside { (BLUE, 0.4) } else { (STEEL, 0.45) };
            let (x, y) = panel.at(*arc, *used);
            paper.fill(&corners((x - 1.6, y - 1.6), (x + 1.6, y + 1.6)), ink, alpha)?;
        }
        let limit = panel.py(1.0);
        paper.line(&[(panel.left, limit), (panel.right, limit)], LIMIT)?;
        paper.plated((panel.left + 6.0, limit - 9.0), At::Left, "limit", SMALL.in_ink(VERMILION), WHITE)?;
        paper.line(&steps(&panel, choice), PREDICTED)?;
        marks(paper, &panel, choice, &options)
    })
}

/// The front as stairs: up to the next point nothing better is known.
fn steps(panel: &Panel, choice: &Choice) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    for point in &choice.front {
        let level = out.last().map(|last: &Point| (panel.px(point.arc_s), last.1));
        out.extend(level);
        out.push(panel.at(point.arc_s, point.used.min(MOST_USED)));
    }
    out
}

/// Radius of a dot that bears its number, px, and how far dots stand apart at least.
const DOT: f64 = 8.5;
const APART: f64 = 19.0;
/// Height of a line at the right, and of the gap between two entries, px.
const LINE: f64 = 15.0;
const GAP: f64 = 10.0;

/// Options as dots with their numbers, named at the right in the order of the numbers: no leader has to cross the plot.
fn marks(paper: &Canvas<'_>, panel: &Panel, choice: &Choice, options: &[(f64, f64)]) -> Done {
    let ink = |number: usize| if number == 0 { VERMILION } else { BLUE };
    let left = panel.right + 24.0;
    let room = SIZE.0 - left - 32.0;
    let mut taken: Vec<Point> = Vec::new();
    let mut y = panel.top + 10.0;
    for (number, (weld, at)) in choice.options.iter().zip(options).enumerate() {
        let ink = ink(number);
        let own = panel.at(at.0, at.1);
        let mut dot = own;
        while taken.iter().any(|t: &Point| (t.0 - dot.0).hypot(t.1 - dot.1) < APART) {
            dot.1 -= APART;
        }
        taken.push(dot);
        paper.line(&[own, dot], THIN)?;
        paper.dot(own, 3.0, ink)?;
        badge(paper, (left + DOT, y), number, ink)?;
        // an option that is best in several things names them one under the other
        for name in weld.name.split(", ") {
            paper.text_within((left + 24.0, y), room, name, VALUE.in_ink(ink))?;
            y += LINE;
        }
        let words = format!(
            "{:.1} min, {:.0} % used, {:.0} % inside",
            weld.score.effort.arc_s / 60.0,
            100.0 * weld.score.used,
            100.0 * weld.pieces.inside
        );
        paper.text_within((left + 24.0, y), room, &words, SMALL.in_ink(GREY))?;
        y += LINE + GAP;
    }
    // numbers last, so that no dot lies on one
    taken.iter().enumerate().try_for_each(|(number, dot)| badge(paper, *dot, number, ink(number)))
}

fn badge(paper: &Canvas<'_>, at: Point, number: usize, ink: Ink) -> Done {
    paper.dot(at, DOT, ink)?;
    paper.text(at, At::Middle, &number.to_string(), Letters { ink: WHITE, ..VALUE })
}
