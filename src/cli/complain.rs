//! A complaint for people: each problem with file, line and column, the field, what stands there, and a
//! right line to write.

use crate::form::{Complaint, Found};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, NamedSource, Report};
use std::env::var_os;
use std::io::{IsTerminal, Result, Write, stderr};
use std::ops::Range;

/// Problems shown in full; a file with more has one cause, mostly (a choice).
const MOST_SHOWN: usize = 20;

/// Longest line quoted, bytes; a longer one would bury its message (a choice).
const LONGEST_QUOTED: usize = 300;

/// Characters in front of each line of help.
const HELP_INDENT: usize = 8;

/// Width for text that goes to no terminal.
const PLAIN_WIDTH: usize = 100;

/// How complaints look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Whether to colour.
    pub colour: bool,
    /// Characters in a line.
    pub width: usize,
}

impl Look {
    /// Without colour and of fixed width: for pipes and files.
    pub const PLAIN: Self = Self { colour: false, width: PLAIN_WIDTH };

    /// As the error stream can show it; `NO_COLOR` is respected.
    pub fn of_stderr() -> Self {
        let forbidden = var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        Self { colour: stderr().is_terminal() && !forbidden, ..Self::PLAIN }
    }
}

/// Writes everything wrong with one file.
///
/// # Errors
/// Only those of `out`.
pub fn complain(out: &mut dyn Write, complaint: &Complaint, look: Look) -> Result<()> {
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
    let count = complaint.problems.len();
    if count > MOST_SHOWN {
        writeln!(out, "… and {} more", count - MOST_SHOWN)?;
    }
    let noun = if count == 1 { "problem" } else { "problems" };
    writeln!(out, "{}: {count} {noun}", complaint.file)
}

fn report(complaint: &Complaint, found: &Found, width: usize) -> Report {
    let problem = &found.problem;
    let whole_file = complaint.text.is_empty();
    let place = if whole_file {
        complaint.file.clone()
    } else {
        format!("{}:{}:{}", complaint.file, found.line, found.column)
    };
    let field = if problem.path.is_empty() { String::new() } else { format!("{}: ", problem.path) };
    let mut diagnostic = MietteDiagnostic::new(format!("{place}: {field}found {}", problem.found));
    let example =
        problem.example.as_ref().map(|line| format!("\nright would be: {line}")).unwrap_or_default();
    diagnostic.help =
        Some(format!("{}{example}", wrapped(&format!("wanted: {}", problem.wanted), width - HELP_INDENT)));
    match quoted(&complaint.text, found.range.clone()) {
        None => Report::from(diagnostic),
        Some(range) => Report::from(diagnostic.and_label(LabeledSpan::new_with_span(None, range)))
            .with_source_code(NamedSource::new(&complaint.file, complaint.text.clone())),
    }
}

/// Breaks a text between words, so that no line is longer than `width` if its words are not.
fn wrapped(text: &str, width: usize) -> String {
    let (mut lines, mut used) = (String::new(), 0);
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if used > 0 && used + 1 + length > width {
            lines.push('\n');
            used = 0;
        } else if used > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += length;
    }
    lines
}

/// The part of the range to underline: its first line; nothing if that line is too long to quote.
fn quoted(text: &str, range: Option<Range<usize>>) -> Option<Range<usize>> {
    let range = range?;
    let start = range.start.min(text.len());
    let line_start = text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
    let line_end = text.get(start..)?.find('\n').map_or(text.len(), |at| start + at);
    let end = range.end.clamp(start, line_end);
    (line_end - line_start <= LONGEST_QUOTED).then_some(start..end)
}
