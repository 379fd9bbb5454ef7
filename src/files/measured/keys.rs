//! Keys of the notes on a piece, and notes whose colon is forgotten.

use super::front_values::short;
use std::ops::Range;
use weldbow_engine::input::Problem;

const RECORD: &str = "mean 6 mm, scatter 4 mm, 10 pieces";

/// One key: its name, a right value, and what it is.
pub(crate) type Key = (&'static str, &'static str, &'static str);

/// Every key.
pub(crate) const KEYS: [Key; 30] = [
    ("lay on", "0.5 m and 8.5 m", "the two supports it lay on, from the start end"),
    ("up", "inner", "side that faced up: inner, outer, near or far"),
    (
        "string",
        "0.5 mm wire at 50 N",
        "string the offsets were read from: steel wire, or its weight as 0.0151 N/m",
    ),
    ("measurements", "2", "independent measurements that the readings are the mean of"),
    ("camber uncertainty", "1 mm", "standard uncertainty of a camber reading"),
    ("sweep uncertainty", "1 mm", "standard uncertainty of a sweep reading"),
    ("toe uncertainty", "0.5 mm", "standard uncertainty of a toe reading"),
    ("temperature difference", "5 K", "one flange warmer than the other while measuring, nobody knows which"),
    (
        "warmer",
        "near by 5 K",
        "side that was warmer than the one across while measuring: inner, outer, near or far",
    ),
    ("readings", "checked", "odd readings were read again, with their units, and stand"),
    ("keep off", "4.9 m to 5.2 m", "stretches not to be pushed or heated, as holes and brackets"),
    (
        "stiffener at",
        "3 m, 6 m; 80 mm x 8 mm",
        "full stiffeners of that plate on each side of the web, to push on",
    ),
    ("yield", "402 MPa", "yield strength of this piece by its certificate"),
    ("delivery", "ordinary", "steel: ordinary, thermomechanical, quenched-tempered, cold-formed or unknown"),
    ("service", "building", "use: building, fracture-critical, fatigue, seismic or bridge"),
    ("state", "painted", "any of cracks, galvanised, painted, loaded"),
    ("steel temperature", "18 °C", "of the piece now"),
    ("straightened before", "1", "times at the same places"),
    ("approved procedure", "yes", "whether a written procedure is approved: yes or no"),
    ("camber record", RECORD, "camber of earlier pieces of the family, less the wanted one"),
    ("sweep record", RECORD, "sweep of earlier pieces of the family"),
    (
        "job",
        "../jobs/rafter.toml",
        "its job file, from where this file lies; held against the one straightened",
    ),
    ("mark", "R2", "its mark, where that says which job it is; for `weldbow calibrate`"),
    (
        "marks",
        "order.csv",
        "list of marks and their jobs, from where this file lies; for `weldbow calibrate`",
    ),
    ("piece", "R2-01", "its name; for the sheet and `weldbow calibrate`"),
    ("date", "2026-05-12", "day it was welded; for `weldbow calibrate`"),
    ("line", "line 1", "line it was welded on; for `weldbow calibrate`"),
    ("procedure", "twin-6", "procedure it was welded by; for `weldbow calibrate`"),
    ("family", "rafters", "pieces made alike; for `weldbow calibrate`"),
    ("note", "anything", "a remark"),
];

/// Keys that may stand several times: what they say adds up.
pub(super) const ADDING_UP: [&str; 4] = ["keep off", "stiffener at", "state", "note"];

/// The key of that name, however it is written.
pub(super) fn known(written: &str) -> Option<&'static Key> {
    let plain = plain(written);
    KEYS.iter().find(|key| key.0 == plain)
}

/// A key in its own spelling.
pub(super) fn plain(written: &str) -> String {
    written.trim().to_lowercase().replace(['_', '-'], " ")
}

