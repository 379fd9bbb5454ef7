//! The values of the front, from text; an error says what is wanted.

use weldbow_engine::input::{near, text};
use weldbow_engine::straighten::decide::{Delivery, Family, InService, Situation};
use weldbow_engine::straighten::press::Stiffener;
use weldbow_engine::straighten::shape::Up;
use weldbow_engine::units::{Kind, read};

/// Weight of steel, N/mm³.
const STEEL_N_PER_MM3: f64 = 7850e-9 * 9.806_65;
/// Largest standard uncertainty taken, mm.
const LARGEST_SD_MM: f64 = 20.0;
/// Largest count taken.
const MOST: u32 = 100;
/// Largest difference of temperature of two flanges, K (choice: one in the sun, one in the shade, and more).
const MOST_KELVIN: f64 = 50.0;
/// Temperatures of a piece that is measured, °C (choice: an open yard in winter, to what is handled with tongs).
const STEEL_C: (f64, f64) = (-40.0, 200.0);
/// Diameters of a wire, mm (choice: a thread to a rod).
const WIRE_MM: (f64, f64) = (0.1, 3.0);
/// Weights of a string, N/m (choice: thin nylon to the thickest wire).
const STRING_N_PER_M: (f64, f64) = (1e-4, 1.0);
/// Pulls of a string, N (choice: a slack thread to more than a wire bears).
const PULL_N: (f64, f64) = (1.0, 2000.0);
/// Places on the longest member a job may have, mm.
const PLACE_MM: (f64, f64) = (0.0, 100_000.0);
/// Largest mean and scatter of a record, mm, and least scatter (choice).
const RECORD_MM: (f64, f64) = (0.01, 1000.0);

/// Yield strengths taken, MPa.
const YIELD_MPA: (f64, f64) = (150.0, 1100.0);
/// Plates taken as stiffeners, mm.
const STIFFENER_MM: (f64, f64) = (3.0, 1000.0);

type Diagnostic<T> = Result<T, String>;

/// At most 40 characters of what was written.
pub(crate) fn short(written: &str) -> String {
    let clean = text::line(written.trim());
    let start: String = clean.chars().take(40).collect();
    if clean.chars().count() > 40 { format!("{start}…") } else { start }
}

fn within(value: f64, (low, high): (f64, f64)) -> bool {
    (low..=high).contains(&value)
}

fn length(text: &str) -> Diagnostic<f64> {
    read(Kind::Length, text).map_err(|e| e.to_string())
}

/// Two lengths, the second beyond the first.
pub(crate) fn pair(text: &str, between: &str) -> Diagnostic<(f64, f64)> {
    let example = format!("two places with units, as \"0.5 m{between}8.5 m\"");
    let (a, b) = text.split_once(between).ok_or(example)?;
    let (a, b) = (length(a)?, length(b)?);
    if !within(a, PLACE_MM) || !within(b, PLACE_MM) {
        return Err("places on a member, 0 m to 100 m".to_owned());
    }
    if a < b { Ok((a, b)) } else { Err("the place nearer to the start end first".to_owned()) }
}

/// "3 m, 6 m; 80 mm x 8 mm".
pub(super) fn stiffeners(text: &str) -> Diagnostic<Vec<Stiffener>> {
    let wanted = || "places and the plate on each side, as \"3 m, 6 m; 80 mm x 8 mm\"".to_owned();
    let (places, plate) = text.split_once(';').ok_or_else(wanted)?;
    let (width, thickness) = plate.split_once(['x', '×']).ok_or_else(wanted)?;
    let (width_mm, thickness_mm) = (length(width.trim())?, length(thickness.trim())?);
    if ![width_mm, thickness_mm].iter().all(|mm| within(*mm, STIFFENER_MM)) || thickness_mm > width_mm {
        let (low, high) = STIFFENER_MM;
        return Err(format!("a plate wider than thick, of {low} mm to {high} mm"));
    }
    places.split(',').map(|x| Ok(Stiffener { x_mm: length(x.trim())?, width_mm, thickness_mm })).collect()
}

/// "402 MPa".
pub(super) fn yield_mpa(text: &str) -> Diagnostic<f64> {
    let found = read(Kind::Stress, text).map_err(|e| e.to_string())?;
    let (low, high) = YIELD_MPA;
    within(found, YIELD_MPA).then_some(found).ok_or_else(|| format!("{low} MPa to {high} MPa"))
}

/// Stretches, separated by commas.
pub(crate) fn stretches(text: &str) -> Diagnostic<Vec<(f64, f64)>> {
    text.split(',').map(|part| pair(part, " to ")).collect()
}

/// A side.
pub(crate) fn up(text: &str) -> Diagnostic<Up> {
    named(text, &[("inner", Up::Inner), ("outer", Up::Outer), ("near", Up::Near), ("far", Up::Far)])
}

