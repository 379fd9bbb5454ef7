//! What to say with every plan: hazards of press and hot work, brittle steel, members that need more than a plan.

use crate::straighten::decide::{Delivery, InService, Situation};
use crate::straighten::heat::{NEXT_HEAT_C, NO_WATER_C, most_c};
use crate::units::{Message, Part};
use serde::Serialize;

/// Steel is pressed between these, °C: cold it may crack, warm it strains by another law (common practice, no source).
const PRESSED_C: [f64; 2] = [10.0, 50.0];

/// What a caution is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hazard {
    /// The plan is an estimate; codes and licensed people decide.
    Approval,
    /// Stored energy, flying parts, roll-over.
    Press,
    /// Turning and lifting.
    Lifting,
    /// Fluid under pressure.
    Hydraulics,
    /// Thin web or slender plate under a ram.
    ThinPlate,
    /// Fire, burns, fumes.
    HotWork,
    /// Temperature limits.
    Temperature,
    /// Cracks and brittle fracture.
    Brittle,
    /// Fracture-critical, fatigue, seismic, bridge.
    Service,
    /// Quenched and tempered and other special steel.
    Steel,
    /// How far the numbers go.
    Model,
}

/// One caution.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Caution {
    /// What about.
    pub hazard: Hazard,
    /// What to heed.
    pub text: Message,
}

/// What the cautions depend on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CautionFacts {
    /// What is known of the piece.
    pub situation: Situation,
    /// A press or rollers are used.
    pub(crate) pressed: bool,
    /// Heat is used.
    pub heated: bool,
    /// Largest elastic energy that a push may hold, J.
    pub stored_j: f64,
    /// Force of each ram at which it does, N.
    pub force_n: f64,
    /// Largest strain.
    pub strain: f64,
    /// Largest curvature over that at first yield.
    pub mu: f64,
    /// Web thickness, mm.
    pub web_mm: f64,
    /// Some plate is not compact.
    pub not_compact: bool,
    /// Pushed about the strong axis.
    pub strong: bool,
}

impl CautionFacts {
    /// A usual piece to which nothing is done.
    pub(crate) const NOTHING: Self = Self {
        situation: Situation::USUAL,
        pressed: false,
        heated: false,
        stored_j: 0.0,
        force_n: 0.0,
        strain: 0.0,
        mu: 0.0,
        web_mm: f64::INFINITY,
        not_compact: false,
        strong: false,
    };

    /// What two plans call for together: the worse of each, of a member that asks for more than the usual if one does.
    #[must_use]
    pub(crate) fn worst(&self, other: &Self) -> Self {
        let usual = self.situation == Situation::USUAL;
        let held = if other.stored_j > self.stored_j { other } else { self };
        Self {
            situation: if usual { other.situation } else { self.situation },
            pressed: self.pressed || other.pressed,
            heated: self.heated || other.heated,
            stored_j: held.stored_j,
            // energy and force are told in one sentence, so they are of one push
            force_n: held.force_n,
            strain: self.strain.max(other.strain),
            mu: self.mu.max(other.mu),
            web_mm: self.web_mm.min(other.web_mm),
            not_compact: self.not_compact || other.not_compact,
            strong: self.strong || other.strong,
        }
    }
}

/// Web from which cambering jigs are not advised, mm (1/4 in; cambering practice, source not recorded).
const THIN_WEB_MM: f64 = 6.35;
/// Shift of the toughness temperature per unit strain, K (EN 1993-1-10 2.3.1(2): 3 K per 1 %; read as quoted).
const TOUGHNESS_K: f64 = 300.0;
/// Curvature ratio from which a push calls for a word (choice, as in the shop file where none is given).
const HIGH_MU: f64 = 5.0;

