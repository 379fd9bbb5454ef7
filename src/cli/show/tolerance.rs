//! The tolerance table, set by set.

use super::chance::{bare_chance, from_welding_alone, if_right};
use super::signs::signs;
use super::span::{bare_span, unit};
use super::table::{heading, plain_text, put, row_table};
use crate::prediction::{Job, Prediction};
use crate::tolerance::{Judgement, Quantity, Set, Verdict};
use crate::units::{System, show};
use comfy_table::{Cell, Color};
use std::borrow::Cow;
use std::io::{Result, Write};

const STRAIGHT: &str = "if the web is cut straight";

/// Chance below which a limit that is held goes without a row, where its size is small or stands in another table (a choice).
const QUIET: f64 = 0.02;

/// One table a set, one row a limit; what is surely held and said elsewhere, or small, is named in a line unless the `whole` is wanted.
pub fn tolerance(
    job: &Job,
    prediction: &Prediction,
    system: System,
    whole: bool,
    out: &mut dyn Write,
) -> Result<()> {
    let verdicts = &prediction.verdicts;
    if verdicts.is_empty() {
        return signs(out);
    }
    heading("Is it in tolerance?", "close: inside, but the limit lies within the ±", out)?;
    let right = [2, 3, 5, 6];
    let (predicted, limit) = (format!("predicted, {}", unit(system)), format!("limit, {}", unit(system)));
    let names = ["what", "where", &predicted, &limit, "verdict", "out", "by scatter", "clause"];
    let mut shown: Vec<Quantity> = Vec::new();
    for of_set in verdicts.chunk_by(|a, b| a.set == b.set) {
        let set = of_set.first().map_or("own", |v| v.set);
        writeln!(out, " {}", Set::parse(set).map_or("The job's own limits", Set::title))?;
        let (held, rows): (Vec<&Verdict>, Vec<&Verdict>) =
            of_set.iter().partition(|v| !whole && quiet(v, &shown));
        shown.extend(rows.iter().map(|v| v.quantity));
        if !rows.is_empty() {
            let mut table = row_table(&names, &right);
            for v in rows {
                table.add_row(row(v, system));
            }
            put(table, &right, out)?;
        }
        if !held.is_empty() {
            let names: Vec<&str> = held.iter().map(|v| v.quantity.name()).collect();
            let said = format!("held, out with less than 2 %: {} (rows: --methods)", names.join("; "));
            writeln!(out, "{}", plain_text(&said, 1))?;
        }
    }
    if verdicts.iter().any(|v| v.likely.is_some()) {
        let said = "out: chance to be beyond, model doubt included; by scatter: if the model is right. More: `weldbow scatter`.";
        let chances = verdicts.iter().filter_map(|v| Some((v.quantity.name(), v.likely?)));
        let alone = from_welding_alone(chances).unwrap_or_default();
        writeln!(out, "{}", plain_text(&format!("{said} {alone}"), 1))?;
    }
    signs(out)?;
    let Some(wanted) = job.wanted_camber.filter(|_| verdicts.iter().any(|v| v.place == STRAIGHT)) else {
        return Ok(());
    };
    // the sign of a deviation is not that of a bow
    let said = format!(
        "Camber in the table is off the wanted {}: + more, − less; a web cut to the ordinates below aims at it.",
        show::offset(wanted.rise_mm, system)
    );
    writeln!(out, "{}", plain_text(&said, 1))
}

/// Whether a limit is surely held, and its size small by nature or shown already.
fn quiet(v: &Verdict, shown: &[Quantity]) -> bool {
    let small = matches!(v.quantity, Quantity::Twist | Quantity::WebFlatness);
    let sure = v.likely.is_some_and(|likely| likely.chance < QUIET);
    v.verdict == Judgement::Within && sure && (small || shown.contains(&v.quantity))
}

/// The rule behind each limit, and how it is known.
pub fn rules(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    heading("Where the limits stand", "", out)?;
    let mut table = row_table(&["what", "standard", "clause", "rule", "how known"], &[]);
    for v in &prediction.verdicts {
        let standard = if v.edition.is_empty() {
            v.standard.to_owned()
        } else {
            format!("{}:{}", v.standard, v.edition)
        };
        table.add_row([v.quantity.name(), &standard, v.clause, &in_units(v.rule, system), v.trust.words()]);
    }
    put(table, &[], out)?;
    for of_set in prediction.verdicts.chunk_by(|a, b| a.set == b.set) {
        let Some(set) = of_set.first().and_then(|v| Set::parse(v.set)) else { continue };
        writeln!(
            out,
            "{}",
            plain_text(&format!("Not judged by {}: {}.", set.title(), set.not_covered()), 1)
        )?;
    }
    Ok(())
}

/// A rule in the units asked for, where its standard has both: "1 mm per m (US: 1/8 in per 10 ft)".
fn in_units(rule: &str, system: System) -> Cow<'_, str> {
    let both = rule.split_once(" (US: ").and_then(|(si, rest)| Some((si, rest.split_once(')')?)));
    match (both, system) {
        (None, _) => Cow::Borrowed(rule),
        (Some((si, (_, behind))), System::Si) => Cow::Owned(format!("{si}{behind}")),
        (Some((_, (us, behind))), System::Us) => Cow::Owned(format!("{us}{behind}")),
    }
}

fn row(v: &Verdict, system: System) -> [Cell; 8] {
    let (word, colour) = match v.verdict {
        Judgement::Within => ("within", Color::Green),
        Judgement::Near => ("close", Color::Yellow),
        Judgement::Out => ("OUT", Color::Red),
    };
    let place = match v.place {
        "along the member" => show::position(v.at_mm, system),
        "if plates are cut to the finished length" => "if cut to size".to_owned(),
        STRAIGHT => "web cut straight".to_owned(),
        "web" => format!("web, {}", show::position(v.at_mm, system)),
        flange => flange.to_owned(),
    };
    let limit = show::offset(v.limit, system);
    [
        // over the depth, as `--methods` says with its rule: a longer word breaks the rows
        Cell::new(if v.quantity == Quantity::Twist { "twist" } else { v.quantity.name() }),
        Cell::new(place),
        Cell::new(bare_span(v.value, v.value_2s, system)),
        Cell::new(limit.split(' ').next().unwrap_or_default()),
        Cell::new(word).fg(colour),
        Cell::new(v.likely.as_ref().map_or_else(String::new, bare_chance)),
        Cell::new(v.likely.as_ref().map_or_else(String::new, if_right)),
        Cell::new(v.trust.beside(v.clause)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_with_both_units_is_said_in_one() {
        let both = "1 mm per m (US: 1/8 in per 10 ft)";
        assert_eq!(in_units(both, System::Si), "1 mm per m");
        assert_eq!(in_units(both, System::Us), "1/8 in per 10 ft");
        assert_eq!(in_units("L/1000, at least 5 mm", System::Us), "L/1000, at least 5 mm");
    }
}
