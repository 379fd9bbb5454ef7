//! Mistakes that a welder's desk makes every day, each in the job that `weldbow new` writes: what is said is kept in
//! `everyday.txt`, and a line that is called right must be right.

use super::{folder, message};
use std::fs::{read_to_string, write};
use weldbow::job::{STARTER, STARTER_US, read_text};
use weldbow::prediction::job_warnings;
use weldbow::reading::Hint;
use weldbow::tolerance::Set;

/// What becomes of a mistake.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Then {
    /// It is understood.
    Understood,
    /// The mended line, or what to do, is shown.
    Right,
    /// A line is shown for an example.
    Example,
    /// Words only: any line could be the wrong one.
    Words,
}
use Then::{Example, Right, Understood, Words};

const LEG: &str = "leg = \"6 mm\"";
const OUTER: &str = "seam = \"outer\"";
const STEEL: &str = "steel = \"S355\"";
const DEMAND: &str = "# [hold] ";
const WHOLE: &str = "# web_edges = \"thermally-cut\"";
const TOLERANCES: &str = "tolerances = [\"en-1090-2-class-1\"]";

/// Name, text of the starter, text in its place, what becomes of it.
const MISTAKES: &[(&str, &str, &str, Then)] = &[
    ("edges cut by plasma", WHOLE, "web_edges = \"plasma\" #", Right),
    ("edges cut by flame", WHOLE, "web_edges = \"flame-cut\" #", Right),
    ("edges cut by water", WHOLE, "web_edges = \"water-jet\" #", Words),
    (
        "a load that repeats",
        DEMAND,
        "[demand]\ncode = \"en-1993-1-8\"\nstart_shear = \"60 kN\"\nservice = \"fatigue\" #",
        Right,
    ),
    ("a code without its part", DEMAND, "[demand]\ncode = \"en-1993\"\nstart_shear = \"60 kN\" #", Words),
    (
        "a rule for fillets by half its name",
        DEMAND,
        "[demand]\ncode = \"en-1993-1-8\"\nstart_shear = \"60 kN\"\nminimums = [\"aisc\"] #",
        Words,
    ),
    (
        "a demand in double brackets",
        DEMAND,
        "[[demand]]\ncode = \"en-1993-1-8\"\nstart_shear = \"60 kN\" #",
        Right,
    ),
    ("a camber toward the top", "# [camber]", "[camber]\nrise = \"20 mm\"\ntoward = \"top\" #", Words),
    ("both seams in one pass", OUTER, "seam = \"both\"", Right),
    ("both sides in one pass", "side = \"near\"", "side = \"both\"", Example),
    ("a seam at the bottom", OUTER, "seam = \"bottom\"", Words),
    ("a side misspelt", "side = \"near\"", "side = \"nere\"", Right),
    ("a procedure of another file", "procedure = \"twin-6\"\nstep", "procedure = \"single4\"\nstep", Right),
    ("a procedure without its dash", "procedure = \"twin-6\"\nstep", "procedure = \"twin6\"\nstep", Right),
    (
        "one tolerance set of two misspelt",
        TOLERANCES,
        "tolerances = [\"en-1090-2-class-1\", \"aws-d1-1\"]",
        Right,
    ),
    ("a class that is none", TOLERANCES, "tolerances = [\"en-1090-2-class-3\"]", Words),
    ("a class of letters that are none", TOLERANCES, "tolerances = [\"iso-13920-zz\"]", Words),
    ("a longer member of the same depth points", "length = \"9.0 m\"", "length = \"12 m\"", Right),
    ("depth from half a metre on", "[[\"0 m\", \"400 mm\"]", "[[\"0.5 m\", \"400 mm\"]", Right),
    ("a depth point without its depth", "[\"9 m\", \"760 mm\"]]", "[\"9 m\"]]", Example),
    ("passes in single brackets", "[[pass]]", "[pass]", Right),
    ("the member in double brackets", "[member]", "[[member]]", Right),
    ("a procedure in double brackets", "[procedure.twin-6]", "[[procedure.twin-6]]", Right),
    ("heat in a procedure", "wires = 2 ", "heat_input = \"1.1 kJ/mm\" ", Right),
    (
        "gross heat on a pass",
        "procedure = \"twin-6\"\nstep",
        "gross_heat_input = \"1.1 kJ/mm\"\nstep",
        Understood,
    ),
    ("a heat of no kind on a pass", "procedure = \"twin-6\"\nstep", "heat = \"1.1 kJ/mm\"\nstep", Example),
    ("strengths by their symbols", STEEL, "steel = { fy = \"355 MPa\", fu = \"470 MPa\" }", Right),
    ("a steel with quality and delivery", STEEL, "steel = \"S355J2+N\"", Understood),
    ("a steel with its quality", STEEL, "steel = \"S355 J2\"", Understood),
    ("an American grade as it is ordered", STEEL, "steel = \"A572 Gr 50\"", Understood),
    ("a steel of another standard", STEEL, "steel = \"S355NL\"", Words),
    ("a steel with a digit wrong", STEEL, "steel = \"S335\"", Words),
    ("one flange for both", "outer_flange = [{ width", "flange = [{ width", Example),
    ("a speed in millimetres", "\"1.0 m/min\"", "\"0.95 mm/min\"", Example),
    ("a leg without a unit", LEG, "leg = \"6\"", Example),
    ("a leg as a number", LEG, "leg = 6", Example),
    ("a leg in kilograms", LEG, "leg = \"6 kg\"", Example),
    ("a leg as thick as a thumb", LEG, "leg = \"50 mm\"", Example),
    ("a comma for a point", "\"1.6 mm\"", "\"1,6 mm\"", Example),
    ("no voltage", "voltage = \"30 V\"", "# voltage = \"30 V\"", Example),
    ("two currents", "voltage = \"30 V\"", "voltage = \"30 V\"\ncurrent_per_wire = \"310 A\"", Right),
    ("less than no wire", "wires = 2 ", "wires = -2 ", Example),
    ("a process by its letters", "\"submerged-arc\" ", "\"SAW\" ", Right),
    ("a process by other letters", "\"submerged-arc\" ", "\"GMAW\" ", Right),
    ("a polarity by its letters", "wires = 2 ", "polarity = \"DCEP\" ", Right),
    ("metric units", "units = \"si\"", "units = \"metric\"", Right),
    (
        "a width and a thickness turned round",
        "width = \"180 mm\", thickness = \"8 mm\"",
        "width = \"8 mm\", thickness = \"180 mm\"",
        Example,
    ),
    (
        "a pass beyond the end",
        "# from = \"6 m\"",
        "[[pass]]\nseam = \"outer\"\nside = \"far\"\nprocedure = \"twin-6\"\nto = \"90 m\" #",
        Right,
    ),
    (
        "the same pass again",
        "# A far side",
        "[[pass]]\nseam = \"outer\"\nside = \"near\"\nprocedure = \"twin-6\" #",
        Example,
    ),
    ("stitches by a stroke", LEG, "leg = \"6 mm\"\nintermittent = \"200/100\"", Example),
    ("a limit without its part", "# [limits]", "[limits]\ncamber = \"L/\" #", Example),
    ("a key misspelt", "{ thickness = \"5 mm\" }", "{ thicknes = \"5 mm\" }", Right),
    ("a key twice", STEEL, "steel = \"S355\"\nsteel = \"S235\"", Words),
    ("a table of no kind", "[member]", "[welder]\nname = \"somebody\"\n[member]", Right),
    ("a quote left out", "\"9.0 m\"", "\"9.0 m", Example),
    ("a deviation by its word of older files", "# [limits]", "[scatter]\nfold = 0.3 #", Right),
    ("a deviation with the hyphens of older files", "# [limits]", "[scatter]\nheat-from-leg = 0 #", Right),
    // understood, and warned of
    ("a web in centimetres", "[{ thickness = \"5 mm\" }]", "[{ thickness = \"5 cm\" }]", Understood),
    ("a factor of twelve", "# [limits]", "[factors]\nforce = 12 #", Understood),
    ("a step by its word of older files", "\nstep = 1", "\norder = 1", Understood),
];

