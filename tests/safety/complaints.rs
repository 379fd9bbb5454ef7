//! With `--json` a caller gets every problem as an object: file, line, column, field, found, wanted.

use super::{complained, desk, weldbow};
use serde_json::Value;
use std::fs::write;

fn told(arguments: &[&str], folder: &std::path::Path) -> Vec<Value> {
    let output = weldbow(folder, arguments);
    assert!(output.stdout.is_empty(), "{arguments:?}: {}", super::printed(&output));
    let said = complained(&output);
    said.lines().map(|line| serde_json::from_str(line).unwrap_or_else(|e| panic!("{e}: {line}"))).collect()
}

#[test]
fn problems_have_their_place_and_what_is_wanted() {
    let folder = desk();
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    write(folder.path().join("wrong.toml"), job.replace("\"5 mm\"", "\"5\"")).unwrap();
    let line = job.lines().position(|l| l.contains("web = [{")).unwrap() + 1;
    for arguments in [&["predict"][..], &["check"], &["straighten"], &["scatter"], &["section"], &["choose"]]
    {
        let all = told(&[arguments, &["wrong.toml", "--json"]].concat(), folder.path());
        assert_eq!(all.len(), 1, "{arguments:?}: {all:?}");
        let one = &all[0];
        assert_eq!((&one["file"], &one["line"]), (&"wrong.toml".into(), &line.into()), "{one}");
        assert_eq!(one["field"], "member.web[0].thickness");
        assert!(one["column"].is_number() && one["found"].as_str().unwrap().contains('5'), "{one}");
        assert!(one["wanted"].as_str().unwrap().contains("no unit") || one["wanted"].is_string(), "{one}");
        assert!(one["example"].is_string(), "{one}");
    }
}

#[test]
fn a_fault_without_a_place_is_an_object_too() {
    let folder = desk();
    let none = told(&["predict", "none.toml", "--json"], folder.path());
    assert_eq!((none.len(), &none[0]["found"]), (1, &"no such file".into()));
    assert!(none[0]["line"].is_null() && none[0]["file"] == "none.toml", "{none:?}");
    let all = told(&["straighten", "rafter.toml", "--sheet", "rafter.toml", "--json"], folder.path());
    assert_eq!(all.len(), 1);
    assert!(all[0]["found"].as_str().unwrap().contains("--force"), "{all:?}");
    let readings = "x [ft], camber [mm]\n0,0\n2,1\n4.5,3\n7,1\n9,0\n";
    write(folder.path().join("piece.csv"), readings).unwrap();
    let asked = told(&["straighten", "rafter.toml", "--measured", "piece.csv", "--json"], folder.path());
    assert_eq!((&asked[0]["field"], &asked[0]["right"]), (&"x".into(), &"x [m]".into()), "{asked:?}");
}

/// What is complained about is what is wrong.
#[test]
fn odd_files_are_called_what_they_are() {
    let folder = desk();
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    write(folder.path().join("deep.toml"), format!("a = {}{}\n", "[".repeat(300), "]".repeat(300))).unwrap();
    write(folder.path().join("old.toml"), job.replace('\n', "\r")).unwrap();
    write(folder.path().join("empty.csv"), "").unwrap();
    write(folder.path().join("week.csv"), "mark,job,quantity,week\nR2,rafter.toml,3,2027-W53\n").unwrap();
    for (arguments, part) in [
        (&["predict", "deep.toml"][..], "not this deep"),
        (&["predict", "old.toml"], "save the file with LF or CR LF"),
        (&["straighten", "rafter.toml", "--measured", "empty.csv"], "found no table"),
        (&["order", "week.csv"], "week: found `2027-W53`"),
    ] {
        super::says(folder.path(), arguments, 1, &[part]);
    }
    #[cfg(unix)]
    {
        write(folder.path().join("zero.csv"), "mark,job,quantity\nR2,/dev/zero,3\n").unwrap();
        super::says(folder.path(), &["order", "zero.csv"], 1, &["`/dev/zero`, which is no ordinary file"]);
    }
}
