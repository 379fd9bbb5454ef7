//! Results on disk prove themselves: what is not as it was computed is named, computed again or refused, and a good whole stays.

use super::{changed, desk, names, says};
use std::fs::{copy, read, read_to_string, remove_file, write};
use std::path::Path;
use tempfile::TempDir;

const RESUME: [&str; 5] = ["study", "legs.toml", "--out", "out", "--resume"];

/// A desk with a finished study of 40 cases, JSON lines and a chart.
fn finished() -> TempDir {
    let folder = desk();
    write(
        folder.path().join("legs.toml"),
        "title = \"Legs\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\"]\n[[vary]]\nset = \"pass.leg\"\n\
         from = \"4 mm\"\nto = \"8 mm\"\nsteps = 40\n[[chart]]\nkind = \"lines\"\nx = \"pass.leg\"\ny = [\"sweep.max_mm\"]\n",
    )
    .unwrap();
    says(folder.path(), &["study", "legs.toml", "--out", "out", "--json-lines"], 0, &["40 rows computed"]);
    folder
}

fn csv(folder: &Path) -> std::path::PathBuf {
    folder.join("out/legs.csv")
}

/// Lines of the table with one change.
fn lines(folder: &Path, change: impl Fn(&mut Vec<String>)) {
    let mut lines: Vec<String> = read_to_string(csv(folder)).unwrap().lines().map(str::to_owned).collect();
    change(&mut lines);
    write(csv(folder), lines.join("\n") + "\n").unwrap();
}

/// A change of the lines of a table.
type Change = fn(&mut Vec<String>);

#[test]
fn a_changed_row_is_found_and_nothing_is_written_over_it() {
    let changes: [(&str, Change, &str); 8] = [
        ("a row gone", |l| drop(l.remove(20)), "legs.csv:21: changed since it was written"),
        ("two rows swapped", |l| l.swap(10, 11), "legs.csv:11:"),
        ("a row doubled", |l| l.insert(10, l[9].clone()), "legs.csv:11:"),
        ("a row blank", |l| l[10].clear(), "legs.csv:11:"),
        ("a number edited", |l| l[10] = l[10].replace('.', "x"), "legs.csv:2:"),
        ("another digit", |l| l[10] = l[10].replace('4', "5"), "legs.csv:"),
        ("the head changed", |l| l[0] = l[0].replace("camber", "chamber"), "legs.csv:1:"),
        ("line ends of another system", |l| l.iter_mut().for_each(|l| l.push('\r')), "legs.csv:1:"),
    ];
    for (what, change, said) in changes {
        let folder = finished();
        let good = read(csv(folder.path())).unwrap();
        lines(folder.path(), change);
        let bad = read(csv(folder.path())).unwrap();
        assert!(bad != good, "{what}: nothing was changed");
        for more in [&[][..], &["--json-lines"]] {
            says(folder.path(), &[&RESUME[..], more].concat(), 1, &[said, "Nothing was changed"]);
        }
        assert!(read(csv(folder.path())).unwrap() == bad, "{what}: written over");
        says(folder.path(), &["study", "verify", "out"], 1, &["NOT AS IT WAS"]);
        says(folder.path(), &[&RESUME[..], &["--force"]].concat(), 0, &[]);
        assert!(read(csv(folder.path())).unwrap() == good, "{what}: computed again");
        says(folder.path(), &["study", "verify", "out"], 0, &["40 of 40 rows, all there, 1 chart,"]);
    }
}

#[test]
fn verify_checks_rows_charts_and_what_they_were_computed_from() {
    let folder = finished();
    says(folder.path(), &["study", "verify", "out"], 0, &["legs: 40 of 40 rows, all there", "by this build"]);
    let kept: Vec<u8> = read(folder.path().join("out/legs.svg")).unwrap();
    changed(folder.path(), "out/legs.svg", "<title>", "<title>My ");
    says(folder.path(), &["study", "verify", "out"], 1, &["legs.svg was changed"]);
    write(folder.path().join("out/legs.svg"), kept).unwrap();
    changed(folder.path(), "out/legs.jsonl", "\"case\":7,", "\"case\":8,");
    says(folder.path(), &["study", "verify", "out"], 1, &["legs.jsonl:8:"]);
    let rows = read_to_string(csv(folder.path())).unwrap();
    write(csv(folder.path()), rows + "40,9,1,1,\n").unwrap();
    says(
        folder.path(),
        &["study", "verify", "out"],
        1,
        &["legs.csv holds more than the rows that were computed"],
    );
    let folder = finished();
    changed(folder.path(), "rafter.toml", "title = ", "# a remark\ntitle = ");
    says(folder.path(), &["study", "verify", "out"], 0, &["rafter.toml was changed since"]);
    says(folder.path(), &["study", "verify", "."], 1, &["no results of a study are there"]);
}

