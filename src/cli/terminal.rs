//! What the terminal can show: colours, how many characters in a line, and how far a long run has come.

use clap::ColorChoice;
use comfy_table::Table;
use indicatif::{HumanDuration, ProgressBar, ProgressDrawTarget, ProgressState, ProgressStyle};
use std::env::var_os;
use std::ffi::OsString;
use std::fmt::Write;
use std::time::Duration;

/// Narrowest line that is written for (a choice: below it words are cut in any case).
const NARROWEST: usize = 20;

/// Whether colours may be used on an output, a terminal or not.
pub(crate) fn colours(terminal: bool) -> bool {
    terminal && wanted(var_os)
}

/// Colours of help and of complaints about the command line: by the same wish as all else, whatever the machine is said to be.
pub(crate) fn of_help() -> ColorChoice {
    if wanted(var_os) { ColorChoice::Auto } else { ColorChoice::Never }
}

/// By what people set to have none: `NO_COLOR` to anything, `CLICOLOR` to 0, or a terminal that is dumb.
fn wanted(said: impl Fn(&'static str) -> Option<OsString>) -> bool {
    let is = |name, value: &str| said(name).is_some_and(|found| found == value);
    let forbidden = said("NO_COLOR").is_some_and(|found| !found.is_empty());
    !(forbidden || is("CLICOLOR", "0") || is("TERM", "dumb"))
}

/// Characters in a line: so many, or those that there is room for if that is less.
pub(crate) fn width(most: usize) -> usize {
    room(false).map_or(most, |here| here.min(most))
}

/// Characters that there is room for in a line: what `COLUMNS` says, or the terminal that the output (or the error stream) goes to has; none
/// where it goes to none.
pub(super) fn room(errors: bool) -> Option<usize> {
    let said = var_os("COLUMNS").and_then(|said| said.to_str()?.trim().parse::<usize>().ok());
    if let Some(columns) = said.filter(|columns| *columns > 0) {
        return Some(columns.max(NARROWEST));
    }
    let mut output = Table::new();
    if errors {
        output.use_stderr();
    }
    output.width().map(|here| usize::from(here).max(NARROWEST))
}

/// How often a bar is drawn anew while nothing of its work is finished.
const TICK: Duration = Duration::from_millis(250);

/// A bar for work of some seconds, drawn on a terminal only; `what` names what is counted.
pub(crate) fn progress(count: u64, what: &str) -> ProgressBar {
    drawn(Some(count), "{bar:30} {human_pos} of {human_len} {msg}, {time}", what)
}

/// A mark that work of some seconds goes on, where nothing can be counted; drawn on a terminal only.
pub(crate) fn working(what: &str) -> ProgressBar {
    drawn(None, "{spinner} {msg}, {time}", what)
}

/// How every bar looks.
pub(super) fn look(template: &str) -> ProgressStyle {
    ProgressStyle::with_template(template)
        .unwrap_or_else(|_| ProgressStyle::default_bar())
        .progress_chars("━╸─")
}

fn drawn(count: Option<u64>, template: &str, what: &str) -> ProgressBar {
    let bar = ProgressBar::with_draw_target(count, ProgressDrawTarget::stderr());
    bar.set_style(look(template).with_key("time", time));
    bar.set_message(what.to_owned());
    bar.tick();
    // where the machine has no thread left, the bar moves with the work alone
    if !bar.is_hidden() && std::thread::Builder::new().spawn(|| {}).is_ok() {
        bar.enable_steady_tick(TICK);
    }
    bar
}

/// What is left by what is done; before anything is, how long it has taken.
fn time(state: &ProgressState, out: &mut dyn Write) {
    // what cannot be shown is not missed
    let _ = match state.len() {
        Some(_) if state.pos() > 0 => write!(out, "{:#} left", HumanDuration(state.eta())),
        _ => write!(out, "{:#} so far", HumanDuration(state.elapsed())),
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_wants_no_colours_gets_none() {
        let of = |set: &[(&str, &str)]| {
            wanted(|name| set.iter().find(|(of, _)| *of == name).map(|(_, value)| OsString::from(value)))
        };
        assert!(of(&[]) && of(&[("NO_COLOR", "")]) && of(&[("CLICOLOR", "1")]) && of(&[("TERM", "xterm")]));
        for set in [("NO_COLOR", "1"), ("CLICOLOR", "0"), ("TERM", "dumb")] {
            assert!(!of(&[set]), "{set:?}");
        }
        assert!(!colours(false));
    }

    #[test]
    fn a_line_is_never_wider_than_wanted() {
        assert!((NARROWEST..=100).contains(&width(100)));
        assert!(width(5) <= 5);
    }
}