fn text_of((_, from, to, _): &(&str, &str, &str, Then)) -> String {
    assert!(STARTER.contains(from), "{from} is not in the starter");
    // a change of all passes or of the first
    if *from == "[[pass]]" { STARTER.replace(from, to) } else { STARTER.replacen(from, to, 1) }
}

#[test]
fn every_everyday_mistake_is_understood_or_answered_as_kept() {
    assert!(MISTAKES.len() >= 45, "only {} mistakes", MISTAKES.len());
    let mut all = String::new();
    for mistake in MISTAKES {
        let (name, .., then) = mistake;
        all += &format!("=== {name}\n");
        match read_text("job.toml", &text_of(mistake)) {
            Ok(job) => {
                assert_eq!(*then, Understood, "{name}");
                let heat = job.passes[0].heat_j_per_mm;
                all += &format!("understood: steel {}, heat {heat:.0} J/mm\n", job.member.steel.name);
                for warning in job_warnings(&job) {
                    all += &format!("warned: {}\n", warning.text);
                }
                all += "\n";
            }
            Err(complaint) => {
                all += &message(&complaint);
                all += "\n";
                let first = complaint.problems.iter().map(|found| match &found.problem.hint {
                    Hint::Right(_) | Hint::Value(_) => Right,
                    Hint::Example(_) => Example,
                    Hint::Field | Hint::Nothing => Words,
                });
                let said: Vec<Then> = first.collect();
                assert!(said.contains(then), "{name}: {said:?}, expected {then:?} in:\n{all}");
            }
        }
    }
    let kept = folder().join("everyday.txt");
    if std::env::var_os("UPDATE_MESSAGES").is_some() {
        write(&kept, &all).unwrap();
    }
    assert!(read_to_string(&kept).unwrap_or_default() == all, "everyday.txt would now be:\n{all}");
}

