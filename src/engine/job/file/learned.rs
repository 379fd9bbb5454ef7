//! What a shop's own pieces say, as a file: written by `weldbow calibrate`, named in a job or a shop.

use crate::input::{Beside, Form, Problem, kept_schema, shape};
use crate::prediction::Learned;
pub use crate::prediction::recorded::{ANY, Scope};
use serde::{Deserialize, Serialize};

/// The name of the file, or what it holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum LearnedShape {
    /// Its name, from where the file lies that names it.
    File(String),
    /// What it holds.
    Here(Box<LearnedFile>),
}

shape! {
    /// What was learned and from what.
    pub struct LearnedFile {
        /// Pieces measured.
        pub pieces: u32,
        /// Day of the first of them, as 2026-03-02.
        pub from: Option<String>,
        /// Day of the last.
        pub to: Option<String>,
        /// Days since then; found while reading.
        pub days_old: Option<i64>,
        /// Where the shop moved while they were welded, in words: what was learned lies between before and after.
        pub moved: Vec<String> = usual,
        /// What it was learned on.
        pub scope: Scope,
        /// What it says, for people.
        #[serde(default)]
        pub input: Vec<LearnedInput>,
        /// What it says, for the engine.
        pub job: Vec<LearnedJob>,
    }

    /// One input.
    pub struct LearnedInput {
        /// Its name.
        pub input: String,
        /// "bias" or "scatter".
        pub class: String,
        /// Its unit; empty for a factor.
        pub unit: String,
        /// Mean.
        pub mean: f64,
        /// Standard deviation.
        pub sd: f64,
    }

    /// What holds for some jobs.
    pub struct LearnedJob {
        /// Line; empty for one without a name.
        pub line: String,
        /// Procedure; "any" for one that was not measured.
        pub procedure: String,
        /// Family; "any" for one that was not measured.
        pub family: String,
        /// Titles of its jobs.
        #[serde(default)]
        pub titles: Vec<String>,
        /// What the engine takes.
        pub learned: Learned,
    }
}

impl Form for LearnedFile {
    const WHAT: &'static str = "what a shop's pieces say";
    const START: &'static str = "`weldbow calibrate RECORD.csv --out learned.toml` writes one";

    kept_schema!(LearnedFile);
}

/// Puts what the file holds in the place of its name.
pub(crate) fn take_in(shape: &mut Option<LearnedShape>, read: &mut Beside<'_>) -> Result<(), Problem> {
    let Some(LearnedShape::File(name)) = shape else { return Ok(()) };
    let found = read(name)?;
    let wanted = "the file that `weldbow calibrate RECORD.csv --out learned.toml` wrote";
    let held = serde_json::from_value(found)
        .map_err(|e| Problem::new("learned", format!("`{name}`, which is no such file ({e})"), wanted))?;
    *shape = Some(LearnedShape::Here(Box::new(held)));
    Ok(())
}
