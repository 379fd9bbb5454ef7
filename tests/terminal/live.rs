//! Live work: a question of one line, rows that give way, warnings that are counted, lists of what can be asked.

use super::weldbow;
use std::fs::{read_to_string, write};
use std::path::Path;
use tempfile::tempdir;

const RAFTER: &str = "studies/jobs/rafter.toml";

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn a_question_of_one_line_is_answered_by_a_row_a_value() {
    let ask =
        ["study", RAFTER, "--vary", "procedure.travel_speed = 0.8 .. 1.2 m/min in 3", "--show", "sweep"];
    let (status, printed, said) = weldbow(root(), &ask);
    assert_eq!((status, said.as_str()), (0, ""), "{printed}");
    let sweeps: Vec<f64> = printed
        .lines()
        .filter_map(|line| line.trim_start().strip_prefix(['0', '1']).map(|_| line))
        .filter_map(|line| line.split_whitespace().nth(1)?.replace('−', "-").parse().ok())
        .collect();
    assert_eq!(sweeps.len(), 3, "{printed}");
    assert!(sweeps.windows(2).all(|pair| pair[1].abs() < pair[0].abs()), "faster is less heat: {sweeps:?}");
}

#[test]
fn a_wrong_question_says_where_and_what_would_be_right() {
    for (vary, show, words) in [
        ("pass.legg = 4 mm .. 8 mm", "sweep", &["pass.leg"][..]),
        ("leg = 4 mm .. 8 mm", "sweep", &["did you mean `pass.leg`"]),
        (
            "flange.width = 150 mm .. 200 mm",
            "sweep",
            &["outer_flange.width", "inner_flange.width", "together"],
        ),
        ("pass.leg", "sweep", &["no `=`"]),
        ("pass.leg = 4 mm .. 8 mm", "swep.max_mm", &["sweep.max_mm"]),
    ] {
        let (status, printed, said) = weldbow(root(), &["study", RAFTER, "--vary", vary, "--show", show]);
        assert_eq!((status, printed.as_str()), (1, ""), "{vary}: {said}");
        for word in words {
            assert!(said.contains(word), "{word} is not in:\n{said}");
        }
    }
}

#[test]
fn a_changed_study_takes_the_place_of_its_rows_where_that_is_asked_for() {
    let folder = tempdir().unwrap();
    let here = folder.path();
    assert_eq!(weldbow(here, &["new", "--study"]).0, 0);
    let (status, printed, said) = weldbow(here, &["study", "study.toml", "--out", "out"]);
    assert_eq!(status, 0, "{said}");
    // the heat of every case is a guess from its leg
    assert!(printed.contains("16 of 16 cases"), "{printed}");
    let text = read_to_string(here.join("study.toml")).unwrap().replace("steps = 4", "steps = 2");
    write(here.join("study.toml"), text).unwrap();
    let (status, _, said) = weldbow(here, &["study", "study.toml", "--out", "out"]);
    assert!(status == 1 && said.contains("rows of another study"), "{status}: {said}");
    let (status, _, said) = weldbow(here, &["study", "study.toml", "--out", "out", "--replace"]);
    assert_eq!(status, 0, "{said}");
    let rows = read_to_string(here.join("out/study.csv")).unwrap();
    assert_eq!(rows.lines().count(), 1 + 8, "{rows}");
    assert!(rows.lines().next().unwrap().contains("warnings"), "{rows}");
    // rows that are not ours stay
    write(here.join("other.csv"), "mine\n").unwrap();
    let (status, _, _) = weldbow(here, &["study", "study.toml", "--out", ".", "--replace"]);
    assert_eq!((status, read_to_string(here.join("other.csv")).unwrap().as_str()), (0, "mine\n"));
    std::fs::create_dir(here.join("theirs")).unwrap();
    write(here.join("theirs/study.csv"), "mine\n").unwrap();
    let (status, _, said) = weldbow(here, &["study", "study.toml", "--out", "theirs", "--replace"]);
    assert!(status == 1 && said.contains("not written by this study"), "{status}: {said}");
    assert_eq!(read_to_string(here.join("theirs/study.csv")).unwrap(), "mine\n");
}

#[test]
fn results_and_places_are_listed_with_unit_and_meaning() {
    let (status, results, _) = weldbow(root(), &["study", "--results"]);
    assert_eq!(status, 0);
    let line =
        |name: &str| results.lines().find(|line| line.split_whitespace().next() == Some(name)).unwrap();
    assert!(line("sweep.max_mm").contains("mm  ") && line("sweep.max_mm").contains("toward the near side"));
    assert!(results.lines().all(|line| line.split_whitespace().count() >= 3), "{results}");
    let (status, places, _) = weldbow(root(), &["study", "--places"]);
    assert_eq!(status, 0);
    for place in [
        "pass.leg",
        "inner_flange.thickness",
        "depth.start",
        "length",
        "procedure.travel_speed",
        "factors.force",
    ] {
        assert!(
            places.lines().any(|line| line.split_whitespace().next() == Some(place)),
            "{place}:\n{places}"
        );
    }
}

#[test]
fn a_job_to_start_from_has_nothing_to_remark() {
    let folder = tempdir().unwrap();
    for us in [&[][..], &["--us"]] {
        let name = format!("{}.toml", us.len());
        assert_eq!(weldbow(folder.path(), &[&["new", &name], us].concat()).0, 0);
        let (status, printed, _) = weldbow(folder.path(), &["predict", &name]);
        assert_eq!(status, 0);
        assert!(!printed.contains("Look at the input"), "{printed}");
    }
}
