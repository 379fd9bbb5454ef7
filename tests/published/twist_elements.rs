//! Twist of a member by pulls beside the web, and by flange strips bowed to opposite sides, against solid finite elements of a general-purpose library, level and tapered.
//!
//! The solid may change the shape of its section between its ends: its thin web lets the flanges turn less than the section does, and it
//! turns farther for it. The tolerances of the sheet say how far.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::{all_checked, check};
use serde::Deserialize;
use weldbow::bow::twist::{Torsion, TwistStretch};

const SHEET: &str = "twist_elements";
const LENGTH_MM: f64 = 6000.0;
const E_MPA: f64 = 206e3;
/// Web, outer and inner flange of the sheet, mm.
const PLATES: (f64, [(f64, f64); 2]) = (6.0, [(180.0, 8.0), (180.0, 12.0)]);
/// The pull, N, and its distance from the web plane, mm.
const PULL: (f64, f64) = (100e3, 13.0);

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    from_mm: f64,
    to_mm: f64,
    inner_side: f64,
    at: f64,
    /// Strips instead of pulls: the outer one bowed to the far side, the inner one to the near side.
    #[serde(default)]
    strips: bool,
}

/// Curvature of each strip, 1 mm a metre over the length, 1/mm.
const BOW_PER_MM: f64 = 8e-3 / LENGTH_MM;

/// Turn at a part of the length against the start end, with so many stretches.
fn turn(given: &Given, count: usize) -> f64 {
    let (web, flanges) = PLATES;
    let [o, i] = flanges.map(|(b, t)| t * b * b * b / 12.0);
    let length_mm = LENGTH_MM / count as f64;
    let slope = (given.to_mm - given.from_mm) / LENGTH_MM;
    let stretch = |k: usize| {
        let depth = given.from_mm + slope * (k as f64 + 0.5) * length_mm;
        let thirds = flanges.map(|(b, t)| b * t * t * t / 3.0);
        TwistStretch {
            length_mm,
            height_mm: depth + 0.5 * (flanges[0].1 + flanges[1].1),
            flange_mm4: [o, i],
            torsion_mm4: thirds[0] + thirds[1] + depth * web * web * web / 3.0,
            inner_torsion_mm4: thirds[1],
            slope,
        }
    };
    let (force, arm) = PULL;
    let bends = force * arm / E_MPA;
    let (apart, whole) = if given.strips {
        (-2.0 * BOW_PER_MM, -BOW_PER_MM * (i - o) / (i + o))
    } else {
        (given.inner_side * bends / i - bends / o, (1.0 + given.inner_side) * bends / (i + o))
    };
    let turned =
        Torsion::new((0..count).map(stretch).collect(), [false; 2]).turned(&vec![[apart, whole]; count]);
    turned.turn_rad[(given.at * count as f64).round() as usize]
}

#[test]
fn a_member_turns_as_the_librarys_solid_does() {
    all_checked::<Given>(SHEET, &["turn"]);
    check::<Given>(SHEET, "turn", |given| {
        let [coarse, middle, fine] = [16, 32, 64].map(|count| turn(given, count));
        println!("{given:?}: {fine:.4e} rad, 32 stretches {middle:.4e}, 16 {coarse:.4e}");
        // second order: each halving leaves a quarter
        let (before, after) = ((coarse - middle).abs(), (middle - fine).abs());
        assert!(after < 0.3 * before + 1e-9, "{before:.1e} and {after:.1e}");
        fine
    });
}
