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

/// Standard errors by which means and deviations may be apart: of 84 of each the farthest is off by 2.6 and by 3.6.
const ERRORS: f64 = 4.5;

/// Batches of draws that one another hardly remember: their means say how far the mean of all may be off (batch means: textbook).
const BATCHES: usize = 40;

/// Mean and deviation of what is shown of the draws, with the standard error of both.
struct Found {
    mean: f64,
    sd: f64,
    errors: [f64; 2],
}

impl Found {
    fn of(name: &str, draws: &[Vec<f64>]) -> Self {
        let all: Vec<f64> = draws.iter().map(|z| shown(name, z)).collect();
        let [mean, error] = batched(&all);
        let squares: Vec<f64> = all.iter().map(|x| (x - mean).powi(2)).collect();
        let [square, of_square] = batched(&squares);
        let sd = square.sqrt();
        Self { mean, sd, errors: [error, 0.5 * of_square / sd] }
    }
}

/// Mean and its standard error.
fn batched(x: &[f64]) -> [f64; 2] {
    let mean_of = |x: &[f64]| x.iter().sum::<f64>() / x.len() as f64;
    let means: Vec<f64> = x.chunks_exact(x.len() / BATCHES).map(mean_of).collect();
    let mean = mean_of(x);
    let square = means.iter().map(|m| (m - mean).powi(2)).sum::<f64>();
    [mean, (square / ((means.len() - 1) * means.len()) as f64).sqrt()]
}

/// Means and deviations are those of the library to within the errors of both samplers, and those of the grids to within ours alone. The
/// library's are those of so many independent draws: its deviation over the root of their number for a mean, over the root of twice their
/// number for a deviation (normal law, textbook).
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
        for want in &given.posterior {
            let library = [1.0, 0.5].map(|part: f64| want.sd * (part / given.independent).sqrt());
            near(given, "library", want, &draws.z, library);
        }
        for want in &given.exact {
            near(given, "exact", want, &draws.z, [0.0; 2]);
        }
    }
}

/// Holds what was found to what is wanted, which has those standard errors itself.
fn near(given: &Given, whose: &str, want: &Moments, draws: &[Vec<f64>], errors: [f64; 2]) {
    let Found { mean, sd, errors: own } = Found::of(&want.name, draws);
    let of = |off: f64, k: usize| off.abs() / own[k].hypot(errors[k]);
    let off = [of(mean - want.mean, 0), of(sd - want.sd, 1)];
    let said = format!(
        "{:9} {:18} {mean:.4} ± {sd:.4}, {whose} {:.4} ± {:.4}: {:.1} and {:.1} standard errors",
        given.name, want.name, want.mean, want.sd, off[0], off[1]
    );
    println!("{said}");
    assert!(off.iter().all(|off| *off < ERRORS), "{said}");
}
