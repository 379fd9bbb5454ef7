//! What is learned of three invented records beside a general-purpose sampler, which was given the model a second time
//! (`reference-cases/shop_record.py`).

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

use crate::cases::document;
use serde::Deserialize;
use std::path::Path;
use weldbow::job::read_path;
use weldbow::member::Seam;
use weldbow::record::prior::{ARM, FORCE, factor_sd, scatter};
use weldbow::record::{
    Effort, Key, Kind, Layout, Member, Model, Piece, Quantity, Reading, Record, Response, sample,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sheet {
    title: String,
    trust: String,
    record: Vec<Given>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    name: String,
    families: usize,
    procedures: usize,
    independent: f64,
    reading: Vec<Row>,
    posterior: Vec<Moments>,
    /// The same without a sampler, where grids do (`reference-cases/shop_record_exact.py`).
    exact: Vec<Moments>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    kind: String,
    family: usize,
    procedure: usize,
    piece: usize,
    value: f64,
    sd: f64,
    nominal: f64,
    welding: f64,
    seams: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Moments {
    name: String,
    mean: f64,
    sd: f64,
}

/// Jobs whose lengths the script has.
const JOBS: [&str; 3] = ["rafter", "column", "stall_rafter"];

fn quantity(kind: &str) -> Quantity {
    match kind {
        "camber" => Quantity::Camber,
        "sweep" => Quantity::Sweep,
        "shortening" => Quantity::Shortening,
        "cup" => Quantity::Cup(Seam::Outer),
        _ => Quantity::Tilt(Seam::Outer),
    }
}

fn model(given: &Given) -> Model {
    let member = |name: &&str| {
        let path = format!("studies/jobs/{name}.toml");
        Member { name: (*name).to_owned(), job: read_path(Path::new(&path)).unwrap() }
    };
    let members: Vec<Member> = JOBS[..given.families].iter().map(member).collect();
    let middle = |family: usize| 0.5 * members[family].job.member.length_mm;
    let mut pieces: Vec<Piece> = Vec::new();
    for row in &given.reading {
        if pieces.len() <= row.piece {
            pieces.push(Piece {
                name: row.piece.to_string(),
                day: None,
                member: row.family,
                family: row.family,
                procedure: row.procedure,
                line: 0,
                readings: Vec::new(),
            });
        }
        let (what, at_mm) = (quantity(&row.kind), middle(row.family));
        pieces[row.piece].readings.push(Reading { what, at_mm, value_mm: row.value, sd_mm: row.sd });
    }
    let response = |family: usize| {
        let of = |what: &Quantity| {
            let same = |r: &&Row| r.family == family && quantity(&r.kind) == *what;
            given.reading.iter().find(same).map_or([0.0; 3], |r| [r.nominal, r.welding, r.seams])
        };
        let numbers = Model::AT_MIDDLE.iter().map(of).collect::<Vec<_>>();
        let keys = Model::AT_MIDDLE.map(|what| Key { what, at_mm: middle(family) });
        let column = |i: usize| numbers.iter().map(|n| n[i]).collect::<Vec<f64>>();
        Response::straight(&keys, &column(0), &column(1), &column(2))
    };
    let responses = (0..given.families).map(response).collect();
    let names = |count: usize| (0..count).map(|i| i.to_string()).collect::<Vec<_>>();
    let record = Record {
        families: names(given.families),
        procedures: names(given.procedures),
        lines: names(1),
        members,
        pieces,
    };
    Model::with(&record, responses)
}

/// What the script calls by that name, of one draw.
fn shown(name: &str, z: &[f64]) -> f64 {
    let sd = factor_sd();
    match name {
        "force" => (sd[FORCE] * z[FORCE]).exp(),
        "arm" => (sd[ARM] * z[ARM]).exp(),
        "moment" => (sd[FORCE] * z[FORCE] + sd[ARM] * z[ARM]).exp(),
        _ => match name.strip_prefix("scatter-") {
            Some(kind) => {
                let kind = Kind::ALL.into_iter().find(|k| k.name() == kind).unwrap();
                scatter(kind).at(z[Layout::scatter(kind)])
            }
            None => z[name[1..].parse::<usize>().unwrap()],
        },
    }
}

/// Deviations are apart by at most this part: both samplers know theirs to some 2 %, in long tails to 3 %.
const APART: f64 = 0.08;

/// Mean and deviation of what is shown of the draws.
fn found(name: &str, draws: &[Vec<f64>]) -> (f64, f64) {
    let all: Vec<f64> = draws.iter().map(|z| shown(name, z)).collect();
    let n = all.len() as f64;
    let mean = all.iter().sum::<f64>() / n;
    (mean, (all.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / n).sqrt())
}

/// Means are apart by at most five standard errors of both samplers.
#[test]
fn the_posterior_is_that_of_a_general_purpose_sampler() {
    let sheet: Sheet = document("shop_record.toml");
    assert_eq!(sheet.trust, "library");
    println!("{}", sheet.title);
    for given in &sheet.record {
        let model = model(given);
        let effort = Effort { warm_up: 300, draws: 2500, ..Effort::USUAL };
        let draws = sample(&model, effort).unwrap();
        assert!(draws.agreement.holds(), "{}: {:?}", given.name, draws.agreement);
        let independent = given.independent.min(draws.agreement.effective);
        for want in &given.posterior {
            let (mean, sd) = found(&want.name, &draws.z);
            let error = want.sd * (2.0 / independent).sqrt();
            if !want.name.starts_with('z') {
                println!(
                    "{:9} {:18} {mean:.4} ± {sd:.4}, library {:.4} ± {:.4}",
                    given.name, want.name, want.mean, want.sd
                );
            }
            assert!(
                (mean - want.mean).abs() < 5.0 * error,
                "{} {}: {mean} against {} ± {error}",
                given.name,
                want.name,
                want.mean
            );
            assert!(
                (sd / want.sd - 1.0).abs() < APART,
                "{} {}: ± {sd} against {}",
                given.name,
                want.name,
                want.sd
            );
        }
        for want in &given.exact {
            let (mean, sd) = found(&want.name, &draws.z);
            println!(
                "{:9} {:18} {mean:.4} ± {sd:.4}, exact {:.4} ± {:.4}",
                given.name, want.name, want.mean, want.sd
            );
            let near = (mean - want.mean).abs() < 5.0 * want.sd / draws.agreement.effective.sqrt();
            assert!(near && (sd / want.sd - 1.0).abs() < APART, "{}: {mean} ± {sd}, {}", want.name, want.sd);
        }
    }
}
