//! The command line: parse, run, turn the outcome into an exit status.

use clap::Parser;
use std::process::ExitCode;
use weldbow::cli::{Cli, run};

fn main() -> ExitCode {
    run(&Cli::parse())
}