/// Weight (N/mm) and pull (N): "0.5 mm wire at 50 N", "0.0151 N/m at 50 N".
pub(crate) fn string(text: &str) -> Diagnostic<(f64, f64)> {
    let wanted = || "a string, as \"0.5 mm wire at 50 N\" or \"0.0151 N/m at 50 N\"".to_owned();
    let (what, pull) = text.split_once(" at ").ok_or_else(wanted)?;
    let pull = read(Kind::Force, pull).map_err(|e| e.to_string())?;
    let what = what.trim();
    let weight = if let Some(wire) = what.strip_suffix("wire") {
        let d = length(wire.trim().trim_end_matches("steel"))?;
        if d > 0.0 && !within(d, WIRE_MM) {
            return Err("a wire of 0.1 mm to 3 mm".to_owned());
        }
        STEEL_N_PER_MM3 * 0.25 * std::f64::consts::PI * d * d
    } else {
        let number = what.strip_suffix("N/m").ok_or_else(wanted)?;
        number.trim().parse::<f64>().map_err(|_| wanted())? / 1e3
    };
    let good = |v: f64| v.is_finite() && v > 0.0;
    if !good(weight) || !good(pull) {
        return Err("a weight and a pull above zero".to_owned());
    }
    if !within(1e3 * weight, STRING_N_PER_M) || !within(pull, PULL_N) {
        return Err("a string of 0.0001 N/m to 1 N/m, pulled with 1 N to 2 kN".to_owned());
    }
    Ok((weight, pull))
}

/// A whole number.
pub(crate) fn count(text: &str, least: u32) -> Diagnostic<u32> {
    text.parse::<u32>()
        .ok()
        .filter(|n| (least..=MOST).contains(n))
        .ok_or_else(|| format!("a whole number, {least} to {MOST}"))
}

/// A record: "mean 6 mm, scatter 4 mm, 10 pieces".
pub(crate) fn record(text: &str) -> Diagnostic<Family> {
    const FEWEST: u32 = 2;
    const MOST_PIECES: u32 = 100_000;
    let wanted = || "mean, scatter and pieces, as \"mean 6 mm, scatter 4 mm, 10 pieces\"".to_owned();
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let [mean, scatter, pieces] = parts.as_slice() else { return Err(wanted()) };
    let mean = length(mean.strip_prefix("mean").ok_or_else(wanted)?)?;
    let sd = length(scatter.strip_prefix("scatter").ok_or_else(wanted)?)?;
    let number = pieces.strip_suffix("pieces").ok_or_else(wanted)?.trim();
    let pieces = number.parse::<u32>().ok().filter(|n| (FEWEST..=MOST_PIECES).contains(n));
    let pieces = pieces.ok_or_else(|| format!("{FEWEST} to {MOST_PIECES} pieces: fewer give no scatter"))?;
    if sd <= 0.0 {
        return Err("a scatter above zero".to_owned());
    }
    if !within(sd, RECORD_MM) || mean.abs() > RECORD_MM.1 {
        return Err("a mean of at most 1 m and a scatter of 0.01 mm to 1 m".to_owned());
    }
    Ok(Family { mean, sd, pieces: Some(pieces) })
}

/// A standard uncertainty, mm.
pub(crate) fn sd(text: &str) -> Diagnostic<f64> {
    let mm = length(text)?;
    if (0.0..=LARGEST_SD_MM).contains(&mm) { Ok(mm) } else { Err("nothing to 20 mm".to_owned()) }
}

/// A difference of temperature, K.
pub(crate) fn kelvin(text: &str) -> Diagnostic<f64> {
    let wanted = || "a difference, as \"5 K\", at most 50 K".to_owned();
    let number = text.strip_suffix('K').or_else(|| text.strip_suffix("°C")).ok_or_else(wanted)?;
    let k: f64 = number.trim().parse().map_err(|_| wanted())?;
    if k.abs() <= MOST_KELVIN { Ok(k.abs()) } else { Err(wanted()) }
}

/// A side and by how much it is warmer: "near by 5 K".
pub(crate) fn warmer(text: &str) -> Diagnostic<(Up, f64)> {
    let (side, by) = text.split_once(" by ").ok_or("a side and by how much, as \"near by 5 K\"")?;
    Ok((up(side)?, kelvin(by.trim())?))
}

/// A temperature, °C.
pub(crate) fn temperature(text: &str) -> Diagnostic<f64> {
    let c = read(Kind::Temperature, text).map_err(|e| e.to_string())?;
    within(c, STEEL_C).then_some(c).ok_or_else(|| "steel that can be measured, −40 °C to 200 °C".to_owned())
}

/// That odd readings were read again.
pub(crate) fn checked(text: &str) -> Diagnostic<bool> {
    named(text, &[("checked", true)])
}

/// Yes or no.
pub(crate) fn yes(text: &str) -> Diagnostic<bool> {
    named(text, &[("yes", true), ("no", false)])
}

/// How steel may be made, in our words.
const DELIVERIES: [(&str, Delivery); 5] = [
    ("ordinary", Delivery::Ordinary),
    ("thermomechanical", Delivery::Thermomechanical),
    ("quenched-tempered", Delivery::QuenchedTempered),
    ("cold-formed", Delivery::ColdFormed),
    ("unknown", Delivery::Unknown),
];

