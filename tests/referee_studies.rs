//! Constants of the formulas derived anew: studies of the section solver in `studies/referee/`, the numbers it gave in `tests/data/referee/`,
//! and how far the formulas may be from them. Fails when a constant and its study drift apart, either way.
//!
//! `UPDATE_REFEREE=1` computes all rows anew (minutes), `UPDATE_PLOTS=1` draws the charts.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use rayon::prelude::*;
use serde::Deserialize;
use std::fs::{read_dir, read_to_string, write};
use std::path::PathBuf;
use weldbow::chart::{StudyView, png, study_chart};
use weldbow::member::Seam;
use weldbow::referee::{Bead, Case, Hold, Layer, Meshing, Options, formula};
use weldbow::section::{Joint, Lengthwise, Model, PassOutcome, Root, run};
use weldbow::shrinkage::joint::cooling_time_s;
use weldbow::shrinkage::tendon::heat_parameter;
use weldbow::steel::E_MPA;
use weldbow::study::{ChartWish, Column, Table, Values};
use weldbow::welding::{Side, Wait};

/// A wait of this and more is cold, s.
const COLD_S: f64 = 1e9;
/// A row computed again differs from the kept one by at most this part (another processor rounds otherwise).
const SAME: f64 = 2e-3;
/// The allowed range of formula over section reaches at most this far beyond what the rows need, so that a drift shows.
const SLACK: f64 = 0.05;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Study {
    title: String,
    lesson: String,
    quantity: Quantity,
    model: String,
    lengthwise: String,
    flange_mm: Vec<f64>,
    web_mm: Vec<f64>,
    /// Leg, mm, and net heat, J/mm.
    weld: Vec<[f64; 2]>,
    yield_mpa: Vec<f64>,
    /// Second side so long after the first, s; 0 at once; none for one side only.
    #[serde(default)]
    wait_s: Vec<f64>,
    /// Least and most of formula over section.
    ratio: [f64; 2],
    reason: String,
    chart: ChartWish,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Quantity {
    ForcePerHeat,
    SecondOverFirst,
    ArmMm,
    CupMrad,
    TiltMrad,
}

/// One row: what goes in.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Given {
    flange_mm: f64,
    web_mm: f64,
    leg_mm: f64,
    heat_j_per_mm: f64,
    yield_mpa: f64,
    wait_s: Option<f64>,
}

impl Study {
    fn rows(&self) -> Vec<Given> {
        let mut rows = Vec::new();
        let waits: Vec<Option<f64>> =
            if self.wait_s.is_empty() { vec![None] } else { self.wait_s.iter().copied().map(Some).collect() };
        for &flange_mm in &self.flange_mm {
            for &web_mm in &self.web_mm {
                for &[leg_mm, heat_j_per_mm] in &self.weld {
                    for &yield_mpa in &self.yield_mpa {
                        for &wait_s in &waits {
                            rows.push(Given { flange_mm, web_mm, leg_mm, heat_j_per_mm, yield_mpa, wait_s });
                        }
                    }
                }
            }
        }
        rows
    }

    fn held(&self) -> bool {
        assert!(["held", "free"].contains(&self.lengthwise.as_str()), "{}", self.lengthwise);
        self.lengthwise == "held"
    }

    fn section(&self, given: &Given) -> f64 {
        let welded = |case: &Case| {
            let fibres = self.model == "fibres";
            assert!(fibres || self.model == "solid", "{}", self.model);
            let options = Options {
                meshing: Meshing::Coarse,
                lengthwise: if self.held() { Lengthwise::Held } else { Lengthwise::Free },
                ..Options::default()
            };
            let hold = if fibres { Hold::None } else { options.hold };
            let mut sequence = case.sequence(&options, hold).unwrap();
            sequence.settings.model = if fibres { Model::Fibres } else { Model::Solid };
            run(&sequence).unwrap().passes
        };
        let passes = welded(&given.case());
        let first = || if passes.len() > 1 { welded(&given.lone()) } else { passes.clone() };
        let force = |passes: &[PassOutcome]| passes.last().unwrap().shrinkage.force_n;
        match self.quantity {
            Quantity::ForcePerHeat => force(&first()) / given.heat_j_per_mm,
            Quantity::SecondOverFirst => force(&passes) / force(&welded(&given.lone())),
            Quantity::ArmMm => passes[0].shrinkage.at_mm.unwrap()[0],
            Quantity::CupMrad => passes.last().unwrap().shape.unwrap().cup_rad * 1e3,
            Quantity::TiltMrad => passes.last().unwrap().shape.unwrap().tilt_rad.unwrap() * 1e3,
        }
    }

