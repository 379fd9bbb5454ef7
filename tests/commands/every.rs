//! The program as a user and a script meet it: what each command prints, writes and ends with.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::asked::{command, complained, demo, ends_with, json, printed, weldbow};
use assert_cmd::Command;
use serde_json::{Value, from_slice};
use std::fs::{create_dir, read, read_dir, write};
use std::path::{Path, PathBuf};
use tempfile::{TempDir, tempdir};

#[track_caller]
fn has_all(text: &str, wanted: &[&str]) {
    for part in wanted {
        assert!(text.contains(part), "{part:?} is not in:\n{text}");
    }
}

#[test]
fn predict_answers_the_questions_of_a_shop_in_order() {
    let output = weldbow(&["predict", &demo("rafter")]);
    ends_with(&output, 0);
    let text = printed(&output);
    let sections = [
        "Rafter R2, riding arena",
        "\nIs it in tolerance?",
        "\n Signs:",
        "\nWhat it will do",
        "\nWhat to watch",
        "\nCut to",
        "\nFlange preset",
        "\nHow far to trust it",
    ];
    let places: Vec<_> = sections.iter().map(|s| text.find(s)).collect();
    assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{places:?} in:\n{text}");
    let lines = text.lines().count();
    // one screen; `terminal/screen.rs` holds every demo to it
    assert!(lines <= 60, "{lines} lines:\n{text}");
    assert_eq!(text.matches("Signs:").count(), 1, "{text}");
    for more in
        ["Pass by pass", "What other methods say", "Where the limits stand", "What predictions rest on"]
    {
        assert!(!text.contains(more), "{more} in:\n{text}");
    }
    assert_eq!(complained(&output), "");
    let asked = weldbow(&["predict", "--methods", "--constants", &demo("rafter")]);
    has_all(
        &printed(&asked),
        &["Pass by pass", "Where the limits stand", "What other methods say", "What predictions rest on"],
    );
}

/// What a tape reads of a piece that lies on its ends with one side up, and is warmer on one side: by hand α·ΔT·L²/8h of warmth.
#[test]
fn what_a_tape_reads_of_a_lying_piece_stands_beside_what_the_piece_is() {
    // `--piece` is the older word for it
    let notes = ["--note", "up: near", "--piece", "warmer: inner by 5 K"];
    let all = json(&[&["predict", "--json", &demo("rafter")][..], &notes].concat());
    let number = |path: &str| along(&all, path).unwrap()[0].as_f64().unwrap();
    let (camber, sweep) = ("reading.camber.", "reading.sweep.");
    let warm = number(&format!("{camber}warmth_mm"));
    // 12e-6·5·9000²/8 over a depth of 400 to 770 mm
    assert!((0.79..1.5).contains(&warm), "{warm}");
    let sag = number(&format!("{sweep}weight_mm"));
    assert!((-30.0..-10.0).contains(&sag), "lying flat it hangs by centimetres: {sag}");
    let (own, read) = (number(&format!("{sweep}true_mm")), number(&format!("{sweep}read_mm")));
    assert!((read - own - sag).abs() < 0.2, "{own} and {sag} read as {read}");
    let text = printed(&weldbow(&[&["predict", &demo("rafter")][..], &notes].concat()));
    assert!(text.contains("What a tape reads as it lies"), "{text}");
    let wrong = weldbow(&["predict", &demo("rafter"), "--note", "up: sideways"]);
    assert_eq!(wrong.status.code(), Some(1), "{}", complained(&wrong));
}

#[test]
fn a_leg_that_its_deposit_does_not_fill_is_said_first_and_once() {
    let folder = tempdir().unwrap();
    let job = std::fs::read_to_string(demo("rafter")).unwrap().replace("leg = \"6 mm\"", "leg = \"9 mm\"");
    let file = folder.path().join("thick.toml");
    write(&file, job).unwrap();
    let text = printed(&weldbow(&["predict", &file.display().to_string()]));
    let at = |words: &str| text.find(words).unwrap_or_else(|| panic!("{words:?} is not in:\n{text}"));
    assert!(at("Look at the input first") < at("Passes 1 (outer seam, near side), 2 (inner seam"), "{text}");
    assert!(at("each has a leg of 9 mm") < at("Is it in tolerance?"), "{text}");
    assert_eq!(text.matches("has a leg of 9 mm").count(), 1, "{text}");
}

