//! What a user reads when measured offsets or a shop file are wrong. Each file in `tests/bad_shapes` has its whole message
//! beside it. After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_files bad_shapes`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::kept::{every_message_is_the_one_kept, folder};
use assert_cmd::Command;

const JOB: &str = "../../studies/jobs/rafter.toml";

fn straighten(arguments: &[&str]) -> std::process::Output {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(folder("bad_shapes")).args(["straighten", JOB]).args(arguments).output().unwrap()
}

#[test]
fn every_bad_shape_and_shop_gets_the_message_kept_beside_it_and_no_plan() {
    every_message_is_the_one_kept("bad_shapes", &["csv", "toml"], 30, str::to_owned, |file| {
        let switch = if file.ends_with(".csv") { "--measured" } else { "--shop" };
        ["straighten", JOB, switch, file].map(str::to_owned).to_vec()
    });
}

#[test]
fn a_note_that_makes_no_sense_is_named_with_what_is_right() {
    for (note, word) in [
        ("delivery: quench", "did you mean `quenched-tempered`"),
        ("kep off: 1 m to 2 m", "did you mean `keep off`"),
        ("painted", "key: value"),
        ("straightened before: -1", "a whole number"),
    ] {
        let run = straighten(&["--note", note]);
        let said = String::from_utf8(run.stderr).unwrap();
        assert_eq!(run.status.code(), Some(1), "{note}");
        assert!(said.contains("--note:1:") && said.contains(word), "{note}: {said}");
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
