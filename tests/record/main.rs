//! A shop's record, from the tape to a better prediction: the demo record of the invented riding arena says its truth here, and
//! is found again; what was learned reaches every command, and nothing outside what it was learned on.

#![allow(missing_docs, clippy::unwrap_used, clippy::panic, reason = "a failed test may panic anywhere")]

mod reading;
mod uses;
mod watch;

use assert_cmd::Command;
use chacha20::ChaCha8Rng;
use chacha20::rand_core::{Rng, SeedableRng};
use serde_json::Value;
use std::fmt::Write;
use std::fs::{read_to_string, write};
use std::path::Path;
use weldbow::input::day_text;
use weldbow::job::read_path;
use weldbow::prediction::field::multiply;
use weldbow::prediction::{Job, predict};

/// The truth of the demo record: logs of force, heat from leg, arm, fold, tilt, second side; what the second procedure, from the
/// 21st of April on, adds to the log of the force; bow of the columns, mm; scatter of camber and sweep, mm a metre, of toes, mm.
struct Truth {
    logs: [f64; 6],
    second_procedure: f64,
    columns_sweep_mm: f64,
    scatter: [f64; 2],
    toes_mm: f64,
}

const TRUTH: Truth = Truth {
    logs: [-0.14, 0.0, 0.12, 0.18, -0.25, 0.0],
    second_procedure: 0.12,
    columns_sweep_mm: -4.0,
    scatter: [0.18, 0.3],
    toes_mm: 0.25,
};
const RECORD: &str = "studies/shop/record.csv";
/// 2026-03-02, a Monday.
const FIRST_DAY: i32 = 20_514;
/// Pieces of each job: rafters, columns, haunches by turns.
const JOBS: [(&str, &str); 3] = [("rafter", "R2"), ("column", "C1"), ("stall_rafter", "R5")];
const PIECES: usize = 36;

struct Normals(ChaCha8Rng);

impl Normals {
    fn next(&mut self) -> f64 {
        let mut u = || ((self.0.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64;
        (-2.0 * u().ln()).sqrt() * (std::f64::consts::TAU * u()).cos()
    }
}

fn job(name: &str) -> Job {
    read_path(Path::new(&format!("studies/jobs/{name}.toml"))).unwrap_or_else(|c| panic!("{c}"))
}

/// The record that the truth makes, read to half a millimetre.
fn demo() -> String {
    let mut text = String::from(
        "# note: measured pieces of the invented riding arena; every reading is invented, and its truth stands in tests/record\n\
         # camber uncertainty: 1 mm\n# sweep uncertainty: 1 mm\n# toe uncertainty: 0.4 mm\n\
         job,piece,date,procedure,family,camber [mm],sweep [mm],shortening [mm],outer near toe [mm],outer far toe [mm]\n",
    );
    let mut normals = Normals(ChaCha8Rng::seed_from_u64(2026));
    for i in 0..PIECES {
        let (name, mark) = JOBS[i % 3];
        let day = FIRST_DAY + 2 * i as i32;
        let second = i >= 25;
        let mut job = job(name);
        let mut logs = TRUTH.logs;
        logs[0] += if second { TRUTH.second_procedure } else { 0.0 };
        multiply(&mut job, &logs).unwrap();
        let (found, metres) = (predict(&job), 1e-3 * job.member.length_mm);
        let middle = |profile: &[[f64; 2]]| {
            let at = profile.partition_point(|p| p[0] < 500.0 * metres);
            let (a, b) = (profile[at - 1], profile[at]);
            a[1] + (500.0 * metres - a[0]) / (b[0] - a[0]) * (b[1] - a[1])
        };
        let bow = if name == "column" { TRUTH.columns_sweep_mm } else { 0.0 };
        let mut read = |mean: f64, scatter: f64, measuring: f64, to: f64| {
            let value = mean + scatter.hypot(measuring) * normals.next();
            (value / to).round() * to + 0.0
        };
        let camber = read(middle(&found.camber.profile), TRUTH.scatter[0] * metres, 1.0, 0.5);
        let sweep = read(middle(&found.sweep.profile) + bow, TRUTH.scatter[1] * metres, 1.0, 0.5);
        let short = read(found.shortening_mm, 0.2, 1.0, 0.5);
        let flange = &found.flanges[0];
        let toes = [flange.near_toe_mm, flange.far_toe_mm].map(|toe| read(toe, TRUTH.toes_mm, 0.4, 0.1));
        let date = day_text(day);
        let procedure = if second { "twin-B" } else { "twin-A" };
        let camber = if i % 4 == 3 { String::new() } else { format!("{camber:.1}") };
        let short = if i % 3 == 0 { format!("{short:.1}") } else { String::new() };
        let toes = if i % 6 < 3 { format!("{:.1},{:.1}", toes[0], toes[1]) } else { ",".to_owned() };
        let number = i / 3 + 1;
        writeln!(
            text,
            "../jobs/{name}.toml,{mark}-{number:02},{date},{procedure},{mark},{camber},{sweep:.1},{short},{toes}"
        )
        .unwrap();
    }
    text
}

#[test]
fn the_demo_record_is_what_its_truth_makes() {
    let made = demo();
    if std::env::var_os("UPDATE_RECORD").is_some() {
        write(RECORD, &made).unwrap();
    }
    assert_eq!(
        read_to_string(RECORD).unwrap(),
        made,
        "UPDATE_RECORD=1 writes it anew, if the engine's numbers changed"
    );
}

fn run(arguments: &[&str]) -> String {
    let run = Command::cargo_bin("weldbow").unwrap().args(arguments).output().unwrap();
    let (out, error) = (String::from_utf8(run.stdout).unwrap(), String::from_utf8(run.stderr).unwrap());
    assert_eq!(run.status.code(), Some(0), "{arguments:?}: {error}");
    out
}

fn input<'v>(found: &'v Value, name: &str) -> &'v Value {
    found["learned"].as_array().unwrap().iter().find(|i| i["input"] == name).unwrap()
}

