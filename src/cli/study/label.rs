//! Names of the files of kept rows, and what lies beside them: which study they are of, and a proof of every chunk.

use crate::cli::files::{fault_at, unread, unwritten};
use crate::study::{BUILD, Study};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fs::{File, OpenOptions, read_to_string, remove_file, rename};
use std::io::{ErrorKind, Result, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};

/// What rows belong to, and what proves them.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Label {
    /// Title of the study.
    pub(crate) study: String,
    /// Changes with what a row holds.
    pub(crate) fingerprint: String,
    /// The build that computed them.
    #[serde(default)]
    pub(crate) build: String,
    /// First case.
    pub(crate) from: u64,
    /// One past the last case.
    pub(crate) to: u64,
    /// First line of the table.
    #[serde(default)]
    pub(crate) header: String,
    /// The study file and its jobs, as they were read.
    #[serde(default)]
    pub(crate) inputs: Vec<Proof>,
    /// The rows, in their order; the last may still grow.
    #[serde(default)]
    pub(crate) chunks: Vec<Chunk>,
    /// Charts drawn of them.
    #[serde(default)]
    pub(crate) charts: Vec<Proof>,
    /// The same rows as Parquet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) parquet: Option<Proof>,
}

/// A file and the hash of its bytes (SHA-256, FIPS 180-4).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Proof {
    /// Its name: of an input as it was given, of a chart within the folder.
    pub file: String,
    /// Hash, hexadecimal.
    pub sha256: String,
}

/// Rows that follow each other.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Chunk {
    /// How many.
    pub(crate) rows: u64,
    /// In the table.
    pub(crate) csv: Part,
    /// As JSON lines, if these are kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) json_lines: Option<Part>,
}

/// Bytes that follow each other in a file, and their hash.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Part {
    /// How many.
    pub bytes: u64,
    /// Hash, hexadecimal.
    pub sha256: String,
}

impl Label {
    /// Of some cases of a study, without rows yet.
    pub(crate) fn of(study: &Study, cases: &Range<u64>, inputs: Vec<Proof>) -> Self {
        Self {
            study: study.title.clone(),
            fingerprint: format!("{:016x}", study.fingerprint),
            build: BUILD.to_owned(),
            from: cases.start,
            to: cases.end,
            header: String::from_utf8_lossy(&study.csv_header()).into_owned(),
            inputs,
            ..Self::default()
        }
    }

    /// Whether rows of both belong together: the same cases of the same study, by the same build.
    pub(crate) fn same_rows(&self, other: &Self) -> bool {
        let of = |label: &Self| (label.fingerprint.clone(), label.build.clone(), label.from, label.to);
        of(self) == of(other)
    }

    /// Rows that it promises.
    pub(crate) fn rows(&self) -> u64 {
        self.chunks.iter().map(|chunk| chunk.rows).fold(0, u64::saturating_add)
    }

    /// Whether the rows are kept as JSON lines too.
    pub(crate) fn has_json_lines(&self) -> bool {
        !self.chunks.is_empty() && self.chunks.iter().all(|chunk| chunk.json_lines.is_some())
    }

    /// The label kept in a file, if there is one.
    ///
    /// # Errors
    /// If it cannot be read.
    pub(crate) fn read(path: &Path) -> Result<Option<Self>> {
        match read_to_string(path) {
            Ok(text) => serde_json::from_str(&text).map(Some).map_err(|e| {
                let what = format!(": not what a study writes beside its rows ({e})");
                fault_at(ErrorKind::InvalidData, path, what)
            }),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(unread(path)(error)),
        }
    }

    /// Keeps it, whole.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(crate) fn keep(&self, names: &Names) -> Result<()> {
        let mut text = serde_json::to_string_pretty(self)?;
        text.push('\n');
        whole(&names.label(), |file| file.write_all(text.as_bytes()))
    }
}

impl Proof {
    /// Of a file that is there.
    ///
    /// # Errors
    /// If it cannot be read.
    pub(crate) fn of(path: &Path, name: String) -> Result<Self> {
        let mut file = File::open(path).map_err(unread(path))?;
        let mut hash = Sha256::new();
        std::io::copy(&mut file, &mut hash).map_err(unread(path))?;
        Ok(Self { file: name, sha256: hex(hash) })
    }

