//! A form from a file, with the file of what was learned that lies beside it.

use super::Diagnostics;
use super::read::{InputFile, read_alone};
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};
use weldbow_engine::input::{Form, Problem, day_number};
use weldbow_engine::job::file::LearnedFile;

/// Seconds of a day.
const DAY_S: u64 = 86_400;

/// Reads a form from a file.
///
/// # Errors
/// Everything wrong with the writing: not a readable text file of sensible size, not TOML, not the shape of the form.
pub fn read_file<T: Form>(path: &Path) -> Result<InputFile<T>, Diagnostics> {
    let mut paper = read_alone::<T>(path)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let beside = paper.shape.beside(&mut |file| read(&folder.join(file), file));
    beside.map_err(|problem| paper.complaint(vec![problem]))?;
    Ok(paper)
}

/// What it holds, with how old it is.
fn read(path: &Path, name: &str) -> Result<serde_json::Value, Problem> {
    let wanted =
        "the file that `weldbow calibrate RECORD.csv --out learned.toml` wrote, from where this file lies";
    let wrong = |found: String| Problem::new("learned", found, wanted).example("learned = \"learned.toml\"");
    let mut found = read_alone::<LearnedFile>(path).map_err(|complaint| {
        let first = complaint.to_string();
        wrong(format!("`{name}`: {}", first.lines().next().unwrap_or_default()))
    })?;
    let today = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |t| t.as_secs() / DAY_S);
    let last = found.shape.to.as_deref().and_then(day_number);
    found.shape.days_old = last.map(|last| (today as i64 - i64::from(last)).max(0));
    serde_json::to_value(found.shape).map_err(|e| wrong(e.to_string()))
}
