//! Reads `reference-cases/<name>.toml` and compares its rows with what the crate gives.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// How an expected value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Trust {
    /// Read where `source` says, or in a work that repeats it.
    Read,
    /// Read in works that repeat it, not in the source.
    #[serde(rename = "second hand")]
    SecondHand,
    /// Recalled, not seen again.
    Memory,
    /// Worked out by hand or in closed form from what the source prints.
    Derived,
    /// Result of a general-purpose library.
    Library,
    /// Result of a script of our own, kept beside the sheet.
    #[serde(rename = "own script")]
    OwnScript,
}

/// Allowed gap: `absolute` plus `relative` times the size of the expected value.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Tolerance {
    #[serde(default)]
    pub absolute: f64,
    #[serde(default)]
    pub relative: f64,
    /// Why it is not smaller.
    pub reason: String,
}

/// One expected value; `G` is what it depends on.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Case<G> {
    pub quantity: String,
    pub given: G,
    pub expected: f64,
    pub unit: String,
    pub source: String,
    pub trust: Trust,
    pub tolerance: Tolerance,
    pub note: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sheet<G> {
    title: String,
    tolerance: BTreeMap<String, Tolerance>,
    case: Vec<Row<G>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row<G> {
    quantity: String,
    given: G,
    expected: f64,
    unit: String,
    source: String,
    trust: Trust,
    tolerance: String,
    note: Option<String>,
}

/// Every row of `reference-cases/<name>.toml`, each source led by the title of the sheet.
#[expect(clippy::panic, reason = "a sheet that cannot be read has to stop its test")]
pub(crate) fn load<G: DeserializeOwned>(name: &str) -> Vec<Case<G>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-cases").join(format!("{name}.toml"));
    let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    parse(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

fn parse<G: DeserializeOwned>(text: &str) -> Result<Vec<Case<G>>, String> {
    let sheet: Sheet<G> = toml::from_str(text).map_err(|e| e.to_string())?;
    let used: BTreeSet<&String> = sheet.case.iter().map(|row| &row.tolerance).collect();
    if let Some(idle) = sheet.tolerance.keys().find(|key| !used.contains(key)) {
        return Err(format!("no case uses the tolerance {idle}"));
    }
    let of = |row: Row<G>| {
        let tolerance = sheet.tolerance.get(&row.tolerance);
        let tolerance = tolerance.ok_or(format!("{}: no tolerance {}", row.quantity, row.tolerance))?.clone();
        if row.source.trim().is_empty() || tolerance.reason.trim().is_empty() {
            return Err(format!("{}: a source or a reason is blank", row.quantity));
        }
        Ok(Case {
            quantity: row.quantity,
            given: row.given,
            expected: row.expected,
            unit: row.unit,
            source: format!("{}: {}", sheet.title, row.source),
            trust: row.trust,
            tolerance,
            note: row.note,
        })
    };
    sheet.case.into_iter().map(of).collect()
}

impl<G> Case<G> {
    /// What is wrong with `got`, if it is further from the expected value than allowed or not a number.
    pub(crate) fn complaint(&self, got: f64) -> Option<String> {
        let allowed = self.tolerance.absolute + self.tolerance.relative * self.expected.abs();
        let gap = (got - self.expected).abs();
        if gap <= allowed {
            return None;
        }
        Some(format!(
            "{}: got {got}, expected {} {} ({}, {:?}); {gap:e} apart, {allowed:e} allowed since {}{}",
            self.quantity,
            self.expected,
            self.unit,
            self.source,
            self.trust,
            self.tolerance.reason,
            self.note.as_ref().map(|n| format!("; note: {n}")).unwrap_or_default()
        ))
    }
}

/// Compares every row of that quantity, and fails with all complaints at once, or if there is no such row.
pub(crate) fn check<G: DeserializeOwned>(name: &str, quantity: &str, crate_gives: impl Fn(&G) -> f64) {
    let mut cases = load::<G>(name);
    cases.retain(|case| case.quantity == quantity);
    assert!(!cases.is_empty(), "{name}: no case of {quantity}");
    let complaints: Vec<String> = cases.iter().filter_map(|c| c.complaint(crate_gives(&c.given))).collect();
    assert!(complaints.is_empty(), "{} of {}:\n{}", complaints.len(), cases.len(), complaints.join("\n"));
}

/// Fails if the sheet holds a quantity that is not in the list of those checked.
pub(crate) fn all_checked<G: DeserializeOwned>(name: &str, checked: &[&str]) {
    let held: BTreeSet<String> = load::<G>(name).into_iter().map(|case| case.quantity).collect();
    let checked: BTreeSet<String> = checked.iter().map(|q| (*q).to_owned()).collect();
    assert_eq!(held, checked, "{name}: quantities held and quantities checked differ");
}

const SHEET: &str = r#"
title = "Some standard"
[tolerance.fine]
absolute = 0.1
relative = 0.01
reason = "printed to two figures"
[[case]]
quantity = "depth"
given = { x = 1.0 }
expected = 20.0
unit = "mm"
source = "Table 1"
trust = "memory"
tolerance = "fine"
"#;

#[derive(Deserialize)]
struct X {
    x: f64,
}

#[test]
fn a_case_accepts_its_tolerance_and_nothing_beyond() {
    let cases = parse::<X>(SHEET).unwrap();
    let case = &cases[0];
    assert!((case.given.x - 1.0).abs() < 1e-15 && case.trust == Trust::Memory);
    for good in [19.71, 20.0, 20.29] {
        assert_eq!(case.complaint(good), None);
    }
    for bad in [19.69, 20.31, f64::NAN, f64::INFINITY] {
        let complaint = case.complaint(bad).unwrap();
        assert!(complaint.contains("Some standard: Table 1, Memory"), "{complaint}");
    }
}

#[test]
fn a_sheet_with_a_gap_in_its_records_is_refused() {
    for (from, to, cause) in [
        ("source = \"Table 1\"", "source = \" \"", "blank"),
        ("reason = \"printed to two figures\"", "reason = \"\"", "blank"),
        ("tolerance = \"fine\"", "tolerance = \"rough\"", "no case uses"),
        ("trust = \"memory\"", "trust = \"hearsay\"", "hearsay"),
        ("trust = \"memory\"", "", "trust"),
        ("unit =", "units =", "units"),
    ] {
        let sheet = SHEET.replace(from, to);
        assert_ne!(sheet, SHEET, "{from} is not in the sheet");
        let error = parse::<X>(&sheet).err().unwrap();
        assert!(error.contains(cause), "{to}: {error}");
    }
}

/// The whole content of a file of `reference-cases` that has a shape of its own, by its path there.
pub(crate) fn document<T: DeserializeOwned>(file: &str) -> T {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-cases").join(file);
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
