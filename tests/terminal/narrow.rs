//! A terminal of sixty columns: what is printed and complained about is broken between words, nothing runs beyond its edge.

#![cfg(target_os = "linux")]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use tempfile::tempdir;

const COLUMNS: usize = 60;

/// What a terminal of so many columns shows; None where none can be made.
fn shown(folder: &Path, arguments: &str) -> Option<String> {
    let bin = assert_cmd::cargo::cargo_bin("weldbow");
    // progress is drawn over itself and is not looked at here
    let line = format!("stty cols {COLUMNS} rows 40; {} {arguments}", bin.display());
    let run = Command::new("script")
        .current_dir(folder)
        .env("TERM", "dumb")
        // machines that build for others are taken for terminals with colours
        .env("CI", "true")
        .args(["-qec", &line, "/dev/null"])
        .stdin(Stdio::null())
        .output()
        .ok()?;
    Some(String::from_utf8_lossy(&run.stdout).replace('\r', ""))
}

#[test]
fn nothing_is_wider_than_a_narrow_terminal() {
    let studies = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies");
    let folder = tempdir().unwrap();
    for name in [
        "jobs/rafter.toml",
        "jobs/light.toml",
        "shop/shop.toml",
        "shop/measured-rafter.csv",
        "08-balance.toml",
    ] {
        let to = Path::new(name).file_name().unwrap();
        std::fs::copy(studies.join(name), folder.path().join(to)).unwrap();
    }
    let job = std::fs::read_to_string(folder.path().join("rafter.toml")).unwrap();
    let wrong =
        job.replace("thickness = \"5 mm\"", "thickness = \"5\"").replace("[member]", "[member]\nlenght = 1");
    std::fs::write(folder.path().join("wrong.toml"), wrong).unwrap();
    let mut wide = Vec::new();
    for (arguments, part) in [
        ("predict rafter.toml --methods --constants", "Is it in tolerance?"),
        ("predict rafter.toml light.toml", "sweep"),
        ("check rafter.toml", "Sections"),
        ("straighten rafter.toml --shop shop.toml --measured measured-rafter.csv 2>/dev/null", "CAUTION"),
        ("straighten rafter.toml --shop shop.toml 2>/dev/null", "CAUTION"),
        ("order rafter.toml light.toml --shop shop.toml --draws 4 --pieces 4 2>/dev/null", "pieces"),
        ("scatter rafter.toml --draws 4 --pieces 4 2>/dev/null", "pieces"),
        ("choose rafter.toml --shop shop.toml 2>/dev/null", "leg"),
        ("cut rafter.toml", "web"),
        ("constants", "memory"),
        ("study rafter.toml --vary 'pass.leg = 4 mm, 6 mm' --show sweep,camber 2>/dev/null", "sweep"),
        ("predict wrong.toml", "did you mean"),
        ("predict none.toml", "no such file"),
        ("predict --help", "Usage"),
    ] {
        let Some(text) = shown(folder.path(), arguments) else {
            // seen also where the test passes
            std::io::stderr()
                .write_all(b"==== A NARROW TERMINAL WAS NOT LOOKED AT: script is not installed ====\n")
                .unwrap();
            return;
        };
        assert!(text.contains(part), "{arguments}: {part:?} is not in:\n{text}");
        // one long word, or a quoted line of a file, stays whole
        let breakable = |line: &str| line.trim().contains(' ') && !line.contains(['│', '─', '╭', '╰']);
        let long = text.lines().filter(|line| line.chars().count() > COLUMNS && breakable(line));
        wide.extend(long.map(|line| format!("{arguments}: {line}")));
    }
    assert!(wide.is_empty(), "wider than {COLUMNS}:\n{}", wide.join("\n"));
}
