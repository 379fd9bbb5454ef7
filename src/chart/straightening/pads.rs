//! What the pad of a ram uses of the plates under it, wherever along the member it stood, and where the plan puts pads.

use super::super::axes::{Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Heading, draw};
use super::super::measure::Unit;
use super::super::spread::spread;
use super::super::theme::{BLACK, LABEL, LIMIT, SMALL, Stroke, THIN, VERMILION, series};
use super::super::{Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::piece::Piece;
use weldbow_engine::straighten::plan::Push;
use weldbow_engine::straighten::press::{Bears, PadUse, Pads, checks, pad_use};
use weldbow_engine::units::{System, show};

const SIZE: (f64, f64) = (900.0, 400.0);
const RIGHT: f64 = 600.0;
const PLACES: u32 = 120;
const PURE: Unit = Unit { name: "1 is all", mm: 1.0, decimals: 1 };
/// Beyond this the plot would be all excess.
const MOST: f64 = 2.5;

/// The picture.
pub(super) fn pads(job: &Job, piece: &Piece, push: &Push, system: System) -> Done<Picture> {
    let member = &job.member;
    let pads = piece.shop.press.map_or(Pads { ram_mm: 0.0, support_mm: 0.0, leg_mm: 0.0 }, |p| p.pads);
    let force = push.bent.force_n.high;
    let reach = 0.5 * pads.ram_mm;
    let x: Vec<f64> = (0..=PLACES)
        .map(|i| reach + (member.length_mm - 2.0 * reach) * f64::from(i) / f64::from(PLACES))
        .collect();
    let found = pad_use(member, push.layout.from, pads, force, &x);
    let strong = push.layout.from.strong();
    let lines: Vec<(&str, Vec<f64>)> = if strong {
        let of = |f: fn(&PadUse) -> f64| found.iter().map(f).collect();
        vec![
            ("web yielding, AISC 360-22 J10.2, memory", of(|u| u.yielding)),
            ("web crippling, AISC 360-22 J10.3, memory", of(|u| u.crippling)),
            ("patch load, EN 1993-1-5 6, memory", of(|u| u.patch)),
        ]
    } else {
        vec![("flange edge, AISC 360-22 J7, memory", found.iter().map(|u| u.yielding).collect())]
    };
    let patch = piece.shop.press.is_some_and(|p| p.patch);
    let worst = checks(member, &push.layout, &Bears { pads, patch, stiffeners: &piece.stiffeners }, force);
    let finding = format!(
        "{} in a ram on the {}, pad {} long{}",
        show::force(force, system),
        push.layout.from.place(),
        show::plate(pads.ram_mm, system),
        if strong && !patch { "; the patch load is shown, not judged" } else { "" }
    );
    let heading = Heading {
        name: "straighten-pads",
        job: &job.title,
        what: "what a pad uses of the plates",
        description: format!(
            "Force over resistance against x, for the highest force of push {}. {finding}.",
            push.number
        ),
        subtitle: finding,
    };
    draw(&heading, SIZE, |paper| {
        let high = lines.iter().flat_map(|l| &l.1).fold(1.0, |m: f64, v| m.max(*v)).min(MOST) * 1.08;
        let along = Range::to(member.length_mm);
        let panel = Panel::new((92.0, RIGHT), (BELOW_TITLE + 10.0, 342.0), along, Range::to(high));
        panel.y_axis(paper, PURE, "share of resistance")?;
        panel.x_axis(paper, Unit::along(system), "x from the start end")?;
        paper.line(&panel.path([(0.0, 1.0), (member.length_mm, 1.0)]), LIMIT)?;
        let mut labels = vec![(1.0, "allowed up to here".to_owned(), VERMILION)];
        for (i, (name, uses)) in lines.iter().enumerate() {
            let stroke = series(i + usize::from(i > 0));
            let shown = x.iter().copied().zip(uses.iter().map(|u| u.min(high)));
            paper.line(&panel.path(shown), stroke)?;
            labels.push((uses.last().copied().unwrap_or(0.0).min(high), (*name).to_owned(), stroke.ink));
        }
        for place in push.layout.rams.places_mm() {
            let on = worst.iter().filter(|c| c.place == "ram" && (c.at_mm - place).abs() < 1.0);
            let ratio = on.map(|c| c.ratio).fold(0.0, f64::max);
            let at = panel.at(place, ratio.min(high));
            paper.dot(at, 4.5, BLACK)?;
            paper.text((at.0, at.1 - 13.0), At::Middle, "ram", SMALL)?;
        }
        let wanted: Vec<f64> = labels.iter().map(|l| panel.py(l.0)).collect();
        let placed = spread(&wanted, 17.0, panel.top, panel.bottom);
        for ((y, from), (_, text, ink)) in placed.into_iter().zip(wanted).zip(labels) {
            paper.line(&[(RIGHT + 2.0, from), (RIGHT + 14.0, y)], Stroke { ink, ..THIN })?;
            paper.text_within((RIGHT + 18.0, y), SIZE.0 - RIGHT - 26.0, &text, LABEL.in_ink(BLACK))?;
        }
        Ok(())
    })
}
