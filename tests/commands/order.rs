//! `weldbow order` as a shop and a script meet it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

use crate::asked::{self, command, complained, ends_with, printed, weldbow};
use serde_json::Value;
use std::fs::{copy, read_dir, read_to_string, write};
use std::path::Path;
use std::process::Output;
use tempfile::tempdir;

const LIST: &str = "studies/shop/order.csv";
const SHOP: &str = "studies/shop/shop.toml";

fn order(arguments: &[&str]) -> Output {
    weldbow(&[&["order"][..], arguments].concat())
}

#[track_caller]
fn json(arguments: &[&str]) -> Value {
    asked::json(&[&["order"][..], arguments, &["--json"]].concat())
}

#[test]
fn the_demo_order_answers_in_the_order_a_shop_asks() {
    let brief = printed(&order(&[LIST, "--shop", SHOP]));
    assert!(!brief.contains("How many pieces") && brief.contains("--marks shows every mark"), "{brief}");
    let output = order(&[LIST, "--shop", SHOP, "--marks"]);
    ends_with(&output, 0);
    let text = printed(&output);
    let sections = [
        "Order of 9 marks, 134 pieces",
        "from welding, plates and assembly",
        "\nIn short",
        "to measure every piece once",
        "\n  money ",
        "\nFamilies",
        "\nLoad by week",
        "\nWhat to fix first",
        "\nHow many pieces",
        "\nHours in the shop",
        "\nHow far to trust it",
        "\nCautions",
    ];
    let places: Vec<_> = sections.iter().map(|s| text.find(s)).collect();
    assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{places:?} in:\n{text}");
    for word in ["NaN", "inf ", "\u{1b}", "not known"] {
        assert!(!text.contains(word), "{word:?} in:\n{text}");
    }
    assert!(text.contains("responsible engineer") && text.contains("placeholders"), "{text}");
    assert_eq!(complained(&output), "", "no bar where there is no terminal");
}

/// The screen and the rows had only how many need it; the number that other commands say stood in the JSON alone.
#[test]
fn how_many_are_out_stands_beside_how_many_need_it() {
    let folder = tempdir().unwrap();
    let rows = folder.path().join("order.csv");
    let text = printed(&order(&[LIST, "--shop", SHOP, "--marks", "--csv", rows.to_str().unwrap()]));
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "are out of a limit, lengths and web too, by the chances that `predict`",
        "a second measurement decides",
        "Which limits",
        "sweep out sweep need",
    ] {
        assert!(flat.contains(part), "{part:?} is not in:\n{text}");
    }
    let found = json(&[LIST, "--shop", SHOP]);
    let mut reader = csv::Reader::from_path(&rows).unwrap();
    let heads = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    for (mark, row) in found["marks"].as_array().unwrap().iter().zip(&rows) {
        let cell = |name: &str| {
            let at = heads.iter().position(|head| head == name).unwrap_or_else(|| panic!("no column {name}"));
            row[at].parse::<f64>().unwrap()
        };
        let likely = |of: &Value| of["chance"].as_f64().unwrap();
        assert_eq!(mark["mark"], row[0]);
        assert!((cell("out") - likely(&mark["out"])).abs() < 1e-4, "{row:?}");
        for (name, part) in
            ["out_toe", "out_sweep", "out_camber"].iter().zip(mark["parts"].as_array().unwrap())
        {
            assert!((cell(name) - likely(&part["out"])).abs() < 1e-4, "{name} of {row:?}");
        }
        let (again, out) = (cell("measure_again"), cell("measure_again_out"));
        assert!((0.0..=again + 1e-9).contains(&out), "{out} of {again} in {row:?}");
    }
}

/// "9.1 pieces fewer, 10.0 of them …": what is saved in pieces that no method mends is no part of what is saved in others.
#[test]
fn savings_are_told_apart() {
    let text = printed(&order(&[LIST, "--shop", SHOP]));
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        !flat.contains("of them that this shop") && flat.contains("fewer that this shop cannot straighten"),
        "{text}"
    );
}

