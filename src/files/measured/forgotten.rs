//! A key of the front that lacks its colon. Taken for a remark, what it says of the steel would be lost, and a plan made without it.

use super::front_values::short;
use super::keys::known;
use weldbow_engine::input::Problem;

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
