//! Studies as a user runs them: rows that survive a kill, a full disk and another study; parts; threads; failing cases.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use assert_cmd::Command;
use std::fs::{create_dir_all, read, read_to_string, write};
use std::path::{Path, PathBuf};
use std::process::{Command as Process, Stdio};
use std::time::{Duration, Instant};
use tempfile::{TempDir, tempdir};

/// A folder with a study of so many cases.
fn desk(legs: u32, depths: u32) -> (TempDir, PathBuf) {
    let folder = tempdir().unwrap();
    let study = folder.path().join("legs.toml");
    write(&study, text(legs, depths)).unwrap();
    (folder, study)
}

fn text(legs: u32, depths: u32) -> String {
    let job = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies/jobs/rafter.toml");
    format!(
        "title = \"Legs\"\njob = \"{}\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\"]\n\
         [[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = {legs}\n\
         [[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = {depths}\n",
        job.display()
    )
}

fn weldbow() -> Command {
    Command::cargo_bin("weldbow").unwrap()
}

fn study(file: &Path, out: &Path, more: &[&str]) -> assert_cmd::assert::Assert {
    weldbow().arg("study").arg(file).arg("--out").arg(out).args(more).assert()
}

fn said(assert: &assert_cmd::assert::Assert) -> String {
    let output = assert.get_output();
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}

/// Starts a run and sends it a signal once some rows are there.
#[cfg(unix)]
fn stopped(file: &Path, out: &Path, signal: &str) -> Option<i32> {
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let mut run = Process::new(bin)
        .arg("study")
        .arg(file)
        .arg("--out")
        .arg(out)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let begun = Instant::now();
    let rows = || read_to_string(out.join("legs.csv")).map_or(0, |text| text.lines().count());
    while rows() < 100 && begun.elapsed() < Duration::from_secs(60) {
        std::thread::sleep(Duration::from_millis(2));
    }
    Process::new("kill").arg(signal).arg(run.id().to_string()).status().unwrap();
    run.wait().unwrap().code()
}

#[cfg(unix)]
#[test]
fn a_stopped_or_killed_run_is_finished_without_repeating_or_losing_a_row() {
    let (folder, file) = desk(200, 100);
    let whole = folder.path().join("whole");
    study(&file, &whole, &[]).success();
    for (signal, status) in [("-INT", Some(4)), ("-KILL", None)] {
        let out = folder.path().join(signal);
        assert_eq!(stopped(&file, &out, signal), status, "{signal}");
        let there = read_to_string(out.join("legs.csv")).unwrap().lines().count();
        assert!(there < 20_001, "{signal}: nothing was left to do after {there} lines");
        let refused = said(&study(&file, &out, &[]).code(1));
        assert!(refused.contains("--resume"), "{refused}");
        study(&file, &out, &["--resume"]).success();
        assert!(read(out.join("legs.csv")).unwrap() == read(whole.join("legs.csv")).unwrap(), "{signal}");
    }
}

#[test]
fn half_a_row_is_cut_off_and_computed_again() {
    let (folder, file) = desk(5, 5);
    let (whole, torn) = (folder.path().join("whole"), folder.path().join("torn"));
    study(&file, &whole, &["--json-lines"]).success();
    study(&file, &torn, &["--json-lines"]).success();
    for name in ["legs.csv", "legs.jsonl"] {
        let bytes = read(torn.join(name)).unwrap();
        write(torn.join(name), &bytes[..bytes.len() / 2]).unwrap();
    }
    study(&file, &torn, &["--resume", "--json-lines"]).success();
    for name in ["legs.csv", "legs.jsonl"] {
        assert!(read(torn.join(name)).unwrap() == read(whole.join(name)).unwrap(), "{name}");
    }
}