    /// What is wrong with these ratios of formula over section.
    fn complaint(&self, ratios: &[f64]) -> Option<String> {
        let (least, most) =
            ratios.iter().fold((f64::INFINITY, 0.0_f64), |(least, most), r| (least.min(*r), most.max(*r)));
        let [low, high] = self.ratio;
        if least < low || most > high {
            return Some(format!("{least:.3} … {most:.3} outside {low} … {high}"));
        }
        let idle = least - low > SLACK || high - most > SLACK;
        idle.then(|| format!("{least:.3} … {most:.3} have drifted into {low} … {high}; tighten the range"))
    }

    fn formula(&self, given: &Given) -> f64 {
        let all = formula(&given.case(), self.held());
        let lone = formula(&given.lone(), self.held());
        let last = all.last().unwrap();
        match self.quantity {
            Quantity::ForcePerHeat => lone[0].force_n / given.heat_j_per_mm,
            Quantity::SecondOverFirst => last.force_n / lone[0].force_n,
            Quantity::ArmMm => lone[0].across_mm.unwrap(),
            Quantity::CupMrad => last.cup_rad.unwrap() * 1e3,
            Quantity::TiltMrad => last.tilt_rad.unwrap() * 1e3,
        }
    }
}

impl Given {
    fn bead(&self, side: Side) -> Bead {
        let deposit_mm2 = self.leg_mm * self.leg_mm / 2.0;
        Bead { side, leg_mm: self.leg_mm, heat_j_per_mm: self.heat_j_per_mm, deposit_mm2 }
    }

    fn lone(&self) -> Case {
        Self { wait_s: None, ..*self }.case()
    }

    fn case(&self) -> Case {
        let joint = Joint {
            flange_width_mm: 200.0,
            flange_mm: self.flange_mm,
            web_mm: self.web_mm,
            web_stub_mm: 150.0,
            near_leg_mm: Some(self.leg_mm),
            far_leg_mm: self.wait_s.map(|_| self.leg_mm),
            root: Root::Tied,
        };
        let layer = |order, wait, beads| Layer { order, wait, beads };
        let (near, far) = (self.bead(Side::Near), self.bead(Side::Far));
        let layers = match self.wait_s {
            None => vec![layer(1, Wait::Cold, vec![near])],
            Some(wait) if wait <= 0.0 => vec![layer(1, Wait::Cold, vec![near, far])],
            Some(wait) => {
                let wait = if wait < COLD_S { Wait::Seconds(wait) } else { Wait::Cold };
                vec![layer(1, Wait::Cold, vec![near]), layer(2, wait, vec![far])]
            }
        };
        Case {
            seam: Seam::Inner,
            x_mm: 0.0,
            joint,
            layers,
            yield_mpa: self.yield_mpa,
            start_c: 20.0,
            cautions: vec![],
        }
    }