/// The same in the words and letters of certificates (EN 10025 and usual ones, memory).
const CERTIFIED: [(Delivery, &[&str]); 3] = [
    (Delivery::Ordinary, &["ar", "as-rolled", "n", "normalised", "normalized"]),
    (
        Delivery::Thermomechanical,
        &["m", "tm", "tmcp", "thermomechanically-rolled", "thermo-mechanical", "thermo-mechanically-rolled"],
    ),
    (
        Delivery::QuenchedTempered,
        &["q", "qt", "q+t", "ql", "ql1", "quenched-and-tempered", "quenched-&-tempered"],
    ),
];

/// How the steel was made.
pub(crate) fn delivery(text: &str) -> Diagnostic<Delivery> {
    let written = plain(text.trim().trim_start_matches('+'));
    let certified = CERTIFIED.iter().find(|(_, names)| names.contains(&written.as_str()));
    certified.map_or_else(|| named(text, &DELIVERIES), |(delivery, _)| Ok(*delivery))
}

/// What the member does.
pub(crate) fn service(text: &str) -> Diagnostic<InService> {
    named(
        text,
        &[
            ("building", InService::Building),
            ("fracture-critical", InService::FractureCritical),
            ("fatigue", InService::Fatigue),
            ("seismic", InService::SeismicProtected),
            ("bridge", InService::Bridge),
        ],
    )
}

/// Any of cracks, galvanised, painted, loaded.
pub(crate) fn state(text: &str, situation: &mut Situation) -> Diagnostic<()> {
    for word in text.split(',') {
        let all = [("cracks", 0), ("galvanised", 1), ("painted", 2), ("loaded", 3)];
        match named(word, &all)? {
            0 => situation.cracks = true,
            1 => situation.galvanised = true,
            2 => situation.painted = true,
            _ => situation.loaded = true,
        }
    }
    Ok(())
}

fn plain(text: &str) -> String {
    text.trim().to_lowercase().replace([' ', '_'], "-")
}

fn named<T: Copy>(text: &str, all: &[(&'static str, T)]) -> Diagnostic<T> {
    let plain = plain(text);
    let names: Vec<&str> = all.iter().map(|a| a.0).collect();
    all.iter().find(|a| a.0 == plain).map(|a| a.1).ok_or_else(|| near::wanted(&plain, &names))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_millimetre_of_steel_wire_weighs_fifteen_millinewtons_a_metre() {
        let (weight, pull) = string("0.5 mm steel wire at 50 N").unwrap();
        assert!((weight * 1e3 - 0.0151).abs() < 5e-5 && (pull - 50.0).abs() < 1e-12, "{weight}");
        assert!((string("0.0151 N/m at 50 N").unwrap().0 - 0.0151e-3).abs() < 1e-12);
        assert!(string("0 N/m at 50 N").is_err() && string("wire").is_err());
        for odd in ["1000 mm wire at 0.001 N", "0.5 mm wire at 0.5 N", "0.5 mm wire at 1 MN", "9 N/m at 50 N"]
        {
            assert!(string(odd).is_err(), "{odd}");
        }
    }

    #[test]
    fn what_no_shop_can_have_is_refused() {
        assert!(["-500 °C", "1500 °C", "201 °C"].iter().all(|t| temperature(t).is_err()));
        assert_eq!(temperature("18 °C"), Ok(18.0));
        assert!(kelvin("51 K").is_err() && kelvin("50 K").is_ok());
        assert!(stretches("-1 m to 1 m").is_err() && stretches("1 m to 1e300 m").is_err());
        assert!(record("mean 1e300 mm, scatter 4 mm, 10 pieces").is_err());
        assert!(record("mean 6 mm, scatter 1e-300 mm, 10 pieces").is_err());
    }

    /// A certificate's own words were unknown.
    #[test]
    fn delivery_is_read_in_the_words_of_certificates() {
        for (said, wanted) in [
            ("as rolled, AR, +AR, normalised, Normalized, N, +N, Ordinary", Delivery::Ordinary),
            (
                "M, +M, TMCP, thermo-mechanically rolled, thermomechanically rolled",
                Delivery::Thermomechanical,
            ),
            ("Q, QT, +QT, QL, quenched and tempered, quenched tempered", Delivery::QuenchedTempered),
        ] {
            for word in said.split(", ") {
                assert_eq!(delivery(word), Ok(wanted), "{word}");
            }
        }
        // half of it is no delivery, and what is near to one is named in our words
        assert!(delivery("quenched").is_err_and(|wanted| wanted.contains("quenched-tempered")));
    }

    #[test]
    fn places_come_in_order_and_with_units() {
        assert_eq!(pair("0.5 m and 8.5 m", " and "), Ok((500.0, 8500.0)));
        assert!(pair("8.5 m and 0.5 m", " and ").is_err() && pair("0.5 and 8.5", " and ").is_err());
    }
}
