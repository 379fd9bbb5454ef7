//! Messages kept beside wrong files: what a user reads, word for word.

#![allow(dead_code, missing_docs)]

use assert_cmd::Command;
use std::fs::{read_dir, read_to_string, write};
use std::path::{Path, PathBuf};

/// A folder of wrong files under `tests/`.
pub(crate) fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(name)
}

/// Runs the program on every file of these endings in a folder, and compares what it says with the text kept beside it; it
/// must end with status 1, print no result, and name the file at fault (`fault` of the file) with its line, and what is wanted.
/// `UPDATE_MESSAGES` keeps them anew.
pub(crate) fn every_message_is_the_one_kept(
    name: &str,
    endings: &[&str],
    least: usize,
    fault: impl Fn(&str) -> String,
    arguments: impl Fn(&str) -> Vec<String>,
) {
    let ending = |path: &Path| path.extension().unwrap_or_default().to_string_lossy().into_owned();
    let mut files: Vec<_> = read_dir(folder(name)).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| endings.contains(&ending(path).as_str()));
    files.sort();
    assert!(files.len() >= least, "only {} wrong files", files.len());
    let mut changed = Vec::new();
    for path in files {
        let file = path.file_name().unwrap().to_string_lossy().into_owned();
        let mut command = Command::cargo_bin("weldbow").unwrap();
        let run = command.current_dir(folder(name)).args(arguments(&file)).output().unwrap();
        assert_eq!(run.status.code(), Some(1), "{file}");
        assert!(run.stdout.is_empty(), "{file} printed results");
        let got = String::from_utf8(run.stderr).unwrap();
        assert!(got.contains(&format!("{}:", fault(&file))) && got.contains("wanted: "), "{file}: {got}");
        // a folder with files of two kinds may hold one stem twice
        let stem = if endings.len() > 1 { format!("{}.txt", ending(&path)) } else { "txt".to_owned() };
        let kept = path.with_extension(stem);
        if std::env::var_os("UPDATE_MESSAGES").is_some() {
            write(&kept, &got).unwrap();
        }
        if read_to_string(&kept).unwrap_or_default() != got {
            changed.push(format!("{file} now says:\n{got}"));
        }
    }
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}