#[test]
fn any_number_of_threads_and_of_parts_gives_the_same_bytes() {
    let (folder, file) = desk(30, 40);
    let (one, four, parts) = (folder.path().join("1"), folder.path().join("4"), folder.path().join("parts"));
    for (out, threads) in [(&one, "1"), (&four, "4")] {
        let run = weldbow()
            .env("RAYON_NUM_THREADS", threads)
            .arg("study")
            .arg(&file)
            .arg("--out")
            .arg(out)
            .assert();
        run.success();
    }
    for part in ["3/3", "1/3"] {
        study(&file, &parts, &["--shard", part]).success();
    }
    let merge = || weldbow().args(["study", "merge"]).arg(&file).arg("--out").arg(&parts).assert();
    let missing = said(&merge().code(1));
    assert!(missing.contains("missing 2/3"), "{missing}");
    study(&file, &parts, &["--shard", "2/3"]).success();
    merge().success();
    let whole = read(one.join("legs.csv")).unwrap();
    assert!(whole == read(four.join("legs.csv")).unwrap(), "threads");
    assert!(whole == read(parts.join("legs.csv")).unwrap(), "parts");
}

#[test]
fn rows_of_another_study_and_files_of_others_are_never_touched() {
    let (folder, file) = desk(3, 3);
    let out = folder.path().join("out");
    study(&file, &out, &[]).success();
    let before = read(out.join("legs.csv")).unwrap();
    write(&file, text(4, 3)).unwrap();
    for more in [&[][..], &["--resume"]] {
        let refused = said(&study(&file, &out, more).code(1));
        assert!(refused.contains("another study"), "{refused}");
    }
    assert!(before == read(out.join("legs.csv")).unwrap());

    let strange = folder.path().join("strange");
    create_dir_all(&strange).unwrap();
    write(strange.join("legs.csv"), "mine\n").unwrap();
    let refused = said(&study(&file, &strange, &["--resume"]).code(1));
    assert!(refused.contains("was not written by this study"), "{refused}");
    assert_eq!(read_to_string(strange.join("legs.csv")).unwrap(), "mine\n");
}

#[test]
fn a_finished_study_is_shown_again_without_computing() {
    let (folder, file) = desk(3, 3);
    let out = folder.path().join("out");
    study(&file, &out, &[]).success();
    let again = said(&study(&file, &out, &[]).success());
    assert!(again.contains("All 9 rows are there already"), "{again}");
}

#[cfg(unix)]
#[test]
fn a_full_disk_is_named_and_what_was_written_before_is_kept() {
    let (folder, file) = desk(100, 40);
    let out = folder.path().join("out");
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    // a limit on the size of files stands for a full disk: writing stops in the middle of a row
    let script = format!(
        "trap '' XFSZ; ulimit -f 40; exec {} study {} --out {}",
        bin.display(),
        file.display(),
        out.display()
    );
    let full = Process::new("bash").args(["-c", &script]).output().unwrap();
    let text = String::from_utf8_lossy(&full.stderr).into_owned();
    assert_eq!(full.status.code(), Some(1), "{text}");
    assert!(text.contains("legs.csv: cannot be written after") && text.contains("--resume"), "{text}");
    study(&file, &out, &["--resume"]).success();
    let rows = read_to_string(out.join("legs.csv")).unwrap();
    let numbers: Vec<usize> =
        rows.lines().skip(1).map(|l| l.split(',').next().unwrap().parse().unwrap()).collect();
    assert!(numbers.iter().copied().eq(0..4000), "{} rows", numbers.len());
}

#[test]
fn a_case_that_makes_no_job_is_a_row_with_its_reason() {
    let (folder, file) = desk(3, 2);
    write(&file, text(3, 2).replace("from = \"4 mm\"", "from = \"-4 mm\"")).unwrap();
    let out = folder.path().join("out");
    let text = said(&study(&file, &out, &[]).success());
    assert!(text.contains("2 of 6 rows failed") && text.contains("pass[0].leg"), "{text}");
    let rows = read_to_string(out.join("legs.csv")).unwrap();
    let failed: Vec<&str> = rows.lines().skip(1).filter(|l| l.contains("found -4 mm")).collect();
    assert_eq!(failed.len(), 2, "{rows}");
    assert!(failed[0].starts_with("0,-4,700,,,"), "no results beside a reason: {}", failed[0]);
    assert!(!rows.contains("NaN"), "{rows}");
}

#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let (folder, file) = desk(2, 2);
    write(folder.path().join("file"), "").unwrap();
    let text = said(&study(&file, &folder.path().join("file/out"), &[]).code(1));
    assert!(text.contains("the folder cannot be made"), "{text}");
}

