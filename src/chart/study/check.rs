//! Whether a spec can be drawn, told from the names of the columns alone.

use weldbow_engine::input::near::{listed, wanted};
use weldbow_engine::study::{ChartKind, ChartSpec};

/// Why a spec cannot be drawn. The message names the key of the `[[chart]]`, what stands there, and what
/// would be right.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{text}")]
pub struct ChartSpecFault {
    key: &'static str,
    text: String,
}

impl ChartSpecFault {
    pub(super) fn at<T>(key: &'static str, text: String) -> Result<T, Self> {
        Err(Self { key, text })
    }

    /// The study brought nothing of the kind.
    pub(super) fn nothing<T>(kind: &str, instead: &str) -> Result<T, Self> {
        Self::at("kind", format!("`kind`: nothing to draw a {kind} from; {instead}"))
    }

    /// More columns than the kind can show; `kind` is why one only, "a map shows one".
    fn one_column<T>(found: usize, kind: &str) -> Result<T, Self> {
        Self::at("y", format!("`y` names {found} columns, {kind}; name one, or make one chart for each"))
    }

    /// The key of the `[[chart]]` that is at fault, to point at in the file.
    pub const fn key(&self) -> &'static str {
        self.key
    }
}

/// What a kind asks of a spec.
struct Rule {
    kind: &'static str,
    /// The keys it uses, and what it needs one for; others it may do without.
    uses: &'static [(&'static str, Option<&'static str>)],
    /// Why there may be one column only as `y`; empty if several may be.
    y_one: &'static str,
}

const BOTTOM: (&str, Option<&str>) = ("x", Some("the column along the bottom"));
const RESULT: (&str, Option<&str>) = ("y", Some("the column of the result"));

const fn rule(kind: ChartKind) -> Rule {
    match kind {
        ChartKind::Lines => Rule {
            kind: "chart of lines",
            uses: &[
                BOTTOM,
                ("y", Some("the column or columns up the side")),
                ("by", None),
                ("panels", None),
                ("band", None),
                ("limit", None),
            ],
            y_one: "",
        },
        ChartKind::Map => Rule {
            kind: "map",
            uses: &[BOTTOM, ("by", Some("the column up the side")), RESULT, ("limit", None)],
            y_one: "a map shows one",
        },
        ChartKind::Histogram => Rule {
            kind: "histogram",
            uses: &[("x", Some("the column to be counted")), ("limit", None)],
            y_one: "",
        },
        ChartKind::Scatter => Rule {
            kind: "scatter chart",
            uses: &[BOTTOM, RESULT, ("by", None), ("panels", None), ("limit", None)],
            y_one: "a scatter chart shows one",
        },
        ChartKind::Tornado => {
            Rule { kind: "tornado chart", uses: &[RESULT], y_one: "a tornado chart shows one" }
        }
        ChartKind::Shares => {
            Rule { kind: "chart of shares", uses: &[RESULT], y_one: "a chart of shares shows one" }
        }
    }
}

/// Checks a spec against the columns a study will have: name, and whether it holds numbers. Nothing need
/// be computed yet. How many values a column takes is found when the chart is drawn.
///
/// # Errors
/// The first [`ChartSpecFault`] in the order kind, x, y, by, panels, band, limit.
///
/// ```
/// use weldbow_chart::check_spec;
/// let spec = toml::from_str("kind = \"lines\"\nx = \"pass.leg\"\ny = \"camber\"").unwrap();
/// let fault = check_spec(&spec, &[("pass.leg", true), ("camber.max_mm", true)]).unwrap_err();
/// assert_eq!(fault.key(), "y");
/// assert!(fault.to_string().contains("did you mean `camber.max_mm`?"), "{fault}");
/// ```
pub fn check(spec: &ChartSpec, columns: &[(&str, bool)]) -> Result<(), ChartSpecFault> {
    let rule = rule(spec.kind);
    let check = Check { rule: &rule, columns };
    check.key("x", spec.kind == ChartKind::Histogram, spec.x.as_slice())?;
    check.key("y", true, &spec.y)?;
    if spec.y.len() > 1 && !rule.y_one.is_empty() {
        return ChartSpecFault::one_column(spec.y.len(), rule.y_one);
    }
    check.key("by", false, spec.by.as_slice())?;
    check.key("panels", false, spec.panels.as_slice())?;
    check.key("band", true, spec.band.as_slice())?;
    if spec.band.is_some() && spec.y.len() > 1 {
        return ChartSpecFault::one_column(spec.y.len(), "but a `band` belongs to one");
    }
    check.key("limit", true, spec.limit.as_slice())
}

struct Check<'c> {
    rule: &'c Rule,
    columns: &'c [(&'c str, bool)],
}

