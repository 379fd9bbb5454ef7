//! The command line: parse, run, turn the outcome into an exit status.

use std::process::ExitCode;
use weldbow::cli::{parse, run};

fn main() -> ExitCode {
    run(&parse(std::env::args_os()))
}
