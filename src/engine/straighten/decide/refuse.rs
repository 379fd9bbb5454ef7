//! What may not be advised: the reason, and what is then needed.

use serde::Serialize;

/// How the steel was made, as far as heat and cold work care.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Delivery {
    /// Carbon or low-alloy steel, as rolled or normalised.
    Ordinary,
    /// Thermomechanically rolled.
    Thermomechanical,
    /// Quenched and tempered.
    QuenchedTempered,
    /// Cold formed.
    ColdFormed,
    /// Not known.
    Unknown,
    /// Nobody has said; it can be asked.
    NotStated,
}

impl Delivery {
    /// What is planned with: nothing is known of steel of that yield strength (MPa) that is too strong to be ordinary, whether it is noted
    /// so or nobody has said.
    pub const fn planned(self, yield_mpa: f64) -> Self {
        match self {
            Self::Ordinary | Self::NotStated if yield_mpa > ORDINARY_MOST_MPA => Self::Unknown,
            stated => stated,
        }
    }
}

/// What the member does in service.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum InService {
    /// Static building member.
    Building,
    /// Fracture-critical.
    FractureCritical,
    /// Fatigue-loaded.
    Fatigue,
    /// Plastic zone of a seismic frame.
    SeismicProtected,
    /// Bridge member.
    Bridge,
}

/// What the shop knows of the piece on the floor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Situation {
    /// Delivery condition of the steel.
    pub delivery: Delivery,
    /// Service of the member.
    pub service: InService,
    /// Known cracks or open indications.
    pub cracks: bool,
    /// Galvanised.
    pub galvanised: bool,
    /// Painted or primed.
    pub painted: bool,
    /// Under load or not free to move.
    pub loaded: bool,
    /// Steel temperature, °C.
    pub steel_c: f64,
    /// Times it was straightened before at the same places.
    pub straightened_before: u32,
    /// An approved written procedure exists for this work.
    pub approved_procedure: bool,
}

impl Situation {
    /// A building member of ordinary steel at 20 °C with nothing against it.
    pub const USUAL: Self = Self {
        delivery: Delivery::Ordinary,
        service: InService::Building,
        cracks: false,
        galvanised: false,
        painted: false,
        loaded: false,
        steel_c: 20.0,
        straightened_before: 0,
        approved_procedure: false,
    };
}

/// Advice withheld.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Refusal {
    /// Withheld for cold pressing.
    pub cold: bool,
    /// Withheld for heat.
    pub heat: bool,
    /// Why.
    pub reason: &'static str,
    /// What is then needed.
    pub needed: &'static str,
}

/// Coldest steel for cold work, °C, up to and above 25 mm (choice).
const COLDEST_C: (f64, f64) = (5.0, 10.0);
/// Plate from which the warmer limit holds, mm (choice).
const THICK_MM: f64 = 25.0;
/// Thickest plate for cold work without a written procedure, mm (choice).
const THICKEST_COLD_MM: f64 = 50.0;
/// Steel warmer than this is not pressed: blue-brittle range 150–370 °C (common practice, no source), with 50 K to spare
/// (choice).
const WARMEST_C: f64 = 100.0;
/// Earlier straightenings at one place after which no more is advised (choice).
const MOST_REPEATS: u32 = 2;

/// Highest yield strength, MPa, at which plate may be as rolled or normalised: normalised grades end at S460 (EN 10025-3), and stronger
/// plate is quenched and tempered (EN 10025-6) or thermomechanically rolled (all memory).
const ORDINARY_MOST_MPA: f64 = 460.0;

/// What a refusal forbids: cold work, heat.
const BOTH: [bool; 2] = [true, true];
const COLD: [bool; 2] = [true, false];
const HEAT: [bool; 2] = [false, true];

