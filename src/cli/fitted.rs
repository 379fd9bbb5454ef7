//! Lines no longer than a terminal has room for, whoever writes them.

use std::io::{Result, Write};

/// Passes on what is written; lines that a terminal has no room for are broken between words, under the text of their first line.
///
/// Drawn lines (rules, boxes, quoted files with their line numbers) stay as they are: broken they would say nothing.
#[derive(Debug)]
pub(crate) struct Fitted<W: Write> {
    out: W,
    /// Characters in a line; none where the output goes to no terminal.
    width: Option<usize>,
    /// What stands since the last line end.
    line: Vec<u8>,
}

impl<W: Write> Fitted<W> {
    /// Fits what goes to `out` into so many characters a line; none leaves it as it is.
    pub(crate) const fn new(out: W, width: Option<usize>) -> Self {
        Self { out, width, line: Vec::new() }
    }

    fn put(&mut self, width: usize) -> Result<()> {
        let line = std::mem::take(&mut self.line);
        match std::str::from_utf8(&line) {
            Ok(text) => self.out.write_all(broken(text, width).as_bytes()),
            Err(_) => self.out.write_all(&line),
        }
    }
}

impl<W: Write> Write for Fitted<W> {
    fn write(&mut self, bytes: &[u8]) -> Result<usize> {
        let Some(width) = self.width else { return self.out.write(bytes) };
        for part in bytes.split_inclusive(|b| *b == b'\n') {
            self.line.extend_from_slice(part);
            if part.ends_with(b"\n") {
                self.put(width)?;
            }
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<()> {
        if let Some(width) = self.width {
            self.put(width)?;
        }
        self.out.flush()
    }
}

/// A line, or the lines it takes.
fn broken(line: &str, width: usize) -> String {
    if shown(line.trim_end()) <= width || line.contains(['─', '│', '╭', '╰']) {
        return line.to_owned();
    }
    let text = line.trim_start_matches(' ');
    let lead = line.len() - text.len();
    let indent = (lead + mark(text)).min(width / 2);
    filled(text.split(' '), width, [&" ".repeat(lead), &" ".repeat(indent)])
}

/// Words in lines of so many characters, as long as the words themselves are no longer: the first line begins with the one lead,
/// every other with the other.
pub(super) fn filled<'t>(
    words: impl Iterator<Item = &'t str>,
    width: usize,
    [first, other]: [&str; 2],
) -> String {
    let (mut lines, mut used, indent) = (first.to_owned(), shown(first), shown(other));
    for (n, word) in words.enumerate() {
        let length = shown(word);
        if n > 0 && used + 1 + length > width && used > indent {
            lines.truncate(lines.trim_end_matches(' ').len());
            lines.push('\n');
            lines.push_str(other);
            used = indent;
        } else if n > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += length;
    }
    lines
}

/// Characters of a bullet or a number in front of a text.
fn mark(text: &str) -> usize {
    let Some((first, _)) = text.split_once(' ') else { return 0 };
    let number =
        first.strip_suffix('.').is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()));
    if number || matches!(first, "•" | "×" | "-") { first.chars().count() + 1 } else { 0 }
}

/// Characters that take room: all but those of escape sequences and line ends.
fn shown(text: &str) -> usize {
    let (mut count, mut escape) = (0, false);
    for c in text.chars() {
        match c {
            '\u{1b}' => escape = true,
            _ if escape => escape = !c.is_ascii_alphabetic(),
            '\n' | '\r' => {}
            _ => count += 1,
        }
    }
    count
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failed test may panic anywhere")]
mod tests {
    use super::*;

    fn fitted(text: &str, width: Option<usize>) -> String {
        let mut out = Vec::new();
        let mut fit = Fitted::new(&mut out, width);
        // in pieces that end anywhere, as formatted output comes
        for piece in text.as_bytes().chunks(7) {
            fit.write_all(piece).unwrap();
        }
        fit.flush().unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn long_lines_are_broken_between_words_below_their_text() {
        let said =
            fitted("  • the flange toes – near and far – are read again after each pass\nshort\n", Some(30));
        assert_eq!(
            said,
            "  • the flange toes – near and\n    far – are read again after\n    each pass\nshort\n"
        );
        assert_eq!(fitted(" 12. one two three", Some(12)), " 12. one two\n     three");
        assert_eq!(fitted("Camber  of a member\n", Some(12)), "Camber  of a\nmember\n");
    }

    #[test]
    fn what_fits_or_goes_to_no_terminal_is_as_it_was() {
        let text = "a line of some words and a\n\n ─────────────────────\n    1 │ [member] # a quoted line of a file";
        assert_eq!(fitted(text, None), text);
        assert_eq!(fitted(text, Some(80)), text);
        let narrow = fitted(text, Some(20));
        assert_eq!(narrow, text.replace("words and", "words\nand"));
    }

    #[test]
    fn colours_take_no_room_and_a_long_word_stays_whole() {
        let bold = "\u{1b}[1mAs wide as it is\u{1b}[0m\n";
        assert_eq!(fitted(bold, Some(16)), bold);
        assert_eq!(
            fitted("an-extraordinarily-long-name.toml here\n", Some(10)),
            "an-extraordinarily-long-name.toml\nhere\n"
        );
    }
}
