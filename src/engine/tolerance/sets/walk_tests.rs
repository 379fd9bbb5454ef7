//! A walk over every limit of every set.

use super::*;
use crate::tolerance::{Applies, Facts, Rule, Stiffened, Use};
use crate::units::System;

const LENGTHS_MM: [f64; 12] = [500.0, 3e3, 4e3, 6e3, 8e3, 9e3, 12e3, 15e3, 16e3, 24e3, 30e3, 31e3];

fn facts(length_mm: f64, flange_width_mm: f64, wanted_camber_mm: f64, units: System) -> Facts {
    Facts { length_mm, flange_width_mm, wanted_camber_mm, units, ..Facts::USUAL }
}

fn every_limit() -> impl Iterator<Item = (Set, &'static Limit)> {
    Set::all().flat_map(|set| set.limits().iter().map(move |limit| (set, limit)))
}

#[test]
fn every_limit_says_where_it_comes_from() {
    for (set, limit) in every_limit() {
        for (field, text) in [
            ("standard", limit.standard),
            ("edition", limit.edition),
            ("clause", limit.clause),
            ("words", limit.words),
            ("source", limit.source),
        ] {
            assert!(!text.trim().is_empty(), "{}: {} has no {field}", set.name(), limit.quantity.name());
        }
        let year: u32 = limit.edition.parse().unwrap();
        assert!((1990..2100).contains(&year), "{}: edition {year}", set.name());
        assert!(set.title().contains(limit.edition), "{} against {}", set.title(), limit.edition);
    }
}

#[test]
fn a_limit_is_finite_and_above_zero_wherever_it_applies() {
    for (set, limit) in every_limit() {
        let mut applied = 0;
        for length_mm in LENGTHS_MM {
            for width_mm in [100.0, 150.0, 250.0, 400.0, 1000.0] {
                for camber_mm in [0.0, 25.0] {
                    for units in [System::Si, System::Us] {
                        let mut facts = facts(length_mm, width_mm, camber_mm, units);
                        match limit.applies {
                            Applies::Column | Applies::StraightColumn => facts.used_as = Use::Column,
                            Applies::Web(stiffened) => facts.stiffened = stiffened,
                            _ => {}
                        }
                        let Some(mm) = limit.allowed_mm(&facts, 1.0) else { continue };
                        applied += 1;
                        let place = format!("{} {} at {facts:?}: {mm} mm", set.name(), limit.clause);
                        assert!(mm.is_finite() && mm > 0.0, "{place}");
                        let less = limit.allowed_mm(&facts, -1.0).unwrap();
                        assert!(less.is_finite() && less >= 0.0 && less <= mm, "{place}, less {less} mm");
                    }
                }
            }
        }
        assert!(applied > 0, "{} {} applies to nothing", set.name(), limit.clause);
    }
}

#[test]
fn a_longer_member_is_never_allowed_less() {
    for (set, limit) in every_limit() {
        let camber_mm = if limit.applies == Applies::CamberWanted { 25.0 } else { 0.0 };
        for units in [System::Si, System::Us] {
            let allowed: Vec<f64> = LENGTHS_MM
                .iter()
                .map(|length| {
                    let mut facts = facts(*length, 200.0, camber_mm, units);
                    match limit.applies {
                        Applies::Column | Applies::StraightColumn => facts.used_as = Use::Column,
                        Applies::Web(stiffened) => facts.stiffened = stiffened,
                        _ => {}
                    }
                    limit.allowed_mm(&facts, 1.0).unwrap()
                })
                .collect();
            assert!(allowed.is_sorted(), "{} {}: {allowed:?}", set.name(), limit.clause);
        }
    }
}

#[test]
fn one_limit_at_most_of_a_set_applies_to_a_quantity() {
    for set in Set::all() {
        for quantity in Quantity::ALL {
            for (camber_mm, used_as, stiffened) in [
                (0.0, Use::Beam, Stiffened::Bare),
                (25.0, Use::Beam, Stiffened::OneSide),
                (0.0, Use::Column, Stiffened::BothSides),
                (25.0, Use::Column, Stiffened::Bare),
            ] {
                let facts = Facts { used_as, stiffened, ..facts(9e3, 150.0, camber_mm, System::Si) };
                let count = set.limits_of(quantity).filter_map(|limit| limit.allowed_mm(&facts, 1.0)).count();
                assert!(count <= 1, "{}: {count} limits on {}", set.name(), quantity.name());
                let bow = matches!(quantity, Quantity::Camber | Quantity::Sweep);
                // essential limits leave straightness to the functional classes
                let functional = set != Set::En1090Essential;
                assert!(
                    count == 1 || !bow || !functional,
                    "{}: nothing limits {}",
                    set.name(),
                    quantity.name()
                );
            }
        }
    }
}

#[test]
fn every_name_leads_back_to_its_set_and_no_two_are_alike() {
    let names: Vec<_> = Set::names().collect();
    assert_eq!(names.len(), 21);
    for (set, name) in Set::all().zip(&names) {
        assert_eq!(Set::parse(name), Some(set), "{name}");
        assert_eq!(names.iter().filter(|other| *other == name).count(), 1, "{name}");
    }
    for wrong in ["", "aws", "iso-13920", "iso-13920-fb", "AWS-D1.1"] {
        assert_eq!(Set::parse(wrong), None, "{wrong}");
    }
}

#[test]
fn a_table_by_ranges_has_one_size_for_each_range_and_no_end() {
    for (set, limit) in every_limit() {
        let (ends, sizes) = match limit.rule {
            Rule::Ranges { up_to_mm, mm, .. } => (up_to_mm, mm),
            Rule::ToeSlope { up_to_mm, mm_per_m } => (up_to_mm, mm_per_m),
            _ => continue,
        };
        assert_eq!(ends.len(), sizes.len(), "{} {}", set.name(), limit.clause);
        assert!(ends.is_sorted() && ends.last() == Some(&f64::INFINITY), "{} {ends:?}", set.name());
    }
}

#[test]
fn a_member_shorter_than_the_first_range_of_a_table_has_no_limit_there() {
    let set = Set::parse("iso-13920-bf").unwrap();
    let allowed = |length_mm: f64| {
        let facts = facts(length_mm, 150.0, 0.0, System::Si);
        set.limits_of(Quantity::Sweep).filter_map(|limit| limit.allowed_mm(&facts, 1.0)).count()
    };
    assert_eq!([allowed(29.0), allowed(30.0)], [0, 1]);
}
