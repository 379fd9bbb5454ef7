//! What the shop's own pieces say, put into a job that is like them, and a word about it either way.

use super::super::file::{JobFile, LearnedFile, LearnedJob, LearnedShape};
use crate::job::file::ANY;
use crate::member::Seam;
use crate::prediction::{Code, Field, Job, Warning};
use crate::units::{Message, Part};
use std::ops::RangeInclusive;

/// Beyond what was measured by this part, a job is another kind (choice: a plate of 8 mm speaks for 7 and 10, not for 12).
const BEYOND: f64 = 0.25;
/// Days after which a record is called old (choice: a year of new wire, new people, new plate).
const OLD_DAYS: i64 = 365;

/// Puts it in, where the job is like the pieces; says so, or why not.
pub fn apply(file: &JobFile, job: &mut Job) {
    let text = match &file.learned {
        None => return,
        Some(LearnedShape::File(name)) => {
            Message::from(format!("`{name}` is not applied: it is read only from a job that is a file"))
        }
        Some(LearnedShape::Here(found)) => teach(found, file, job),
    };
    job.notes.push(Warning::new(Code::Learned, text));
}

/// Puts what was learned into a job; says what was done.
fn teach(found: &LearnedFile, file: &JobFile, job: &mut Job) -> Message {
    let until = found.to.as_ref().map_or(String::new(), |day| format!(" to {day}"));
    let from = format!("{} measured pieces{until}", found.pieces);
    let not = || Message::from(format!("what {from} say is not applied: "));
    if let Some(why) = outside(found, job) {
        return not().then(why);
    }
    let line = file.line.as_ref().and_then(|line| line.name.as_deref());
    let Some(own) = choose(found, file, job, line) else {
        let name = line.unwrap_or_default();
        return not()
            .and(format!("they are of other lines than \"{name}\"; name the line in [line] of the job"));
    };
    let mut learned = own.learned.clone();
    learned.from.clone_from(&from);
    let before = job.clone();
    if learned.teach(job).is_err() {
        *job = before;
        return not().and("it takes a factor beyond what the model covers");
    }
    let of = |what: &str, name: &str| match name {
        ANY => format!(", {what} not among them"),
        "" => String::new(),
        name => format!(", {what} {name}"),
    };
    let old = found.days_old.filter(|days| *days > OLD_DAYS);
    let old = old.map_or(String::new(), |days| {
        format!("; the last of them is {} months old: measure a few new ones", days / 30)
    });
    let whose = [of("line", &own.line), of("family", &own.family), of("procedure", &own.procedure)].concat();
    Message::from(format!("with what {from} say{whose}{old}"))
}

/// The nearest of what was learned; None for another line.
fn choose<'a>(
    found: &'a LearnedFile,
    file: &JobFile,
    job: &Job,
    line: Option<&str>,
) -> Option<&'a LearnedJob> {
    let lines = || found.job.iter().map(|j| j.line.as_str());
    let only = lines().all(|l| Some(l) == lines().next());
    let here = |j: &&LearnedJob| line.map_or(only, |line| j.line == line);
    let mut used = file.passes.iter().filter_map(|p| p.procedure.as_deref());
    let first = used.next();
    let procedure = first.filter(|first| used.all(|other| other == *first));
    let procedures = || found.job.iter().map(|j| j.procedure.as_str()).filter(|p| *p != ANY);
    let single = procedures().all(|p| Some(p) == procedures().next());
    let nearness = |j: &&LearnedJob| {
        let family = j.titles.contains(&job.title);
        let way = Some(j.procedure.as_str()) == procedure || (single && j.procedure != ANY);
        (family, way)
    };
    let fits = |j: &&LearnedJob| {
        let (family, way) = nearness(j);
        (family || j.family == ANY) && (way || j.procedure == ANY)
    };
    found.job.iter().filter(here).filter(fits).max_by_key(nearness)
}

/// Words, how its sizes are shown, what was measured, what the job has.
type Compared = (&'static str, fn(f64) -> Part, [f64; 2], RangeInclusive<f64>);

/// What of the job lies outside what was measured.
fn outside(found: &LearnedFile, job: &Job) -> Option<Message> {
    let scope = &found.scope;
    let m = &job.member;
    let flanges = || Seam::BOTH.into_iter().flat_map(|seam| m.flange(seam)).map(|p| p.thickness_mm);
    let all: [Compared; 5] = [
        ("a length of ", Part::Position, scope.length_mm, range([m.length_mm].into_iter())),
        ("a web of ", Part::Plate, scope.web_mm, range(m.web.iter().map(|p| p.thickness_mm))),
        ("a flange of ", Part::Plate, scope.flange_mm, range(flanges())),
        (
            "a net heat of ",
            Part::Heat,
            scope.heat_j_per_mm,
            range(job.passes.iter().map(|p| p.heat_j_per_mm)),
        ),
        ("a yield strength of ", Part::Stress, scope.yield_mpa, range([m.steel.yield_mpa].into_iter())),
    ];
    for (what, part, [low, high], have) in all {
        let (least, most) = (*have.start(), *have.end());
        if least < low * (1.0 - BEYOND) || most > high * (1.0 + BEYOND) {
            let far = if most > high { most } else { least };
            return Some(Message::of(
                "{}{} is beyond the {} to {} of the pieces",
                [what.into(), part(far), part(low), part(high)],
            ));
        }
    }
    let sides = Seam::BOTH.map(|seam| !Field::seam(job, seam, true).is_empty());
    if sides.contains(&true) && !scope.both_sides {
        return Some("no piece was welded from both sides".into());
    }
    (sides.contains(&false) && !scope.one_side).then(|| "no piece was welded from one side".into())
}

fn range(values: impl Iterator<Item = f64>) -> RangeInclusive<f64> {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)));
    low..=high
}