#[test]
fn no_colour_goes_into_a_pipe_with_or_without_no_color() {
    let plain = weldbow(&["predict", &demo("rafter")]);
    let forbidden = command().env("NO_COLOR", "1").args(["predict", &demo("rafter")]).output().unwrap();
    assert!(!plain.stdout.contains(&0x1b), "an escape code in:\n{}", printed(&plain));
    assert_eq!(printed(&plain), printed(&forbidden));
    let bad = weldbow(&["predict", "none.toml"]);
    assert!(!bad.stderr.contains(&0x1b), "an escape code in:\n{}", complained(&bad));
}

#[test]
fn units_change_the_tables() {
    let text = |units| printed(&weldbow(&["predict", "--units", units, &demo("rafter")]));
    let (si, us) = (text("si"), text("us"));
    has_all(&si, &["9.00 m long", " mm"]);
    has_all(&us, &["29 ft 6 in long", "ksi", "predicted, in"]);
    assert!(!us.contains(" mm"), "millimetres in:\n{us}");
}

/// Field by field what programs outside rely on; `[]` is every element of a list.
const FIXED: [&str; 73] = [
    "model.level",
    "model.e_mpa",
    "shortening_mm",
    "camber.max_mm",
    "camber.at_mm",
    "camber.toward",
    "camber.profile[][]",
    "sweep.max_mm",
    "sweep.at_mm",
    "sweep.toward",
    "sweep.profile[][]",
    "passes[].seam",
    "passes[].side",
    "passes[].order",
    "passes[].from_mm",
    "passes[].to_mm",
    "passes[].leg_mm",
    "passes[].heat_input_j_per_mm",
    "passes[].force_n",
    "passes[].arm_y_mm",
    "passes[].arm_z_mm",
    "passes[].parts[]",
    "flanges[].flange",
    "flanges[].x_mm",
    "flanges[].cup_rad",
    "flanges[].tilt_rad",
    "flanges[].near_toe_mm",
    "flanges[].far_toe_mm",
    "ripple[].x_mm",
    "ripple[].compression_mpa",
    "ripple[].critical_low_mpa",
    "ripple[].critical_high_mpa",
    "ripple[].verdict",
    "ripple[].working",
    "ripple[].wave_mm",
    "ripple[].wave_2s_mm",
    "ripple[].wave_2s_of.plates_mm",
    "twist.max_rad",
    "twist.max_2s_rad",
    "twist.max_2s_of.plates_rad",
    "twist.at_mm",
    "twist.end_to_end_rad",
    "twist.profile[][]",
    "twist.caution",
    "twist.apart_mm",
    "twist.flange_sweep_mm[]",
    "estimates[].quantity",
    "estimates[].method",
    "estimates[].source",
    "estimates[].value",
    "verdicts[].quantity",
    "verdicts[].value",
    "verdicts[].limit",
    "verdicts[].standard",
    "verdicts[].clause",
    "verdicts[].verdict",
    "verdicts[].likely.chance",
    "verdicts[].likely.from_welding_alone",
    "verdicts[].drawn.plates_sd_mm",
    "camber.max_2s_of.shared_mm",
    "sweep.max_2s_of.welding_mm",
    "sweep.max_2s_of.plates_mm",
    "shortening.centroid_2s_of.plates_mm",
    "flanges[].toe_2s_of.plates_mm",
    "warnings[].code",
    "warnings[].text",
    "allowance.pieces[].cut_mm",
    "allowance.web_edges[].outer_mm",
    "allowance.web_edges[].inner_mm",
    "allowance.presets[].crown_rad",
    "allowance.presets[].lean_rad",
    "title",
    "mass_kg",
];

/// Fields that hold words; all others hold numbers.
const WORDS: [&str; 16] = [
    "level", "toward", "seam", "side", "parts", "flange", "verdict", "quantity", "method", "source",
    "standard", "clause", "code", "text", "title", "caution",
];

/// Every value the path leads to; a list it passes through must not be empty.
fn along(value: &Value, path: &str) -> Result<Vec<Value>, String> {
    let mut found = vec![value.clone()];
    for step in path.split('.') {
        let name = step.trim_end_matches("[]");
        let lists = (step.len() - name.len()) / 2;
        let mut next = Vec::new();
        for value in found {
            next.push(value.get(name).ok_or(format!("{path}: no {name} in {value}"))?.clone());
        }
        for _ in 0..lists {
            let opened: Option<Vec<Vec<Value>>> = next.iter().map(|v| v.as_array().cloned()).collect();
            next = opened.ok_or(format!("{path}: {name} is no list"))?.concat();
        }
        found = next;
    }
    if found.is_empty() { Err(format!("{path}: empty")) } else { Ok(found) }
}

