//! The record of one constant.

use super::Trust;
use serde::Serialize;

/// What the path of every module of this crate begins with, which a symbol leaves out.
const CRATE: &str = "weldbow_engine::";

/// The record of a constant of the file it stands in, by its name in the code, unit and words; then how it is known:
/// `record!(EXPONENT, "", "exponent of the rise").known(Trust::OwnCalculation, "the same joints")`.
macro_rules! record {
    ($constant:ident, $unit:literal, $name:literal) => {
        $crate::sources::Constant::named(
            $name,
            concat!(module_path!(), "::", stringify!($constant)),
            $constant,
            $unit,
        )
    };
}
pub(crate) use record;

/// A number that a result rests on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Constant {
    /// What it is, in words.
    pub name: &'static str,
    /// Its symbol in the code: room, file and name.
    pub symbol: &'static str,
    /// Its value.
    pub value: f64,
    /// Unit of the value; empty for a plain number.
    pub unit: &'static str,
    /// Relative standard deviation as judged; none where its doubt is counted elsewhere or there is none.
    pub spread: Option<f64>,
    /// Author, title, year and clause, or the script or study.
    pub source: &'static str,
    /// How it is known.
    pub trust: Trust,
    /// Where it holds.
    pub range: &'static str,
    /// The unsure input that moves it, as `weldbow scatter --inputs` and `[scatter]` name it; empty if none does.
    pub input: &'static str,
}

impl Constant {
    /// A record without spread, range and input.
    pub const fn new(
        name: &'static str,
        symbol: &'static str,
        value: f64,
        unit: &'static str,
        source: &'static str,
        trust: Trust,
    ) -> Self {
        Self { name, symbol, value, unit, spread: None, source, trust, range: "", input: "" }
    }

    /// What `record!` makes: a record by its whole path, of which nothing else is said yet.
    pub(crate) const fn named(
        name: &'static str,
        path: &'static str,
        value: f64,
        unit: &'static str,
    ) -> Self {
        Self::new(name, path.split_at(CRATE.len()).1, value, unit, "", Trust::Choice)
    }

    /// The same with how it is known, and its source.
    #[must_use]
    pub(crate) const fn known(self, trust: Trust, source: &'static str) -> Self {
        Self { trust, source, ..self }
    }

    /// The same moved by an unsure input, with that relative standard deviation.
    #[must_use]
    pub(crate) const fn moved_by(self, input: &'static str, spread: f64) -> Self {
        Self { spread: Some(spread), input, ..self }
    }

    /// The same with the range in which it holds.
    #[must_use]
    pub(crate) const fn within(self, range: &'static str) -> Self {
        Self { range, ..self }
    }
}
