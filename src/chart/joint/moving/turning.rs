//! How the place amid the length turns while the arc comes, passes and goes.

use super::drawn::{DEGREE, Drawn, cup, tilt};
use super::ended;
use crate::axes::{LEFT, Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, Point, WIDTH, draw};
use crate::joint::worded::angle;
use crate::measure::Unit;
use crate::theme::{GHOST, HEADING, SMALL};
use crate::{Done, Picture};
use weldbow_engine::moving_arc::{Glance, PassTravelled};

const RIGHT: f64 = 730.0;
const TALL: f64 = 220.0;
const NEXT: f64 = 300.0;
/// Times after the arc has gone are drawn up to this many times the time that it took (a choice: most has come to rest).
const SHOWN: f64 = 4.0;

pub(super) fn turning(drawn: &Drawn<'_>) -> Done<Picture> {
    let ahead = drawn.passes().first().and_then(|pass| share_ahead(drawn, pass));
    let found = ahead.map_or_else(String::new, |share| {
        format!("{:.0} % of the first tilt is there before the arc is. ", 100.0 * share)
    });
    let heading = Heading {
        name: "moving-turning",
        job: &drawn.job.title,
        what: &format!("how the {} turns while the arc travels", drawn.place()),
        subtitle: format!("{found}{}.", drawn.case()),
        description: format!("Cup and tilt amid the length against time, one plot a pass. {found}"),
    };
    let height = BELOW_TITLE + NEXT * drawn.passes().len() as f64 + 6.0;
    draw(&heading, (WIDTH, height), |paper| {
        let mut passes = drawn.passes().iter().enumerate();
        passes.try_for_each(|(k, pass)| one(paper, drawn, k, pass, BELOW_TITLE + 28.0 + NEXT * k as f64))
    })
}

/// When the arc stands amid the length, s.
fn amid_s(drawn: &Drawn<'_>) -> f64 {
    drawn.travel().length_mm / 2.0 / drawn.travel().speed_mm_s
}

/// Part of the tilt that is there as the arc comes by.
fn share_ahead(drawn: &Drawn<'_>, pass: &PassTravelled) -> Option<f64> {
    let line = history(pass, tilt);
    let end = line.last()?.1;
    let after = line.iter().position(|(t, _)| *t > amid_s(drawn))?;
    let [from, to] = [line.get(after.checked_sub(1)?)?, line.get(after)?];
    let there = from.1 + (to.1 - from.1) * (amid_s(drawn) - from.0) / (to.0 - from.0);
    (end.abs() > 1e-3).then(|| there / end)
}

fn history(pass: &PassTravelled, read: fn(&Glance) -> f64) -> Vec<Point> {
    let amid = pass.along.len() / 2;
    pass.frames.iter().filter_map(|frame| Some((frame.time_s, read(frame.slices.get(amid)?)))).collect()
}

fn one(paper: &Canvas<'_>, drawn: &Drawn<'_>, k: usize, pass: &PassTravelled, top: f64) -> Done {
    let over_s = drawn.travel().length_mm / drawn.travel().speed_mm_s;
    let second = Unit { name: "s", mm: 1.0, decimals: 0 };
    let named = [("cup", history(pass, cup)), ("tilt", history(pass, tilt))];
    let x = Range::to((1.0 + SHOWN) * over_s);
    let y = Range::around(named.iter().flat_map(|(_, line)| line.iter().map(|p| p.1)), DEGREE.mm * 0.1);
    let panel = Panel::new((LEFT, RIGHT), (top, top + TALL), x, y);
    paper.text((MARGIN, top - 16.0), At::Left, &format!("Pass {}", k + 1), HEADING)?;
    panel.y_axis(paper, DEGREE, "angle amid the length")?;
    for (t, word) in [(amid_s(drawn), "arc here"), (over_s, "arc gone")] {
        paper.line(&[panel.at(t, y.low), panel.at(t, y.high)], GHOST)?;
        paper.text((panel.px(t) + 4.0, top + 6.0), At::Left, word, SMALL)?;
    }
    let lines = named.map(|(name, line)| {
        let cold = format!("{name}, cold {}", angle(line.last().map_or(0.0, |p| p.1)));
        let shown: Vec<Point> = line.into_iter().filter(|p| (x.low..=x.high).contains(&p.0)).collect();
        (shown, cold)
    });
    ended::lines(paper, &panel, &lines)?;
    panel.x_axis(paper, second, "time since the arc started")
}