/// A mended line put in the place of the wrong one takes that mistake away.
#[test]
fn a_line_that_is_called_right_is_right() {
    let mut mended = 0;
    for mistake in MISTAKES {
        let (name, text) = (mistake.0, text_of(mistake));
        let Err(complaint) = read_text("job.toml", &text) else { continue };
        for found in &complaint.problems {
            let Hint::Right(right) = &found.problem.hint else { continue };
            let line = text.lines().nth(found.line - 1).unwrap();
            let key = |line: &str| line.split('=').next().map(|key| key.trim().to_owned());
            let renamed = key(line).is_some_and(|key| found.problem.path.ends_with(&format!(".{key}")))
                && key(right).is_some_and(|key| key.bytes().all(|b| b.is_ascii_lowercase() || b == b'_'));
            let whole = (key(line) == key(right) || renamed) && line.contains('=') && !right.contains('\n');
            let brackets = !found.problem.path.is_empty()
                && right.starts_with('[')
                && !right.contains('\n')
                && line.starts_with('[');
            if !whole && !brackets {
                continue;
            }
            let lines: Vec<&str> = text
                .lines()
                .enumerate()
                .map(|(at, old)| if at + 1 == found.line { right.as_str() } else { old })
                .collect();
            let again = read_text("job.toml", &lines.join("\n"));
            let same = |complaint: &weldbow::reading::Diagnostics| {
                complaint
                    .problems
                    .iter()
                    .any(|p| p.problem.path == found.problem.path && p.line == found.line)
            };
            assert!(
                again.as_ref().err().is_none_or(|complaint| !same(complaint)),
                "{name}: {right} is no better: {again:?}"
            );
            mended += 1;
        }
    }
    assert!(mended >= 12, "only {mended} lines were put to the test");
}

/// What can be asked for stands in the job that one begins with.
#[test]
fn a_new_job_names_every_tolerance_set_and_the_demand() {
    for text in [STARTER, STARTER_US] {
        let sets = Set::names().filter(|name| !name.starts_with("iso-13920"));
        for name in sets.chain(["iso-13920-bf", "[demand]"]) {
            assert!(text.contains(name), "{name} is not in:\n{text}");
        }
    }
}
