//! What is drawn of invented studies, ordinary and hard ones.

mod hard_samples;
mod samples;

use super::pictures::study_chart;
use super::view::StudyView;
use crate::drawn_tests::{covered, cut_off, no_numbers, none_of, texts};
use crate::{ChartError, Done, Picture, png, sample};
use hard_samples::hard;
use proptest::prelude::*;
use samples::{Sample, numbers, usual, words};
use std::sync::OnceLock;
use weldbow_engine::study::Table;

const SOURCE: &str =
    "Predicted by weldbow for rafter.toml, 30 m riding arena; every case is the whole member, welded cold.";

fn draw(sample: &Sample) -> Done<Picture> {
    let job = sample::job();
    let view = StudyView {
        title: "Rafter R2, riding arena",
        lesson: "",
        source: SOURCE,
        table: &sample.table,
        pieces: 1,
        swings: &sample.swings,
        shares: &sample.shares,
        warned: &sample.warned,
        member: Some(&job),
    };
    study_chart(&view, &sample.spec, sample.name)
}

/// Every ordinary and every hard picture, drawn once.
fn all() -> &'static [Picture] {
    static ALL: OnceLock<Vec<Picture>> = OnceLock::new();
    ALL.get_or_init(|| {
        let usual = usual();
        usual.iter().map(|sample| draw(sample).unwrap()).chain(hard().iter().filter_map(drawn)).collect()
    })
}

/// The picture of a hard table, if it can be drawn: a swing or share that is no number cannot.
fn drawn(sample: &Sample) -> Option<Picture> {
    match draw(sample) {
        Ok(picture) => Some(picture),
        Err(ChartError::Wish(fault)) if fault.key() == "kind" => None,
        Err(other) => panic!("{} {:?}: {other}", sample.name, sample.spec.kind),
    }
}

fn of(name: &str) -> Picture {
    draw(usual().iter().find(|sample| sample.name == name).unwrap()).unwrap()
}

fn has(name: &str, wanted: &[&str]) {
    let texts = texts(&of(name).svg);
    for text in wanted {
        assert!(texts.iter().any(|t| t.contains(text)), "{name}: {text:?} not among {texts:#?}");
    }
}

#[test]
fn every_kind_can_be_looked_at() {
    let folder = std::env::var_os("CARGO_TARGET_TMPDIR")
        .map_or_else(|| std::env::temp_dir().join("weldbow-study-charts"), Into::into);
    std::fs::create_dir_all(&folder).unwrap();
    for sample in usual() {
        let picture = draw(&sample).unwrap();
        let bytes = png(&picture.svg).unwrap();
        std::fs::write(folder.join(format!("{}.png", picture.name)), &bytes).unwrap();
        assert!(picture.svg.len() < 1_500_000, "{}: {} bytes", picture.name, picture.svg.len());
    }
}

fn none(wrong: impl Fn(&str) -> Vec<String>) {
    none_of("study", all(), wrong);
}

#[test]
fn nothing_is_drawn_outside_the_picture() {
    none(cut_off);
}

#[test]
fn no_text_covers_another() {
    none(|svg| covered(svg, 0.0));
}

#[test]
fn letters_are_large_enough_and_numbers_read_as_numbers() {
    for picture in all() {
        for size in picture.svg.split("font-size=\"").skip(1) {
            let size: f64 = size.split('"').next().unwrap().parse().unwrap();
            assert!(size >= 100.0, "{}: letters of {} px", picture.name, size / 10.0);
        }
        assert!(picture.svg.contains("<title>") && picture.svg.contains("<desc>"), "{}", picture.name);
    }
    none(no_numbers);
}

#[test]
fn every_picture_names_what_it_shows() {
    has(
        "lines-leg",
        &["leg, mm", "camber, mm", "10 mm", "limit of EN 1090-2 ±12 mm", "1 case failed", SOURCE],
    );
    has("lines-warned", &["Hollow marks: a case with a warning"]);
    has("lines-narrow", &["!: a case with a warning", "0.26", "0", "1.3 !"]);
    has("lines-words", &["camber", "sweep", "welding order", "tandem,"]);
    has("lines-dozen", &["2.75 mm", "limit ±", "100", "4 cases failed"]);
    has("lines-sampled", &["mean of up to 40 cases at a point, band: 5 to 95 %", "both sides"]);
    has("lines-panels", &["web 4 mm", "web 25 mm", "260 mm"]);
    has("map", &["limit ±12 mm", "depth at the start, mm", "leg, mm"]);
    has("map-signs", &["1 case failed"]);
    has("map-words", &["near first", "−14.1"]);
    has("histogram", &["half below 7", "above +9 mm", "5 % below"]);
    has("histogram-both", &["below −6 mm", "above +6 mm"]);
    has("lines-turned", &["sequence 12 of the shop", "web 5 mm"]);
    has("scatter", &["near side first", "limit ±9 mm"]);
    has("scatter-many", &["Only 3000 cases are drawn"]);
    has("tornado", &["3 more inputs", "→", "input at its low end", "with all inputs at their middle"]);
    has("shares", &["% by itself", "% in all", "model"]);
}

