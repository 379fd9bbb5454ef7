//! Grades a shop orders, by name, with the minimum strengths of their standards.

use crate::numerics::clone_in_place;
use serde::Serialize;

/// Young's modulus used throughout, MPa.
///
/// Source: common value for structural steel in the welding-distortion literature (206 GPa);
/// EN 1993-1-1 3.2.6 prints 210 GPa, 1.9 % higher. A job may give its own.
pub const E_MPA: f64 = 206_000.0;

/// Poisson's ratio, hot or cold (EN 1993-1-1:2005 3.2.6; memory, sure).
pub(crate) const POISSON: f64 = 0.3;

/// Density of steel, kg/mm³ (EN 1993-1-2 3.2.2: 7850 kg/m³; memory).
pub const DENSITY_KG_PER_MM3: f64 = 7.85e-6;

/// A named grade: minimum yield and tensile strength for plate up to 16 mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grade {
    /// Name as written on an order.
    pub name: &'static str,
    /// Minimum yield strength, MPa.
    pub yield_mpa: f64,
    /// Minimum tensile strength, MPa.
    pub tensile_mpa: f64,
    /// Where the numbers come from and how they are known.
    pub source: &'static str,
}

const fn row(name: &'static str, (yield_mpa, tensile_mpa): (f64, f64), source: &'static str) -> Grade {
    Grade { name, yield_mpa, tensile_mpa, source }
}

/// Every grade a job can name. Strengths recalled from the standards ("memory, sure"); plate above
/// 16 mm of the EN grades is 10 MPa weaker in yield, which a job can state with its own values.
pub const GRADES: &[Grade] = &[
    row("S235", (235.0, 360.0), "EN 10025-2 (memory)"),
    row("S275", (275.0, 410.0), "EN 10025-2 (memory)"),
    row("S355", (355.0, 470.0), "EN 10025-2 (memory)"),
    row("A36", (250.0, 400.0), "ASTM A36 (memory)"),
    row("A529-50", (345.0, 450.0), "ASTM A529, AISC 360-22 Table A3.1"),
    row("A529-55", (380.0, 485.0), "ASTM A529, AISC 360-22 Table A3.1"),
    row("A572-50", (345.0, 450.0), "ASTM A572, AISC 360-22 Table A3.1"),
    row("A1011-50", (340.0, 450.0), "ASTM A1011 HSLAS (memory)"),
    row("A1011-55", (380.0, 480.0), "ASTM A1011 HSLAS (memory)"),
];

/// The grade of that name, upper or lower case, as orders and certificates write it: with the quality and delivery of
/// EN 10025-2 (they change toughness, not strength), or with "Gr", "Grade" and "ASTM".
///
/// ```
/// use weldbow_engine::steel::grade;
/// assert_eq!(grade("s355").map(|g| g.yield_mpa), Some(355.0));
/// assert_eq!(grade("S355J2+N").map(|g| g.name), Some("S355"));
/// assert_eq!(grade("ASTM A572 Gr. 50").map(|g| g.name), Some("A572-50"));
/// assert!(grade("S355NL").is_none(), "another standard, of other strengths");
/// assert!(grade("butter").is_none());
/// ```
pub fn grade(name: &str) -> Option<&'static Grade> {
    let plain = plain_name(name);
    GRADES.iter().find(|g| g.name.eq_ignore_ascii_case(&plain))
}

/// Qualities and deliveries of EN 10025-2 behind the strength (memory).
const QUALITIES: [&str; 4] = ["JR", "J0", "J2", "K2"];
const DELIVERIES: [&str; 3] = ["N", "AR", "M"];

/// The name without what does not change its strength.
fn plain_name(name: &str) -> String {
    let upper = name.to_uppercase();
    let words: Vec<&str> = upper
        .split(|c: char| c.is_whitespace() || "-+.".contains(c))
        .map(|word| word.strip_prefix("GRADE").or_else(|| word.strip_prefix("GR")).unwrap_or(word))
        .filter(|word| !word.is_empty() && *word != "ASTM")
        .collect();
    let european =
        words.first().is_some_and(|word| word.starts_with('S') && word.len() >= 4 && word.is_ascii());
    if !european {
        return words.join("-");
    }
    let (strength, quality) = words.first().map_or(("", ""), |word| word.split_at(4));
    let mut rest = std::iter::once(quality).filter(|q| !q.is_empty()).chain(words.iter().skip(1).copied());
    let known = match rest.next() {
        None => true,
        Some(quality) => QUALITIES.contains(&quality) && rest.all(|word| DELIVERIES.contains(&word)),
    };
    if known { strength.to_owned() } else { upper }
}

/// The steel of one member.
#[derive(Debug, PartialEq, Serialize)]
pub struct Steel {
    /// Grade name, or "own values".
    pub name: String,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Tensile strength, MPa.
    pub tensile_mpa: f64,
    /// Young's modulus, MPa.
    pub e_mpa: f64,
}

clone_in_place! { Steel: name, yield_mpa, tensile_mpa, e_mpa }

impl From<&Grade> for Steel {
    fn from(g: &Grade) -> Self {
        Self { name: g.name.to_owned(), yield_mpa: g.yield_mpa, tensile_mpa: g.tensile_mpa, e_mpa: E_MPA }
    }
}
