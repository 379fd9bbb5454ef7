//! The job written back with the chosen passes: everything else stays as it was, and so do all remarks. Procedures of the passes
//! that go, go with them.

use thiserror::Error;
use toml_edit::{ArrayOfTables, DocumentMut, Item, Table};
use weldbow_engine::choose::{Candidate, SearchSpace, Weld};
use weldbow_engine::job::file::{PassShape, ProcedureShape};
use weldbow_engine::member::Parts;
use weldbow_engine::units::{Current, IN_MM, Kind, Length, Speed, System, Temperature, Voltage, read, show};
use weldbow_engine::welding::{Polarity, Wait};

/// Tables of the job that the chosen passes replace.
const STEPS: [&str; 3] = ["pass", "step", "order"];

/// Why a job could not be written back.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Unwritable {
    /// The text is no TOML any more.
    #[error("the job's text cannot be read again: {0}")]
    NotToml(String),
    /// A shape that TOML cannot hold.
    #[error("the chosen passes cannot be written: {0}")]
    Shape(String),
    /// An option of another search.
    #[error("the option is none of this search")]
    Foreign,
}

/// The text of the job with the passes, orders and procedures of an option; current practice leaves it as it is.
///
/// # Errors
/// If the text is not TOML, or the option comes from another search.
pub fn written(text: &str, ground: &SearchSpace<'_>, weld: &Weld) -> Result<String, Unwritable> {
    let Some(candidate) = weld.candidate.as_ref() else { return Ok(text.to_owned()) };
    let way = ground.ways.get(candidate.way).ok_or(Unwritable::Foreign)?;
    let mut document: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| Unwritable::NotToml(e.message().to_owned()))?;
    let before = without_used(&mut document);
    let taken = names_of(&document);
    let (procedures, names) = procedures(ground, candidate, weld, &taken)?;
    let old = STEPS.iter().filter_map(|key| document.remove(key)).map(|old| remarks_of(&old));
    let remarks: String = std::iter::once(before).chain(old).collect();
    let table = document.entry("procedure").or_insert_with(|| {
        let mut all = Table::new();
        all.set_implicit(true);
        Item::Table(all)
    });
    let table =
        table.as_table_mut().ok_or_else(|| Unwritable::Shape("`procedure` is not a table".to_owned()))?;
    for (name, shape) in &procedures {
        let mut own = table_of(shape)?;
        own.insert(
            "travel_speed",
            toml_edit::value(speed_text(shape.travel_speed.value(), ground.job.units)),
        );
        table.insert(name, Item::Table(own));
    }
    let mut passes = ArrayOfTables::new();
    for (pass, name) in weld.job.passes.iter().zip(&names) {
        let whole = (pass.from_mm <= 0.0, pass.to_mm >= weld.job.member.length_mm);
        let shape = PassShape {
            seam: pass.seam,
            side: pass.side,
            leg: Some(Length::new(round(pass.leg_mm))),
            procedure: Some(name.clone()),
            wps: None,
            heat_input: None,
            gross_heat_input: None,
            order: pass.order,
            from: (!whole.0).then(|| Length::new(pass.from_mm)),
            to: (!whole.1).then(|| Length::new(pass.to_mm)),
            runs: None,
            intermittent: None,
            force_factor: None,
        };
        let mut table = table_of(&shape)?;
        for (key, given, mm) in [("from", !whole.0, pass.from_mm), ("to", !whole.1, pass.to_mm)] {
            if given {
                table.insert(key, toml_edit::value(place_text(mm, ground.job.units)));
            }
        }
        if let Some(stitch) = way.stitch {
            let [weld, gap] = [stitch.weld_mm, stitch.gap_mm].map(|mm| leg_text(mm, ground.job.units));
            table.insert("intermittent", toml_edit::value(format!("{weld} weld, {gap} gap")));
        }
        table.insert("leg", toml_edit::value(leg_text(round(pass.leg_mm), ground.job.units)));
        passes.push(table);
    }
    if let Some(first) = passes.get_mut(0) {
        first.decor_mut().set_prefix(format!("\n{remarks}"));
    }
    document.insert("pass", Item::ArrayOfTables(passes));
    let mut orders = ArrayOfTables::new();
    for (at, order) in weld.job.orders.iter().enumerate() {
        let partly = order.joined != Parts::ALL;
        if at == 0 && !partly {
            continue;
        }
        let mut table = Table::new();
        table.insert("number", toml_edit::value(i64::from(order.number)));
        if partly {
            let parts: toml_edit::Array = order.joined.names().collect();
            table.insert("joined", toml_edit::value(parts));
        }
        if at > 0 {
            let wait = match order.wait {
                Wait::Cold => "cold".to_owned(),
                Wait::Seconds(s) => time_text(s),
            };
            table.insert("wait", toml_edit::value(wait));
        }
        orders.push(table);
    }
    if !orders.is_empty() {
        document.insert("step", Item::ArrayOfTables(orders));
    }
    Ok(document.to_string())
}

/// Leg without the dust of adding steps.
fn round(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6
}

/// Names of the procedures that are written already.
fn names_of(document: &DocumentMut) -> Vec<String> {
    let table = document.get("procedure").and_then(Item::as_table);
    table.map_or_else(Vec::new, |t| t.iter().map(|(name, _)| name.to_owned()).collect())
}

