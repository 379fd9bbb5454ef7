//! `weldbow schema`: the JSON Schema of a job or a study file, for editors.

use crate::form::Form;
use crate::job::schema;
use crate::study::file::StudyFile;
use std::io::{Result, Write};

/// Writes the JSON Schema of a job file, or of a study file.
///
/// # Errors
/// Only those of `out`.
pub fn run(study: bool, out: &mut dyn Write) -> Result<()> {
    let schema = if study { StudyFile::schema().value() } else { schema() };
    serde_json::to_writer_pretty(&mut *out, schema)?;
    writeln!(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::{read_to_string, write};

    /// Writes the kept schemas anew if `UPDATE_SCHEMA` is set.
    #[test]
    fn the_schemas_kept_beside_the_demo_files_are_the_ones_printed() {
        for (study, file) in [(false, "jobs/job.schema.json"), (true, "study.schema.json")] {
            let kept = format!("{}/studies/{file}", env!("CARGO_MANIFEST_DIR"));
            let mut printed = Vec::new();
            run(study, &mut printed).unwrap();
            let printed = String::from_utf8(printed).unwrap();
            if std::env::var_os("UPDATE_SCHEMA").is_some() {
                write(&kept, &printed).unwrap();
            }
            let same = read_to_string(&kept).unwrap_or_default() == printed;
            assert!(same, "{kept} is out of date: run this test with UPDATE_SCHEMA=1");
        }
    }
}