impl Check<'_> {
    fn key(&self, key: &'static str, numbers: bool, names: &[String]) -> Result<(), ChartSpecFault> {
        let Rule { kind, uses, .. } = self.rule;
        let fault = |text| ChartSpecFault::at(key, text);
        match uses.iter().find(|used| used.0 == key) {
            None if !names.is_empty() => {
                let used: Vec<&str> = uses.iter().map(|used| used.0).collect();
                let used = used.join(", ");
                return fault(format!("`{key}` says nothing in a {kind}; leave it out (it uses {used})"));
            }
            Some((_, Some(need))) if names.is_empty() => {
                return fault(format!("`{key}` is missing: a {kind} needs {need}; {}", self.hint(numbers)));
            }
            _ => {}
        }
        for name in names {
            match self.columns.iter().find(|column| column.0 == name) {
                None => {
                    let known: Vec<&str> = self.fitting(numbers).collect();
                    let hint = if known.is_empty() { self.hint(numbers) } else { wanted(name, &known) };
                    return fault(format!("`{key}`: no column `{name}` in this study; {hint}"));
                }
                Some((_, false)) if numbers => {
                    let hint = self.hint(true);
                    return fault(format!(
                        "`{key}`: column `{name}` holds words, a {kind} needs numbers here; {hint}"
                    ));
                }
                Some(_) => {}
            }
        }
        Ok(())
    }

    fn fitting(&self, numbers: bool) -> impl Iterator<Item = &str> {
        self.columns.iter().filter(move |column| column.1 || !numbers).map(|column| column.0)
    }

    fn hint(&self, numbers: bool) -> String {
        let known = listed(self.fitting(numbers));
        match (known.is_empty(), numbers) {
            (true, true) => "the study has no column of numbers".to_owned(),
            (true, false) => "the study has no columns".to_owned(),
            (false, _) => format!("one of {known}"),
        }
    }
}

/// A fault if a column takes more values than can be told apart.
pub(super) fn at_most(
    most: usize,
    found: usize,
    key: &'static str,
    name: Option<&String>,
    instead: &'static str,
) -> Result<(), ChartSpecFault> {
    if found <= most {
        return Ok(());
    }
    let name = name.map_or("", String::as_str);
    ChartSpecFault::at(
        key,
        format!(
            "`{key}`: column `{name}` takes {found} different values, at most {most} can be shown; {instead}"
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLUMNS: [(&str, bool); 4] =
        [("pass.leg", true), ("procedure", false), ("camber.max_mm", true), ("limit_mm", true)];

    fn fault(spec: &str) -> ChartSpecFault {
        check(&toml::from_str(spec).unwrap(), &COLUMNS).unwrap_err()
    }

    #[test]
    fn a_wish_that_can_be_drawn_passes() {
        for spec in [
            "kind = 'lines'\nx = 'procedure'\ny = ['camber.max_mm']\nby = 'pass.leg'\nlimit = 'limit_mm'",
            "kind = 'histogram'\nx = 'camber.max_mm'",
            "kind = 'tornado'\ny = 'camber.max_mm'",
            "kind = 'map'\nx = 'pass.leg'\nby = 'procedure'\ny = 'camber.max_mm'",
        ] {
            assert_eq!(check(&toml::from_str(spec).unwrap(), &COLUMNS), Ok(()), "{spec}");
        }
    }

    #[test]
    fn a_fault_names_the_key_what_was_found_and_what_would_be_right() {
        for (spec, key, parts) in [
            (
                "kind = 'lines'\nx = 'pass.leg'\ny = 'camber.max'",
                "y",
                ["`camber.max`", "did you mean `camber.max_mm`?"],
            ),
            ("kind = 'histogram'\nx = 'procedure'", "x", ["holds words", "`pass.leg`, `camber.max_mm`"]),
            ("kind = 'lines'\ny = 'limit_mm'", "x", ["missing", "one of `pass.leg`"]),
            ("kind = 'tornado'\ny = 'limit_mm'\nby = 'procedure'", "by", ["leave it out", "it uses y"]),
            ("kind = 'map'\nx = 'pass.leg'\ny = 'limit_mm'", "by", ["missing", "up the side"]),
            (
                "kind = 'scatter'\nx = 'pass.leg'\ny = ['limit_mm', 'camber.max_mm']",
                "y",
                ["2 columns", "name one"],
            ),
            (
                "kind = 'lines'\nx = 'pass.leg'\ny = 'limit_mm'\nlimit = 'procedure'",
                "limit",
                ["needs numbers", "one of"],
            ),
        ] {
            let fault = fault(spec);
            let text = fault.to_string();
            assert_eq!(fault.key(), key, "{text}");
            assert!(text.contains(&format!("`{key}`")), "{text}");
            assert!(parts.iter().all(|part| text.contains(part)), "{text}");
        }
    }

    #[test]
    fn a_study_without_numbers_is_told_so() {
        let spec = toml::from_str("kind = 'histogram'").unwrap();
        let text = check(&spec, &[("procedure", false)]).unwrap_err().to_string();
        assert!(text.contains("the study has no column of numbers"), "{text}");
    }
}
