//! What stands on the screen: in the units asked for, and while somebody tries things out.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

#[path = "terminal/american.rs"]
mod american;
#[path = "terminal/live.rs"]
mod live;
#[path = "terminal/screen.rs"]
mod screen;

use assert_cmd::Command;
use std::path::Path;

/// Status, what was printed and what was complained about.
fn weldbow(folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    let output = Command::cargo_bin("weldbow").unwrap().current_dir(folder).args(arguments).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}
