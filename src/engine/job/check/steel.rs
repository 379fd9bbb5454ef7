//! The steel: a grade by name, or strengths of the user's own.

use crate::input::findings::{Bounds, Findings, bounds, rounded};
use crate::input::{Hint, near};
use crate::job::file::SteelShape;
use crate::steel::{E_MPA, GRADES, Steel, grade};

const YIELD: Bounds = bounds("a yield strength", 100.0, 1500.0, "100 MPa to 1500 MPa", "MPa");

const TENSILE: Bounds = bounds("a tensile strength", 100.0, 2000.0, "100 MPa to 2000 MPa", "MPa");

const ELASTIC: Bounds = bounds("a Young's modulus", 150_000.0, 250_000.0, "150 GPa to 250 GPa", "MPa");

/// Checks and builds the steel.
pub(super) fn steel(shape: &SteelShape, findings: &mut Findings) -> Option<Steel> {
    let path = "member.steel";
    let own = match shape {
        SteelShape::Own(own) => own,
        SteelShape::Grade(name) => {
            let known = grade(name.trim()).map(Steel::from);
            if known.is_none() {
                let names: Vec<&str> = GRADES.iter().map(|g| g.name).collect();
                let own = "or strengths: { yield = \"50 ksi\", tensile = \"65 ksi\" }";
                let wanted = format!("{}; {own}", near::wanted(name, &names));
                findings.push_hint(path, format!("unknown steel `{name}`"), wanted, Hint::Nothing);
            }
            return known;
        }
    };
    let yield_mpa = findings.bounded(format!("{path}.yield"), own.yield_strength.value(), &YIELD);
    let tensile_mpa = findings.bounded(format!("{path}.tensile"), own.tensile.value(), &TENSILE);
    let e_mpa =
        own.elastic.map_or(Some(E_MPA), |e| findings.bounded(format!("{path}.elastic"), e.value(), &ELASTIC));
    let (yield_mpa, tensile_mpa) = (yield_mpa?, tensile_mpa?);
    if tensile_mpa < yield_mpa {
        let wanted = format!("a tensile strength not below the yield strength ({} MPa)", rounded(yield_mpa));
        let found = format!("{} MPa", rounded(tensile_mpa));
        // the field's own example could be below this yield strength, too
        findings.push_hint(format!("{path}.tensile"), found, wanted, Hint::Nothing);
    }
    Some(Steel { name: "own values".to_owned(), yield_mpa, tensile_mpa, e_mpa: e_mpa? })
}
