//! Time of a study's cases, from the job's text to the CSV line: `cargo bench --bench study`.
//!
//! The time a case takes must not depend on how many there are, and two threads must do nearly twice the work of one.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use divan::{Bencher, counter::ItemsCount};
use weldbow::job::file_of_text;
use weldbow::reading::read_text_as;
use weldbow::study::file::StudyFile;
use weldbow::study::{Study, csv_lines};

fn main() {
    divan::main();
}

fn study(steps: [u64; 3]) -> Study {
    let [a, b, c] = steps;
    let text = format!(
        "title = \"t\"\njob = \"rafter.toml\"\ncollect = [\"camber.max_mm\", \"sweep.max_mm\"]\n\
         [[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = {a}\n\
         [[vary]]\nset = \"inner_flange.thickness\"\nfrom = \"8 mm\"\nto = \"20 mm\"\nsteps = {b}\n\
         [[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = {c}\n"
    );
    let job = concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/rafter.toml");
    let read = |_: &str| file_of_text(job, &std::fs::read_to_string(job).unwrap()).map_err(|c| c.to_string());
    Study::new(&read_text_as::<StudyFile>("bench.toml", &text).unwrap().shape, read).unwrap()
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
    let study = study(steps);
    bencher.counter(ItemsCount::new(study.count() as usize)).bench(|| pool.install(|| bytes(&study)));
}

/// The same on all cores.
#[divan::bench(args = [[10, 10, 10], [10, 10, 100], [10, 100, 100]], sample_count = 3)]
fn all_cores(bencher: Bencher, steps: [u64; 3]) {
    let study = study(steps);
    bencher.counter(ItemsCount::new(study.count() as usize)).bench(|| bytes(&study));
}
