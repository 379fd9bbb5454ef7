//! Members of every kind, as the `[member]` part of a job file.

use crate::stream::Stream;
use std::fmt::Write;

/// Kinds of member.
pub(crate) const SHAPES: [&str; 9] =
    ["level", "tapered", "kinked", "stepped flanges", "spliced web", "light", "deep", "column", "us"];

/// A member with the sizes that welds need to know.
pub(crate) struct Member {
    /// One of [`SHAPES`].
    pub shape: &'static str,
    /// Length, mm.
    pub length_mm: f64,
    /// Thinnest web, mm.
    pub web_mm: f64,
    /// Text of `[member]`.
    pub text: String,
    /// Whether sizes are written in feet and inches.
    pub us: bool,
}

/// A length as a job writes it.
pub(crate) fn mm(value: f64) -> String {
    format!("\"{value} mm\"")
}

/// A random member of a kind.
pub(crate) fn member(stream: &mut Stream, shape: &'static str) -> Member {
    if shape == "us" { american(stream) } else { metric(stream, shape) }
}

fn metric(stream: &mut Stream, shape: &'static str) -> Member {
    let (length, depth, web) = match shape {
        "light" => (4000.0..8000.0, 200.0..500.0, 3.0..4.0),
        "deep" => (5000.0..9000.0, 900.0..1400.0, 8.0..12.0),
        "column" => (4000.0..7000.0, 300.0..700.0, 5.0..10.0),
        _ => (6000.0..14000.0, 350.0..1000.0, 4.0..10.0),
    };
    let length_mm = stream.step(length.start, length.end, 100.0);
    let depth_mm = stream.step(depth.start, depth.end, 10.0);
    let web_mm = stream.step(web.start, web.end, 1.0);
    let far_mm = (depth_mm + stream.step(40.0, 500.0, 10.0)).min(1500.0);
    let mid = stream.step(0.3, 0.7, 0.05);
    let middle = (length_mm * mid / 10.0).round() * 10.0;
    let points = match shape {
        "level" | "light" | "spliced web" => vec![(0.0, depth_mm), (length_mm, depth_mm)],
        "kinked" if stream.chance(0.5) => vec![(0.0, depth_mm), (middle, far_mm), (length_mm, depth_mm)],
        "kinked" | "stepped flanges" => vec![(0.0, depth_mm), (middle, far_mm), (length_mm, far_mm)],
        _ if stream.chance(0.3) => vec![(0.0, far_mm), (length_mm, depth_mm)],
        _ => vec![(0.0, depth_mm), (length_mm, far_mm)],
    };
    let mut text = format!("[member]\nlength = {}\nsteel = {}\n", mm(length_mm), steel(stream));
    let points: Vec<String> = points.iter().map(|(x, d)| format!("[{}, {}]", mm(*x), mm(*d))).collect();
    let _ = writeln!(text, "depth = [{}]", points.join(", "));
    let web_piece = |t: f64| format!("thickness = {}", mm(t));
    let webs = if shape == "spliced web" || shape == "deep" || stream.chance(0.15) {
        let thicker = web_mm + stream.step(1.0, 4.0, 1.0);
        [web_piece(web_mm), web_piece(thicker)].to_vec()
    } else {
        vec![web_piece(web_mm)]
    };
    let _ = writeln!(text, "web = {}", plates(stream, &webs, length_mm));
    for flange in ["outer_flange", "inner_flange"] {
        let (thin, thick) = match shape {
            "light" => (5.0, 8.0),
            "deep" => (12.0, 32.0),
            _ => (6.0, 20.0),
        };
        let width = stream.step(if shape == "light" { 100.0 } else { 120.0 }, 300.0, 10.0);
        let first = stream.step(thin, thick, 1.0);
        let pieces = match shape {
            "stepped flanges" => 1 + (stream.unit() * 3.0) as usize,
            _ => 1 + usize::from(stream.chance(0.2)),
        };
        let sizes: Vec<String> = (0..pieces)
            .map(|at| {
                let wider = if stream.chance(0.2) { 40.0 } else { 0.0 };
                format!("width = {}, thickness = {}", mm(width + wider), mm(first + 3.0 * at as f64))
            })
            .collect();
        let _ = writeln!(text, "{flange} = {}", plates(stream, &sizes, length_mm));
    }
    rest(stream, &mut text);
    Member { shape, length_mm, web_mm, text, us: false }
}

