//! Text to engine units.

use super::error::Fault;
use super::number::take_number;
use super::{Kind, ReadError, Unit};

/// Reads a quantity with its unit into engine units.
///
/// Numbers: "9.5", "1.2e3", "5/16", "1-1/4", "1 1/4"; a sign before; blanks before the unit or none. Lengths
/// and times also take sums from the larger unit to the smaller: "24 ft 6-1/2 in", "24'-6\"", "1 h 30 min". A
/// sign before a sum holds for all of it, and a hyphen between feet and inches is a dash. Units are spelt
/// exactly, upper and lower case apart (a megapascal is not a millipascal).
///
/// # Errors
/// One [`ReadError`] per cause; a number without a unit is one, "0" included.
///
/// ```
/// use weldbow_engine::units::{Kind, read};
/// assert_eq!(read(Kind::Length, "1-1/4 in"), Ok(31.75));
/// assert_eq!(read(Kind::Stress, "345 N/mm²"), Ok(345.0));
/// let mixed_up = read(Kind::Force, "1.1 kJ/mm").unwrap_err().to_string();
/// assert!(mixed_up.starts_with("kJ/mm is a heat input, here a force is wanted"));
/// ```
pub fn read(kind: Kind, text: &str) -> Result<f64, ReadError> {
    let text = text.trim();
    let wrong = |why| ReadError { kind, text: quote(text), why };
    if text.is_empty() {
        return Err(wrong(Fault::Empty));
    }
    let (sign, mut rest) = split_sign(text);
    let mut sum = 0.0;
    let mut last: Option<&Unit> = None;
    while !rest.is_empty() {
        if last.is_some() && !kind.adds_up() {
            return Err(wrong(Fault::SeveralParts));
        }
        let (number, after) = take_number(rest).map_err(wrong)?;
        let (spelling, dash, next) = split_unit(after.trim_start());
        if spelling.is_empty() {
            return Err(ReadError { kind, text: quote(rest), why: Fault::NoUnit });
        }
        let unit = find_unit(kind, spelling)?;
        if last.is_some_and(|l| unit.times / unit.per >= l.times / l.per) {
            return Err(wrong(Fault::PartsOutOfOrder));
        }
        if dash && !matches!(unit.spelling, "ft" | "'") {
            return Err(wrong(Fault::NotANumber));
        }
        // The sign goes on the number, not on the sum, for the sake of −40 °F.
        let part = unit.to_engine(sign * number);
        sum = if last.is_some() { sum + part } else { part };
        last = Some(unit);
        rest = next;
    }
    if last.is_none() {
        return Err(wrong(Fault::NotANumber));
    }
    if sum.is_finite() { Ok(sum) } else { Err(wrong(Fault::NotFinite)) }
}

fn split_sign(text: &str) -> (f64, &str) {
    match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// The unit at the start, whether a dash follows it, and the next part.
fn split_unit(text: &str) -> (&str, bool, &str) {
    let mark = text.chars().next().filter(|c| matches!(c, '\'' | '"' | '′' | '″'));
    if let Some(mark) = mark {
        let (unit, tail) = text.split_at(mark.len_utf8());
        return match next_part(tail) {
            Some((dash, next)) => (unit, dash, next),
            None => (unit, false, tail.trim_start()),
        };
    }
    for (at, _) in text.char_indices().filter(|(_, c)| c.is_whitespace() || *c == '-') {
        if let Some((dash, next)) = next_part(&text[at..]) {
            return (&text[..at], dash, next);
        }
    }
    (text.trim_end(), false, "")
}

/// A number behind blanks and at most one dash.
fn next_part(tail: &str) -> Option<(bool, &str)> {
    let tail = tail.trim_start();
    let (dash, tail) = tail.strip_prefix('-').map_or((false, tail), |t| (true, t.trim_start()));
    tail.starts_with(|c: char| c.is_ascii_digit() || c == '.').then_some((dash, tail))
}

fn find_unit(kind: Kind, written: &str) -> Result<&'static Unit, ReadError> {
    let spelling = plain(written);
    if let Some(unit) = kind.unit(&spelling) {
        return Ok(unit);
    }
    let other = Kind::ALL.iter().find(|k| k.unit(&spelling).is_some());
    let is = other.map(|k| format!("{} {}", k.article(), k.noun())).or_else(|| stranger(&spelling));
    let why = is.map_or_else(|| Fault::UnknownUnit(nearest(kind, &quote(&spelling))), Fault::OtherKind);
    Err(ReadError { kind, text: quote(written), why })
}

