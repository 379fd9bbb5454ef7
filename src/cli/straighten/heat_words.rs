//! A series of heats in words that a foreman can follow.

use super::word::{Words, counted, mrad, used, wedge};
use crate::straighten::heat::{HeatPlace, HeatSeries, NEXT_HEAT_C};
use crate::straighten::press::PushFrom;
use crate::units::{System, show};

/// Size of a heat: whole millimetres, or quarters of an inch.
pub(crate) fn size(mm: f64, system: System) -> String {
    const QUARTER_MM: f64 = 6.35;
    match system {
        System::Si => format!("{mm:.0} mm"),
        System::Us => show::shop_fraction((mm / QUARTER_MM).round() * QUARTER_MM),
    }
}

/// The place that is heated n-th, in words.
fn heat_place(p: &HeatPlace, system: System) -> String {
    let place = |x: f64| show::position(x, system);
    let again = if p.heats > 1 { format!(", {} heats", p.heats) } else { String::new() };
    let strip = p
        .strip_mm
        .map_or(String::new(), |w| format!(", then a strip {} wide across that flange", size(w, system)));
    let [a, b] = p.jack.supports_mm;
    let [first, last] = p.jack.feet_mm;
    format!(
        "{}. {}{again}: open end at the {}, {} deep, {} wide there ({:.0}°){strip}; jack {} in all ({} of the plastic moment), feet at {} and \
         {} on that side, supports on the other at {} and {}",
        p.turn,
        place(p.x_mm),
        if p.heated.strong() { p.heated.place() } else { edges(p.heated) },
        size(p.vee.depth_mm, system),
        size(p.vee.base_mm, system),
        p.vee.angle_deg,
        show::force(p.jack.force_n, system),
        used(p.jack.ratio),
        place(first),
        place(last),
        place(a),
        place(b)
    )
}

/// Places in the order in which they are heated.
pub(crate) fn in_turn(series: &HeatSeries) -> Vec<&HeatPlace> {
    let mut places: Vec<&HeatPlace> = series.places.iter().collect();
    places.sort_by_key(|p| p.turn);
    places
}

/// The whole series.
pub(crate) fn heated(series: &HeatSeries, system: System, tables: bool) -> Words {
    let sweep = series.places.first().is_some_and(|p| !p.heated.strong());
    let places = if tables { Vec::new() } else { in_turn(series) };
    let mut lines: Vec<String> = places.into_iter().map(|p| format!("{}.", heat_place(p, system))).collect();
    if tables {
        let open =
            series.places.first().map_or("", |p| if sweep { edges(p.heated) } else { p.heated.place() });
        let strip = if sweep { "" } else { ", then a strip as wide as the vee across that flange" };
        lines.push(format!(
            "Vees as in the table, open end at the {open}{strip}. Feet of the jack on that side, its supports on the other."
        ));
    }
    lines.push(if sweep {
        "Both flanges at each place at the same time, one torch on each, feet and supports of the jack on the edges of both at once, or the member \
         twists. From the apex to the open end."
            .to_owned()
    } else {
        "Web from the apex to the open end, from both sides in turn; then the strip. Watch the web: if it bulges, flame off.".to_owned()
    });
    lines.push(
        "The jack is the only load: member unloaded, carried on blocks so that it cannot drop, held upright at the supports. Set the jack before \
         the flame, do not pump it during the heat, unload it when cold. No foot or block on hot steel."
            .to_owned(),
    );
    let steepest = series.places.iter().map(|p| p.jack.wedge_rad).fold(0.0, f64::max);
    lines.extend(wedge(steepest, "feet or supports of the jack"));
    lines.push(one_after_the_other(series, system));
    let (bow, turn) = in_turn(series).first().map_or((0.0, 0.0), |p| (p.off_the_bow_mm, p.rotation_rad));
    lines.push(format!(
        "Hold points: after the first heat, cold, read the bow at its place: about {} less is expected (a turn of {}; {}). If half or \
         double came, plan anew with the turn read. After each round of places measure the bow when cold, and stop as soon as it is inside the accept value.",
        show::offset(bow, system),
        mrad(turn),
        series.trust
    ));
    lines.push(format!(
        "Never above {}. The member shortens by about {}.",
        show::hottest(series.most_c, system),
        show::offset(series.shortening_mm, system)
    ));
    Words { head: head(series, system), lines }
}

/// How many heats, and where: the only place by itself, or how many and from where on.
fn head(series: &HeatSeries, system: System) -> String {
    let heats = counted(series.count(), "vee heat", "vee heats");
    match series.places.as_slice() {
        [only] => {
            let all = if series.count() > 1 { ", all" } else { "" };
            format!("{heats}{all} at {}.", show::position(only.x_mm, system))
        }
        places => format!("{heats} at {} places, from the middle out.", places.len()),
    }
}

/// Which places may be heated while others cool.
fn one_after_the_other(series: &HeatSeries, system: System) -> String {
    let below = show::hottest(NEXT_HEAT_C, system);
    let group = |g: &Vec<&HeatPlace>| g.iter().map(|p| p.turn.to_string()).collect::<Vec<_>>().join(" with ");
    let together: Vec<String> = series.groups().iter().filter(|g| g.len() > 1).map(group).collect();
    let start = if together.is_empty() {
        "One place at a time".to_owned()
    } else {
        format!(
            "In turn while the other cools, each with a jack of its own: {}; all others one by one",
            together.join(", ")
        )
    };
    format!(
        "{start}. Next: all heated steel below {below} and jacks off first, or their loads add up in hot steel."
    )
}

fn edges(from: PushFrom) -> &'static str {
    match from {
        PushFrom::Near => "near edges of both flanges",
        _ => "far edges of both flanges",
    }
}
