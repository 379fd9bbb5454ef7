//! What the push log says: the steel of this piece, and the next push at each place.

use super::asked::{Asked, Logged};
use super::word::stops;
use super::words::reading_of;
use crate::input::Problem;
use crate::reading::Diagnostics;
use crate::shop::push_log::Pushed;
use crate::straighten::plan::{Next, Odd, Push, Work, next, yield_mpa};
use crate::units::{System, show};
use std::path::Path;

/// Every place of the log.
///
/// # Errors
/// A step that is no push of the plan.
pub(crate) fn logged(asked: &Asked, path: &Path, log: &[Pushed]) -> Result<Vec<Logged>, Diagnostics> {
    let one = |pushed: &Pushed| {
        let push = push(asked, pushed.step).ok_or_else(|| {
            let found = format!("readings of step {}", pushed.step);
            let problem = Problem::new(
                "step",
                found,
                "a step of this plan that is a push; log and plan are of one measured file",
            );
            Diagnostics::whole(&path.display().to_string(), problem)
        })?;
        Ok(Logged {
            step: pushed.step,
            pushes: pushed.readings.len(),
            yield_mpa: yield_mpa(push, &asked.job.member, asked.found.piece.weld, &pushed.readings),
            next: next(push, &pushed.readings),
        })
    };
    log.iter().map(one).collect()
}

fn push(asked: &Asked, number: usize) -> Option<&Push> {
    let mut steps = asked.found.plan.chosen.iter().flat_map(|c| &c.way.steps);
    match &steps.find(|s| s.number == number)?.work {
        Work::Push(push) => Some(push),
        _ => None,
    }
}

/// One place in words.
pub(crate) fn sentence(logged: &Logged, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    let steel = logged.yield_mpa.map_or(String::new(), |y| {
        format!(
            " The steel yields at about {} to {} (without and with stress in the seams).",
            show::stress(y.low, system),
            show::stress(y.high, system)
        )
    });
    let what = match &logged.next {
        Next::Enough => "the wanted set is reached: stop.".to_owned(),
        Next::TooMuch { over_mm } => {
            format!(
                "the set is {} more than wanted: stop, log it, measure the piece and plan anew. Do not push back by this plan.",
                mm(*over_mm)
            )
        }
        Next::Again(again) => format!(
            "push {}: stop where force and travel from the new rest meet on this line: {}. Without a force gauge: travel {} ({} to {}; the lower \
             end never goes too far). {} are missing.",
            again.number,
            stops(&again.stops, system),
            mm(again.travel_mm),
            mm(again.band_mm.low),
            mm(again.band_mm.high),
            mm(again.missing_mm)
        ),
        Next::GiveUp { missing_mm } => {
            format!(
                "three pushes left {} missing: stop, measure the piece and plan anew with the yield found here.",
                mm(*missing_mm)
            )
        }
        Next::ReadAgain { number, why } => {
            format!("push {number}: {} Read again before anything is pushed.", odd(why, system))
        }
    };
    format!("Step {}, {}: {what}{steel}", logged.step, reading_of(logged.pushes))
}

fn odd(why: &Odd, system: System) -> String {
    let mm = |v: f64| show::offset(v, system);
    match why {
        Odd::SetFell => "the set in all is less than before it.".to_owned(),
        Odd::MoreThanTravel => "the set is more than the ram travelled.".to_owned(),
        Odd::Springback { read_mm, expected_mm } => format!(
            "it sprang back by {}, the force asks for {}: travel, force or set is misread, or a support slips.",
            mm(*read_mm),
            mm(*expected_mm)
        ),
        Odd::Force { read_n, most_n } => {
            format!(
                "{} read, never more than {} allowed: stop.",
                show::force(*read_n, system),
                show::force(*most_n, system)
            )
        }
    }
}
