//! Bad input and faults, as a user meets them: nothing lost, nothing absurd, nothing hostile.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod cases;
mod cluster;
mod columnar;
mod complaints;
mod cutting;
mod joints;
mod kills;
mod limits;
mod notes;
mod readings;
mod results;
mod words;
mod writing;

use assert_cmd::Command;
use std::fs::{copy, read_to_string, write};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Output;
use tempfile::TempDir;

/// A folder with a demo job, the shop, its list of marks and a measured piece.
fn desk() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (from, to) in [
        ("jobs/rafter.toml", "rafter.toml"),
        ("shop/shop.toml", "shop.toml"),
        ("shop/measured-rafter.csv", "measured.csv"),
    ] {
        copy(demo(from), folder.path().join(to)).unwrap();
    }
    write(folder.path().join("order.csv"), "mark,job,quantity\nR2,rafter.toml,3\n").unwrap();
    folder
}

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("studies").join(name)
}

fn command(folder: &Path) -> Command {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(folder).env("NO_COLOR", "1");
    command
}

fn weldbow(folder: &Path, arguments: &[&str]) -> Output {
    command(folder).args(arguments).output().unwrap()
}

fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn complained(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// Runs, and holds the status to the one wanted and every part to what is said on either stream, blanks made one.
#[track_caller]
fn says(folder: &Path, arguments: &[&str], status: i32, parts: &[&str]) -> String {
    let output = weldbow(folder, arguments);
    let said = format!("{}{}", printed(&output), complained(&output));
    assert_eq!(output.status.code(), Some(status), "{arguments:?}:\n{said}");
    let flat = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in parts {
        assert!(flat.contains(part), "{arguments:?}: {part:?} is not in:\n{said}");
    }
    said
}

/// Says something of a test that passes, where everybody sees it: what the test macros print is kept back.
fn loud(text: &str) {
    std::io::stderr().write_all(format!("{text}\n").as_bytes()).unwrap();
}

/// A file with a part changed.
fn changed(folder: &Path, name: &str, from: &str, to: &str) {
    let text = read_to_string(folder.join(name)).unwrap();
    assert!(text.contains(from), "{from} is not in {name}");
    write(folder.join(name), text.replace(from, to)).unwrap();
}

/// Names in a folder, temporary ones too.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}
