//! What stands beside the numbers: the legend of signs, warnings, what the model does not cover, how far to trust it.

use super::report::Report;
use crate::cli::lists::grouped;
use crate::input::Problem;
use crate::prediction::{Job, Outside, Warning, WarningCode, outside as outside_of, predict};
use crate::units::System;

/// Warnings under a heading, one a paragraph; what is said of several passes alike is said once.
pub(crate) fn list_warnings(title: &str, warnings: &[Warning], system: System, out: &mut Report) {
    if warnings.is_empty() {
        return;
    }
    out.heading(title, "");
    once(warnings, system).iter().for_each(|text| out.wide(text))
}

/// The sentences, those alike but for the pass they name put together.
fn once(warnings: &[Warning], system: System) -> Vec<String> {
    let parted = |warning: &Warning| {
        let text = warning.text.in_units(system);
        let parted = match warning.code {
            WarningCode::LegHeatMismatch => {
                text.split_once(" has ").map(|(who, what)| (who, format!("has {what}")))
            }
            WarningCode::LegLarge | WarningCode::LegSmall | WarningCode::Stitches => {
                text.split_once(": ").map(|(who, what)| (who, what.to_owned()))
            }
            _ => None,
        };
        let (who, what) = parted.map_or((None, text.clone()), |(who, what)| (Some(who.to_owned()), what));
        ((warning.code, what), who)
    };
    let said = grouped(warnings.iter().map(parted)).into_iter();
    said.map(|((code, what), who)| sentence(code, &who.into_iter().flatten().collect::<Vec<_>>(), &what))
        .collect()
}

fn sentence(code: WarningCode, who: &[String], what: &str) -> String {
    match (who, code) {
        ([], _) => what.to_owned(),
        ([one], WarningCode::LegHeatMismatch) => format!("{one} {what}"),
        (many, WarningCode::LegHeatMismatch) => {
            let passes: Vec<&str> = many.iter().map(|who| who.trim_start_matches("Pass ")).collect();
            let what = what.strip_prefix("has ").unwrap_or(what);
            format!("Passes {}: each has {what}", passes.join(", "))
        }
        (many, _) => format!("{}: {what}", many.join("; ")),
    }
}

/// What a sign means, wherever one is printed.
pub(crate) const SIGNS: &str =
    "Signs: + to inner flange (camber), near side (sweep), web (flanges), too long.";

/// The legend.
pub(super) fn signs(out: &mut Report) {
    out.plain(SIGNS)
}

/// What is shown beyond what a shop needs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct More {
    /// Pass by pass, the rule behind each limit, and what other methods say.
    pub methods: bool,
    /// The constants that this prediction rests on.
    pub constants: bool,
}

const LINES: [&str; 3] = [
    "Not compared with a measured member: measure your first pieces, cold.",
    "Try on one piece first; keep clear of clamped, preset and hot plates.",
    "Strength, welds, straightening: codes and licensed engineers decide.",
];

/// Writes them, and what else may be asked.
pub(super) fn trust(more: More, out: &mut Report) {
    let rest = [(!more.methods, "--methods"), (!more.constants, "--constants")];
    let rest: Vec<&str> = rest.into_iter().filter(|(left, _)| *left).map(|(_, what)| what).collect();
    let remark = if rest.is_empty() { String::new() } else { format!("more: {}", rest.join(", ")) };
    out.heading("How far to trust it", &remark);
    LINES.iter().for_each(|line| out.wide(line))
}

/// Says what is outside, in place of the numbers.
pub(crate) fn outside(all: &[Outside], system: System, out: &mut Report) {
    out.heading("Outside what this model covers", "no numbers can be given");
    all.iter().for_each(|one| out.say(one.reason.in_units(system)))
}

/// What to say of a job whose pieces cannot be judged, because the model says nothing of it.
pub(crate) fn problem(job: &Job) -> Option<Problem> {
    let why = outside_of(&predict(job)).into_iter().next()?;
    Some(Problem::new("", "a job outside what the model covers", why.reason.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_alike_is_said_once_with_the_passes_it_is_about() {
        let leg = |pass: &str| {
            Warning::new(WarningCode::LegHeatMismatch, format!("Pass {pass} has a leg of 5 mm, but"))
        };
        let large = |seam: &str| {
            Warning::new(WarningCode::LegLarge, format!("{seam} seam: leg 9 mm on a 5 mm plate"))
        };
        let other = Warning::new(WarningCode::SeamUnwelded, "no pass on the outer seam: odd");
        let all = [leg("1 (outer)"), large("outer"), leg("2 (inner)"), large("inner"), other];
        let said = once(&all, System::Si);
        assert_eq!(
            said,
            [
                "Passes 1 (outer), 2 (inner): each has a leg of 5 mm, but",
                "outer seam; inner seam: leg 9 mm on a 5 mm plate",
                "no pass on the outer seam: odd",
            ]
        );
    }
}
