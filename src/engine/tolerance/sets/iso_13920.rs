//! ISO 13920:2023 (second edition), general tolerances for welded constructions, tables 1, 2 and 3.
//!
//! All three tables were read in one account of the standard, and in part in a second that agrees; the
//! standard itself was not seen. Accounts are around in which classes B to D of table 1 slip by one column,
//! because the cell for 2 to 30 mm is one ±1 for all classes; the table here is the aligned one.
//!
//! How the tables meet a built-up member is read into them: the angle of a flange has half the flange as its
//! shorter leg, and the flatness of a flange is taken across its width, which is stricter than along the
//! member. A wanted camber is judged as straightness about the wanted curve.

use super::super::{Applies, EntrySize, Limit, Quantity, Rule, Trust};
use std::sync::LazyLock;

/// Class for lengths and angles.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the standard names its classes by letter alone, A the finest")]
pub enum Linear {
    A,
    B,
    C,
    D,
}

/// Class for straightness, flatness and parallelism.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the standard names its classes by letter alone, E the finest")]
pub enum FormClass {
    E,
    F,
    G,
    H,
}

impl Linear {
    /// All classes, the finest first.
    pub const ALL: [Self; 4] = [Self::A, Self::B, Self::C, Self::D];
}

impl FormClass {
    /// All classes, the finest first.
    pub const ALL: [Self; 4] = [Self::E, Self::F, Self::G, Self::H];
}

/// Upper ends of the ranges of table 1, mm; those of table 3 are the same from the second on.
const LENGTHS: &[f64] = &[30.0, 120.0, 400.0, 1e3, 2e3, 4e3, 8e3, 12e3, 16e3, 20e3, f64::INFINITY];
const FORM_LENGTHS: &[f64] = &[120.0, 400.0, 1e3, 2e3, 4e3, 8e3, 12e3, 16e3, 20e3, f64::INFINITY];
/// Upper ends of the ranges of table 2, mm.
const LEGS: &[f64] = &[400.0, 1e3, f64::INFINITY];

/// Table 1, ± mm, and the column in mm per m of table 2.
const fn linear_rows(class: Linear) -> (&'static [f64], &'static [f64]) {
    match class {
        Linear::A => (&[1.0, 1.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0], &[6.0, 4.5, 3.0]),
        Linear::B => (&[1.0, 2.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0], &[13.0, 9.0, 6.0]),
        Linear::C => (&[1.0, 3.0, 4.0, 6.0, 8.0, 11.0, 14.0, 18.0, 21.0, 24.0, 27.0], &[18.0, 13.0, 9.0]),
        Linear::D => (&[1.0, 4.0, 7.0, 9.0, 12.0, 16.0, 21.0, 27.0, 32.0, 36.0, 40.0], &[26.0, 22.0, 18.0]),
    }
}

/// Table 3, mm.
const fn form_row(class: FormClass) -> &'static [f64] {
    match class {
        FormClass::E => &[0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0],
        FormClass::F => &[1.0, 1.5, 3.0, 4.5, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0],
        FormClass::G => &[1.5, 3.0, 5.5, 9.0, 11.0, 16.0, 20.0, 22.0, 25.0, 25.0],
        FormClass::H => &[2.5, 5.0, 9.0, 14.0, 18.0, 26.0, 32.0, 36.0, 40.0, 40.0],
    }
}

const TABLE: &str = "read in an account of the standard";
const CAMBER: &str = "read in an account of the standard; taken as straightness about the wanted curve";
const ANGLE: &str = "read in an account of the standard; half the flange taken as the shorter leg";
const FLAT: &str = "read in an account of the standard; taken across the flange width";

const fn limits_in(linear: Linear, form: FormClass) -> [Limit; 6] {
    let (length_mm, mm_per_m) = linear_rows(linear);
    let (table_1, table_2) = [
        ("Table 1, class A", "Table 2, class A"),
        ("Table 1, class B", "Table 2, class B"),
        ("Table 1, class C", "Table 2, class C"),
        ("Table 1, class D", "Table 2, class D"),
    ][linear as usize];
    let table_3 =
        ["Table 3, class E", "Table 3, class F", "Table 3, class G", "Table 3, class H"][form as usize];
    let straight =
        Rule::Ranges { of: EntrySize::Length, from_mm: 30.0, up_to_mm: FORM_LENGTHS, mm: form_row(form) };
    let limit = Limit::of(["ISO 13920", "2023"], table_3, Quantity::Sweep, "by ranges of length", straight)
        .known(Trust::SecondHand, TABLE);
    let camber = Limit { quantity: Quantity::Camber, ..limit };
    [
        camber.when(Applies::NoCamberWanted),
        camber.when(Applies::CamberWanted).known(Trust::Inferred, CAMBER),
        limit,
        Limit {
            clause: table_2,
            quantity: Quantity::FlangeTilt,
            words: "an angle, over half the flange",
            rule: Rule::ToeSlope { up_to_mm: LEGS, mm_per_m },
            ..limit
        }
        .known(Trust::Inferred, ANGLE),
        Limit {
            quantity: Quantity::FlangeCup,
            words: "by ranges of flange width",
            rule: Rule::Ranges {
                of: EntrySize::FlangeWidth,
                from_mm: 30.0,
                up_to_mm: FORM_LENGTHS,
                mm: form_row(form),
            },
            ..limit
        }
        .known(Trust::Inferred, FLAT),
        Limit {
            clause: table_1,
            quantity: Quantity::Length,
            rule: Rule::Ranges { of: EntrySize::Length, from_mm: 2.0, up_to_mm: LENGTHS, mm: length_mm },
            ..limit
        },
    ]
}

static LIMITS: LazyLock<[[[Limit; 6]; 4]; 4]> =
    LazyLock::new(|| Linear::ALL.map(|linear| FormClass::ALL.map(|form| limits_in(linear, form))));

/// Limits of a pair of classes.
pub(super) fn limits(linear: Linear, form: FormClass) -> &'static [Limit] {
    &LIMITS[linear as usize][form as usize]
}

/// Name of every pair of classes in a job, and its title: the standard writes a pair as its two letters.
static NAMES: LazyLock<[[[String; 2]; 4]; 4]> = LazyLock::new(|| {
    let letters = |linear: Linear, form: FormClass| format!("{linear:?}{form:?}");
    let said =
        |pair: String| [format!("iso-13920-{}", pair.to_lowercase()), format!("ISO 13920:2023-{pair}")];
    Linear::ALL.map(|linear| FormClass::ALL.map(|form| said(letters(linear, form))))
});

/// Name of a pair of classes in a job.
pub(super) fn name(linear: Linear, form: FormClass) -> &'static str {
    &NAMES[linear as usize][form as usize][0]
}

/// Title of a pair of classes.
pub(super) fn title(linear: Linear, form: FormClass) -> &'static str {
    &NAMES[linear as usize][form as usize][1]
}
