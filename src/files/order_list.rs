//! A list of marks, as a spreadsheet saves it: one line a mark, names of the columns in the first line.
//!
//! Columns: `mark`, `job` (a path from where the list lies), `quantity`, and if wanted `week` or `due` (`due date`), and `family`.
//! Fields are kept apart by commas, or by semicolons if the first line has these and no comma.

pub use crate::readings::Placed;
use crate::readings::lines;
use crate::sheet::field_range;
use csv::StringRecord;
use std::collections::BTreeMap;
use std::ops::Range;
use weldbow_engine::input::{Problem, near, text};
use weldbow_engine::order::Week;

/// Names of the columns.
const COLUMNS: [&str; 6] = ["mark", "job", "quantity", "week", "due", "family"];
/// Those that must be there.
const NEEDED: [&str; 3] = ["mark", "job", "quantity"];
/// Most pieces of one mark (a choice: more is a slip of the pen).
const MOST_PIECES: u32 = 10_000;
/// Most lines (a choice).
const MOST_LINES: usize = 10_000;
/// Mistakes after which no more are looked for: places in a long line take their time (a choice).
const MOST_PROBLEMS: usize = 100;
/// What a right list looks like.
const EXAMPLE: &str = "mark,job,quantity\nR2,jobs/rafter.toml,24";

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Mark.
    pub mark: String,
    /// Job file, from where the list lies.
    pub job: String,
    /// Where the job stands in the text.
    pub job_range: Option<Range<usize>>,
    /// Pieces.
    pub quantity: u32,
    /// When it is wanted.
    pub week: Option<Week>,
    /// Family of the user's own.
    pub family: Option<String>,
}

/// Reads a list.
///
/// # Errors
/// Every mistake with its place; the field's name is its path.
///
/// ```
/// let found = weldbow_files::order_list::read("mark,job,quantity,week\nR2,rafter.toml,24,2026-W14\n");
/// assert!(found.is_ok_and(|lines| lines[0].quantity == 24 && lines[0].week.is_some()));
/// ```
pub fn read(text: &str) -> Result<Vec<Entry>, Vec<Placed>> {
    let start = text.len() - text.trim_start_matches('\u{feff}').len();
    let body = &text[start..];
    let first = body.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    if first.is_empty() {
        return Err(vec![(Problem::new("", "an empty list", "one line a mark").example(EXAMPLE), None)]);
    }
    let separator = if first.contains(';') && !first.contains(',') { b';' } else { b',' };
    let mut records = lines(body, separator, None);
    let fields = Fields { text, start, separator };
    let heads = records.next().unwrap_or_default();
    let columns = columns(&heads, &fields)?;
    let (mut entries, mut problems) = (Vec::new(), Vec::new());
    let mut seen = Seen::default();
    for record in records.filter(|record| !record.iter().all(str::is_empty)) {
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        let mut row = Row { record: &record, columns: &columns, fields: &fields, problems: &mut problems };
        if let Some(entry) = row.entry(&mut seen, heads.len()) {
            entries.push(entry);
        }
    }
    if entries.is_empty() && problems.is_empty() {
        let problem = Problem::new("", "a list without a line", "one line a mark under the names");
        problems.push((problem.example(EXAMPLE), None));
    }
    if entries.len() > MOST_LINES {
        let found = format!("{} lines", entries.len());
        problems.push((Problem::new("", found, format!("at most {MOST_LINES} lines")), None));
    }
    if problems.is_empty() { Ok(entries) } else { Err(problems) }
}

/// Which column stands where.
fn columns(heads: &StringRecord, fields: &Fields<'_>) -> Result<BTreeMap<&'static str, usize>, Vec<Placed>> {
    let (mut found, mut problems) = (BTreeMap::new(), Vec::new());
    for (i, head) in heads.iter().enumerate() {
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        let range = fields.range(heads, i);
        let name = head.to_lowercase().replace('_', " ");
        // as people call it
        let name = if name == "due date" { "due" } else { &name };
        match COLUMNS.iter().find(|known| **known == name) {
            Some(known) if found.contains_key(known) => {
                let problem = Problem::new(*known, format!("column `{head}` twice"), "each column once");
                problems.push((problem.example(EXAMPLE), range));
            }
            Some(known) => {
                found.insert(*known, i);
            }
            None => {
                let wanted = near::wanted(head, &COLUMNS);
                let problem = Problem::new("", format!("unknown column `{head}`"), wanted);
                problems.push((problem.example(EXAMPLE), range));
            }
        }
    }
    for needed in NEEDED.iter().filter(|needed| !found.contains_key(**needed)) {
        // a name that was misspelt is complained about once
        let misspelt = problems.iter().any(|(p, _)| p.wanted.contains(&format!("mean `{needed}`")));
        if !misspelt {
            let wanted = format!("the columns {}", near::listed(NEEDED).replace(" or ", " and "));
            let problem = Problem::new(*needed, format!("no column `{needed}`"), wanted);
            problems.push((problem.example(EXAMPLE), fields.range(heads, 0)));
        }
    }
    if problems.is_empty() { Ok(found) } else { Err(problems) }
}

/// What earlier lines said.
#[derive(Default)]
struct Seen {
    /// Marks, each with its line.
    marks: BTreeMap<String, u64>,
    /// The first week, with its line.
    week: Option<(Week, u64)>,
    /// Whether weeks with and without a year have been complained about.
    mixed: bool,
}

/// One line being read.
struct Row<'a> {
    record: &'a StringRecord,
    columns: &'a BTreeMap<&'static str, usize>,
    fields: &'a Fields<'a>,
    problems: &'a mut Vec<Placed>,
}

