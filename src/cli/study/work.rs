//! Computes rows: in memory, or onto disk with a progress bar, until done or stopped.

use super::output::Kept;
use crate::study::{Row, Study, Table, csv_lines};
use indicatif::{ProgressBar, ProgressState, ProgressStyle};
use std::fmt::Write;
use std::io::{Error, ErrorKind, Result};
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

/// Most cases whose rows are held in memory (a choice: some 100 MB).
const MOST_IN_MEMORY: u64 = 500_000;
/// Drawings of the progress bar in a second.
const DRAWN_A_SECOND: u8 = 10;

static STOP: AtomicBool = AtomicBool::new(false);

/// What a run on disk did.
#[derive(Debug)]
pub struct Done {
    /// Rows that were there already.
    pub before: u64,
    /// Rows computed now.
    pub computed: u64,
    /// Of these, without results.
    pub failed: u64,
    /// Why the first of them failed.
    pub reason: Option<String>,
    /// Rows wanted.
    pub wanted: u64,
    /// Seconds taken.
    pub seconds: f64,
    /// Whether it was stopped before the end.
    pub stopped: bool,
}

/// Rows of some cases, in memory.
///
/// # Errors
/// If they are too many.
pub fn in_memory(study: &Study, cases: Range<u64>) -> Result<Table> {
    if cases.end - cases.start > MOST_IN_MEMORY {
        let text = format!(
            "{} cases are too many to keep in memory: `--out DIR` keeps them on disk",
            cases.end - cases.start
        );
        return Err(Error::new(ErrorKind::InvalidInput, text));
    }
    Ok(study.table(&study.rows(cases)))
}

/// What one thread makes of a chunk of rows.
struct Chunk {
    csv: Vec<u8>,
    json_lines: Vec<u8>,
    rows: u64,
    failed: u64,
    reason: Option<String>,
}

/// Computes the cases that are not there yet.
///
/// # Errors
/// If they cannot be written; what was written before stays.
pub fn on_disk(study: &Study, cases: Range<u64>, mut kept: Kept) -> Result<Done> {
    watch_for_interrupt();
    let started = Instant::now();
    let before = kept.done;
    let mut done = Done {
        before,
        computed: 0,
        failed: 0,
        reason: None,
        wanted: cases.end - cases.start,
        seconds: 0.0,
        stopped: false,
    };
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
        failed: rows.iter().filter(|row| row.reason.is_some()).count() as u64,
        reason: rows.iter().find_map(|row| row.reason.clone()),
    };
    study.run(cases.start + before..cases.end, chunk, |chunks, rows| {
        for chunk in chunks {
            kept.add(&chunk.csv, &chunk.json_lines, chunk.rows)?;
            done.failed += chunk.failed;
            done.reason = done.reason.take().or(chunk.reason);
        }
        bar.inc(rows);
        Ok::<bool, Error>(!STOP.load(Ordering::Relaxed))
    })?;
    bar.finish_and_clear();
    done.computed = kept.done - before;
    done.stopped = kept.done < done.wanted;
    done.seconds = started.elapsed().as_secs_f64();
    Ok(done)
}

fn progress(wanted: u64, before: u64) -> ProgressBar {
    let target = indicatif::ProgressDrawTarget::stderr_with_hz(DRAWN_A_SECOND);
    let bar = ProgressBar::with_draw_target(Some(wanted), target).with_position(before);
    let style = "{bar:30} {human_pos} of {human_len} cases, {rate} a second, {eta} left";
    if let Ok(style) = ProgressStyle::with_template(style) {
        let rate = |state: &ProgressState, out: &mut dyn Write| {
            let _ = write!(out, "{:.0}", state.per_sec());
        };
        bar.set_style(style.with_key("rate", rate).progress_chars("━╸─"));
    }
    bar.reset_eta();
    bar
}

/// The first Ctrl-C ends the run after the rows at hand; where none can be watched for, it ends the program, and the
/// rows on disk are good all the same.
fn watch_for_interrupt() {
    let _ = ctrlc::set_handler(|| STOP.store(true, Ordering::Relaxed));
}
