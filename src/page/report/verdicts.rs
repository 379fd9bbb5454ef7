//! Sizes with their ±, against limits, with the chance of being out.

use super::Reported;
use maud::{Markup, html};
use weldbow_engine::prediction::{Bow, RippleVerdict};
use weldbow_engine::tolerance::{Judgement, Set};
use weldbow_engine::units::show;

/// One row a limit.
pub fn table(of: &Reported<'_>) -> Markup {
    let (system, verdicts) = (of.system, &of.prediction.verdicts);
    if verdicts.is_empty() {
        return html! { p { "The job names no tolerance." } };
    }
    let chance = |k: usize| of.drawn.out.get(k).map_or_else(String::new, |out| said(out.share));
    html! {
        table {
            caption { "near: the limit lies inside the ±. Chance of one piece being out, of drawn pieces." }
            thead { tr { th { "what" } th { "where" } th.n { "predicted" } th.n { "±" } th.n { "limit" } th { "verdict" } th.n { "chance out" } th { "by" } } }
            tbody {
                @for (k, v) in verdicts.iter().enumerate() {
                    tr {
                        td { (v.quantity.name()) }
                        td { @if v.place == "along the member" { (show::position(v.at_mm, system)) } @else { (v.place) } }
                        td.n { (show::offset(v.value, system)) } td.n { (show::offset(v.value_2s, system)) } td.n { (show::offset(v.limit, system)) }
                        td.judged { (mark(v.verdict)) }
                        td.n { (chance(k)) }
                        td { (Set::parse(v.set).map_or("own limit", Set::title)) ", " (v.trust.beside(v.clause)) }
                    }
                }
            }
        }
        p.says { "Any limit passed: " (said(of.drawn.any)) " of pieces." }
    }
}

const fn mark(judgement: Judgement) -> &'static str {
    match judgement {
        Judgement::Within => "✓ within",
        Judgement::Near => "≈ near",
        Judgement::Out => "✕ OUT",
    }
}

/// A chance with no more figures than it deserves.
pub fn said(share: f64) -> String {
    match share {
        s if s < 0.005 => "under 1 %".to_owned(),
        s if s > 0.995 => "over 99 %".to_owned(),
        s => format!("{:.0} %", 100.0 * s),
    }
}

/// Shortening, camber, sweep, flanges, web.
pub fn shape(of: &Reported<'_>) -> Markup {
    let (p, system) = (of.prediction, of.system);
    let size =
        |mm: f64, spread: f64| format!("{} ± {}", show::offset(mm, system), show::offset(spread, system));
    let bow = |name: &str, bow: &Bow| {
        let place = match bow.toward {
            "straight" => "as predicted; the ± is scatter from weld to weld".to_owned(),
            toward => {
                format!("toward {toward}, largest {} from the start", show::position(bow.at_mm, system))
            }
        };
        html! { tr { th { (name) } td.n { (size(bow.max_mm, bow.max_2s_mm)) } td { (place) } } }
    };
    let over = |r: &weldbow_engine::prediction::Ripple| r.compression_mpa / r.critical_low_mpa;
    let ripple = p.ripple.iter().max_by(|a, b| over(a).total_cmp(&over(b)));
    html! {
        table {
            tbody {
                tr { th { "shortening" } td.n { (size(p.shortening.centroid_mm, p.shortening.centroid_2s_mm)) }
                    td { "outer edge " (show::offset(p.shortening.outer_edge_mm, system)) ", inner edge " (show::offset(p.shortening.inner_edge_mm, system)) } }
                (bow("camber", &p.camber))
                (bow("sweep", &p.sweep))
                @for f in &p.flanges {
                    tr { th { (f.flange.name()) " flange" }
                        td.n { "near toe " (show::offset(f.near_toe_mm, system)) ", far toe " (show::offset(f.far_toe_mm, system)) " ± " (show::offset(f.toe_2s_mm, system)) }
                        td { (show::position(f.from_mm, system)) " to " (show::position(f.to_mm, system)) ": cup " (show::angle(f.cup_rad, system)) ", tilt " (show::angle(f.tilt_rad, system)) } }
                }
                @if let Some(r) = ripple {
                    tr { th { "web" }
                        td.n { (match r.verdict { RippleVerdict::Flat => "stays flat", RippleVerdict::Possible => "may ripple", RippleVerdict::Likely => "likely ripples" }) }
                        td { (show::stress(r.compression_mpa, system)) " compression at " (show::position(r.x_mm, system)) "; it buckles between "
                            (show::stress(r.critical_low_mpa, system)) " and " (show::stress(r.critical_high_mpa, system)) } }
                }
            }
        }
    }
}
