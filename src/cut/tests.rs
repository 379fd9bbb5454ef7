//! Tables as CSV and as a workbook say the same, and a drawing holds what a mark is called.

use crate::{Mark, Plates, Stations, Table, cut_list, drawing, marks, ordinates, stations, workbook};
use weldbow_engine::job::STARTER;
use weldbow_engine::prediction::predict;
use weldbow_engine::units::System;
use weldbow_files::sheet::{read_bytes, read_text};

fn mark(name: &str) -> Mark {
    let job = weldbow_files::job::read_text("starter.toml", STARTER).unwrap();
    let plates = Plates::of(&job, &predict(&job));
    let stations = stations(&plates.web, Stations::Parts(8), System::Si);
    Mark { mark: name.to_owned(), job: "starter.toml".to_owned(), quantity: 3, plates, stations }
}

fn tables(all: &[Mark], system: System) -> [Table; 3] {
    [cut_list(all, system), ordinates(all, system), marks(all, system)]
}

/// Cells as numbers where they are some: a workbook drops noughts behind the point.
fn alike(a: &str, b: &str) -> bool {
    match (a.parse::<f64>(), b.parse::<f64>()) {
        (Ok(a), Ok(b)) => (a - b).abs() < 1e-9,
        _ => a == b,
    }
}

#[test]
fn a_workbook_says_what_its_csv_says_in_both_systems() {
    for system in [System::Si, System::Us] {
        let all = [mark("R2"), mark("R3")];
        let tables = tables(&all, system);
        let book = workbook(&tables).unwrap();
        assert_eq!(book, workbook(&tables).unwrap(), "the same bytes again");
        let read = read_bytes("plates.xlsx", book).unwrap();
        let csv = read_text("plates.csv", &tables[0].csv().unwrap()).unwrap();
        assert!(csv.rows.len() > 5 && read.rows.len() == csv.rows.len());
        for (a, b) in read.rows.iter().zip(&csv.rows) {
            let width = a.cells.len().max(b.cells.len());
            assert!((0..width).all(|i| alike(a.cell(i), b.cell(i))), "{a:?}\n{b:?}");
        }
    }
}

#[test]
fn a_mark_that_a_spreadsheet_would_run_stays_text() {
    let all = [mark("=1+1")];
    let [list, ..] = tables(&all, System::Si);
    let csv = list.csv().unwrap();
    assert!(csv.lines().skip(1).all(|line| line.starts_with("'=1+1,")), "{csv}");
    let read = read_bytes("plates.xlsx", workbook(&[list]).unwrap()).unwrap();
    assert_eq!(read.rows[1].cell(0), "=1+1", "a workbook knows text from formulas");
}

#[test]
fn chosen_stations_keep_ends_and_kinks_and_follow_the_tape() {
    let one = mark("R2");
    let web = &one.plates.web;
    let places: Vec<f64> = one.stations.iter().map(|s| s.along_mm).collect();
    assert!(places.is_sorted() && places[0].abs() < 1e-9);
    assert!((places.last().unwrap() - web.length_mm()).abs() < 1e-9);
    let kinks: usize = web.plates.iter().map(|p| p.kinks_mm.len()).sum();
    assert_eq!(one.stations.iter().filter(|s| s.what == "kink").count(), kinks);
    for s in one.stations.iter().filter(|s| s.what.is_empty()) {
        assert!((s.along_mm - s.along_mm.round()).abs() < 1e-9, "{} mm is on no tape", s.along_mm);
    }
    let every = stations(web, Stations::Every(500.0), System::Si);
    let free = |s: &&crate::Station| s.what.is_empty();
    let off = |mm: f64| (mm / 500.0 - (mm / 500.0).round()).abs();
    assert!(every.iter().filter(free).all(|s| off(s.along_mm) < 1e-9));
}

#[test]
fn a_drawing_is_ascii_with_its_mark_on_it() {
    let one = mark("R2-é");
    let dxf = drawing(&one.plates, &one.mark, one.quantity, System::Si);
    assert!(dxf.is_ascii() && dxf.ends_with("  0\r\nEOF\r\n"));
    assert!(dxf.contains("R2-\\U+00E9, 3 off"));
    assert_eq!(dxf.matches("\r\nPOLYLINE\r\n").count(), dxf.matches("\r\nSEQEND\r\n").count());
}

const BENT: &str = "[member]\nlength = \"10 m\"\nsteel = \"S355\"\ndepth = [[\"0 m\", \"500 mm\"], [\"10 m\", \"500 mm\"]]\n\
    web = [{ thickness = \"8 mm\", bow = \"0.5 mm/m\", bow_toward = \"outer\" }]\n\
    outer_flange = [{ width = \"200 mm\", thickness = \"12 mm\" }]\ninner_flange = [{ width = \"200 mm\", thickness = \"12 mm\" }]\n\
    [[pass]]\nseam = \"outer\"\nside = \"near\"\nleg = \"5 mm\"\n[[pass]]\nseam = \"inner\"\nside = \"near\"\nleg = \"5 mm\"\n\
    [[attachment]]\nkind = \"cleat\"\nat = [\"4 m\"]\nto = [\"inner_flange\"]\nleg = \"5 mm\"\n";

#[test]
fn outline_and_prediction_are_one_curve_of_one_length() {
    let job = weldbow_files::job::read_text("bent.toml", BENT).unwrap();
    let prediction = predict(&job);
    let plates = Plates::of(&job, &prediction);
    let [plate] = &plates.web.plates[..] else { panic!("one plate") };
    let drawn: Vec<_> = plate.along_mm.iter().map(|own| plate.at(*own)).collect();
    let mut largest = 0.0_f64;
    for said in &prediction.allowance.web_edges {
        let there = drawn.iter().find(|e| (e.x_mm - said.x_mm).abs() < 1e-6).unwrap();
        assert!((there.outer_mm - said.outer_mm).abs() < 1e-9, "{there:?} {said:?}");
        assert!((there.inner_mm - said.inner_mm).abs() < 1e-9, "{there:?} {said:?}");
        largest = largest.max(said.outer_mm.abs());
    }
    assert!(largest > 3.0, "{largest} mm: the plate's own bow is missing");
    let listed = plates.pieces.iter().find(|p| p.part == "web").unwrap().cut_mm;
    assert!((listed - plates.web.length_mm()).abs() < 1e-9, "{listed} {}", plates.web.length_mm());
    let turn = stations(&plates.web, Stations::Needed, System::Si).into_iter().find(|s| s.what == "kink");
    assert!(turn.is_some_and(|s| (s.edges.x_mm - 4000.0).abs() < 1e-6), "{turn:?}");
}
