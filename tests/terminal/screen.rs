//! What is predicted fits one screen, and nothing that warns is left out for that.

use assert_cmd::Command;
use serde_json::{Value, from_slice};
use std::path::{Path, PathBuf};

/// Lines and columns of a screen (common practice, no source).
const LINES: usize = 60;
const COLUMNS: usize = 80;

fn demos() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies/jobs");
    let mut all: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    all.retain(|path| path.extension().is_some_and(|end| end == "toml"));
    all.sort();
    all
}

fn said(job: &Path, more: &[&str]) -> Vec<u8> {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.env("COLUMNS", COLUMNS.to_string()).arg("predict").arg(job).args(more).output().unwrap().stdout
}

/// Words with single blanks between them.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_prediction_of_every_demo_member_fits_one_screen() {
    let demos = demos();
    assert!(demos.len() >= 11, "{demos:?}");
    let mut too_long = Vec::new();
    for job in &demos {
        let text = String::from_utf8(said(job, &[])).unwrap();
        let lines = text.lines().count();
        let widest = text.lines().max_by_key(|line| line.chars().count()).unwrap_or_default();
        println!("{}: {lines} lines, widest {}", job.display(), widest.chars().count());
        if lines > LINES || widest.chars().count() > COLUMNS {
            too_long.push(format!("{}: {lines} lines, widest {widest:?}:\n{text}", job.display()));
        }
    }
    assert!(too_long.is_empty(), "{}", too_long.join("\n"));
}

/// The end of every warning that programs read, and every caution, stands on the screen, too.
#[test]
fn a_short_prediction_leaves_no_warning_and_no_caution_out() {
    const TAIL: usize = 30;
    let mut warned = 0;
    for job in demos() {
        let text = words(&String::from_utf8(said(&job, &["--units", "si"])).unwrap());
        let all: Value = from_slice(&said(&job, &["--json"])).unwrap();
        for warning in all["warnings"].as_array().unwrap() {
            let whole = words(warning["text"].as_str().unwrap());
            let at = whole.char_indices().rev().nth(TAIL).map_or(0, |found| found.0);
            assert!(text.contains(&whole[at..]), "{}: {whole:?} is not in:\n{text}", job.display());
            warned += 1;
        }
        for caution in [
            "measure your first pieces",
            "keep clear of clamped, preset and hot plates",
            "licensed engineers decide",
        ] {
            assert!(text.contains(caution), "{}: {caution:?} is not in:\n{text}", job.display());
        }
    }
    assert!(warned >= 10, "{warned} warnings");
}
