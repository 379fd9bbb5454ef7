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

/// What a list, or a study, of a stranger names may be anything: where it goes wrong is said, its lines are not shown.
#[test]
fn a_file_that_is_no_job_is_not_quoted_at_length() {
    let folder = desk();
    std::fs::create_dir(folder.path().join("private")).unwrap();
    write(folder.path().join("private/keys"), "first:secret-one\nsecond:secret-two\n").unwrap();
    write(folder.path().join("leak.csv"), "mark,job,quantity\nA,private/keys,3\n").unwrap();
    let study = "title = \"t\"\njob = \"private/keys\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\nvalues = [\"4 mm\"]\n";
    write(folder.path().join("leak.toml"), study).unwrap();
    for arguments in [&["order", "leak.csv"][..], &["study", "leak.toml"], &["order", "leak.csv", "--json"]] {
        let said = super::says(folder.path(), arguments, 1, &["private/keys"]);
        assert!(!said.contains("secret"), "{arguments:?}: {said}");
    }
    // a file of the name of a job is quoted, or nobody could mend it
    write(folder.path().join("private/job.toml"), "title = \"a\"\nlenght = 1\n").unwrap();
    super::says(folder.path(), &["check", "private/job.toml"], 1, &["2 │ lenght = 1"]);
}

/// What a study cannot draw is said before a row is computed; a table that is missing with the file it is missing in.
#[test]
fn what_is_missing_or_cannot_be_shown_is_said_with_its_place() {
    let folder = desk();
    let study = |chart: &str| {
        let text = format!(
            "title = \"t\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"camber.at_mm\"]\n[[vary]]\nset = \"pass.leg\"\n\
             from = \"4 mm\"\nto = \"8 mm\"\nsteps = 30\n[[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\n\
             steps = 20\n[[chart]]\nkind = \"lines\"\n{chart}\n"
        );
        write(folder.path().join("s.toml"), text).unwrap();
    };
    for (chart, part) in [
        ("x = \"pass.leg\"\ny = \"camber.max_mm\"\nby = \"depth.end\"", "s.toml:18:6: chart 1, by"),
        ("x = \"pass.leg\"\ny = \"camber.max_mm\"\npanels = \"depth.end\"", "s.toml:18:10: chart 1, panels"),
    ] {
        study(chart);
        let said = super::says(folder.path(), &["study", "s.toml", "--out", "out"], 1, &[]);
        assert!(said.contains(part), "{part}:\n{said}");
        assert!(!folder.path().join("out/s.csv").exists(), "computed in vain");
    }
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    let (before, rest) = job.split_once("[demand]").unwrap();
    let after = &rest[rest.find("\n\n").unwrap()..];
    write(folder.path().join("bare.toml"), format!("{before}{after}")).unwrap();
    super::says(
        folder.path(),
        &["choose", "bare.toml", "--shop", "shop.toml"],
        1,
        &["bare.toml: the job has no [demand] table"],
    );
}

/// A wrong command line is an object too, for whoever asked for objects.
#[test]
fn a_wrong_command_line_is_an_object_too() {
    let folder = desk();
    for (arguments, part) in [
        (&["predict", "rafter.toml", "--jsom", "--json"][..], "--jsom"),
        (&["straighten", "rafter.toml", "shop.toml", "--measured", "measured.csv", "--json"], "one piece"),
        (&["predict", "--json"], "JOB"),
    ] {
        let output = weldbow(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{}", complained(&output));
        let all = told(arguments, folder.path());
        assert!(all.len() == 1 && all[0]["found"].as_str().unwrap().contains(part), "{all:?}");
    }
}