/// Takes the procedures out that the job's passes name; gives back their remarks.
fn without_used(document: &mut DocumentMut) -> String {
    let passes = document.get("pass").and_then(Item::as_array_of_tables);
    let name = |pass: &Table| pass.get("procedure").and_then(Item::as_str).map(str::to_owned);
    let mut used: Vec<String> = passes.into_iter().flatten().filter_map(name).collect();
    used.sort_unstable();
    used.dedup();
    let Some(table) = document.get_mut("procedure").and_then(Item::as_table_mut) else {
        return String::new();
    };
    let old = used.iter().filter_map(|name| Some((name, table.remove(name)?)));
    let remarks = old.filter_map(|(name, old)| {
        let remarks = remarks_in(&whole(old.as_table()?));
        (!remarks.is_empty()).then(|| format!("# of procedure {name}, no longer used:\n{remarks}"))
    });
    remarks.collect()
}

/// A table as written, with what stands before it.
fn whole(table: &Table) -> String {
    table.decor().prefix().and_then(|p| p.as_str()).unwrap_or_default().to_owned() + &table.to_string()
}

/// Remarks before and inside the tables that go, each on its line.
fn remarks_of(old: &Item) -> String {
    let text = old.as_array_of_tables().map(|tables| tables.iter().map(whole).collect::<String>());
    remarks_in(&text.unwrap_or_default())
}

/// The remarks of a text, each on its line.
fn remarks_in(text: &str) -> String {
    let remarks = text.lines().map(str::trim).filter_map(|line| match line.rfind(['"', '\'', ']']) {
        _ if line.starts_with('#') => Some(line),
        // a remark behind a value
        Some(end) => line.get(end..).and_then(|rest| rest.find('#')).and_then(|at| line.get(end + at..)),
        None => line.find('#').and_then(|at| line.get(at..)),
    });
    remarks.flat_map(|line| [line, "\n"]).collect()
}

/// A place along the member as a shop reads it, if that reads back to the same place; exactly otherwise.
fn place_text(mm: f64, system: System) -> String {
    let nice = match system {
        System::Si => format!("{} m", round(mm / 1000.0)),
        System::Us => show::cut(mm, system),
    };
    or_exactly(nice, Kind::Length, (mm, "mm"), 1e-6)
}

/// A wait as a shop reads it, if that reads back to the same wait; in seconds otherwise.
fn time_text(s: f64) -> String {
    if s < 60.0 {
        format!("{s} s")
    } else {
        or_exactly(format!("{} min", round(s / 60.0)), Kind::Time, (s, "s"), 1e-9)
    }
}

/// A leg as a shop reads it, if that reads back to the same leg; exactly otherwise.
fn leg_text(mm: f64, system: System) -> String {
    or_exactly(show::plate(mm, system), Kind::Length, (mm, "mm"), 1e-5)
}

/// A travel speed as a shop reads it, if that reads back to the same speed; exactly otherwise.
fn speed_text(mm_s: f64, system: System) -> String {
    let nice = match system {
        System::Si => format!("{:.2} m/min", mm_s * 0.06),
        System::Us => format!("{:.1} in/min", mm_s * 60.0 / IN_MM),
    };
    or_exactly(nice, Kind::Speed, (mm_s, "mm/s"), 1e-9 * mm_s)
}

/// A text if it reads back to the value to within so much, else the value in its unit.
fn or_exactly(nice: String, kind: Kind, (value, unit): (f64, &str), within: f64) -> String {
    let same = read(kind, &nice).is_ok_and(|back| (back - value).abs() < within);
    if same { nice } else { format!("{value} {unit}") }
}

/// Procedures by name, in order.
type Named = Vec<(String, ProcedureShape)>;

/// Procedures of an option, one for every different setting, and the name of each pass's.
fn procedures(
    ground: &SearchSpace<'_>,
    candidate: &Candidate,
    weld: &Weld,
    taken: &[String],
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
            wps: entry.wps.as_deref().map(str::to_owned),
            process: entry.process,
            travel_speed: Speed::new(setting.speed_mm_s),
            wire_feed: None,
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
            // the name of the qualified procedure, as the shop knows it; a number behind it for another setting of the same
            let free =
                std::iter::once(entry.name.clone()).chain((2..).map(|n| format!("{}-{n}", entry.name)));
            let used = |name: &String| taken.contains(name) || all.iter().any(|(known, _)| known == name);
            let name = free.into_iter().find(|name| !used(name)).unwrap_or_default();
            all.push((name.clone(), shape));
            name
        });
        names.push(name);
    }
    Ok((all, names))
}

/// A shape as a table, keys in the order of the shape.
fn table_of<T: serde::Serialize>(shape: &T) -> Result<Table, Unwritable> {
    let text = toml::to_string(shape).map_err(|e| Unwritable::Shape(e.to_string()))?;
    let document: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| Unwritable::Shape(e.message().to_owned()))?;
    let mut table = document.as_table().clone();
    if table.get("step").and_then(Item::as_integer) == Some(1) {
        table.remove("step");
    }
    Ok(table)
}
