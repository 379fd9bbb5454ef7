//! What the shop's own pieces say, put into a job that is like them, and a word about it either way.

use super::super::file::{JobFile, LearnedFile, LearnedJob, LearnedShape};
use crate::prediction::recorded::{ANY, Recorded};
use crate::prediction::{Job, Warning, WarningCode};
use std::sync::Arc;

/// Puts it in, where the job is like the pieces; says so, or why not.
pub(crate) fn apply(file: &JobFile, job: &mut Job) {
    match &file.learned {
        None => {}
        Some(LearnedShape::File(name)) => {
            let text = format!("`{name}` is not applied: it is read only from a job that is a file");
            job.notes.push(Warning::new(WarningCode::NotLearned, text));
        }
        Some(LearnedShape::Here(found)) => {
            job.recorded = Some(Arc::new(recorded(found, file, job)));
            let procedures: Vec<&str> = file.passes.iter().filter_map(|p| p.procedure.as_deref()).collect();
            job.reconsider(&procedures);
        }
    }
}

/// What it says of the line and the family of a job.
fn recorded(found: &LearnedFile, file: &JobFile, job: &Job) -> Recorded {
    let until = found.to.as_ref().map_or(String::new(), |day| format!(" to {day}"));
    let line = file.line.as_ref().and_then(|line| line.name.as_deref());
    let lines = || found.job.iter().map(|j| j.line.as_str());
    let only = lines().all(|l| Some(l) == lines().next());
    let here = |j: &&LearnedJob| line.map_or(only, |line| j.line == line);
    // a title that two families have says which of them it is no more than none
    let mut own = found.job.iter().filter(here).filter(|j| j.titles.contains(&job.title));
    let first = own.next().map(|j| j.family.as_str());
    let family = first.filter(|family| own.all(|j| j.family == *family)).unwrap_or(ANY);
    let of: Vec<&LearnedJob> = found.job.iter().filter(here).filter(|j| j.family == family).collect();
    let words = |what: &str, name: &str| match name {
        ANY => format!(", {what} not among them"),
        "" => String::new(),
        name => format!(", {what} {name}"),
    };
    let moved = match found.moved.as_slice() {
        [] => String::new(),
        places => format!(", from before and after the shop moved ({})", places.join(", ")),
    };
    let from = format!("{} measured pieces{until}{moved}", found.pieces);
    let name = line.unwrap_or_default();
    let other =
        || format!("they are of other lines than \"{name}\"; name the line in [line] of the job").into();
    let way = |j: &LearnedJob| {
        let mut learned = j.learned.clone();
        learned.from.clone_from(&from);
        (j.procedure.clone(), learned)
    };
    Recorded {
        days_old: found.days_old,
        scope: found.scope.clone(),
        other_line: of.is_empty().then(other),
        whose: of.first().map_or(String::new(), |j| words("line", &j.line) + &words("family", family)),
        ways: of.into_iter().map(way).collect(),
        factors: job.factors,
        from,
    }
}