    /// Of a file that stands beside the label.
    ///
    /// # Errors
    /// If it cannot be read.
    pub(crate) fn beside(path: &Path) -> Result<Self> {
        Self::of(path, path.file_name().unwrap_or_default().to_string_lossy().into_owned())
    }
}

/// A finished hash as text.
pub(crate) fn hex(hash: Sha256) -> String {
    format!("{:x}", hash.finalize())
}

/// Names of a study's files in a folder.
#[derive(Debug)]
pub(crate) struct Names {
    /// The folder.
    pub(crate) folder: PathBuf,
    stem: String,
}

impl Names {
    /// Of a whole study, or of one part of it.
    pub(crate) fn new(folder: &Path, study: &str, part: Option<(u64, u64)>) -> Self {
        let stem = part.map_or_else(|| study.to_owned(), |(i, n)| format!("{study}.part-{i}-of-{n}"));
        Self { folder: folder.to_owned(), stem }
    }

    /// The rows.
    pub(crate) fn csv(&self) -> PathBuf {
        self.folder.join(format!("{}.csv", self.stem))
    }

    /// The rows as JSON lines.
    pub(crate) fn json_lines(&self) -> PathBuf {
        self.folder.join(format!("{}.jsonl", self.stem))
    }

    /// The rows as Parquet.
    pub(crate) fn parquet(&self) -> PathBuf {
        self.folder.join(format!("{}.parquet", self.stem))
    }

    /// What they belong to, and what proves them.
    pub(crate) fn label(&self) -> PathBuf {
        self.folder.join(format!("{}.rows.json", self.stem))
    }

    /// All of them; the label last.
    pub(crate) fn all(&self) -> [PathBuf; 4] {
        [self.csv(), self.json_lines(), self.parquet(), self.label()]
    }

    /// # Errors
    /// If one of them is there and is no ordinary file of its own: rows go through no link and into no pipe.
    pub(crate) fn check(&self) -> Result<()> {
        for path in self.all() {
            match path.symlink_metadata() {
                Ok(metadata) if metadata.is_file() => {}
                Ok(_) => {
                    let text = " is no ordinary file: rows are written into files of their own. Give another folder, or remove it";
                    return Err(fault_at(ErrorKind::AlreadyExists, &path, text));
                }
                Err(error) if error.kind() == ErrorKind::NotFound => {}
                Err(error) => return Err(unread(&path)(error)),
            }
        }
        Ok(())
    }
}

/// A file of rows to be written, made if it is not there; never through a link.
///
/// # Errors
/// If it cannot be opened.
pub(crate) fn to_write(path: &Path) -> Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.custom_flags(libc::O_NOFOLLOW);
    }
    options.open(path).map_err(unwritten(path))
}

/// Where a file is written until it is whole: one name, so that a killed run leaves no more than one.
pub(crate) fn unfinished(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    path.with_file_name(format!(".{name}.unfinished"))
}

/// Writes a file of this program's own keeping, whole or not at all, over the one that is there; the permissions of that stay.
///
/// # Errors
/// If it cannot be written; what stood there is then as it was.
pub(super) fn whole(path: &Path, write: impl FnOnce(&mut File) -> Result<()>) -> Result<()> {
    let beside = unfinished(path);
    let mut file = to_write(&beside)?;
    let written = file.set_len(0).and_then(|()| write(&mut file));
    let written = written.and_then(|()| match path.metadata() {
        Ok(before) => file.set_permissions(before.permissions()),
        Err(_) => Ok(()),
    });
    let written = written.and_then(|()| rename(&beside, path));
    or_removed(written, [&beside]).map_err(unwritten(path))
}

/// What was made; where that failed, files that were begun are removed.
pub(super) fn or_removed(made: Result<()>, begun: impl IntoIterator<Item = impl AsRef<Path>>) -> Result<()> {
    if made.is_err() {
        begun.into_iter().for_each(|path| drop(remove_file(path)));
    }
    made
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published check value for "abc" (FIPS 180-4 examples; memory, sure).
    #[test]
    fn the_hash_gives_its_published_value() {
        let mut hash = Sha256::new();
        hash.update(b"abc");
        assert_eq!(hex(hash), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
