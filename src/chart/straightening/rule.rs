//! What the printed rule makes of a push if the steel is not the one planned for.

use super::super::axes::{Panel, Range};
use super::super::canvas::{At, BELOW_TITLE, Heading, draw};
use super::super::measure::Unit;
use super::super::theme::{BLACK, BLUE, FULL, GREEN, GREY, Ink, LIMIT, SMALL, Stroke};
use super::super::{ChartError, Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::straighten::plan::{MOST_TRIES, Push, TRUE_YIELD, Trial, hits_within, trials};
use weldbow_engine::straighten::press::WeldStress;
use weldbow_engine::units::{System, show};

const SIZE: (f64, f64) = (640.0, 430.0);
/// Steels, and operators of each with seams stressed and not.
const TRIALS: (u32, u32) = (10, 4);
const SEED: u64 = 1;
const PURE: Unit = Unit { name: "1 is as given", mm: 1.0, decimals: 2 };
const PART: Unit = Unit { name: "1 is all", mm: 1.0, decimals: 1 };

/// Least and most of the wanted set that the trials of one steel made by each push.
type Ends = [[f64; 2]; MOST_TRIES];

fn ends(of: &[Trial]) -> Ends {
    std::array::from_fn(|n| {
        let made = |t: &Trial| t.made.get(n).copied().unwrap_or(t.ended());
        let made = of.iter().map(made);
        made.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], part| [low.min(part), high.max(part)])
    })
}

/// The picture: how much of the wanted set is made after each push in trials on paper, over seams with and without stress, gauges,
/// frame and readings that are off by chance.
pub(super) fn rule(job: &Job, push: &Push, weld: WeldStress, system: System) -> Done<Picture> {
    let all =
        trials(push, &job.member, weld, TRIALS, SEED).map_err(|e| ChartError::Drawing(e.to_string()))?;
    let of_steel = all.chunks(2 * TRIALS.1 as usize);
    let found: Vec<(f64, Ends)> =
        of_steel.filter_map(|of| Some((of.first()?.real.yield_factor, ends(of)))).collect();
    let within = hits_within(push);
    let count = |is: &dyn Fn(f64) -> bool| all.iter().filter(|t| is(t.ended() - 1.0)).count();
    let finding = format!(
        "Push {}, {} wanted: of {} trials {} end inside the band within three pushes, {} above it",
        push.number,
        show::offset(push.wanted_mm(), system),
        all.len(),
        count(&|off| off.abs() <= within),
        count(&|off| off > within)
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
        let x = Range { low: TRUE_YIELD.0 - 0.02, high: TRUE_YIELD.1 + 0.02 };
        let y = Range::to(most);
        let panel = Panel::new((92.0, 600.0), (BELOW_TITLE + 34.0, 372.0), x, y);
        panel.y_axis(paper, PART, "set made over set wanted")?;
        panel.x_axis(paper, PURE, "true yield over the one given")?;
        for side in [1.0 - within, 1.0 + within] {
            paper.line(&panel.path([(panel.x.low, side), (panel.x.high, side)]), LIMIT)?;
        }
        let inks: [Ink; MOST_TRIES] = [GREY, BLUE, GREEN];
        for (n, ink) in inks.into_iter().enumerate() {
            let aside = 0.008 * (n as f64 - 1.0);
            for (x, ends) in &found {
                let [low, high] = ends[n];
                let span = panel.path([(x + aside, low), (x + aside, high.max(low + 0.004))]);
                paper.line(&span, Stroke::new(ink, 5.0, FULL))?;
            }
            let name = ["after push 1", "after push 2", "after push 3"][n];
            let from = panel.left + 108.0 * n as f64;
            let y = BELOW_TITLE + 14.0;
            paper.line(&[(from, y - 7.0), (from, y + 7.0)], Stroke::new(ink, 5.0, FULL))?;
            paper.text((from + 8.0, y), At::Left, name, SMALL.in_ink(BLACK))?;
        }
        let (from, y) = (panel.left + 332.0, BELOW_TITLE + 14.0);
        paper.line(&[(from, y), (from + 26.0, y)], LIMIT)?;
        paper.text((from + 34.0, y), At::Left, "enough: stop between these", SMALL.in_ink(BLACK))
    })
}
