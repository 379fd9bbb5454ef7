//! The rooms of the house: which may use which, how long a file may be, and what the engine must not do.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

use std::fs::{read_dir, read_to_string};
use std::path::{Path, PathBuf};

/// Top to bottom: a room may use itself and what stands below it.
const ROOMS: [&str; 26] = [
    "cli",
    "chart",
    "order",
    "study",
    "shop",
    "choose",
    "straighten",
    "referee",
    "job",
    "scatter",
    "prediction",
    "strength",
    "tolerance",
    "bow",
    "angular",
    "shrinkage",
    "strip",
    "section",
    "welding",
    "member",
    "steel",
    "sources",
    "form",
    "input",
    "units",
    "numerics",
];
/// Longest file, tests included.
const LINES: usize = 400;
/// Rooms that may touch files and the terminal.
const OUTWARD: [&str; 2] = ["cli", "form"];

#[test]
fn rooms_use_only_what_stands_below_them() {
    let mut wrong = Vec::new();
    for (file, room, text) in sources() {
        for (number, line) in code_lines(&text) {
            for used in named_rooms(line) {
                if rank(used) < rank(&room) {
                    wrong.push(format!("{}:{number}: {room} uses {used}", file.display()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "forbidden arrows:\n{}", wrong.join("\n"));
}

#[test]
fn every_room_is_in_the_list() {
    for (file, room, _) in sources() {
        assert!(ROOMS.contains(&room.as_str()), "{} is in no listed room", file.display());
    }
}

#[test]
fn files_stay_short() {
    let long: Vec<String> = sources()
        .into_iter()
        .filter(|(_, _, text)| text.lines().count() > LINES)
        .map(|(file, _, text)| format!("{}: {} lines", file.display(), text.lines().count()))
        .collect();
    assert!(long.is_empty(), "longer than {LINES} lines:\n{}", long.join("\n"));
}

#[test]
fn the_engine_reads_no_files_and_prints_nothing() {
    let mut wrong = Vec::new();
    for (file, room, text) in sources().into_iter().filter(|(_, room, _)| !OUTWARD.contains(&room.as_str())) {
        let engine = text.split("#[cfg(test)]").next().unwrap_or_default().to_owned();
        for (number, line) in code_lines(&engine) {
            if ["std::fs", "std::io", "std::env", "println!", "eprintln!"]
                .iter()
                .any(|word| line.contains(word))
            {
                wrong.push(format!("{}:{number}: {room}: {}", file.display(), line.trim()));
            }
        }
    }
    wrong.retain(|line| !TEST_FILES.iter().any(|file| line.contains(file)));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Files that exist for tests alone.
const TEST_FILES: [&str; 12] = [
    "chart/drawn.rs",
    "chart/sample.rs",
    "chart/study/looks.rs",
    "referee/case_tests.rs",
    "section/heat_tests.rs",
    "section/joint_tests.rs",
    "section/run_tests.rs",
    "section/solid_tests.rs",
    "straighten/press/span_tests.rs",
    "strip/star_tests.rs",
    "strip/run_tests.rs",
    "strip/turn_tests.rs",
];

#[test]
fn a_forbidden_arrow_would_be_seen() {
    let line = "use crate::prediction::Job;";
    assert_eq!(named_rooms(line).collect::<Vec<_>>(), ["prediction"]);
    assert!(rank("prediction") < rank("units"), "units must not use prediction");
}

fn rank(room: &str) -> usize {
    ROOMS.iter().position(|r| *r == room).unwrap_or(usize::MAX)
}

fn named_rooms(line: &str) -> impl Iterator<Item = &str> {
    line.split("crate::")
        .skip(1)
        .filter_map(|rest| rest.split(|c: char| !c.is_alphanumeric() && c != '_').next())
        .filter(|name| ROOMS.contains(name))
}

fn code_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().map(|(i, l)| (i + 1, l)).filter(|(_, l)| !l.trim_start().starts_with("//"))
}

/// Every source file in a room: path, room, text.
fn sources() -> Vec<(PathBuf, String, String)> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    for entry in read_dir(&src).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_dir()) {
        let room = entry.file_name().unwrap().to_string_lossy().into_owned();
        walk(&entry, &room, &mut found);
    }
    assert!(found.len() > 40, "only {} files found", found.len());
    found
}

fn walk(folder: &Path, room: &str, found: &mut Vec<(PathBuf, String, String)>) {
    for path in read_dir(folder).unwrap().map(|e| e.unwrap().path()) {
        if path.is_dir() {
            walk(&path, room, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push((path.clone(), room.to_owned(), read_to_string(&path).unwrap()));
        }
    }
}
