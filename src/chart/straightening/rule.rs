//! What the printed rule makes of a push if the steel is not the one planned for.

use super::super::axes::{Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Heading, draw};
use super::super::measure::Unit;
use super::super::theme::{BLUE, FULL, GREEN, GREY, Ink, LIMIT, SMALL, SUBTITLE, Stroke, VERMILION};
use super::super::{ChartError, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::plan::{FORCE_READ, MOST_TRIES, Push, Reality, follow};
use weldbow_engine::straighten::press::WeldStress;
use weldbow_engine::units::{System, show};

const SIZE: (f64, f64) = (640.0, 430.0);
/// True yield over the given one.
const YIELDS: (f64, f64) = (0.90, 1.35);
const STEPS: u32 = 9;
const PURE: Unit = Unit { name: "1 is as given", mm: 1.0, decimals: 2 };
const PART: Unit = Unit { name: "1 is all", mm: 1.0, decimals: 1 };
const NO_SLIP: [[f64; 2]; MOST_TRIES] = [[0.0; 2]; MOST_TRIES];

/// The picture: how much of the wanted set is made after each push, over seams with and without stress and a force gauge that reads 3 %
/// too little, right or too much.
pub(super) fn rule(job: &Job, push: &Push, weld: WeldStress, system: System) -> Result<Picture, ChartError> {
    let wanted = push.wanted_mm();
    let mut found: Vec<(f64, [[f64; 2]; MOST_TRIES])> = Vec::new();
    for i in 0..=STEPS {
        let factor = YIELDS.0 + (YIELDS.1 - YIELDS.0) * f64::from(i) / f64::from(STEPS);
        let mut ends = [[f64::INFINITY, f64::NEG_INFINITY]; MOST_TRIES];
        for weld in [None, Some(weld)] {
            for gauge in [1.0 - FORCE_READ, 1.0, 1.0 + FORCE_READ] {
                let real = Reality { yield_factor: factor, weld, give_mm_per_n: push.give_mm_per_n, gauge };
                let sets = follow(push, &job.member, &real, &NO_SLIP)
                    .map_err(|e| ChartError::Drawing(e.to_string()))?
                    .1;
                let last = sets.last().copied().unwrap_or(0.0);
                for (n, end) in ends.iter_mut().enumerate() {
                    let part = sets.get(n).copied().unwrap_or(last) / wanted;
                    *end = [end[0].min(part), end[1].max(part)];
                }
            }
        }
        found.push((factor, ends));
    }
    let last = |pick: fn(f64, f64) -> f64, k: usize| {
        found.iter().map(|f| f.1[MOST_TRIES - 1][k]).reduce(pick).unwrap_or(0.0)
    };
    let finding = format!(
        "Push {}: after three pushes {:.2} to {:.2} of the {} wanted, whatever the steel",
        push.number,
        last(f64::min, 0),
        last(f64::max, 1),
        show::offset(wanted, system)
    );
    let heading = Heading {
        name: "straighten-rule",
        job: &job.title,
        what: "what the rule makes of other steel",
        description: format!(
            "Part of the wanted set made after one, two and three pushes against the true yield over the given one. {finding}."
        ),
        subtitle: finding,
    };
    draw(&heading, SIZE, |paper| {
        let most = found.iter().flat_map(|f| f.1).map(|e| e[1]).fold(1.2, f64::max) * 1.05;
        let panel = Panel {
            left: 92.0,
            right: 600.0,
            top: BELOW_TITLE + 34.0,
            bottom: 372.0,
            x: Range { low: YIELDS.0 - 0.02, high: YIELDS.1 + 0.02 },
            y: Range { low: 0.0, high: most },
        };
        panel.y_axis(paper, PART, "set made over set wanted")?;
        panel.x_axis(paper, PURE, "true yield over the one given")?;
        let band = push.enough_mm() / wanted;
        for side in [1.0 - band, 1.0 + band] {
            paper.line(&panel.path([(panel.x.low, side), (panel.x.high, side)]), LIMIT)?;
        }
        let inks: [Ink; MOST_TRIES] = [GREY, BLUE, GREEN];
        for (n, ink) in inks.into_iter().enumerate() {
            let aside = 0.008 * (n as f64 - 1.0);
            for (x, ends) in &found {
                let [low, high] = ends[n];
                paper.line(
                    &panel.path([(x + aside, low), (x + aside, high.max(low + 0.004))]),
                    Stroke::new(ink, 5.0, FULL),
                )?;
            }
            let name = ["after push 1", "after push 2", "after push 3"][n];
            paper.text(
                (110.0 + 150.0 * n as f64, BELOW_TITLE + 14.0),
                At::Left,
                name,
                SUBTITLE.in_ink(ink),
            )?;
        }
        paper.text(
            (panel.right, panel.py(0.0) - 12.0),
            At::Right,
            "dashed: enough, stop inside these lines",
            SMALL.in_ink(VERMILION),
        )
    })
}
