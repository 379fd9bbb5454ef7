//! What to cut, to what curve, and how to preset.

use super::Reported;
use super::table::{As, table};
use maud::Markup;
use weldbow_engine::units::show;

/// Even stations of the web edges; kinks and splices are added.
const STATIONS: usize = 9;
/// Stations nearer than this are one, mm.
const SAME_MM: f64 = 1.0;

/// Cut lengths of every plate.
pub fn pieces(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let columns = [
        (As::Words, "plate"),
        (As::Number, "from"),
        (As::Number, "to"),
        (As::Number, "finished"),
        (As::Number, "shrinkage"),
        (As::Number, "splices"),
        (As::Result, "cut length"),
    ];
    let rows = of.prediction.allowance.pieces.iter().map(|p| {
        vec![
            format!("{} {}", p.part.replace('_', " "), p.piece),
            show::position(p.from_mm, system),
            show::position(p.to_mm, system),
            show::cut(p.finished_mm, system),
            show::offset(p.shrinkage_mm, system),
            show::offset(p.splices_mm, system),
            show::cut(p.cut_mm, system),
        ]
    });
    table("Cut list: finished length + weld shrinkage + half of each splice", &columns, rows)
}

/// Places where an edge is given: even stations, kinks of the depth, splices of the web.
fn stations(of: &Reported<'_>) -> Vec<(f64, &'static str)> {
    let member = &of.job.member;
    let length = member.length_mm;
    let kinks = member.depth.points().iter().map(|point| (point.0, "kink"));
    let splices = member.web.iter().skip(1).map(|piece| (piece.from_mm, "splice"));
    let even = (0..STATIONS).map(|k| (length * k as f64 / (STATIONS - 1) as f64, ""));
    let inside = |x: f64| x > SAME_MM && x < length - SAME_MM;
    let mut all: Vec<(f64, &'static str)> =
        kinks.chain(splices).filter(|(x, _)| inside(*x)).chain(even).collect();
    // of two at one place the one with a name stays: it stands first in an order that keeps equals
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.dedup_by(|later, kept| {
        let same = (later.0 - kept.0).abs() < SAME_MM;
        if same && kept.1.is_empty() {
            kept.1 = later.1;
        }
        same
    });
    all
}

/// Ordinate of the outer edge and its ± at x, straight between stations.
fn ordinate(of: &Reported<'_>, x: f64) -> (f64, f64) {
    let edges = &of.prediction.allowance.web_edges;
    let above = edges.partition_point(|edge| edge.x_mm < x).clamp(1, edges.len().max(2) - 1);
    let (Some(a), Some(b)) = (edges.get(above - 1), edges.get(above)) else { return (0.0, 0.0) };
    let part = ((x - a.x_mm) / (b.x_mm - a.x_mm)).clamp(0.0, 1.0);
    let mixed = |from: f64, to: f64| from + part * (to - from);
    (mixed(a.outer_mm, b.outer_mm), mixed(a.edge_2s_mm, b.edge_2s_mm))
}

/// Ordinates of both web edges.
pub fn web_edges(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let aim = of.job.wanted_camber.map_or_else(
        || "for a straight member".to_owned(),
        |w| {
            format!(
                "for a camber of {} toward the {} flange",
                show::offset(w.rise_mm, system),
                w.toward.name()
            )
        },
    );
    let columns = [
        (As::Number, "from the start"),
        (As::Words, ""),
        (As::Result, "outer edge"),
        (As::Result, "inner edge"),
        (As::Number, "±"),
        (As::Field, "cut"),
    ];
    let rows = stations(of).into_iter().map(|(x, name)| {
        let (outer, spread) = ordinate(of, x);
        vec![
            show::position(x, system),
            name.to_owned(),
            show::offset(outer, system),
            show::offset(outer + of.job.member.depth.depth_mm(x), system),
            show::offset(spread, system),
        ]
    });
    let caption = format!(
        "Web edges to cut {aim}, from the straight line through the ends of the outer edge, + toward the inner flange"
    );
    table(&caption, &columns, rows)
}

/// How to pre-bend and pre-tilt the flanges before welding.
pub fn presets(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let columns = [
        (As::Words, "flange"),
        (As::Number, "from"),
        (As::Number, "to"),
        (As::Number, "pre-bend"),
        (As::Number, "pre-tilt"),
        (As::Result, "near toe packing"),
        (As::Result, "far toe packing"),
    ];
    let rows = of.prediction.allowance.presets.iter().map(|p| {
        vec![
            p.flange.name().to_owned(),
            show::position(p.from_mm, system),
            show::position(p.to_mm, system),
            show::angle(p.crown_rad, system),
            show::angle(p.lean_rad, system),
            show::offset(p.near_packing_mm, system),
            show::offset(p.far_packing_mm, system),
        ]
    });
    table("Flange preset: pre-bend and pre-tilt, away from the web, before welding", &columns, rows)
}
