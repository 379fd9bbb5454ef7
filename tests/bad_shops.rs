//! What a user reads when the welding part of a shop file is wrong. Each file in `tests/bad_shops` has its whole message
//! beside it. After a change that is meant: `UPDATE_MESSAGES=1 cargo test --test bad_shops`, then read every one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use assert_cmd::Command;
use std::fs::{read_dir, read_to_string, write};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_shops")
}

#[test]
fn every_bad_shop_gets_the_message_kept_beside_it_and_chooses_nothing() {
    let mut files: Vec<_> = read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ext| ext == "toml"));
    files.sort();
    assert!(files.len() >= 6, "only {} bad shops", files.len());
    let mut changed = Vec::new();
    for path in files {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let run = Command::cargo_bin("weldbow")
            .unwrap()
            .current_dir(folder())
            .args(["choose", "../../studies/jobs/rafter.toml", "--shop", &name])
            .output()
            .unwrap();
        assert_eq!(run.status.code(), Some(1), "{name}");
        assert!(run.stdout.is_empty(), "{name} printed results");
        let got = String::from_utf8(run.stderr).unwrap();
        assert!(got.contains(&format!("{name}:")) && got.contains("wanted: "), "{name}: {got}");
        let kept = path.with_extension("txt");
        if std::env::var_os("UPDATE_MESSAGES").is_some() {
            write(&kept, &got).unwrap();
        }
        if read_to_string(&kept).unwrap_or_default() != got {
            changed.push(format!("{name} now says:\n{got}"));
        }
    }
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}
