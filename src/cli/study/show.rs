//! A study for people: its lesson, its rows or their spread, chances, and which input matters.

use super::label::Names;
use super::work::Done;
use crate::cli::fitted::filled;
use crate::cli::show::{Columns, Report, chance, percent, row_table};
use crate::cli::terminal::width;
use crate::input::text;
use crate::scatter::{BiasAndScatter, Chance};
use crate::study::{Chances, Study, Table, Values, Warned};
use crate::tolerance::Likely;

/// Most rows shown one by one.
pub(crate) const MOST_ROWS: u64 = 40;
/// Least room beside a number in its cell.
const CELL: usize = 2;
/// Widest line of the lesson.
const WIDE: usize = 100;
/// From here on a number is shown with a power of ten (a choice).
const LONG: f64 = 1e9;
/// Inputs shown of a result's shares.
const MOST_INPUTS: usize = 8;

/// Title, lesson, and what will be computed.
pub(crate) fn opening(study: &Study, out: &mut Report) {
    out.heading(&study.title, "");
    if let Some(lesson) = &study.lesson {
        out.line(filled(lesson.split_whitespace(), width(WIDE), ["  ", "  "]));
    }
    out.line(study.source())
}

/// What a run on disk did.
pub(crate) fn rows_kept(done: &Done, names: &Names, out: &mut Report) {
    let csv = names.csv();
    if done.computed == 0 && !done.stopped {
        out.line(format!("All {} rows are there already, in {}", done.wanted, text::path(&csv)));
    } else {
        let rate = done.computed as f64 / done.seconds.max(1e-9);
        let before =
            if done.before > 0 { format!("{} rows were there, ", done.before) } else { String::new() };
        out.line(format!(
            "{before}{} rows computed in {:.1} s ({rate:.0} a second), in {}",
            done.computed,
            done.seconds,
            text::path(&csv)
        ));
    }
    failures(done, " and say why in their last column", out);
    if done.stopped {
        let rows = done.before + done.computed;
        out.line(format!(
            "Stopped after {rows} of {} rows; the same command with --resume goes on",
            done.wanted
        ));
    }
}

/// How many rows failed, what else is said of them, and why the first did.
pub(super) fn failures(done: &Done, beside: &str, out: &mut Report) {
    let Some(reason) = done.reason.as_deref().filter(|_| done.failed > 0) else { return };
    out.line(format!("{} of {} rows failed{beside}; the first: {reason}", done.failed, done.computed))
}

/// Rows one by one if they are few, else what they say together.
pub(super) fn table(study: &Study, table: &Table, out: &mut Report) {
    if study.is_sampled() {
        return findings(study, table, out);
    }
    if table.rows() as u64 <= MOST_ROWS { rows(&study.shown(table), out) } else { ends(study, table, out) }
}