/// A folder with the jobs of the demo record in `jobs`.
fn with_jobs() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("jobs")).unwrap();
    for (name, _) in JOBS {
        let to = folder.path().join(format!("jobs/{name}.toml"));
        std::fs::copy(format!("studies/jobs/{name}.toml"), to).unwrap();
    }
    folder
}

#[test]
fn the_truth_of_the_demo_record_is_found_again() {
    let found: Value = serde_json::from_str(&run(&["calibrate", RECORD, "--json"])).unwrap();
    let wanted = [
        ("force", (TRUTH.logs[0] + 0.5 * TRUTH.second_procedure).exp()),
        ("arm", TRUTH.logs[2].exp()),
        ("cup", TRUTH.logs[3].exp()),
        ("tilt", TRUTH.logs[4].exp()),
        ("sweep_each_piece", TRUTH.scatter[1]),
        ("camber_each_piece", TRUTH.scatter[0]),
    ];
    for (name, truth) in wanted {
        let i = input(&found, name);
        let [mean, sd, before] = ["mean", "sd", "before_sd"].map(|k| i[k].as_f64().unwrap());
        println!("{name:18} {mean:.3} ± {sd:.3} (before ± {before:.3}), true {truth:.3}");
        assert!((mean - truth).abs() < 3.0 * sd, "{name}: {mean} ± {sd} against {truth}");
        assert!(sd < before, "{name} is surer than before");
    }
    let groups = found["groups"].as_array().unwrap();
    let columns = groups.iter().find(|g| g["name"] == "C1" && g["what"] == "sweep").unwrap();
    let (mean, sd) = (columns["mean"].as_f64().unwrap(), columns["sd"].as_f64().unwrap());
    println!("columns: sweep {mean:.2} ± {sd:.2} mm, true {}", TRUTH.columns_sweep_mm);
    assert!((mean - TRUTH.columns_sweep_mm).abs() < 3.0 * sd && mean < -1.0, "{mean} ± {sd}");
}