/// The spelling with typographic marks made plain and no blanks around a stroke.
fn plain(written: &str) -> String {
    let strokes: Vec<&str> = written.split('/').map(str::trim).collect();
    strokes.join("/").replace('′', "'").replace('″', "\"").replace('º', "°")
}

/// What some units are that no kind here uses, so that a mix-up is named rather than called unknown.
fn stranger(spelling: &str) -> Option<String> {
    let is = match spelling {
        "kg" | "g" | "t" | "lb" | "lbs" => "a mass",
        "J" | "kJ" | "MJ" => "an energy",
        "W" | "kW" => "a power",
        "mm2" | "mm²" | "cm2" | "cm²" | "m2" | "m²" | "in2" | "in²" => "an area",
        "K" => "an absolute temperature",
        _ => return None,
    };
    Some(is.to_owned())
}

/// Likeness below which a suggestion would only confuse; our choice, tried on common slips.
const LIKE: f64 = 0.7;

fn nearest(kind: Kind, written: &str) -> Option<&'static str> {
    let written = written.to_lowercase();
    kind.units()
        .iter()
        .map(|u| (strsim::jaro_winkler(&u.spelling.to_lowercase(), &written), u.spelling))
        .filter(|(like, _)| *like >= LIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, spelling)| spelling)
}

/// Longest stretch of a user's text repeated in a message, characters.
const QUOTED: usize = 40;

