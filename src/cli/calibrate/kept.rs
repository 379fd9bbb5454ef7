//! What was learned, as the file that jobs and shops name.

use super::gather::Gathered;
use super::words::averaged;
use crate::job::file::{ANY, LearnedFile, LearnedInput, LearnedJob, Scope};
use crate::member::Seam;
use crate::prediction::{Field, Job};
use crate::record::{AppliedTo, Learned, Record};

/// The file.
pub(super) fn kept(gathered: &Gathered, found: &Learned) -> LearnedFile {
    let days = gathered.days.clone();
    let input = found.inputs.iter().map(|i| LearnedInput {
        input: i.input.clone(),
        class: i.class.to_owned(),
        unit: i.unit.to_owned(),
        mean: i.mean,
        sd: i.sd,
    });
    LearnedFile {
        pieces: u32::try_from(found.pieces).unwrap_or(u32::MAX),
        from: days.as_ref().map(|d| d[0].clone()),
        to: days.map(|d| d[1].clone()),
        days_old: None,
        moved: averaged(found),
        scope: scope(&gathered.record),
        input: input.collect(),
        job: found.applied.iter().map(|a| job(&gathered.record, a)).collect(),
    }
}

fn job(record: &Record, of: &AppliedTo) -> LearnedJob {
    let name = |at: Option<usize>, names: &[String]| at.map_or_else(|| ANY.to_owned(), |i| names[i].clone());
    let pieces = record.pieces.iter().filter(|p| Some(p.family) == of.family);
    let mut titles: Vec<String> = pieces.map(|p| record.members[p.member].job.title.clone()).collect();
    titles.sort();
    titles.dedup();
    LearnedJob {
        line: record.lines[of.line].clone(),
        procedure: name(of.procedure, &record.procedures),
        family: name(of.family, &record.families),
        titles,
        learned: of.learned.clone(),
    }
}

fn scope(record: &Record) -> Scope {
    let jobs = || record.members.iter().map(|m| &m.job);
    let over = |sizes: &dyn Fn(&Job) -> Vec<f64>| {
        let all = jobs().flat_map(sizes);
        let (low, high) = all.fold((f64::INFINITY, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
        [low.min(high), high]
    };
    let flanges = |job: &Job| {
        let all = Seam::BOTH.into_iter().flat_map(|s| job.member.flange(s));
        all.map(|p| p.thickness_mm).collect()
    };
    let sides =
        |both: bool| jobs().any(|job| Seam::BOTH.iter().any(|s| !Field::seam(job, *s, both).is_empty()));
    Scope {
        length_mm: over(&|job| vec![job.member.length_mm]),
        web_mm: over(&|job| job.member.web.iter().map(|p| p.thickness_mm).collect()),
        flange_mm: over(&flanges),
        leg_mm: over(&|job| job.passes.iter().map(|p| p.leg_mm).collect()),
        heat_j_per_mm: over(&|job| job.passes.iter().map(|p| p.heat_j_per_mm).collect()),
        yield_mpa: over(&|job| vec![job.member.steel.yield_mpa]),
        one_side: sides(false),
        both_sides: sides(true),
        stitches: jobs().any(|job| job.passes.iter().any(|p| p.welded_fraction() < 1.0)),
    }
}
