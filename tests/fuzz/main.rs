//! Damaged and odd input of every kind, followed from its text to its results: nothing panics, nothing is complained about without a word,
//! and no number that is shown is none or absurd. `families` are the kinds, `damage` what is done to them, `finder` looks at numbers,
//! `hunt` counts.
//!
//! A usual run follows so many cases of one seed, the same every time. `WELDBOW_FUZZ_SECONDS` makes it run that long in all on two
//! cores and `WELDBOW_FUZZ_SEED` sets the seed (`.ci/run` gives 30 and the day); `WELDBOW_FUZZ_CASE` follows one case alone.
//! `cargo bench --bench fuzz -- MINUTES` is the long run.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod damage;
mod families;
mod finder;
mod hunt;
mod kept;

use families::FAMILIES;
use hunt::{Hunt, hunt};
use std::env::var;
use std::io::Write;

/// Cores that seconds are meant for.
const CORES: f64 = 2.0;

fn follow(which: usize) {
    let (name, family, cases) = FAMILIES[which];
    let number = |name: &str| var(name).ok().map(|text| text.parse::<u64>().unwrap());
    let seed = number("WELDBOW_FUZZ_SEED").unwrap_or(1);
    let seconds = number("WELDBOW_FUZZ_SECONDS").map(|s| s as f64 * CORES / FAMILIES.len() as f64);
    let one = number("WELDBOW_FUZZ_CASE");
    let caught = hunt(
        family,
        Hunt {
            seed,
            from: one.unwrap_or(0),
            cases: if one.is_some() {
                1
            } else if seconds.is_some() {
                u64::MAX
            } else {
                cases
            },
            seconds,
        },
    );
    // seen also where the test passes
    std::io::stderr().write_all(format!("{}\n", caught.said(name, seed)).as_bytes()).unwrap();
    assert!(caught.failures.is_empty(), "{name}, seed {seed}: {:#?}", caught.failures);
    let enough = one.is_some() || (caught.taken > 0 && caught.taken < caught.tried);
    assert!(enough, "{}: a run that takes all or nothing proves nothing", caught.said(name, seed));
}

#[test]
fn jobs() {
    follow(0);
}

#[test]
fn studies() {
    follow(1);
}

#[test]
fn shops() {
    follow(2);
}

#[test]
fn measured_pieces() {
    follow(3);
}

#[test]
fn lists() {
    follow(4);
}

#[test]
fn plans() {
    follow(5);
}

/// The same seed damages the same text in the same way, another does not.
#[test]
fn damage_can_be_done_again() {
    use damage::Dice;
    let text = weldbow::job::STARTER;
    let of = |seed, case| Dice::new(seed, case).damaged(text);
    assert_eq!(of(7, 3), of(7, 3));
    let all: std::collections::BTreeSet<String> = (0..100).map(|case| of(7, case)).collect();
    assert!(all.len() > 95, "{} texts of 100 cases", all.len());
    assert!(of(7, 3) != of(8, 3) && of(7, 3) != text);
}
