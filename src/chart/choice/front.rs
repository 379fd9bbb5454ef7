//! Arc time against distortion: everything screened, the front that nothing beats, and the options.

use crate::axes::{Panel, Range};
use crate::measure::Unit;
use crate::paper::{At, BELOW_TITLE, Heading, Paper, draw};
use crate::spread::spread;
use crate::theme::{BLUE, GREY, LABEL, LIMIT, PALE, PREDICTED, SMALL, VALUE, VERMILION, WHITE};
use crate::{ChartError, Picture};
use weldbow_engine::choose::Choice;

const SIZE: (f64, f64) = (900.0, 560.0);
/// Shares above this are not worth the room.
const MOST_USED: f64 = 1.6;
const MINUTES: Unit = Unit { name: "min", mm: 60.0, decimals: 1 };
const PERCENT: Unit = Unit { name: "%", mm: 0.01, decimals: 0 };

pub(super) fn front(choice: &Choice) -> Result<Picture, ChartError> {
    let shown: Vec<(f64, f64, bool)> = choice.cloud.iter().copied().filter(|p| p.1 <= MOST_USED).collect();
    let heading = Heading {
        name: "front",
        job: &choice.title,
        what: "arc time against distortion",
        subtitle: format!(
            "Dots: candidates, blue inside every tolerance with {:.0} %. Line: nothing is faster and straighter.",
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
    let panel = Panel {
        left: 88.0,
        right: 640.0,
        top: BELOW_TITLE + 16.0,
        bottom: SIZE.1 - 62.0,
        x: Range { low: 0.0, high: 1.05 * x.fold(60.0, f64::max) },
        y: Range { low: 0.0, high: 1.05 * y.fold(0.0, f64::max) },
    };
    draw(&heading, SIZE, |paper| {
        panel.y_axis(paper, PERCENT, "share of the tightest tolerance used")?;
        panel.x_axis(paper, MINUTES, "arc time of the member")?;
        for (arc, used, inside) in &shown {
            let ink = if *inside { BLUE } else { PALE };
            paper.fill(&square(panel.at(*arc, *used), 1.6), ink, if *inside { 0.35 } else { 1.0 })?;
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
        if let Some(last) = out.last().copied() {
            let (_, y): (f64, f64) = last;
            out.push((panel.px(point.arc_s), y));
        }
        out.push(panel.at(point.arc_s, point.used.min(MOST_USED)));
    }
    out
}

fn square((x, y): (f64, f64), half: f64) -> [(f64, f64); 4] {
    [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]
}

/// Options as dots, named at the right.
fn marks(
    paper: &Paper<'_>,
    panel: &Panel,
    choice: &Choice,
    options: &[(f64, f64)],
) -> Result<(), ChartError> {
    let wanted: Vec<f64> = options.iter().map(|o| panel.py(o.1)).collect();
    let places = spread(&wanted, 34.0, panel.top + 8.0, panel.bottom - 8.0);
    for (number, ((weld, at), y)) in choice.options.iter().zip(options).zip(places).enumerate() {
        let dot = panel.at(at.0, at.1);
        let ink = if number == 0 { VERMILION } else { BLUE };
        let left = panel.right + 26.0;
        paper.line(&[dot, (panel.right + 4.0, y), (left - 4.0, y)], crate::theme::THIN)?;
        paper.dot(dot, 5.0, ink)?;
        let room = SIZE.0 - left - 10.0;
        let name = paper.shortened(&format!("{number}  {}", weld.name), room, VALUE)?;
        paper.text((left, y - 7.0), At::Left, &name, VALUE.in_ink(ink))?;
        let words = format!(
            "{:.1} min, {:.0} % used, {:.1} % inside",
            weld.score.effort.arc_s / 60.0,
            100.0 * weld.score.used,
            100.0 * weld.pieces.inside
        );
        paper.text((left, y + 8.0), At::Left, &paper.shortened(&words, room, LABEL)?, SMALL.in_ink(GREY))?;
    }
    Ok(())
}
