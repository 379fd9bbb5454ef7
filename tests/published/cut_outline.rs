//! Drawings of plates against what a general-purpose DXF library reads out of them (`reference-cases/cut_outline.py`), and their
//! outlines against the ordinates.

use crate::cases::{all_checked, check};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;
use weldbow::cut::{Plates, Stations, WITHIN_MM, drawing, stations, straight_gap_mm};
use weldbow::job::read_path;
use weldbow::prediction::predict;
use weldbow::units::System;

const SHEET: &str = "cut_outline";

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Given {
    units: String,
    layer: String,
    along_mm: f64,
}

fn plates(job: &str) -> (Plates, System) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("{job}.toml"));
    let job = read_path(&path).unwrap();
    (Plates::of(&job, &predict(&job)), job.units)
}

/// Shapes of each layer, each a list of points, read out of a drawing in the plainest way.
fn shapes(dxf: &str) -> BTreeMap<String, Vec<Vec<(f64, f64)>>> {
    let lines: Vec<&str> = dxf.lines().map(str::trim).collect();
    let pairs = lines.chunks(2).map(|p| (p[0].parse::<u32>().unwrap(), p[1]));
    let mut all: BTreeMap<String, Vec<Vec<(f64, f64)>>> = BTreeMap::new();
    let (mut kind, mut layer, mut x) = ("", String::new(), 0.0);
    for (code, value) in pairs {
        match (code, kind) {
            (0, _) => kind = value,
            (8, _) => {
                layer = value.to_owned();
                if kind == "LINE" || kind == "POLYLINE" {
                    all.entry(layer.clone()).or_default().push(Vec::new());
                }
            }
            (10 | 11, "LINE" | "VERTEX") => x = value.parse().unwrap(),
            (20 | 21, "LINE" | "VERTEX") => {
                let shape = all.get_mut(&layer).and_then(|shapes| shapes.last_mut()).unwrap();
                shape.push((x, value.parse().unwrap()));
            }
            _ => {}
        }
    }
    all
}

fn area(shape: &[(f64, f64)]) -> f64 {
    let next = shape.iter().cycle().skip(1);
    0.5 * shape.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs()
}

#[test]
fn the_drawing_holds_what_a_library_reads_and_its_edges_lie_where_a_hand_puts_them() {
    let (plates, _) = plates("reference-cases/cut_outline_job");
    let drawn: BTreeMap<&str, _> = [("si", System::Si), ("us", System::Us)]
        .map(|(units, system)| (units, shapes(&drawing(&plates, "R2", 1, system))))
        .into();
    let of = |g: &Given| drawn[g.units.as_str()].get(&g.layer).cloned().unwrap_or_default();
    let every = |g: &Given| of(g).concat();
    let least = |values: Vec<f64>| values.into_iter().fold(f64::INFINITY, f64::min);
    let most = |values: Vec<f64>| values.into_iter().fold(f64::NEG_INFINITY, f64::max);
    let xs = |g: &Given| every(g).iter().map(|p| p.0).collect::<Vec<f64>>();
    let ys = |g: &Given| every(g).iter().map(|p| p.1).collect::<Vec<f64>>();
    check(SHEET, "entities", |g: &Given| of(g).len() as f64);
    check(SHEET, "least x", |g: &Given| least(xs(g)));
    check(SHEET, "most x", |g: &Given| most(xs(g)));
    check(SHEET, "least y", |g: &Given| least(ys(g)));
    check(SHEET, "most y", |g: &Given| most(ys(g)));
    check(SHEET, "area", |g: &Given| of(g).iter().map(|shape| area(shape)).sum());
    let web = &drawn["si"]["WEB"][0];
    let edge = |along_mm: f64, outer: bool| {
        let half = web.len() / 2;
        let side = if outer { &web[..half] } else { &web[half..] };
        side.iter().find(|p| (p.0 - along_mm).abs() < 0.002).map_or(f64::NAN, |p| p.1)
    };
    check(SHEET, "outer edge", |g: &Given| edge(g.along_mm, true));
    check(SHEET, "inner edge", |g: &Given| edge(g.along_mm, false));
    let checked = ["entities", "least x", "most x", "least y", "most y", "area", "outer edge", "inner edge"];
    all_checked::<Given>(SHEET, &checked);
}

#[test]
fn going_straight_between_the_needed_stations_errs_by_less_than_a_tenth_of_a_millimetre() {
    for job in ["haunch", "rafter", "us_frame", "column", "stall_rafter", "gate_rafter"] {
        let (plates, system) = plates(&format!("studies/jobs/{job}"));
        let needed = stations(&plates.web, Stations::Needed, system);
        let gap = straight_gap_mm(&plates.web, &needed, system);
        println!("{job}: {gap:.3} mm with {} stations, bow of {:.2} mm", needed.len(), plates.web.largest_mm);
        assert!(gap < WITHIN_MM, "{job}: {gap} mm with {} stations", needed.len());
        let few = stations(&plates.web, Stations::Parts(1), system);
        let coarse = straight_gap_mm(&plates.web, &few, system);
        assert!(coarse >= gap - 0.03, "{job}: with fewer stations {coarse} mm, with those needed {gap} mm");
    }
}

/// As laid together the web is as long as its plates and root gaps, and as the member with all that draws it in.
#[test]
fn plates_and_gaps_add_up_to_the_web() {
    for job in ["haunch", "us_frame", "rafter", "gate_rafter"] {
        let (plates, _) = plates(&format!("studies/jobs/{job}"));
        let of_web: Vec<_> = plates.pieces.iter().filter(|p| p.part == "web").collect();
        let cut: f64 = of_web.iter().map(|p| p.cut_mm).sum();
        let gaps: f64 = plates.web.plates.iter().filter_map(|p| p.after).map(|j| j.gap_mm).sum();
        let laid = plates.web.length_mm();
        assert!((laid - cut - gaps).abs() < 0.02, "{job}: laid {laid} mm, cut {cut} mm and gaps {gaps} mm");
        for (plate, piece) in plates.web.plates.iter().zip(of_web) {
            assert!(
                (plate.length_mm - piece.cut_mm).abs() < 0.01,
                "{job}: {} and {}",
                plate.length_mm,
                piece.cut_mm
            );
        }
        let strips: f64 = plates.strips.iter().map(|s| s.length_mm).sum();
        let listed: f64 = plates.pieces.iter().filter(|p| p.part != "web").map(|p| p.cut_mm).sum();
        assert!((strips - listed).abs() < 1e-9);
    }
}
