//! A list of members, a row a mark: the job each starts from, and what is different about it.
//!
//! Columns: `mark`, `job` (a path from where the list lies), `quantity` if wanted, and any place of a job as a study names it:
//! `length`, `depth.start`, `depth.end`, `web.thickness`, `inner_flange.1.width`, `title` … A unit may stand in the head
//! (`length [mm]`) or in each cell. An empty cell leaves what the job says. Lines that begin with `#` are remarks. What an order says
//! of a mark beside (`week`, `due`, `family`) is left to the order.

use crate::reading::Diagnostics;
use crate::readings::name_and_unit;
use crate::sheet::{At, Sheet};
use std::collections::BTreeMap;
use weldbow_engine::input::{Problem, text};
use weldbow_engine::job::check;
use weldbow_engine::job::file::JobFile;
use weldbow_engine::prediction::Job;
use weldbow_engine::study::put;

/// Columns that say which member a row is and when it is wanted; every other is a place in its job.
const OWN: [&str; 8] = ["mark", "job", "quantity", "week", "due", "due.date", "due_date", "family"];
/// Most pieces of one mark (a choice: more is a slip of the pen).
const MOST_PIECES: u32 = 10_000;
/// Mistakes after which no more are looked for (a choice).
const MOST_PROBLEMS: usize = 100;
/// What a right list looks like.
const EXAMPLE: &str = "mark,job,quantity,length [mm],depth.end";

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Mark.
    pub mark: String,
    /// Job file, from where the list lies.
    pub job: String,
    /// Where the job stands in the list.
    pub job_at: At,
    /// Pieces.
    pub quantity: u32,
    changes: Vec<Change>,
    row: usize,
}

/// A value that differs from the job's.
#[derive(Debug, Clone, PartialEq)]
struct Change {
    place: String,
    value: serde_json::Value,
    at: At,
}

/// A column: its name in small letters, and the unit that stands behind it.
struct Head {
    name: String,
    unit: Option<String>,
}

impl Head {
    fn of(words: &str) -> Self {
        let (name, unit) = name_and_unit(words);
        Self { name: name.to_lowercase().replace(' ', "."), unit: unit.map(str::to_owned) }
    }

    /// A cell as a job holds it: a number, or text with its unit.
    fn value(&self, cell: &str) -> serde_json::Value {
        if let (Ok(_), Some(unit)) = (cell.parse::<f64>(), &self.unit) {
            return format!("{cell} {unit}").into();
        }
        match (cell.parse::<i64>(), cell.parse::<f64>()) {
            (Ok(whole), _) => whole.into(),
            (_, Ok(number)) => number.into(),
            _ => cell.into(),
        }
    }
}

/// Reads a list.
///
/// # Errors
/// Every mistake with its place; places in jobs are looked up later, by [`Entry::job_of`].
pub fn read(sheet: &Sheet) -> Result<Vec<Entry>, Diagnostics> {
    let mut problems = Vec::new();
    let mut rows = sheet.rows.iter().enumerate().filter(|(_, row)| !row.cell(0).starts_with('#'));
    let Some((head_row, head)) = rows.next() else {
        let problem =
            Problem::new("", "nothing but remarks", "the names of the columns first").example(EXAMPLE);
        return Err(sheet.complaint(vec![(problem, None)]));
    };
    let heads: Vec<Head> = head.cells.iter().map(|cell| Head::of(cell)).collect();
    for needed in ["mark", "job"] {
        if !heads.iter().any(|head| head.name == needed) {
            let wanted = "the columns `mark` and `job`, and any place of a job, as `length` or `depth.end`";
            let problem = Problem::new(needed, format!("no column `{needed}`"), wanted).example(EXAMPLE);
            problems.push((problem, Some(At { row: head_row, column: 0 })));
        }
    }
    if !problems.is_empty() {
        return Err(sheet.complaint(problems));
    }
    let mut entries = Vec::new();
    let mut marks: BTreeMap<String, u64> = BTreeMap::new();
    for (row, found) in rows {
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        let before = problems.len();
        let entry = entry(sheet, &heads, row, &mut problems);
        let again = marks.get(&entry.mark).copied();
        if let Some(first) = again.filter(|_| !entry.mark.is_empty()) {
            let words = format!("`{}` again, as in row {first}", entry.mark);
            let column = heads.iter().position(|h| h.name == "mark").unwrap_or_default();
            let problem = Problem::new("mark", words, "each mark once").example("R2-2");
            problems.push((problem, Some(At { row, column })));
        }
        marks.insert(entry.mark.clone(), found.number);
        if problems.len() == before {
            entries.push(entry);
        }
    }
    if entries.is_empty() && problems.is_empty() {
        let problem =
            Problem::new("", "a list without a row", "one row a mark under the names").example(EXAMPLE);
        problems.push((problem, None));
    }
    if problems.is_empty() { Ok(entries) } else { Err(sheet.complaint(problems)) }
}

