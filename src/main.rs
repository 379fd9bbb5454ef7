//! The command line: parse, run, turn the outcome into an exit status.

use clap::Parser;
use std::process::ExitCode;
use weldbow::cli::{Cli, no_sudden_end, on_all_cores, run};

fn main() -> ExitCode {
    no_sudden_end();
    let cli = Cli::parse();
    on_all_cores(|| run(&cli))
}
