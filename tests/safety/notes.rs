//! What the front of a measured file says twice, without its colon, or of another member: nothing of it is dropped in silence.

use super::{desk, says};
use std::fs::{copy, create_dir, write};
use std::path::Path;

const ROWS: &str = "x [m], camber [mm], sweep [mm]\n0,0,0\n2.25,8,0\n4.5,11,0\n6.75,8,0\n9,0,0\n";

/// What straightening says of a piece with that front, and of those notes.
#[track_caller]
fn asked(folder: &Path, front: &str, notes: &[&str], status: i32, parts: &[&str]) -> String {
    write(folder.join("piece.csv"), format!("{front}{ROWS}")).unwrap();
    let plan = ["straighten", "rafter.toml", "--measured", "piece.csv", "--shop", "shop.toml"];
    let notes: Vec<&str> = notes.iter().flat_map(|note| ["--note", note]).collect();
    let said = says(folder, &[&plan[..], &notes].concat(), status, parts);
    assert!(status == 0 || !said.contains("Does it need"), "{said}");
    said
}

/// The last one held: vee heats were planned on quenched steel.
#[test]
fn a_key_that_says_two_things_is_refused_with_both_lines() {
    let folder = desk();
    let here = folder.path();
    let twice = "# delivery: quenched-tempered\n# note: cold\n# delivery: ordinary\n";
    let parts =
        ["piece.csv:3:13", "delivery: found `ordinary`, and `quenched-tempered` in line 1", "or line 1"];
    asked(here, twice, &[], 1, &parts);
    asked(here, "# up: near\n# Up: far\n", &[], 1, &["piece.csv:2:7", "`far`, and `near` in line 1"]);
    let over =
        ["--note:1:11", "`ordinary`, and `quenched-tempered` in line 1 of piece.csv", "leave this note out"];
    asked(here, "# delivery: quenched-tempered\n", &["delivery: ordinary"], 1, &over);
    let notes = ["measurements: 2", "measurements: 3"];
    asked(here, "", &notes, 1, &["--note:2:15", "`3`, and `2` in line 1"]);
}

#[test]
fn what_agrees_and_what_adds_up_passes() {
    let folder = desk();
    let same = "# delivery: ordinary\n# lay on: 0.5 m and 8.5 m\n# up: inner\n# lay on: 500 mm and 8500 mm\n";
    asked(folder.path(), same, &["delivery: Ordinary"], 0, &["Does it need straightening?"]);
    let adding = "# state: painted\n# state: galvanised\n# keep off: 1 m to 2 m\n# keep off: 3 m to 4 m\n";
    let both = ["Does it need straightening?"];
    asked(folder.path(), adding, &["state: loaded", "keep off: 5 m to 5.1 m"], 0, &both);
}

/// `# state cracks` was a remark, and the cracked piece was to be pressed.
#[test]
fn a_key_without_its_colon_is_no_remark() {
    let folder = desk();
    let front = "# delivery: ordinary\n# state cracks\n# service fatigue\n";
    let parts = [
        "piece.csv:2:3",
        "state: found `state cracks` without a colon",
        "right would be: # state: cracks",
        "right would be: # service: fatigue",
        "2 problems",
    ];
    asked(folder.path(), front, &[], 1, &parts);
    asked(
        folder.path(),
        "",
        &["delivery ordinary"],
        1,
        &["--note:1:1", "right would be: delivery: ordinary"],
    );
    let remarks = "# measured in the morning\n# state of the paint not looked at\n# line stopped at noon\n";
    asked(folder.path(), remarks, &[], 0, &["Does it need straightening?"]);
}

/// A sheet went out for the wrong member.
#[test]
fn readings_of_another_member_are_not_judged_as_those_of_this_one() {
    let folder = desk();
    let here = folder.path();
    create_dir(here.join("jobs")).unwrap();
    copy(here.join("rafter.toml"), here.join("jobs/column.toml")).unwrap();
    write(here.join("marks.csv"), "mark,job,quantity\nC1,jobs/column.toml,3\nR2,rafter.toml,1\n").unwrap();
    let other = ["piece.csv:1:3", "job: found `jobs/column.toml`", "rafter.toml", "mend this line"];
    asked(here, "# job: jobs/column.toml\n", &[], 1, &other);
    // a job that lies elsewhere by now is known by its name
    asked(here, "# job: ../gone/column.toml\n", &[], 1, &["job: found `../gone/column.toml`"]);
    asked(here, "# mark: C1\n# marks: marks.csv\n", &[], 1, &["mark: found `C1`, a mark of", "column.toml"]);
    asked(here, "# mark: C2\n# marks: marks.csv\n", &[], 1, &["`C2`, which is not in marks.csv"]);
    asked(here, "# mark: R2\n# marks: none.csv\n", &[], 1, &["marks: found `none.csv`, which is not there"]);
    for own in [
        "# job: rafter.toml\n",
        "# job: jobs/../rafter.toml\n",
        "# job: ../gone/rafter.toml\n",
        "# mark: R2\n# marks: marks.csv\n",
        "# mark: R2\n",
    ] {
        asked(here, own, &[], 0, &["Does it need straightening?"]);
    }
}

#[test]
fn a_log_of_pushes_belongs_to_measured_readings() {
    let folder = desk();
    write(folder.path().join("log.csv"), "step, travel [mm], force [kN], set [mm]\n1, 10, 100, 2\n").unwrap();
    let asked = ["straighten", "rafter.toml", "--shop", "shop.toml", "--log", "log.csv"];
    says(folder.path(), &asked, 2, &["--log is of one measured piece", "--measured"]);
}
