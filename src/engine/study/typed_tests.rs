//! A number set in the checked job against the same number written into its file.

use super::Study;
use super::file::StudyFile;
use super::typed::AxisRoute;
use crate::job::file::JobFile;
use crate::job::{STARTER, file_of_text};
use crate::prediction::Job;

/// Every demo job, and the starter with deviations of its own.
fn jobs() -> Vec<(String, JobFile)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs");
    let mut found: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    found.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    found.sort();
    let read = |path: &std::path::PathBuf| {
        let file = file_of_text("job.toml", &std::fs::read_to_string(path).unwrap()).unwrap();
        (path.file_stem().unwrap().to_string_lossy().into_owned(), file)
    };
    let mut jobs: Vec<_> = found.iter().map(read).collect();
    let own = "[scatter]\nforce = 0.0\nleg = 0.0\nplate = 0.02\n";
    jobs.push(("starter".to_owned(), file_of_text("own.toml", &format!("{STARTER}\n{own}")).unwrap()));
    jobs
}

/// The starter with runs, which are passes of the checked job and have no place of their own in the file.
fn in_runs() -> Vec<(String, JobFile)> {
    let of = |(name, many): (&str, usize)| {
        let mut file = file_of_text("starter.toml", STARTER).unwrap();
        file.passes.iter_mut().take(many).for_each(|pass| pass.runs = Some(2));
        (name.to_owned(), file)
    };
    [("runs of one pass", 1), ("runs of all passes", usize::MAX)].map(of).to_vec()
}

fn study(text: &str, job: &JobFile) -> Study {
    let text = format!("title = \"t\"\njob = \"j\"\ncollect = [\"camber.max_mm\"]\n{text}");
    let shape = toml::from_str::<StudyFile>(&text).unwrap_or_else(|e| panic!("{e}"));
    Study::new(&shape, |_| Ok(job.clone())).unwrap_or_else(|p| panic!("{p:?}"))
}

/// What a row depends on: splices, whose preparation follows from a drawn thickness through the file alone, only change what is
/// cut.
fn bare(job: Job) -> Job {
    let mut job = Job { carries: None, notes: Vec::new(), title: String::new(), ..job };
    let m = &mut job.member;
    m.web.iter_mut().for_each(|p| p.splice = None);
    m.outer_flange.iter_mut().chain(&mut m.inner_flange).for_each(|p| p.splice = None);
    job
}

/// Cases of a study both ways, to the last bit.
fn same(study: &Study, what: &str) {
    assert!(study.ways.iter().all(|way| *way == AxisRoute::Typed), "{what}: {:?}", study.ways);
    for case in 0..study.count() {
        let values = study.grid.at(case / study.draws_each());
        let u = study.draws.as_ref().map_or_else(Vec::new, |d| d.point(case % study.draws_each()));
        let drawn = study.drawn(&u);
        let mut jobs = Vec::new();
        let typed = study.next_job(&values, &drawn, &mut jobs, 0).map(|()| bare(jobs.remove(0)));
        let by_file = study.job_by_file(&values, &drawn).map(bare);
        assert_eq!(typed, by_file, "{what}, case {case}");
    }
}

#[test]
fn a_number_set_in_the_checked_job_is_the_one_that_its_file_would_give() {
    let axes = [
        "set = \"pass.leg\"\nvalues = [\"0.5 mm\", \"4 mm\", \"7.9375 mm\", \"21 mm\", \"31 mm\", \"49 mm\", \"60 mm\"]",
        "set = \"outer_flange.width\"\nvalues = [\"20 mm\", \"30 mm\", \"150 mm\"]",
        "set = \"pass.outer.leg\"\nvalues = [0.9, 1.1]\ntimes = true",
        "set = \"pass.heat_input\"\nvalues = [\"0.8 kJ/mm\", \"1.3 kJ/mm\"]",
        "set = \"web.thickness\"\nvalues = [\"4 mm\", \"7.3 mm\", \"300 mm\"]",
        "set = \"inner_flange.thickness\"\nvalues = [\"8 mm\", \"21 mm\"]",
        "set = \"outer_flange.width\"\nvalues = [\"150 mm\", \"254 mm\"]",
        "set = \"depth.end\"\nvalues = [\"350 mm\", \"700 mm\", \"9000 mm\"]",
        "set = \"depth.start\"\nfrom = \"300 mm\"\nto = \"500 mm\"\nsteps = 3",
        "set = \"fit_up_gap\"\nvalues = [\"0 mm\", \"2 mm\"]",
        "set = \"factors.heat_from_leg\"\nvalues = [0.8, 1.2]",
        "set = \"pass.force_factor\"\nvalues = [0.9, 1.2]",
        "set = \"factors.cup\"\nvalues = [0.0, 0.5, 2]",
    ];
    for (name, job) in jobs() {
        for axis in axes {
            // a leg that is left out cannot be multiplied, and is set through the file
            let of_leg = axis.contains("leg\"") || axis.contains("fit_up_gap");
            if of_leg && job.passes.iter().any(|p| p.leg.is_none()) {
                continue;
            }
            same(&study(&format!("[[vary]]\n{axis}\n"), &job), &format!("{name}: {axis}"));
        }
        // a length takes everything along; loads along the member stay the file's
        let plain = JobFile { demand: None, ..job.clone() };
        let lengths =
            "[[vary]]\nset = \"member.length\"\nvalues = [\"4.7 m\", \"11.3 m\", \"1 m\", \"200 m\"]\n";
        same(&study(lengths, &plain), &format!("{name}: length"));
        let crossed = "[[vary]]\nset = \"fit_up_gap\"\nvalues = [\"0 mm\", \"3 mm\"]\n\
                       [[vary]]\nset = \"pass.leg\"\nvalues = [\"5 mm\", \"6 mm\"]\n\
                       [[vary]]\nset = \"factors.heat_from_leg\"\nvalues = [0.9, 1.1]\n";
        if job.passes.iter().all(|p| p.leg.is_some()) {
            same(&study(crossed, &job), &format!("{name}: crossed"));
        }
    }
}

