//! Time of a study's cases, from the job's text to the CSV line: `cargo bench --bench study`.
//!
//! The time a case takes must not depend on how many there are, and two threads must do nearly twice the work of one. First of all it prints
//! what rows of bows take on one core beside what a user would script instead, run by run in turn (`reference-cases/members_in_numpy.py`).
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use divan::{Bencher, counter::ItemsCount};
use weldbow::job::file_of_text;
use weldbow::reading::read_text_as;
use weldbow::study::file::StudyFile;
use weldbow::study::{Row, Study, csv_lines};

fn main() {
    // on a thread of its own, which its pool keeps
    std::thread::scope(|scope| {
        scope.spawn(beside_numpy);
    });
    divan::main();
}

/// Results of a row of bows.
const BOWS: &str = "\"camber.max_mm\", \"sweep.max_mm\"";
/// Rows that ask for more, by what they ask for; the last for all that has a chart of its own.
const KINDS: [(&str, &str); 7] = [
    ("bows", BOWS),
    ("bows and their ±", "\"camber.max_mm\", \"camber.max_2s_mm\", \"sweep.max_mm\", \"sweep.max_2s_mm\""),
    ("toes", "\"flanges.outer.near_toe_mm\", \"flanges.inner.near_toe_mm\""),
    ("forces", "\"passes.outer.near.force_n\", \"passes.inner.near.force_n\""),
    ("web pressed", "\"ripple.over_critical\""),
    ("verdicts", "\"verdicts.any.margin_mm\", \"verdicts.camber.value_mm\""),
    (
        "more",
        "\"camber.max_mm\", \"camber.max_2s_mm\", \"sweep.max_mm\", \"flanges.outer.near_toe_mm\", \
         \"ripple.over_critical\", \"passes.outer.near.force_n\"",
    ),
];

/// Time this thread has had of a core, s.
fn on_core_s() -> f64 {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    text.split(' ').next().and_then(|ns| ns.parse::<f64>().ok()).map_or(f64::NAN, |ns| ns * 1e-9)
}

fn beside_numpy() {
    // its work is done on this thread, whose time is taken
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build().unwrap();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/reference-cases/members_in_numpy.py");
    let timed = |what: &str, study: &Study| {
        let start = on_core_s();
        let rows = pool.install(|| results(study)).len() / study.collect.len();
        let mid = on_core_s();
        let written = pool.install(|| bytes(study));
        let micro = |s: f64| s / rows as f64 * 1e6;
        println!(
            "{rows} rows of {what}: {:.2} µs a row on one core, {:.2} µs as CSV ({written} bytes)",
            micro(mid - start),
            micro(on_core_s() - mid)
        );
    };
    for _ in 0..3 {
        for (what, collect) in KINDS {
            let steps = if collect == BOWS { 100 } else { 10 };
            timed(what, &study([10, 100, steps], collect));
            if collect == BOWS {
                match std::process::Command::new("python3").arg(script).output() {
                    Ok(ran) if ran.status.success() => print!("{}", String::from_utf8_lossy(&ran.stdout)),
                    _ => println!("no NumPy here to compare with"),
                }
            }
        }
        let drawn = "sample = { count = 10_000, seed = 1, usual = true }\n";
        timed("drawn bows", &study_of(BOWS, drawn));
        timed("drawn verdicts", &study_of("\"verdicts.any.margin_mm\"", drawn));
    }
}

fn study(steps: [u64; 3], collect: &str) -> Study {
    let [a, b, c] = steps;
    let axes = format!(
        "[[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = {a}\n\
         [[vary]]\nset = \"inner_flange.thickness\"\nfrom = \"8 mm\"\nto = \"20 mm\"\nsteps = {b}\n\
         [[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = {c}\n"
    );
    study_of(collect, &axes)
}

fn study_of(collect: &str, varies: &str) -> Study {
    let text = format!("title = \"t\"\njob = \"rafter.toml\"\ncollect = [{collect}]\n{varies}");
    let job = concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/rafter.toml");
    let read = |_: &str| file_of_text(job, &std::fs::read_to_string(job).unwrap()).map_err(|c| c.to_string());
    Study::new(&read_text_as::<StudyFile>("bench.toml", &text).unwrap().shape, read).unwrap()
}

/// Results of all rows in one list, as the script has them in its arrays.
fn results(study: &Study) -> Vec<f64> {
    let mut all = Vec::with_capacity(study.count() as usize * study.collect.len());
    let of = |rows: &[Row]| rows.iter().flat_map(|row| row.results.iter().copied()).collect::<Vec<f64>>();
    let take = |chunks: Vec<Vec<f64>>, _| {
        all.extend(chunks.iter().flatten());
        Ok::<bool, ()>(true)
    };
    study.run(0..study.count(), of, take).unwrap();
    all
}

fn bytes(study: &Study) -> usize {
    let mut bytes = 0;
    let take = |chunks: Vec<Vec<u8>>, _| {
        bytes += chunks.iter().map(Vec::len).sum::<usize>();
        Ok::<bool, ()>(true)
    };
    study.run(0..study.count(), csv_lines, take).unwrap();
    bytes
}

/// 10³, 10⁴, 10⁵ cases on one thread.
#[divan::bench(args = [[10, 10, 10], [10, 10, 100], [10, 100, 100]], sample_count = 3)]
fn one_thread(bencher: Bencher, steps: [u64; 3]) {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let study = study(steps, BOWS);
    bencher.counter(ItemsCount::new(study.count() as usize)).bench(|| pool.install(|| bytes(&study)));
}

/// The same on all cores.
#[divan::bench(args = [[10, 10, 10], [10, 10, 100], [10, 100, 100]], sample_count = 3)]
fn all_cores(bencher: Bencher, steps: [u64; 3]) {
    let study = study(steps, BOWS);
    bencher.counter(ItemsCount::new(study.count() as usize)).bench(|| bytes(&study));
}