/// Where a key stands in a text: that of the last line that gives it.
pub(super) fn place(text: &str, key: &str) -> Option<Range<usize>> {
    let mut start = 0;
    let lines = text.split_inclusive('\n').filter_map(|line| {
        let begin = start;
        start += line.len();
        let written = line.trim_start_matches('\u{feff}').strip_prefix('#')?.split_once(':')?.0;
        let from = begin + line.find(written)? + (written.len() - written.trim_start().len());
        (plain(written) == key).then(|| from..from + written.trim().len())
    });
    lines.last()
}

/// Most words of a value, more than any key needs (`3 m, 6 m; 80 mm x 8 mm` has nine).
const MOST_WORDS: usize = 12;
/// Keys whose value is a name of the shop's own.
const NAMES: [&str; 8] = ["job", "mark", "marks", "piece", "date", "line", "procedure", "family"];

/// What is wrong with a line without a colon that begins with a key and goes on with what that key may say; None for a remark.
/// `before` is what such a line begins with, `is_said` whether a key may say a value.
pub(super) fn colon(line: &str, before: &str, is_said: impl Fn(&str, &str) -> bool) -> Option<Problem> {
    let spaced = line.replacen('=', " = ", 1);
    let words: Vec<&str> = spaced.split_whitespace().take(MOST_WORDS).collect();
    let (key, rest) = [2, 1].into_iter().find_map(|length| {
        let (key, rest) = words.split_at_checked(length)?;
        Some((known(&key.join(" "))?.0, rest))
    })?;
    let rest = rest.strip_prefix(&["="]).or_else(|| rest.strip_prefix(&["–"])).unwrap_or(rest);
    let said = |count: usize| rest[..count].join(" ").trim_end_matches([',', ';', '.']).to_owned();
    let value = if NAMES.contains(&key) {
        // "# line stopped at noon" is a remark, "# line 2" a line
        let name = |name: &String| key == "family" || name.contains(|c: char| c.is_ascii_digit() || c == '.');
        (rest.len() == 1).then(|| said(1)).filter(name)
    } else if key == "note" {
        None
    } else {
        // what comes after the value may be a remark on it
        (1..=rest.len()).rev().map(said).find(|value| is_said(key, value))
    }?;
    let found = format!("`{}` without a colon", short(line));
    let wanted = format!("a colon behind `{key}`, or `{before}note: …` around a remark");
    Some(Problem::new(key, found, wanted).right(format!("{before}{key}: {value}")))
}

#[cfg(test)]
mod tests {
    use super::super::Front;
    use weldbow_engine::input::Problem;

    fn colon(line: &str) -> Option<Problem> {
        super::colon(line, "# ", |key, value| Front::default().take(key, value).is_ok())
    }

    #[test]
    fn a_key_with_its_value_lacks_a_colon_and_a_remark_does_not() {
        for line in [
            "state cracks",
            " Service fatigue",
            "delivery quenched-tempered",
            "delivery = quenched tempered",
            "lay on 0.5 m and 8.5 m, on trestles",
            "yield 402 MPa by its certificate",
            "state painted, loaded.",
            "sweep record mean 6 mm, scatter 4 mm, 10 pieces",
            "readings checked by the foreman",
            "stiffener at 3 m, 6 m; 80 mm x 8 mm",
            "job ../jobs/rafter.toml",
            "piece R2-01",
            "date 2026-05-12",
            "line 2",
            "family rafters",
        ] {
            let problem = colon(line).unwrap_or_else(|| panic!("{line} passes for a remark"));
            println!("{line}: {} {:?}", problem.found, problem.hint);
        }
        for line in [
            "measured in the morning",
            "readings taken by two men",
            "state of the weld not looked at",
            "line stopped at noon",
            "piece warm",
            "up on trestles",
            "note the camber",
            "delivery",
            "mark faded",
            "lay on the floor",
            "x [m], camber [mm]",
            "",
            "=",
        ] {
            assert_eq!(colon(line), None, "{line}");
        }
    }
}
