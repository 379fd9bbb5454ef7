//! The command line: parse, run, turn the outcome into an exit status.

use std::process::ExitCode;
use weldbow::cli::{no_sudden_end, on_all_cores, parse, run};

fn main() -> ExitCode {
    no_sudden_end();
    let cli = parse(std::env::args_os());
    on_all_cores(|| run(&cli))
}
