//! From the files of a record to typed pieces, with a complaint about everything that is wrong.

use crate::cli::cut::{self, Listed};
use crate::cli::files::free;
use crate::cli::whose::{Label, Whose, not_listed};
use crate::input::{Problem, day_text, text};
use crate::job::read_path as read_job;
use crate::member::Seam;
use crate::prediction::{Job, Wanted, predict_only};
use crate::reading::Diagnostics;
use crate::record::{Member, Piece, Quantity, Reading, Record};
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::FRAC_1_SQRT_2;
use std::path::{Path, PathBuf};
use weldbow_engine::numerics::between;
use weldbow_engine::straighten::piece::Measuring;
use weldbow_files::record::{Read, RecordRow, Rows, pieces_in, read_path};

/// What may be given.
const WANTED: &str = "a record ending in `.csv`, `.xlsx`, `.xlsm` or `.ods`, or a folder of them";
/// How names of records end.
const ENDINGS: [&str; 4] = ["csv", "xlsx", "xlsm", "ods"];

/// A record, with what only people want to know.
#[derive(Debug)]
pub(super) struct Gathered {
    /// The record.
    pub record: Record,
    /// First and last day, where pieces have one.
    pub days: Option<[String; 2]>,
    /// Columns that are the shop's own.
    pub unread: Vec<String>,
}

/// Reads a record.
///
/// # Errors
/// One complaint a file.
pub(crate) fn gather(path: &Path, measuring: Measuring) -> Result<Gathered, Vec<Diagnostics>> {
    let mut all = Gathering {
        record: Record::default(),
        complaints: Vec::new(),
        measuring,
        members: BTreeMap::new(),
        lists: BTreeMap::new(),
        seen: BTreeMap::new(),
        unread: BTreeSet::new(),
    };
    for file in files(path)? {
        let read = all.file(&file);
        all.complaints.extend(read.err().unwrap_or_default());
    }
    if !all.complaints.is_empty() {
        return Err(all.complaints);
    }
    let days = || all.record.pieces.iter().filter_map(|p| p.day);
    let days = days().min().zip(days().max()).map(|(a, b)| [day_text(a), day_text(b)]);
    Ok(Gathered { record: all.record, days, unread: all.unread.into_iter().collect() })
}

fn whole(path: &Path, found: impl Into<String>) -> Vec<Diagnostics> {
    vec![Diagnostics::whole(&path.display().to_string(), Problem::new("", found, WANTED))]
}

fn files(path: &Path) -> Result<Vec<PathBuf>, Vec<Diagnostics>> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let entries =
        std::fs::read_dir(path).map_err(|e| whole(path, format!("a folder that cannot be read ({e})")))?;
    let fits = |p: &PathBuf| {
        let ending = p.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        p.is_file() && ENDINGS.contains(&ending.as_str())
    };
    let mut found: Vec<PathBuf> = entries.filter_map(|e| e.ok().map(|e| e.path())).filter(fits).collect();
    found.sort();
    if found.is_empty() { Err(whole(path, "a folder without records")) } else { Ok(found) }
}

struct Gathering {
    record: Record,
    complaints: Vec<Diagnostics>,
    measuring: Measuring,
    /// Members; None for one that is wrong, and was complained about.
    members: BTreeMap<Whose, Option<usize>>,
    /// Lists of marks; None for one that is wrong.
    lists: BTreeMap<PathBuf, Option<Vec<Listed>>>,
    /// Pieces by member and name, with the file they stand in.
    seen: BTreeMap<(usize, String), String>,
    unread: BTreeSet<String>,
}

/// The number of a name in a list, which it is put into.
fn number(names: &mut Vec<String>, name: &str) -> usize {
    names.iter().position(|known| known == name).unwrap_or_else(|| {
        names.push(name.to_owned());
        names.len() - 1
    })
}

/// The member that a line names.
fn named(row: &RecordRow, folder: &Path) -> Result<Whose, (Problem, &'static str)> {
    Whose::of(&Label { job: &row.job, mark: &row.mark, marks: row.marks.as_deref() }, folder)
}

