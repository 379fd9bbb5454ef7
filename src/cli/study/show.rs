//! A study for people: its lesson, its rows or their spread, chances, and which input matters.

use super::names::Names;
use super::work::Done;
use crate::cli::fitted::filled;
use crate::cli::show::{heading, percent, row_table};
use crate::cli::terminal::width;
use crate::input::text;
use crate::scatter::Chance;
use crate::study::{Chances, Study, Table, Values};
use std::io::{Result, Write};

/// Most rows shown one by one.
pub(crate) const MOST_ROWS: u64 = 40;
/// Widest line of the lesson.
const WIDE: usize = 100;
/// From here on a number is shown with a power of ten (a choice).
const LONG: f64 = 1e9;
/// Inputs shown of a result's shares.
const MOST_INPUTS: usize = 8;

/// Title, lesson, and what will be computed.
pub(crate) fn opening(study: &Study, out: &mut dyn Write) -> Result<()> {
    heading(&study.title, "", out)?;
    if let Some(lesson) = &study.lesson {
        writeln!(out, "{}", filled(lesson.split_whitespace(), width(WIDE), ["  ", "  "]))?;
    }
    writeln!(out, "{}", study.source())
}

/// What a run on disk did.
pub(crate) fn rows_kept(done: &Done, names: &Names, out: &mut dyn Write) -> Result<()> {
    let csv = names.csv();
    if done.computed == 0 && !done.stopped {
        writeln!(out, "All {} rows are there already, in {}", done.wanted, text::path(&csv))?;
    } else {
        let rate = done.computed as f64 / done.seconds.max(1e-9);
        let before =
            if done.before > 0 { format!("{} rows were there, ", done.before) } else { String::new() };
        writeln!(
            out,
            "{before}{} rows computed in {:.1} s ({rate:.0} a second), in {}",
            done.computed,
            done.seconds,
            text::path(&csv)
        )?;
    }
    if done.failed > 0 {
        let reason = done.reason.as_deref().unwrap_or_default();
        writeln!(
            out,
            "{} of them failed and say why in their last column; the first: {reason}",
            done.failed
        )?;
    }
    if done.stopped {
        let rows = done.before + done.computed;
        writeln!(
            out,
            "Stopped after {rows} of {} rows; the same command with --resume goes on",
            done.wanted
        )?;
    }
    Ok(())
}

/// Rows one by one if they are few, else what they say together.
pub(super) fn table(study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
    if study.is_sampled() {
        return findings(study, table, out);
    }
    if table.rows() as u64 <= MOST_ROWS { rows(&study.shown(table), out) } else { ends(study, table, out) }
}

fn rows(table: &Table, out: &mut dyn Write) -> Result<()> {
    let heads: Vec<String> = table.columns.iter().map(|c| head(&c.words, &c.unit)).collect();
    let names: Vec<&str> = heads.iter().map(String::as_str).collect();
    let right = (0..table.columns.len()).filter(|i| table.columns[*i].numbers().is_some());
    let decimals: Vec<usize> =
        table.columns.iter().map(|c| decimals_for(c.numbers().unwrap_or_default())).collect();
    let mut shown = row_table(&names, right);
    for row in 0..table.rows() {
        shown.add_row(table.columns.iter().zip(&decimals).map(|(column, decimals)| match &column.values {
            Values::Numbers(numbers) => with_decimals(numbers[row], *decimals),
            Values::Words(words) => words[row].clone(),
        }));
    }
    shown.put(out)
}

fn head(words: &str, unit: &str) -> String {
    if unit.is_empty() { words.to_owned() } else { format!("{words}, {unit}") }
}

/// A result in words with the unit shown, and how many engine units that has.
pub(crate) fn in_words(study: &Study, name: &str) -> (String, f64) {
    study
        .shown_as(name)
        .map_or_else(|| (name.to_owned(), 1.0), |(words, unit, size)| (head(words, unit), size))
}

/// Smallest, mean and largest of every result.
fn ends(study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
    let mut shown = row_table(&["result", "least", "mean", "most", "without"], 1..5);
    for spread in study.spreads(table) {
        let (least, most) = spread.all.ends().unwrap_or((f64::NAN, f64::NAN));
        let mean = spread.all.mean().unwrap_or(f64::NAN);
        let (name, size) = in_words(study, &spread.name);
        shown.add_row([
            name,
            number(least / size),
            number(mean / size),
            number(most / size),
            spread.all.failed().to_string(),
        ]);
    }
    shown.put(out)
}

/// What drawn rows say.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn findings(study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
    if !study.one_point() {
        writeln!(out, "Draws at several points of the grid: the charts tell them apart; here all together.")?;
    }
    spreads(study, table, out)?;
    chances(&study.chances(table), out)?;
    shares(study, table, out)
}

