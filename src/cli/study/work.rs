//! Computes rows: in memory, or onto disk with a progress bar, until done or stopped.

use super::output::Kept;
use crate::cli::interrupt::{is_stopped, watch_for_interrupt};
use crate::cli::memory::too_much;
use crate::cli::terminal::look;
use crate::study::{Row, Study, Table, csv_lines};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressState};
use std::fmt::Write;
use std::io::{Error, Result};
use std::ops::Range;
use std::time::Instant;

/// What a row and a cell of it take in memory, bytes (own measurement: 400 000 rows of 45 columns take 460 MB).
const ROW_BYTES: f64 = 200.0;
const CELL_BYTES: f64 = 40.0;
/// Cases from which a bar is drawn (a choice: half a second's work or so).
const WORTH_A_BAR: u64 = 20_000;
/// Drawings of the progress bar in a second.
const DRAWN_A_SECOND: u8 = 10;

/// What a run on disk did.
#[derive(Debug, Default)]
pub(crate) struct Done {
    /// Rows that were there already.
    pub(crate) before: u64,
    /// Rows computed now.
    pub(crate) computed: u64,
    /// Of these, without results.
    pub(crate) failed: u64,
    /// Why the first of them failed.
    pub(crate) reason: Option<String>,
    /// Rows wanted.
    pub(crate) wanted: u64,
    /// Seconds taken.
    pub(crate) seconds: f64,
    /// Whether it was stopped before the end.
    pub(crate) stopped: bool,
}

/// What to say of cases whose rows are too many to be held in memory, before any of it is taken.
pub(crate) fn too_large(study: &Study, cases: u64) -> Option<String> {
    let columns = study.columns().len();
    let bytes = cases as f64 * (ROW_BYTES + CELL_BYTES * columns as f64);
    too_much(format_args!("{cases} cases of {columns} columns"), bytes)
}

/// Rows of some cases, in memory; with a bar if they are many.
pub(crate) fn in_memory(study: &Study, cases: Range<u64>) -> (Table, Done) {
    let wanted = cases.end - cases.start;
    let rows = if wanted < WORTH_A_BAR {
        study.rows(cases)
    } else {
        let bar = progress(wanted, 0);
        let mut rows = Vec::with_capacity(usize::try_from(wanted).unwrap_or_default());
        let take = |chunks: Vec<Vec<Row>>, count| {
            rows.extend(chunks.into_iter().flatten());
            bar.inc(count);
            Ok::<bool, std::convert::Infallible>(true)
        };
        let Ok(()) = study.run(cases, <[Row]>::to_vec, take);
        bar.finish_and_clear();
        rows
    };
    let (failed, reason) = failures(&rows);
    (study.table(&rows), Done { wanted, computed: wanted, failed, reason, ..Done::default() })
}

/// How many rows failed, and why the first did.
fn failures(rows: &[Row]) -> (u64, Option<String>) {
    let failed = || rows.iter().filter_map(|row| row.reason.as_ref());
    (failed().count() as u64, failed().next().cloned())
}

/// What one thread makes of a chunk of rows.
struct Chunk {
    csv: Vec<u8>,
    json_lines: Vec<u8>,
    rows: u64,
    failures: (u64, Option<String>),
}

/// Computes the cases that are not there yet.
///
/// # Errors
/// If they cannot be written; what was written before stays.
pub(crate) fn on_disk(study: &Study, cases: Range<u64>, mut kept: Kept) -> Result<Done> {
    watch_for_interrupt();
    let started = Instant::now();
    let before = kept.done;
    let mut done = Done { before, wanted: cases.end - cases.start, ..Done::default() };
    let bar = progress(done.wanted, before);
    let columns = study.columns();
    let wants_json_lines = kept.wants_json_lines();
    let chunk = |rows: &[Row]| Chunk {
        csv: csv_lines(rows),
        json_lines: if wants_json_lines {
            rows.iter().flat_map(|row| study.json_line(row, &columns)).collect()
        } else {
            Vec::new()
        },
        rows: rows.len() as u64,
        failures: failures(rows),
    };
    study.run(cases.start + before..cases.end, chunk, |chunks, rows| {
        for chunk in chunks {
            kept.add(&chunk.csv, &chunk.json_lines, chunk.rows)?;
            done.failed += chunk.failures.0;
            done.reason = done.reason.take().or(chunk.failures.1);
        }
        kept.seal()?;
        bar.inc(rows);
        Ok::<bool, Error>(!is_stopped())
    })?;
    bar.finish_and_clear();
    done.computed = kept.done - before;
    done.stopped = kept.done < done.wanted;
    done.seconds = started.elapsed().as_secs_f64();
    Ok(done)
}

fn progress(wanted: u64, before: u64) -> ProgressBar {
    let target = ProgressDrawTarget::stderr_with_hz(DRAWN_A_SECOND);
    let bar = ProgressBar::with_draw_target(Some(wanted), target).with_position(before);
    let rate = |state: &ProgressState, out: &mut dyn Write| {
        let _ = write!(out, "{:.0}", state.per_sec());
    };
    let style = look("{bar:30} {human_pos} of {human_len} cases, {rate} a second, {eta} left");
    bar.set_style(style.with_key("rate", rate));
    bar.reset_eta();
    bar
}
