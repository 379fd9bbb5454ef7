//! The command line, one file a command. Only this room reads arguments, writes to the terminal and makes files.
//!
//! `predict`, `check`, `choose`, `cut`, `study`, `scatter`, `section`, `straighten`, `order`, `calibrate`, `constants`, `new`, `schema` are the commands; `show` turns
//! results into tables, `complain` turns mistakes into messages, `ended` says why a command ends early, `fitted` breaks every line that a terminal has no room for (what other
//! programs read goes through it unbroken), `files` writes what a command leaves behind, `whose` finds the
//! member that a measured piece is of.
//!
//! Words from outside are cleaned where they enter, by `input::text`; cells of a table go through `input::text::cell`.
//! `prediction::outside` says which results are no numbers; whoever shows a prediction asks it first.

mod calibrate;
mod check;
mod choose;
pub mod complain;
mod constants;
mod cut;
mod ended;
mod files;
mod fitted;
mod interrupt;
pub mod kind;
mod lists;
mod memory;
mod new;
mod one_of;
mod order;
mod page;
mod predict;
mod presented;
mod scatter;
pub mod schema;
mod section;
mod show;
mod straighten;
mod study;
mod terminal;
mod threads;
mod whose;

pub use threads::{no_sudden_end, on_all_cores};

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};
use ended::{BAD_INPUT, BAD_USAGE, DONE, Ended, Outcome};
use fitted::Fitted;
use std::ffi::OsString;
use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

/// How a welded, web-tapered built-up I-member will distort, and what to do about it.
///
/// Start with `weldbow new rafter.toml`, then `weldbow predict rafter.toml`.
#[derive(Debug, Parser)]
#[command(version, arg_required_else_help = true, max_term_width = 100)]
#[command(
    after_help = "Exit status: 0 done, 1 a file is wrong, 2 the command line is wrong, 3 out of tolerance (--strict), 4 stopped before the end (go on with --resume).\n\
    With --json complaints are one JSON object a line on the error stream: file, line, column, field, found, wanted, example.\n\
    Where a file is read, /dev/stdin is what comes through a pipe.\n\
    A file that stands there already is written over only if this program wrote it, or with --force; never one that was read."
)]
pub struct Cli {
    #[command(subcommand)]
    command: Command,
    /// Whether another program reads what it prints.
    #[arg(skip)]
    json: bool,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Predict how the member of each job distorts, and whether it stays in tolerance
    Predict(predict::Predict),
    /// Explain a job without predicting: sections, heat, legs, warnings
    Check(check::Check),
    /// Choose weld size and procedure that hold the member in tolerance and carry its load
    Choose(Box<choose::Choose>),
    /// Plates for the cutting table: outlines with the opposite bow, cut lists, as DXF, CSV and workbook
    Cut(cut::Cut),
    /// Ask how the distortion changes: vary a job, draw from distributions, chart the results
    Study(study::StudyCommand),
    /// Sum an order up: pieces to straighten, hours on the press, which family to fix first
    Order(order::OrderCommand),
    /// Learn from the shop's own measured pieces: what its welds do, how pieces differ, whether the shop has moved
    Calibrate(calibrate::Calibrate),
    /// Simulate pieces: how likely the member is out of tolerance, and what that rests on
    Scatter(scatter::Scatter),
    /// Solve a joint of the member from first principles, heat and plasticity, beside the formulas
    Section(section::Section),
    /// Decide whether a member needs straightening, and plan how: pushes, heats, or what stands in the way
    Straighten(Box<straighten::Straighten>),
    Constants(constants::Constants),
    /// Write one HTML file that opens by double click: report, bench for trying, joint, course
    Page(page::PageCommand),
    New(new::New),
    /// Print the JSON Schema of a job file, for editors that complete and check
    Schema {
        #[command(flatten)]
        kind: kind::KindArgs,
    },
    /// Print a completion script for a shell
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    Man,
}

/// Reads a command line; ends the program with a message if it is wrong. `--strict 0.05` may be written as `--strict=0.05`:
/// no file is called that, so that `--strict rafter.toml` stays what it is.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Cli {
    let is_share = |word: &OsString| word.to_str().is_some_and(|w| w.parse::<f64>().is_ok());
    let mut words: Vec<OsString> = Vec::new();
    for word in arguments {
        match words.last_mut() {
            Some(last) if last == "--strict" && is_share(&word) => {
                last.push("=");
                last.push(word);
            }
            _ => words.push(word),
        }
    }
    let json = words.iter().any(|word| word == "--json");
    let mut line = Cli::command().color(terminal::of_help());
    let understood = line.try_get_matches_from_mut(words);
    let read = understood.and_then(|found| {
        let of = found.subcommand().and_then(|(_, of)| of.try_get_one::<bool>("json").ok()?);
        let read = Cli::from_arg_matches(&found).map_err(|wrong| wrong.format(&mut line))?;
        Ok(Cli { json: of == Some(&true), ..read })
    });
    read.unwrap_or_else(|error| {
        if json && error.use_stderr() {
            complain::for_programs(true);
            // its first paragraph; usage and hints are for people
            let text = error.to_string();
            let found = text.split("\n\nUsage").next().unwrap_or_default();
            let found = found.trim_start_matches("error: ").split_whitespace().collect::<Vec<_>>().join(" ");
            let _ = complain::fault(None, &found);
            std::process::exit(i32::from(BAD_USAGE));
        }
        error.exit()
    })
}

/// Runs a command and gives its exit status. A reader that stops listening (`weldbow … | head`) is no error.
pub fn run(cli: &Cli) -> ExitCode {
    complain::for_programs(cli.json);
    // words for a person may be broken on a narrow terminal: not what another program reads
    let others = matches!(cli.command, Command::Schema { .. } | Command::Completions { .. } | Command::Man);
    let room = if cli.json || others { None } else { terminal::room(false) };
    let mut out = Fitted::new(io::BufWriter::new(io::stdout().lock()), room);
    let outcome: Outcome = match &cli.command {
        Command::Predict(command) => command.run(&mut out),
        Command::Check(command) => command.run(&mut out),
        Command::Choose(command) => command.run(&mut out),
        Command::Cut(command) => command.run(&mut out),
        Command::Calibrate(command) => command.run(&mut out),
        Command::Study(command) => command.run(&mut out),
        Command::Order(command) => command.run(&mut out),
        Command::Scatter(command) => command.run(&mut out),
        Command::Section(command) => command.run(&mut out),
        Command::Straighten(command) => command.run(&mut out),
        Command::Constants(command) => command.run(&mut out),
        Command::Page(command) => command.run(&mut out),
        Command::New(command) => command.run(&mut out).map(|()| DONE).map_err(Ended::from),
        Command::Schema { kind } => schema::run(kind.kind(), &mut out).map(|()| DONE).map_err(Ended::from),
        Command::Completions { shell } => {
            clap_complete::generate(*shell, &mut Cli::command(), "weldbow", &mut out);
            Ok(DONE)
        }
        Command::Man => {
            let written = clap_mangen::Man::new(Cli::command()).render(&mut out);
            written.map(|()| DONE).map_err(Ended::from)
        }
    };
    match outcome.or_else(Ended::say).and_then(|status| out.flush().map(|()| status)) {
        Ok(status) => ExitCode::from(status),
        Err(error) if error.kind() == ErrorKind::BrokenPipe => ExitCode::from(DONE),
        Err(error) => {
            let _ = complain::fault(None, &error.to_string());
            ExitCode::from(BAD_INPUT)
        }
    }
}
