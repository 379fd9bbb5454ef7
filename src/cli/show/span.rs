//! A size and its ±.

use crate::units::{IN_MM, System, show};

/// "2.5 ± 0.8 mm".
pub(crate) fn with_span(value_mm: f64, span_mm: f64, system: System) -> String {
    let value = show::offset(value_mm, system);
    let span = show::offset(span_mm, system);
    match value.split_once(' ') {
        Some((number, _)) => format!("{number} ± {span}"),
        None => value,
    }
}

/// "2.5 ± 0.8", for a column that names its unit.
pub(crate) fn bare_span(value_mm: f64, span_mm: f64, system: System) -> String {
    let whole = with_span(value_mm, span_mm, system);
    whole.strip_suffix(unit(system)).map_or(whole.clone(), |number| number.trim_end().to_owned())
}

/// The number of a shown quantity, its unit in the head of the column.
pub(crate) fn bare(shown: &str) -> String {
    shown.split(' ').next().unwrap_or_default().to_owned()
}

/// Unit of an offset.
pub(crate) fn unit(system: System) -> &'static str {
    system.pick("mm", "in")
}

/// A small length with decimals that show it, without its unit.
pub(crate) fn fine(mm: f64, system: System) -> String {
    let (decimals, unit_mm) = system.pick((2, 1.0), (3, IN_MM));
    format!("{:.decimals$}", mm / unit_mm)
}