/// A user's text fit for one line of a message.
fn quote(text: &str) -> String {
    let clean = text.trim().chars().map(|c| if c.is_control() { '\u{FFFD}' } else { c });
    let mut quoted: String = clean.take(QUOTED).collect();
    if text.trim().chars().nth(QUOTED).is_some() {
        quoted.push('…');
    }
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn near(kind: Kind, text: &str, expected: f64) {
        let got = read(kind, text).unwrap();
        let gap = (got - expected).abs();
        assert!(gap <= 1e-12 * expected.abs(), "{text}: read {got}, expected {expected}");
    }

    #[test]
    fn feet_and_inches_add_up_however_they_are_written() {
        for text in [
            "24 ft 6-1/2 in",
            "24ft 6 1/2in",
            "24'-6 1/2\"",
            "24' 6-1/2\"",
            "24'6.5\"",
            "24 ft - 6.5 in",
            "24′ 6.5″",
        ] {
            near(Kind::Length, text, 7480.3);
        }
    }

    #[test]
    fn a_sign_before_a_sum_holds_for_all_of_it() {
        for text in ["-24 ft 6-1/2 in", "− 24 ft 6-1/2 in"] {
            near(Kind::Length, text, -7480.3);
        }
        near(Kind::Length, "+8 mm", 8.0);
        near(Kind::Temperature, "-40 °F", -40.0);
    }

    #[test]
    fn times_add_up_too() {
        near(Kind::Time, "1 h 30 min", 5400.0);
        near(Kind::Time, "1h 2min 3s", 3723.0);
    }

    #[test]
    fn typographic_marks_and_blanks_around_a_stroke_are_forgiven() {
        near(Kind::Length, "6″", 152.4);
        near(Kind::Temperature, "20ºC", 20.0);
        near(Kind::HeatInput, "1.1 kJ / mm", 1100.0);
    }

    #[test]
    fn every_cause_of_refusal_has_its_own_error() {
        type Is = fn(&Fault) -> bool;
        let cases: [(Kind, &str, Is); 24] = [
            (Kind::Length, "", |e| matches!(e, Fault::Empty)),
            (Kind::Length, " \t\n", |e| matches!(e, Fault::Empty)),
            (Kind::Length, "0", |e| matches!(e, Fault::NoUnit)),
            (Kind::Length, "9000", |e| matches!(e, Fault::NoUnit)),
            (Kind::Length, "24 ft 6", |e| matches!(e, Fault::NoUnit)),
            (Kind::Length, "8 furlong", |e| matches!(e, Fault::UnknownUnit(None))),
            (Kind::Length, "8 inch", |e| matches!(e, Fault::UnknownUnit(Some("in")))),
            (Kind::Length, "8 MM", |e| matches!(e, Fault::UnknownUnit(Some("mm")))),
            (Kind::Stress, "345 mPa", |e| matches!(e, Fault::UnknownUnit(Some("MPa")))),
            (Kind::Length, "8 m m", |e| matches!(e, Fault::UnknownUnit(_))),
            (Kind::Force, "1.1 kJ/mm", |e| matches!(e, Fault::OtherKind(_))),
            (Kind::Length, "8 kg", |e| matches!(e, Fault::OtherKind(_))),
            (Kind::Length, "8 mm2", |e| matches!(e, Fault::OtherKind(_))),
            (Kind::Length, "-", |e| matches!(e, Fault::NotANumber)),
            (Kind::Length, "mm", |e| matches!(e, Fault::NotANumber)),
            (Kind::Length, "+-8 mm", |e| matches!(e, Fault::NotANumber)),
            (Kind::Length, "2 m - 5 cm", |e| matches!(e, Fault::NotANumber)),
            (Kind::Length, "5\" -", |e| matches!(e, Fault::NotANumber)),
            (Kind::Length, "9,5 mm", |e| matches!(e, Fault::Comma)),
            (Kind::Length, "-inf mm", |e| matches!(e, Fault::NotFinite)),
            (Kind::Length, "1e308 m", |e| matches!(e, Fault::NotFinite)),
            (Kind::Length, "5/0 in", |e| matches!(e, Fault::DividesByZero)),
            (Kind::Force, "5 kN 3 N", |e| matches!(e, Fault::SeveralParts)),
            (Kind::Length, "6 in 24 ft", |e| matches!(e, Fault::PartsOutOfOrder)),
        ];
        for (kind, text, is) in cases {
            let error = read(kind, text).unwrap_err();
            assert!(is(&error.why), "{text:?} gave {error:?}");
            let message = error.to_string();
            let forms = format!("or {:?} (units: ", kind.examples()[1]).replace("\\\"", "\"");
            assert!(message.contains(&forms) && message.ends_with(')'), "{message}");
        }
    }

    #[test]
    fn a_mixed_up_kind_is_told_what_it_is() {
        let message = read(Kind::Length, "8 kg").unwrap_err().to_string();
        assert!(message.starts_with("kg is a mass, here a length is wanted; "), "{message}");
        let message = read(Kind::Speed, "3 °").unwrap_err().to_string();
        assert!(message.starts_with("° is an angle, here a speed is wanted; "), "{message}");
    }

    #[test]
    fn a_message_stays_one_short_line_whatever_was_written() {
        let message =
            read(Kind::Length, &format!("8 {}\n\u{7}", "mm\n".repeat(10_000))).unwrap_err().to_string();
        let length = message.chars().count();
        assert!(length < 250, "{length} characters");
        assert!(!message.contains(char::is_control), "{message:?}");
    }

    #[test]
    fn every_example_reads() {
        for kind in Kind::ALL {
            for example in kind.examples() {
                assert!(read(kind, example).is_ok_and(|v| v > 0.0), "{example}");
            }
        }
    }

    proptest! {
        #[test]
        fn no_text_brings_the_reader_down(text in "\\PC*", bits in "[-+−0-9./,eE'\" fintmks°]{0,24}") {
            for kind in Kind::ALL {
                for text in [&text, &bits] {
                    if let Ok(value) = read(kind, text) {
                        prop_assert!(value.is_finite(), "{text:?} read as {value}");
                    }
                }
            }
        }

        #[test]
        fn a_whole_and_its_sixteenths_read_as_their_sum(whole in 0_u32..1000, over in 1_u32..16) {
            let expected = (f64::from(whole) + f64::from(over) / 16.0) * 25.4;
            for gap in ["-", " "] {
                let got = read(Kind::Length, &format!("{whole}{gap}{over}/16 in")).unwrap();
                prop_assert!((got - expected).abs() < 1e-9, "read {got}, expected {expected}");
            }
        }
    }
}
