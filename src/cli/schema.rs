//! `weldbow schema`: the JSON Schema of a kind of file, for editors.

use super::kind::Kind;
use crate::input::Form;
use crate::study::file::StudyFile;
use crate::{job, shop};
use std::io::{Result, Write};

/// Writes the JSON Schema of a kind of file.
///
/// # Errors
/// Only those of `out`.
pub fn run(kind: Kind, out: &mut dyn Write) -> Result<()> {
    let schema = match kind {
        Kind::Job => job::schema(),
        Kind::Study => StudyFile::schema().value(),
        Kind::Shop => shop::schema(),
    };
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
        for (kind, file) in [
            (Kind::Job, "jobs/job.schema.json"),
            (Kind::Study, "study.schema.json"),
            (Kind::Shop, "shop/shop.schema.json"),
        ] {
            let kept = format!("{}/studies/{file}", env!("CARGO_MANIFEST_DIR"));
            let mut printed = Vec::new();
            run(kind, &mut printed).unwrap();
            let printed = String::from_utf8(printed).unwrap();
            if std::env::var_os("UPDATE_SCHEMA").is_some() {
                write(&kept, &printed).unwrap();
            }
            let same = read_to_string(&kept).unwrap_or_default() == printed;
            assert!(same, "{kept} is out of date: run this test with UPDATE_SCHEMA=1");
        }
    }
}
