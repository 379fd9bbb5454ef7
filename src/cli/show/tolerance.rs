//! The tolerance table, set by set.

use super::chance::{bare_chance, if_right};
use super::headline::{bare_span, unit};
use super::table::{heading, put, row_table};
use crate::prediction::{Job, Prediction};
use crate::tolerance::{Judgement, Set, Verdict};
use crate::units::{System, show};
use comfy_table::{Cell, Color};
use std::io::{Result, Write};

const STRAIGHT: &str = "if the web is cut straight";

/// One table a set, one row a limit.
pub fn tolerance(job: &Job, prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let verdicts = &prediction.verdicts;
    if verdicts.is_empty() {
        return Ok(());
    }
    heading("Is it in tolerance?", "near: inside, but the limit lies within the ±", out)?;
    let right = [2, 3, 5, 6];
    let (predicted, limit) = (format!("predicted, {}", unit(system)), format!("limit, {}", unit(system)));
    for of_set in verdicts.chunk_by(|a, b| a.set == b.set) {
        let set = of_set.first().map_or("own", |v| v.set);
        writeln!(out, " {}", Set::parse(set).map_or("The job's own limits", Set::title))?;
        let mut table = row_table(
            &["what", "where", &predicted, &limit, "verdict", "out", "right", "clause", "known"],
            &right,
        );
        for v in of_set {
            table.add_row(row(v, system));
        }
        put(table, &right, out)?;
    }
    if verdicts.iter().any(|v| v.likely.is_some()) {
        writeln!(
            out,
            " out: of pieces beyond the limit, the model's own doubt in it; right: if the model is, by scatter from piece to piece alone. Drawn, \
             not measured;\n `weldbow scatter` says more."
        )?;
    }
    if let Some(wanted) = job.wanted_camber.filter(|_| verdicts.iter().any(|v| v.place == STRAIGHT)) {
        writeln!(
            out,
            " Camber is judged against the wanted {}; a web cut to the ordinates below aims at it.",
            show::offset(wanted.rise_mm, system)
        )?;
    }
    Ok(())
}

fn row(v: &Verdict, system: System) -> [Cell; 9] {
    let (word, colour) = match v.verdict {
        Judgement::Within => ("within", Color::Green),
        Judgement::Near => ("near", Color::Yellow),
        Judgement::Out => ("OUT", Color::Red),
    };
    let place = match v.place {
        "along the member" => show::position(v.at_mm, system),
        "if plates are cut to the finished length" => "no allowance".to_owned(),
        STRAIGHT => "straight web".to_owned(),
        flange => flange.to_owned(),
    };
    let limit = show::offset(v.limit, system);
    [
        Cell::new(v.quantity.name()),
        Cell::new(place),
        Cell::new(bare_span(v.value, v.value_2s, system)),
        Cell::new(limit.split(' ').next().unwrap_or_default()),
        Cell::new(word).fg(colour),
        Cell::new(v.likely.as_ref().map_or_else(String::new, bare_chance)),
        Cell::new(v.likely.as_ref().map_or_else(String::new, if_right)),
        Cell::new(format!("{}: {}", v.clause, v.rule)),
        Cell::new(v.trust.mark()),
    ]
}
