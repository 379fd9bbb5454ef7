//! What to cut, to what curve, and how to preset.

use super::Reported;
use maud::{Markup, html};
use weldbow_engine::units::show;

/// Even stations of the web edges; kinks and splices are added.
const STATIONS: usize = 9;
/// Stations nearer than this are one, mm.
const SAME_MM: f64 = 1.0;

/// Cut lengths of every plate.
pub fn pieces(of: &Reported<'_>) -> Markup {
    let system = of.system;
    html! {
        table {
            caption { "Cut list: finished length + weld shrinkage + half of each splice" }
            thead { tr { th { "plate" } th.n { "from" } th.n { "to" } th.n { "finished" } th.n { "shrinkage" } th.n { "splices" } th.n { "cut length" } } }
            tbody {
                @for p in &of.prediction.allowance.pieces {
                    tr {
                        td { (p.part.replace('_', " ")) " " (p.piece) }
                        td.n { (show::position(p.from_mm, system)) } td.n { (show::position(p.to_mm, system)) }
                        td.n { (show::cut(p.finished_mm, system)) } td.n { (show::offset(p.shrinkage_mm, system)) }
                        td.n { (show::offset(p.splices_mm, system)) } td.n { strong { (show::cut(p.cut_mm, system)) } }
                    }
                }
            }
        }
    }
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

/// Ordinates of both web edges.
pub fn web_edges(of: &Reported<'_>) -> Markup {
    let system = of.system;
    let edges = &of.prediction.allowance.web_edges;
    let at = |x: f64| {
        let above = edges.partition_point(|edge| edge.x_mm < x).clamp(1, edges.len().max(2) - 1);
        let (Some(a), Some(b)) = (edges.get(above - 1), edges.get(above)) else { return (0.0, 0.0) };
        let part = ((x - a.x_mm) / (b.x_mm - a.x_mm)).clamp(0.0, 1.0);
        let mixed = |from: f64, to: f64| from + part * (to - from);
        (mixed(a.outer_mm, b.outer_mm), mixed(a.edge_2s_mm, b.edge_2s_mm))
    };
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
    html! {
        table {
            caption { "Web edges to cut " (aim) ", from the straight line through the ends of the outer edge, + toward the inner flange" }
            thead { tr { th.n { "from the start" } th { "" } th.n { "outer edge" } th.n { "inner edge" } th.n { "±" } th { "cut" } } }
            tbody {
                @for (x, name) in stations(of) {
                    @let (outer, spread) = at(x);
                    tr {
                        td.n { (show::position(x, system)) } td { (name) } td.n { (show::offset(outer, system)) }
                        td.n { (show::offset(outer + of.job.member.depth.depth_mm(x), system)) } td.n { (show::offset(spread, system)) } td.field {}
                    }
                }
            }
        }
    }
}

/// How to bend and lean the flanges before welding.
pub fn presets(of: &Reported<'_>) -> Markup {
    let system = of.system;
    html! {
        table {
            caption { "Flange preset: bend and lean this much away from the web before welding" }
            thead { tr { th { "flange" } th.n { "from" } th.n { "to" } th.n { "crown" } th.n { "lean" } th.n { "near toe packing" } th.n { "far toe packing" } } }
            tbody {
                @for p in &of.prediction.allowance.presets {
                    tr {
                        td { (p.flange.name()) } td.n { (show::position(p.from_mm, system)) } td.n { (show::position(p.to_mm, system)) }
                        td.n { (show::angle(p.crown_rad, system)) } td.n { (show::angle(p.lean_rad, system)) }
                        td.n { (show::offset(p.near_packing_mm, system)) } td.n { (show::offset(p.far_packing_mm, system)) }
                    }
                }
            }
        }
    }
}