#[cfg(unix)]
#[test]
fn rows_go_through_no_link_and_into_no_pipe() {
    let folder = finished();
    let victim = folder.path().join("victim");
    std::fs::rename(csv(folder.path()), &victim).unwrap();
    std::os::unix::fs::symlink(&victim, csv(folder.path())).unwrap();
    let before = read(&victim).unwrap();
    says(folder.path(), &[&RESUME[..], &["--force"]].concat(), 1, &["legs.csv is no ordinary file"]);
    assert!(read(&victim).unwrap() == before);
    remove_file(csv(folder.path())).unwrap();
    std::process::Command::new("mkfifo").arg(csv(folder.path())).status().unwrap();
    says(folder.path(), &RESUME, 1, &["legs.csv is no ordinary file"]);
}

#[test]
fn merge_never_touches_a_good_whole_and_takes_no_damaged_part() {
    let folder = finished();
    let merge = ["study", "merge", "legs.toml", "--out", "out"];
    let good = read(csv(folder.path())).unwrap();
    for part in ["1/2", "2/2"] {
        says(folder.path(), &["study", "legs.toml", "--out", "out", "--shard", part, "--json-lines"], 0, &[]);
    }
    let part = "out/legs.part-1-of-2.csv";
    let sound = read_to_string(folder.path().join(part)).unwrap();
    let damaged: Vec<&str> =
        sound.lines().enumerate().map(|(i, l)| if i == 10 { "garbage" } else { l }).collect();
    write(folder.path().join(part), damaged.join("\n") + "\n").unwrap();
    says(folder.path(), &merge, 0, &["The whole is there already"]);
    assert!(read(csv(folder.path())).unwrap() == good);
    // without a whole, the part is refused and nothing is left behind
    for name in ["legs.csv", "legs.jsonl", "legs.rows.json"] {
        remove_file(folder.path().join("out").join(name)).unwrap();
    }
    says(folder.path(), &merge, 1, &["legs.part-1-of-2.csv:11:", "compute this part again"]);
    let there = names(&folder.path().join("out"));
    assert!(
        !there.contains(&"legs.csv".to_owned()) && !there.iter().any(|n| n.starts_with('.')),
        "{there:?}"
    );
    write(folder.path().join(part), sound).unwrap();
    // what a merge that was killed left
    write(folder.path().join("out/.legs.csv.unfinished"), "half").unwrap();
    says(folder.path(), &merge, 0, &["2 parts joined"]);
    assert!(!names(&folder.path().join("out")).iter().any(|n| n.starts_with('.')), "what a killed one left");
    assert!(read(csv(folder.path())).unwrap() == good);
    says(folder.path(), &["study", "verify", "out"], 0, &["legs: 40 of 40 rows, all there, 1 chart,"]);
}

#[test]
fn a_division_that_cannot_be_is_refused() {
    let folder = finished();
    for n in ["41", "100000", "18446744073709551615"] {
        let part = format!("1/{n}");
        says(folder.path(), &["study", "legs.toml", "--out", "new", "--shard", &part], 2, &["40 cases"]);
    }
    let good = read(csv(folder.path())).unwrap();
    for (name, said) in [("legs.part-1-of-0", "no part of 0"), ("legs.part-1-of-100000", "no part of 100000")]
    {
        let folder = finished();
        let label = folder.path().join("out/legs.rows.json");
        copy(&label, folder.path().join(format!("out/{name}.rows.json"))).unwrap();
        for more in ["legs.csv", "legs.rows.json"] {
            remove_file(folder.path().join("out").join(more)).unwrap();
        }
        says(folder.path(), &["study", "merge", "legs.toml", "--out", "out"], 1, &[said]);
    }
    assert!(read(csv(folder.path())).unwrap() == good);
}

#[test]
fn rows_of_another_build_are_not_mixed_with_these() {
    let folder = finished();
    let build = weldbow::study::BUILD;
    changed(folder.path(), "out/legs.rows.json", build, "0123456789abcdef");
    says(folder.path(), &RESUME, 1, &["this program were changed"]);
    says(folder.path(), &["study", "verify", "out"], 0, &["by another build"]);
}

