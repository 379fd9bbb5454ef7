//! The rooms of the house: which may use which, how long a file may be, and what the engine must not do.
//!
//! Borders between crates are held by the compiler; this holds those inside the engine, and what no border can hold. Files are
//! parsed, not searched: the planted offences at the end show what is seen.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

mod circles;
mod dependencies;
mod examples;
mod uses;

use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fs::{read_dir, read_to_string};
use std::path::{Path, PathBuf};
use std::sync::{LazyLock, OnceLock};
use uses::{Used, uses};

/// Rooms of the engine, top to bottom: a room may use itself and what stands below it.
const ENGINE: &[&str] = &[
    "order",
    "study",
    "shop",
    "choose",
    "straighten",
    "verification",
    "job",
    "scatter",
    "prediction",
    "strength",
    "tolerance",
    "angular",
    "shrinkage",
    "strip",
    "moving_arc",
    "joint_solver",
    "bow",
    "welding",
    "member",
    "steel",
    "sources",
    "input",
    "units",
    "numerics",
];
/// Longest file, tests included.
const LINES: usize = 400;
/// What only the command line may use, and only the reading of files beside it.
const OUTWARD: [&[&str]; 5] =
    [&["std", "fs"], &["std", "io"], &["std", "env"], &["std", "process"], &["std", "net"]];
/// Macros that print.
const PRINTS: [&str; 5] = ["println", "eprintln", "print", "eprint", "dbg"];

#[test]
fn rooms_use_only_what_stands_below_them() {
    let mut wrong = Vec::new();
    for source in all_used().iter().filter(|s| s.krate == "engine" && !s.room.is_empty()) {
        for used in source.used() {
            wrong.extend(upward(&source.room, used).map(|room| source.says(used, &format!("uses {room}"))));
        }
    }
    assert!(wrong.is_empty(), "forbidden arrows:\n{}", wrong.join("\n"));
}

#[test]
fn every_room_of_the_engine_is_in_the_list() {
    let rooms: BTreeSet<&str> = sources()
        .iter()
        .filter(|s| s.krate == "engine")
        .map(|s| s.room.as_str())
        .filter(|r| !r.is_empty())
        .collect();
    let listed: BTreeSet<&str> = ENGINE.iter().copied().collect();
    assert_eq!(rooms, listed, "rooms on disk, rooms in the list");
}

#[test]
fn files_stay_short() {
    let lines = |s: &Source| s.text.lines().count();
    let long: Vec<String> = sources()
        .iter()
        .filter(|s| lines(s) > LINES)
        .map(|s| format!("{}: {} lines", s.path.display(), lines(s)))
        .collect();
    assert!(long.is_empty(), "longer than {LINES} lines:\n{}", long.join("\n"));
}

#[test]
fn engine_and_charts_touch_no_files_and_print_nothing() {
    let mut wrong = Vec::new();
    for source in all_used().iter().filter(|s| ["engine", "chart"].contains(&s.krate.as_str())) {
        wrong
            .extend(source.used().iter().filter(|u| outward(u)).map(|u| source.says(u, &u.names.join("::"))));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Every hole that searching the text left open, planted.
#[test]
fn planted_offences_are_found() {
    let named = "use crate::prediction::Job;";
    let grouped = "use crate::{prediction::Job, welding};";
    let behind_tests = "#[cfg(test)]\nmod tests {}\nfn f() { let _ = crate::prediction::predict; }";
    let in_a_macro = "fn f() { let _ = format!(\"{:?}\", crate::prediction::predict(job)); }";
    for planted in [named, grouped, behind_tests, in_a_macro] {
        let seen = uses(planted).unwrap().iter().any(|u| upward("units", u).is_some());
        assert!(seen, "units uses prediction and nobody saw it:\n{planted}");
    }
    let reads = "#[cfg(test)]\nmod tests {}\nfn f() { let _ = std::fs::read(\"x\"); }";
    let imports = "use std::{fmt, fs};";
    let prints = "fn f() { println!(\"x\"); }";
    let in_an_argument = "fn f() { let _ = vec![std::env::var(\"HOME\")]; }";
    for planted in [reads, imports, prints, in_an_argument] {
        assert!(
            uses(planted).unwrap().iter().any(outward),
            "the engine reaches out and nobody saw it:\n{planted}"
        );
    }
    let only_in_tests = "#[cfg(test)]\nmod tests { use crate::prediction::Job; fn f() { println!(\"x\"); } }";
    assert!(uses(only_in_tests).unwrap().iter().all(|u| upward("units", u).is_none() && !outward(u)));
}

/// The room above `room` that a path names, if it does.
fn upward<'a>(room: &str, used: &'a Used) -> Option<&'a str> {
    let rank = |name: &str| ENGINE.iter().position(|r| *r == name);
    let named = used.names.get(1).filter(|_| used.names[0] == "crate")?;
    (rank(named)? < rank(room)?).then_some(named)
}

