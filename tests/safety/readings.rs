//! Readings that cannot be those of the member are refused, odd ones asked about; a plan comes only of the others.

use super::{changed, desk, printed, says, weldbow};
use serde_json::Value;
use std::fs::write;
use std::path::Path;

const PLAN: [&str; 5] = ["straighten", "rafter.toml", "--measured", "piece.csv", "--shop"];

/// What a run says of readings; it plans nothing.
#[track_caller]
fn refused(folder: &Path, readings: &str, parts: &[&str]) -> String {
    write(folder.join("piece.csv"), readings).unwrap();
    let said = says(folder, &[&PLAN[..], &["shop.toml"]].concat(), 1, parts);
    assert!(!said.contains("Push on") && !said.contains("accept") && !said.contains("vee heat"), "{said}");
    said
}

/// Readings of a member of 9 m at `n` even stations.
fn read(n: u32, head: &str, camber: impl Fn(f64) -> f64) -> String {
    let rows: Vec<String> = (0..n)
        .map(|i| {
            let s = f64::from(i) / f64::from(n - 1);
            format!("{}, {}\n", 9.0 * s, camber(s))
        })
        .collect();
    format!("{head}\n{}", rows.concat())
}

fn arc(top: f64) -> impl Fn(f64) -> f64 {
    move |s| 4.0 * top * s * (1.0 - s)
}

#[test]
fn a_slip_of_the_unit_of_places_is_asked_about() {
    let folder = desk();
    let demo = std::fs::read_to_string(folder.path().join("measured.csv")).unwrap();
    for (unit, parts) in [
        ("x [ft]", ["stations from 0.00 m to 2.74 m of a member of 9.00 m", "is `x [m]` meant?"]),
        ("x [mm]", ["stations from 0.00 m to 0.01 m of a member of 9.00 m", "is `x [m]` meant?"]),
        ("x [in]", ["stations from 0.00 m to 0.23 m of a member of 9.00 m", "is `x [m]` meant?"]),
    ] {
        let said = refused(folder.path(), &demo.replace("x [m]", unit), &parts);
        assert!(said.contains("In m they would end at 9.00 m"), "{said}");
    }
    // the other way round: places in feet below a head of metres
    let feet = demo.replace("9.0,    0.0", "29.5,    0.0");
    refused(folder.path(), &feet, &["a station at 29.50 m", "is `x [ft]` meant?"]);
}

#[test]
fn a_part_of_the_member_is_not_taken_for_the_whole() {
    let folder = desk();
    // 1.9 mm on 1 m is a radius of 66 m, 154 mm on 9 m
    let middle = "x [m], camber [mm], sweep [mm]\n4.0,0,0\n4.5,1.9,0\n5.0,0,0\n";
    refused(folder.path(), middle, &["both ends read", "2 % of the length"]);
    let inner = "x [m], sweep [mm]\n2,0\n3,9\n4,13\n5,13\n6,9\n7,0\n";
    refused(
        folder.path(),
        inner,
        &["stations from 2.00 m to 7.00 m", "the limits are those of the whole member"],
    );
    // within two hundredths of the length is near enough: a string is hooked on beside the end plate
    write(folder.path().join("piece.csv"), "x [m], sweep [mm]\n0.15,0\n2,9\n4,13\n6,12\n8,6\n8.9,0\n")
        .unwrap();
    says(folder.path(), &[&PLAN[..], &["shop.toml"]].concat(), 0, &["Does it need straightening?"]);
}

/// 24 ft 6 in are 7.4676 m, and a tape says 7.468 m: that is the end. A slip is refused, and how far it is off is said.
#[test]
fn a_station_a_hair_beyond_the_end_is_the_end() {
    let folder = desk();
    let rows = |first: &str, last: &str| {
        format!(
            "# readings: checked\nx [m], camber [mm], sweep [mm]\n{first},0,0\n2,3,9\n4,4,13\n6,4,12\n8,2,6\n{last},0,0\n"
        )
    };
    let judged = |first: &str, last: &str| {
        write(folder.path().join("piece.csv"), rows(first, last)).unwrap();
        let answer = weldbow(folder.path(), &[&PLAN[..], &["shop.toml", "--json"]].concat());
        let answer: Value = serde_json::from_str(&printed(&answer)).unwrap();
        answer["plan"]["decisions"].clone()
    };
    let exact = judged("0", "9");
    assert!(exact.as_array().unwrap().len() == 2, "{exact}");
    assert_eq!(judged("-0.003", "9.004"), exact);
    refused(folder.path(), &rows("0", "9.02"), &["a station at 9.02 m, 20.0 mm beyond the end"]);
}