/// Two axes that set one place, a value that is none, and steps whose difference is none.
#[test]
fn axes_that_cannot_be_are_refused() {
    let folder = desk();
    let head = "title = \"t\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\"]\n";
    let leg = "[[vary]]\nset = \"pass.leg\"\nvalues = [\"4 mm\"]\n";
    let of_job = "[[vary]]\nset = \"job\"\nvalues = [\"rafter.toml\"]\n";
    for (axes, part) in [
        (
            "[[vary]]\nset = \"factors.force\"\nvalues = [0.5, nan, 1.5]\n".to_owned(),
            "vary 1, values 2: found `nan` or `inf`",
        ),
        ("[[vary]]\nset = \"pass.leg\"\nvalues = [\"4 mm\", nan]\n".to_owned(), "`nan` or `inf`"),
        (
            "[[vary]]\nset = \"factors.force\"\nfrom = -1e308\nto = 1e308\nsteps = 3\n".to_owned(),
            "ends whose difference is a number",
        ),
        (leg.repeat(2), "vary 2, set: found `pass.leg`, which vary 1 sets already"),
        (of_job.repeat(2), "vary 2, set: found `job`, which vary 1 sets already"),
    ] {
        write(folder.path().join("s.toml"), format!("{head}{axes}")).unwrap();
        says(folder.path(), &["study", "s.toml"], 1, &[part]);
    }
}

/// The level and how joints are solved may vary, and are refused where nothing depends on them or no such value is there.
#[test]
fn the_level_and_the_section_may_be_axes() {
    let folder = desk();
    let study = |collect: &str, axes: &str| {
        let text = format!("title = \"t\"\njob = \"rafter.toml\"\ncollect = [\"{collect}\"]\n{axes}");
        write(folder.path().join("s.toml"), text).unwrap();
    };
    let axis = |set: &str, values: &str| format!("[[vary]]\nset = \"{set}\"\nvalues = {values}\n");
    study("sweep.max_mm", &axis("level", "[\"formula\", \"strip\"]"));
    let said = ["formula and strip level", "2 rows computed"];
    says(folder.path(), &["study", "s.toml", "--out", "out"], 0, &said);
    let rows = read_to_string(folder.path().join("out/s.csv")).unwrap();
    let level = |arguments: &[&str]| -> f64 {
        let printed = super::printed(&super::weldbow(
            folder.path(),
            &[&["predict", "rafter.toml", "--json"], arguments].concat(),
        ));
        serde_json::from_str::<serde_json::Value>(&printed).unwrap()["sweep"]["max_mm"].as_f64().unwrap()
    };
    for (row, wanted) in rows.lines().skip(1).zip([level(&[]), level(&["--level", "strip"])]) {
        let found: f64 = row.split(',').nth(2).unwrap().parse().unwrap();
        println!("{row}: {wanted} by predict");
        assert_eq!(found.to_bits(), wanted.to_bits(), "{row}");
    }
    let joint = "section.inner.last.force_n";
    study(
        joint,
        &format!("{}{}", axis("section.at", "[\"2 m\", \"7 m\"]"), axis("section.model", "[\"fibres\"]")),
    );
    says(folder.path(), &["study", "s.toml", "--out", "joints"], 0, &["sections solved", "2 rows computed"]);
    let rows = read_to_string(folder.path().join("joints/s.csv")).unwrap();
    let forces: Vec<f64> =
        rows.lines().skip(1).map(|l| l.split(',').nth(3).unwrap().parse().unwrap()).collect();
    assert!(forces[0] > 0.0 && (forces[0] - forces[1]).abs() > 1e-9, "two places, two forces: {rows}");
    for (collect, axes, part) in [
        ("sweep.max_mm", axis("section.mesh", "[\"fine\"]"), "nothing else depends on it"),
        ("sweep.max_mm", axis("level", "[\"strips\"]"), "wanted: `formula` or `strip`"),
        (joint, axis("section.at", "[\"5 kg\"]"), "vary 1, values 1"),
        (
            "sweep.max_mm",
            "[[vary]]\nset = \"level\"\nvalues = [1]\ntimes = true\n".to_owned(),
            "drawn or multiplied",
        ),
    ] {
        study(collect, &axes);
        says(folder.path(), &["study", "s.toml"], 1, &[part]);
    }
}