fn spreads(study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
    let spreads = study.spreads(table);
    if spreads.is_empty() {
        return Ok(());
    }
    heading("Spread of results", "model bias and scatter from piece to piece together, as drawn", out)?;
    let apart = spreads.iter().any(|s| study.bias_and_scatter(table, &s.name).is_some());
    let mut names = vec!["result", "mean", "standard deviation", "5 %", "median", "95 %"];
    if apart {
        names.extend(["by bias", "by scatter"]);
    }
    let mut shown = row_table(&names, 1..names.len());
    for s in &spreads {
        let (name, size) = in_words(study, &s.name);
        let [low, middle, high] = s.quantiles.map(|q| q / size);
        let mut row = vec![
            name,
            number(s.all.mean().unwrap_or(f64::NAN) / size),
            number(s.all.sd().unwrap_or(f64::NAN) / size),
            number(low),
            number(middle),
            number(high),
        ];
        if let Some(parts) = study.bias_and_scatter(table, &s.name) {
            row.extend([number(parts.bias_sd / size), number(parts.scatter_sd / size)]);
        }
        shown.add_row(row);
    }
    shown.put(out)?;
    if apart {
        writeln!(
            out,
            "  by bias, by scatter: standard deviations of what all pieces share and of what differs"
        )?;
    }
    Ok(())
}

fn chances(chances: &[Chances], out: &mut dyn Write) -> Result<()> {
    if chances.is_empty() {
        return Ok(());
    }
    let remark = "if the spreads of the inputs are what they are taken to be";
    heading("Chance to be beyond a limit", remark, out)?;
    let apart = chances.iter().any(|c| c.bias_and_scatter.is_some());
    let mut names = vec!["limit", "chance"];
    if apart {
        names.extend(["if the model is right", "range from model error"]);
    }
    let mut shown = row_table(&names, 1..names.len());
    for c in chances {
        let of = c.name.trim_start_matches("verdicts.").trim_end_matches(".beyond").replace('_', " ");
        let of = of.trim_end_matches(".out").to_owned();
        let mut row = vec![of];
        match &c.bias_and_scatter {
            Some(a) => row.extend([
                if c.all.out == 0 {
                    // pieces of one draw share their bias: only the draws count as cases
                    chance(&Chance { out: 0, of: a.draws, failed: 0 })
                } else {
                    format!("{} ± {}", percent(a.overall.0), percent(a.overall.1))
                },
                chance(&a.model_right),
                format!("{} … {}", percent(a.range.0), percent(a.range.1)),
            ]),
            None => row.push(chance(&c.all)),
        }
        shown.add_row(row);
    }
    shown.put(out)?;
    writeln!(
        out,
        "  ±: one standard error of the count. All pieces of a family share one model error, so one value in this range is theirs."
    )
}

/// "3.2 % ± 0.4 %", or "below 0.15 %" if none was beyond.
fn chance(chance: &Chance) -> String {
    match (chance.fraction(), chance.standard_error(), chance.at_most()) {
        (Some(_), _, Some(most)) => format!("below {}", percent(most)),
        (Some(p), Some(error), None) => format!("{} ± {}", percent(p), percent(error)),
        _ => "not known".to_owned(),
    }
}

fn shares(study: &Study, table: &Table, out: &mut dyn Write) -> Result<()> {
    for result in study.shares(table) {
        let (name, _) = in_words(study, &result.name);
        heading(&format!("Which input matters for {name}"), "shares of the variance", out)?;
        let mut shown = row_table(&["input", "by itself", "with others"], 1..3);
        for share in result.shares.iter().take(MOST_INPUTS) {
            let with_error = |(value, error): (f64, f64)| format!("{value:.3} ± {error:.3}");
            shown.add_row([share.input.clone(), with_error(share.alone), with_error(share.total)]);
        }
        shown.put(out)?;
        if result.dropped > 0 {
            writeln!(out, "  {} draws left out because a case failed", result.dropped)?;
        }
    }
    Ok(())
}

/// About three figures of a single number.
fn number(value: f64) -> String {
    with_decimals(value, decimals_for(&[value]))
}

/// Decimals that give the largest of some numbers three figures, and no more than they all need.
fn decimals_for(numbers: &[f64]) -> usize {
    let largest = numbers.iter().filter(|x| x.is_finite()).fold(0.0_f64, |most, x| most.max(x.abs()));
    let enough = if largest > 0.0 { (2.0 - largest.log10().floor()).clamp(0.0, 8.0) as usize } else { 0 };
    let needed = |decimals: usize| {
        let scale = 10_f64.powi(decimals as i32);
        numbers
            .iter()
            .filter(|x| x.is_finite())
            .all(|x| ((x * scale).round() - x * scale).abs() < 1e-6 * scale)
    };
    (0..enough).find(|decimals| needed(*decimals)).unwrap_or(enough)
}

/// A number with so many decimals; a dash where there is no value.
fn with_decimals(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let text = if value.abs() < LONG {
        format!("{:.decimals$}", value.abs())
    } else {
        format!("{:.2e}", value.abs())
    };
    let zero = text.bytes().all(|b| matches!(b, b'0' | b'.'));
    if value < 0.0 && !zero { format!("−{text}") } else { text }
}