#[test]
fn offsets_and_toes_stay_on_the_member() {
    let folder = desk();
    let metres = read(7, "x [m], camber [m]", arc(12.0));
    refused(
        folder.path(),
        &metres,
        &["off the line through the ends", "In mm it would be 12.0 mm: is `camber [mm]` meant?"],
    );
    for absurd in ["12e18", "-1e308", "1e7", "451"] {
        let rows = format!("x [m], camber [mm]\n0,0\n2,0\n4.5,{absurd}\n7,0\n9,0\n");
        refused(folder.path(), &rows, &["camber"]);
    }
    let toes = "x [m], camber [mm], outer near toe [mm], outer far toe [mm]\n0,0,,\n2,1,,\n4.5,1,91,0\n7,1,,\n9,0,,\n";
    refused(
        folder.path(),
        toes,
        &["outer near toe: found 91.0 mm on a flange 180.0 mm wide", "at most 90.0 mm"],
    );
}

#[test]
fn what_the_front_says_is_bounded_like_a_job() {
    let folder = desk();
    let table = read(7, "x [m], camber [mm]", arc(3.0));
    for (front, part) in [
        ("string: 1000 mm wire at 0.001 N", "a wire of 0.1 mm to 3 mm"),
        ("string: 0.5 mm wire at 0.001 N", "pulled with 1 N to 2 kN"),
        ("string: 3 mm wire at 10 N", "a string that sags by"),
        ("steel temperature: -500 °C", "−40 °C to 200 °C"),
        ("steel temperature: 1500 °C", "−40 °C to 200 °C"),
        ("temperature difference: 500 K", "at most 50 K"),
        ("keep off: -1 m to 1 m", "places on a member"),
        ("keep off: 1 m to 1e300 m", "places on a member"),
        ("lay on: 4.5 m and 4.5000001 m", "at least a tenth of the length apart"),
        ("lay on: 0 m and 1e-320 m", "at least a tenth of the length apart"),
    ] {
        refused(folder.path(), &format!("# {front}\n# up: inner\n{table}"), &[part]);
    }
}

/// Places so near to each other that their distance is nought to a computer took 34 GB.
#[test]
fn places_that_are_one_are_no_member() {
    let folder = desk();
    let rows = "x [m], camber [mm]\n0, 0\n5e-324, 12\n1e-323, 0\n";
    refused(folder.path(), rows, &["x: found"]);
    // two of them among others gave a camber that is no number
    let rows = "x [m], camber [mm]\n0, 0\n5e-324, 4\n4.5, 12\n9, 0\n";
    refused(folder.path(), rows, &["places that rise from line to line, each once: 1 mm or more"]);
    use weldbow::straighten::shape::{OutOfStraight, ShapeError};
    let shape = OutOfStraight::new(9e3, vec![0.0, 5e-324, 1e-323], vec![0.0; 3], vec![0.0; 3], vec![]);
    assert!(matches!(shape, Err(ShapeError::NotCovered { .. })), "{shape:?}");
}

