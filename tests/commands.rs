//! The program as a user runs it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that meets a surprise fails")]

use assert_cmd::Command;
use serde_json::Value;
use std::fs::{read, read_dir, write};
use std::path::{Path, PathBuf};
use std::process::Output;

fn job(name: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "studies", "jobs", name].iter().collect();
    path.display().to_string()
}

fn weldbow(args: &[&str]) -> Output {
    Command::cargo_bin("weldbow").unwrap().args(args).output().unwrap()
}

fn status(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

#[test]
fn the_report_answers_the_first_questions_of_the_shop() {
    let output = weldbow(&["predict", &job("rafter.toml")]);
    let text = stdout(&output);
    for heading in [
        "Rafter R2",
        "What it will do",
        "Flanges",
        "Is it in tolerance?",
        "Cut to",
        "Web cut to the opposite bow",
        "Flange preset",
        "Pass by pass",
        "What other methods say",
        "Warnings",
        "How far to trust it",
    ] {
        assert!(text.contains(heading), "no {heading:?} in\n{text}");
    }
    assert_eq!((status(&output), stderr(&output).as_str()), (0, ""));
    assert!(!text.contains('\u{1b}'), "colour in a pipe");
    assert!(text.lines().all(|line| line.chars().count() <= 150), "a line is too wide to read");
}

#[test]
fn json_keeps_its_names_and_its_units() {
    let p: Value =
        serde_json::from_slice(&weldbow(&["predict", &job("rafter.toml"), "--json"]).stdout).unwrap();
    for path in [
        "/model/level",
        "/model/e_mpa",
        "/shortening_mm",
        "/camber/max_mm",
        "/camber/at_mm",
        "/camber/toward",
        "/camber/profile/0/1",
        "/sweep/max_mm",
        "/sweep/profile/0/0",
        "/passes/0/seam",
        "/passes/0/side",
        "/passes/0/order",
        "/passes/0/from_mm",
        "/passes/0/to_mm",
        "/passes/0/leg_mm",
        "/passes/0/heat_input_j_per_mm",
        "/passes/0/force_n",
        "/passes/0/arm_y_mm",
        "/passes/0/arm_z_mm",
        "/passes/0/parts/0",
        "/passes/0/force_profile/0/1",
        "/flanges/0/flange",
        "/flanges/0/x_mm",
        "/flanges/0/cup_rad",
        "/flanges/0/tilt_rad",
        "/flanges/0/near_toe_mm",
        "/flanges/0/far_toe_mm",
        "/ripple/0/x_mm",
        "/ripple/0/compression_mpa",
        "/ripple/0/critical_low_mpa",
        "/ripple/0/critical_high_mpa",
        "/ripple/0/verdict",
        "/estimates/0/quantity",
        "/estimates/0/method",
        "/estimates/0/source",
        "/estimates/0/value",
        "/verdicts/0/quantity",
        "/verdicts/0/value",
        "/verdicts/0/limit",
        "/verdicts/0/standard",
        "/verdicts/0/clause",
        "/verdicts/0/verdict",
        "/warnings/0/code",
        "/warnings/0/text",
    ] {
        assert!(p.pointer(path).is_some_and(|v| !v.is_null()), "{path} is missing");
    }
    let us: Value =
        serde_json::from_slice(&weldbow(&["predict", &job("rafter.toml"), "--json", "--units", "us"]).stdout)
            .unwrap();
    assert_eq!(p, us, "--units must not touch JSON");
}

#[test]
fn several_jobs_give_one_table_or_one_array() {
    let files = [job("rafter.toml"), job("column.toml")];
    let text = stdout(&weldbow(&["predict", &files[0], &files[1]]));
    assert!(text.contains("2 members") && text.contains("rafter") && text.contains("column"), "{text}");
    let all: Value =
        serde_json::from_slice(&weldbow(&["predict", &files[0], &files[1], "--json"]).stdout).unwrap();
    assert_eq!(all.as_array().map(Vec::len), Some(2));
    assert!(
        all.pointer("/1/file").and_then(Value::as_str).is_some_and(|f| f.ends_with("column.toml")),
        "{all}"
    );
}

#[test]
fn charts_are_written_as_svg_and_png_and_replaced_whole() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().join("new/charts");
    for _ in 0..2 {
        let output = weldbow(&["predict", &job("light.toml"), "--charts", charts.to_str().unwrap()]);
        assert_eq!(status(&output), 0, "{}", stderr(&output));
    }
    let mut names: Vec<String> =
        read_dir(&charts).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    assert_eq!(names.len(), 10, "{names:?}");
    assert!(read(charts.join("light-bow.png")).unwrap().starts_with(b"\x89PNG"));
    assert!(read(charts.join("light-bow.svg")).unwrap().starts_with(b"<svg"));
}

