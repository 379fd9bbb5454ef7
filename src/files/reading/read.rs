//! From a file or a text to a form.

use super::shape::shape;
use super::{Diagnostics, opened};
use std::io::{Error, ErrorKind, Read};
use std::path::Path;
use toml::Spanned;
use toml::de::{DeTable, Error as TomlError};
use weldbow_engine::input::{Form, Hint, Node, PathStep, Problem, steps_of};

/// Largest file taken, bytes. A job of sixty passes has about 10 kB (a choice).
pub(crate) const LARGEST_BYTES: u64 = 1_000_000;

/// Mistakes of writing shown at once: later ones mostly follow from the first (a choice).
const MOST_WRITING_PROBLEMS: usize = 3;

/// A form as it was written: its shape, and its text to find places in.
#[derive(Debug)]
pub struct InputFile<T> {
    /// Name of the file as the user gave it.
    pub file: String,
    /// Its text.
    pub text: String,
    /// What was written.
    pub shape: T,
}

impl<T: Form> InputFile<T> {
    /// A complaint about fields of it.
    pub fn complaint(&self, problems: Vec<Problem>) -> Diagnostics {
        match table_of::<T>(&self.file, &self.text) {
            Ok(table) => Diagnostics::of_fields::<T>(&self.file, &self.text, table.get_ref(), problems),
            Err(complaint) => complaint,
        }
    }
}

/// Reads a form from a file, and nothing of the files it names.
///
/// # Errors
/// As [`read_text_as`], and if it is no readable text file of sensible size.
pub(super) fn read_alone<T: Form>(path: &Path) -> Result<InputFile<T>, Diagnostics> {
    let kind = TextKind { what: T::WHAT, ending: ".toml", start: T::START, largest_bytes: LARGEST_BYTES };
    read_text_as::<T>(&path.display().to_string(), &text_of_path(path, kind)?)
}

/// Reads a form from a text; `name` is what complaints call it.
///
/// # Errors
/// Everything wrong with the writing.
pub fn read_text_as<T: Form>(name: &str, text: &str) -> Result<InputFile<T>, Diagnostics> {
    let table = table_of::<T>(name, text)?;
    let shape = shape(&table)
        .map_err(|problems| Diagnostics::of_fields::<T>(name, text, table.get_ref(), problems))?;
    Ok(InputFile { file: name.to_owned(), text: text.to_owned(), shape })
}

fn table_of<'t, T: Form>(name: &str, text: &'t str) -> Result<Spanned<DeTable<'t>>, Diagnostics> {
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let wanted = format!("{}; {}", T::WHAT, T::START);
        return Err(Diagnostics::whole(name, Problem::new("", "an empty file", wanted)));
    }
    if text.len() as u64 > LARGEST_BYTES {
        return Err(Diagnostics::whole(name, too_large(text.len() as u64, T::WHAT, LARGEST_BYTES)));
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(table);
    }
    let mut problems = Vec::new();
    for error in errors.iter().take(MOST_WRITING_PROBLEMS) {
        let problem = writing_problem::<T>(text, error);
        // lines of a table that stands twice stand twice too
        let table = matches!(problem.0.hint, Hint::Right(_));
        problems.push(problem);
        if table {
            break;
        }
    }
    Err(Diagnostics::placed(name, text, problems))
}

fn writing_problem<T: Form>(text: &str, error: &TomlError) -> (Problem, Option<std::ops::Range<usize>>) {
    let range = error.span().map(|r| r.start.min(text.len())..r.end.min(text.len()));
    let there = range.clone().and_then(|r| text.get(r)).and_then(|t| t.lines().next()).unwrap_or("").trim();
    let found = if there.is_empty() {
        "the end of the line or file".to_owned()
    } else {
        format!("`{}`", short(there))
    };
    let message = error.message();
    let plainly = |wanted: &str| (wanted.to_owned(), Hint::Nothing);
    let (wanted, hint) = if message.contains("duplicate key") {
        twice::<T>(there)
    } else if message.contains("recursion") {
        plainly("lists and tables within each other as a job has them, not this deep")
    } else if message.contains("carriage return") {
        plainly("lines that end as on every system of today: save the file with LF or CR LF")
    } else {
        let form = "one `key = value` a line, text in quotes, lists in [ ]";
        (format!("TOML: {form} ({message})"), Hint::Example("thickness = \"8 mm\"".to_owned()))
    };
    (Problem::new("", found, wanted).hint(hint), range)
}

