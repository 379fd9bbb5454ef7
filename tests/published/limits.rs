//! Rows of a tolerance table against the limit the program finds.

use crate::cases;
use serde::Deserialize;
use weldbow::tolerance::{Facts, Limit, Quantity, Set, Stiffened, Trust, Use};
use weldbow::units::System;

/// Worked numbers are given to seven figures.
const REL: f64 = 5e-7;

/// One worked limit. `side` is the side of a wanted camber.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Row {
    set: String,
    clause: String,
    quantity: String,
    #[serde(default)]
    units: System,
    length_mm: f64,
    flange_width_mm: f64,
    #[serde(default)]
    flange_mm: Option<f64>,
    #[serde(default)]
    web_mm: Option<(f64, f64)>,
    #[serde(default)]
    panel_mm: Option<f64>,
    #[serde(default)]
    stiffeners: Option<String>,
    #[serde(default)]
    used_as: Use,
    #[serde(default)]
    wanted_camber_mm: f64,
    #[serde(default)]
    side: Side,
    allowed_mm: f64,
    known: String,
    source: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Side {
    Less,
    #[default]
    More,
}

#[derive(Deserialize)]
struct File {
    limit: Vec<Row>,
}

impl Row {
    fn facts(&self) -> Facts {
        let usual = facts(self.length_mm, self.flange_width_mm, self.wanted_camber_mm, self.units);
        let (web_depth_mm, web_mm) = self.web_mm.unwrap_or((usual.web_depth_mm, usual.web_mm));
        Facts {
            flange_mm: self.flange_mm.unwrap_or(usual.flange_mm),
            web_depth_mm,
            web_mm,
            panel_mm: self.panel_mm.unwrap_or(web_depth_mm),
            stiffened: match self.stiffeners.as_deref() {
                None => Stiffened::Bare,
                Some("one side") => Stiffened::OneSide,
                Some(_) => Stiffened::BothSides,
            },
            used_as: self.used_as,
            ..usual
        }
    }
}

/// A member of which only the sizes that limits look at are of interest.
pub(crate) fn facts(length_mm: f64, flange_width_mm: f64, wanted_camber_mm: f64, units: System) -> Facts {
    Facts { length_mm, flange_width_mm, wanted_camber_mm, units, ..Facts::USUAL }
}

/// The one limit of a set on a quantity that applies to a member.
pub(crate) fn the_limit(set: &str, quantity: &str, facts: &Facts) -> &'static Limit {
    let quantity = Quantity::ALL
        .into_iter()
        .find(|known| serde_json::to_value(known).unwrap() == quantity)
        .unwrap_or_else(|| panic!("no quantity {quantity}"));
    let set = Set::parse(set).unwrap_or_else(|| panic!("no set {set}"));
    let mut found = set.limits_of(quantity).filter(|limit| limit.allowed_mm(facts, 1.0).is_some());
    let limit = found.next().unwrap_or_else(|| panic!("{} has no {}", set.name(), quantity.name()));
    assert!(found.next().is_none(), "{} limits {} twice", set.name(), quantity.name());
    limit
}

/// Fails unless the two sizes (mm) agree.
pub(crate) fn same(found_mm: f64, printed_mm: f64, place: &str) {
    let near = (found_mm - printed_mm).abs() <= REL * printed_mm.abs();
    assert!(near, "{place}: found {found_mm} mm, printed {printed_mm} mm");
}

/// Checks every `[[limit]]` of a file: its size, its clause and how it is known. Where a row is recalled its size is worked from the same
/// recollection as the code: that shows the coding right, not the standard. Mark and clause are entered twice, so that none is raised alone.
pub(crate) fn check(file: &str) {
    for row in cases::document::<File>(file).limit {
        let facts = row.facts();
        let limit = the_limit(&row.set, &row.quantity, &facts);
        let deviation_mm = match row.side {
            Side::Less => -1.0,
            Side::More => 1.0,
        };
        let place = format!("{row:?}");
        same(limit.allowed_mm(&facts, deviation_mm).unwrap(), row.allowed_mm, &place);
        assert_eq!(limit.clause, row.clause, "{place}");
        assert_eq!(limit.trust, trust(&row.known), "{place}");
        assert!(!row.source.is_empty(), "{place}: no source");
    }
}

/// How a row is known, as the files write it.
pub(crate) fn trust(known: &str) -> Trust {
    match known {
        "read" => Trust::Read,
        "second hand" => Trust::SecondHand,
        "memory, sure" => Trust::MemorySure,
        "memory, check" => Trust::MemoryCheck,
        "inferred" => Trust::Inferred,
        other => panic!("unknown mark {other}"),
    }
}