fn outward(used: &Used) -> bool {
    let prints = used.names.len() == 1 && PRINTS.contains(&used.names[0].as_str());
    prints || OUTWARD.iter().any(|names| used.begins_with(names))
}

/// One source file.
struct Source {
    path: PathBuf,
    krate: String,
    /// Folder in its crate; empty for files beside `lib.rs`.
    room: String,
    text: String,
    /// What it uses, once it was asked.
    used: OnceLock<Vec<Used>>,
}

impl Source {
    /// What it uses; nothing if its parent takes it for tests alone.
    fn used(&self) -> &[Used] {
        self.used.get_or_init(|| {
            if self.for_tests_alone() {
                return Vec::new();
            }
            uses(&self.text).unwrap_or_else(|e| panic!("{}: {e}", self.path.display()))
        })
    }

    fn says(&self, used: &Used, what: &str) -> String {
        format!("{}:{}: {what}", self.path.display(), used.line)
    }

    /// Whether the file that declares it does so under `#[cfg(test)]`.
    fn for_tests_alone(&self) -> bool {
        static TESTS: LazyLock<BTreeSet<PathBuf>> =
            LazyLock::new(|| sources().iter().flat_map(modules_for_tests).collect());
        TESTS.contains(&self.path)
    }
}

/// Files of the modules that a file declares for tests alone.
fn modules_for_tests(source: &Source) -> Vec<PathBuf> {
    let folder = source.path.parent().unwrap();
    let names = source.text.split("#[cfg(test)]\nmod ").skip(1).filter_map(|rest| rest.split_once(';'));
    names.map(|(name, _)| folder.join(format!("{name}.rs"))).collect()
}

/// Every source file of the workspace, read and parsed once for all tests.
fn sources() -> &'static [Source] {
    static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(read_sources);
    &SOURCES
}

/// What all of them use, worked out on all cores.
fn all_used() -> &'static [Source] {
    sources().par_iter().for_each(|source| {
        source.used();
    });
    sources()
}

fn read_sources() -> Vec<Source> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    for entry in read_dir(&src).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_dir()) {
        let krate = entry.file_name().unwrap().to_string_lossy().into_owned();
        walk(&entry, &krate, "", &mut found);
    }
    assert!(found.len() > 300, "only {} files found", found.len());
    found
}

fn walk(folder: &Path, krate: &str, room: &str, found: &mut Vec<Source>) {
    for path in read_dir(folder).unwrap().map(|e| e.unwrap().path()) {
        if path.is_dir() {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let inside = if room.is_empty() { &name } else { room };
            if name != "examples" {
                walk(&path, krate, inside, found);
            }
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("build.rs") {
            let text = read_to_string(&path).unwrap();
            let (krate, room) = (krate.to_owned(), room.to_owned());
            found.push(Source { path, krate, room, text, used: OnceLock::new() });
        }
    }
}
