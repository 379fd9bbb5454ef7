//! The files that `weldbow cut` leaves behind.

use crate::cli::files::{self, Force, Kind, Target};
use crate::cli::lists::counted;
use crate::cut::{Mark, Table, cut_list, drawing, marks, ordinates, workbook};
use crate::input::text;
use crate::units::System;
use std::io::{Error, Result};
use std::path::PathBuf;

/// What makes a table of marks.
type Made = fn(&[Mark], System) -> Table;

/// What is to be written.
#[derive(Debug, clap::Args)]
pub(super) struct Written {
    /// Draw the plates as DXF (R12): a file for one member, a folder for several
    #[arg(long, value_name = "FILE")]
    pub dxf: Option<PathBuf>,
    /// Write the cut list, one row a plate, into this file
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// Write the ordinates of the webs, one row a station, into this file
    #[arg(long, value_name = "FILE")]
    ordinates: Option<PathBuf>,
    /// Write cut list, ordinates and marks into this workbook (.xlsx)
    #[arg(long, value_name = "FILE")]
    workbook: Option<PathBuf>,
}

/// Where it goes, looked at before anything is written.
pub(super) struct Places {
    drawings: Vec<Target>,
    folder: Option<PathBuf>,
    tables: Vec<(Target, Made)>,
    workbook: Option<Target>,
}

impl Written {
    /// Whether the drawing is one file.
    fn one_drawing(&self) -> bool {
        self.dxf.as_ref().is_some_and(|path| path.extension().is_some_and(|e| e.eq_ignore_ascii_case("dxf")))
    }

    /// What is wrong with what was asked for so many members.
    pub(super) fn refused(&self, members: usize) -> Option<&'static str> {
        (members > 1 && self.one_drawing())
            .then_some("one drawing for several members; give the name of a folder, and each gets its own")
    }

    /// Looks at every place.
    pub(super) fn places(&self, all: &[Mark], system: System, Force { force }: Force) -> Result<Places> {
        let mut drawings = Vec::new();
        if let Some(path) = &self.dxf {
            if self.one_drawing() {
                drawings.push(Target::new(path, Kind::Dxf, force)?);
            } else {
                files::folder(path)?;
                for name in names(all) {
                    drawings.push(Target::new(&path.join(format!("{name}.dxf")), Kind::Dxf, force)?);
                }
            }
        }
        let mut tables: Vec<(Target, Made)> = Vec::new();
        let wanted: [(_, Made); 2] = [(&self.csv, cut_list), (&self.ordinates, ordinates)];
        for (path, table) in wanted {
            let Some(path) = path else { continue };
            let header = table(&[], system).header();
            tables.push((Target::like(path, Kind::Csv, header.as_bytes(), force)?, table));
        }
        let place = |path: &PathBuf| {
            let like = workbook(&all_tables(&[], system)).map_err(Error::other)?;
            Target::like(path, Kind::Workbook, &like, force)
        };
        let workbook = self.workbook.as_ref().map(place).transpose()?;
        Ok(Places { drawings, folder: self.dxf.clone(), tables, workbook })
    }
}

/// Names of drawings: the marks, without what no file name may hold, each once.
fn names(all: &[Mark]) -> Vec<String> {
    let plain = |c: char| if c.is_alphanumeric() || "-_. ".contains(c) { c } else { '-' };
    let name = |mark: &Mark| {
        PathBuf::from(mark.mark.chars().map(plain).collect::<String>().replace("..", "-") + ".x")
    };
    let all: Vec<PathBuf> = all.iter().map(name).collect();
    files::stems(all.iter().map(PathBuf::as_path))
}

fn all_tables(all: &[Mark], system: System) -> [Table; 3] {
    [cut_list(all, system), ordinates(all, system), marks(all, system)]
}

impl Places {
    /// Whether nothing is written.
    pub(super) fn is_empty(&self) -> bool {
        self.drawings.is_empty() && self.tables.is_empty() && self.workbook.is_none()
    }

    /// Writes everything; a line a file.
    pub(super) fn write(&self, all: &[Mark], system: System) -> Result<Vec<String>> {
        let mut said = Vec::new();
        for (target, mark) in self.drawings.iter().zip(all) {
            target.write(drawing(&mark.plates, &mark.mark, mark.quantity, system).as_bytes())?;
        }
        if let Some(folder) = &self.folder {
            said.push(format!("{} (DXF) in {}", counted(all.len(), "drawing"), text::path(folder)));
        }
        for (target, table) in &self.tables {
            let table = table(all, system);
            target.write(table.csv().map_err(Error::other)?.as_bytes())?;
            said.push(format!("{}, {} rows, in {}", table.name, table.rows.len(), target.said()));
        }
        if let Some(target) = &self.workbook {
            let book = workbook(&all_tables(all, system)).map_err(Error::other)?;
            target.write(&book)?;
            said.push(format!("cut list, ordinates and marks in {}", target.said()));
        }
        Ok(said)
    }
}
