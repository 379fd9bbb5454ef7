//! Whether a spec can be drawn of what a study will bring, told before a row of it is computed.

use super::cells::MOST_LINES;
use super::check::{ChartSpecFault, at_most, check};
use super::small_plots::MOST_PLOTS;
use weldbow_engine::study::{ChartKind, ChartSpec, Column, Values};

/// What a map or more plots would do better than more lines.
pub(super) const FEWER_LINES: &str = "take fewer values, `panels`, or a map with this column as `by`";

/// Checks a spec against the columns of a study: names, kinds, units, and how many lines and plots it asks for as far as `values` knows
/// how many different values a column takes.
///
/// # Errors
/// The first [`ChartSpecFault`].
pub fn fits(
    spec: &ChartSpec,
    columns: &[Column],
    values: impl Fn(&str) -> Option<usize>,
) -> Result<(), ChartSpecFault> {
    let names: Vec<(&str, bool)> =
        columns.iter().map(|c| (c.name.as_str(), matches!(c.values, Values::Numbers(_)))).collect();
    check(spec, &names)?;
    one_unit(columns, spec)?;
    let of = |name: &Option<String>| name.as_deref().and_then(&values).unwrap_or(1);
    if spec.kind == ChartKind::Lines {
        if spec.y.len() > MOST_LINES {
            let found = spec.y.len();
            return ChartSpecFault::at(
                "y",
                format!(
                    "`y` names {found} columns, at most {MOST_LINES} can be told apart; make two charts of them"
                ),
            );
        }
        let most = MOST_LINES / spec.y.len().max(1);
        at_most(most, of(&spec.by), "by", spec.by.as_ref(), FEWER_LINES)?;
    }
    if matches!(spec.kind, ChartKind::Lines | ChartKind::Scatter) {
        at_most(MOST_PLOTS, of(&spec.panels), "panels", spec.panels.as_ref(), "take fewer values")?;
    }
    Ok(())
}

/// A fault if columns that share an axis have different units. A pure number may stand beside any unit.
fn one_unit(columns: &[Column], spec: &ChartSpec) -> Result<(), ChartSpecFault> {
    let column = |name: &String| columns.iter().find(|column| column.name == *name);
    let shown = if spec.kind == ChartKind::Histogram { spec.x.as_slice() } else { spec.y.as_slice() };
    let Some(first) = shown.first().and_then(column) else { return Ok(()) };
    let beside = [("y", shown), ("band", spec.band.as_slice()), ("limit", spec.limit.as_slice())];
    for (key, names) in beside {
        for other in names.iter().filter_map(column) {
            if other.unit != first.unit && !other.unit.is_empty() && !first.unit.is_empty() {
                let text = format!(
                    "`{key}`: `{}` is in {} and `{}` in {}; one axis has one unit: make two charts, or name the column that \
                     belongs to it",
                    first.name, first.unit, other.name, other.unit
                );
                return ChartSpecFault::at(key, text);
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(name: &str, unit: &str) -> Column {
        let values = Values::Numbers(Vec::new());
        Column { name: name.to_owned(), words: String::new(), unit: unit.to_owned(), values }
    }

    #[test]
    fn more_lines_and_plots_than_can_be_told_apart_are_known_from_the_axes() {
        let mut columns = vec![column("leg", "mm"), column("depth", "mm"), column("at", "m")];
        columns.extend((0..13).map(|i| column(&format!("y{i}"), "mm")));
        let fault = |text: &str| {
            let spec = toml::from_str(text).unwrap();
            fits(&spec, &columns, |name| (name == "depth").then_some(20))
                .err()
                .map(|f| (f.key(), f.to_string()))
        };
        let lines = "kind = 'lines'\nx = 'leg'\n";
        assert_eq!(fault(&format!("{lines}y = ['y0', 'y1']")), None);
        let names: Vec<String> = (0..13).map(|i| format!("'y{i}'")).collect();
        let many = format!("y = [{}]", names.join(", "));
        for (more, key, part) in [
            ("y = 'y0'\nby = 'depth'", "by", "20 different values, at most 12"),
            ("y = 'y0'\npanels = 'depth'", "panels", "20 different values"),
            ("y = ['y0', 'at']", "y", "`y0` is in mm and `at` in m"),
            (many.as_str(), "y", "13 columns, at most 12"),
        ] {
            let (at, said) = fault(&format!("{lines}{more}")).unwrap();
            assert!(at == key && said.contains(part), "{more}: {at}: {said}");
        }
    }
}
