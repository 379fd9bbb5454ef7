//! Tables of readings as people write them or a spreadsheet saves them: cells kept apart by commas, semicolons or tabs, remarks
//! behind #, and where every cell stands.

use crate::reading::Diagnostics;
use csv::{ReaderBuilder, StringRecord, Trim};
use std::ops::Range;
use weldbow_engine::input::Problem;

/// Mistakes after which a table is read no further.
pub(crate) const MOST_PROBLEMS: usize = 40;

/// A mistake and where it stands.
pub type Placed = (Problem, Option<Range<usize>>);

/// What keeps the cells of a table apart, told from its head: a semicolon, a tab, else a comma.
pub(crate) fn delimiter(text: &str) -> u8 {
    let head = without_mark(text)
        .lines()
        .find(|line| !line.starts_with('#') && !line.trim().is_empty())
        .unwrap_or("");
    [b';', b'\t'].into_iter().find(|d| head.as_bytes().contains(d)).unwrap_or(b',')
}

/// Lines of a table with their cells trimmed; blank lines are left out, and remarks behind a sign that is given. A text is UTF-8
/// already and lines may differ in length: nothing is left that could be refused.
pub(crate) fn lines(text: &str, delimiter: u8, remark: Option<u8>) -> impl Iterator<Item = StringRecord> {
    ReaderBuilder::new()
        .has_headers(false)
        .delimiter(delimiter)
        .comment(remark)
        .trim(Trim::All)
        .flexible(true)
        .from_reader(text.as_bytes())
        .into_records()
        .map_while(Result::ok)
}

/// A table being read, and the mistakes found in it so far.
pub(crate) struct Reading<'t> {
    /// What complaints call it.
    pub name: &'t str,
    pub text: &'t str,
    /// Whether a comma may stand in a number, since no comma keeps cells apart.
    pub comma: bool,
    pub problems: Vec<Placed>,
    /// Mistakes kept.
    pub most: usize,
}

impl<'t> Reading<'t> {
    pub(crate) fn of(name: &'t str, text: &'t str) -> Self {
        Self { name, text, comma: delimiter(text) != b',', problems: Vec::new(), most: MOST_PROBLEMS }
    }

    /// One mistake more; of a long row of them the first.
    pub(crate) fn push(&mut self, problem: Problem, place: Option<Range<usize>>) {
        if self.problems.len() < self.most {
            self.problems.push((problem, place));
        }
    }

    /// The head of the table, and the lines below it; blank ones and remarks are left out.
    pub(crate) fn lines(&self) -> impl Iterator<Item = StringRecord> + use<'t> {
        let body = without_mark(self.text);
        lines(body, delimiter(body), Some(b'#'))
    }

    /// Where a line stands.
    pub(crate) fn place(&self, line: &StringRecord) -> Option<Range<usize>> {
        Some(whole(&cells(self.text, line)))
    }

    /// What was read, unless there are mistakes.
    pub(crate) fn checked<T>(self, found: T) -> Result<T, Diagnostics> {
        if self.problems.is_empty() {
            return Ok(found);
        }
        Err(Diagnostics::placed(self.name, self.text, self.problems))
    }
}

/// Bytes of the cells of a record.
pub(crate) fn cells(text: &str, record: &StringRecord) -> Vec<Range<usize>> {
    let body = without_mark(text);
    let start = text.len() - body.len() + record.position().map_or(0, |p| p.byte() as usize);
    let start = start.min(text.len());
    // the position of a record may lie before remarks that the reader skips
    let mut at = start;
    for line in text.get(start..).unwrap_or("").split_inclusive('\n') {
        if !line.trim().is_empty() && !line.starts_with('#') {
            break;
        }
        at += line.len();
    }
    record
        .iter()
        .map(|cell| {
            let rest = text.get(at..).unwrap_or("");
            // a cell with quotes of its own does not stand in the text as it reads
            let (skipped, long) = rest.find(cell).map_or((0, 0), |i| (i, cell.len()));
            let found = at + skipped;
            at = found + long;
            // one that is empty, or stands otherwise, is shown by what stands behind it
            let behind = text.get(at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
            found..if long == 0 { at + behind } else { at }
        })
        .collect()
}

/// A number as people write it, to be read with a point; `comma`: whether a comma may stand in it, as spreadsheets of some countries
/// write −17,5 where commas do not keep cells apart.
pub(crate) fn with_point(cell: &str, comma: bool) -> String {
    let number = cell.replace('−', "-");
    let one = comma && number.matches(',').count() == 1 && !number.contains('.');
    if one { number.replace(',', ".") } else { number }
}

/// Bytes from the first cell to the end of the last.
pub(crate) fn whole(cells: &[Range<usize>]) -> Range<usize> {
    cells.first().map_or(0, |cell| cell.start)..cells.last().map_or(0, |cell| cell.end)
}

/// Name and unit of a head as `camber [mm]` or `camber (mm)`.
pub(crate) fn name_and_unit(head: &str) -> (&str, Option<&str>) {
    match head.split_once(['[', '(']) {
        Some((name, unit)) => (name.trim(), Some(unit.trim_end_matches([']', ')']).trim())),
        None => (head.trim(), None),
    }
}

/// The text without the mark that some editors put before it.
fn without_mark(text: &str) -> &str {
    text.trim_start_matches('\u{feff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_stand_where_they_are_written() {
        for text in ["\u{feff}# a\nx; y\n\n# b\n 1 ;22\n", "x\ty\r\n1\t22\r\n", "x,y\n\"1\", 22"] {
            let rows: Vec<StringRecord> = Reading::of("table.csv", text).lines().collect();
            assert_eq!(rows.len(), 2, "{text:?}");
            let of = |row: usize| cells(text, &rows[row]).into_iter().map(|r| &text[r]).collect::<Vec<_>>();
            assert_eq!((of(0), of(1)), (vec!["x", "y"], vec!["1", "22"]), "{text:?}");
            assert!(text[whole(&cells(text, &rows[1]))].ends_with("22"));
        }
    }
}
