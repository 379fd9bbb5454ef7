//! Whether what is learned of a record is honest, and how long it takes: `cargo bench --bench record`.
//!
//! Shops are invented from what is taken to be so before any record, with odd readings and missing ones; each record is learned
//! from, and the truth must lie among the draws as evenly as one of them (simulation-based calibration: Talts and others 2018,
//! arXiv:1804.06788; memory). The picture goes into `plots/`. `-- 100` takes another number of shops, `-- 0` times alone.
#![allow(missing_docs, unreachable_pub, clippy::unwrap_used, clippy::print_stdout)]

use rayon::prelude::*;
use statrs::distribution::{ChiSquared, ContinuousCDF};
use std::time::Instant;
use weldbow::chart::{Rank, calibration, png};
use weldbow::job::read_text;
use weldbow::member::Seam;
use weldbow::record::{Effort, Member, Model, Piece, Quantity, Reading, Record, learn, sample};

const SHOPS: usize = 600;
const BINS: usize = 20;
/// Seconds that 300 pieces of five families may take on two cores.
const WANTED_S: f64 = 5.0;
const JOBS: [&str; 5] = ["rafter", "column", "stall_rafter", "wire_rafter", "gallery_beam"];

/// A record of so many pieces with readings of nothing yet: toes of every third, lengths of every second.
fn record(families: usize, pieces: usize, procedures: usize) -> Record {
    let member = |name: &&str| {
        let text = std::fs::read_to_string(format!("studies/jobs/{name}.toml")).unwrap();
        Member { name: (*name).to_owned(), job: read_text(name, &text).unwrap() }
    };
    let members: Vec<Member> = JOBS[..families].iter().map(member).collect();
    let all = [
        (Quantity::Camber, 1.0),
        (Quantity::Sweep, 1.0),
        (Quantity::Shortening, 1.0),
        (Quantity::Cup(Seam::Outer), 0.35),
        (Quantity::Tilt(Seam::Outer), 0.35),
        (Quantity::Cup(Seam::Inner), 0.35),
    ];
    let piece = |i: usize| {
        let family = i % families;
        let at_mm = 0.5 * members[family].job.member.length_mm;
        let wanted = |k: usize| match k {
            0 => i % 5 != 4,
            1 => true,
            2 => i.is_multiple_of(2),
            _ => (i / families).is_multiple_of(3),
        };
        let kept = all.iter().enumerate().filter(|(k, _)| wanted(*k));
        Piece {
            name: format!("P{}", i + 1),
            day: Some(i as i32),
            member: family,
            family,
            procedure: (i / families) % procedures,
            line: 0,
            readings: kept
                .map(|(_, (what, sd_mm))| Reading { what: *what, at_mm, value_mm: 0.0, sd_mm: *sd_mm })
                .collect(),
        }
    };
    Record {
        families: JOBS[..families].iter().map(|n| (*n).to_owned()).collect(),
        procedures: (0..procedures).map(|i| i.to_string()).collect(),
        lines: vec![String::new()],
        pieces: (0..pieces).map(piece).collect(),
        members,
    }
}

/// Invents shops, learns from each, draws the ranks and times a large record.
pub fn main() {
    let shops = std::env::args().skip(1).find_map(|a| a.parse().ok()).unwrap_or(SHOPS);
    if shops > 0 {
        honesty(shops);
    }
    speed();
}

/// Ranks of the truth and bands that hold it, told and drawn.
fn honesty(shops: usize) {
    let started = Instant::now();
    let ranks = ranks(shops);
    println!("{shops} invented shops in {:.0?}", started.elapsed());
    let allowed = 2.576 * (0.9 * 0.1 / shops as f64).sqrt();
    let even = ChiSquared::new(BINS as f64 - 1.0).unwrap();
    let mut least = 1.0_f64;
    for rank in &ranks {
        let far = (rank.held - 0.9).abs() > allowed.max(0.03);
        let expected = shops as f64 / BINS as f64;
        let square: f64 = rank.counts.iter().map(|c| (*c as f64 - expected).powi(2) / expected).sum();
        let chance = even.sf(square);
        least = least.min(chance);
        println!(
            "{:26} 90 % band holds {:4.1} %, ranks so uneven by chance {chance:.3}{}",
            rank.name,
            100.0 * rank.held,
            if far { "  <- far" } else { "" }
        );
    }
    let held = ranks.iter().map(|r| r.held).sum::<f64>() / ranks.len() as f64;
    println!(
        "all together {:.1} %; the most uneven of {} by chance {:.2}",
        100.0 * held,
        ranks.len(),
        (least * ranks.len() as f64).min(1.0)
    );
    let picture = calibration(&ranks, shops).unwrap();
    std::fs::write("plots/record-calibration.svg", format!("<!-- written by weldbow -->\n{}", picture.svg))
        .unwrap();
    std::fs::write("plots/record-calibration.png", png(&picture.svg).unwrap()).unwrap();
}

fn ranks(shops: usize) -> Vec<Rank> {
    let model = Model::new(&record(3, 24, 2)).unwrap();
    let found: Vec<Vec<f64>> = (0..shops as u64)
        .into_par_iter()
        .map(|seed| {
            let mut own = model.clone();
            let truth = own.invent(seed);
            let draws = sample(&own, Effort { seed, ..Effort::QUICK }).unwrap();
            let below =
                |i: usize| draws.z.iter().filter(|z| z[i] < truth[i]).count() as f64 / draws.z.len() as f64;
            (0..truth.len()).map(below).collect()
        })
        .collect();
    model
        .layout
        .names()
        .into_iter()
        .enumerate()
        .map(|(i, name)| {
            let mut counts = vec![0; BINS];
            for below in &found {
                counts[((below[i] * BINS as f64) as usize).min(BINS - 1)] += 1;
            }
            let held = found.iter().filter(|below| (0.05..=0.95).contains(&below[i])).count();
            Rank { name, counts, held: held as f64 / shops as f64 }
        })
        .collect()
}

fn speed() {
    let mut record = record(5, 300, 2);
    let mut model = Model::new(&record).unwrap();
    model.invent(1);
    model.put_into(&mut record);
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let started = Instant::now();
        let found = pool.install(|| learn(&record, Effort::USUAL)).unwrap();
        let took = started.elapsed();
        println!(
            "300 pieces of five families, {} readings, threads {threads}: {took:.2?} (wanted on two: {WANTED_S} s); {:?}",
            found.readings, found.agreement
        );
        serde_json::to_string(&found).unwrap()
    };
    println!("same to the last byte on one thread and on two: {}", on(1) == on(2));
}
