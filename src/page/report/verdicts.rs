//! Sizes with their ±, against limits, with the chance of being out.

use super::reported::Reported;
use super::table::{As, Columns, table};
use maud::{Markup, html};
use weldbow_engine::prediction::{Bow, Prediction, Ripple, RippleVerdict};
use weldbow_engine::tolerance::{Judgement, Likely, Set};
use weldbow_engine::units::{System, show};

/// One row a limit.
pub(super) fn limits(of: &Reported<'_>) -> Markup {
    if of.prediction.verdicts.is_empty() {
        return html! { p { "The job names no tolerance." } };
    }
    let system = of.system;
    let judged =
        Columns::of(of.prediction.verdicts.iter().enumerate().map(|(k, v)| (v, of.drawn.likely.get(k))))
            .column(As::Words, "what", |(v, _)| v.quantity.name())
            .column(As::Words, "where", |(v, _)| match v.place {
                "along the member" => show::position(v.at_mm, system),
                place => place.to_owned(),
            })
            .column(As::Number, "predicted", |(v, _)| size(v.value, v.value_2s, system))
            .column(As::Number, "limit", |(v, _)| show::offset(v.limit, system))
            .column(As::Verdict, "verdict", |(v, _)| mark(v.verdict))
            .column(As::Result, "chance of a piece out", |(_, likely)| likely.map_or_else(String::new, said))
            .column(As::Number, "by scatter alone", |(_, likely)| {
                likely.and_then(|l| l.if_model_right).map_or_else(String::new, percent)
            })
            .column(As::Long, "by", |(v, _)| {
                let set = Set::parse(v.set).map_or("own limit", Set::title);
                format!("{set}, {}", v.trust.beside(v.clause))
            })
            .under("close: inside, but the limit lies within the ±");
    html! {
        (judged)
        p.says {
            "Beyond any of these limits: " strong { (said(&of.drawn.any)) } " of pieces. The chance counts drawn pieces and has the model's own doubt in it; \
             “by scatter alone” is what it would be if the model were right."
        }
    }
}

const fn mark(judgement: Judgement) -> &'static str {
    match judgement {
        Judgement::Within => "✓ within",
        Judgement::Near => "≈ close",
        Judgement::Out => "✕ OUT",
    }
}

/// A chance with no more figures than it deserves.
fn said(likely: &Likely) -> String {
    percent(likely.chance)
}

/// A share of pieces, in whole per cent.
pub(crate) fn percent(share: f64) -> String {
    match share {
        s if s < 0.005 => "under 1 %".to_owned(),
        s if s > 0.995 => "over 99 %".to_owned(),
        s => format!("{:.0} %", 100.0 * s),
    }
}

/// "2.5 ± 0.8 mm".
pub(crate) fn size(mm: f64, spread_mm: f64, system: System) -> String {
    let (value, spread) = (show::offset(mm, system), show::offset(spread_mm, system));
    match value.split_once(' ') {
        Some((number, _)) => format!("{number} ± {spread}"),
        None => value,
    }
}

/// The place where the web is nearest to rippling, or ripples most.
pub(crate) fn worst_ripple(p: &Prediction) -> Option<&Ripple> {
    Ripple::worst(&p.ripple)
}

/// Shortening, camber, sweep, twist, flanges, web.
pub(super) fn shape(of: &Reported<'_>) -> Markup {
    let (p, system) = (of.prediction, of.system);
    let mm = |v: f64| show::offset(v, system);
    let (s, twist) = (&p.shortening, &p.twist);
    let mut rows = vec![
        vec![
            "shortening".to_owned(),
            size(s.centroid_mm, s.centroid_2s_mm, system),
            format!("outer edge {}, inner edge {}", mm(s.outer_edge_mm), mm(s.inner_edge_mm)),
        ],
        bow("camber", &p.camber, system),
        bow("sweep", &p.sweep, system),
        vec![
            "twist".to_owned(),
            format!("{} ± {}", show::turn(twist.max_rad, system), show::turn(twist.max_2s_rad, system)),
            format!(
                "against the start end, {} from it; the finish end by {}; the inner flange sweeps {} farther to the near side \
                 than the outer",
                show::position(twist.at_mm, system),
                show::turn(twist.end_to_end_rad, system),
                mm(twist.apart_mm)
            ),
        ],
    ];
    if let Some(cross) = &p.cross_welds {
        rows.push(vec![
            "attachments".to_owned(),
            size(cross.shortening_mm, cross.shortening_2s_mm, system),
            format!("shorter by {} welds across the member; in the numbers above", cross.welds.len()),
        ]);
    }
    rows.extend(p.flanges.iter().map(|f| {
        vec![
            format!(
                "{} flange, {} to {}",
                f.flange.name(),
                show::position(f.from_mm, system),
                show::position(f.to_mm, system)
            ),
            format!("near toe {}, far toe {} ± {}", mm(f.near_toe_mm), mm(f.far_toe_mm), mm(f.toe_2s_mm)),
            format!("cup {}, tilt {}", show::angle(f.cup_rad, system), show::angle(f.tilt_rad, system)),
        ]
    }));
    rows.extend(worst_ripple(p).map(|r| web(r, system)));
    let columns = [(As::Words, "what"), (As::Result, "size"), (As::Words, "where")];
    html! {
        (table("±: two standard deviations. Offsets from the chord between the ends; toes from the square line, + toward the web", &columns, rows))
        p.says {
            "Joint taken as " (p.hold.words()) ": tilts are " (format!("{:.0}", 100.0 * p.hold.tilt_part())) " % of what a free joint has by calculation, a judgement."
        }
    }
}

fn bow(name: &str, bow: &Bow, system: System) -> Vec<String> {
    let place = match bow.toward {
        "straight" => "none predicted; the ± is that of welds, plates and assembly".to_owned(),
        toward => format!("toward {toward}, largest {} from the start", show::position(bow.at_mm, system)),
    };
    vec![name.to_owned(), size(bow.max_mm, bow.max_2s_mm, system), place]
}

fn web(r: &Ripple, system: System) -> Vec<String> {
    let word = match r.verdict {
        RippleVerdict::Flat => "does not buckle",
        RippleVerdict::Possible => "may ripple",
        RippleVerdict::Likely => "likely ripples",
    };
    let verdict = format!("{word}, waves {}", size(r.wave_mm, r.wave_2s_mm, system));
    let place = format!(
        "{} compression at {}; it buckles between {} and {}",
        show::stress(r.compression_mpa, system),
        show::position(r.x_mm, system),
        show::stress(r.critical_low_mpa, system),
        show::stress(r.critical_high_mpa, system)
    );
    vec!["web".to_owned(), verdict, place]
}