#[test]
fn the_json_has_its_fixed_names_and_kinds() {
    let all = json(&["predict", "--json", &demo("rafter")]);
    for path in FIXED {
        let values = along(&all, path).unwrap_or_else(|why| panic!("{why}"));
        let name = path.rsplit('.').next().unwrap().trim_end_matches("[]");
        let right = if WORDS.contains(&name) { Value::is_string } else { Value::is_number };
        assert!(values.iter().all(right), "{path} holds {:?}", values.first());
    }
    let points = along(&all, "camber.profile[]").unwrap();
    assert!(points.iter().all(|p| p.as_array().unwrap().len() == 2), "not [x, mm]: {points:?}");
}

fn holds_null(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(list) => list.iter().any(holds_null),
        Value::Object(fields) => fields.values().any(holds_null),
        _ => false,
    }
}

#[test]
fn the_json_holds_no_null_and_the_same_numbers_in_all_units() {
    for stem in ["column", "haunch", "light", "rafter", "us_frame"] {
        let si = json(&["predict", "--json", "--units", "si", &demo(stem)]);
        let us = json(&["predict", "--json", "--units", "us", &demo(stem)]);
        assert!(!holds_null(&si), "a null in {stem}: {si}");
        assert_eq!(si, us, "{stem}");
    }
}

#[test]
fn several_jobs_give_one_array_or_one_table() {
    let (rafter, column) = (demo("rafter"), demo("column"));
    let all = json(&["predict", "--json", &rafter, &column]);
    let alone = json(&["predict", "--json", &column]);
    let files: Vec<_> = all.as_array().unwrap().iter().map(|one| one["file"].as_str().unwrap()).collect();
    assert_eq!(files, [&rafter, &column], "in the order asked");
    assert_eq!(all[1]["camber"], alone["camber"], "in company and alone");
    let text = printed(&weldbow(&["predict", &rafter, &column]));
    has_all(&text, &["2 members", " rafter ", " column ", "worst flange"]);
}

fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> =
        read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn charts_come_in_pairs_and_a_second_run_replaces_them() {
    let folder = tempdir().unwrap();
    let charts = folder.path().join("new/charts");
    let draw = || weldbow(&["predict", "--charts", &charts.display().to_string(), &demo("light")]);
    let output = draw();
    ends_with(&output, 0);
    has_all(&printed(&output), &["7 charts (SVG and PNG)", &charts.display().to_string()]);
    let names = names_in(&charts);
    let methods = ["methods-camber", "methods-shortening", "methods-sweep"];
    let stems = [&["bow", "build-up", "elevation"], &methods[..], &["section"]].concat();
    let expected: Vec<_> =
        stems.iter().flat_map(|s| [format!("light-{s}.png"), format!("light-{s}.svg")]).collect();
    assert_eq!(names, expected);
    let svg = charts.join("light-bow.svg");
    let first = read(&svg).unwrap();
    write(&svg, &first[..first.len() / 2]).unwrap();
    ends_with(&draw(), 0);
    assert!(read(&svg).unwrap() == first, "the second run drew something else");
    assert_eq!(names_in(&charts), expected, "nothing half-written is left");
    assert!(read(charts.join("light-bow.png")).unwrap().starts_with(b"\x89PNG"), "no PNG");
}

#[test]
fn a_charts_folder_that_is_a_file_is_named_in_the_complaint() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("charts");
    write(&file, "mine").unwrap();
    let output = weldbow(&["predict", "--charts", &file.display().to_string(), &demo("light")]);
    ends_with(&output, 1);
    has_all(&complained(&output), &[&file.display().to_string(), "cannot be made"]);
    assert_eq!(read(&file).unwrap(), b"mine");
}

fn unreadable(folder: &TempDir) -> Vec<PathBuf> {
    let at = |name: &str| folder.path().join(name);
    create_dir(at("folder.toml")).unwrap();
    write(at("empty.toml"), "").unwrap();
    write(at("latin.toml"), b"title = \"Tr\xE4ger\"\n").unwrap();
    ["missing.toml", "folder.toml", "empty.toml", "latin.toml"].map(at).to_vec()
}

#[test]
fn a_file_that_cannot_be_read_is_named_and_nothing_is_printed() {
    let folder = tempdir().unwrap();
    for path in unreadable(&folder) {
        let name = path.display().to_string();
        for arguments in [&["predict"][..], &["predict", "--json"], &["check"], &["check", "--json"]] {
            let output = weldbow(&[arguments, &[&name]].concat());
            ends_with(&output, 1);
            has_all(&complained(&output), &[&name]);
            assert_eq!(printed(&output), "", "{arguments:?} {name}");
        }
    }
}

