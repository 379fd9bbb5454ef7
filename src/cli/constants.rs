//! `weldbow constants`: every constant a prediction rests on, with its source.

use super::ended::{DONE, Ended, Outcome};
use super::presented::json_of;
use super::show::{Report, constants as constants_shown};
use crate::input::near;
use crate::prediction::constants;
use crate::sources::Constant;
use std::io::Write;

/// Every constant that predictions rest on: value, unit, how unsure, source, and how that is known
#[derive(Debug, clap::Args)]
pub(super) struct Constants {
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
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let found: Vec<&Constant> = constants().filter(|c| self.asked(c)).collect();
        if self.json {
            json_of(&found, out)?;
            return Ok(DONE);
        }
        let Some(word) = self.word.as_deref().filter(|_| found.is_empty()) else {
            Report::put(out, |said| constants_shown(&found, said))?;
            return Ok(DONE);
        };
        let known: Vec<&str> = constants().flat_map(|c| c.symbol.split("::")).collect();
        let guess =
            near::nearest(word, known).map_or(String::new(), |near| format!("; did you mean `{near}`?"));
        Err(Ended::by_usage(None, format!("no constant speaks of `{word}`{guess}")))
    }

    fn asked(&self, c: &Constant) -> bool {
        let Some(word) = self.word.as_deref().map(str::to_lowercase) else { return true };
        [c.name, c.symbol, c.source, c.input].iter().any(|text| text.to_lowercase().contains(&word))
    }
}
