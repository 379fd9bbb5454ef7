//! `weldbow schema`: the JSON Schema of a job file, for editors.

use crate::job::schema;
use std::io::{Result, Write};

/// Writes the JSON Schema of a job file.
///
/// # Errors
/// Only those of `out`.
pub fn run(out: &mut dyn Write) -> Result<()> {
    serde_json::to_writer_pretty(&mut *out, schema())?;
    writeln!(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::{read_to_string, write};

    /// Writes the kept schema anew if `UPDATE_SCHEMA` is set.
    #[test]
    fn the_schema_kept_beside_the_demo_jobs_is_the_one_printed() {
        let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/job.schema.json");
        let mut printed = Vec::new();
        run(&mut printed).unwrap();
        let printed = String::from_utf8(printed).unwrap();
        if std::env::var_os("UPDATE_SCHEMA").is_some() {
            write(kept, &printed).unwrap();
        }
        let same = read_to_string(kept).unwrap_or_default() == printed;
        assert!(same, "{kept} is out of date: run this test with UPDATE_SCHEMA=1");
    }
}
