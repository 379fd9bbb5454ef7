//! What is known of the piece, in words: what its shape and its steel rest on, and what is odd about it.

use super::asked::Asked;
use super::words::{action, name};
use crate::cli::lists::grouped;
use crate::straighten::decide::{Action, Delivery};
use crate::tolerance::Quantity;
use crate::units::{System, show};

/// What the shape rests on.
pub(super) fn basis(asked: &Asked) -> String {
    match &asked.measured {
        Some(path) => {
            let n = asked.found.piece.measurements;
            let often = if n == 1 { "measured once".to_owned() } else { format!("mean of {n} measurements") };
            format!("measured shape from {}, {often}", crate::input::text::path(path))
        }
        None => format!(
            "predicted shape; {}, {}",
            asked.found.making.camber_basis(),
            asked.found.making.toe_basis()
        ),
    }
}

/// What the shop's measured pieces say of it, or why they say nothing.
pub(super) fn recorded(asked: &Asked, system: System) -> Option<String> {
    let note = asked.job.recorded_note()?.in_units(system);
    Some(if asked.job.learned.is_some() { format!("expected {note}") } else { note })
}

/// The steel that is planned with: grade, yield strength used, how it was delivered.
pub(super) fn steel(asked: &Asked, system: System) -> String {
    let steel = &asked.job.member.steel;
    let delivery = asked.found.piece.situation.delivery;
    let whose = if asked.found.own_yield { "by the certificate" } else { "as the job says" };
    let measured = asked.measured.is_some();
    let delivery = match delivery {
        stated if stated.planned(steel.yield_mpa) != stated => {
            "too strong for ordinary, taken as unknown: no heat without its delivery"
        }
        Delivery::NotStated => "delivery not stated: no heat without it",
        Delivery::Unknown => "delivery unknown: no heat",
        Delivery::Ordinary if !measured => "delivery taken as ordinary: state it with the piece",
        Delivery::Ordinary => "ordinary (as rolled or normalised)",
        Delivery::Thermomechanical => "thermomechanically rolled",
        Delivery::QuenchedTempered => "quenched and tempered",
        Delivery::ColdFormed => "cold-formed",
    };
    format!("{}, yield used {} ({whose}); {delivery}", steel.name, show::stress(steel.yield_mpa, system))
}

/// Readings that are odd and were checked, and the sag that nothing was said about.
pub(super) fn readings(asked: &Asked, system: System) -> Vec<String> {
    let odd = asked.found.odd.iter().map(|q| {
        let (found, usual) = (q.found.in_units(system), q.usual.in_units(system));
        format!("Odd and, as the file says, checked: {} {found}; usual would be {usual}.", q.column)
    });
    let sag = asked.found.own_sag_mm.map(|mm| {
        format!(
            "Nothing says how the piece lay: on its ends, with gravity along the bow, its own weight alone bends it by up to {}. Note \
             `lay on` and `up`, or measure with gravity across.",
            show::offset(mm, system)
        )
    });
    odd.chain(sag).collect()
}

/// An offset with the side it lies toward, so that a sign that was read the wrong way round is seen before anything is pushed.
pub(crate) fn sided(quantity: Quantity, mm: f64, system: System) -> String {
    let size = show::offset(mm, system);
    let sides = match quantity {
        Quantity::Camber => ["toward the outer flange", "toward the inner flange"],
        Quantity::Sweep => ["toward the far side", "toward the near side"],
        Quantity::FlangeToe | Quantity::FlangeCup | Quantity::FlangeTilt => {
            ["away from the web", "toward the web"]
        }
        _ => return size,
    };
    // what is told as nothing lies on no side
    if size == show::offset(0.0, system) { size } else { format!("{size} {}", sides[usize::from(mm > 0.0)]) }
}

/// What becomes of the camber by lines of heat on a flange, and what follows from it.
pub(super) fn camber_then(asked: &Asked, system: System) -> Option<String> {
    let plan = &asked.found.plan;
    let (now, then) = (plan.decision(Quantity::Camber)?, plan.camber_then?);
    let [from, to] = [now, &then].map(|d| sided(d.quantity, d.value_mm, system));
    let shape = if asked.measured.is_some() { "measured" } else { "predicted" };
    let next = if plan.asks(Quantity::Camber) { "planned for below" } else { action(then.action) };
    Some(format!(
        "Lines of heat on a flange bring the camber from {from} ({shape}) to about {to}: {next}. What they bring is known to half or \
         double: measure the camber after them, before any other step."
    ))
}

/// What a noted difference of temperature does.
pub(super) fn thermal(asked: &Asked, system: System) -> Option<String> {
    asked.found.thermal_mm.map(|mm| {
        format!(
            "Measured with one flange warmer than the other: that alone bows the member by about {} toward the warmer flange. Measure again at one temperature.",
            show::offset(mm, system)
        )
    })
}

/// Bows that are to be straightened and that neither the shop's record nor the prediction explains: a cause to be found before the
/// piece is pressed.
pub(crate) fn strange(asked: &Asked, system: System) -> Vec<String> {
    const FAR: f64 = 3.0;
    let found = &asked.found;
    let far = found.expected.iter().filter(|e| e.quantity != Quantity::FlangeToe).filter_map(|e| {
        let seen = found.plan.decisions.iter().find(|d| d.quantity == e.quantity)?;
        let record = found.recorded.iter().find(|r| r.quantity == e.quantity);
        let (mean, sd, whose) = match record {
            Some(r) => (r.family.mean, r.family.sd, "your record"),
            None => (e.mean_mm, e.scatter_sd_mm.hypot(e.bias_sd_mm), "what such welds do"),
        };
        let far = (seen.value_mm - mean).abs() > FAR * sd.hypot(e.limits.measuring_sd);
        let bow = format!("{} of {}", name(e.quantity), show::offset(seen.value_mm, system));
        (far && seen.action == Action::Straighten).then_some((whose, bow))
    });
    let sentence = |(whose, bows): (&str, Vec<String>)| {
        format!(
            "The measured {} {} more than three deviations from {whose}: look for the cause first (plates not flat or not straight, order \
             of passes, handling, measuring).",
            bows.join(" and the "),
            if bows.len() == 1 { "is" } else { "are" }
        )
    };
    grouped(far).into_iter().map(sentence).collect()
}