/// Everything that forbids advice, worst first. Empty: nothing known stands against it.
///
/// An approved written procedure lifts what asks for one; cracks, load and temperature stay.
pub(crate) fn refusals(situation: &Situation, thickest_mm: f64, yield_mpa: f64) -> Vec<Refusal> {
    let s = situation;
    let mut out = Vec::new();
    let mut add = |on: bool, [cold, heat]: [bool; 2], reason, needed| {
        if on {
            out.push(Refusal { cold, heat, reason, needed });
        }
    };
    let needed = "stop; report to the engineer; repair and test by an approved procedure first";
    add(s.cracks, BOTH, "known cracks or open indications", needed);
    let needed = "unload it, or an engineer's written procedure with shoring";
    add(s.loaded, BOTH, "the member carries load or is not free to move", needed);
    let no_paper = !s.approved_procedure;
    let service = match s.service {
        InService::Building => None,
        InService::FractureCritical => Some("fracture-critical member"),
        InService::Fatigue => Some("fatigue-loaded member"),
        InService::SeismicProtected => Some("protected zone of a seismic frame"),
        InService::Bridge => Some("bridge member: bridge rules differ from building rules"),
    };
    const WRITTEN: &str = "a written procedure approved by the responsible engineer and the governing code";
    if let Some(reason) = service {
        add(no_paper, BOTH, reason, WRITTEN);
    }
    let too_strong = s.delivery.planned(yield_mpa) != s.delivery;
    let delivery = match s.delivery {
        Delivery::Ordinary | Delivery::NotStated => None,
        Delivery::Thermomechanical => {
            Some((false, "thermomechanically rolled steel: heat may undo its strength"))
        }
        Delivery::QuenchedTempered => Some((true, "quenched and tempered steel")),
        Delivery::ColdFormed => Some((true, "cold-formed steel: its ductility is spent in part")),
        Delivery::Unknown => Some((true, "unknown steel")),
    };
    if let Some((cold, reason)) = delivery {
        const MAKER: &str =
            "the steel maker's limits, tests as the code asks, and the engineer's written procedure";
        add(no_paper, [cold, true], reason, MAKER);
    }
    const CERTIFICATE: &str = "the delivery condition from the certificate, as a note on the piece: `delivery: ordinary` (as rolled or \
         normalised), thermomechanical, quenched-tempered, cold-formed or unknown";
    let not_stated = no_paper && s.delivery == Delivery::NotStated;
    let reason = "nobody has said how the steel was made: heat may undo the strength of thermomechanically rolled or tempered plate";
    add(not_stated && !too_strong, HEAT, reason, CERTIFICATE);
    let reason = "the yield strength is above 460 MPa (67 ksi), where plate is quenched and tempered or thermomechanically rolled and not \
         ordinary: taken as unknown steel";
    let needed = "the delivery condition from the certificate, as a note on the piece: `delivery: quenched-tempered` or \
         `delivery: thermomechanical`; for ordinary steel of that strength the engineer's written procedure";
    add(no_paper && too_strong, BOTH, reason, needed);
    let needed = "cold pressing with the surface protected, or strip the zinc and ask the engineer";
    add(s.galvanised, HEAT, "galvanised: zinc fumes and embrittlement when heated", needed);
    let coldest = if thickest_mm > THICK_MM { COLDEST_C.1 } else { COLDEST_C.0 };
    // a temperature that is no number is no temperature to work at
    let too_cold = s.steel_c.is_nan() || s.steel_c < coldest;
    let needed = "warm it through to shop temperature, or prove its toughness";
    add(too_cold, COLD, "steel colder than +5 °C (+10 °C above 25 mm)", needed);
    let needed = "let it cool to shop temperature before pressing";
    add(s.steel_c > WARMEST_C, COLD, "steel still warm: brittle at 150–370 °C", needed);
    let needed = "the engineer's written procedure";
    add(no_paper && thickest_mm > THICKEST_COLD_MM, COLD, "plate above 50 mm cold", needed);
    let again = s.straightened_before >= MOST_REPEATS;
    let needed = "the engineer's written procedure, with tests of the steel there";
    add(no_paper && again, BOTH, "straightened twice before at the same place", needed);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blocks(situation: &Situation, thick: f64) -> (bool, bool) {
        let found = refusals(situation, thick, 355.0);
        (found.iter().any(|r| r.cold), found.iter().any(|r| r.heat))
    }

    #[test]
    fn each_reason_blocks_what_it_should() {
        let usual = Situation::USUAL;
        for (what, situation, thick, wanted) in [
            ("nothing", usual, 20.0, (false, false)),
            (
                "fracture-critical",
                Situation { service: InService::FractureCritical, ..usual },
                20.0,
                (true, true),
            ),
            ("quenched", Situation { delivery: Delivery::QuenchedTempered, ..usual }, 20.0, (true, true)),
            (
                "thermomechanical",
                Situation { delivery: Delivery::Thermomechanical, ..usual },
                20.0,
                (false, true),
            ),
            ("galvanised", Situation { galvanised: true, ..usual }, 20.0, (false, true)),
            ("cold", Situation { steel_c: 7.0, ..usual }, 30.0, (true, false)),
            ("not so cold", Situation { steel_c: 7.0, ..usual }, 20.0, (false, false)),
            ("no thermometer", Situation { steel_c: f64::NAN, ..usual }, 20.0, (true, false)),
            ("thick", usual, 60.0, (true, false)),
        ] {
            assert_eq!(blocks(&situation, thick), wanted, "{what}");
        }
    }

    /// 650 °C were planned on steel of 690 MPa that was taken, or noted, as ordinary; and it was pressed cold, which steel noted as
    /// unknown was not.
    #[test]
    fn steel_too_strong_to_be_ordinary_is_asked_about_before_anything() {
        let of = |delivery, yield_mpa| {
            let found = refusals(&Situation { delivery, ..Situation::USUAL }, 20.0, yield_mpa);
            let asked = |r: &Refusal| r.cold && r.heat && r.needed.contains("from the certificate");
            (found.len(), found.iter().any(asked))
        };
        for delivery in [Delivery::Ordinary, Delivery::NotStated] {
            assert_eq!(of(delivery, 690.0), (1, true), "{delivery:?}");
        }
        assert_eq!(of(Delivery::Ordinary, 460.0), (0, false));
        // what is stated otherwise has its own refusal
        assert_eq!(of(Delivery::QuenchedTempered, 690.0), (1, false));
    }

    #[test]
    fn a_written_procedure_does_not_mend_cracks() {
        let paper = Situation { approved_procedure: true, service: InService::Fatigue, ..Situation::USUAL };
        assert!(refusals(&paper, 20.0, 355.0).is_empty());
        assert_eq!(blocks(&Situation { cracks: true, ..paper }, 20.0), (true, true));
    }
}
