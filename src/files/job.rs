//! From a file or a text to a checked job.

use crate::reading::{Diagnostics, InputFile, read_file, read_text_as};
use serde::Serialize;
use std::path::Path;
use weldbow_engine::input::{Form, Problem};
use weldbow_engine::job::check;
use weldbow_engine::job::file::{JobFile, LearnedFile, LearnedShape};
use weldbow_engine::prediction::Job;
use weldbow_engine::shop::Shop;

/// The JSON Schema of a job file.
pub fn schema() -> &'static serde_json::Value {
    JobFile::schema().value()
}

/// Reads and checks a job file.
///
/// # Errors
/// Everything that is wrong with it: not a readable text file of sensible size, not TOML, not the shape of a
/// job, or a job that makes no sense.
pub fn read_path(path: &Path) -> Result<Job, Diagnostics> {
    checked(&read_file(path)?)
}

/// Reads and checks a job from its text; `name` is what complaints call it.
///
/// # Errors
/// Everything that is wrong with the text.
pub fn read_text(name: &str, text: &str) -> Result<Job, Diagnostics> {
    checked(&read_text_as(name, text)?)
}

/// Reads a job's shape from its text, without checking whether it makes sense; for those who change the shape
/// before they [`check`] it.
///
/// # Errors
/// Everything that is wrong with the writing.
pub fn file_of_text(name: &str, text: &str) -> Result<JobFile, Diagnostics> {
    Ok(read_text_as(name, text)?.shape)
}

/// A checked job in a shop, whose own pieces speak for a job that names none.
///
/// # Errors
/// As [`read_path`].
pub fn read_in_shop(path: &Path, shop: &Shop) -> Result<Job, Diagnostics> {
    let mut paper = read_file(path)?;
    shop.lend(&mut paper.shape);
    checked(&paper)
}

/// The text of a job that needs no file beside it: what the shop's own pieces say stands at its end.
///
/// # Errors
/// What was learned that cannot be written.
pub fn alone(paper: &InputFile<JobFile>) -> Result<String, Problem> {
    #[derive(Serialize)]
    struct Held<'a> {
        learned: &'a LearnedFile,
    }
    let Some(LearnedShape::Here(learned)) = &paper.shape.learned else { return Ok(paper.text.clone()) };
    let held = toml::to_string(&Held { learned });
    let held = held.map_err(|e| Problem::new("learned", e.to_string(), "what `weldbow calibrate` wrote"))?;
    let named = |line: &&str| {
        line.trim_start().strip_prefix("learned").is_some_and(|l| l.trim_start().starts_with('='))
    };
    let rest: Vec<&str> = paper.text.lines().filter(|line| !named(line)).collect();
    Ok(format!("{}\n\n{held}", rest.join("\n").trim_end()))
}

fn checked(paper: &InputFile<JobFile>) -> Result<Job, Diagnostics> {
    check(&paper.shape).map_err(|problems| paper.complaint(problems))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;
    use weldbow_engine::input::{as_toml, steps_of};

    fn example_at(path: &str) -> String {
        as_toml(&JobFile::schema().example(&steps_of(path)).unwrap_or(Value::Null))
    }

    #[test]
    fn every_kind_of_field_has_an_example() {
        assert_eq!(example_at("member.length"), "\"9.0 m\"");
        assert_eq!(example_at("member.web"), "[{ thickness = \"5 mm\" }]");
        assert_eq!(example_at("member.web[3].thickness"), "\"5 mm\"");
        assert_eq!(example_at("member.depth[1][0]"), "\"8 mm\"");
        assert_eq!(example_at("member.depth[1]"), "[\"8 mm\", \"8 mm\"]");
        assert_eq!(example_at("member.steel.yield"), "\"50 ksi\"");
        assert_eq!(example_at("procedure.any.arcs[0].voltage"), "\"30 V\"");
        assert_eq!(example_at("pass[0].side"), "\"near\"");
        assert_eq!(example_at("step[0].wait"), "\"cold\"");
    }

    #[test]
    fn a_field_can_say_what_it_is() {
        assert_eq!(JobFile::schema().meaning(&steps_of("member.length")), Some("Length from end to end"));
        assert_eq!(JobFile::schema().meaning(&steps_of("member.nonsense")), None);
    }

    #[test]
    fn the_schema_speaks_of_no_null() {
        assert!(!schema().to_string().contains("null"), "TOML has no null");
    }
}
