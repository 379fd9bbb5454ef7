//! The one file that knows how the engine is asked: by the command line, or as a library, with job files as text, and answers as JSON.
//!
//! Little here names a room or a type of the engine, so that rooms and crates may move. If a command, an option or a
//! name in its JSON changes, this file and the reading of that table change, and no number.

use serde_json::{Value, to_value};
use std::ffi::OsString;
use std::fs::{read_to_string, write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use tempfile::TempDir;
use weldbow::job::read_text;
use weldbow::prediction::{Shown, predict, predict_strip};

/// What the engine says, or why it says nothing.
pub(crate) type Answer = Result<Value, String>;

/// Answers of one command that takes many job files, in their order. A file that is refused costs its own answer only.
pub(crate) fn many(arguments: &[&str], texts: &[&str]) -> Vec<Answer> {
    let folder = Folder::new();
    let paths: Vec<PathBuf> =
        texts.iter().enumerate().map(|(at, text)| folder.file(&format!("{at}.toml"), text)).collect();
    let chunks: Vec<&[PathBuf]> = paths.chunks((paths.len() / 16).clamp(1, 120)).collect();
    on_all_cores(&chunks, |chunk| halved(arguments, chunk)).concat()
}

fn halved(arguments: &[&str], paths: &[PathBuf]) -> Vec<Answer> {
    let output = run(arguments.iter().map(OsString::from).chain(paths.iter().map(OsString::from)));
    match (answer(&output), paths) {
        (Ok(Value::Array(all)), _) if all.len() == paths.len() => all.into_iter().map(Ok).collect(),
        (one, [_]) => vec![one],
        _ => {
            let (left, right) = paths.split_at(paths.len() / 2);
            [halved(arguments, left), halved(arguments, right)].concat()
        }
    }
}

/// What the library predicts of job files, as `predict --json` shows it but for its chances: they are drawn, and kept in a table of
/// their own.
pub(crate) fn predicted(texts: &[&str]) -> Vec<Answer> {
    on_all_cores(texts, |text| {
        let job = read_text("asked.toml", text).map_err(|wrong| wrong.to_string())?;
        to_value(Shown(&predict(&job))).map_err(|error| error.to_string())
    })
}

/// The same by the strip level.
pub(crate) fn predicted_by_strips(texts: &[&str]) -> Vec<Answer> {
    on_all_cores(texts, |text| {
        let job = read_text("asked.toml", text).map_err(|wrong| wrong.to_string())?;
        let prediction = predict_strip(&job).map_err(|fault| fault.to_string())?;
        to_value(Shown(&prediction)).map_err(|error| error.to_string())
    })
}

/// Answer of one command on files of its own.
pub(crate) fn one(arguments: &[&str], files: &[(&str, &str)]) -> Answer {
    let folder = Folder::new();
    folder.ask(arguments, files)
}

/// Rows that a study leaves behind: its header and lines.
pub(crate) fn study(text: &str, job: &str) -> Result<String, String> {
    let folder = Folder::new();
    let (study, _) = (folder.file("asked.toml", text), folder.file("job.toml", job));
    let output = run([OsString::from("study"), study.into(), "--out".into(), folder.path().into()]);
    if !output.status.success() {
        return Err(complaint(&output));
    }
    read_to_string(folder.path().join("asked.csv")).map_err(|error| error.to_string())
}

/// Work on every item with as many threads as there are cores; results in the order of the items.
pub(crate) fn on_all_cores<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let (next, done) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = items.get(at) else { return };
                    let result = work(item);
                    done.lock().unwrap_or_else(PoisonError::into_inner).push((at, result));
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap_or_else(PoisonError::into_inner);
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, result)| result).collect()
}

/// A folder of its own for the files of one question.
struct Folder(TempDir);

impl Folder {
    fn new() -> Self {
        Self(TempDir::new().unwrap())
    }

    fn path(&self) -> &Path {
        self.0.path()
    }

    fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.path().join(name);
        write(&path, text).unwrap();
        path
    }

    fn ask(&self, arguments: &[&str], files: &[(&str, &str)]) -> Answer {
        let named: Vec<(&str, PathBuf)> =
            files.iter().map(|(name, text)| (*name, self.file(name, text))).collect();
        let full = |argument: &&str| {
            let file = named.iter().find(|(name, _)| name == argument);
            file.map_or_else(|| OsString::from(argument), |(_, path)| path.into())
        };
        answer(&run(arguments.iter().map(full)))
    }
}

fn run(arguments: impl IntoIterator<Item = OsString>) -> Output {
    Command::new(env!("CARGO_BIN_EXE_weldbow")).args(arguments).output().unwrap()
}

/// JSON on the way out counts, whatever the exit status says of it; without any, the complaint does.
fn answer(output: &Output) -> Answer {
    serde_json::from_slice(&output.stdout).map_err(|_| complaint(output))
}

fn complaint(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stderr);
    text.lines().rev().find(|line| !line.trim().is_empty()).unwrap_or("no answer").trim().to_owned()
}
