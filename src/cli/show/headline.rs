//! The member in one line, and what it will do.

use super::methods::cross_part;
use super::report::{Report, plain_text};
use super::shown::Shown;
use super::span::{bare, bare_span, unit, with_span};
use super::table::plain;
use crate::cli::lists::listed;
use crate::member::Seam;
use crate::prediction::{Bow, FlangeAngles, Job, Prediction, Ripple, RippleVerdict, Twist};
use crate::units::{System, show};

/// A part of a bow that is smaller than this is not told, mm (a choice: nobody reads it off a string).
const SEEN_MM: f64 = 0.05;

/// Title and member.
pub(super) fn member(job: &Job, prediction: &Prediction, system: System, out: &mut Report) {
    let m = &job.member;
    let depths = m.depth.points();
    let (least, most) = depths.iter().fold((f64::INFINITY, 0.0_f64), |(a, b), p| (a.min(p.1), b.max(p.1)));
    let deep = if most - least < 0.05 {
        show::plate(most, system)
    } else {
        format!("{} to {}", show::plate(least, system), show::plate(most, system))
    };
    let pieces = m.web.iter().map(|p| show::plate(p.thickness_mm, system));
    let mut thicknesses: Vec<String> = pieces.collect();
    thicknesses.dedup();
    out.line(&job.title);
    out.line(format!(
        "{} long, web {} thick, {deep} deep, {}, {}",
        show::position(m.length_mm, system),
        listed(&thicknesses),
        if m.steel.name == "own values" { "steel of own values" } else { &m.steel.name },
        show::mass(prediction.mass_kg, system)
    ));
    job.wps_said().iter().for_each(|wps| out.line(plain_text(&format!("WPS {wps}"), 0)))
}

/// Stretches of flange shown without being asked for (a choice: a flange of two plates has them all).
const MOST_STRETCHES: usize = 4;

/// Shortening, camber, sweep, web and flanges: of many stretches the worst of each flange, unless the `whole` is wanted.
pub(super) fn shape(of: Shown<'_>, out: &mut Report) {
    let Shown { prediction, system, .. } = of;
    out.heading("What it will do", "± two standard deviations");
    let mm = |v| show::offset(v, system);
    let mut table = plain([]);
    let s = &prediction.shortening;
    table.add_row([
        "shortening".to_owned(),
        with_span(s.centroid_mm, s.centroid_2s_mm, system),
        format!("outer edge {}, inner edge {}", mm(s.outer_edge_mm), mm(s.inner_edge_mm)),
    ]);
    for (name, bow, noun) in [("camber", &prediction.camber, "flange"), ("sweep", &prediction.sweep, "side")]
    {
        let size = with_span(bow.max_mm.abs(), bow.max_2s_mm, system);
        table.add_row([name.to_owned(), size, place(bow, noun, name, system)]);
    }
    table.add_row(twist(&prediction.twist, system));
    let (verdict, detail) = web(&prediction.ripple, system);
    table.put(out);
    let waved = if detail.is_empty() { String::new() } else { format!(": {detail}") };
    out.plain(format!("web {verdict}{waved}"));
    if let Some(cross) = &prediction.cross_welds {
        out.plain(cross_part(cross, system));
    }
    flanges(of, out);
    // the bow that is less sure speaks for both
    let bows = [("Camber", &prediction.camber), ("Sweep", &prediction.sweep)];
    let less_sure = bows.into_iter().max_by(|a, b| a.1.max_2s_mm.total_cmp(&b.1.max_2s_mm));
    less_sure
        .into_iter()
        .for_each(|(name, bow)| out.plain(format!("{name} {}", bow.max_2s_of.sentence().in_units(system))))
}

/// Rows of outer and inner flange that say the same as one, under that name.
pub(crate) fn both_as_one<const N: usize>(name: &str, rows: Vec<[String; N]>) -> Vec<[String; N]> {
    let mut out: Vec<[String; N]> = Vec::with_capacity(rows.len());
    for row in rows {
        match out.iter_mut().find(|known| known[1..] == row[1..] && known[0] != row[0]) {
            Some(known) => name.clone_into(&mut known[0]),
            None => out.push(row),
        }
    }
    out
}

