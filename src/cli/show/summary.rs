//! Several jobs in one table.

use super::notes::signs;
use super::report::Report;
use super::span::{bare_chance, bare_span, unit};
use super::table::Columns;
use crate::cli::lists::distinct;
use crate::input::text;
use crate::prediction::{FlangeAngles, Job, Prediction, RippleVerdict, outside};
use crate::tolerance::Judgement;
use crate::units::{System, show};
use std::path::Path;

/// One row a job; `asked` is how many were to be read.
pub(crate) fn summary(rows: &[(&Path, &Job, &Prediction)], asked: usize, system: System, out: &mut Report) {
    let title = if rows.len() == asked {
        format!("{asked} members")
    } else {
        format!("{} of {asked} members", rows.len())
    };
    out.heading(&title, "± two standard deviations");
    let sized = |what: &str| format!("{what}, {}", unit(system));
    let span = |mm: f64, span_mm: f64| bare_span(mm, span_mm, system);
    let said = |p: &Prediction, text: &dyn Fn() -> String| {
        if outside(p).is_empty() { text() } else { "–".to_owned() }
    };
    let toe = |f: &&FlangeAngles| f.near_toe_mm.abs().max(f.far_toe_mm.abs());
    let worst = |p: &Prediction| {
        let worst = p.flanges.iter().max_by(|a, b| toe(a).total_cmp(&toe(b)));
        worst.map_or_else(String::new, |f| span(toe(&f), f.toe_2s_mm))
    };
    Columns::of(rows)
        .left("job", |(file, ..)| stem(file))
        .right("length", |(_, job, _)| show::position(job.member.length_mm, system))
        .right(sized("shortening"), |(.., p)| said(p, &|| span(p.shortening_mm, p.shortening.centroid_2s_mm)))
        .right(sized("camber"), |(.., p)| said(p, &|| span(p.camber.max_mm, p.camber.max_2s_mm)))
        .right(sized("sweep"), |(.., p)| said(p, &|| span(p.sweep.max_mm, p.sweep.max_2s_mm)))
        .right(sized("worst flange toe"), |(.., p)| said(p, &|| worst(p)))
        .left("web", |(.., p)| said(p, &|| web(p).to_owned()))
        .left("tolerance", |(.., p)| match outside(p).as_slice() {
            [] => tolerance(p),
            _ => "outside the model".to_owned(),
        })
        .put(out);
    signs(out);
    out.line(format!("\nOne job alone gives the full report: weldbow predict {}", text::path(rows[0].0)))
}

fn stem(file: &Path) -> String {
    text::line(&file.file_stem().unwrap_or_default().to_string_lossy()).into_owned()
}

fn web(p: &Prediction) -> &'static str {
    let any = |v| p.ripple.iter().any(|r| r.verdict == v);
    match (any(RippleVerdict::Likely), any(RippleVerdict::Possible)) {
        (true, _) => "likely ripples",
        (_, true) => "may ripple",
        _ => "flat",
    }
}

/// The worst verdict and what it is about.
fn tolerance(p: &Prediction) -> String {
    // each once, with the chance of the most likely of them
    let all = |judged| {
        let of = || p.verdicts.iter().filter(move |v| v.verdict == judged);
        let names = distinct(of().map(|v| v.quantity.name()));
        let likely = of().filter_map(|v| v.likely).max_by(|a, b| a.chance.total_cmp(&b.chance));
        let likely = likely.map_or_else(String::new, |likely| format!(" ({} out)", bare_chance(&likely)));
        if names.is_empty() { String::new() } else { names.join(", ") + &likely }
    };
    let (out, near) = (all(Judgement::Out), all(Judgement::Near));
    match (out.is_empty(), near.is_empty()) {
        (false, _) => format!("OUT: {out}"),
        (true, false) => format!("close: {near}"),
        (true, true) => "within".to_owned(),
    }
}