/// The cautions a plan calls for, the general one first.
///
/// Sources: general safety practice of presses and hot work; OSHA 29 CFR 1910.252 (35 ft and fire watch, read in summaries);
/// FHWA heat-straightening guide; AISC 360-22 M2, AWS D1.1, EN 1090-2 6.5 (memory); NFPA 51B fire watch of one hour (memory).
pub(crate) fn cautions(facts: &CautionFacts) -> Vec<Caution> {
    let mut out = Said(Vec::new());
    let text = "An estimate for planning. Straightening a structural member needs the responsible engineer's \
         agreement, the project specification, the welding code's procedure and local law; keep records with \
         the member.";
    out.say(true, Hazard::Approval, text);
    let text = "Turn and lift the member with rated gear, nobody under it or beside a piece that stands on \
         edge; block it before it is let go.";
    out.say(facts.pressed || facts.heated, Hazard::Lifting, text);
    pressing(facts, &mut out);
    heating(facts, &mut out);
    steel(facts, &mut out);
    let text = "The set of a first push is known to ±25 % at best, often only within the range printed with \
         it; a heat to about ±50 %. Measure after every push or heat and correct.";
    out.say(facts.pressed || facts.heated, Hazard::Model, text);
    out.0
}

/// Cautions so far.
struct Said(Vec<Caution>);

impl Said {
    fn say(&mut self, on: bool, hazard: Hazard, text: impl Into<Message>) {
        if on {
            self.0.push(Caution { hazard, text: text.into() });
        }
    }
}

fn pressing(facts: &CautionFacts, out: &mut Said) {
    let on = facts.pressed;
    let spring = Message::from("A loaded press is a spring.");
    let spring = if facts.stored_j > 0.0 {
        let held = [Part::Energy(facts.stored_j), Part::Force(facts.force_n)];
        spring.then(Message::of(" It may hold about {} at {} in a ram.", held))
    } else {
        spring
    };
    let text = spring.and(
        " Member, blocks and chains can fly out: stand clear of the line of ram and supports, guard, chain, work it from a \
         distance; rated blocks held in place; hold the member against rolling; let the pressure off slowly.",
    );
    out.say(on, Hazard::Press, text);
    let text = "Pushed on a flange, a member that is free between its supports kicks out sideways before it \
         yields: set every side guide named in the step, both flanges, before pressure comes on. No guide, \
         no push.";
    out.say(on && facts.strong, Hazard::Press, text);
    let text = "Oil under pressure pierces skin: check hoses and relief valve, never feel for a leak.";
    out.say(on, Hazard::Hydraulics, text);
    let text = "Thin web or slender flange: it may buckle under the ram before the member takes its set. \
         Watch it, stiffen or spread the load.";
    out.say(on && (facts.web_mm <= THIN_WEB_MM || facts.not_compact), Hazard::ThinPlate, text);
    let strained =
        format!("Cold strain of {:.2} % shifts the toughness temperature by ", 100.0 * facts.strain);
    let text = Message::from(strained)
        .then(toughness(facts.strain))
        .then(Message::of(
            ". Grind nicks, arc strikes and flame-cut edges first. Press at shop temperature: no steel below {}, none above {} from welding \
             or a flame (common practice, no source).",
            PRESSED_C.map(Part::Hottest),
        ));
    out.say(on, Hazard::Brittle, text);
    let text = format!(
        "A push goes to {:.1} times the curvature at first yield: test the welds within two depths (MT or PT) and stop at \
         the first indication.",
        facts.mu
    );
    out.say(on && facts.mu > HIGH_MU, Hazard::Brittle, text);
}

/// How far a cold strain shifts the toughness temperature, in words.
fn toughness(strain: f64) -> Message {
    match TOUGHNESS_K * strain {
        shift if shift < 0.95 => Message::of("less than {}", [Part::Warmer(1.0)]),
        shift => Message::of("about {}", [Part::Warmer(shift)]),
    }
}

