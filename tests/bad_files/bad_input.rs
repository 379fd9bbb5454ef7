//! What a user reads when a job file is wrong. Each file in `tests/bad_input` has its whole message beside
//! it. After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_input`, then read every one.

#![allow(clippy::unwrap_used, reason = "a failed test may panic anywhere")]

#[path = "../bad_input/everyday.rs"]
mod everyday;

use std::fs::{read_dir, read_to_string, write};
use std::path::{Path, PathBuf};
use weldbow::cli::complain::{Look, complain};
use weldbow::job::{read_path, read_text};
use weldbow::reading::Diagnostics;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_input")
}

fn message(complaint: &Diagnostics) -> String {
    let mut bytes = Vec::new();
    complain(&mut bytes, complaint, Look::PLAIN).unwrap();
    String::from_utf8(bytes).unwrap()
}

fn bad_files() -> Vec<PathBuf> {
    let mut files: Vec<_> = read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ext| ext == "toml"));
    files.sort();
    files
}

#[test]
fn every_bad_file_gets_the_message_kept_beside_it() {
    let files = bad_files();
    assert!(files.len() >= 25, "only {} bad files", files.len());
    let mut changed = Vec::new();
    for path in files {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let text = read_to_string(&path).unwrap();
        let Err(complaint) = read_text(&name, &text) else { panic!("{name} was accepted") };
        let (got, kept) = (message(&complaint), path.with_extension("txt"));
        if std::env::var_os("UPDATE_MESSAGES").is_some() {
            write(&kept, &got).unwrap();
        }
        if read_to_string(&kept).unwrap_or_default() != got {
            changed.push(format!("{name} now says:\n{got}"));
        }
    }
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}

#[test]
fn every_problem_names_its_place_and_shows_what_would_be_right() {
    for path in bad_files() {
        let text = read_to_string(&path).unwrap();
        let complaint = read_text("job.toml", &text).unwrap_err();
        let said = message(&complaint);
        for found in complaint.problems.iter().take(20) {
            let place = format!("job.toml:{}:{}", found.line, found.column);
            assert!(said.contains(&place), "{place} is not in:\n{said}");
            assert!(!found.problem.wanted.is_empty(), "nothing wanted in:\n{said}");
        }
    }
}

fn said_of(path: &Path) -> String {
    message(&read_path(path).unwrap_err())
}

#[test]
fn what_is_no_text_file_is_refused_in_one_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        write(&path, bytes).unwrap();
        path
    };
    let cases = [
        (folder.path().to_path_buf(), "found a folder"),
        (folder.path().join("none.toml"), "no such file"),
        (file("empty.toml", b" \n"), "an empty file"),
        (file("latin.toml", b"title = \"Tr\xE4ger\"\n"), "byte 0xE4 at offset 11"),
        (file("large.toml", &vec![b'#'; 1_500_000]), "a file of 1.5 MB"),
    ];
    for (path, expected) in cases {
        let said = said_of(&path);
        assert!(said.contains(expected), "{expected:?} is not in:\n{said}");
        assert!(said.contains(&path.display().to_string()), "the file is not named in:\n{said}");
    }
}

#[test]
fn a_file_of_brackets_is_refused_without_a_crash() {
    for text in ["[".repeat(900_000), format!("a = {}", "[".repeat(400_000)), "[a]\n".repeat(200_000)] {
        assert!(read_text("brackets.toml", &text).is_err());
    }
}
