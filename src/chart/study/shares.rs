//! How much of a result's variance each input brings, by itself and together with others.

use super::axis::Axis;
use super::bars::{Bars, key, piece};
use super::check::ChartSpecFault;
use super::sheet::{SheetText, sheet};
use super::view::StudyView;
use super::worded::{column, counted, head, sentences, sound};
use crate::axes::Panel;
use crate::canvas::{At, Canvas, MARGIN, clean};
use crate::number::number;
use crate::theme::{BLACK, FULL, LABEL, SMALL, Stroke, WHITE};
use crate::{ChartError, Done, Picture};
use weldbow_engine::prediction::Job;
use weldbow_engine::scatter::Share;
use weldbow_engine::study::ChartSpec;

/// Most inputs drawn; the rest is summed up in words (a choice).
const MOST: usize = 14;
/// An input that brings less than this is named with the rest (a choice).
const LEAST_PART: f64 = 0.005;
const ROW: f64 = 44.0;
const BAR: f64 = 15.5;
const OVER: f64 = 26.0;
const UNDER: f64 = 48.0;
/// Inputs that each pass has of its own.
const OF_A_PASS: [&str; 2] = ["leg", "force each pass"];
const REST: f64 = 18.0;
const LEAST: f64 = 452.0;
/// Room for a value behind its whisker, px.
const VALUE_ROOM: f64 = 112.0;

pub(super) fn shares(view: &StudyView<'_>, spec: &ChartSpec, name: &str) -> Done<Picture> {
    let Some(shown) = column(view.table, spec.y.first()) else { return Err(ChartError::NotANumber) };
    let usable = |s: &&Share| [s.alone.0, s.total.0].iter().all(|v| sound(*v).is_finite());
    let mut shares: Vec<&Share> = view.shares.iter().filter(usable).collect();
    let failed = view.shares.len() - shares.len();
    if shares.is_empty() {
        let instead = "it wants inputs that scatter and a result that scatters with them";
        return Ok(ChartSpecFault::nothing("chart of shares", instead)?);
    }
    shares.sort_by(|a, b| b.total.0.total_cmp(&a.total.0).then_with(|| a.input.cmp(&b.input)));
    let alone: f64 = shares.iter().map(|s| sound(s.alone.0).clamp(-9.0, 9.0)).sum();
    let telling = shares.iter().take_while(|s| s.total.0 >= LEAST_PART || s.alone.0 >= LEAST_PART).count();
    let rest = shares.split_off(telling.clamp(1, MOST).min(shares.len()));
    let ends = shares.iter().flat_map(|s| [span(s.alone), span(s.total)]).flatten();
    let (low, high) = ends.fold((0.0_f64, 10.0_f64), |(l, h), v| (l.min(v), h.max(v)));
    let axis = Axis::exactly(|_| format!("part of the variance of {}, %", head(shown)), low, high);
    let names: Vec<String> = shares.iter().map(|s| named(&s.input, view.member)).collect();
    let strongest = shares.first().map_or(String::new(), |s| {
        format!(
            "{} brings most: {} by itself, {} in all",
            clean(&s.input),
            percent(s.alone.0),
            percent(s.total.0)
        )
    });
    let mut sum = format!("All inputs by themselves: {}", percent(alone));
    if alone <= 0.97 {
        sum += ", the rest comes of inputs together";
    }
    let failed =
        if failed > 0 { format!("{} without a value", counted(failed, "input")) } else { String::new() };
    let said = SheetText {
        what: format!("where the scatter of {} comes from", head(shown)),
        subtitle: sentences(&[strongest, sum, failed]),
        description: format!(
            "Two bars for each of {}: its part of the variance by itself (dark, hatched) and together with others \
             (pale), with whiskers of two standard errors, strongest on top.",
            counted(names.len(), "input")
        ),
    };
    let rest = rest.first().map_or(String::new(), |first| {
        let rest_count = counted(rest.len(), "more input");
        format!("Not drawn: {rest_count}, each {} in all or less.", percent(first.total.0))
    });
    let tall = LEAST.max(OVER + ROW * names.len() as f64 + UNDER) + if rest.is_empty() { 0.0 } else { REST };
    sheet(view, spec, name, said, tall, |paper, (top, bottom)| {
        key(paper, &["by itself", "in all, together with others", "whiskers: ± 2 standard errors"])?;
        let bars = Bars { names: &names, axis: &axis, inset: (4.0, VALUE_ROOM) };
        let bottom = if rest.is_empty() { bottom } else { bottom - REST };
        bars.draw(paper, (top + OVER, bottom), |row, panel, y| pair(paper, panel, shares[row], y))?;
        paper.text((MARGIN, bottom + 8.0), At::Left, &rest, SMALL)
    })
}

/// "leg 1, outer near": an input of one pass with the seam that pass is on.
fn named(input: &str, member: Option<&Job>) -> String {
    let input = clean(input);
    let pass = input.rsplit_once(' ').filter(|(what, _)| OF_A_PASS.contains(what));
    let pass = pass.and_then(|(_, number)| number.parse::<usize>().ok());
    match pass.and_then(|n| member?.passes.get(n.checked_sub(1)?)) {
        Some(pass) => format!("{input}, {} {}", pass.seam.name(), pass.side.name()),
        None => input,
    }
}

/// "62 %"; parts of one per cent where there is less than ten.
fn percent(part: f64) -> String {
    let percent = 100.0 * sound(part).clamp(-9.0, 9.0);
    format!("{} %", number(percent, if percent.abs() < 9.95 { 1 } else { 0 }))
}

/// Value, and two standard errors to either side, %. An error without sense counts as none.
fn span((value, error): (f64, f64)) -> [f64; 3] {
    let error = sound(error);
    let error = if error.is_finite() { error.abs().min(9.0) } else { 0.0 };
    let value = sound(value).clamp(-9.0, 9.0);
    // less than nothing is an error of sampling, no part
    [value, value - 2.0 * error, value + 2.0 * error].map(|v| 100.0 * v.max(0.0))
}

fn pair(paper: &Canvas<'_>, panel: &Panel, share: &Share, y: f64) -> Done {
    for (n, part) in [share.alone, share.total].into_iter().enumerate() {
        let top = y - BAR + BAR * n as f64;
        let middle = top + 0.5 * BAR;
        let [value, low, high] = span(part).map(|v| panel.px(v));
        piece(paper, n, (panel.px(0.0), top), (value, top + BAR))?;
        let whisker = Stroke { ink: BLACK, width: 1.4, dash: FULL };
        if high - low > 1.0 && high > panel.px(0.0) {
            // a white rim keeps the whisker apart from the hatch
            paper.line(&[(low, middle), (high, middle)], Stroke { ink: WHITE, width: 4.0, dash: FULL })?;
            paper.whisker([low, high], middle, 3.5, whisker)?;
        }
        let text = format!("{}{}", percent(part.0), if n == 0 { " by itself" } else { " in all" });
        let at = value.max(high).max(panel.px(0.0)) + 7.0;
        paper.plated((at, middle), At::Left, &text, LABEL, WHITE)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_read_as_per_cent_and_errors_without_sense_as_none() {
        assert_eq!(
            (percent(0.62), percent(0.0312), percent(-0.004)),
            ("62 %".into(), "3.1 %".into(), "−0.4 %".into())
        );
        assert!(span((0.5, f64::NAN)).iter().all(|v| (v - 50.0).abs() < 1e-9));
        assert!((span((0.5, 0.02))[2] - 54.0).abs() < 1e-9);
    }
}