#[test]
fn json_numbers_are_finite_and_add_up() {
    let found = json(&[LIST, "--shop", SHOP]);
    let number = |value: &Value, path: &str| {
        value.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path} of {value}"))
    };
    let marks = found["marks"].as_array().unwrap();
    for part in
        ["hours", "press_h", "heat_h", "measure_h", "needing", "blocked", "again", "money", "rework_money"]
    {
        let path = format!("/totals/{part}/expected");
        let sum: f64 = marks.iter().map(|m| number(m, &path)).sum();
        assert!((sum - number(&found, &path)).abs() < 1e-9, "{part}");
        let weeks: f64 = found["weeks"].as_array().unwrap().iter().map(|w| number(w, &path)).sum();
        assert!((weeks - sum).abs() < 1e-9, "{part} by week");
    }
    for m in marks {
        let (low, high) = (number(m, "/likely/range/0"), number(m, "/likely/range/1"));
        assert!((0.0..=1.0).contains(&low) && low <= high && high <= 1.0, "{m}");
        let needing = number(m, "/totals/needing/expected");
        let quantity = number(m, "/quantity");
        assert!((needing - quantity * number(m, "/likely/chance")).abs() < 1e-9, "{m}");
        // every piece that needs it loads the shop, or is counted as one that no method mends
        let work = number(m, "/totals/press_h/expected") + number(m, "/totals/heat_h/expected");
        let blocked = number(m, "/totals/blocked/expected");
        assert!(needing < 1e-9 || work > 0.0 || (blocked - needing).abs() < 1e-9, "{m}");
    }
    assert!(!printed(&order(&[LIST, "--json"])).contains("null"), "nothing is null");
}

#[test]
fn output_does_not_depend_on_the_number_of_threads() {
    let on = |threads: &str| {
        let mut command = command();
        command.env("RAYON_NUM_THREADS", threads);
        command.args(["order", LIST, "--shop", SHOP, "--weeks", "3", "--json"]).output().unwrap()
    };
    let (one, two) = (on("1"), on("2"));
    ends_with(&one, 0);
    assert_eq!(printed(&one), printed(&two));
}

#[test]
fn a_bad_job_is_complained_about_and_the_others_go_on() {
    let folder = tempdir().unwrap();
    let place = |name: &str| folder.path().join(name);
    copy("studies/jobs/rafter.toml", place("good.toml")).unwrap();
    write(place("bad.toml"), "title = \"half a job\"\n").unwrap();
    write(place("list.csv"), "mark,job,quantity\nA,good.toml,3\nB,bad.toml,2\n").unwrap();
    let list = order(&[place("list.csv").to_str().unwrap()]);
    ends_with(&list, 1);
    assert!(printed(&list).contains("Order of 1 mark, 3 pieces"), "{}", printed(&list));
    assert!(complained(&list).contains("bad.toml"), "{}", complained(&list));
    let whole = order(&[folder.path().to_str().unwrap(), "--marks"]);
    ends_with(&whole, 1);
    assert!(printed(&whole).contains("good"), "{}", printed(&whole));
}

#[test]
fn folders_and_files_are_taken_one_piece_each() {
    let folder = json(&["studies/jobs"]);
    let marks: Vec<&str> =
        folder["marks"].as_array().unwrap().iter().map(|m| m["mark"].as_str().unwrap()).collect();
    assert!(marks.len() >= 9 && marks.contains(&"rafter"), "{marks:?}");
    assert_eq!(folder["quantity"], marks.len());
    let twice = order(&["studies/jobs/rafter.toml", "studies/jobs/../jobs/rafter.toml"]);
    ends_with(&twice, 1);
    assert!(complained(&twice).contains("the same job again"), "{}", complained(&twice));
    for (given, said) in
        [("no.csv", "no such file"), ("Cargo.lock", "of another kind"), ("src", "without job files")]
    {
        let output = order(&[given]);
        ends_with(&output, 1);
        assert!(complained(&output).contains(said) && output.stdout.is_empty(), "{}", complained(&output));
    }
}