fn entry(sheet: &Sheet, heads: &[Head], row: usize, problems: &mut Vec<(Problem, Option<At>)>) -> Entry {
    let cells = &sheet.rows[row];
    let column = |name: &str| heads.iter().position(|head| head.name == name);
    let mut needed = |name: &'static str, wanted: &str, example: &str| {
        let at = At { row, column: column(name).unwrap_or_default() };
        let cell = cells.cell(at.column).to_owned();
        if cell.is_empty() {
            problems.push((Problem::new(name, "nothing", wanted).example(example), Some(at)));
        }
        (cell, at)
    };
    let (mark, _) = needed("mark", "the mark of the member, each once", "R2");
    let (job, job_at) =
        needed("job", "the path of its job file, from where the list lies", "jobs/rafter.toml");
    let quantity = match column("quantity").map(|column| (column, cells.cell(column))) {
        None | Some((_, "")) => 1,
        Some((column, cell)) => {
            let found = cell.parse::<u32>().ok().filter(|n| (1..=MOST_PIECES).contains(n));
            if found.is_none() {
                let wanted = format!("a whole number of pieces, 1 to {MOST_PIECES}");
                let problem = Problem::new("quantity", format!("`{cell}`"), wanted).example("24");
                problems.push((problem, Some(At { row, column })));
            }
            found.unwrap_or(1)
        }
    };
    let changes = heads
        .iter()
        .enumerate()
        .filter(|(column, head)| !OWN.contains(&head.name.as_str()) && !cells.cell(*column).is_empty())
        .map(|(column, head)| Change {
            place: head.name.clone(),
            value: head.value(cells.cell(column)),
            at: At { row, column },
        })
        .collect();
    Entry { mark: text::short(&mark).into_owned(), job, job_at, quantity, changes, row }
}

impl Entry {
    /// The member's job: what `base` says with this row's values in it, checked.
    ///
    /// # Errors
    /// What does not fit, at its cell; what no longer makes a job, at the row's mark.
    pub fn job_of(&self, sheet: &Sheet, base: &JobFile) -> Result<Job, Diagnostics> {
        let own = |found: String, wanted: &str| {
            sheet.complaint(vec![(Problem::new("", found, wanted), Some(At { row: self.row, column: 0 }))])
        };
        let shape = |e: serde_json::Error| own(format!("a job that cannot be read ({e})"), "a job");
        let mut file = base.clone();
        if !self.changes.is_empty() {
            let mut value = serde_json::to_value(base).map_err(shape)?;
            for change in &self.changes {
                file = self.changed(sheet, &mut value, change)?;
            }
        }
        check(&file).map_err(|problems| {
            let at = Some(At { row: self.row, column: 0 });
            let named = problems.into_iter().map(|mut problem| {
                problem.path = format!("{} of {}", problem.path, self.job);
                (problem, at)
            });
            sheet.complaint(named.collect())
        })
    }

    fn changed(
        &self,
        sheet: &Sheet,
        job: &mut serde_json::Value,
        change: &Change,
    ) -> Result<JobFile, Diagnostics> {
        let wrong = |found: String, wanted: String| {
            sheet.complaint(vec![(Problem::new(change.place.clone(), found, wanted), Some(change.at))])
        };
        put(job, &change.place, &change.value).map_err(|no| wrong(no.found, no.wanted))?;
        serde_json::from_value(job.clone()).map_err(|e| {
            let cell = sheet.rows[change.at.row].cell(change.at.column);
            wrong(format!("`{cell}`"), e.to_string())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::file_of_text;
    use crate::sheet::read_text;
    use weldbow_engine::job::STARTER;

    fn base() -> JobFile {
        file_of_text("starter.toml", STARTER).unwrap()
    }

    #[test]
    fn a_row_takes_its_job_and_what_is_different() {
        let sheet = read_text(
            "list.csv",
            "# members\nMark,job,quantity,length [mm],depth end,web.thickness\nR2,a.toml,4,12000,700 mm,6 mm\nR3,a.toml,,,,\n",
        )
        .unwrap();
        let rows = read(&sheet).unwrap();
        assert_eq!((rows.len(), rows[0].quantity, rows[1].quantity), (2, 4, 1));
        let job = rows[0].job_of(&sheet, &base()).unwrap();
        let member = &job.member;
        assert!(
            (member.length_mm - 12_000.0).abs() < 1e-9
                && (member.depth.depth_mm(12_000.0) - 700.0).abs() < 1e-9
        );
        assert!((member.web[0].thickness_mm - 6.0).abs() < 1e-9);
        assert_eq!(rows[1].job_of(&sheet, &base()).unwrap(), check(&base()).unwrap());
    }

    #[test]
    fn slips_stand_at_their_cells() {
        let text = "mark,job,quantity\nR2,,0\nR2,a.toml,x\n";
        let said = read(&read_text("list.csv", text).unwrap()).unwrap_err().to_string();
        for part in ["list.csv:2:4: job", "list.csv:2:5: quantity", "`R2` again", "list.csv:3:11: quantity"] {
            assert!(said.contains(part), "{part}\n{said}");
        }
        let sheet =
            read_text("list.csv", "mark,job,lenght,length\nR2,a.toml,9 m,\nR3,a.toml,,9000\n").unwrap();
        let rows = read(&sheet).unwrap();
        let said = rows[0].job_of(&sheet, &base()).unwrap_err().to_string();
        assert!(said.contains("did you mean `length`"), "{said}");
        let said = rows[1].job_of(&sheet, &base()).unwrap_err().to_string();
        assert!(said.contains("3:12") && said.contains("with its unit"), "{said}");
    }
}
