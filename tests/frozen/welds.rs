//! Weld sequences of every kind, as the `[[pass]]`, `[[order]]` and `[procedure]` parts of a job file.

use crate::member::{Member, mm};
use crate::stream::Stream;
use std::fmt::Write;

/// Kinds of sequence.
pub(crate) const SEQUENCES: [&str; 22] = [
    "one side",
    "one side by procedure",
    "one side from leg",
    "one seam",
    "seams in turn cold",
    "seams in turn soon",
    "seams from opposite sides",
    "both sides in turn cold",
    "both sides in turn warm",
    "both sides at once",
    "far side weak",
    "far side part length",
    "part length",
    "stitched",
    "T first cold",
    "T first warm",
    "T first inner",
    "T first then both sides",
    "flange follows",
    "second bead",
    "bead in ranges",
    "by procedure warm",
];

/// One pass.
#[derive(Clone)]
struct Pass {
    seam: &'static str,
    side: &'static str,
    order: u32,
    leg_mm: f64,
    heat_j_per_mm: Option<f64>,
    procedure: Option<&'static str>,
    range_mm: Option<(f64, f64)>,
    stitch: Option<(f64, f64)>,
    force_factor: Option<f64>,
}

/// Passes and orders of a kind, as text.
pub(crate) fn welds(stream: &mut Stream, member: &Member, sequence: &str) -> String {
    let passes = passes(stream, member, sequence);
    let mut text = String::new();
    if sequence.contains("procedure") {
        text.push_str(&procedure(stream, sequence, member.us));
    }
    for pass in &passes {
        text.push_str(&pass.text());
    }
    text + &orders(stream, sequence)
}

/// Both seams or one, from one side or both, with legs that suit the web and heats that suit the legs.
fn passes(stream: &mut Stream, member: &Member, sequence: &str) -> Vec<Pass> {
    let length = member.length_mm;
    let leg_mm = (member.web_mm + stream.step(-2.0, 2.0, 0.5)).clamp(3.0, 9.0);
    let both = |side, order| ["outer", "inner"].map(|seam| (seam, side, order)).to_vec();
    let near = stream.pick(&["near", "near", "far"]);
    let far = if near == "near" { "far" } else { "near" };
    let (at_once, turned) = ([both(near, 1), both(far, 1)].concat(), [both(near, 1), both(far, 2)].concat());
    let tee = vec![("outer", near, 1), ("inner", near, 2)];
    let laid = match sequence {
        "one seam" => vec![(stream.pick(&["outer", "inner"]), near, 1)],
        "seams in turn cold" | "seams in turn soon" | "T first cold" | "T first warm" | "flange follows" => {
            tee
        }
        "T first inner" => vec![("inner", near, 1), ("outer", near, 2)],
        "T first then both sides" => {
            vec![("outer", near, 1), ("outer", far, 2), ("inner", near, 3), ("inner", far, 3)]
        }
        "seams from opposite sides" => vec![("outer", near, 1), ("inner", far, 1)],
        "both sides at once" => at_once,
        "both sides in turn cold" | "both sides in turn warm" | "far side weak" | "far side part length" => {
            turned
        }
        "second bead" => [both(near, 1), both(near, 2)].concat(),
        _ => both(near, 1),
    };
    let same = stream.chance(0.6);
    let first = heat(stream, leg_mm);
    let mut passes: Vec<Pass> = laid
        .into_iter()
        .map(|(seam, side, order)| {
            let leg_mm = if same { leg_mm } else { (leg_mm + stream.step(-1.0, 1.0, 0.5)).max(3.0) };
            let heat_j_per_mm = Some(if same { first } else { heat(stream, leg_mm) });
            let force_factor = stream.chance(0.03).then(|| stream.step(0.8, 1.2, 0.05));
            Pass {
                seam,
                side,
                order,
                leg_mm,
                heat_j_per_mm,
                procedure: None,
                range_mm: None,
                stitch: None,
                force_factor,
            }
        })
        .collect();
    let place = |share: f64| (length * share / 10.0).round() * 10.0;
    match sequence {
        "one side from leg" => passes.iter_mut().for_each(|p| p.heat_j_per_mm = None),
        "one side by procedure" | "by procedure warm" => passes.iter_mut().for_each(|p| {
            p.heat_j_per_mm = None;
            p.procedure = Some("wire");
        }),
        "far side weak" => passes.iter_mut().filter(|p| p.order == 2).for_each(|p| {
            p.leg_mm = 3.0;
            p.heat_j_per_mm = Some(stream.step(40.0, 300.0, 20.0));
        }),
        "far side part length" => {
            let (from, share) = (stream.step(0.0, 0.6, 0.05), stream.step(0.2, 0.4, 0.05));
            for p in passes.iter_mut().filter(|p| p.order == 2) {
                p.range_mm = Some((place(from), place(from + share).min(length)));
            }
        }
        "part length" => {
            for p in &mut passes {
                let (from, to) = (stream.step(0.0, 0.4, 0.05), stream.step(0.6, 0.95, 0.05));
                p.range_mm = Some((place(from), place(to)));
            }
        }
        "stitched" => {
            let stitch = (stream.step(50.0, 250.0, 25.0), stream.step(50.0, 300.0, 25.0));
            passes.iter_mut().for_each(|p| p.stitch = Some(stitch));
        }
        "bead in ranges" => {
            let at = place(stream.step(0.2, 0.8, 0.05));
            let hotter = stream.step(1.0, 1.3, 0.1);
            passes = passes
                .iter()
                .flat_map(|p| {
                    let second = p.heat_j_per_mm.map(|q| (q * hotter).round());
                    let ranges = [(Some((0.0, at)), p.heat_j_per_mm), (Some((at, length)), second)];
                    ranges.map(|(range_mm, heat_j_per_mm)| Pass { range_mm, heat_j_per_mm, ..p.clone() })
                })
                .collect();
        }
        _ => {}
    }
    passes
}

