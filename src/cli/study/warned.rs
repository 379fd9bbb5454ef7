//! What the cases of a study warn of, on screen.

use crate::cli::show::Report;
use crate::study::{Study, Warned};

/// Counts of warnings, each with the first of its kind; nothing if no case has one.
pub(super) fn show(study: &Study, warned: Option<&Warned>, out: &mut Report) {
    let Some(warned) = warned else { return };
    let of = if warned.looked_at < warned.cases {
        format!("{} of {} cases looked at", warned.looked_at, warned.cases)
    } else {
        String::new()
    };
    out.heading("Warnings of the cases", &of);
    for kind in &warned.of {
        let text = kind.first.text.in_units(study.system());
        let first = if kind.cases == 1 { "" } else { "the first: " };
        out.say(format!("{} of {} cases; {first}{text}", kind.cases, warned.looked_at));
    }
}

/// What a study's cases warn of, if of anything. A study of draws has said in its job what there is to say.
pub(crate) fn found(study: &Study) -> Option<Warned> {
    Some(study).filter(|study| !study.is_sampled()).map(Study::warned).filter(|warned| !warned.of.is_empty())
}
