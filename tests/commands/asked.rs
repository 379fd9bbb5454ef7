//! The program asked on a command line, and what it answers.

use assert_cmd::Command;
use serde_json::{Value, from_slice};
use std::path::Path;
use std::process::Output;

/// Path of a demo job.
pub(crate) fn demo(stem: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("studies/jobs").join(format!("{stem}.toml"));
    path.display().to_string()
}

/// The program, run where the tree begins, with colours as the caller wants them.
pub(crate) fn command() -> Command {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(env!("CARGO_MANIFEST_DIR")).env_remove("NO_COLOR");
    command
}

/// One run of it.
pub(crate) fn weldbow(arguments: &[&str]) -> Output {
    command().args(arguments).output().unwrap()
}

/// What it printed.
pub(crate) fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

/// What it complained of.
pub(crate) fn complained(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// It ended with that status.
#[track_caller]
pub(crate) fn ends_with(output: &Output, status: i32) {
    assert_eq!(output.status.code(), Some(status), "stderr:\n{}", complained(output));
}

/// What it printed, as JSON.
#[track_caller]
pub(crate) fn json(arguments: &[&str]) -> Value {
    let output = weldbow(arguments);
    ends_with(&output, 0);
    from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e} in:\n{}", printed(&output)))
}
