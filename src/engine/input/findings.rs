//! The mistakes found so far, and the checks that find most of them.

use super::{Hint, Problem, near, text};
use crate::units::Length;
use std::ops::RangeInclusive;
use std::sync::Arc;

/// Mistakes found so far.
#[derive(Debug, Default)]
pub struct Findings(pub Vec<Problem>);

/// Words of a problem, owned or not.
pub trait Text: Into<String> {}

impl<T: Into<String>> Text for T {}

/// The sizes that one kind of value may have. All of them are choices: what the model was made for, and a
/// little more.
#[derive(Debug, Clone, Copy)]
pub struct Bounds {
    /// "a plate thickness".
    pub what: &'static str,
    /// Smallest, in engine units.
    pub low: f64,
    /// Largest, in engine units.
    pub high: f64,
    /// Both in words.
    pub words: &'static str,
    /// Engine unit.
    pub unit: &'static str,
}

impl Bounds {
    /// Whether a value is inside them.
    pub(crate) fn hold(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

/// Shorthand for a table of bounds.
pub(crate) const fn bounds(
    what: &'static str,
    low: f64,
    high: f64,
    words: &'static str,
    unit: &'static str,
) -> Bounds {
    Bounds { what, low, high, words, unit }
}

/// The same for a range that is kept elsewhere.
pub(crate) const fn within(
    what: &'static str,
    range: &RangeInclusive<f64>,
    words: &'static str,
    unit: &'static str,
) -> Bounds {
    bounds(what, *range.start(), *range.end(), words, unit)
}

impl Findings {
    /// Writes a problem down.
    pub fn push(&mut self, path: impl Text, found: impl Text, wanted: impl Text) {
        self.0.push(Problem::new(path, found, wanted));
    }

    /// Writes a problem down with the mended line, or what to leave out.
    pub(crate) fn push_with(
        &mut self,
        path: impl Text,
        found: impl Text,
        wanted: impl Text,
        right: impl Text,
    ) {
        self.push_hint(path, found, wanted, Hint::Right(right.into()));
    }

    /// Writes a problem down with a line that only shows how: which value is meant, nobody can know.
    pub(crate) fn push_example(
        &mut self,
        path: impl Text,
        found: impl Text,
        wanted: impl Text,
        example: impl Text,
    ) {
        self.push_hint(path, found, wanted, Hint::Example(example.into()));
    }

    /// Writes a problem down with what helps.
    pub(crate) fn push_hint(&mut self, path: impl Text, found: impl Text, wanted: impl Text, hint: Hint) {
        self.0.push(Problem::new(path, found, wanted).hint(hint));
    }

    /// Writes an unknown name down: the one meant where that is sure, and all of them.
    pub(crate) fn unknown(&mut self, path: impl Text, found: impl Text, name: &str, names: &[&str]) {
        self.push_hint(path, found, near::wanted(name, names), near::hint(name, names));
    }

    /// The value if it is inside the bounds; otherwise a problem.
    pub(crate) fn bounded(&mut self, path: impl Text, value: f64, bounds: &Bounds) -> Option<f64> {
        if bounds.hold(value) {
            return Some(value);
        }
        let Bounds { what, words, unit, .. } = bounds;
        let found = match *unit {
            "mm" => mm(value),
            "N" => format!("{} kN", rounded(value / 1000.0)),
            "J/mm" => format!("{} kJ/mm", rounded(value / 1000.0)),
            // as a procedure states it
            "mm/s" if value.abs() < 1.0 => format!("{} mm/min", rounded(value * 60.0)),
            "mm/s" => format!("{} m/min", rounded(value * 0.06)),
            unit => format!("{} {unit}", rounded(value)).trim_end().to_owned(),
        };
        let wanted = if value <= 0.0 && bounds.low > 0.0 {
            format!("{what} above zero")
        } else {
            format!("{what} of {words}; anything else is outside what this model covers")
        };
        self.push(path, found, wanted);
        None
    }

    /// The same for a length, mm.
    pub fn length(&mut self, path: impl Text, length: Length, bounds: &Bounds) -> Option<f64> {
        self.bounded(path, length.value(), bounds)
    }

    /// The number of a welding procedure specification in one clean line; a problem if nothing is left of it.
    pub(crate) fn wps(&mut self, path: &str, said: Option<&String>) -> Option<Arc<str>> {
        let clean = text::short(said?.trim());
        if clean.is_empty() {
            let wanted = "the number of a WPS";
            self.push_with(format!("{path}.wps"), "an empty number", wanted, "leave `wps` out");
            return None;
        }
        Some(clean.into())
    }
}

/// The numbers of one table of a file; what is wrong with them goes to the findings, and the table built of them is of no use then.
pub(crate) struct Lines<'f> {
    table: &'f str,
    findings: &'f mut Findings,
    /// Names of the lines left out.
    pub(crate) left_out: Vec<&'static str>,
}

impl<'f> Lines<'f> {
    /// Of a table.
    pub(crate) const fn of(table: &'f str, findings: &'f mut Findings) -> Self {
        Self { table, findings, left_out: Vec::new() }
    }

    /// Where a line stands; the table itself without a key.
    fn place(&self, key: &str) -> String {
        if key.is_empty() { self.table.to_owned() } else { format!("{}.{key}", self.table) }
    }