#[test]
fn a_charts_folder_that_cannot_be_made_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("taken");
    write(&file, "a file").unwrap();
    let output = weldbow(&["predict", &job("light.toml"), "--charts", file.to_str().unwrap()]);
    assert_eq!(status(&output), 1);
    assert!(stderr(&output).contains("taken"), "{}", stderr(&output));
}

#[test]
fn files_that_cannot_be_read_are_named_and_nothing_is_printed() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        write(&path, bytes).unwrap();
        path.display().to_string()
    };
    let empty = at("empty.toml", b"");
    let binary = at("binary.toml", b"title = \"\xff\xfe\"");
    let missing = folder.path().join("missing.toml").display().to_string();
    for file in [&empty, &binary, &missing, &folder.path().display().to_string()] {
        let output = weldbow(&["predict", file]);
        let name = Path::new(file).file_name().unwrap().to_string_lossy().into_owned();
        assert_eq!(status(&output), 1, "{file}");
        assert!(stderr(&output).contains(&name), "{file}: {}", stderr(&output));
        assert!(output.stdout.is_empty(), "{file}: {}", stdout(&output));
    }
}

#[test]
fn a_bad_job_does_not_stop_the_good_one() {
    let folder = tempfile::tempdir().unwrap();
    let bad = folder.path().join("bad.toml");
    write(&bad, "title = 3\n").unwrap();
    let output = weldbow(&["predict", bad.to_str().unwrap(), &job("rafter.toml")]);
    assert_eq!(status(&output), 1);
    assert!(stdout(&output).contains("rafter") && stderr(&output).contains("bad.toml"));
}

#[test]
fn out_of_tolerance_is_a_result_and_a_status_only_when_asked() {
    let file = job("us_frame.toml");
    assert!(stdout(&weldbow(&["predict", &file])).contains("OUT"));
    assert_eq!(status(&weldbow(&["predict", &file])), 0);
    assert_eq!(status(&weldbow(&["predict", &file, "--strict"])), 3);
    assert_eq!(status(&weldbow(&["predict", &job("rafter.toml"), "--strict"])), 0, "near is not out");
    assert_eq!(status(&weldbow(&["predict"])), 2);
    assert_eq!(status(&weldbow(&["foretell"])), 2);
}

#[test]
fn check_explains_without_predicting() {
    let text = stdout(&weldbow(&["check", &job("rafter.toml")]));
    assert!(text.contains("Sections") && text.contains("Passes") && !text.contains("sweep of"), "{text}");
    let json: Value =
        serde_json::from_slice(&weldbow(&["check", &job("haunch.toml"), "--json"]).stdout).unwrap();
    assert!(json.pointer("/stations/0/area_mm2").is_some() && json.pointer("/passes/0/throat_mm").is_some());
}

#[test]
fn a_new_job_predicts_at_once_and_is_never_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    for us in [false, true] {
        let file = folder.path().join(format!("job-{us}.toml")).display().to_string();
        let args: &[&str] = if us { &["new", &file, "--us"] } else { &["new", &file] };
        assert_eq!(status(&weldbow(args)), 0);
        assert_eq!(status(&weldbow(&["predict", &file])), 0);
        assert_eq!(status(&weldbow(args)), 1, "the second time it exists");
    }
}

#[test]
fn schema_completions_and_manual_come_out() {
    let schema: Value = serde_json::from_slice(&weldbow(&["schema"]).stdout).unwrap();
    assert!(schema.pointer("/properties/member").is_some());
    assert!(stdout(&weldbow(&["completions", "bash"])).contains("weldbow"));
    assert!(stdout(&weldbow(&["man"])).contains(".TH"));
}

#[test]
fn threads_change_nothing_and_a_closed_pipe_is_no_error() {
    let files: Vec<String> =
        ["rafter", "column", "haunch", "light"].iter().map(|n| job(&format!("{n}.toml"))).collect();
    let run = |threads: &str| {
        let mut command = Command::cargo_bin("weldbow").unwrap();
        command
            .env("RAYON_NUM_THREADS", threads)
            .arg("predict")
            .arg("--json")
            .args(&files)
            .output()
            .unwrap()
            .stdout
    };
    assert!(run("1") == run("4"), "one thread and four disagree");
    let program = assert_cmd::cargo::cargo_bin("weldbow").display().to_string();
    let line = format!("'{program}' predict '{}' | head -n 1", files[0]);
    let output = Command::new("sh").args(["-c", &line]).output().unwrap();
    assert_eq!(stderr(&output), "");
}