impl Row<'_> {
    fn entry(&mut self, seen: &mut Seen, heads: usize) -> Option<Entry> {
        let before = self.problems.len();
        if self.record.len() > heads {
            let found = format!("{} fields under {heads} names", self.record.len());
            let range = self.fields.range(self.record, heads);
            let wanted = "as many fields as names; put a field with a comma in quotes";
            self.problems
                .push((Problem::new("", found, wanted).example("\"R2, left\",rafter.toml,24"), range));
        }
        let mark = self.needed("mark", "the mark of the member, each once", "R2");
        let job =
            self.needed("job", "the path of its job file, from where the list lies", "jobs/rafter.toml");
        let quantity = self.quantity();
        let week = self.week();
        let line = self.record.position().map_or(0, csv::Position::line);
        if let Some(Some(week)) = week {
            self.same_kind(week, line, seen);
        }
        if let Some(mark) = &mark {
            match seen.marks.get(mark) {
                Some(first) => {
                    let found = format!("`{mark}` again, as in line {first}");
                    self.wrong("mark", found, "each mark once; add its pieces up".to_owned(), "R2-2");
                }
                None => {
                    seen.marks.insert(mark.clone(), line);
                }
            }
        }
        let family = self.given("family").map(|family| text::short(family).into_owned());
        if self.problems.len() > before {
            return None;
        }
        let job_range = self.columns.get("job").and_then(|i| self.fields.range(self.record, *i));
        Some(Entry { mark: mark?, job: job?, job_range, quantity: quantity?, week: week?, family })
    }

    fn given(&self, column: &str) -> Option<&str> {
        let field = self.columns.get(column).and_then(|i| self.record.get(*i))?;
        Some(field).filter(|f| !f.is_empty())
    }

    fn wrong(&mut self, column: &'static str, found: String, wanted: String, example: &str) {
        let range = self.columns.get(column).and_then(|i| self.fields.range(self.record, *i));
        self.problems.push((Problem::new(column, found, wanted).example(example), range));
    }

    fn needed(&mut self, column: &'static str, wanted: &str, example: &str) -> Option<String> {
        let found = self.given(column).map(|words| match column {
            "mark" => text::short(words).into_owned(),
            _ => words.to_owned(),
        });
        if found.is_none() {
            self.wrong(column, "nothing".to_owned(), wanted.to_owned(), example);
        }
        found
    }

    fn quantity(&mut self) -> Option<u32> {
        let text = self.given("quantity").unwrap_or_default().to_owned();
        let found = text.parse::<u32>().ok().filter(|n| (1..=MOST_PIECES).contains(n));
        if found.is_none() {
            let shown = if text.is_empty() { "nothing".to_owned() } else { format!("`{text}`") };
            let wanted = format!("a whole number of pieces, 1 to {MOST_PIECES}");
            self.wrong("quantity", shown, wanted, "24");
        }
        found
    }

    /// Weeks with and without a year have no order: work would move to a later week than it is due.
    fn same_kind(&mut self, week: Week, line: u64, seen: &mut Seen) {
        let (first, first_line) = *seen.week.get_or_insert((week, line));
        if first.year.is_some() == week.year.is_some() || std::mem::replace(&mut seen.mixed, true) {
            return;
        }
        let column = if self.given("week").is_some() { "week" } else { "due" };
        let (text, year) =
            (self.given(column).unwrap_or_default(), first.year.or(week.year).unwrap_or_default());
        let found = format!("`{text}` where line {first_line} has week {first}");
        let wanted = "every week with its year, or every one without: else nothing says which comes first";
        self.wrong(column, found, wanted.to_owned(), &format!("{year}-W{:02}", week.number));
    }

    /// The outer None is a mistake.
    fn week(&mut self) -> Option<Option<Week>> {
        let (week, due) = (self.given("week").map(str::to_owned), self.given("due").map(str::to_owned));
        let (column, text, found, wanted, example) = match (week, due) {
            (None, None) => return Some(None),
            (Some(_), Some(due)) => {
                let wanted = "a week or a due date, not both".to_owned();
                self.wrong("due", format!("`{due}` beside a week"), wanted, "2026-04-03");
                return None;
            }
            (Some(week), None) => {
                let found = Week::read(&week);
                ("week", week, found, "a week, by its number or with its year", "2026-W14")
            }
            (None, Some(due)) => {
                let found = Week::of_date(&due);
                ("due", due, found, "a date: year, month, day", "2026-04-03")
            }
        };
        if found.is_none() {
            self.wrong(column, format!("`{text}`"), wanted.to_owned(), example);
        }
        found.map(Some)
    }
}