/// Cup, tilt and toes, one row a stretch of flange.
fn flanges(Shown { job, prediction, system, whole }: Shown<'_>, out: &mut Report) {
    let [near, far] = ["near toe", "far toe"].map(|toe| format!("{toe}, {}", unit(system)));
    let mut table = plain(1..5);
    let of = |stretches: &[&FlangeAngles]| {
        both_as_one("both", stretches.iter().map(|f| flange(job, f, system)).collect())
    };
    let (mut first, mut rows) = ("flange", of(&prediction.flanges.iter().collect::<Vec<_>>()));
    if rows.len() > MOST_STRETCHES && !whole {
        let worst = |seam| {
            let own = prediction.flanges.iter().filter(move |f| f.flange == seam);
            own.max_by(|a, b| largest_toe_mm(a).total_cmp(&largest_toe_mm(b)))
        };
        (first, rows) = ("flange, worst", of(&Seam::BOTH.into_iter().filter_map(worst).collect::<Vec<_>>()));
    }
    table.add_row([first, "cup", "tilt", near.as_str(), far.as_str()]);
    for [flange, along, cup, tilt, near, far] in rows {
        table.add_row([format!("{flange}{along}"), cup, tilt, near, far]);
    }
    table.put(out)
}

fn largest_toe_mm(f: &FlangeAngles) -> f64 {
    f.near_toe_mm.abs().max(f.far_toe_mm.abs())
}

/// A stretch of flange; where it lies if there are several.
fn flange(job: &Job, f: &FlangeAngles, system: System) -> [String; 6] {
    let angle =
        |value: f64, span: f64| format!("{} ± {}", show::angle(value, system), show::angle(span, system));
    let toe = |mm: f64| bare_span(mm, f.toe_2s_mm, system);
    // whole feet without their inches
    let place = |mm| {
        let shown = show::position(mm, system);
        shown.strip_suffix(" 0 in").map(str::to_owned).unwrap_or(shown)
    };
    let along = match (f.from_mm <= 0.0, f.to_mm >= job.member.length_mm) {
        (true, true) => String::new(),
        (true, false) => format!(" to {}", place(f.to_mm)),
        (false, true) => format!(" from {}", place(f.from_mm)),
        (false, false) => format!(" {} … {}", place(f.from_mm), place(f.to_mm)),
    };
    [
        f.flange.name().to_owned(),
        along,
        angle(f.cup_rad, f.cup_2s_rad),
        angle(f.tilt_rad, f.tilt_2s_rad),
        toe(f.near_toe_mm),
        toe(f.far_toe_mm),
    ]
}

fn place(bow: &Bow, noun: &str, name: &str, system: System) -> String {
    let by_plates = if bow.by_plates_mm.abs() < SEEN_MM {
        String::new()
    } else {
        format!("; {} by plates as they come", show::offset(bow.by_plates_mm * bow.max_mm.signum(), system))
    };
    let place = match bow.toward {
        "straight" => {
            format!("no {name} predicted, largest ± at {}", show::position(bow.at_mm, system))
        }
        toward => format!("toward the {toward} {noun}, largest at {}", show::position(bow.at_mm, system)),
    };
    place + &by_plates
}

/// Turn of the member.
fn twist(t: &Twist, system: System) -> [String; 3] {
    let angle = |rad| show::turn(rad, system);
    [
        "twist".to_owned(),
        format!("{} ± {}", angle(t.max_rad), angle(t.max_2s_rad)),
        format!(
            "largest at {}; end to end {} ± {}",
            show::position(t.at_mm, system),
            angle(t.end_to_end_rad),
            angle(t.end_to_end_2s_rad)
        ),
    ]
}

fn web(ripple: &[Ripple], system: System) -> (&'static str, String) {
    let Some(worst) = Ripple::worst(ripple) else {
        return ("flat", String::new());
    };
    let verdict = match worst.verdict {
        RippleVerdict::Flat => "does not buckle",
        RippleVerdict::Possible => "may ripple",
        RippleVerdict::Likely => "likely ripples",
    };
    let stress = |mpa| show::stress(mpa, system);
    let mut detail = format!(
        "{} at {}, buckles at {} to {}",
        stress(worst.compression_mpa),
        show::position(worst.x_mm, system),
        bare(&stress(worst.critical_low_mpa)),
        stress(worst.critical_high_mpa)
    );
    // a web that came flat and stays so has none
    if worst.wave_mm + worst.wave_2s_mm > 0.0 {
        detail += &format!("; waves {}", with_span(worst.wave_mm, worst.wave_2s_mm, system));
    }
    (verdict, detail)
}
