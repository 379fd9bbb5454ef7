//! A complaint for people, or for programs: each problem with file, line and column, the field, what stands there, and a
//! right line to write.

use super::fitted::{Fitted, filled};
use super::lists::counted as number_of;
use super::terminal::{colours, room};
use crate::input::text;
use crate::reading::{Diagnostic, Diagnostics, counted};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, NamedSource, Report};
use serde::Serialize;
use std::io::{IsTerminal, Result, Write, stderr};
use std::ops::Range;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

/// Problems shown in full; a file with more has one cause, mostly (a choice).
const MOST_SHOWN: usize = 20;

/// Longest line quoted, bytes; a longer one would bury its message (a choice).
const LONGEST_QUOTED: usize = 300;

/// Characters in front of each line of help.
const HELP_INDENT: usize = 8;

/// Width for text that goes to no terminal.
const PLAIN_WIDTH: usize = 100;

/// Whether another program reads the output of this run.
static FOR_PROGRAMS: AtomicBool = AtomicBool::new(false);

/// Says once, at the start, whether another program reads the output: complaints are then one JSON object a line.
pub(crate) fn for_programs(wanted: bool) {
    FOR_PROGRAMS.store(wanted, Ordering::Relaxed);
}

/// How complaints look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Whether to colour.
    colour: bool,
    /// Characters in a line.
    pub width: usize,
    /// One JSON object a line instead.
    pub json: bool,
}

/// A problem for another program; the names are fixed.
#[derive(Debug, Default, Serialize)]
struct Told<'a> {
    /// The file as it was given; none if it is about no file.
    file: Option<&'a str>,
    /// Line and column, from 1; none if it is about the whole file.
    line: Option<usize>,
    column: Option<usize>,
    /// The field, as `member.web[1].to`.
    field: Option<&'a str>,
    /// What stands there, or what went wrong.
    found: &'a str,
    /// What would be right.
    wanted: Option<&'a str>,
    /// The mended line, or what to do.
    right: Option<&'a str>,
    /// A line as it might be, where the mended one is not known.
    example: Option<&'a str>,
}

/// Shows a fault that has no place in a file, or of a file as a whole.
///
/// # Errors
/// Only those of the error stream.
pub fn fault(file: Option<&Path>, found: &str) -> Result<()> {
    let mut out = stderr().lock();
    let name = file.map(text::path);
    let found = text::quoted(found);
    if FOR_PROGRAMS.load(Ordering::Relaxed) {
        let told = Told { file: name.as_deref(), found: &found, ..Told::default() };
        return tell(&mut out, &told);
    }
    let mut out = Fitted::new(out, room(true));
    match name {
        Some(name) => writeln!(out, "weldbow: {name}: {found}"),
        None => writeln!(out, "weldbow: {found}"),
    }
}

