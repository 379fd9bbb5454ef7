//! Kinds of input, each damaged, read, and followed to its results: no panic, no complaint about nothing, no number that is none.

use super::damage::Dice;
use super::finder::absurd;
use std::collections::BTreeMap;
use std::io::sink;
use std::path::Path;
use std::sync::LazyLock;
use weldbow::cli::complain::{Look, complain};
use weldbow::job::{self, STARTER, STARTER_US, read_text};
use weldbow::order::{self, Draws, Line, WorkOrder};
use weldbow::prediction::{Job, Prediction, outside, predict};
use weldbow::reading::{Diagnostics, read_text_as};
use weldbow::shop::measured::{self, Front, Measured};
use weldbow::shop::{self, Ask, AskFault, Shop, push_log};
use weldbow::straighten::piece::Fabrication;
use weldbow::study::file::StudyFile;
use weldbow::study::{Cell, Study};
use weldbow::units::System;

/// Follows one damaged input; whether it was taken, or what is wrong.
pub(crate) type Family = fn(&mut Dice) -> Result<bool, String>;

/// Every kind, with its name and how many cases a run of the usual tests follows.
pub(crate) const FAMILIES: [(&str, Family, u64); 6] = [
    ("jobs", jobs, 600),
    ("studies", studies, 400),
    ("shops", shops, 150),
    ("measured pieces", pieces, 400),
    ("lists", lists, 150),
    ("plans", plans, 40),
];

/// Jobs that are damaged.
pub(crate) const JOBS: [&str; 7] = [
    STARTER,
    STARTER_US,
    include_str!("../../studies/jobs/rafter.toml"),
    include_str!("../../studies/jobs/column.toml"),
    include_str!("../../studies/jobs/us_frame.toml"),
    include_str!("../../studies/jobs/haunch.toml"),
    include_str!("../../studies/jobs/light.toml"),
];
const SHOP: &str = include_str!("../../studies/shop/shop.toml");
const PIECE: &str = include_str!("../../studies/shop/measured-rafter.csv");
const LIST: &str = include_str!("../../studies/shop/order.csv");
const LOG: &str =
    "step, travel [mm], force [kN], set [mm]\n1, 24.1, 43, 3.9\n1, 26, 47.5, 5.2\n2, 12, , 1.1\n";
/// One job in so many is drawn too.
const DRAWN_IN: usize = 50;

static RAFTER: LazyLock<(Job, Prediction)> = LazyLock::new(|| {
    let job = read_text("rafter.toml", JOBS[2]).unwrap();
    let prediction = predict(&job);
    (job, prediction)
});
static MEASURED: LazyLock<Measured> = LazyLock::new(|| measured::read_text("piece.csv", PIECE).unwrap());
/// Texts of the course's studies, and the starter.
static STUDIES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut found: Vec<_> = std::fs::read_dir(studies_folder()).unwrap().map(|e| e.unwrap().path()).collect();
    found.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    found.sort();
    let own = found.iter().map(|path| std::fs::read_to_string(path).unwrap());
    own.chain([weldbow::study::STARTER.to_owned()]).collect()
});

fn studies_folder() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/studies"))
}

/// Nothing, or the first of what was found.
fn sound(found: &[String]) -> Result<bool, String> {
    if found.is_empty() {
        Ok(true)
    } else {
        Err(found.iter().take(4).cloned().collect::<Vec<_>>().join("; "))
    }
}

/// A complaint says something, about a place of the text, and can be shown.
fn useful(complaint: &Diagnostics) -> Result<bool, String> {
    if complaint.problems.is_empty() {
        return Err("a complaint about nothing".to_owned());
    }
    for found in &complaint.problems {
        let range = found.range.clone().unwrap_or(0..0);
        if complaint.text.get(range.clone()).is_none() {
            return Err(format!("{range:?} splits a character"));
        }
        if found.problem.found.is_empty() || found.problem.wanted.is_empty() {
            return Err(format!("a complaint that does not say what is wanted: {found:?}"));
        }
    }
    complain(&mut sink(), complaint, Look::PLAIN).map(|()| false).map_err(|e| e.to_string())
}