    /// What a line says, or the usual value where it is left out.
    pub(crate) fn one(
        &mut self,
        key: &'static str,
        given: Option<impl Into<f64>>,
        usual: f64,
        bounds: &Bounds,
    ) -> f64 {
        self.given(key, given, bounds).unwrap_or_else(|| self.usual(key, usual))
    }

    /// What is usual for a line left out.
    pub(crate) fn usual(&mut self, key: &'static str, usual: f64) -> f64 {
        self.left_out.push(key);
        usual
    }

    /// What a line says, if it is there.
    pub(crate) fn given(&mut self, key: &str, given: Option<impl Into<f64>>, bounds: &Bounds) -> Option<f64> {
        let given = given?.into();
        self.findings.bounded(self.place(key), given, bounds);
        Some(given)
    }

    /// Both ends of a range, if a line gives one: inside their bounds and in order.
    pub(crate) fn pair<T: Into<f64>>(
        &mut self,
        key: &str,
        given: Option<(T, T)>,
        bounds: &Bounds,
    ) -> Option<(f64, f64)> {
        Some(self.both(key, given?, bounds))
    }

    /// The same of a line that must be there.
    pub(crate) fn both<T: Into<f64>>(
        &mut self,
        key: &str,
        (low, high): (T, T),
        bounds: &Bounds,
    ) -> (f64, f64) {
        let (low, high) = (low.into(), high.into());
        let path = self.place(key);
        let before = self.problems();
        for (end, value) in [low, high].into_iter().enumerate() {
            self.findings.bounded(format!("{path}[{end}]"), value, bounds);
        }
        if self.problems() == before && low > high {
            let show = |v: f64| match bounds.unit {
                "mm" => mm(v),
                "mm/s" => format!("{} m/min", rounded(v * 0.06)),
                unit => format!("{} {unit}", rounded(v)),
            };
            let found = format!("a range from {} down to {}", show(low), show(high));
            self.findings.push(path, found, "the lower end first");
        }
        (low, high)
    }

    /// How much is wrong so far, here and elsewhere.
    pub(crate) const fn problems(&self) -> usize {
        self.findings.0.len()
    }

    /// A table or list in it.
    pub(crate) fn at<T>(&mut self, key: &str, check: impl FnOnce(&mut Lines<'_>) -> T) -> T {
        check(&mut Lines::of(&self.place(key), self.findings))
    }

    /// As [`Findings::bounded`].
    pub(crate) fn bounded(&mut self, key: &str, value: impl Into<f64>, bounds: &Bounds) -> Option<f64> {
        self.findings.bounded(self.place(key), value.into(), bounds)
    }

    /// As [`Findings::push`].
    pub(crate) fn push(&mut self, key: &str, found: impl Text, wanted: impl Text) {
        self.push_hint(key, found, wanted, Hint::Field);
    }

    /// As [`Findings::push_with`].
    pub(crate) fn push_with(&mut self, key: &str, found: impl Text, wanted: impl Text, right: impl Text) {
        self.push_hint(key, found, wanted, Hint::Right(right.into()));
    }

    /// As [`Findings::push_example`].
    pub(crate) fn push_example(
        &mut self,
        key: &str,
        found: impl Text,
        wanted: impl Text,
        example: impl Text,
    ) {
        self.push_hint(key, found, wanted, Hint::Example(example.into()));
    }

    /// Writes down that something is said twice.
    pub(crate) fn push_either(&mut self, key: &str, found: impl Text, wanted: impl Text) {
        self.push_with(key, found, wanted, "leave one of the two out");
    }

    /// As [`Findings::push_hint`].
    pub(crate) fn push_hint(&mut self, key: &str, found: impl Text, wanted: impl Text, hint: Hint) {
        self.findings.push_hint(self.place(key), found, wanted, hint);
    }

    /// As [`Findings::wps`].
    pub(crate) fn wps(&mut self, said: Option<&String>) -> Option<Arc<str>> {
        self.findings.wps(self.table, said)
    }
}

/// Sizes outside these are written with a power of ten (a choice: beyond them digits are of no use to anybody).
const SHORT: [f64; 2] = [1e-9, 1e15];

/// A number as a person would write it: at most three decimals.
pub(crate) fn rounded(value: f64) -> String {
    if value != 0.0 && !(SHORT[0]..SHORT[1]).contains(&value.abs()) {
        return format!("{value:e}");
    }
    let text = format!("{value:.3}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short.is_empty() || short == "-" || (short == "0" && value != 0.0) {
        value.to_string()
    } else {
        short.to_owned()
    }
}

/// A length as a line of a file has it: every digit, so that the line reads as that length.
pub(crate) fn exact(mm: f64) -> String {
    let mm = (mm * 1e6).round() / 1e6;
    if mm.abs() < 1000.0 { format!("{mm} mm") } else { format!("{} m", (mm * 1e6).round() / 1e9) }
}

/// A length in a message: mm below a metre, m from there.
pub fn mm(value: f64) -> String {
    if value.abs() < 1000.0 {
        format!("{} mm", rounded(value))
    } else {
        format!("{} m", rounded(value / 1000.0))
    }
}
