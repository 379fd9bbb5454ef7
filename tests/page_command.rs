//! `weldbow page` as a user runs it. What the page does in a browser is tested by `.ci/page`.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

use assert_cmd::Command;
use std::fs::{read, read_to_string, write};
use std::path::Path;

const RAFTER: &str = "studies/jobs/rafter.toml";

fn page(arguments: &[&str]) -> assert_cmd::assert::Assert {
    Command::cargo_bin("weldbow").unwrap().arg("page").args(arguments).assert()
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

#[test]
fn the_same_jobs_give_the_same_file_and_a_page_may_be_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("rafter.html");
    let _ = page(&[RAFTER, "--wps", "W-12", "--out", text(&out)]).success();
    let first = read(&out).unwrap();
    let _ = page(&[RAFTER, "--wps", "W-12", "--out", text(&out)]).success();
    assert_eq!(first, read(&out).unwrap(), "the same input gives the same bytes");
    let html = String::from_utf8(first).unwrap();
    for words in ["Content-Security-Policy", "Measuring plan", "W-12", "Rafter R2, riding arena"] {
        assert!(html.contains(words), "{words} is missing");
    }
    assert!(html.len() < 3_000_000, "{} bytes", html.len());
    for outside in ["src=\"http", "href=\"http", "@import", "url("] {
        assert!(!html.contains(outside), "asks for something from elsewhere: {outside}");
    }
}

#[test]
fn a_file_that_is_no_page_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("letter.html");
    write(&out, "<p>my letter</p>").unwrap();
    let found = page(&[RAFTER, "--out", text(&out)]).failure();
    let said = String::from_utf8(found.get_output().stderr.clone()).unwrap();
    assert!(said.contains("letter.html stands there already"), "{said}");
    assert_eq!(read_to_string(&out).unwrap(), "<p>my letter</p>");
}

#[test]
fn a_bad_job_is_complained_about_and_nothing_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("page.html");
    let bad = folder.path().join("bad.toml");
    write(&bad, read_to_string(RAFTER).unwrap().replace("\"6 mm\"", "\"6\"")).unwrap();
    let found = page(&[text(&bad), "--out", text(&out)]).code(1);
    let said = String::from_utf8(found.get_output().stderr.clone()).unwrap();
    assert!(said.contains("pass 1, leg"), "{said}");
    assert!(!out.exists());
}

#[test]
fn the_course_has_every_lesson_and_needs_no_job() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("course.html");
    let _ = page(&["--course", "--out", text(&out)]).success();
    let html = read_to_string(&out).unwrap();
    for words in ["Why a weld shrinks at all", "Tee first, or tacked whole", "Course beam C1, riding arena"] {
        assert!(html.contains(words), "{words} is missing");
    }
    let _ = page(&["--out", text(&out)]).code(2);
}