impl Gathering {
    fn file(&mut self, path: &Path) -> Result<(), Vec<Diagnostics>> {
        let Rows { text, rows, unread } = read_path(path).map_err(|complaint| vec![complaint])?;
        self.unread.extend(unread);
        let folder = path.parent().unwrap_or(Path::new(""));
        let name = path.display().to_string();
        let (mut problems, mut members) = (Vec::new(), Vec::new());
        for row in &rows {
            match named(row, folder).and_then(|named| self.member(named)) {
                Ok(member) => {
                    members.push(member);
                    let key = member.map(|m| (m, row.piece.clone()));
                    let first = key.and_then(|key| self.seen.insert(key, name.clone()));
                    if let Some(first) = first {
                        let found = format!("`{}` again, as in {first}", row.piece);
                        let wanted = "each piece of a job once; of two measurements give the mean, with `measurements` 2";
                        let problem = Problem::new("piece", found, wanted).example("R2-02");
                        problems.push((problem, row.place("piece")));
                    }
                }
                Err((problem, place)) => problems.push((problem, row.place(place))),
            }
        }
        if !problems.is_empty() {
            return Err(vec![Diagnostics::placed(&name, &text, problems)]);
        }
        let jobs: Option<Vec<Job>> =
            members.iter().map(|m| m.map(|m| self.record.members[m].job.clone())).collect();
        let Some(jobs) = jobs else { return Ok(()) };
        let pairs: Vec<(RecordRow, &Job)> = rows.into_iter().zip(&jobs).collect();
        let read = pieces_in(&name, &text, folder, &pairs, self.measuring)?;
        for (((row, _), read), member) in pairs.iter().zip(read).zip(members.into_iter().flatten()) {
            self.piece(row, &read, member);
        }
        Ok(())
    }

    /// The number of a member, which is read where it is new; None where its files are wrong.
    fn member(&mut self, named: Whose) -> Result<Option<usize>, (Problem, &'static str)> {
        if let Some(known) = self.members.get(&named) {
            return Ok(*known);
        }
        let found = match &named {
            Whose::Job(path) => {
                let stem = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy();
                let job = read_job(path).map_err(|complaint| self.complaints.push(complaint)).ok();
                job.map(|job| (text::short(&stem).into_owned(), job))
            }
            Whose::Mark(list, mark) => {
                if !self.lists.contains_key(list) {
                    let read = cut::list(list).map_err(|all| self.complaints.extend(all)).ok();
                    self.lists.insert(list.clone(), read);
                }
                match &self.lists[list] {
                    None => None,
                    Some(all) => {
                        let own = all.iter().find(|l| l.mark == *mark).ok_or_else(|| {
                            let names: Vec<&str> = all.iter().map(|l| l.mark.as_str()).collect();
                            (not_listed(mark, list, &names), "mark")
                        })?;
                        Some((mark.clone(), own.job.clone()))
                    }
                }
            }
        };
        let member = found.map(|(name, job)| {
            let members = &mut self.record.members;
            let name = free(&name, |name| members.iter().any(|m| m.name == name));
            // as computed: what was learned before is not learned from again
            members.push(Member { name, job: job.unlearned() });
            members.len() - 1
        });
        self.members.insert(named, member);
        Ok(member)
    }

    fn piece(&mut self, row: &RecordRow, read: &Read, member: usize) {
        let stem = self.record.members[member].name.clone();
        let family = row.family.clone().unwrap_or(stem);
        let readings = readings(row, read, &self.record.members[member].job);
        let record = &mut self.record;
        record.pieces.push(Piece {
            name: row.piece.clone(),
            day: row.day,
            member,
            family: number(&mut record.families, &family),
            procedure: number(&mut record.procedures, &row.procedure),
            line: number(&mut record.lines, &row.line),
            readings,
        });
    }
}

fn readings(row: &RecordRow, read: &Read, job: &Job) -> Vec<Reading> {
    let mut all = Vec::new();
    let mut add = |what, at_mm, value_mm, sd_mm| all.push(Reading { what, at_mm, value_mm, sd_mm });
    if let Some((mm, sd)) = read.camber {
        // a web cut to ordinates leaves what the prediction missed: put back what the cut made up for
        let made_up = if row.web_cut { made_up_mm(job, read.at_mm) } else { 0.0 };
        add(Quantity::Camber, read.at_mm, mm + made_up, sd);
    }
    if let Some((mm, sd)) = read.sweep {
        add(Quantity::Sweep, read.at_mm, mm, sd);
    }
    if let Some((mm, sd)) = read.shortening {
        add(Quantity::Shortening, 0.5 * job.member.length_mm, mm, sd);
    }
    for (seam, (toes, at_mm)) in Seam::BOTH.into_iter().zip(read.toes.iter().zip(read.toes_at_mm)) {
        if let Some((near, far)) = toes {
            let sd = FRAC_1_SQRT_2 * read.toe_sd_mm;
            add(Quantity::Cup(seam), at_mm, 0.5 * (near + far), sd);
            add(Quantity::Tilt(seam), at_mm, 0.5 * (near - far), sd);
        }
    }
    all
}

/// Camber that the cut of the web was made against, mm: as computed, less the one aimed at.
fn made_up_mm(job: &Job, at_mm: f64) -> f64 {
    let camber = predict_only(job, &Wanted { profiles: true, ..Wanted::default() }).camber;
    let x: Vec<f64> = camber.profile.iter().map(|p| p[0]).collect();
    between(&x, |i| camber.profile[i][1], at_mm) - job.aimed_camber_mm(at_mm)
}