fn heating(facts: &CautionFacts, out: &mut Said) {
    let on = facts.heated;
    let text = "Hot-work permit; combustibles 35 ft (10.7 metres) away or shielded; fire watch during and 30 \
         min at least after, 1 h by newer rules: the longer (OSHA 1910.252, summaries read; NFPA 51B, \
         memory); cylinders chained, flashback arrestors; strip zinc, paint and primer first, fumes are \
         poisonous; hot steel does not look hot.";
    out.say(on, Hazard::HotWork, text);
    let never =
        most_c(facts.situation.delivery).map_or_else(|| "the steel maker's limit".into(), Part::Hottest);
    let text = Message::of(
        "Never above {}: measure and log every heat. Next heat at a place below {}; no water or blown air above {}; a heated \
         member carries its own weight and the jack of the plan, nothing else: jack set before the flame, never pumped during \
         it, blocks under the member so that it cannot drop. Overheated: stop, test, ask the engineer.",
        [never, Part::Hottest(NEXT_HEAT_C), Part::Hottest(NO_WATER_C)],
    );
    out.say(on, Hazard::Temperature, text);
    let brittle = "Do not strike or bend steel between {} and {}. Test welds near every heat for cracks.";
    out.say(on, Hazard::Brittle, Message::of(brittle, [150.0, 370.0].map(Part::Hottest)));
}

fn steel(facts: &CautionFacts, out: &mut Said) {
    let s = &facts.situation;
    let text = "Fracture-critical, fatigue-loaded, seismic or bridge member: no straightening without an \
         approved written procedure.";
    out.say(s.service != InService::Building, Hazard::Service, text);
    let text = "Steel other than ordinary as-rolled or normalised: the maker's and the code's limits come \
         first.";
    out.say(s.delivery != Delivery::Ordinary, Hazard::Steel, text);
    let text = "Coated: protect the coating from pads; strip it well beyond any heat.";
    out.say(s.galvanised || s.painted, Hazard::HotWork, text);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::System;

    #[test]
    fn two_plans_together_call_for_the_worse_of_each() {
        let push = CautionFacts {
            pressed: true,
            stored_j: 900.0,
            force_n: 60e3,
            strain: 0.004,
            ..CautionFacts::NOTHING
        };
        let heat = CautionFacts { heated: true, web_mm: 5.0, ..CautionFacts::NOTHING };
        let both = push.worst(&heat);
        assert_eq!(both, heat.worst(&push));
        assert!(both.pressed && both.heated && (both.force_n - 60e3).abs() < 1e-9);
        assert!((both.web_mm - 5.0).abs() < 1e-9 && (both.strain - 0.004).abs() < 1e-12);
    }

    #[test]
    fn energy_temperature_and_service_are_named_where_they_matter() {
        let has = |facts: &CautionFacts, hazard, word: &str| {
            cautions(facts).iter().any(|c| c.hazard == hazard && c.text.to_string().contains(word))
        };
        let press = CautionFacts {
            pressed: true,
            stored_j: 6373.0,
            force_n: 242.4e3,
            web_mm: 6.0,
            ..CautionFacts::NOTHING
        };
        assert!(has(&press, Hazard::Press, "6.4 kJ at 242 kN"));
        assert!(has(&press, Hazard::ThinPlate, "buckle"));
        let strained = |strain| CautionFacts { strain, ..press };
        assert!(has(
            &strained(0.0017),
            Hazard::Brittle,
            "0.17 % shifts the toughness temperature by less than 1 K"
        ));
        assert!(has(&strained(0.0075), Hazard::Brittle, "by about 2 K"));
        // 2.25 K and 1 K are 4.05 °F and 1.8 °F
        for (strain, said) in [(0.0075, "by about 4 °F."), (0.0017, "by less than 2 °F.")] {
            let all = cautions(&strained(strain));
            assert!(all.iter().any(|c| c.text.in_units(System::Us).contains(said)), "{strain}: {said}");
        }
        let hot = CautionFacts { heated: true, ..CautionFacts::NOTHING };
        assert!(has(&hot, Hazard::Temperature, "650 °C") && has(&hot, Hazard::HotWork, "permit"));
        let situation = Situation { service: InService::Fatigue, ..Situation::USUAL };
        assert!(has(
            &CautionFacts { situation, ..CautionFacts::NOTHING },
            Hazard::Service,
            "written procedure"
        ));
        assert_eq!(cautions(&CautionFacts::NOTHING).len(), 1, "nothing done: only the general one");
    }
}