/// Finds fields in the text.
struct Fields<'a> {
    text: &'a str,
    /// Where the table begins.
    start: usize,
    separator: u8,
}

impl Fields<'_> {
    /// Bytes of a field without quotes and blanks; of an empty one, the place where it should stand.
    fn range(&self, record: &StringRecord, index: usize) -> Option<Range<usize>> {
        let from = self.start + record.position()?.byte() as usize;
        field_range(self.text, from, self.separator, index)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wrong(text: &str) -> Vec<(String, String, String)> {
        let problems = read(text).unwrap_err();
        let there = |range: &Option<Range<usize>>| range.clone().map_or("", |r| &text[r]).to_owned();
        problems.iter().map(|(p, range)| (p.path.clone(), p.found.clone(), there(range))).collect()
    }

    #[test]
    fn lists_as_spreadsheets_save_them_are_read() {
        let plain =
            read("mark,job,quantity,due,family\nR2,a.toml,3,2026-04-03,rafters\n\nC1,b.toml,1,,\n").unwrap();
        assert_eq!((plain.len(), plain[0].quantity, plain[1].week), (2, 3, None));
        assert_eq!(plain[0].week.map(|w| w.to_string()).as_deref(), Some("2026-W14"));
        let due = read("mark,job,quantity,Due date\nR2,a.toml,3,2026-04-03\n").unwrap();
        assert_eq!(due[0].week, plain[0].week);
        let other = "\u{feff}Quantity;Job;Mark\r\n3;\"a, b.toml\";R2\r\n";
        let found = read(other).unwrap();
        assert_eq!((found[0].job.as_str(), found[0].quantity), ("a, b.toml", 3));
        assert_eq!(&other[found[0].job_range.clone().unwrap()], "a, b.toml");
    }

    #[test]
    fn every_slip_is_found_at_its_field() {
        let text = "mark,job,quantity,week\nR2,a.toml,0,1\nR2,,-3,99\nR3,c.toml,1.5,soon\n";
        let found = wrong(text);
        let places: Vec<&str> = found.iter().map(|f| f.2.as_str()).collect();
        assert_eq!(places, ["0", "", "-3", "R2", "1.5", "soon"], "{found:?}");
        assert!(found[3].1.contains("line 2"), "{found:?}");
    }

    /// Plain weeks were taken to come before every dated one: work due in 2026-W14 went to a week later than that of line 3.
    #[test]
    fn weeks_with_and_without_a_year_are_not_mixed() {
        let mixed = "mark,job,quantity,week\nA,a.toml,60,2026-W14\nB,b.toml,2,W15\nC,c.toml,2,16\n";
        let found = wrong(mixed);
        println!("{found:?}");
        assert_eq!(found.len(), 1);
        assert!(found[0].2 == "W15" && found[0].1.contains("line 2 has week 2026-W14"));
        let due = "mark,job,quantity,week,due\nA,a.toml,60,3,\nB,b.toml,2,,2026-04-03\n";
        assert_eq!(wrong(due)[0].2, "2026-04-03");
        assert!(read("mark,job,quantity,week\nA,a.toml,60,3\nB,b.toml,2,W15\nC,c.toml,2,\n").is_ok());
    }

    #[test]
    fn heads_are_checked_first() {
        let found = wrong("mark,jobs,qantity\nR2,a.toml,3\n");
        assert_eq!(found.len(), 2, "{found:?}");
        assert_eq!((found[0].2.as_str(), found[1].2.as_str()), ("jobs", "qantity"));
        assert!(wrong("mark,job\nR2,a.toml\n")[0].1.contains("no column `quantity`"));
        assert!(wrong("mark,job,quantity\n")[0].1.contains("without a line"));
        assert!(wrong(" \n")[0].1.contains("empty list"));
    }
}