fn rows(table: &Table, out: &mut Report) {
    let heads: Vec<String> = table.columns.iter().map(|c| head(&c.words, &c.unit)).collect();
    let right = (0..table.columns.len()).filter(|i| table.columns[*i].numbers().is_some());
    let decimals: Vec<usize> =
        table.columns.iter().map(|c| decimals_for(c.numbers().unwrap_or_default())).collect();
    let cell = |row: usize, column: usize| match &table.columns[column].values {
        Values::Numbers(numbers) => with_decimals(numbers[row], decimals[column]),
        Values::Words(words) => words[row].clone(),
    };
    let (many, rows) = (table.columns.len(), table.rows());
    let widest = |column: usize| (0..rows).map(|row| cell(row, column).chars().count()).max().unwrap_or(0);
    // neither a number nor a word is broken: rather a column a case
    let words = |column: usize| heads[column].split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
    let least = |column: usize| widest(column).max(words(column)) + CELL;
    if (0..many).map(least).sum::<usize>() > width(WIDE) && rows < many {
        let cases = (1..=rows).map(|case| format!("case {case}"));
        let names: Vec<String> = std::iter::once(String::new()).chain(cases).collect();
        let mut turned = row_table(&names, 1..names.len());
        for (column, head) in heads.iter().enumerate() {
            turned.add_row(std::iter::once(head.clone()).chain((0..rows).map(|row| cell(row, column))));
        }
        return turned.put(out);
    }
    let mut shown = row_table(&heads, right);
    for row in 0..rows {
        shown.add_row((0..many).map(|column| cell(row, column)));
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
fn ends(study: &Study, table: &Table, out: &mut Report) {
    let spreads = study.spreads(table);
    let no_ends = (f64::NAN, f64::NAN);
    Columns::of(spreads.iter().map(|s| (&s.all, s.all.ends().unwrap_or(no_ends), in_words(study, &s.name))))
        .left("result", |(.., (name, _))| name.clone())
        .right("least", |(_, (least, _), (_, size))| number(least / size))
        .right("mean", |(all, _, (_, size))| number(all.mean().unwrap_or(f64::NAN) / size))
        .right("most", |(_, (_, most), (_, size))| number(most / size))
        .right("without", |(all, ..)| all.failed().to_string())
        .put(out)
}

/// What drawn rows say.
pub(crate) fn findings(study: &Study, table: &Table, out: &mut Report) {
    if !study.one_point() {
        out.line("Draws at several points of the grid: the charts tell them apart; here all together.");
    }
    spreads(study, table, out);
    chances(&study.chances(table), out);
    shares(study, table, out)
}

fn spreads(study: &Study, table: &Table, out: &mut Report) {
    let spreads = study.spreads(table);
    if spreads.is_empty() {
        return;
    }
    let of = if study.draws_bias() {
        "model bias and scatter from piece to piece together, as drawn"
    } else {
        "of the inputs drawn, without the model's bias"
    };
    out.heading("Spread of results", of);
    let apart = spreads.iter().any(|s| study.bias_and_scatter(table, &s.name).is_some());
    let all = spreads.iter();
    let all = all.map(|s| (s, in_words(study, &s.name), study.bias_and_scatter(table, &s.name)));
    let part = |sd: Option<f64>, size: f64| sd.map_or_else(String::new, |sd| number(sd / size));
    Columns::of(all)
        .left("result", |(_, (name, _), _)| name.clone())
        .right("mean", |(s, (_, size), _)| number(s.all.mean().unwrap_or(f64::NAN) / size))
        .right("standard deviation", |(s, (_, size), _)| number(s.all.sd().unwrap_or(f64::NAN) / size))
        .right("5 %", |(s, (_, size), _)| number(s.quantiles[0] / size))
        .right("median", |(s, (_, size), _)| number(s.quantiles[1] / size))
        .right("95 %", |(s, (_, size), _)| number(s.quantiles[2] / size))
        .right_if(apart, "by bias", |(_, (_, size), parts)| part(parts.as_ref().map(|p| p.bias_sd), *size))
        .right_if(apart, "by scatter", |(_, (_, size), parts)| {
            part(parts.as_ref().map(|p| p.scatter_sd), *size)
        })
        .put(out);
    if apart {
        out.line("  by bias, by scatter: standard deviations of what all pieces share and of what differs");
    }
}

fn chances(chances: &[Chances], out: &mut Report) {
    if chances.is_empty() {
        return;
    }
    let remark = "if the spreads of the inputs are what they are taken to be";
    out.heading("Chance to be beyond a limit", remark);
    let range = |(low, high): (f64, f64)| format!("{} … {}", percent(low), percent(high));
    let told = |c: &Chances, say: &dyn Fn(&BiasAndScatter) -> String| {
        c.bias_and_scatter.as_ref().map_or_else(String::new, say)
    };
    let apart = chances.iter().any(|c| c.bias_and_scatter.is_some());
    Columns::of(chances)
        .left("limit", |c| {
            let of = c.name.trim_start_matches("verdicts.").trim_end_matches(".beyond").replace('_', " ");
            of.strip_suffix(".out").map_or_else(|| of.clone(), |of| format!("{of}, at the near end of its ±"))
        })
        .right("chance", |c| match &c.bias_and_scatter {
            Some(a) => chance(&Likely::from(a)),
            None => counted(&c.all),
        })
        .right_if(apart, "if the model is right", |c| told(c, &|a| counted(&a.model_right)))
        .right_if(apart, "range from model error", |c| told(c, &|a| range(a.range)))
        .put(out);
    let share = " All pieces of a family share one model error, so one value in this range is theirs.";
    out.line(format!("  ±: one standard error of the count.{}", if apart { share } else { "" }));
}

/// The chance of cases drawn each for itself.
fn counted(cases: &Chance) -> String {
    Likely::of(cases).map_or_else(|| "not known".to_owned(), |likely| chance(&likely))
}

fn shares(study: &Study, table: &Table, out: &mut Report) {
    for result in study.shares(table) {
        let (name, _) = in_words(study, &result.name);
        out.heading(&format!("Which input matters for {name}"), "shares of the variance");
        let with_error = |(value, error): (f64, f64)| format!("{value:.3} ± {error:.3}");
        Columns::of(result.shares.iter().take(MOST_INPUTS))
            .left("input", |share| share.input.clone())
            .right("by itself", |share| with_error(share.alone))
            .right("with others", |share| with_error(share.total))
            .put(out);
        if result.dropped > 0 {
            out.line(format!("  {} draws left out because a case failed", result.dropped));
        }
    }
}

/// About three figures of a single number.
fn number(value: f64) -> String {
    with_decimals(value, decimals_for(&[value]))
}

/// Fewer decimals than this are shown if numbers are whole with them: values of a range, a length of 14.25 m.
const WHOLE: usize = 4;

/// Decimals that give the largest of some numbers three figures, or as few as show them all whole.
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
    (0..enough.max(WHOLE)).find(|decimals| needed(*decimals)).unwrap_or(enough)
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

/// Counts of warnings, each with the first of its kind; nothing if no case has one.
pub(super) fn warnings(study: &Study, warned: Option<&Warned>, out: &mut Report) {
    let Some(warned) = warned else { return };
    let of = if warned.looked_at < warned.cases {
        format!("{} of {} cases looked at", warned.looked_at, warned.cases)
    } else {
        String::new()
    };
    out.heading("Warnings of the cases", &of);
    for kind in &warned.of {
        let text = kind.first.text.in_units(study.system());
        let first = if kind.cases == 1 { "" } else { "the first: " };
        out.say(format!("{} of {} cases; {first}{text}", kind.cases, warned.looked_at));
    }
}

/// What a study's cases warn of, if of anything. A study of draws has said in its job what there is to say.
pub(crate) fn warned(study: &Study) -> Option<Warned> {
    Some(study).filter(|study| !study.is_sampled()).map(Study::warned).filter(|warned| !warned.of.is_empty())
}