/// What to say of a key or table that stands twice.
fn twice<T: Form>(there: &str) -> (String, Hint) {
    let name = there.trim_matches(['[', ']', ' ']);
    let table = steps_of(name);
    let item: Vec<PathStep> = table.iter().cloned().chain([PathStep::Item(0)]).collect();
    match (T::schema().node(&table), T::schema().node(&item)) {
        (Some(Node::List), Some(Node::Table(_))) => {
            let right = format!("[[{name}]]");
            (format!("`{right}` in double brackets, once for each: there may be several"), Hint::Right(right))
        }
        (Some(Node::Table(_)), _) => (
            format!("one [{name}] with all of it: move the lines of the second under the first"),
            Hint::Nothing,
        ),
        _ => ("a key that stands once: keep one of the two".to_owned(), Hint::Nothing),
    }
}

/// At most so many characters of a text are quoted.
fn short(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        text.chars().take(MOST).chain("…".chars()).collect()
    }
}

/// A text of a kind that is no form.
#[derive(Debug, Clone, Copy)]
pub struct TextKind {
    /// What it describes, with its article.
    pub what: &'static str,
    /// How its name ends: ".toml".
    pub ending: &'static str,
    /// Where to get a right one.
    pub start: &'static str,
    /// Largest taken, bytes.
    pub largest_bytes: u64,
}

impl TextKind {
    /// A table as a spreadsheet saves it.
    pub const fn csv(what: &'static str, start: &'static str, largest_bytes: u64) -> Self {
        Self { what, ending: ".csv", start, largest_bytes }
    }
}

/// Reads a text file of a sensible size.
///
/// # Errors
/// If it is no readable text file, or too large.
pub fn text_of_path(path: &Path, kind: TextKind) -> Result<String, Diagnostics> {
    let text = bytes_of(path, kind).and_then(utf8);
    text.map_err(|problem| Diagnostics::whole(&path.display().to_string(), problem))
}

/// Reads a file of a sensible size.
///
/// # Errors
/// If it cannot be read, or is too large.
pub(crate) fn bytes_of_path(path: &Path, kind: TextKind) -> Result<Vec<u8>, Diagnostics> {
    bytes_of(path, kind).map_err(|problem| Diagnostics::whole(&path.display().to_string(), problem))
}

fn bytes_of(path: &Path, kind: TextKind) -> Result<Vec<u8>, Problem> {
    if path.is_dir() {
        let wanted = format!("the file of {}, ending in `{}`", kind.what, kind.ending);
        return Err(Problem::new("", "a folder", wanted));
    }
    let mut bytes = Vec::new();
    let file = opened::open(path).map_err(|e| unreadable(&e, kind))?;
    let metadata = file.metadata().map_err(|e| unreadable(&e, kind))?;
    opened::note(path, &metadata);
    // One byte more than allowed is enough to know, even from a pipe that never ends.
    file.take(kind.largest_bytes + 1).read_to_end(&mut bytes).map_err(|e| unreadable(&e, kind))?;
    if bytes.len() as u64 > kind.largest_bytes {
        return Err(too_large(metadata.len().max(bytes.len() as u64), kind.what, kind.largest_bytes));
    }
    Ok(bytes)
}

/// Bytes as text.
///
/// # Errors
/// If they are no UTF-8, with the first byte that is not.
pub(crate) fn utf8(bytes: Vec<u8>) -> Result<String, Problem> {
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let byte = error.as_bytes().get(at).copied().unwrap_or_default();
        let found = format!("byte 0x{byte:02X} at offset {at}, which is not UTF-8 text");
        Problem::new("", found, "a text file saved as UTF-8")
    })
}

fn too_large(bytes: u64, what: &str, most: u64) -> Problem {
    let found = format!("a file of {:.1} MB", bytes as f64 / 1e6);
    let most = most as f64 / 1e6;
    Problem::new("", found, format!("{what} in a file of at most {most:.0} MB; a usual one has a few kB"))
}

fn unreadable(error: &Error, kind: TextKind) -> Problem {
    let found = match error.kind() {
        ErrorKind::NotFound => "no such file".to_owned(),
        ErrorKind::TimedOut => "a pipe that nobody writes into".to_owned(),
        ErrorKind::PermissionDenied => "a file that may not be read".to_owned(),
        _ => format!("a file that cannot be read ({error})"),
    };
    Problem::new("", found, format!("the file of {}; {}", kind.what, kind.start))
}
