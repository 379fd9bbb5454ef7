//! Words that a stranger may have written stay words: they move no cursor, forge no line, run no formula.

use super::{changed, desk, says, weldbow};
use std::fs::{read_to_string, write};
use std::path::Path;

const HOSTILE: &str =
    "A\\u001b]0;pwned\\u0007\\u001b[31mRED\\n\\nIs it in tolerance?\\u202e everything within";

/// Whether a terminal would do anything but show it.
fn harmless(text: &str) -> bool {
    let odd = |c: char| (c.is_control() && c != '\n' && c != '\t') || ('\u{202a}'..='\u{202e}').contains(&c);
    !text.contains(odd)
}

#[track_caller]
fn shows_harmlessly(folder: &Path, arguments: &[&str]) -> String {
    let output = weldbow(folder, arguments);
    let said =
        format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(harmless(&said), "{arguments:?}: {said:?}");
    said
}

#[test]
fn titles_marks_and_labels_are_shown_in_one_line() {
    let folder = desk();
    changed(
        folder.path(),
        "rafter.toml",
        "title = \"Rafter R2, riding arena\"",
        &format!("title = \"{HOSTILE}\""),
    );
    changed(folder.path(), "shop.toml", "title = ", &format!("title = \"{HOSTILE}\"\n#"));
    write(
        folder.path().join("order.csv"),
        "mark,job,quantity,family\n\"R\u{1b}[2J\u{202e}2\n\nIn short\",rafter.toml,3,\"f\u{7}\"\n",
    )
    .unwrap();
    for arguments in [
        &["predict", "rafter.toml"][..],
        &["check", "rafter.toml"],
        &["straighten", "rafter.toml", "--shop", "shop.toml", "--sheet", "sheet.html"],
        &["order", "order.csv", "--shop", "shop.toml", "--draws", "2", "--pieces", "2", "--csv", "rows.csv"],
        &["scatter", "rafter.toml", "--draws", "4", "--pieces", "4"],
    ] {
        let said = shows_harmlessly(folder.path(), arguments);
        assert!(!said.contains("\nIs it in tolerance?\u{202e}"), "{said}");
        assert!(!said.lines().any(|l| l.trim() == "everything within"), "a forged line:\n{said}");
    }
    for name in ["sheet.html", "rows.csv"] {
        assert!(harmless(&read_to_string(folder.path().join(name)).unwrap()), "{name}");
    }
}

#[test]
fn files_that_are_wrong_are_quoted_harmlessly() {
    let folder = desk();
    for (name, text) in [
        ("key.toml", "title = \"a\"\n\"\u{1b}[2Jfoo\" = 1\n".to_owned()),
        ("value.toml", "title = \"a\"\nunits = \"si\u{1b}[31m\u{202e}\" # \u{1b}[2J\n".to_owned()),
        ("beside.toml", "# \u{1b}[2J\nnonsense = 1\n# \u{9b}31m\n".to_owned()),
        ("piece.csv", "# \u{1b}[2Jfoo: 1\nx [m], \u{1b}[31mcamber [mm]\n".to_owned()),
    ] {
        write(folder.path().join(name), text).unwrap();
        let arguments: &[&str] = match name {
            "piece.csv" => &["straighten", "rafter.toml", "--measured", name],
            _ => &["predict", name],
        };
        shows_harmlessly(folder.path(), arguments);
        shows_harmlessly(folder.path(), &[arguments, &["--json"]].concat());
    }
    shows_harmlessly(folder.path(), &["predict", "no\u{1b}[2J\u{202e}such.toml"]);
    shows_harmlessly(folder.path(), &["study", "no\u{1b}[2Jsuch.toml"]);
    shows_harmlessly(folder.path(), &["order", "order.csv", "--csv", "no\u{1b}[2J/x.csv"]);
    shows_harmlessly(folder.path(), &["choose", "rafter.toml", "--procedure", "\u{1b}[2J"]);
}

#[test]
fn long_names_are_cut() {
    let folder = desk();
    changed(
        folder.path(),
        "rafter.toml",
        "title = \"Rafter R2, riding arena\"",
        &format!("title = \"{}\"", "x".repeat(100_000)),
    );
    let said = says(folder.path(), &["predict", "rafter.toml"], 0, &["…"]);
    assert!(said.len() < 20_000, "{} bytes", said.len());
    write(folder.path().join("key.toml"), format!("{} = 1\n", "k".repeat(100_000))).unwrap();
    let said = says(folder.path(), &["predict", "key.toml"], 1, &["unknown key"]);
    assert!(said.len() < 20_000, "{} bytes", said.len());
}

