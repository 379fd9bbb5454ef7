//! What is not wrong but should be known: a leg and a heat that do not go together, a heat that is a guess.

use super::passes::{PlacedPass, leg_rule_net_heat};
use crate::member::{Member, Seam};
use crate::prediction::{Warning, WarningCode};
use crate::units::{Message, Part};
use crate::welding::{HeatSource, Procedure, fillet};

/// Widest root gap of a fillet without special measures, mm (AWS D1.1:2015 5.21.1, 3/16 in, 5 mm in its metric edition; memory).
const WIDEST_GAP_MM: f64 = 5.0;

/// Web over thickest flange beyond which it is asked about: built-up members have webs no thicker than flanges (common practice,
/// no source).
const ODD_WEB: f64 = 1.0;

/// Notes on all passes.
pub(crate) fn notes(laid: &[PlacedPass<'_>], gap_mm: f64) -> Vec<Warning> {
    let mut notes: Vec<Warning> = laid.iter().filter_map(|laid| mismatch(laid, gap_mm)).collect();
    notes.extend(wide_gap(laid, gap_mm));
    let guessed: Vec<String> = laid
        .iter()
        .filter(|laid| laid.pass.heat_source == HeatSource::Leg)
        .map(|laid| (laid.index + 1).to_string())
        .collect();
    if !guessed.is_empty() {
        let (passes, numbers) = (if guessed.len() == 1 { "pass" } else { "passes" }, guessed.join(", "));
        notes.push(Warning::new(
            WarningCode::HeatFromLeg,
            format!(
                "The heat of {passes} {numbers} follows from the leg alone, known to ±23 % (one standard \
                 deviation). Give a procedure with current, voltage and travel speed."
            ),
        ));
    }
    let several: Vec<String> = laid
        .iter()
        .filter(|laid| laid.runs > 1)
        .map(|laid| format!("pass {} in {} runs", laid.index + 1, laid.runs))
        .collect();
    if !several.is_empty() {
        notes.push(Warning::new(
            WarningCode::SeveralRuns,
            format!(
                "{}: each run counts as a pass on a cold one, steps are numbered anew, and the largest run governs force and bows. \
                 Tilts of the runs add up and each cups the flange further, by our own calculation of three joints of two runs: measure the \
                 first piece.",
                several.join(", ")
            ),
        ));
    }
    notes
}

/// A web thicker than any flange is a slip of the pen or of the unit, mostly.
pub(crate) fn odd_web(member: &Member) -> Option<Warning> {
    let thickest = |all: &mut dyn Iterator<Item = f64>| all.fold(0.0, f64::max);
    let web = thickest(&mut member.web.iter().map(|p| p.thickness_mm));
    let flanges = Seam::BOTH.into_iter().flat_map(|seam| member.flange(seam));
    let flange = thickest(&mut flanges.map(|p| p.thickness_mm));
    let text = "a web {} thick between flanges of {} at most, which are taken to be the thicker (our choice): are plates and units as meant?";
    (web > ODD_WEB * flange).then(|| {
        Warning::new(WarningCode::PlateOdd, Message::of(text, [Part::Plate(web), Part::Plate(flange)]))
    })
}

/// Metal that fills a gap is none of the leg that carries, and heat that follows from a leg knows of no gap.
fn wide_gap(laid: &[PlacedPass<'_>], gap_mm: f64) -> Option<Warning> {
    let by_leg = laid.iter().any(|laid| laid.pass.heat_source == HeatSource::Leg);
    let heat = if by_leg {
        " Heat that follows from a leg knows of no gap and is too low: give a procedure, or close the gap."
    } else {
        " Close the gap where you can."
    };
    let most = if gap_mm > WIDEST_GAP_MM {
        " More than 5 mm (3/16 in) is not allowed without a repair of the joint that the engineer agrees to (AWS D1.1:2015 5.21.1; memory)."
    } else {
        ""
    };
    let text = "A root gap of {}, more than {}: a leg is what is left of the fillet beside the gap. A stated leg is laid larger by the gap \
                (AWS D1.1:2020 7.21.1, second hand) and has that much metal; of one that follows from a procedure only what the gap \
                leaves is counted to carry.{}{}";
    (gap_mm > fillet::GAP_FREE_MM).then(|| {
        let sizes = [gap_mm, fillet::GAP_FREE_MM].map(Part::Plate);
        Warning::new(
            WarningCode::GapLarge,
            Message::of(text, sizes.into_iter().chain([most.into(), heat.into()])),
        )
    })
}

fn mismatch(laid: &PlacedPass<'_>, gap_mm: f64) -> Option<Warning> {
    let PlacedPass { index, pass, procedure, runs } = laid;
    // of one run
    let share = f64::from(*runs).sqrt().recip();
    let leg_mm = share * pass.leg_mm;
    if pass.heat_source == HeatSource::Leg {
        return None;
    }
    let filled = procedure.and_then(Procedure::leg_mm);
    let (other, how) = match filled {
        Some(filled) => (filled, "the deposit of its procedure fills"),
        None => {
            let own = leg_rule_net_heat(leg_mm, *procedure);
            let by_heat = leg_mm * (pass.heat_j_per_mm / own).sqrt();
            (by_heat, "its heat goes, by the leg rule, with")
        }
    };
    // a leg that follows from a deposit goes with it, whatever gap that fills
    if filled.is_some_and(|filled| (filled / leg_mm - 1.0).abs() < 1e-9) {
        return None;
    }
    // A deposit fills the gap as well as the leg; the leg rule knows of no gap.
    let stated = if filled.is_some() { share * fillet::laid_leg_mm(pass.leg_mm, gap_mm) } else { leg_mm };
    if !fillet::is_other_leg(other, stated) {
        return None;
    }
    let usual = leg_rule_net_heat(leg_mm, *procedure);
    let (each, mend) = match runs {
        1 => (String::new(), "the leg"),
        n => (format!(" in each of its {n} runs"), "the leg or the runs"),
    };
    Some(Warning::new(
        WarningCode::LegHeatMismatch,
        Message::of(
            "Pass {} ({} seam, {} side) has a leg of {}{}, but {} one of {}. Its heat is {} net; a leg of {} takes {} \
             net by the leg rule. The stated leg and this heat are used: correct {}, or current, speed and wire.",
            [
                (index + 1).to_string().into(),
                pass.seam.name().into(),
                pass.side.name().into(),
                Part::Plate(stated),
                each.into(),
                how.into(),
                Part::Plate(other),
                Part::Heat(pass.heat_j_per_mm),
                Part::Plate(leg_mm),
                Part::Heat(usual),
                mend.into(),
            ],
        ),
    ))
}
