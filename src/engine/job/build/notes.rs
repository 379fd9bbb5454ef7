//! What is not wrong but should be known: a leg and a heat that do not go together, a heat that is a guess.

use super::passes::{Laid, leg_rule_net_heat, leg_text};
use crate::prediction::{Code, Warning};
use crate::units::{System, show};
use crate::welding::{HeatSource, Procedure, fillet};

/// Difference of legs from which a mismatch is reported (a choice: about the scatter of real fillets).
const MISMATCH: f64 = 0.15;

/// Notes on all passes.
pub fn notes(laid: &[Laid<'_>], gap_mm: f64, units: System) -> Vec<Warning> {
    let mut notes: Vec<Warning> = laid.iter().filter_map(|laid| mismatch(laid, gap_mm, units)).collect();
    let guessed: Vec<String> = laid
        .iter()
        .filter(|laid| laid.pass.heat_source == HeatSource::Leg)
        .map(|laid| (laid.index + 1).to_string())
        .collect();
    if !guessed.is_empty() {
        let (passes, numbers) = (if guessed.len() == 1 { "pass" } else { "passes" }, guessed.join(", "));
        notes.push(Warning::new(
            Code::HeatFromLeg,
            format!(
                "The heat of {passes} {numbers} follows from the leg alone, known to ±23 % (one standard \
                 deviation). Give a procedure with current, voltage and travel speed."
            ),
        ));
    }
    notes
}

fn mismatch(laid: &Laid<'_>, gap_mm: f64, units: System) -> Option<Warning> {
    let Laid { index, pass, procedure } = laid;
    if pass.heat_source == HeatSource::Leg {
        return None;
    }
    let filled = procedure.and_then(Procedure::leg_mm);
    let (other, how) = match filled {
        Some(filled) => (filled, "the deposit of its procedure fills"),
        None => {
            let own = leg_rule_net_heat(pass.leg_mm, *procedure);
            let by_heat = pass.leg_mm * (pass.heat_j_per_mm / own).sqrt();
            (by_heat, "its heat goes, by the leg rule, with")
        }
    };
    // A deposit fills the gap as well as the leg; the leg rule knows of no gap.
    let stated = if filled.is_some() { fillet::laid_leg_mm(pass.leg_mm, gap_mm) } else { pass.leg_mm };
    if (other / stated - 1.0).abs() <= MISMATCH {
        return None;
    }
    let usual = leg_rule_net_heat(pass.leg_mm, *procedure);
    let leg = |mm: f64| match units {
        System::Si => leg_text(mm),
        System::Us => show::plate(mm, units),
    };
    Some(Warning::new(
        Code::LegHeatMismatch,
        format!(
            "Pass {} ({} seam, {} side) has a leg of {}, but {how} one of {}. Its heat is {} net; a leg of {} \
             usually takes {} net. The stated leg and this heat are used: correct the leg, or current, speed and wire.",
            index + 1,
            pass.seam.name(),
            pass.side.name(),
            leg(stated),
            leg(other),
            show::heat_input(pass.heat_j_per_mm, units),
            leg(pass.leg_mm),
            show::heat_input(usual, units),
        ),
    ))
}
