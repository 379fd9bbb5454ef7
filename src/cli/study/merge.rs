//! `weldbow study merge`: joins the parts of a study.

use super::finish::finish;
use super::label::{Label, Names, or_removed, to_write, unfinished};
use super::proven::{Fault, Rows, prove};
use super::reading::{read, stem};
use super::{columnar, show};
use crate::cli::ended::Outcome;
use crate::cli::files::{Force, fault_at, unread, unwritten};
use crate::cli::show::Report;
use crate::input::text;
use crate::study::{Study, shard};
use std::fs::{File, rename};
use std::io::{Error, ErrorKind, Read, Result, Seek, SeekFrom, Write, copy};
use std::path::{Path, PathBuf};

/// Parts named in a message (a choice).
const MOST_NAMED: usize = 10;

/// Join the parts of a study.
#[derive(Debug, clap::Args)]
pub(super) struct Merge {
    /// The study file
    #[arg(value_name = "STUDY")]
    study: PathBuf,
    /// The folder with the parts; the whole goes there too
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Write the whole as Parquet too
    #[arg(long)]
    parquet: bool,
    #[command(flatten)]
    over: Force,
}

/// A part that is proven.
struct Part {
    names: Names,
    label: Label,
}

impl Merge {
    /// Joins the parts, says what the whole says, and draws its charts. A whole that is there already and intact stays as it is.
    ///
    /// # Errors
    /// If parts are missing, not finished, changed, or of another study, and if the whole cannot be written.
    pub(super) fn run(&self, out: &mut dyn Write) -> Outcome {
        let (study, inputs) = read(&self.study)?;
        let name = stem(&self.study);
        let whole = Names::new(&self.out, &name, None);
        whole.check()?;
        let mut label = Label::of(&study, &(0..study.count()), inputs);
        Report::put(out, |said| show::opening(&study, said))?;
        if is_good(&whole, &label)? {
            writeln!(out, "The whole is there already, in {}", text::path(&whole.csv()))?;
        } else {
            let parts = self.parts(&study, &name)?;
            label.chunks = parts.iter().flat_map(|part| part.label.chunks.clone()).collect();
            self.join(&parts, &whole, &label)?;
            writeln!(out, "{} parts joined in {}", parts.len(), text::path(&whole.csv()))?;
        }
        if self.parquet {
            columnar::keep(&study, &whole, self.over.force, out)?;
        }
        Ok(finish(&study, &name, &whole, self.over.force, out)?)
    }

    /// Writes the whole under other names, proves it, and gives it its own last.
    fn join(&self, parts: &[Part], whole: &Names, label: &Label) -> Result<()> {
        let forms = Rows::kept(whole, label.has_json_lines());
        let beside: Vec<PathBuf> = forms.iter().map(|(_, path)| unfinished(path)).collect();
        let written = || -> Result<()> {
            for ((form, _), temporary) in forms.iter().zip(&beside) {
                copy_rows(parts, *form, label, temporary)?;
                let proven = prove(temporary, label, *form)?;
                if proven.fault.is_some() || proven.rows != label.to - label.from {
                    let what = ": the parts changed while they were joined; nothing was changed";
                    return Err(fault_at(ErrorKind::InvalidData, &self.out, what));
                }
            }
            // a label without its rows is seen to be one; rows without a label would be anyone's
            label.keep(whole)?;
            let mut made = forms.iter().zip(&beside);
            made.try_for_each(|((_, path), temporary)| rename(temporary, path).map_err(unwritten(path)))
        };
        or_removed(written(), &beside)
    }

    /// The parts in the folder, all of one division, all finished and proven.
    fn parts(&self, study: &Study, name: &str) -> Result<Vec<Part>> {
        let n = self.division(name, study.count())?;
        let (mut missing, mut parts) = (Vec::new(), Vec::new());
        for i in 1..=n {
            let names = Names::new(&self.out, name, Some((i, n)));
            let cases = shard(study.count(), i, n);
            names.check()?;
            let Some(label) = Label::read(&names.label())? else {
                missing.push(format!("{i}/{n}"));
                continue;
            };
            if !label.same_rows(&Label::of(study, &cases, Vec::new())) {
                let what = " belongs to another study, or to this one before it, its jobs or this program were changed";
                return Err(fault_at(ErrorKind::InvalidData, &names.csv(), what));
            }
            prove_part(&names, &label)?;
            if label.rows() == cases.end - cases.start {
                parts.push(Part { names, label });
            } else {
                missing.push(format!("{i}/{n} (not finished)"));
            }
        }
        if missing.is_empty() {
            return Ok(parts);
        }
        let others = missing.len().saturating_sub(MOST_NAMED);
        missing.truncate(MOST_NAMED);
        let others = if others > 0 { format!(" and {others} more") } else { String::new() };
        let folder = text::path(&self.out);
        let text = format!(
            "{folder}: missing {}{others}; `weldbow study {} --out {folder} --resume --shard I/{n}` computes one",
            missing.join(", "),
            text::path(&self.study),
        );
        Err(Error::new(ErrorKind::NotFound, text))
    }