/// A prediction with what is outside the model left out, as it is left out where it is shown.
fn predicted(job: &Job) -> Result<bool, String> {
    let prediction = predict(job);
    let none = outside(&prediction);
    let mut hidden: Vec<&str> = none.iter().flat_map(|o| o.fields.iter().copied()).collect();
    if !none.is_empty() {
        // verdicts, wave and estimates of a shape that is none
        hidden.extend(["verdicts", "twist", "estimates", "ripple", "passes"]);
    }
    sound(&absurd(&prediction, &hidden))
}

fn jobs(dice: &mut Dice) -> Result<bool, String> {
    let text = dice.damaged(dice.clone().one(&JOBS));
    let job = match read_text("damaged.toml", &text) {
        Ok(job) => job,
        Err(complaint) => return useful(&complaint),
    };
    super::kept::sound_job(&job)?;
    predicted(&job)?;
    if dice.below(DRAWN_IN) == 0 && outside(&predict(&job)).is_empty() {
        for system in [System::Si, System::Us] {
            weldbow::chart::pictures(&job, &predict(&job), system).map_err(|e| e.to_string())?;
        }
    }
    Ok(true)
}

fn studies(dice: &mut Dice) -> Result<bool, String> {
    let at = dice.below(STUDIES.len());
    let text = dice.damaged(&STUDIES[at]);
    let paper = match read_text_as::<StudyFile>("damaged.toml", &text) {
        Ok(paper) => paper,
        Err(complaint) => return useful(&complaint),
    };
    let read = |name: &str| {
        let path = studies_folder().join(name);
        let text = std::fs::read_to_string(&path).map_err(|e| e.to_string())?;
        job::file_of_text(name, &text).map_err(|c| c.to_string())
    };
    let study = match Study::new(&paper.shape, read) {
        Ok(study) => study,
        Err(problems) => return useful(&paper.complaint(problems)),
    };
    // joints and strips are other tests' business: a case of them takes a second
    if study.source().contains("solved") || study.source().contains("strip") {
        return Ok(true);
    }
    let last = study.count() - 1;
    for case in [0, last, last / 2] {
        let row = study.row(case);
        for (column, value) in study.columns().iter().zip(row.inputs.iter().map(|cell| match cell {
            Cell::Number(number) => *number,
            Cell::Word(_) => 0.0,
        })) {
            if !value.is_finite() {
                return Err(format!("case {case}: {} is {value}", column.name));
            }
        }
        for (collected, value) in study.collect.iter().zip(&row.results) {
            // nothing is a result too; it says why
            let named = BTreeMap::from([(collected.name.as_str(), *value)]);
            if !value.is_nan() {
                sound(&absurd(&named, &[])).map_err(|what| format!("case {case}: {what}"))?;
            }
        }
        let text = weldbow::study::csv_lines(&[row]);
        if text.iter().filter(|byte| **byte == b'\n').count() != 1 {
            return Err(format!("case {case}: a row that is no line"));
        }
    }
    Ok(true)
}

/// Judges and plans; what is refused is refused with a word.
fn planned(job: &Job, shop: &Shop, front: &Front, measured: Option<&Measured>) -> Result<bool, String> {
    let making = Fabrication::default();
    match (Ask { job, shop, making, front, measured }).answer() {
        Ok(answer) => sound(&absurd(&answer.answer("piece", shop), &[])),
        Err(AskFault::Readings(complaint)) => useful(&complaint),
        Err(other) if other.to_string().is_empty() => Err("refused without a word".to_owned()),
        Err(_) => Ok(false),
    }
}

/// The demo rafter as measured, in that shop: its plan without what its kind is expected to be, which takes a thousand times as long.
fn worked_on(measured: &Measured, shop: &Shop) -> Result<bool, String> {
    let (job, prediction) = &*RAFTER;
    let piece = match measured.piece(job, prediction, shop) {
        Ok(piece) => piece,
        Err(complaint) => return useful(&complaint),
    };
    let mut found = absurd(&piece.shape, &[]);
    found.extend(absurd(&piece.plan(&job.member), &[]));
    sound(&found)
}

fn shops(dice: &mut Dice) -> Result<bool, String> {
    match shop::read_text("damaged.toml", &dice.damaged(SHOP)) {
        Ok(shop) => worked_on(&MEASURED, &shop),
        Err(complaint) => useful(&complaint),
    }
}

