//! What a user reads when measured offsets or a shop file are wrong. Each file in `tests/bad_shapes` has its whole message
//! beside it. After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_shapes`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use assert_cmd::Command;
use std::fs::{read_dir, read_to_string, write};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_shapes")
}

fn straighten(arguments: &[&str]) -> std::process::Output {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(folder()).args(["straighten", "../../studies/jobs/rafter.toml"]).args(arguments);
    command.output().unwrap()
}

#[test]
fn every_bad_shape_and_shop_gets_the_message_kept_beside_it_and_no_plan() {
    let mut files: Vec<_> = read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ext| ext == "toml" || ext == "csv"));
    files.sort();
    assert!(files.len() >= 30, "only {} bad files", files.len());
    let mut changed = Vec::new();
    for path in files {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let switch = if name.ends_with(".csv") { "--measured" } else { "--shop" };
        let run = straighten(&[switch, &name]);
        assert_eq!(run.status.code(), Some(1), "{name}");
        assert!(run.stdout.is_empty(), "{name} printed a plan");
        let got = String::from_utf8(run.stderr).unwrap();
        assert!(got.contains(&name) && got.contains("wanted: "), "{name}: {got}");
        let kept = path.with_extension(format!("{}.txt", path.extension().unwrap().to_string_lossy()));
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
fn a_note_that_makes_no_sense_is_named_with_what_is_right() {
    for (note, word) in [
        ("delivery: quench", "did you mean `quenched-tempered`"),
        ("kep off: 1 m to 2 m", "did you mean `keep off`"),
        ("painted", "key: value"),
        ("straightened before: -1", "a whole number"),
    ] {
        let run = straighten(&["--piece", note]);
        let said = String::from_utf8(run.stderr).unwrap();
        assert_eq!(run.status.code(), Some(1), "{note}");
        assert!(said.contains("--piece:1:") && said.contains(word), "{note}: {said}");
    }
}

#[test]
fn both_files_are_complained_about_at_once_and_nothing_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let sheet = folder.path().join("sheet.html");
    let run = straighten(&[
        "--measured",
        "too_few.csv",
        "--shop",
        "zero_force.toml",
        "--sheet",
        sheet.to_str().unwrap(),
    ]);
    let said = String::from_utf8(run.stderr).unwrap();
    assert!(
        said.contains("too_few.csv: 1 problem") && said.contains("zero_force.toml: 2 problems"),
        "{said}"
    );
    assert!(!sheet.exists(), "half of nothing is nothing");
}

#[test]
fn one_measured_file_goes_with_one_job() {
    let job = "../../studies/jobs/column.toml";
    let run = straighten(&[job, "--measured", "too_few.csv"]);
    assert_eq!(run.status.code(), Some(2));
}