#[test]
fn odd_readings_are_asked_about_and_stand_once_they_were_checked() {
    let folder = desk();
    let mut outlier: Vec<f64> = (0..10).map(|i| arc(-12.0)(f64::from(i) / 9.0)).collect();
    outlier[4] += 18.0;
    let outlier = |s: f64| outlier[(9.0 * s).round() as usize];
    for (readings, parts) in [
        (read(3, "x [m], camber [mm]", arc(5.0)), &["3 stations", "five stations or more"][..]),
        (
            "x [m], camber [mm]\n0,0\n0.2,0.5\n0.4,1\n0.6,1.5\n9,0\n".to_owned(),
            &["nothing read between 0.60 m and 9.00 m"],
        ),
        (
            read(7, "x [m], camber [mm]", arc(0.018)),
            &["0.018 mm as the largest reading", "In m it would be 18.0 mm: is `camber [m]` meant?"],
        ),
        (
            read(10, "x [m], camber [mm]", outlier),
            &["the station at 4.00 m stands 18.0 mm off its neighbours"],
        ),
        (
            read(7, "x [m], camber [mm]", arc(60.0)),
            &["60.0 mm at 4.50 m", "three deviations", "18.0 mm for plates and handling"],
        ),
        (
            read(7, "x [m], camber [cm]", arc(12.0)),
            &["120.0 mm", "In mm it would be 12.0 mm: is `camber [mm]` meant?"],
        ),
    ] {
        refused(folder.path(), &readings, parts);
        write(folder.path().join("piece.csv"), format!("# readings: checked\n{readings}")).unwrap();
        let said = says(
            folder.path(),
            &[&PLAN[..], &["shop.toml"]].concat(),
            0,
            &["Odd and, as the file says, checked"],
        );
        assert!(!said.contains("NaN") && !said.contains("inf "), "{said}");
        let answer = weldbow(folder.path(), &[&PLAN[..], &["shop.toml", "--json"]].concat());
        let answer: Value = serde_json::from_str(&printed(&answer)).unwrap();
        assert_eq!(answer["odd_readings"].as_array().unwrap().len(), 1, "{answer}");
    }
}

/// The allowance for plates and handling is a fiftieth of a percent of ten: 0.2 % of the length.
#[test]
fn a_bow_that_plates_and_handling_may_add_is_no_question() {
    let folder = desk();
    for top in [-17.0, 0.0, 17.0] {
        write(folder.path().join("piece.csv"), read(7, "x [m], camber [mm]", arc(top))).unwrap();
        says(folder.path(), &[&PLAN[..], &["shop.toml"]].concat(), 0, &["Does it need straightening?"]);
    }
}

#[test]
fn the_delivery_of_the_steel_is_asked_and_not_assumed() {
    let folder = desk();
    changed(folder.path(), "measured.csv", "# delivery: ordinary\n", "");
    let said = says(
        folder.path(),
        &["straighten", "rafter.toml", "--measured", "measured.csv", "--shop", "shop.toml"],
        0,
        &["No advice on heat: nobody has said how the steel was made", "`delivery: ordinary`"],
    );
    assert!(!said.contains("vee heats along the member") && said.contains("Push on"), "{said}");
}

#[test]
fn sag_that_nothing_was_said_about_is_brought_to_mind() {
    let folder = desk();
    for line in ["# lay on: 0.6 m and 8.4 m\n", "# string: 0.5 mm wire at 80 N\n"] {
        changed(folder.path(), "measured.csv", line, "");
    }
    let asked = ["straighten", "rafter.toml", "--measured", "measured.csv"];
    says(folder.path(), &asked, 0, &["Nothing says how the piece lay", "Note `lay on` and `up`"]);
}

/// It waited for ever; what a shell joins to it is read as before.
#[cfg(unix)]
#[test]
fn a_pipe_without_a_writer_is_said_and_one_with_a_writer_is_read() {
    let folder = desk();
    let pipe = folder.path().join("pipe.toml");
    std::process::Command::new("mkfifo").arg(&pipe).status().unwrap();
    says(folder.path(), &["predict", "pipe.toml"], 1, &["found a pipe that nobody writes into"]);
    let job = std::fs::read(folder.path().join("rafter.toml")).unwrap();
    let writer = std::thread::spawn(move || write(pipe, job));
    says(folder.path(), &["predict", "pipe.toml"], 0, &["Rafter R2"]);
    writer.join().unwrap().unwrap();
}

/// A cell with quotes of its own does not stand in the text as it reads: its place must not split a character.
#[test]
fn a_quoted_cell_is_shown_at_a_place_that_is_one() {
    for cell in ["\"1\"\"€\"", "\"é\"\"€€\""] {
        let text = format!("x [m], camber [mm]\n0,0\n{cell},é\n9,0\n");
        let complaint = weldbow::shop::measured::read_text("piece.csv", &text).unwrap_err();
        for problem in &complaint.problems {
            let range = problem.range.clone().unwrap_or(0..0);
            assert!(text.get(range.clone()).is_some(), "{cell}: {range:?} splits a character");
        }
    }
}
