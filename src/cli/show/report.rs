//! What a command says on the terminal: made as a whole, and written in one go.

use crate::cli::fitted::filled;
use crate::cli::terminal::{colours, width};
use std::fmt::Display;
use std::io::{IsTerminal, Result, Write, stdout};

/// Width used when the output goes to no terminal.
pub(super) const PLAIN_WIDTH: usize = 110;
/// Widest paragraph.
const PARAGRAPH: usize = 96;

/// Words and tables in the making.
#[derive(Debug, Default)]
pub(crate) struct Report {
    text: String,
}

/// Whether colours may be used on the output.
pub(super) fn colour() -> bool {
    colours(stdout().is_terminal())
}

impl Report {
    /// Makes a report and writes it.
    ///
    /// # Errors
    /// Only those of `out`.
    pub(crate) fn put(out: &mut dyn Write, tell: impl FnOnce(&mut Self)) -> Result<()> {
        let mut report = Self::default();
        tell(&mut report);
        out.write_all(report.text.as_bytes())
    }

    /// A line as it is.
    pub(crate) fn line(&mut self, text: impl Display) {
        self.text += &format!("{text}\n");
    }

    /// A heading, with a remark after it, or under it where the line is too short for both.
    pub(crate) fn heading(&mut self, title: &str, remark: &str) {
        let both = title.chars().count() + remark.chars().count() + "  ()".len();
        let bold = if colour() { format!("\u{1b}[1m{title}\u{1b}[0m") } else { title.to_owned() };
        match remark {
            "" => self.line(format!("\n{bold}")),
            _ if both <= width(PLAIN_WIDTH) => self.line(format!("\n{bold}  ({remark})")),
            _ => self.line(format!("\n{bold}\n{}", plain_text(&format!("({remark})"), 1))),
        }
    }

    /// A paragraph with a hanging indent.
    pub(crate) fn say(&mut self, text: impl AsRef<str>) {
        self.line(wrapped(text.as_ref()));
    }

    /// The same of several.
    pub(crate) fn say_all<S: AsRef<str>>(&mut self, texts: impl IntoIterator<Item = S>) {
        texts.into_iter().for_each(|text| self.say(text));
    }

    /// The same, as wide as a table.
    pub(crate) fn wide(&mut self, text: impl AsRef<str>) {
        self.line(wrapped_to(text.as_ref(), width(PLAIN_WIDTH)));
    }

    /// A paragraph as wide as a table, one blank from the edge.
    pub(crate) fn plain(&mut self, text: impl AsRef<str>) {
        self.line(plain_text(text.as_ref(), 1));
    }
}

/// A paragraph as wide as a table, so many blanks from the edge.
pub(crate) fn plain_text(text: &str, indent: usize) -> String {
    let lead = " ".repeat(indent);
    filled(text.split_whitespace(), width(PLAIN_WIDTH), [&lead, &lead])
}

/// A paragraph with a hanging indent.
pub(crate) fn wrapped(text: &str) -> String {
    wrapped_to(text, width(PARAGRAPH))
}

fn wrapped_to(text: &str, wide: usize) -> String {
    filled(text.split_whitespace(), wide, ["  • ", "    "])
}