fn tell(out: &mut dyn Write, told: &Told<'_>) -> Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}

impl Look {
    /// Without colour and of fixed width: for pipes and files.
    pub const PLAIN: Self = Self { colour: false, width: PLAIN_WIDTH, json: false };

    /// As the error stream can show it.
    fn of_stderr() -> Self {
        let terminal = stderr().is_terminal();
        let json = FOR_PROGRAMS.load(Ordering::Relaxed);
        let width = room(true).map_or(PLAIN_WIDTH, |here| here.min(PLAIN_WIDTH));
        Self { colour: colours(terminal), width, json }
    }
}

/// Writes everything wrong with one file.
///
/// # Errors
/// Only those of `out`.
pub fn complain(out: &mut dyn Write, complaint: &Diagnostics, look: Look) -> Result<()> {
    if look.json {
        return told(out, complaint);
    }
    let theme = if look.colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_wrap_lines(false).with_links(false);
    for found in complaint.problems.iter().take(MOST_SHOWN) {
        let report = report(complaint, found, look.width);
        let mut text = String::new();
        match handler.render_report(&mut text, report.as_ref()) {
            Ok(()) => writeln!(out, "{}", text.trim_matches('\n'))?,
            Err(_) => writeln!(out, "{report}")?,
        }
        writeln!(out)?;
    }
    let count = complaint.count();
    if count > MOST_SHOWN {
        writeln!(out, "… and {} more", count - MOST_SHOWN)?;
    }
    writeln!(out, "{}: {}", complaint.file, number_of(count, "problem"))
}

/// One object a problem.
fn told(out: &mut dyn Write, complaint: &Diagnostics) -> Result<()> {
    for Diagnostic { problem, range, line, column } in &complaint.problems {
        let (right, example) = problem.hint.lines();
        let placed = range.is_some() || !complaint.text.is_empty();
        let told = Told {
            file: Some(&complaint.file),
            line: placed.then_some(*line),
            column: placed.then_some(*column),
            field: Some(problem.path.as_str()).filter(|path| !path.is_empty()),
            found: &problem.found,
            wanted: Some(&problem.wanted),
            right,
            example,
        };
        tell(out, &told)?;
    }
    Ok(())
}

fn report(complaint: &Diagnostics, found: &Diagnostic, width: usize) -> Report {
    let problem = &found.problem;
    let whole_file = complaint.text.is_empty();
    let place = if whole_file {
        complaint.file.clone()
    } else {
        format!("{}:{}:{}", complaint.file, found.line, found.column)
    };
    let path = text::cut(&problem.path, text::LONGEST);
    let field = if path.is_empty() { String::new() } else { format!("{}: ", counted(&path)) };
    let mut diagnostic = MietteDiagnostic::new(format!("{place}: {field}found {}", problem.found));
    let hint = match problem.hint.lines() {
        (Some(line), _) => lines("right would be:", line),
        (None, Some(line)) => lines("for example:", line),
        (None, None) => String::new(),
    };
    let wanted = format!("wanted: {}", problem.wanted);
    diagnostic.help =
        Some(format!("{}{hint}", filled(wanted.split_whitespace(), width - HELP_INDENT, ["", ""])));
    let range = found.range.clone().filter(|_| quotable(&complaint.file));
    match quoted(&complaint.text, range) {
        None => Report::from(diagnostic),
        Some(range) => Report::from(diagnostic.and_label(LabeledSpan::new_with_span(None, range)))
            .with_source_code(NamedSource::new(&complaint.file, text::quoted(&complaint.text).into_owned())),
    }
}

/// A hint below what is wanted; one of several lines stands below its lead.
fn lines(lead: &str, hint: &str) -> String {
    let gap = if hint.contains('\n') { '\n' } else { ' ' };
    format!("\n{lead}{gap}{hint}")
}

/// Whether lines of a file may be shown: what lies elsewhere and is called unlike any input may be anything, private too, if a list or
/// a study of a stranger names it.
fn quotable(file: &str) -> bool {
    const OURS: [&str; 4] = ["toml", "csv", "txt", "tsv"];
    let path = Path::new(file);
    let ours = path.extension().is_some_and(|e| OURS.iter().any(|ours| e.eq_ignore_ascii_case(ours)));
    ours || !file.contains('/') || file.starts_with("/dev/")
}

/// The part of the range to underline: its first line; nothing if that line is too long to quote.
fn quoted(text: &str, range: Option<Range<usize>>) -> Option<Range<usize>> {
    let range = range?;
    let start = range.start.min(text.len());
    let line_start = text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
    let line_end = text.get(start..)?.find('\n').map_or(text.len(), |at| start + at);
    let end = range.end.clamp(start, line_end);
    // the lines before and after are quoted too
    let before = text.get(..line_start.saturating_sub(1))?.rsplit('\n').next().map_or(0, str::len);
    let after = text.get(line_end..)?.lines().nth(1).map_or(0, str::len);
    let longest = (line_end - line_start).max(before).max(after);
    (longest <= LONGEST_QUOTED).then_some(start..end)
}

/// Shows everything wrong with one file on the error stream.
pub(crate) fn complain_on_stderr(complaint: &Diagnostics) -> Result<()> {
    let look = Look::of_stderr();
    let room = room(true).filter(|_| !look.json);
    let mut out = Fitted::new(stderr().lock(), room);
    complain(&mut out, complaint, look)?;
    out.flush()
}