#[test]
fn a_bad_job_does_not_stop_a_good_one() {
    let (missing, rafter) = ("missing.toml", demo("rafter"));
    let output = weldbow(&["predict", missing, &rafter]);
    ends_with(&output, 1);
    has_all(&printed(&output), &["1 of 2 members", " rafter "]);
    has_all(&complained(&output), &["missing.toml"]);
    let output = weldbow(&["predict", "--json", missing, &rafter]);
    ends_with(&output, 1);
    let all: Value = from_slice(&output.stdout).unwrap();
    assert_eq!(all.as_array().unwrap().len(), 1, "{all}");
    assert_eq!(all[0]["file"], rafter.as_str());
}

#[test]
fn strict_tells_a_script_what_is_out_of_tolerance() {
    ends_with(&weldbow(&["predict", &demo("us_frame")]), 0);
    ends_with(&weldbow(&["predict", "--strict", &demo("us_frame")]), 3);
    ends_with(&weldbow(&["predict", "--strict", &demo("rafter")]), 0);
    ends_with(&weldbow(&["predict", "--strict", "missing.toml", &demo("us_frame")]), 1);
}

#[test]
fn a_wrong_command_line_ends_with_two() {
    for arguments in [&[][..], &["predict"], &["predict", "--units", "furlongs", "a.toml"], &["weld"]] {
        ends_with(&weldbow(arguments), 2);
    }
}

#[test]
fn check_shows_sections_and_passes_and_their_json() {
    let output = weldbow(&["check", &demo("rafter")]);
    ends_with(&output, 0);
    has_all(&printed(&output), &["the job is in order", "\nSections", "\nPasses", "procedure"]);
    let one = json(&["check", "--json", &demo("rafter")]);
    assert_eq!(one["passes"].as_array().unwrap().len(), 2, "{one}");
    let two = json(&["check", "--json", &demo("rafter"), &demo("us_frame")]);
    assert_eq!(two[0]["stations"], one["stations"]);
    assert_eq!(two[1]["file"], demo("us_frame").as_str());
}

#[test]
fn a_new_job_can_be_predicted_and_is_never_overwritten() {
    let folder = tempdir().unwrap();
    for (name, us) in [("si.toml", None), ("us.toml", Some("--us"))] {
        let file = folder.path().join(name).display().to_string();
        let arguments: Vec<_> = ["new", &file].into_iter().chain(us).collect();
        ends_with(&weldbow(&arguments), 0);
        let kept = read(&file).unwrap();
        let again = weldbow(&arguments);
        ends_with(&again, 1);
        has_all(&complained(&again), &[&file, "exists already"]);
        assert_eq!(read(&file).unwrap(), kept);
        for command in ["predict", "check"] {
            let output = weldbow(&[command, &file]);
            ends_with(&output, 0);
            let unit = if us.is_some() { " in" } else { " mm" };
            has_all(&printed(&output), &[unit]);
        }
    }
}

#[test]
fn schema_completions_and_manual_are_what_they_say() {
    assert!(json(&["schema"])["properties"]["member"].is_object());
    has_all(&printed(&weldbow(&["completions", "bash"])), &["complete -F", "weldbow", "predict"]);
    has_all(&printed(&weldbow(&["man"])), &[".TH weldbow", "predict"]);
}

#[test]
#[cfg(unix)]
fn a_reader_that_stops_early_is_no_error() {
    let line = "\"$0\" predict \"$1\" \"$1\" --json | head -1";
    let output = Command::new("sh")
        .args(["-c", line, env!("CARGO_BIN_EXE_weldbow"), &demo("rafter")])
        .output()
        .unwrap();
    assert_eq!(printed(&output), "[\n");
    assert_eq!(complained(&output), "");
}

#[test]
fn the_same_job_gives_the_same_bytes_on_any_number_of_threads() {
    let jobs = ["column", "haunch", "light", "rafter", "us_frame"].map(demo);
    for form in [&["predict"][..], &["predict", "--json"]] {
        let with = |threads| {
            let output = command().env("RAYON_NUM_THREADS", threads).args(form).args(&jobs).output().unwrap();
            ends_with(&output, 0);
            printed(&output)
        };
        let one = with("1");
        assert!(one.len() > 500, "little was printed: {one}");
        assert!(one == with("4"), "{form:?}: one thread and four differ");
        assert!(one == with("4"), "{form:?}: two runs differ");
    }
}
