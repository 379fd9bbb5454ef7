//! What differs between two tables, and the summary a person reads.

use crate::table::{Cell, FLOOR, Names, RELATIVE, Table};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// One result that is not what it was.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Change {
    /// Names of the row.
    pub names: Names,
    /// Column.
    pub column: String,
    /// What it was; none for a row or column that is new.
    pub old: Option<Cell>,
    /// What it is; none for a row or column that is gone.
    pub new: Option<Cell>,
    /// Change over the size it was; infinite for words and for what came or went.
    pub relative: f64,
}

/// All of them, in the order of the new table.
#[derive(Debug, Default)]
pub(crate) struct Changes(pub Vec<Change>);

impl Changes {
    /// Compares row by row and column by column, both by name.
    pub(crate) fn between(old: &Table, new: &Table) -> Self {
        let largest = old.largest();
        let rows: BTreeMap<&str, &Vec<Cell>> =
            old.rows.iter().map(|(names, cells)| (names[0].as_str(), cells)).collect();
        let mut found = Vec::new();
        for (names, cells) in &new.rows {
            let kept = rows.get(names[0].as_str());
            for (at, column) in new.columns.iter().enumerate() {
                let old_at = old.columns.iter().position(|c| c == column);
                let was = kept.and_then(|cells| cells.get(old_at?)).filter(|cell| !is_empty(cell));
                let is = cells.get(at).filter(|cell| !is_empty(cell));
                let floor = FLOOR * largest.get(column.as_str()).copied().unwrap_or_default();
                if let Some(relative) = changed(was, is, floor) {
                    found.push(Change {
                        names: names.clone(),
                        column: column.clone(),
                        old: was.cloned(),
                        new: is.cloned(),
                        relative,
                    });
                }
            }
        }
        found.extend(gone(old, new));
        Self(found)
    }

    /// Whether nothing differs.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// Results of rows and columns that are no longer there.
fn gone(old: &Table, new: &Table) -> Vec<Change> {
    let there: BTreeSet<&str> = new.rows.iter().map(|(names, _)| names[0].as_str()).collect();
    let mut gone = Vec::new();
    for (names, cells) in &old.rows {
        for (column, cell) in old.columns.iter().zip(cells) {
            let kept = there.contains(names[0].as_str()) && new.columns.contains(column);
            if !is_empty(cell) && !kept {
                let (column, old) = (column.clone(), Some(cell.clone()));
                gone.push(Change { names: names.clone(), column, old, new: None, relative: f64::INFINITY });
            }
        }
    }
    gone
}

fn is_empty(cell: &Cell) -> bool {
    *cell == Cell::Word(String::new())
}

/// How much it changed, if it did.
fn changed(old: Option<&Cell>, new: Option<&Cell>, floor: f64) -> Option<f64> {
    match (old, new) {
        (Some(Cell::Number(a)), Some(Cell::Number(b))) => {
            let off = (a - b).abs();
            let same = off <= RELATIVE * a.abs() + floor;
            (!same).then(|| off / a.abs().max(floor).max(f64::MIN_POSITIVE))
        }
        (old, new) => (old != new).then_some(f64::INFINITY),
    }
}

/// How many rows differ, the worst by column, by member and by sequence, and the first ten rows.
pub(crate) fn summary(name: &str, rows: usize, changes: &Changes) -> String {
    let by_row = grouped(changes, |change| change.names[0].clone());
    let mut text = format!("\n{name}: {} of {rows} rows differ\n", by_row.len());
    if changes.is_empty() {
        return text;
    }
    for (title, groups) in [
        ("column", grouped(changes, |change| change.column.clone())),
        ("member", grouped(changes, |change| change.names[1].clone())),
        ("sequence", grouped(changes, |change| change.names[2].clone())),
    ] {
        let _ = writeln!(text, "  by {title}: rows, worst relative change");
        for (group, all) in groups {
            let rows: BTreeSet<&str> = all.iter().map(|change| change.names[0].as_str()).collect();
            let finite = all.iter().filter(|change| change.relative.is_finite());
            let worst = finite.max_by(|a, b| a.relative.total_cmp(&b.relative));
            let others = all.iter().filter(|change| change.relative.is_infinite()).count();
            let worst = worst.map_or_else(String::new, |change| {
                format!("{:9.2e} ({}, {} {})", change.relative, change.column, change.names[0], arrow(change))
            });
            let words =
                if others > 0 { format!("  {others} words changed, new or gone") } else { String::new() };
            let _ = writeln!(text, "    {group:<28} {:5}  {worst}{words}", rows.len());
        }
    }
    text.push_str("  first ten rows, old → new:\n");
    for (row, all) in by_row.iter().take(10) {
        let names = &all[0].names;
        let _ = writeln!(text, "    {row} ({}, {})", names[1], names[2]);
        for change in all.iter().take(8) {
            let _ = writeln!(text, "      {} {}", change.column, arrow(change));
        }
        if all.len() > 8 {
            let _ = writeln!(text, "      and {} more", all.len() - 8);
        }
    }
    text
}

fn arrow(change: &Change) -> String {
    let said = |cell: &Option<Cell>| match cell {
        None => "nothing".to_owned(),
        Some(Cell::Word(word)) => word.clone(),
        Some(Cell::Number(x)) if x.abs() < 1e-3 || x.abs() >= 1e6 => format!("{x:.6e}"),
        Some(Cell::Number(x)) => format!("{x:.6}"),
    };
    format!("{} → {}", said(&change.old), said(&change.new))
}

fn grouped(changes: &Changes, key: impl Fn(&Change) -> String) -> BTreeMap<String, Vec<&Change>> {
    let mut groups: BTreeMap<String, Vec<&Change>> = BTreeMap::new();
    for change in &changes.0 {
        groups.entry(key(change)).or_default().push(change);
    }
    groups
}