    /// How many parts the study was divided into, from the names in the folder.
    fn division(&self, name: &str, cases: u64) -> Result<u64> {
        let entries = std::fs::read_dir(&self.out).map_err(unread(&self.out))?;
        let lead = format!("{name}.part-");
        let of = |file: String| {
            let rest = file.strip_prefix(&lead)?.strip_suffix(".rows.json")?.to_owned();
            rest.split_once("-of-")?.1.parse::<u64>().ok()
        };
        let mut found: Vec<u64> =
            entries.filter_map(|e| of(e.ok()?.file_name().to_string_lossy().into_owned())).collect();
        found.sort_unstable();
        found.dedup();
        let wrong = |kind, what: String| Err(fault_at(kind, &self.out, format_args!(": {what}")));
        match found.as_slice() {
            [n] if (1..=cases).contains(n) => Ok(*n),
            [n] => wrong(ErrorKind::InvalidData, format!("a study of {cases} cases has no part of {n}")),
            [] => wrong(ErrorKind::NotFound, format!("no part of `{}` is there", text::line(name))),
            many => {
                let shown: Vec<String> = many.iter().take(MOST_NAMED).map(u64::to_string).collect();
                let what = format!("parts of several divisions (of {}); keep those of one", shown.join(", "));
                wrong(ErrorKind::InvalidData, what)
            }
        }
    }
}

/// Whether the whole is there, finished, and as it was computed.
fn is_good(whole: &Names, wanted: &Label) -> Result<bool> {
    let csv = whole.csv();
    let refused = |what: &str| {
        Err(fault_at(ErrorKind::AlreadyExists, &csv, format_args!(" {what}; nothing was changed")))
    };
    match Label::read(&whole.label())? {
        Some(found) if !found.same_rows(wanted) => refused("holds rows of another study"),
        None if csv.metadata().is_ok_and(|m| m.len() > 0) => refused("was not written by this study"),
        Some(found) if found.rows() == found.to - found.from => {
            let forms = Rows::kept(whole, found.has_json_lines()).into_iter();
            let proven: Vec<_> =
                forms.map(|(form, path)| prove(&path, &found, form)).collect::<Result<_>>()?;
            Ok(proven.iter().all(|form| form.fault.is_none()))
        }
        _ => Ok(false),
    }
}

/// # Errors
/// If a row of a part is not what was computed.
fn prove_part(names: &Names, label: &Label) -> Result<()> {
    for (form, path) in Rows::kept(names, label.has_json_lines()) {
        let what = match prove(&path, label, form)?.fault {
            None => continue,
            Some(Fault::Short) => ": it ends before the rows that were computed".to_owned(),
            Some(Fault::Changed { line, what }) => format!(":{line}: {what}"),
        };
        let text = format!("{what}; compute this part again. Nothing was changed");
        return Err(fault_at(ErrorKind::InvalidData, &path, text));
    }
    Ok(())
}

/// Writes the rows of all parts one after the other into one file.
fn copy_rows(parts: &[Part], form: Rows, label: &Label, to: &Path) -> Result<()> {
    let failed = unwritten(to);
    let mut writer = to_write(to)?;
    writer.set_len(0).map_err(&failed)?;
    if form == Rows::Csv {
        writer.write_all(label.header.as_bytes()).map_err(&failed)?;
    }
    for part in parts {
        let (path, start) = match form {
            Rows::Csv => (part.names.csv(), part.label.header.len() as u64),
            Rows::JsonLines => (part.names.json_lines(), 0),
        };
        let chunks = part.label.chunks.iter().filter_map(|chunk| form.part(chunk)).map(|part| part.bytes);
        let mut file = File::open(&path).map_err(unread(&path))?;
        file.seek(SeekFrom::Start(start)).map_err(unread(&path))?;
        copy(&mut file.take(chunks.sum()), &mut writer).map_err(&failed)?;
    }
    Ok(())
}