    /// Wait over t* of the formulas.
    fn lag(&self) -> f64 {
        let cooling = cooling_time_s(self.heat_j_per_mm, self.flange_mm, self.web_mm, self.yield_mpa, E_MPA);
        // Cold stands where the axis ends.
        self.wait_s.map_or(0.0, |wait| (wait / cooling).min(10.0))
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every study: its stem, itself.
fn studies() -> Vec<(String, Study)> {
    let mut files: Vec<PathBuf> =
        read_dir(root().join("studies/referee")).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    assert!(files.len() >= 6, "{files:?}");
    let read = |path: &PathBuf| {
        let study = toml::from_str(&read_to_string(path).unwrap());
        let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
        (stem, study.unwrap_or_else(|e| panic!("{}: {e}", path.display())))
    };
    files.iter().map(read).collect()
}

fn kept(stem: &str) -> PathBuf {
    root().join("tests/data/referee").join(format!("{stem}.csv"))
}

/// The kept rows with what the section gave, after computing them anew if asked to.
fn table(stem: &str, study: &Study) -> Vec<(Given, f64)> {
    let rows = study.rows();
    if std::env::var_os("UPDATE_REFEREE").is_some() {
        let values: Vec<f64> = rows.par_iter().map(|row| study.section(row)).collect();
        let mut text = "flange_mm,web_mm,leg_mm,heat_j_per_mm,yield_mpa,wait_s,section\n".to_owned();
        for (g, value) in rows.iter().zip(values) {
            let wait = g.wait_s.map_or_else(String::new, |w| w.to_string());
            text.push_str(&format!(
                "{},{},{},{},{},{wait},{value:.5}\n",
                g.flange_mm, g.web_mm, g.leg_mm, g.heat_j_per_mm, g.yield_mpa
            ));
        }
        write(kept(stem), text).unwrap();
    }
    let text = read_to_string(kept(stem)).unwrap();
    let lines: Vec<Vec<&str>> = text.lines().skip(1).map(|l| l.split(',').collect()).collect();
    assert_eq!(lines.len(), rows.len(), "{stem}: rows kept and rows of the study");
    let number = |text: &str| text.parse::<f64>().unwrap();
    for (g, line) in rows.iter().zip(&lines) {
        let inputs = [g.flange_mm, g.web_mm, g.leg_mm, g.heat_j_per_mm, g.yield_mpa];
        assert!(inputs.iter().zip(line).all(|(x, text)| (x - number(text)).abs() < 1e-9), "{stem}: {line:?}");
        assert_eq!(g.wait_s, line[5].parse().ok(), "{stem}: {line:?}");
    }
    rows.into_iter().zip(lines.iter().map(|line| number(line[6]))).collect()
}

#[test]
fn the_formulas_are_as_far_from_the_section_as_their_studies_say() {
    for (stem, study) in studies() {
        assert!(study.lesson.trim().len() > 80 && !study.reason.is_empty(), "{stem}");
        let table = table(&stem, &study);
        let ratios: Vec<f64> = table.iter().map(|(g, section)| study.formula(g) / section).collect();
        for ((g, section), ratio) in table.iter().zip(&ratios) {
            let formula = study.formula(g);
            println!("{stem}: {g:?}: section {section:.3}, formula {formula:.3}, ratio {ratio:.3}");
        }
        let [low, high] = study.ratio;
        println!("{stem}: allowed {low} … {high}: {}", study.reason);
        assert_eq!(study.complaint(&ratios), None, "{stem}");
    }
}

#[test]
fn kept_rows_are_what_the_section_gives_today() {
    for (stem, study) in studies() {
        let table = table(&stem, &study);
        let (given, kept) = table[table.len() / 2];
        let now = study.section(&given);
        println!("{stem}: {given:?}: kept {kept:.4}, now {now:.4}");
        assert!((now / kept - 1.0).abs() < SAME, "{stem}: {given:?}: kept {kept}, now {now}");
    }
}

/// Redraws the charts instead, if `UPDATE_PLOTS` is set.
#[test]
fn every_study_has_its_chart() {
    for (stem, study) in studies() {
        let picture = chart(&study, &table(&stem, &study), &format!("referee-{stem}"));
        let file = root().join("plots").join(format!("referee-{stem}.svg"));
        if std::env::var_os("UPDATE_PLOTS").is_some() {
            write(&file, &picture).unwrap();
            write(file.with_extension("png"), png(&picture).unwrap()).unwrap();
        }
        assert!(read_to_string(&file).unwrap_or_default() == picture, "{stem}: drawn otherwise than kept");
    }
}

fn chart(study: &Study, table: &[(Given, f64)], name: &str) -> String {
    let (words, unit) = match study.quantity {
        Quantity::ForcePerHeat => ("force over heat", "N mm/J"),
        Quantity::SecondOverFirst => ("force of both over that of one", ""),
        Quantity::ArmMm => ("lateral arm", "mm"),
        Quantity::CupMrad => ("cup", "mrad"),
        Quantity::TiltMrad => ("tilt", "mrad"),
    };
    let column = |name: &str, words: &str, unit: &str, values: Vec<f64>| Column {
        name: name.to_owned(),
        words: words.to_owned(),
        unit: unit.to_owned(),
        values: Values::Numbers(values),
    };
    let of = |get: fn(&Given) -> f64| table.iter().map(|(g, _)| get(g)).collect::<Vec<f64>>();
    let columns = vec![
        column("flange", "flange thickness", "mm", of(|g| g.flange_mm)),
        column("web", "web thickness", "mm", of(|g| g.web_mm)),
        column("leg", "leg", "mm", of(|g| g.leg_mm)),
        column("heat", "net heat", "kJ/mm", of(|g| g.heat_j_per_mm / 1000.0)),
        column("yield", "yield strength", "MPa", of(|g| g.yield_mpa)),
        column("lag", "wait over t* (cold at 10)", "", of(Given::lag)),
        column(
            "q",
            "heat parameter q",
            "J/mm³",
            of(|g| heat_parameter(g.heat_j_per_mm, g.flange_mm, g.web_mm)),
        ),
        column("section", &format!("{words}, section"), unit, table.iter().map(|(_, s)| *s).collect()),
        column(
            "formula",
            &format!("{words}, formula"),
            unit,
            table.iter().map(|(g, _)| study.formula(g)).collect(),
        ),
    ];
    let source = format!(
        "{} of the section solver, coarse mesh, flange 200 mm wide; {} lengthwise",
        study.model, study.lengthwise
    );
    let view = StudyView {
        title: &study.title,
        source: &source,
        table: &Table { columns },
        pieces: 1,
        swings: &[],
        shares: &[],
        member: None,
    };
    study_chart(&view, &study.chart, name).unwrap_or_else(|e| panic!("{name}: {e}")).svg
}

#[test]
fn a_constant_off_by_an_eighth_would_be_seen() {
    for (stem, study) in studies() {
        let table = table(&stem, &study);
        for off in [0.875, 1.125] {
            let ratios: Vec<f64> =
                table.iter().map(|(g, section)| off * study.formula(g) / section).collect();
            assert!(study.complaint(&ratios).is_some(), "{stem}: {off} times the formula passes");
        }
    }
}