/// Net heat of a leg, J/mm: leg² times about what submerged arc takes, more or less.
fn heat(stream: &mut Stream, leg_mm: f64) -> f64 {
    (28.4 * leg_mm * leg_mm * stream.step(0.75, 1.3, 0.01)).round().max(150.0)
}

impl Pass {
    fn text(&self) -> String {
        let mut text = format!("\n[[pass]]\nseam = \"{}\"\nside = \"{}\"\n", self.seam, self.side);
        if self.procedure.is_none() || self.leg_mm > 6.0 {
            let _ = writeln!(text, "leg = {}", mm(self.leg_mm));
        }
        if let Some(heat) = self.heat_j_per_mm {
            let _ = writeln!(text, "heat_input = \"{heat} J/mm\"");
        }
        if let Some(name) = self.procedure {
            let _ = writeln!(text, "procedure = \"{name}\"");
        }
        if let Some((from, to)) = self.range_mm {
            let _ = write!(text, "from = {}\nto = {}\n", mm(from), mm(to));
        }
        if let Some((weld, gap)) = self.stitch {
            let _ = writeln!(text, "intermittent = \"{weld} mm weld, {gap} mm gap\"");
        }
        if let Some(factor) = self.force_factor {
            let _ = writeln!(text, "force_factor = {factor:.2}");
        }
        if self.order > 1 {
            let _ = writeln!(text, "order = {}", self.order);
        }
        text
    }
}

fn orders(stream: &mut Stream, sequence: &str) -> String {
    let tee = "joined = [\"web\", \"outer_flange\"]";
    let soon = stream.step(1.0, 30.0, 1.0);
    let warm = stream.pick(&[30.0, 60.0, 120.0, 300.0, 900.0]);
    let (first, later): (&str, Vec<String>) = match sequence {
        "seams in turn soon" => ("", vec![format!("wait = \"{soon} s\"")]),
        "both sides in turn warm" | "second bead" => ("", vec![format!("wait = \"{warm} s\"")]),
        "T first cold" => (tee, vec!["wait = \"cold\"".to_owned()]),
        "T first warm" => (tee, vec![format!("wait = \"{warm} s\"")]),
        "T first inner" => {
            ("joined = [\"web\", \"inner_flange\"]", vec!["added_flange = \"straight\"".to_owned()])
        }
        "T first then both sides" => (tee, vec![tee.to_owned(), "wait = \"cold\"".to_owned()]),
        "flange follows" => (tee, vec!["added_flange = \"follows\"".to_owned()]),
        _ => return String::new(),
    };
    let mut text = String::new();
    if !first.is_empty() {
        let _ = write!(text, "\n[[order]]\nnumber = 1\n{first}\n");
    }
    for (number, line) in (2..).zip(later) {
        let _ = write!(text, "\n[[order]]\nnumber = {number}\n{line}\n");
    }
    text
}

fn procedure(stream: &mut Stream, sequence: &str, us: bool) -> String {
    let (amps, volts) = (stream.step(500.0, 680.0, 10.0), stream.step(28.0, 32.0, 0.5));
    let speed = stream.step(0.8, 1.8, 0.05);
    let mut text = format!("\n[procedure.wire]\nvoltage = \"{volts} V\"\n");
    let _ = match (us, stream.chance(0.5)) {
        (true, _) => write!(text, "wires = 2\nwire_diameter = \"1/16 in\"\ncurrent = \"{amps} A\"\n"),
        (_, true) => write!(text, "wires = 2\nwire_diameter = \"1.6 mm\"\ncurrent = \"{amps} A\"\n"),
        _ => write!(
            text,
            "wire_diameter = \"2.4 mm\"\ncurrent = \"{amps} A\"\npolarity = \"electrode-negative\"\n"
        ),
    };
    let _ = if us {
        writeln!(text, "travel_speed = \"{:.0} in/min\"", speed * 39.0)
    } else {
        writeln!(text, "travel_speed = \"{speed:.2} m/min\"")
    };
    if sequence.ends_with("warm") {
        let _ = writeln!(text, "preheat = \"{} °C\"", stream.step(40.0, 200.0, 10.0));
    }
    text
}
