//! With `--units us` no command leaves a quantity of the other system on the screen.

use super::weldbow;
use std::path::Path;

const UNITS: [&str; 16] = [
    "mm", "cm", "m", "mm²", "cm²", "kN", "MPa", "kJ/mm", "J/mm", "J/mm³", "N/mm", "°C", "kg", "m/min",
    "kN·m", "g",
];

fn printed(arguments: &[&str]) -> String {
    let (status, printed, said) = weldbow(Path::new(env!("CARGO_MANIFEST_DIR")), arguments);
    assert_eq!(status, 0, "{arguments:?}: {said}");
    printed
}

/// A number, or a comma of a column's head, and one of these units behind it.
fn metric(line: &str) -> Option<&str> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let unit = |word: &str| {
        let plain = word.trim_end_matches([',', '.', ';', ':', ')', '?']);
        UNITS.iter().find(|unit| **unit == plain).copied()
    };
    words.windows(2).find_map(|pair| {
        let number =
            pair[0].trim_start_matches(['(', '±', '−', '-']).starts_with(|c: char| c.is_ascii_digit());
        let head = pair[0].ends_with(',');
        unit(pair[1]).filter(|_| number || head)
    })
}

#[track_caller]
fn holds_nothing_metric(arguments: &[&str]) {
    let text = printed(arguments);
    for line in text.lines() {
        assert_eq!(metric(line), None, "{arguments:?}: {line}\n\n{text}");
    }
}

#[test]
fn a_metric_quantity_is_found_where_there_is_one() {
    for line in ["camber 0.9 mm", " sweep, mm", "a press of 400 kN.", "heat 1.00 kJ/mm", "(12.5 m)"] {
        assert!(metric(line).is_some(), "{line}");
    }
    for line in ["m is the moment", "0.9 in", "12 ft 3 in", "mm", "A572, mild"] {
        assert_eq!(metric(line), None, "{line}");
    }
}

/// Readings that are odd were told in the units of the job.
#[test]
fn odd_readings_that_were_checked() {
    let folder = tempfile::tempdir().unwrap();
    for (name, rows) in [
        ("outlier", "0,0\n1,-4\n2,-7\n3,9\n4,-11\n5,-11\n6,-10\n7,-7\n8,-4\n9,0\n"),
        ("large", "0,0\n2,39\n4.5,60\n7,39\n9,0\n"),
        ("gap", "0,0\n0.2,0.5\n0.4,1\n0.6,1.5\n9,0\n"),
    ] {
        let csv = folder.path().join(format!("{name}.csv"));
        std::fs::write(&csv, format!("# readings: checked\nx [m], camber [mm]\n{rows}")).unwrap();
        let asked =
            ["straighten", "studies/jobs/rafter.toml", "--measured", csv.to_str().unwrap(), "--units", "us"];
        let text = printed(&asked);
        let odd = text.split("Odd and, as the file says, checked").nth(1);
        let odd = odd.unwrap_or_else(|| panic!("{name}: nothing odd in:\n{text}"));
        let odd: String = odd.lines().take(5).collect::<Vec<_>>().join(" ");
        let said = odd.split('•').next().unwrap_or_default();
        assert_eq!(metric(said), None, "{said}");
    }
}

#[test]
fn predict_check_and_straighten_of_every_demo() {
    for job in [
        "column",
        "gallery_beam",
        "haunch",
        "light",
        "rafter",
        "stall_rafter",
        "us_beam",
        "us_frame",
        "wall_column",
        "wire_rafter",
    ] {
        let job = format!("studies/jobs/{job}.toml");
        holds_nothing_metric(&["predict", &job, "--units", "us"]);
        holds_nothing_metric(&["check", &job, "--units", "us"]);
        holds_nothing_metric(&["straighten", &job, "--shop", "studies/shop/shop.toml", "--units", "us"]);
    }
    let all = ["predict", "studies/jobs/rafter.toml", "studies/jobs/column.toml", "--units", "us"];
    holds_nothing_metric(&all);
}

#[test]
fn a_measured_piece_an_order_and_a_spread_of_pieces() {
    let shop = ["--shop", "studies/shop/shop.toml", "--units", "us"];
    let measured =
        ["straighten", "studies/jobs/rafter.toml", "--measured", "studies/shop/measured-rafter.csv"];
    holds_nothing_metric(&[&measured[..], &shop].concat());
    let order = ["order", "studies/shop/order.csv", "--draws", "8", "--pieces", "4"];
    holds_nothing_metric(&[&order[..], &shop].concat());
    holds_nothing_metric(&[
        "scatter",
        "studies/jobs/rafter.toml",
        "--draws",
        "20",
        "--pieces",
        "5",
        "--units",
        "us",
    ]);
}

#[test]
fn studies_and_single_questions_with_their_inputs() {
    for study in ["05-depth", "09-sequence"] {
        let found = std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("studies")).unwrap();
        let mut names: Vec<String> = found.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        let number = &study[..2];
        let file = names.iter().find(|name| name.starts_with(number)).unwrap();
        holds_nothing_metric(&["study", &format!("studies/{file}"), "--units", "us"]);
    }
    let question = [
        "study",
        "studies/jobs/rafter.toml",
        "--vary",
        "pass.leg = 4 mm .. 8 mm in 3",
        "--show",
        "sweep,toes",
    ];
    holds_nothing_metric(&[&question[..], &["--units", "us"]].concat());
}