#[test]
fn rows_and_charts_are_written_whole() {
    let folder = tempdir().unwrap();
    let (rows, charts) = (folder.path().join("order.csv"), folder.path().join("charts"));
    let (rows_text, charts_text) = (rows.to_str().unwrap(), charts.to_str().unwrap());
    let output = order(&[LIST, "--shop", SHOP, "--csv", rows_text, "--charts", charts_text]);
    ends_with(&output, 0);
    let text = read_to_string(&rows).unwrap();
    let widths: Vec<usize> = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes())
        .records()
        .map(|r| r.unwrap().len())
        .collect();
    assert!(widths.len() == 10 && widths.iter().all(|w| *w == widths[0]), "{widths:?}");
    assert!(!text.contains("NaN") && !text.contains("inf,"), "{text}");
    let mut names: Vec<String> =
        read_dir(&charts).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    assert_eq!(names, ["order-families.png", "order-families.svg", "order-weeks.png", "order-weeks.svg"]);
    let nowhere = order(&[LIST, "--csv", folder.path().join("none/order.csv").to_str().unwrap()]);
    ends_with(&nowhere, 1);
    assert!(complained(&nowhere).contains("none"), "{}", complained(&nowhere));
}

#[test]
fn weeks_can_be_spread_and_compared_with_what_the_press_has() {
    let tight = printed(&order(&[LIST, "--shop", SHOP, "--weeks", "3", "--heat-capacity", "0"]));
    assert!(tight.contains("over torch") && !tight.contains("over press"), "{tight}");
    let output = order(&[LIST, "--shop", SHOP, "--weeks", "3", "--capacity", "400"]);
    ends_with(&output, 0);
    let text = printed(&output);
    for part in [
        "spread over 3 weeks",
        "weeks of the list are left aside",
        "over press",
        "400 h a week",
        "\nLevelling",
        "every week has hours",
    ] {
        assert!(text.contains(part), "{part:?} is not in:\n{text}");
    }
    let found = json(&[LIST, "--weeks", "3"]);
    let pieces: Vec<u64> =
        found["weeks"].as_array().unwrap().iter().map(|w| w["quantity"].as_u64().unwrap()).collect();
    assert_eq!(pieces, [44, 45, 45]);
    for wrong in [["--weeks", "0"], ["--capacity", "some"], ["--draws", "1"]] {
        ends_with(&order(&[&[LIST], wrong.as_slice()].concat()), 2);
    }
}

#[test]
fn marks_of_one_job_share_its_pieces() {
    let folder = tempdir().unwrap();
    copy("studies/jobs/light.toml", folder.path().join("job.toml")).unwrap();
    let list = folder.path().join("list.csv");
    write(&list, "mark,job,quantity\nA,job.toml,10\nB,job.toml,20\n").unwrap();
    let found = json(&[list.to_str().unwrap()]);
    let marks = found["marks"].as_array().unwrap();
    assert_eq!(marks[0]["likely"], marks[1]["likely"]);
    assert_eq!(found["families"].as_array().unwrap().len(), 1, "same plates, same passes");
}

#[test]
fn the_shop_is_read_and_a_wrong_one_is_told() {
    let none = tempdir().unwrap();
    let shop = none.path().join("shop.toml");
    write(&shop, "title = \"no tools\"\n").unwrap();
    let bare = json(&[LIST, "--shop", shop.to_str().unwrap()]);
    let of = |part: &str| bare["totals"][part]["expected"].as_f64().unwrap();
    assert!(of("press_h").abs() < 1e-12 && of("heat_h").abs() < 1e-12);
    assert!((of("blocked") - of("needing")).abs() < 1e-9, "without tools nothing is mended");
    write(&shop, "[press]\nforce = \"400\"\n").unwrap();
    let output = order(&[LIST, "--shop", shop.to_str().unwrap()]);
    ends_with(&output, 1);
    assert!(complained(&output).contains("press.force") && output.stdout.is_empty());
    assert!(Path::new(SHOP).exists());
}

#[test]
fn sizes_are_shown_in_the_units_asked_for() {
    let text = |units: &str| printed(&order(&[LIST, "--shop", SHOP, "--units", units]));
    let (si, us) = (text("si"), text("us"));
    assert!(si.contains(" mm of sweep") && !si.contains(" in of sweep"), "{si}");
    assert!(us.contains(" in of sweep") && !us.contains(" mm of sweep"), "{us}");
}
