//! `weldbow section` as a user and a script meet it: what it prints, writes, refuses and ends with.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::asked::{self, command, demo, ends_with, printed, weldbow};
use serde_json::{Value, from_slice};
use std::fs::{read_dir, write};
use std::process::Output;
use tempfile::tempdir;

fn section(arguments: &[&str]) -> Output {
    weldbow(&[&["section"][..], arguments].concat())
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[track_caller]
fn done(output: &Output) -> String {
    ends_with(output, 0);
    printed(output)
}

#[track_caller]
fn json(arguments: &[&str]) -> Value {
    asked::json(&[&["section"][..], arguments].concat())
}

/// A short member with one flange size, for changes by `replace`.
const JOB: &str = r#"
title = "Test piece, riding arena"
[member]
length = "4 m"
steel = "S355"
depth = [["0 m", "300 mm"], ["4 m", "300 mm"]]
web = [{ thickness = "6 mm" }]
outer_flange = [{ width = "100 mm", thickness = "8 mm" }]
inner_flange = [{ width = "100 mm", thickness = "8 mm" }]
[[pass]]
seam = "inner"
side = "near"
leg = "5 mm"
heat_input = "0.7 kJ/mm"
from = "1 m"
[[pass]]
seam = "inner"
side = "far"
leg = "5 mm"
heat_input = "0.7 kJ/mm"
order = 2
"#;
const COARSE: [&str; 3] = ["--mesh", "coarse", "--quick"];

/// What the command does with a changed job.
fn changed(from: &str, to: &str, arguments: &[&str]) -> Output {
    let folder = tempdir().unwrap();
    let file = folder.path().join("piece.toml");
    assert!(JOB.contains(from), "{from} is not in the job");
    write(&file, JOB.replace(from, to)).unwrap();
    section(&[&[file.to_str().unwrap()], arguments].concat())
}

#[test]
fn one_joint_is_reported_in_the_order_its_questions_come() {
    let shown = done(&section(&[&demo("column"), "--at", "2 m", "--seam", "inner", "--mesh", "coarse"]));
    let sections = [
        "Column C1, riding arena\ninner seam at 2.00 m from the start, solved from first principles",
        "\nWhat was solved",
        "flange 200 mm × 12 mm, web 6 mm (150 mm of its height)",
        "held until the weld is solid, free lengthwise, coarse mesh",
        "when all is cold",
        "\nWhat it comes to",
        "arc two thirds … four thirds",
        "never held",
        "\nResidual stress",
        "ECCS pattern of welded I-sections",
        "\nWhat it melts",
        "no measured penetration, no dilution",
        "\nWhat it took",
        "runs of the bracket together",
        "\nHow far to trust it",
        "licensed engineers",
    ];
    let places: Vec<_> = sections.iter().map(|s| shown.find(s)).collect();
    assert!(places.iter().all(Option::is_some), "{places:?} in:\n{shown}");
    assert!(!shown.contains("NaN") && !shown.contains("not known"), "{shown}");
}

#[test]
fn json_holds_fixed_names_in_engine_units_and_is_the_same_on_one_thread_and_on_two() {
    let job = demo("us_frame");
    let arguments = ["section", &job, "--at", "20 ft", "--seam", "inner", "--mesh", "coarse", "--json"];
    let on = |threads: &str, units: &str| {
        let mut command = command();
        let output =
            command.env("RAYON_NUM_THREADS", threads).args(arguments).args(["--units", units]).output();
        let output = output.unwrap();
        done(&output);
        output.stdout
    };
    let (one, two) = (on("1", "us"), on("2", "si"));
    assert!(one == two, "threads or units change the JSON");
    let whole: Value = from_slice(&one).unwrap();
    assert_eq!(whole["model"]["level"], "section");
    let case = &whole["cases"][0];
    assert!((case["x_mm"].as_f64().unwrap() - 6096.0).abs() < 1e-9);
    assert_eq!(
        (&case["seam"], &case["hold_c"], &case["lengthwise"]),
        (&"inner".into(), &1400.0.into(), &"free".into())
    );
    assert_eq!(case["joint"]["root"], "tied");
    let passes = case["passes"].as_array().unwrap();
    assert_eq!(passes.len(), 2, "the knee is welded on both sides");
    for pass in passes {
        for level in ["section", "formula"] {
            for name in ["force_n", "across_mm", "up_mm", "cup_rad", "tilt_rad", "narrowing_mm"] {
                assert!(pass[level][name].is_number(), "{level}.{name}: {pass}");
            }
        }
        for (name, of) in
            [("force", "force_n"), ("cup", "cup_rad"), ("tilt", "tilt_rad"), ("narrowing", "narrowing_mm")]
        {
            let value = |level: &str| pass[level][of].as_f64().unwrap();
            let want = value("formula") / value("section") - 1.0;
            let got = pass["difference"][name].as_f64().unwrap();
            assert!((got - want).abs() < 1e-12, "{name}: {got} for {want}");
        }
        assert!(pass["energy_balance"].as_f64().unwrap().abs() < 1e-6);
        assert!(pass["melted"]["flange_share"].as_f64().unwrap() < 1.0);
    }
    let holds: Vec<Value> = case["bracket"].as_array().unwrap().iter().map(|b| b["hold_c"].clone()).collect();
    assert_eq!(holds, [1400.0.into(), 1400.0.into(), Value::Null]);
    let balance = case["residual"]["out_of_balance"].as_f64().unwrap();
    assert!(balance < 1e-6, "stress of a free section sums to nothing: {balance}");
    assert!(!text(&one).contains("time_s") && !text(&one).contains("NaN"), "time is no result");
}

#[test]
fn places_a_step_apart_come_in_order_and_equal_joints_are_solved_once() {
    let job = demo("rafter");
    let arguments = [&job, "--every", "2m", "--seam", "inner", "--mesh", "coarse", "--quick"];
    let whole = json(&[&arguments[..], &["--json"]].concat());
    let cases = whole["cases"].as_array().unwrap();
    let places: Vec<f64> = cases.iter().map(|c| c["x_mm"].as_f64().unwrap()).collect();
    assert_eq!(places, [2000.0, 4000.0, 6000.0, 8000.0]);
    let force = |k: usize| &cases[k]["passes"][0]["section"]["force_n"];
    assert_eq!(force(0), force(1), "one flange size up to 5 m");
    assert_ne!(force(1), force(2), "another beyond");
    let shown = done(&section(&arguments));
    for part in
        ["4 joints after their last pass", "2 of them differ; 2 runs", "as at 2.00 m", "weldbow section"]
    {
        assert!(shown.contains(part), "{part:?} is not in:\n{shown}");
    }
}

#[test]
fn a_seam_that_was_not_named_may_be_bare_and_mid_length_is_the_place_that_was_not() {
    let output = changed("order = 2", "order = 2", &[&COARSE[..], &["--json"]].concat());
    done(&output);
    let whole: Value = from_slice(&output.stdout).unwrap();
    let cases = whole["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 1, "the outer seam has no weld");
    assert!((cases[0]["x_mm"].as_f64().unwrap() - 2000.0).abs() < 1e-9);
    assert_eq!(cases[0]["bracket"].as_array().unwrap().len(), 0);
}

#[test]
fn charts_of_a_joint_are_written_whole_and_named_after_it() {
    let folder = tempdir().unwrap();
    let charts = folder.path().join("new/deep");
    let shown = done(&section(&[
        &demo("us_frame"),
        "--at",
        "20 ft",
        "--seam",
        "inner",
        "--mesh",
        "coarse",
        "--quick",
        "--times",
        "3s,30s",
        "--charts",
        charts.to_str().unwrap(),
    ]));
    assert!(shown.contains("5 charts (SVG and PNG) in"), "{shown}");
    let mut names: Vec<String> =
        read_dir(&charts).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    let mut want: Vec<String> = ["mesh", "peak", "shape", "stress", "temperatures"]
        .iter()
        .flat_map(|name| ["png", "svg"].map(|ending| format!("us_frame-inner-6096-{name}.{ending}")))
        .collect();
    want.sort();
    assert_eq!(names, want);
    let read =
        |name: &str| std::fs::read_to_string(charts.join(format!("us_frame-inner-6096-{name}.svg"))).unwrap();
    assert!(read("peak").contains("Highest, °F") && read("stress").contains("Stress, ksi"));
    assert!(read("temperatures").contains(">3 s<") && read("temperatures").contains(">30 s<"));
}

/// A short length in few slices: what CI can bear.
#[test]
fn an_arc_that_travels_is_told_three_ways_beside_each_other_drawn_and_kept_instant_by_instant() {
    let folder = tempdir().unwrap();
    let charts = folder.path().join("arc");
    let asked = ["--seam", "inner", "--moving", "--length", "75mm", "--slices", "3", "--mesh", "coarse"];
    let output =
        changed("order = 2", "order = 1", &[&asked[..], &["--charts", charts.to_str().unwrap()]].concat());
    let shown = done(&output);
    for words in [
        "three ways to calculate it",
        "travelling arc",
        "3 charts (SVG and PNG) in",
        "Mises",
        "Above yield along the member",
    ] {
        assert!(shown.contains(words), "{words}:\n{shown}");
    }
    for name in ["frames", "turning", "along"] {
        let file = charts.join(format!("piece-inner-2000-moving-{name}.svg"));
        assert!(std::fs::read_to_string(&file).unwrap().contains("free"), "{name}");
    }
    let output = changed("order = 2", "order = 1", &[&asked[..], &["--json"]].concat());
    done(&output);
    let whole: Value = from_slice(&output.stdout).unwrap();
    let pass = &whole["moving"]["outcome"]["passes"][0];
    let frames = pass["frames"].as_array().unwrap();
    let across = whole["moving"]["outcome"]["across_mm"].as_array().unwrap();
    assert_eq!(frames[0]["slices"].as_array().unwrap().len(), 3);
    assert_eq!(frames[0]["slices"][0]["face_c"].as_array().unwrap().len(), across.len());
    assert!(
        (across[0].as_f64().unwrap() + 50.0).abs() < 1e-9,
        "the far edge of a flange 100 mm wide: {across:?}"
    );
    let last = &frames[frames.len() - 1]["slices"][1];
    let cup = (last["near_rad"].as_f64().unwrap() + last["far_rad"].as_f64().unwrap()) / 2.0;
    for by in [&pass["along"][1]["shape"]["cup_rad"], &whole["beside"]["arc"][0]["cup_rad"]] {
        assert!((by.as_f64().unwrap() - cup).abs() < 1e-12, "{by} and {cup}");
    }
    let slice = whole["beside"]["slice"][0]["cup_rad"].as_f64().unwrap();
    assert!((0.5..2.0).contains(&(cup / slice)), "arc {cup}, slice {slice}");
    assert!(pass["energy_balance"].as_f64().unwrap().abs() < 1e-5);
    let heats: Vec<f64> =
        frames.iter().filter_map(|frame| frame["slices"][1]["hottest_c"].as_f64()).collect();
    assert!(heats.iter().copied().fold(0.0, f64::max) > 800.0 && heats[heats.len() - 1] < 50.0, "{heats:?}");
}

#[test]
fn both_sides_at_once_are_one_layer_and_a_short_wait_is_a_warm_second() {
    let last = |output: &Output| -> Value {
        done(output);
        let whole: Value = from_slice(&output.stdout).unwrap();
        whole["cases"][0]["passes"].as_array().unwrap().last().unwrap().clone()
    };
    let arguments = [&["--at", "2m", "--json"], &COARSE[..]].concat();
    let once = last(&changed("order = 2", "", &arguments));
    assert_eq!(once["beads"].as_array().unwrap().len(), 2);
    let soon = last(&changed("order = 2", "order = 2\n[[order]]\nnumber = 2\nwait = \"20 s\"", &arguments));
    assert!((soon["wait_s"].as_f64().unwrap() - 20.0).abs() < 1e-9);
    let cold = last(&changed("order = 2", "order = 2", &arguments));
    assert_eq!(cold["wait_s"], Value::Null);
    let force = |of: &Value| of["section"]["force_n"].as_f64().unwrap();
    assert!(force(&once) > force(&soon) && force(&soon) > force(&cold), "warm sections shrink more");
}

#[test]
fn heat_that_melts_a_plate_through_is_warned_of() {
    let arguments = [&["--at", "2m"], &COARSE[..]].concat();
    let shown = done(&changed("0.7 kJ/mm", "2.4 kJ/mm", &arguments));
    assert!(shown.contains("MELTS THROUGH") && shown.contains("Order 1 melts a plate through"), "{shown}");
    let usual = done(&changed("0.7 kJ/mm", "0.7 kJ/mm", &arguments));
    assert!(!usual.contains("MELTS THROUGH") && !usual.contains("\nCautions"), "{usual}");
}

/// Changed job, arguments, exit status, what is said.
const REFUSED: [(&str, &str, &[&str], i32, &str); 21] = [
    ("", "", &["--at", "4.001m"], 2, "piece.toml: 4.001 m is off the member, which runs from 0 to 4.000 m"),
    ("", "", &["--at", "-1m"], 2, "-1.000 m is off the member, which runs from 0 to 4.000 m"),
    (
        "",
        "",
        &["--at", "2m", "--seam", "outer"],
        1,
        "no pass of the outer seam runs over 2.000 m; it has none at all",
    ),
    (
        "side = \"far\"",
        "side = \"far\"\nfrom = \"3 m\"",
        &["--at", "0.5m", "--seam", "inner"],
        1,
        "no pass of the inner seam runs over 0.500 m; it is welded from 1.000 to 4.000 m and from 3.000 to 4.000 m",
    ),
    (
        "side = \"far\"",
        "side = \"near\"",
        &["--at", "2m"],
        1,
        "the near side of the inner seam is welded in step 1 and again in step 2 at 2.000 m",
    ),
    (
        "order = 2",
        "order = 2\n[[order]]\nnumber = 2\nwait = \"0.3 s\"",
        &["--at", "2m"],
        1,
        "wanted: a wait of 1 s to a week",
    ),
    (
        "order = 2",
        "order = 2\n[[order]]\nnumber = 2\nwait = \"0 s\"",
        &["--at", "2m"],
        1,
        "wanted: a wait above zero",
    ),
    (
        "order = 2",
        "order = 2\n[[order]]\nnumber = 2\nwait = \"-5 s\"",
        &["--at", "2m"],
        1,
        "wanted: a wait above zero",
    ),
    (
        "web = [{ thickness = \"6 mm\"",
        "web = [{ thickness = \"92 mm\"",
        &["--at", "2m", "--seam", "inner"],
        1,
        "found a leg of 5 mm where 4 mm of flange stand beside the web",
    ),
    ("\"0.7 kJ/mm\"", "\"0 kJ/mm\"", &["--at", "2m"], 1, "wanted: a net heat input above zero"),
    ("", "", &["--at", "2m", "--mesh", "400"], 1, "unknowns; at most 1000000 are allowed"),
    (
        "",
        "",
        &["--mesh", "standart"],
        2,
        "did you mean `standard`? Known here: `coarse`, `standard` or `fine`",
    ),
    ("", "", &["--mesh", "3"], 2, "3 elements along a leg cannot be made; an even number from 2 to 400 can"),
    ("", "", &["--hold", "nine"], 2, "did you mean `none`?"),
    ("", "", &["--hold", "2000C"], 2, "it must lie between 30 and 1400 °C, or be `solid` or `none`"),
    ("", "", &["--lengthwise", "fre"], 2, "'free'"),
    ("", "", &["--root", "tide"], 2, "'tied'"),
    ("", "", &["--seam", "iner"], 2, "'inner'"),
    ("", "", &["--times", "5"], 2, "`5` has no unit"),
    ("", "", &["--at", "2"], 2, "`2` has no unit"),
    ("", "", &["--every", "0m"], 2, "a step must be longer than nought"),
];

#[test]
fn what_cannot_be_solved_is_refused_with_its_reason_and_nothing_is_written() {
    for (from, to, arguments, status, said) in REFUSED {
        let folder = tempdir().unwrap();
        let charts = folder.path().join("charts");
        let with = [arguments, &["--quick"]].concat();
        let output = changed(from, to, &with);
        let complaint = text(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{arguments:?}: {complaint}");
        assert!(complaint.contains(said), "{arguments:?}: {said:?} is not in:\n{complaint}");
        assert!(output.stdout.is_empty(), "{arguments:?} printed {}", text(&output.stdout));
        assert!(!charts.exists());
    }
}

#[test]
fn one_bad_place_does_not_stop_the_others() {
    let output =
        changed("order = 2", "order = 2", &[&["--at", "2m", "--at", "9m", "--json"], &COARSE[..]].concat());
    assert_eq!(output.status.code(), Some(2), "a place off the member is a wrong option");
    let whole: Value = from_slice(&output.stdout).unwrap();
    assert_eq!(whole["cases"].as_array().unwrap().len(), 1);
    assert_eq!(text(&output.stderr).matches("9.000 m is off the member").count(), 1, "said once");
}
