//! A run that is killed again and again, wherever it stands, and resumed, ends in the bytes of one that was not.

#![cfg(unix)]

use super::{desk, names, says};
use std::fs::{read, write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Kills of one run in the usual tests; `WELDBOW_KILLS` sets another number (the figures of `studies/cluster/README.md` are of 100).
const KILLS: u64 = 3;
/// Rows for each kill: one thread hands over some 2 000 at a time, so that there is always something left to be killed.
const ROWS_A_KILL: u64 = 6_000;

/// Bytes by which the table has to grow before a run is killed: some rows, and up to three waves of them.
const SOME_ROWS: [u64; 4] = [2_000, 122_000, 242_000, 362_000];

const RUN: [&str; 7] = ["study", "legs.toml", "--out", "killed", "--json-lines", "--parquet", "--resume"];

#[test]
fn a_killed_study_ends_in_the_same_bytes() {
    let kills = std::env::var("WELDBOW_KILLS").ok().map_or(KILLS, |text| text.parse().unwrap());
    let folder = desk();
    let text = format!(
        "title = \"Legs\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\n\
         from = \"4 mm\"\nto = \"8 mm\"\nsteps = {}\n[[chart]]\nkind = \"histogram\"\nx = \"sweep.max_mm\"\n",
        ROWS_A_KILL * (kills + 1)
    );
    write(folder.path().join("legs.toml"), text).unwrap();
    let whole = ["study", "legs.toml", "--out", "whole", "--json-lines", "--parquet"];
    says(folder.path(), &whole, 0, &["rows computed"]);
    let begun = Instant::now();
    let (mut killed, mut rows) = (0, Vec::new());
    for kill in 0..kills {
        if run_and_kill(folder.path(), kill) {
            killed += 1;
        }
        rows.push(
            std::fs::read_to_string(folder.path().join("killed/legs.csv")).map_or(0, |t| t.lines().count()),
        );
    }
    says(folder.path(), &RUN, 0, &[]);
    for name in ["legs.csv", "legs.jsonl", "legs.parquet", "legs.svg", "legs.png"] {
        let of = |out: &str| read(folder.path().join(out).join(name)).unwrap();
        assert!(of("killed") == of("whole"), "{name} after kills at rows {rows:?}");
    }
    says(folder.path(), &["study", "verify", "killed"], 0, &["all there"]);
    let left = names(&folder.path().join("killed"));
    println!(
        "{killed} of {kills} kills met a run, at rows {rows:?}; {:.1} s; {left:?}",
        begun.elapsed().as_secs_f64()
    );
    assert!(!left.iter().any(|name| name.starts_with('.')), "what kills left: {left:?}");
    assert!(killed * 2 > kills, "most kills came too late to mean anything: {killed} of {kills}");
}

/// Starts the run anew and kills it: some at once, some after a row or many. Whether it still ran.
fn run_and_kill(folder: &Path, kill: u64) -> bool {
    let there = || std::fs::metadata(folder.join("killed/legs.csv")).map_or(0, |m| m.len());
    let before = there();
    let mut run = Command::new(assert_cmd::cargo::cargo_bin("weldbow"))
        .current_dir(folder)
        .env("RAYON_NUM_THREADS", "1")
        .args(RUN)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let begun = Instant::now();
    // every seventh while it opens its files, the others once it has written, a little later each time
    let goes_on =
        |run: &mut Child| run.try_wait().unwrap().is_none() && begun.elapsed() < Duration::from_secs(60);
    while kill % 7 != 6 && there() < before + SOME_ROWS[kill as usize % 4] && goes_on(&mut run) {
        std::thread::sleep(Duration::from_micros(200));
    }
    std::thread::sleep(Duration::from_micros(700 * (kill % 13)));
    let runs = run.try_wait().unwrap().is_none();
    run.kill().unwrap();
    run.wait().unwrap();
    runs
}