/// Plates in a row, each to its own end, some with a splice of their own.
fn plates(stream: &mut Stream, sizes: &[String], length_mm: f64) -> String {
    let count = sizes.len();
    let pieces: Vec<String> = sizes
        .iter()
        .enumerate()
        .map(|(at, size)| {
            if at + 1 == count {
                return format!("{{ {size} }}");
            }
            let share = (at as f64 + stream.step(0.7, 1.3, 0.05)) / count as f64;
            let to = mm((length_mm * share / 10.0).round() * 10.0);
            let splice = match (stream.unit() * 4.0) as usize {
                0 => ", splice = { preparation = \"single-v\", gap = \"2 mm\" }",
                1 => ", splice = { preparation = \"double-v\", gap = \"1 mm\", heat_input = \"1.4 kJ/mm\" }",
                _ => "",
            };
            format!("{{ to = {to}, {size}{splice} }}")
        })
        .collect();
    format!("[{}]", pieces.join(", "))
}

fn american(stream: &mut Stream) -> Member {
    let feet = stream.step(16.0, 44.0, 0.5);
    let (near, far) = (stream.step(12.0, 30.0, 1.0), stream.step(14.0, 44.0, 1.0));
    let knee = (feet * stream.step(0.4, 0.7, 0.1) * 2.0).round() / 2.0;
    let sixteenths = stream.pick(&[3.0, 4.0, 5.0]);
    let mut text = format!("[member]\nlength = \"{feet} ft\"\nsteel = {}\n", american_steel(stream));
    let knee_point =
        if stream.chance(0.5) { format!("[\"{knee} ft\", \"{far} in\"], ") } else { String::new() };
    let _ = writeln!(text, "depth = [[\"0 ft\", \"{near} in\"], {knee_point}[\"{feet} ft\", \"{far} in\"]]");
    let thicker = sixteenths + 1.0;
    let _ = if stream.chance(0.5) {
        writeln!(
            text,
            "web = [{{ to = \"{knee} ft\", thickness = \"{sixteenths}/16 in\" }}, {{ thickness = \"{thicker}/16 in\" }}]"
        )
    } else {
        writeln!(text, "web = [{{ thickness = \"{sixteenths}/16 in\" }}]")
    };
    for flange in ["outer_flange", "inner_flange"] {
        let (width, eighths) = (stream.step(5.0, 12.0, 1.0), stream.step(2.0, 7.0, 1.0));
        let _ = writeln!(text, "{flange} = [{{ width = \"{width} in\", thickness = \"{eighths}/8 in\" }}]");
    }
    rest(stream, &mut text);
    Member { shape: "us", length_mm: feet * 304.8, web_mm: sixteenths / 16.0 * 25.4, text, us: true }
}

fn rest(stream: &mut Stream, text: &mut String) {
    if stream.chance(0.12) {
        text.push_str("web_edges = \"thermally-cut\"\n");
    }
    if stream.chance(0.12) {
        let _ = writeln!(text, "fit_up_gap = {}", mm(stream.step(0.5, 3.0, 0.5)));
    }
}

fn steel(stream: &mut Stream) -> &'static str {
    stream.pick(&[
        "\"S235\"",
        "\"S275\"",
        "\"S355\"",
        "\"S355\"",
        "\"S355\"",
        "{ yield = \"420 MPa\", tensile = \"520 MPa\" }",
        "{ yield = \"460 MPa\", tensile = \"540 MPa\", elastic = \"210 GPa\" }",
        "{ yield = \"690 MPa\", tensile = \"770 MPa\" }",
    ])
}

fn american_steel(stream: &mut Stream) -> &'static str {
    stream.pick(&[
        "\"A36\"",
        "\"A529-50\"",
        "\"A572-50\"",
        "\"A1011-55\"",
        "{ yield = \"50 ksi\", tensile = \"65 ksi\" }",
        "{ yield = \"100 ksi\", tensile = \"110 ksi\", elastic = \"29000 ksi\" }",
    ])
}
