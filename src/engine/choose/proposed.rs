//! Which option to take: the present practice is one of them.

use super::constraints::Constraints;
use super::pieces::apart;
use super::proposals::as_good;
use super::weld::Weld;
use crate::units::Message;
use crate::units::show::duration;

/// Number of the option to take: the present practice (0) where it holds everything and nothing that was found is better in what is
/// made small by more than a shop would notice; else the first that was found. None where nothing holds.
pub(super) fn proposed(options: &[Weld], wishes: &Constraints) -> Option<usize> {
    let holds = |at: &usize| options.get(*at).is_some_and(|weld| weld.passes_all);
    match options {
        [today, found, ..] if today.passes_all && found.passes_all => {
            Some(usize::from(!as_good(today, found, wishes.objective)))
        }
        _ => [0, 1].into_iter().find(holds),
    }
}

/// Why that one: how the present practice compares.
pub(super) fn why(options: &[Weld], wishes: &Constraints, proposed: Option<usize>) -> Message {
    let Some(today) = options.first() else { return Message::from("") };
    let takes = |weld: &Weld| {
        let effort = &weld.score.effort;
        format!("{} in all, cost {:.0}", duration(effort.line_s), effort.cost)
    };
    let aim = wishes.objective.words();
    let practice = format!("Current practice ({})", takes(today));
    let fails = || format!("{practice} {}", fails(today, wishes));
    let said = match proposed.map(|number| (number, options.get(number))) {
        None if today.passes_all => "nothing: see below what stands in the way".to_owned(),
        None => format!("nothing, as nothing holds what is asked. {}", fails()),
        Some((0, _)) => {
            format!(
                "0. {practice} holds what is asked, and nothing found is better in {aim} by more than a shop would notice"
            )
        }
        Some((number, found)) => {
            let found = found.map_or_else(String::new, takes);
            let beside =
                if today.passes_all { format!("{practice} holds what is asked, too") } else { fails() };
            format!("{number} ({found}). {beside}")
        }
    };
    said.into()
}

/// What keeps the present practice from holding what is asked.
fn fails(today: &Weld, wishes: &Constraints) -> String {
    if !today.outside.is_empty() {
        return "lies outside what the model covers, see below".to_owned();
    }
    if !today.breaks.is_empty() {
        return "breaks a rule, see below".to_owned();
    }
    let (inside, error) = (100.0 * today.pieces.inside, 100.0 * today.pieces.standard_error);
    let asked = 100.0 * wishes.confidence;
    let said = if inside < 0.05 {
        "under 0.1 %".to_owned()
    } else {
        format!("{} ± {error:.1} %", apart(today.pieces.inside, wishes.confidence, 1))
    };
    let most = today.pieces.outside.iter().max_by(|a, b| a.1.total_cmp(b.1));
    let nearest = most.map_or_else(String::new, |(of, _)| {
        format!(", most of the others are out by {}", of.replace('_', " "))
    });
    // drawn pieces know a chance no better than its standard error
    let so_near = if inside + error >= asked {
        format!(
            "; the pieces drawn cannot tell the two apart, and `--confidence {:.2}` lets it pass",
            0.01 * inside.floor()
        )
    } else {
        String::new()
    };
    format!(
        "does not hold what is asked: {said} of its pieces are inside every limit, {asked:.0} % are asked for{nearest}{so_near}"
    )
}
