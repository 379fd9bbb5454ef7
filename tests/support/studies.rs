//! The studies of the course, read and run.

#![allow(dead_code, missing_docs)]

use std::fs::read_dir;
use std::path::{Path, PathBuf};
use weldbow::chart::{Picture, study_pictures};
use weldbow::job::file::JobFile;
use weldbow::reading::{InputFile, read_file, read_text_as};
use weldbow::study::file::StudyFile;
use weldbow::study::{Study, Table, Values};

pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("studies")
}

/// Names of all study files without their ending, in teaching order.
pub(crate) fn stems() -> Vec<String> {
    let paths = read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let studies = paths.filter(|path| path.extension().is_some_and(|ending| ending == "toml"));
    let mut stems: Vec<String> =
        studies.map(|path| path.file_stem().unwrap().to_string_lossy().into_owned()).collect();
    stems.sort();
    stems
}

/// The text of a study of the course.
pub(crate) fn text(stem: &str) -> String {
    std::fs::read_to_string(folder().join(format!("{stem}.toml"))).unwrap()
}

pub(crate) fn study(stem: &str) -> Study {
    let file = folder().join(stem);
    study_of(&text(stem), file.parent().unwrap_or(Path::new("")))
}

/// A study from its text, with its jobs beside a folder.
fn study_of(text: &str, folder: &Path) -> Study {
    let paper: InputFile<StudyFile> =
        read_text_as("study.toml", text).unwrap_or_else(|complaint| panic!("{complaint}"));
    let job = |name: &str| {
        let beside = folder.join(name);
        let paper: InputFile<JobFile> = read_file(&beside).map_err(|c| c.to_string())?;
        Ok(paper.shape)
    };
    Study::new(&paper.shape, job).unwrap_or_else(|problems| panic!("{}", paper.complaint(problems)))
}

/// A study with its rows.
pub(crate) struct Run {
    pub study: Study,
    pub table: Table,
}

pub(crate) fn run(stem: &str) -> Run {
    rows_of(study(stem))
}

/// A study that only a test has, beside those of the course.
pub(crate) fn run_of(text: &str) -> Run {
    rows_of(study_of(text, &folder()))
}

fn rows_of(study: Study) -> Run {
    let table = study.table(&study.rows(0..study.count()));
    Run { study, table }
}

/// Every chart of a study, named as `weldbow study` names its files.
pub(crate) fn pictures(stem: &str) -> Vec<Picture> {
    run(stem).pictures(stem)
}

impl Run {
    /// Its charts, named after it.
    pub(crate) fn pictures(&self, stem: &str) -> Vec<Picture> {
        study_pictures(&self.study, &self.table, stem).unwrap_or_else(|error| panic!("{stem}: {error}"))
    }

    /// A column of numbers.
    pub(crate) fn all(&self, name: &str) -> Vec<f64> {
        let column = self.table.column(name).unwrap_or_else(|| panic!("no column {name}"));
        column.numbers().unwrap_or_else(|| panic!("{name} holds words")).to_vec()
    }

    /// The numbers of rows where other columns of numbers have these values.
    pub(crate) fn where_is(&self, name: &str, wanted: &[(&str, f64)]) -> Vec<f64> {
        let wanted: Vec<_> = wanted.iter().map(|(column, value)| (self.all(column), *value)).collect();
        let fits = |row: usize| wanted.iter().all(|(column, value)| (column[row] - value).abs() < 1e-6);
        let found: Vec<f64> =
            self.all(name).into_iter().enumerate().filter(|(row, _)| fits(*row)).map(|(_, x)| x).collect();
        assert!(!found.is_empty(), "{name}: no row like that");
        found
    }

    /// The one such number.
    pub(crate) fn one(&self, name: &str, wanted: &[(&str, f64)]) -> f64 {
        let found = self.where_is(name, wanted);
        assert_eq!(found.len(), 1, "{name}: {found:?}");
        found[0]
    }

    /// The number where a column of words says that.
    pub(crate) fn said(&self, name: &str, column: &str, word: &str) -> f64 {
        let Some(Values::Words(words)) = self.table.column(column).map(|c| &c.values) else {
            panic!("{column} holds no words");
        };
        let row = words.iter().position(|w| w == word).unwrap_or_else(|| panic!("no {word} in {words:?}"));
        self.all(name)[row]
    }
}

/// Fails unless a number lies between two others.
#[track_caller]
pub(crate) fn within(what: &str, value: f64, low: f64, high: f64) {
    assert!((low..=high).contains(&value), "{what}: {value:.5}, wanted {low:.5} to {high:.5}");
}

/// Fails unless numbers go down all the way.
#[track_caller]
pub(crate) fn falls(what: &str, values: &[f64]) {
    assert!(values.len() > 1 && values.is_sorted_by(|a, b| a > b), "{what} does not fall: {values:?}");
}

/// Fails unless numbers go up all the way.
#[track_caller]
pub(crate) fn rises(what: &str, values: &[f64]) {
    assert!(values.len() > 1 && values.is_sorted_by(|a, b| a < b), "{what} does not rise: {values:?}");
}
