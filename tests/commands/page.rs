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
    // as the table of limits has it: 1.3 ± 8.2 mm of the 12.9 mm that 9 m over 700 allow
    let (_, twist) = html.split_once("twist: turn against the start end").unwrap();
    let row = twist.split("</tr>").next().unwrap();
    assert!(row.contains("1.3 ± 8.2 mm") && row.contains("12.9 mm"), "{row}");
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

#[test]
fn a_record_of_measured_pieces_gets_a_room_and_a_bad_one_is_complained_about() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("page.html");
    let _ = page(&[RAFTER, "--record", "studies/shop/record.csv", "--out", text(&out)]).success();
    let html = read_to_string(&out).unwrap();
    for words in
        ["What this shop's pieces say", "Before and after", "In the order of welding", "with your pieces"]
    {
        assert!(html.contains(words) || html.contains(&words.replace('\'', "&#39;")), "{words} is missing");
    }
    assert!(html.len() < 3_000_000, "{} bytes", html.len());
    let none = folder.path().join("none.csv");
    write(&none, "mark,job\n").unwrap();
    let other = folder.path().join("other.html");
    let found = page(&[RAFTER, "--record", text(&none), "--out", text(&other)]).code(1);
    assert!(!found.get_output().stderr.is_empty() && !other.exists());
}

#[test]
fn a_job_outside_the_model_gets_reasons_in_place_of_numbers() {
    let folder = tempfile::tempdir().unwrap();
    let (job, out) = (folder.path().join("hot.toml"), folder.path().join("hot.html"));
    // a heat that warms the whole section until it yields all over
    write(
        &job,
        read_to_string(RAFTER).unwrap().replace("\nprocedure = \"twin-6\"", "\nheat_input = \"6 kJ/mm\""),
    )
    .unwrap();
    let _ = page(&[text(&job), "--out", text(&out)]).success();
    let html = read_to_string(&out).unwrap();
    assert!(html.contains("Outside what this model covers: no numbers can be given"));
    assert!(!html.contains("Measuring plan"), "nothing to measure against");
}

/// The report names the procedures of the job's passes, unless the command line names one; beside each pass they stand in any case.
#[test]
fn a_report_names_the_welding_procedures_of_its_passes() {
    let folder = tempfile::tempdir().unwrap();
    let (job, out) = (folder.path().join("numbered.toml"), folder.path().join("numbered.html"));
    let old = read_to_string("studies/jobs/wire_rafter.toml").unwrap();
    write(&job, old.replace("[procedure.twin]", "[procedure.twin]\nwps = \"W-31<b>\"")).unwrap();
    let _ = page(&[text(&job), "--out", text(&out)]).success();
    let html = read_to_string(&out).unwrap();
    let row = "Welding procedure (WPS)</dt><dd>W-31&lt;b&gt;</dd>";
    assert!(html.contains(row) && html.contains("<td>W-31&lt;b&gt;</td>"), "not named");
    let _ = page(&[text(&job), "--wps", "W-32", "--force", "--out", text(&out)]).success();
    let html = read_to_string(&out).unwrap();
    assert!(html.contains("Welding procedure (WPS)</dt><dd>W-32</dd>"), "the command line does not count");
}
