//! What is asked: a study file, or a question on the command line.

use super::label::Proof;
use crate::chart::spec_fits;
use crate::cli::lists::distinct;
use crate::input::near::{listed, meant};
use crate::input::{Form, Problem};
use crate::job::file::JobFile;
use crate::reading::{Diagnostics, Hint, InputFile, read_file};
use crate::study::Study;
use crate::study::file::StudyFile;
use serde_json::{Value, json};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Name of a study's files.
pub(crate) fn stem(file: &Path) -> String {
    file.file_stem().map_or_else(|| "study".to_owned(), |stem| stem.to_string_lossy().into_owned())
}

/// Reads and checks a study file and the jobs it names; the files read, each with its hash.
pub(crate) fn read(file: &Path) -> Result<(Study, Vec<Proof>), Diagnostics> {
    let paper: InputFile<StudyFile> = read_file(file)?;
    let folder = file.parent().unwrap_or(Path::new("")).to_owned();
    let read = RefCell::new(vec![file.to_owned()]);
    let study = Study::new(&paper.shape, |name| {
        let path = folder.join(name);
        let job = job_file(&path);
        read.borrow_mut().push(path);
        job
    });
    let study = study.map_err(|problems| paper.complaint(problems))?;
    let problems = wrong_charts(&study);
    if !problems.is_empty() {
        return Err(paper.complaint(problems));
    }
    let files: BTreeSet<PathBuf> = read.into_inner().into_iter().filter(|path| path.is_file()).collect();
    // one that is gone by now is proven by nothing
    let proofs = files.iter().filter_map(|path| Proof::of(path, path.display().to_string()).ok());
    Ok((study, proofs.collect()))
}

fn job_file(path: &Path) -> Result<JobFile, String> {
    let paper: InputFile<JobFile> = read_file(path).map_err(|complaint| wanted(&complaint))?;
    crate::job::check(&paper.shape).map_err(|problems| wanted(&paper.complaint(problems)))?;
    Ok(paper.shape)
}

/// The first mistake of a job, in one line.
fn wanted(complaint: &Diagnostics) -> String {
    let text = complaint.to_string();
    let first = text.lines().next().unwrap_or_default();
    format!("{} that can be predicted; {first}", JobFile::WHAT)
}

/// Charts that cannot be drawn.
pub(crate) fn wrong_charts(study: &Study) -> Vec<Problem> {
    let columns = study.columns();
    let wrong = |(i, spec)| {
        let fault = spec_fits(spec, &columns, |name| study.values_of(name)).err()?;
        let path = format!("chart[{i}].{}", fault.key());
        Some(Problem::new(path, "a chart that cannot be drawn", fault.to_string()))
    };
    study.charts.iter().enumerate().filter_map(wrong).collect()
}

/// Values of a range that says nothing of their number (a choice: enough for a curve, few enough to read).
const STEPS: u64 = 9;

/// Short words for results.
const SHORT: [(&str, &[&str]); 7] = [
    ("shortening", &["shortening_mm"]),
    ("camber", &["camber.max_mm"]),
    ("sweep", &["sweep.max_mm"]),
    ("cup", &["flanges.outer.cup_rad", "flanges.inner.cup_rad"]),
    ("tilt", &["flanges.outer.tilt_rad", "flanges.inner.tilt_rad"]),
    ("toes", &["flanges.outer.near_toe_mm", "flanges.inner.near_toe_mm"]),
    ("ripple", &["ripple.over_critical"]),
];

/// What a question needs to become a study.
pub(super) struct Question<'a> {
    /// Job file.
    pub job: &'a Path,
    /// What varies: "pass.leg = 4 mm .. 8 mm", "pass.leg = 4 mm, 6 mm".
    pub vary: &'a [String],
    /// Results, by name or by a short word.
    pub show: &'a [String],
}

impl Question<'_> {
    /// The study that answers it, and what it was computed from.
    ///
    /// # Errors
    /// Everything wrong with the job or with the words of the question.
    pub(super) fn study(&self) -> Result<(Study, Vec<Proof>), Vec<Diagnostics>> {
        let paper: InputFile<JobFile> = read_file(self.job).map_err(|complaint| vec![complaint])?;
        let job = crate::job::check(&paper.shape).map_err(|problems| vec![paper.complaint(problems)])?;
        let axis = |text: &String| axis(text).map_err(|problem| vec![of_argument("--vary", text, problem)]);
        let axes: Vec<Value> = self.vary.iter().map(axis).collect::<Result<_, _>>()?;
        let collect = self.results();
        let place = |at: usize| axes.get(at).and_then(|axis| axis["set"].as_str());
        let mut chart = json!({ "kind": "lines", "x": place(0), "y": collect });
        if let Some(by) = place(1) {
            chart["by"] = json!(by);
        }
        let file = json!({
            "title": job.title,
            "job": crate::input::text::path(self.job),
            "collect": collect,
            "vary": axes,
            "chart": [chart],
        });
        let file: StudyFile = serde_json::from_value(file).map_err(|error| {
            let problem = Problem::new("", "a question that is no study", error.to_string());
            vec![Diagnostics::whole("--vary", problem)]
        })?;
        let mut study =
            Study::new(&file, |_| Ok(paper.shape.clone())).map_err(|problems| self.complaints(problems))?;
        // names along the bottom, or results of several units, are no curves; the rows answer all the same
        if !wrong_charts(&study).is_empty() {
            study.charts.clear();
        }
        let proof = Proof::of(self.job, self.job.display().to_string());
        Ok((study, proof.into_iter().collect()))
    }

    /// Names of the results asked for.
    fn results(&self) -> Vec<String> {
        let usual = ["shortening".to_owned(), "camber".to_owned(), "sweep".to_owned()];
        let asked = if self.show.is_empty() { &usual[..] } else { self.show };
        let long = words(asked).flat_map(|word| match SHORT.iter().find(|(short, _)| *short == word) {
            Some((_, names)) => names.to_vec(),
            None => vec![word],
        });
        distinct(long.map(str::to_owned))
    }

    /// A problem of a result: the short word probably meant comes before any long name.
    fn of_show(&self, problem: Problem) -> Problem {
        let short = SHORT.map(|(word, _)| word);
        let meant = words(self.show).filter(|word| !word.contains('.')).find_map(|word| meant(word, &short));
        let problem = Problem { path: String::new(), ..problem };
        match meant.filter(|meant| !words(self.show).any(|word| word == *meant)) {
            Some(word) => {
                let wanted = format!("did you mean `{word}`? Short words: {}", listed(short));
                Problem { wanted, ..problem }.right(word)
            }
            None => problem,
        }
    }

    /// Problems of the study, each with the argument it is about.
    fn complaints(&self, problems: Vec<Problem>) -> Vec<Diagnostics> {
        let place = |problem: Problem| {
            let at = problem.path.split(['[', ']']).nth(1).and_then(|at| at.parse::<usize>().ok());
            let argument = at.and_then(|at| self.vary.get(at)).filter(|_| problem.path.starts_with("vary"));
            match argument {
                Some(text) => of_argument("--vary", text, of_axis(text, problem)),
                None if problem.path.starts_with("collect") => {
                    of_argument("--show", &self.show.join(", "), self.of_show(problem))
                }
                None => Diagnostics::whole("--vary", problem),
            }
        };
        problems.into_iter().map(place).collect()
    }
}

