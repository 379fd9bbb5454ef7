//! The keys that the front of a measured file has.

use std::ops::Range;

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
