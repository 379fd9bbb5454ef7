//! Times rows of a study.
#![allow(clippy::print_stdout, clippy::unwrap_used, missing_docs)]
use std::time::Instant;
use weldbow_engine::prediction::{Wanted, predict_many, predict_only};
use weldbow_engine::prelude::*;
use weldbow_engine::study::{Study, csv_lines};

const RAFTER: &str = include_str!("../../../studies/jobs/rafter.toml");

fn cpu() -> f64 {
    std::fs::read_to_string("/proc/thread-self/schedstat")
        .unwrap()
        .split(" ")
        .next()
        .unwrap()
        .parse::<f64>()
        .unwrap()
        * 1e-9
}
fn study(collect: &str, n: [u64; 3]) -> Study {
    let text = format!(
        "title = \"t\"\njob = \"rafter.toml\"\ncollect = [{collect}]\n\
         [[vary]]\nset = \"pass.leg\"\nfrom = \"4 mm\"\nto = \"8 mm\"\nsteps = {}\n\
         [[vary]]\nset = \"inner_flange.thickness\"\nfrom = \"8 mm\"\nto = \"20 mm\"\nsteps = {}\n\
         [[vary]]\nset = \"depth.end\"\nfrom = \"700 mm\"\nto = \"800 mm\"\nsteps = {}\n",
        n[0], n[1], n[2]
    );
    Study::new(&toml::from_str(&text).unwrap(), |_| toml::from_str(RAFTER).map_err(|e| format!("{e}")))
        .unwrap()
}

fn main() {
    if std::env::args().nth(2).as_deref() == Some("bows") {
        let s = study(
            "\"camber.max_mm\", \"sweep.max_mm\"",
            [10, 10, std::env::args().nth(1).unwrap().parse().unwrap()],
        );
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build().unwrap();
        for _ in 0..2 {
            let a = cpu();
            let n = pool.install(|| s.rows(0..s.count())).len();
            println!("rows {:.3} us cpu", (cpu() - a) / n as f64 * 1e6);
        }
        return;
    }
    if std::env::args().nth(2).as_deref() == Some("more") {
        let s = study(
            "\"camber.max_mm\", \"sweep.max_mm\", \"shortening_mm\", \"flanges.outer.near_toe_mm\", \"sweep.max_2s_mm\"",
            [10, 10, std::env::args().nth(1).unwrap().parse().unwrap()],
        );
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build().unwrap();
        for _ in 0..2 {
            let a = cpu();
            let n = pool.install(|| s.rows(0..s.count())).len();
            println!("rows {:.3} us cpu", (cpu() - a) / n as f64 * 1e6);
        }
        return;
    }
    if std::env::args().nth(2).as_deref() == Some("one") {
        let file: JobFile = toml::from_str(RAFTER).unwrap();
        let job = check(&file).unwrap();
        let n: u64 = std::env::args().nth(1).unwrap().parse().unwrap();
        let a = cpu();
        let mut s = 0.0;
        for _ in 0..n {
            s += predict(std::hint::black_box(&job)).camber.max_mm;
        }
        println!("predict {:.3} us cpu {s}", (cpu() - a) / n as f64 * 1e6);
        return;
    }
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let n: u64 = std::env::args().nth(1).and_then(|a| a.parse().ok()).unwrap_or(40);
    for collect in [
        "\"camber.max_mm\", \"sweep.max_mm\"",
        "\"camber.max_mm\", \"sweep.max_mm\", \"shortening_mm\", \"flanges.outer.near_toe_mm\", \"sweep.max_2s_mm\"",
    ] {
        let study = study(collect, [10, 10, n]);
        for _ in 0..3 {
            let mut sum = 0;
            let t = Instant::now();
            pool.install(|| {
                study.run(
                    0..study.count(),
                    |rows| csv_lines(rows).len(),
                    |v, _| {
                        sum += v.iter().sum::<usize>();
                        Ok::<bool, ()>(true)
                    },
                )
            })
            .unwrap();
            println!(
                "{collect}: {:.3} µs a row, {} bytes",
                t.elapsed().as_secs_f64() * 1e6 / study.count() as f64,
                sum
            );
        }
    }
    let file: JobFile = toml::from_str(RAFTER).unwrap();
    let job = check(&file).unwrap();
    for _ in 0..2 {
        let t = Instant::now();
        let mut s = 0.0;
        for _ in 0..n * 25 {
            s += predict(std::hint::black_box(&job)).camber.max_mm;
        }
        println!("predict {:.3} µs ({s:.1})", t.elapsed().as_secs_f64() * 1e6 / (n * 25) as f64);
        let t = Instant::now();
        for _ in 0..n * 25 {
            s += predict_only(std::hint::black_box(&job), &Wanted::default()).camber.max_mm;
        }
        println!("predict_only {:.3} µs", t.elapsed().as_secs_f64() * 1e6 / (n * 25) as f64);
        let jobs = vec![job.clone(); 256];
        let t = Instant::now();
        for _ in 0..n / 8 {
            s += predict_many(std::hint::black_box(&jobs), &Wanted::default()).len() as f64;
        }
        println!("predict_many {:.3} µs", t.elapsed().as_secs_f64() * 1e6 / ((n / 8) * 256) as f64);
    }
}
