//! What measured pieces did to the prediction: for each bow of each member the band as computed and the band after.

use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Canvas, Heading, MARGIN, WIDTH, clean, corners, draw};
use crate::measure::Unit;
use crate::number::number;
use crate::theme::{BLUE, GREY, LABEL, ORANGE, PALE, SKY_PALE, SMALL, Stroke, VALUE, ZERO};
use crate::{Done, Picture};
use weldbow_engine::units::System;
use weldbow_record::{Learned, Next, Quantity};

const LEFT: f64 = 250.0;
const RIGHT: f64 = 760.0;
const ROW: f64 = 46.0;
const OVER: f64 = 34.0;
const UNDER: f64 = 56.0;
/// Most rows (choice: more is for the table).
const MOST: usize = 16;

pub(super) fn before_after(found: &Learned, system: System) -> Done<Picture> {
    let bows = found.next.iter().filter(|n| matches!(n.what, Quantity::Camber | Quantity::Sweep));
    let rows: Vec<&Next> = bows.take(MOST).collect();
    let unit = Unit::offset(system);
    let heading = Heading {
        name: "record-before-after",
        job: "",
        what: "Camber and sweep as computed, and with the shop's own pieces",
        subtitle: format!(
            "{} pieces, {} readings; bands: two standard deviations of what all pieces share by welding, plates and fit-up",
            found.pieces, found.readings
        ),
        description: format!("{} rows, each with a pale band before and a dark one after.", rows.len()),
    };
    let height = BELOW_TITLE + OVER + ROW * rows.len() as f64 + UNDER;
    draw(&heading, (WIDTH, height), |paper| {
        let ends = rows.iter().flat_map(|n| {
            let before = 2.0 * n.before_bias_sd_mm;
            [n.before_mm - before, n.before_mm + before, n.band_mm[0], n.band_mm[1]]
        });
        let x = Range::around(ends, 2.0);
        let top = BELOW_TITLE + OVER;
        let panel = Panel::new((LEFT, RIGHT), (top, top + ROW * rows.len() as f64), x, Range::to(1.0));
        key(paper)?;
        paper.line(&[(panel.px(0.0), panel.top), (panel.px(0.0), panel.bottom)], ZERO)?;
        for (i, row) in rows.iter().enumerate() {
            one(paper, &panel, row, top + ROW * (i as f64 + 0.5), unit)?;
        }
        panel.x_axis(paper, unit, "offset at mid-length")
    })
}

fn key(paper: &Canvas<'_>) -> Done {
    let y = BELOW_TITLE + 12.0;
    let entries =
        [(PALE, "as computed"), (SKY_PALE, "nine of ten next pieces"), (BLUE, "with the shop's pieces")];
    let mut x = LEFT;
    for (ink, words) in entries {
        paper.fill(&corners((x, y - 5.0), (x + 18.0, y + 5.0)), ink, 1.0)?;
        paper.text((x + 24.0, y), At::Left, words, SMALL)?;
        x += 44.0 + paper.width_of(words, SMALL)?;
    }
    Ok(())
}

fn one(paper: &Canvas<'_>, p: &Panel, n: &Next, y: f64, unit: Unit) -> Done {
    let bar = |from: f64, to: f64, y: f64, half: f64, ink| {
        paper.fill(&corners((p.px(from), y - half), (p.px(to), y + half)), ink, 1.0)
    };
    let name = paper.shortened(&clean(&n.member), LEFT - MARGIN - 80.0, LABEL)?;
    paper.text((LEFT - 70.0, y), At::Right, &name, LABEL)?;
    paper.text((LEFT - 12.0, y), At::Right, n.what.kind().name(), SMALL)?;
    let before = 2.0 * n.before_bias_sd_mm;
    bar(n.before_mm - before, n.before_mm + before, y - 9.0, 5.0, PALE)?;
    let x = p.px(n.before_mm);
    paper.line(&[(x, y - 15.0), (x, y - 3.0)], Stroke::new(GREY, 1.4, &[]))?;
    bar(n.band_mm[0], n.band_mm[1], y + 7.0, 5.0, SKY_PALE)?;
    let after = 2.0 * n.bias_sd_mm;
    bar(n.mean_mm - after, n.mean_mm + after, y + 7.0, 3.0, BLUE)?;
    let x = p.px(n.mean_mm);
    paper.line(&[(x, y + 1.0), (x, y + 13.0)], Stroke::new(ORANGE, 1.8, &[]))?;
    let shown = |mm: f64| number(mm / unit.mm, unit.decimals);
    let words = format!("{} ± {}", shown(n.mean_mm), shown(after));
    paper.text((RIGHT + 12.0, y + 7.0), At::Left, &words, VALUE.in_ink(BLUE))?;
    let words = format!("{} ± {}", shown(n.before_mm), shown(before));
    paper.text((RIGHT + 12.0, y - 9.0), At::Left, &words, SMALL)
}