#[test]
fn a_drawn_piece_is_the_one_that_its_file_would_give() {
    let sample = "sample = { count = 12, pieces = 5, seed = 3, usual = true }\n";
    for (name, job) in jobs().into_iter().chain(in_runs()) {
        // through a file, a leg that is left out cannot be drawn
        if job.passes.iter().all(|p| p.leg.is_some()) {
            same(&study(sample, &job), &name);
        }
    }
}

#[test]
fn pieces_are_those_a_study_draws_at_the_same_points() {
    use crate::scatter::{Draws, Pieces};
    let sample = "sample = { count = 12, pieces = 5, seed = 3, usual = true }\n";
    for (name, file) in jobs().into_iter().chain(in_runs()) {
        // a left-out bias shifts the study's coordinates, not those of the pieces
        if file.scatter.contains_key("force") {
            continue;
        }
        let study = study(sample, &file);
        let job = bare(crate::job::check(&file).unwrap());
        let draws = Draws { bias: 12, pieces: 5, seed: 3 };
        let pieces = Pieces::new(&job, draws, 0).unwrap();
        let mut room = pieces.room();
        for n in [0, 7, 33, 59] {
            let u = study.draws.as_ref().unwrap().point(n as u64);
            let mut theirs = Vec::new();
            study.next_job(&study.grid.at(0), &study.drawn(&u), &mut theirs, 0).unwrap();
            let ours = bare(pieces.piece(n, &mut room).unwrap().clone());
            assert_eq!(ours, bare(theirs.remove(0)), "{name}, piece {n}");
        }
    }
}

#[test]
fn axes_that_act_on_the_file_share_jobs_with_axes_that_do_not() {
    let file = file_of_text("starter.toml", STARTER).unwrap();
    let mixed = "sample = { count = 6, seed = 2, usual = true }\n\
                 [[vary]]\nset = \"procedure.twin-6.travel_speed\"\nvalues = [\"0.9 m/min\", \"1.2 m/min\"]\n\
                 [[vary]]\nset = \"pass.leg\"\nvalues = [\"5 mm\", \"6 mm\"]\n";
    let study = study(mixed, &file);
    assert!(study.ways.contains(&AxisRoute::File) && study.kept[0].keeps(), "{:?}", study.ways);
    for case in 0..study.count() {
        let values = study.grid.at(case / study.draws_each());
        let drawn = study.drawn(&study.draws.as_ref().unwrap().point(case % study.draws_each()));
        let mut jobs = Vec::new();
        study.next_job(&values, &drawn, &mut jobs, 0).unwrap();
        assert_eq!(bare(jobs.remove(0)), bare(study.job_by_file(&values, &drawn).unwrap()), "case {case}");
    }
}

#[test]
fn what_is_no_number_and_what_is_set_twice_is_refused() {
    let job = file_of_text("starter.toml", STARTER).unwrap();
    for (vary, path, found) in [
        ("set = \"factors.force\"\nvalues = [0.5, nan, 1.5]", "vary[0].values[1]", "`nan` or `inf`"),
        ("set = \"pass.leg\"\nvalues = [\"4 mm\", inf]", "vary[0].values[1]", "`nan` or `inf`"),
        ("set = \"factors.force\"\nfrom = -1e308\nto = 1e308\nsteps = 3", "vary[0].to", "-1e+308 to 1e+308"),
        ("set = \"factors.force\"\nfrom = nan\nto = 1.0\nsteps = 3", "vary[0].from", "`nan` or `inf`"),
        (
            "set = \"pass.leg\"\nfrom = \"8 mm\"\nto = \"4 mm\"\nsteps = 1",
            "vary[0].steps",
            "1 step from \"8 mm\" to \"4 mm\"",
        ),
        (
            "set = \"pass.leg\"\nvalues = [\"4 mm\"]\n[[vary]]\nset = \"pass.outer.leg\"\nvalues = [\"5 mm\"]",
            "vary[1].set",
            "`pass.outer.leg`, which vary 1 sets already",
        ),
        (
            "set = \"job\"\nvalues = [\"a\"]\n[[vary]]\nset = \"job\"\nvalues = [\"b\"]",
            "vary[1].set",
            "`job`, which vary 1 sets already",
        ),
    ] {
        let text = format!("title = \"t\"\njob = \"j\"\ncollect = [\"camber.max_mm\"]\n[[vary]]\n{vary}\n");
        let shape = toml::from_str::<StudyFile>(&text).unwrap_or_else(|e| panic!("{e}"));
        let problems =
            Study::new(&shape, |_| Ok(job.clone())).err().unwrap_or_else(|| panic!("{vary}: taken"));
        let said = problems.iter().any(|p| p.path == path && p.found.contains(found));
        assert!(said, "{vary}: {problems:?}");
    }
}