#[test]
fn a_spreadsheet_runs_nothing() {
    let folder = desk();
    write(
        folder.path().join("order.csv"),
        "mark,job,quantity,family\n\"=cmd|' /C calc'!A0\",rafter.toml,3,+1+1\n@SUM(1),rafter.toml,1,-2+3\n-5,rafter.toml,1,plain\n",
    )
    .unwrap();
    let order = ["order", "order.csv", "--draws", "2", "--pieces", "2", "--csv", "rows.csv"];
    says(folder.path(), &order, 0, &[]);
    let rows = read_to_string(folder.path().join("rows.csv")).unwrap();
    let fields: Vec<Vec<String>> = csv::Reader::from_reader(rows.as_bytes())
        .records()
        .map(|r| r.unwrap().iter().map(str::to_owned).collect())
        .collect();
    let of = |row: usize| (fields[row][0].as_str(), fields[row][2].as_str());
    assert_eq!(of(0), ("'=cmd|' /C calc'!A0", "'+1+1"));
    assert_eq!(of(1), ("'@SUM(1)", "'-2+3"));
    assert_eq!(of(2), ("-5", "plain"), "a number is none");
}

/// A label with a line end in it made a row of two lines, and a resumed run lose rows.
#[test]
fn labels_of_a_study_are_cleaned_and_harmless_in_its_rows() {
    let folder = desk();
    write(
        folder.path().join("steel.toml"),
        "title = \"Steel\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"steel\"\n\
         values = [\"S235\", \"S355\"]\nlabels = [\"a\\nb\", \"=1+1\"]\n",
    )
    .unwrap();
    says(folder.path(), &["study", "steel.toml", "--out", "out", "--json-lines"], 0, &["2 rows"]);
    let rows = read_to_string(folder.path().join("out/steel.csv")).unwrap();
    assert_eq!(rows.lines().count(), 3, "{rows}");
    assert!(rows.contains("0,a b,") && rows.contains("1,'=1+1,"), "{rows}");
    says(folder.path(), &["study", "verify", "out"], 0, &["steel: 2 of 2 rows, all there"]);
    let shown =
        says(folder.path(), &["study", "steel.toml", "--out", "out"], 0, &["All 2 rows are there already"]);
    assert!(shown.contains(" =1+1 "), "read back as it was: {shown}");
}

/// Numbers of three hundred digits were written out.
#[test]
fn numbers_are_written_in_a_few_figures() {
    let folder = desk();
    write(
        folder.path().join("legs.toml"),
        "title = \"t\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\n\
         values = [\"1e308 mm\", \"5e-324 mm\", \"6 mm\"]\n",
    )
    .unwrap();
    let mut said = says(folder.path(), &["study", "legs.toml", "--out", "out"], 0, &["failed"]);
    said += &read_to_string(folder.path().join("out/legs.csv")).unwrap();
    changed(folder.path(), "rafter.toml", "\"9.0 m\"", "\"1e300 m\"");
    said += &says(folder.path(), &["predict", "rafter.toml"], 1, &["member.length"]);
    let digits = said.split(|c: char| !c.is_ascii_digit()).map(str::len).max();
    assert!(digits < Some(18), "{digits:?} digits in a row:\n{said}");
}

/// Titles, lessons and labels of a study, and the page that a job is told on.
#[test]
fn a_study_and_a_page_show_hostile_words_harmlessly() {
    let folder = desk();
    let title = "title = \"Rafter R2, riding arena\"";
    changed(folder.path(), "rafter.toml", title, &format!("title = \"{HOSTILE}\""));
    let study = format!(
        "title = \"{HOSTILE}\"\nlesson = \"{HOSTILE}\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n\
         [[vary]]\nset = \"steel\"\nvalues = [\"S235\", \"S355\"]\nlabels = [\"{HOSTILE}\", \"b\"]\n\
         [[chart]]\nkind = \"lines\"\nx = \"steel\"\ny = [\"camber.max_mm\"]\n"
    );
    write(folder.path().join("s.toml"), study).unwrap();
    for arguments in [
        &["study", "s.toml"][..],
        &["study", "s.toml", "--out", "out", "--json-lines"],
        &["study", "verify", "out"],
        &["page", "rafter.toml", "--out", "page.html"],
        &["choose", "rafter.toml", "--shop", "shop.toml", "--write", "new.toml"],
    ] {
        let said = shows_harmlessly(folder.path(), arguments);
        assert!(!said.lines().any(|l| l.trim() == "everything within"), "a forged line:\n{said}");
    }
    for name in ["page.html", "out/s.csv", "out/s.jsonl", "out/s.svg"] {
        let text = read_to_string(folder.path().join(name)).unwrap();
        assert!(harmless(&text), "{name}");
    }
}
