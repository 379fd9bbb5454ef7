//! The job written back with the chosen passes: everything else, remarks too, stays as it was.

use super::candidate::{Candidate, Ground};
use super::choice::Weld;
use crate::job::file::{PassShape, ProcedureShape};
use crate::units::{Current, Length, Speed, Temperature, Voltage};
use crate::welding::{Polarity, Wait};
use thiserror::Error;
use toml_edit::{ArrayOfTables, DocumentMut, Item, Table};

/// Why a job could not be written back.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Unwritable {
    /// The text is no TOML any more.
    #[error("the job's text cannot be read again: {0}")]
    NotToml(String),
    /// A shape that TOML cannot hold.
    #[error("the chosen passes cannot be written: {0}")]
    Shape(String),
    /// Nothing was chosen.
    #[error("current practice has nothing to write back")]
    Current,
}

/// The text of the job with the passes, orders and procedures of an option.
///
/// # Errors
/// If the text is not TOML, or the option is current practice.
pub fn written(text: &str, ground: &Ground<'_>, weld: &Weld) -> Result<String, Unwritable> {
    let candidate = weld.candidate.as_ref().ok_or(Unwritable::Current)?;
    let mut document: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| Unwritable::NotToml(e.message().to_owned()))?;
    let (procedures, names) = procedures(ground, candidate, weld)?;
    document.remove("order");
    document.remove("procedure");
    let remark = document.remove("pass").and_then(|old| prefix_of(&old));
    let mut all = Table::new();
    all.set_implicit(true);
    for (name, shape) in &procedures {
        all.insert(name, Item::Table(table_of(shape)?));
    }
    document.insert("procedure", Item::Table(all));
    let mut passes = ArrayOfTables::new();
    for (pass, name) in weld.job.passes.iter().zip(&names) {
        let whole = (pass.from_mm <= 0.0, pass.to_mm >= weld.job.member.length_mm);
        let shape = PassShape {
            seam: pass.seam,
            side: pass.side,
            leg: Some(Length::new(round(pass.leg_mm))),
            procedure: Some(name.clone()),
            heat_input: None,
            order: pass.order,
            from: (!whole.0).then(|| Length::new(pass.from_mm)),
            to: (!whole.1).then(|| Length::new(pass.to_mm)),
            intermittent: None,
            force_factor: None,
        };
        passes.push(table_of(&shape)?);
    }
    if let (Some(first), Some(remark)) = (passes.get_mut(0), remark) {
        first.decor_mut().set_prefix(remark);
    }
    document.insert("pass", Item::ArrayOfTables(passes));
    let mut orders = ArrayOfTables::new();
    for order in weld.job.orders.iter().skip(1) {
        let mut table = Table::new();
        table.insert("number", toml_edit::value(i64::from(order.number)));
        let wait = match order.wait {
            Wait::Cold => "cold".to_owned(),
            Wait::Seconds(s) => format!("{s} s"),
        };
        table.insert("wait", toml_edit::value(wait));
        orders.push(table);
    }
    if !orders.is_empty() {
        document.insert("order", Item::ArrayOfTables(orders));
    }
    Ok(document.to_string())
}

/// Leg without the dust of adding steps.
fn round(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6
}

/// Remark before the first of the passes that stood there.
fn prefix_of(old: &Item) -> Option<String> {
    let first = old.as_array_of_tables()?.get(0)?;
    first.decor().prefix()?.as_str().map(str::to_owned)
}

/// Procedures by name, in order.
type Named = Vec<(String, ProcedureShape)>;

/// Procedures of an option, one for every different setting, and the name of each pass's.
fn procedures(
    ground: &Ground<'_>,
    candidate: &Candidate,
    weld: &Weld,
) -> Result<(Named, Vec<String>), Unwritable> {
    let mut all: Named = Vec::new();
    let mut names = Vec::new();
    for pass in &weld.passes {
        let trip = candidate.trips.get(pass.order as usize - 1);
        let entry = trip.and_then(|t| ground.book.entries.get(t.entry));
        let (Some(entry), Some(setting)) = (entry, pass.setting) else {
            return Err(Unwritable::Shape("a pass has no setting".to_owned()));
        };
        let arc = &entry.arc;
        let shape = ProcedureShape {
            process: entry.process,
            travel_speed: Speed::new(setting.speed_mm_s),
            preheat: (entry.preheat_c > 20.0).then(|| Temperature::new(entry.preheat_c)),
            arc_efficiency: ((entry.efficiency - entry.process.default_efficiency()).abs() > 1e-12)
                .then_some(entry.efficiency),
            wires: Some(arc.wires),
            wire_diameter: arc.wire_diameter_mm.map(Length::new),
            current: Some(Current::new(setting.current_a)),
            current_per_wire: None,
            voltage: Some(Voltage::new(setting.voltage_v)),
            polarity: (arc.polarity != Polarity::default()).then_some(arc.polarity),
            extension: Some(Length::new(arc.extension_mm)),
            arcs: None,
        };
        let known = all.iter().find(|(_, known)| *known == shape).map(|(name, _)| name.clone());
        let name = known.unwrap_or_else(|| {
            let name = format!("chosen-{}", all.len() + 1);
            all.push((name.clone(), shape));
            name
        });
        names.push(name);
    }
    Ok((all, names))
}

/// A shape as a table, keys in the order of the shape.
fn table_of<T: serde::Serialize>(shape: &T) -> Result<Table, Unwritable> {
    let fail = |e: String| Unwritable::Shape(e);
    let text = toml::to_string(shape).map_err(|e| fail(e.to_string()))?;
    let document: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| fail(e.message().to_owned()))?;
    let mut table = document.as_table().clone();
    if table.get("process").and_then(Item::as_str) == Some("submerged-arc") {
        table.remove("process");
    }
    if table.get("order").and_then(Item::as_integer) == Some(1) {
        table.remove("order");
    }
    Ok(table)
}