#[test]
fn the_same_table_gives_the_same_bytes() {
    assert!(usual().iter().map(|s| draw(s).unwrap()).eq(usual().iter().map(|s| draw(s).unwrap())));
}

#[test]
fn more_lines_than_can_be_told_apart_are_refused() {
    let many: Vec<f64> = (0..13).map(f64::from).collect();
    let columns = vec![numbers("x", "x", "mm", many.clone()), numbers("y", "y", "mm", many.clone())];
    let mut sample = usual().swap_remove(0);
    sample.table = Table { columns };
    sample.spec = toml::from_str("kind = 'lines'\nx = 'x'\ny = 'y'\nby = 'x'").unwrap();
    let text = draw(&sample).unwrap_err().to_string();
    assert!(
        text.contains("`by`") && text.contains("13 different values") && text.contains("panels"),
        "{text}"
    );
    sample.table.columns.push(numbers("z", "z", "kN", many));
    sample.spec = toml::from_str("kind = 'lines'\nx = 'x'\ny = ['y', 'z']").unwrap();
    let text = draw(&sample).unwrap_err().to_string();
    assert!(text.contains("`y` is in mm and `z` in kN; one axis has one unit: make two charts"), "{text}");
}

/// Numbers of every size, now and then none.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        -20.0..20.0_f64,
        -1e90..1e90_f64,
        -1e-8..1e-8_f64,
        Just(f64::NAN),
        Just(0.0),
        prop::num::f64::ANY
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]
    #[test]
    fn no_table_makes_a_panic_or_a_place_that_is_no_number(
        rows in prop::collection::vec((any_number(), any_number(), 0..3_usize, any_number()), 0..12),
    ) {
        let names: Vec<&str> = rows.iter().map(|r| ["tandem", "near side first", "上"][r.2]).collect();
        let columns = vec![
            numbers("x", "leg", "mm", rows.iter().map(|r| r.0).collect()),
            numbers("y", "camber", "mm", rows.iter().map(|r| r.1).collect()),
            numbers("limit", "limit", "mm", rows.iter().map(|r| r.3).collect()),
            words("by", "order", &names),
        ];
        let mut sample = usual().swap_remove(0);
        sample.table = Table { columns };
        for row in &rows {
            sample.swings.push(weldbow_engine::scatter::OneAtATime { input: "i".into(), ends: ["a".into(), "b".into()], results: [row.0, row.1], middle: row.0 });
            sample.shares.push(weldbow_engine::scatter::Share { input: "i".into(), alone: (row.0, row.1), total: (row.1, row.3) });
        }
        for spec in [
            "kind = 'lines'\nx = 'x'\ny = 'y'\nby = 'by'\nlimit = 'limit'\nband = 'limit'",
            "kind = 'lines'\nx = 'by'\ny = ['y', 'x']\npanels = 'by'\nlimit = 'limit'",
            "kind = 'map'\nx = 'x'\nby = 'limit'\ny = 'y'\nlimit = 'limit'",
            "kind = 'map'\nx = 'x'\nby = 'by'\ny = 'y'\nlimit = 'limit'",
            "kind = 'histogram'\nx = 'y'\nlimit = 'limit'",
            "kind = 'scatter'\nx = 'x'\ny = 'y'\nby = 'limit'\npanels = 'by'\nlimit = 'limit'",
            "kind = 'tornado'\ny = 'y'",
            "kind = 'shares'\ny = 'y'",
        ] {
            sample.spec = toml::from_str(spec).unwrap();
            match draw(&sample) {
                Ok(picture) => prop_assert!(!picture.svg.contains("NaN"), "{spec}"),
                Err(ChartError::Wish(fault)) if fault.key() == "kind" => {}
                Err(other) => prop_assert!(false, "{spec}: {other}"),
            }
        }
    }
}
