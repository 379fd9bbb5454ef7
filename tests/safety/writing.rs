//! What a command writes: never over what it read or what is another's, through links, into devices, whole or not at all.

use super::{complained, desk, names, says, weldbow};
use std::fs::{create_dir, metadata, read, read_to_string, write};
use std::path::Path;

/// A command that writes one file, with that name for it.
fn writers(name: &str) -> [Vec<String>; 3] {
    let words =
        |text: &str| -> Vec<String> { text.split(' ').map(str::to_owned).chain([name.to_owned()]).collect() };
    [
        words("order order.csv --shop shop.toml --draws 2 --pieces 2 --csv"),
        words("straighten rafter.toml --shop shop.toml --measured measured.csv --sheet"),
        words("choose rafter.toml --shop shop.toml --write"),
    ]
}

fn with<'a>(arguments: &'a [String], more: &[&'a str]) -> Vec<&'a str> {
    arguments.iter().map(String::as_str).chain(more.iter().copied()).collect()
}

#[test]
fn nothing_is_written_onto_a_file_that_was_read() {
    let folder = desk();
    let before: Vec<Vec<u8>> = ["order.csv", "rafter.toml", "shop.toml", "measured.csv"]
        .map(|f| read(folder.path().join(f)).unwrap())
        .into();
    std::fs::hard_link(folder.path().join("rafter.toml"), folder.path().join("same.toml")).unwrap();
    for (writer, victims) in [
        (0, &["order.csv", "rafter.toml", "same.toml", "shop.toml"][..]),
        (1, &["rafter.toml", "./rafter.toml", "shop.toml", "measured.csv"]),
        (2, &["rafter.toml", "same.toml", "shop.toml"]),
    ] {
        for victim in victims {
            for more in [&[][..], &["--force"]] {
                says(folder.path(), &with(&writers(victim)[writer], more), 1, &[victim]);
            }
        }
    }
    for (name, was) in ["order.csv", "rafter.toml", "shop.toml", "measured.csv"].iter().zip(before) {
        assert!(read(folder.path().join(name)).unwrap() == was, "{name} was changed");
    }
}

#[test]
fn a_file_of_another_stays_unless_it_is_asked_for() {
    for writer in 0..3 {
        let folder = desk();
        let place = folder.path().join("there");
        write(&place, "mine\n").unwrap();
        let arguments = &writers("there")[writer];
        says(folder.path(), &with(arguments, &[]), 1, &["there", "--force"]);
        assert_eq!(read_to_string(&place).unwrap(), "mine\n");
        says(folder.path(), &with(arguments, &["--force"]), 0, &[]);
        let ours = read(&place).unwrap();
        assert!(ours != b"mine\n");
        // and once it is ours it is written anew without a word
        says(folder.path(), &with(arguments, &[]), 0, &[]);
        assert!(read(&place).unwrap() == ours, "the same command writes the same");
        assert!(!names(folder.path()).iter().any(|n| n.starts_with('.')), "{:?}", names(folder.path()));
    }
}

#[test]
fn charts_of_another_stay_and_ours_are_drawn_anew() {
    let folder = desk();
    let charts = folder.path().join("charts");
    create_dir(&charts).unwrap();
    write(charts.join("rafter-bow.png"), b"\x89PNG\r\n\x1a\n a photograph of another").unwrap();
    let draw = ["predict", "rafter.toml", "--charts", "charts"];
    says(folder.path(), &draw, 1, &["rafter-bow.png stands there already", "--force"]);
    assert_eq!(names(&charts), ["rafter-bow.png"], "all charts or none");
    says(folder.path(), &[&draw[..], &["--force"]].concat(), 0, &["8 charts"]);
    says(folder.path(), &draw, 0, &["8 charts"]);
    let png = read(charts.join("rafter-bow.png")).unwrap();
    assert!(png.starts_with(b"\x89PNG\r\n\x1a\n") && png.len() > 5000);
}

/// Counted by the files that are there: what is said and what is drawn agree.
#[test]
fn jobs_of_one_name_do_not_draw_over_each_other() {
    let folder = desk();
    for place in ["a", "b"] {
        create_dir(folder.path().join(place)).unwrap();
        std::fs::copy(folder.path().join("rafter.toml"), folder.path().join(place).join("x.toml")).unwrap();
    }
    std::fs::copy(folder.path().join("rafter.toml"), folder.path().join("x-2.toml")).unwrap();
    for (arguments, said) in [
        (&["predict", "a/x.toml", "b/x.toml", "x-2.toml"][..], 24),
        (&["scatter", "a/x.toml", "b/x.toml", "--draws", "4", "--pieces", "4"], 8),
        (&["straighten", "a/x.toml", "b/x.toml", "--preset"], 2),
    ] {
        let charts = format!("charts-{}", arguments[0]);
        says(folder.path(), &[arguments, &["--charts", &charts]].concat(), 0, &["charts (SVG and PNG)"]);
        let drawn = names(&folder.path().join(&charts)).len();
        assert!(drawn >= 2 * said, "{arguments:?}: {drawn} files of {said} charts");
        assert!(
            drawn.is_multiple_of(2) && (arguments[0] == "straighten" || drawn == 2 * said),
            "{drawn} files"
        );
    }
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_kept() {
    use std::os::unix::fs::symlink;
    let folder = desk();
    create_dir(folder.path().join("far")).unwrap();
    symlink("far/rows.csv", folder.path().join("link.csv")).unwrap();
    let arguments = &writers("link.csv")[0];
    for _ in 0..2 {
        says(folder.path(), &with(arguments, &[]), 0, &[]);
        assert!(folder.path().join("link.csv").symlink_metadata().unwrap().is_symlink());
        assert!(read_to_string(folder.path().join("far/rows.csv")).unwrap().starts_with("mark,job,family"));
    }
    // a link to a file that was read leads to it
    symlink("rafter.toml", folder.path().join("job.toml")).unwrap();
    says(folder.path(), &with(&writers("job.toml")[2], &["--force"]), 1, &["was read in this run"]);
    symlink("ring", folder.path().join("ring")).unwrap();
    says(folder.path(), &with(&writers("ring")[0], &[]), 1, &["ring"]);
}

#[cfg(unix)]
#[test]
fn devices_and_pipes_are_written_into_and_stay_what_they_are() {
    use std::os::unix::fs::FileTypeExt;
    let folder = desk();
    let table =
        with(&writers("/dev/stdout")[0], &["--json"]).into_iter().map(str::to_owned).collect::<Vec<_>>();
    let table: Vec<&str> = table.iter().map(String::as_str).collect();
    says(folder.path(), &table, 0, &["mark,job,family,week"]);
    says(folder.path(), &with(&writers("/dev/null")[0], &[]), 0, &[]);
    assert!(metadata("/dev/null").unwrap().file_type().is_char_device());
    std::process::Command::new("mkfifo").arg(folder.path().join("pipe")).status().unwrap();
    let read = std::process::Command::new("cat")
        .arg(folder.path().join("pipe"))
        .stdout(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    says(folder.path(), &with(&writers("pipe")[0], &[]), 0, &[]);
    let through = String::from_utf8(read.wait_with_output().unwrap().stdout).unwrap();
    assert!(through.starts_with("mark,job,family"), "{through}");
    assert!(metadata(folder.path().join("pipe")).unwrap().file_type().is_fifo());
    let full =
        says(folder.path(), &with(&writers("/dev/full")[0], &[]), 1, &["/dev/full: cannot be written"]);
    assert!(!full.contains(".tmp") && !full.contains(".weldbow"), "{full}");
}

#[cfg(unix)]
#[test]
fn permissions_stay_and_new_files_get_what_the_umask_leaves() {
    use std::os::unix::fs::PermissionsExt;
    let folder = desk();
    let mode = |name: &str| metadata(folder.path().join(name)).unwrap().permissions().mode() & 0o777;
    let set = |name: &str, mode| {
        std::fs::set_permissions(folder.path().join(name), std::fs::Permissions::from_mode(mode)).unwrap();
    };
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    for (umask, wanted) in [("022", 0o644), ("077", 0o600), ("002", 0o664)] {
        let name = format!("new-{umask}.toml");
        let script = format!("umask {umask}; exec {} new {name}", bin.display());
        std::process::Command::new("sh").current_dir(folder.path()).args(["-c", &script]).status().unwrap();
        assert_eq!(mode(&name), wanted, "umask {umask}");
    }
    says(folder.path(), &with(&writers("out.toml")[2], &[]), 0, &[]);
    set("out.toml", 0o600);
    says(folder.path(), &with(&writers("out.toml")[2], &[]), 0, &[]);
    assert_eq!(mode("out.toml"), 0o600, "a private file stays private");
    set("out.toml", 0o400);
    says(folder.path(), &with(&writers("out.toml")[2], &["--force"]), 1, &["is write-protected"]);
}

#[test]
fn outputs_are_looked_at_before_anything_is_computed() {
    let folder = desk();
    write(folder.path().join("file"), "").unwrap();
    for name in ["nowhere/x", "file/x", "."] {
        for writer in writers(name) {
            let output = weldbow(folder.path(), &with(&writer, &[]));
            let said = complained(&output);
            assert_eq!(output.status.code(), Some(1), "{writer:?}: {said}");
            assert!(output.stdout.is_empty(), "{writer:?} computed in vain");
            assert!(said.contains(name) && !said.contains(".tmp") && !said.contains(".weldbow"), "{said}");
        }
    }
}

/// A limit on the size of files stands for a full disk.
#[cfg(unix)]
#[test]
fn new_writes_all_or_nothing() {
    let folder = desk();
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    let script = format!("ulimit -f 0; {} new made.toml; echo status $?", bin.display());
    let run =
        std::process::Command::new("bash").current_dir(folder.path()).args(["-c", &script]).output().unwrap();
    let said = format!("{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
    assert!(said.contains("status 1") && said.contains("made.toml: cannot be written"), "{said}");
    assert!(!Path::new(&folder.path().join("made.toml")).exists(), "half a job");
    assert!(!names(folder.path()).iter().any(|n| n.starts_with('.')), "{:?}", names(folder.path()));
    says(folder.path(), &["new", "made.toml"], 0, &[]);
}
