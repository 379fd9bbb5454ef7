//! Warnings, each said once.

use super::report::Report;
use crate::cli::lists::grouped;
use crate::prediction::{Warning, WarningCode};
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