#[test]
fn the_starters_run_and_scatter_says_the_same_for_the_same_seed() {
    let folder = tempdir().unwrap();
    for args in [&["new", "job.toml"][..], &["new", "--study", "study.toml"]] {
        weldbow().current_dir(folder.path()).args(args).assert().success();
    }
    weldbow().current_dir(folder.path()).args(["study", "study.toml", "--out", "out"]).assert().success();
    assert!(folder.path().join("out/study.svg").exists() && folder.path().join("out/study.png").exists());
    let scatter = |threads: &str| {
        let mut command = weldbow();
        command.current_dir(folder.path()).env("RAYON_NUM_THREADS", threads);
        let args = ["scatter", "job.toml", "--draws", "20", "--pieces", "20", "--json"];
        command.args(args).assert().success().get_output().stdout.clone()
    };
    let (one, four) = (scatter("1"), scatter("4"));
    assert!(
        one == four && !String::from_utf8_lossy(&one).contains("null"),
        "{}",
        String::from_utf8_lossy(&one)
    );
}

/// One input with a spread of its own: no bias is drawn, so none is spoken of.
#[test]
fn a_study_without_bias_speaks_of_none() {
    let (folder, file) = desk(2, 2);
    let (head, _) = text(2, 2).split_once("[[vary]]").map(|(a, b)| (a.to_owned(), b.to_owned())).unwrap();
    let head = head.replace("\"sweep.max_mm\"]", "\"verdicts.sweep.beyond\"]");
    let drawn = "sample = { count = 100, seed = 1 }\n\
                 [[vary]]\nset = \"pass.leg\"\nnormal = { mean = \"6 mm\", sd = \"0.3 mm\" }\n";
    write(&file, format!("{head}{drawn}")).unwrap();
    let text = said(&study(&file, &folder.path().join("out"), &[]).success());
    assert!(text.contains("without the model's bias") && text.contains("under 3.0 %"), "{text}");
    assert!(!text.contains("model error") && !text.contains("bias and scatter"), "{text}");
}

#[test]
fn the_member_under_a_chart_is_as_long_as_the_units_asked_for_say() {
    let (folder, file) = desk(2, 2);
    let chart = "[[chart]]\nkind = \"lines\"\nx = \"pass.leg\"\ny = \"camber.max_mm\"\nby = \"depth.end\"\nmember = true\n";
    write(&file, format!("{}{chart}", text(2, 2))).unwrap();
    let out = folder.path().join("out");
    let _ = study(&file, &out, &["--units", "us"]).success();
    let drawn = read_to_string(out.join("legs.svg")).unwrap();
    // 9.0 m = 29.53 ft
    assert!(
        drawn.contains("The member, 29 ft 6"),
        "{}",
        drawn.lines().filter(|l| l.contains("The member")).collect::<String>()
    );
}

/// Seventeen results of two cases: a column a case, and no number goes on in the next line. A chance to be out even at the near end of the ± is
/// not told as that of being out.
#[test]
fn a_wide_table_is_turned_and_a_sure_miss_is_no_mere_one() {
    let (folder, file) = desk(2, 1);
    let many: Vec<String> = ["outer", "inner"]
        .iter()
        .flat_map(|f| {
            ["cup_rad", "tilt_rad", "near_toe_mm", "far_toe_mm"].map(|k| format!("\"flanges.{f}.{k}\""))
        })
        .collect();
    let collect =
        format!("collect = [{}, \"camber.max_mm\", \"camber.max_2s_mm\", \"shortening_mm\"", many.join(", "));
    let wide = text(2, 1)
        .replace("collect = [\"camber.max_mm\"", &collect)
        .replace("from = \"700 mm\"\nto = \"800 mm\"\nsteps = 1", "values = [\"700 mm\"]");
    write(&file, wide).unwrap();
    let shown = said(&study(&file, folder.path(), &[]).success());
    assert!(shown.contains("case 1") && shown.contains("case 2"), "{shown}");
    let job = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies/jobs/rafter.toml");
    let drawn = format!(
        "title = \"Out\"\njob = \"{}\"\ncollect = [\"verdicts.sweep.beyond\", \"verdicts.sweep.out\"]\nsample = {{ count = 50, seed = 1, usual = true }}\n",
        job.display()
    );
    let file = folder.path().join("out.toml");
    write(&file, drawn).unwrap();
    let shown = said(&study(&file, folder.path(), &[]).success());
    assert!(shown.contains("sweep, at the near end of its ±"), "{shown}");
}