fn pieces(dice: &mut Dice) -> Result<bool, String> {
    if let Err(complaint) = push_log::read_text("damaged.csv", &dice.damaged(LOG)) {
        useful(&complaint)?;
    }
    match measured::read_text("damaged.csv", &dice.damaged(PIECE)) {
        Ok(measured) => worked_on(&measured, &Shop::usual()),
        Err(complaint) => useful(&complaint),
    }
}

fn lists(dice: &mut Dice) -> Result<bool, String> {
    let text = dice.damaged(LIST);
    let entries = match order::list::read(&text) {
        Ok(entries) => entries,
        Err(problems) => return useful(&Diagnostics::placed("damaged.csv", &text, problems)),
    };
    if entries.is_empty() || dice.below(10) > 0 {
        return Ok(!entries.is_empty());
    }
    // which job a mark names is the business of whoever opens it: here one of the demo's, its numbers changed
    let shape = (0..8).find_map(|_| {
        let text = dice.renumbered(dice.clone().one(&JOBS), 2);
        job::file_of_text("damaged.toml", &text).ok()
    });
    let Some(file) =
        shape.filter(|file| job::check(file).is_ok_and(|job| outside(&predict(&job)).is_empty()))
    else {
        return Ok(true);
    };
    let line = |entry: order::list::Entry| Line {
        mark: entry.mark,
        path: entry.job,
        file: file.clone(),
        quantity: entry.quantity,
        week: entry.week,
        family: entry.family,
    };
    let lines: Vec<Line> = entries.into_iter().take(3).map(line).collect();
    let shop = Shop::usual();
    let order = WorkOrder {
        lines: &lines,
        weeks: Some(4).filter(|_| dice.below(2) == 0),
        draws: Draws { bias: 2, pieces: 2, seed: 1 },
        making: Fabrication::default(),
        shop: &shop,
        capacity_h: Some(8.0).filter(|_| dice.below(2) == 0),
        heat_capacity_h: None,
        system: System::Si,
        verdicts: false,
    };
    match order::run(&order, |_| ()) {
        Ok(found) => sound(&absurd(&found, &[])),
        Err(fault) => Err(fault.to_string()),
    }
}

/// Likely jobs in likely shops with likely readings: what is taken is planned to its end.
fn plans(dice: &mut Dice) -> Result<bool, String> {
    let text = dice.renumbered(dice.clone().one(&JOBS), 3);
    let (Ok(job), Ok(shop)) =
        (read_text("damaged.toml", &text), shop::read_text("damaged.toml", &dice.renumbered(SHOP, 3)))
    else {
        return Ok(false);
    };
    let length_m = job.member.length_mm / 1e3;
    let rows = readings(dice, length_m);
    match measured::read_text("damaged.csv", &rows) {
        Ok(measured) => planned(&job, &shop, &measured.front, Some(&measured)),
        Err(complaint) => useful(&complaint),
    }
}

/// Readings of a member: a bow, a wave and an error of reading, and toes here and there.
fn readings(dice: &mut Dice, length_m: f64) -> String {
    let up = dice.one(&["inner", "outer", "near", "far"]);
    let mut text = format!("# up: {up}\n# readings: checked\n# delivery: ordinary\n");
    text += "x [m], camber [mm], sweep [mm], inner near toe [mm], inner far toe [mm]\n";
    let size = 2.0 * length_m * 10f64.powf(1.5 * dice.part() - 1.0);
    let (bow, wave, toe) = (dice.part() - 0.5, dice.part() - 0.5, 8.0 * dice.part());
    let stations = 5 + dice.below(12);
    for i in 0..stations {
        let s = i as f64 / (stations - 1) as f64;
        let ends = s * (1.0 - s);
        let camber = size * (4.0 * bow * ends + wave * ends * (18.0 * s).sin());
        let sweep = size * (4.0 * wave * ends + 0.1 * ends * dice.part());
        let toes =
            if dice.below(3) == 0 { format!("{toe:.1},{:.1}", toe * dice.part()) } else { ",".to_owned() };
        text += &format!("{:.4},{camber:.2},{sweep:.2},{toes}\n", s * length_m);
    }
    text
}