/// A problem of an axis: a right place makes the right argument.
fn of_axis(text: &str, problem: Problem) -> Problem {
    let hint = match (&problem.hint, text.split_once('=')) {
        (Hint::Value(place), Some((_, values))) if problem.path.ends_with(".set") => {
            Hint::Right(format!("{} ={values}", place.trim_matches('"')))
        }
        (hint, _) => hint.clone(),
    };
    Problem { path: String::new(), hint, ..problem }
}

/// Words of the list of results.
fn words(show: &[String]) -> impl Iterator<Item = &str> {
    show.iter().flat_map(|text| text.split(',')).map(str::trim).filter(|word| !word.is_empty())
}

fn of_argument(switch: &str, text: &str, problem: Problem) -> Diagnostics {
    Diagnostics::placed(switch, text, vec![(problem, Some(0..text.len()))])
}

/// One axis: "pass.leg = 4 mm .. 8 mm", "pass.leg = 4 .. 8 mm in 5", or "pass.leg = 4 mm, 6 mm".
fn axis(text: &str) -> Result<Value, Problem> {
    let wrong = |found: &str| {
        let wanted = "a place of the job, `=`, and values: two with `..` between, or several with commas";
        Problem::new("", found, wanted).example("pass.leg = 4 mm .. 8 mm")
    };
    let (set, values) = text.split_once('=').ok_or_else(|| wrong("no `=`"))?;
    let (set, values) = (set.trim(), values.trim());
    if set.is_empty() || values.is_empty() {
        return Err(wrong("nothing beside the `=`"));
    }
    let Some((from, to)) = values.split_once("..") else {
        let values: Vec<Value> = values.split(',').map(|value| plain(value.trim())).collect();
        return Ok(json!({ "set": set, "values": values }));
    };
    let (to, steps) = match to.rsplit_once(" in ").map(|(to, steps)| (to, steps.trim().parse::<u64>())) {
        Some((to, Ok(steps))) => (to, steps),
        _ => (to, STEPS),
    };
    let (from, to) = (from.trim(), to.trim());
    // "4 .. 8 mm": the unit stands once
    let unit = to.find(|c: char| c.is_alphabetic() || "\"'°".contains(c)).map(|at| &to[at..]);
    let from = match (from.parse::<f64>(), unit) {
        (Ok(_), Some(unit)) => format!("{from} {unit}"),
        _ => from.to_owned(),
    };
    Ok(json!({ "set": set, "from": plain(&from), "to": plain(to), "steps": steps }))
}

/// A number, or text as it is.
fn plain(text: &str) -> Value {
    let whole = text.parse::<i64>().map(Value::from);
    whole.or_else(|_| text.parse::<f64>().map(Value::from)).unwrap_or_else(|_| match text {
        "true" => Value::Bool(true),
        "false" => Value::Bool(false),
        words => Value::from(words.trim_matches('"')),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_a_list_and_a_unit_that_stands_once_are_understood() {
        for (text, expected) in [
            (
                "pass.leg = 4 mm .. 8 mm",
                json!({ "set": "pass.leg", "from": "4 mm", "to": "8 mm", "steps": 9 }),
            ),
            ("pass.leg=4..8 mm in 5", json!({ "set": "pass.leg", "from": "4 mm", "to": "8 mm", "steps": 5 })),
            (
                "factors.force = 0.9 .. 1.1",
                json!({ "set": "factors.force", "from": 0.9, "to": 1.1, "steps": 9 }),
            ),
            ("pass.side = near, far", json!({ "set": "pass.side", "values": ["near", "far"] })),
            ("pass.leg = 1/4 in, 5/16 in", json!({ "set": "pass.leg", "values": ["1/4 in", "5/16 in"] })),
        ] {
            assert_eq!(axis(text), Ok(expected), "{text}");
        }
        for text in ["pass.leg", "= 4 mm", "pass.leg ="] {
            assert!(axis(text).is_err(), "{text}");
        }
    }
}
