//! `weldbow constants`: every constant a prediction rests on, with its source.

use super::show::{heading, put, row_table, wrapped};
use super::{BAD_USAGE, DONE};
use crate::input::near;
use crate::prediction::constants;
use crate::sources::{Constant, Trust};
use std::io::{Result, Write};

/// Every constant that predictions rest on: value, unit, how unsure, source, and how that is known
#[derive(Debug, clap::Args)]
pub struct Constants {
    /// Only those whose name, symbol or source holds this word
    #[arg(value_name = "WORD")]
    word: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

impl Constants {
    /// Lists them.
    ///
    /// # Errors
    /// Only those of `out`.
    pub fn run(&self, out: &mut dyn Write) -> Result<u8> {
        let found: Vec<&Constant> = constants().filter(|c| self.asked(c)).collect();
        if self.json {
            serde_json::to_writer_pretty(&mut *out, &found)?;
            return writeln!(out).map(|()| DONE);
        }
        let Some(word) = self.word.as_deref().filter(|_| found.is_empty()) else {
            return table(&found, out).map(|()| DONE);
        };
        let known: Vec<&str> = constants().flat_map(|c| c.symbol.split("::")).collect();
        let guess =
            near::nearest(word, known).map_or(String::new(), |near| format!("; did you mean `{near}`?"));
        super::complain::fault(None, &format!("no constant speaks of `{word}`{guess}"))?;
        Ok(BAD_USAGE)
    }

    fn asked(&self, c: &Constant) -> bool {
        let Some(word) = self.word.as_deref().map(str::to_lowercase) else { return true };
        [c.name, c.symbol, c.source, c.input].iter().any(|text| text.to_lowercase().contains(&word))
    }
}

fn table(found: &[&Constant], out: &mut dyn Write) -> Result<()> {
    const RIGHT: [usize; 2] = [1, 3];
    heading(
        "What predictions rest on",
        "± one standard deviation, relative; moved by: the input of `weldbow scatter --inputs`",
        out,
    )?;
    let mut rows = row_table(&["constant", "value", "unit", "±", "moved by", "how known", "source"], &RIGHT);
    for c in found {
        let spread = c.spread.map_or(String::new(), |s| format!("{:.0} %", 100.0 * s));
        let known = if c.trust == Trust::Read { "read" } else { c.trust.mark() };
        let source =
            if c.range.is_empty() { c.source.to_owned() } else { format!("{}; {}", c.source, c.range) };
        rows.add_row([c.name, &figures(c.value), c.unit, &spread, c.input, known, &source]);
    }
    put(rows, &RIGHT, out)?;
    writeln!(out)?;
    let mut said: Vec<Trust> = Vec::new();
    for c in found {
        if !said.contains(&c.trust) {
            said.push(c.trust);
            let mark = if c.trust == Trust::Read { "read" } else { c.trust.mark() };
            writeln!(out, "{}", wrapped(&format!("{mark}: {}", c.trust.words())))?;
        }
    }
    Ok(())
}

/// Four figures, as a table of constants has them.
fn figures(value: f64) -> String {
    let size = value.abs();
    match size {
        s if s >= 1000.0 => format!("{value:.0}"),
        s if s >= 1.0 => format!("{value:.3}").trim_end_matches('0').trim_end_matches('.').to_owned(),
        s if s >= 0.01 => format!("{value:.4}").trim_end_matches('0').to_owned(),
        _ => format!("{value:.2e}"),
    }
}
