//! How plates come, and what assembly adds.

use crate::input::findings::{Bounds, Findings, Lines, bounds};
use crate::job::file::{AssemblyShape, FlangeShape, WebShape};
use crate::member::{Delivered, Edges, Seam};
use crate::prediction::Fitting;
use crate::units::{Length, Straightness};
use crate::welding::Side;

/// A choice: a strip of 9 m that is 180 mm out is no strip for a member.
const BOW: Bounds = bounds("a bow before welding", 0.0, 20.0, "0 mm/m to 20 mm/m", "mm/m");

const SCATTER: Bounds = bounds("a scatter of bows", 0.0, 20.0, "0 mm/m to 20 mm/m", "mm/m");

/// A choice: a web that stands farther off its line is no web for a line.
const WAVES: Bounds = bounds("waves of a web", 0.0, 50.0, "0 mm to 50 mm", "mm");

const FITTING: Bounds = bounds("what assembly adds", 0.0, 20.0, "0 mm to 20 mm", "mm");

/// How a strip of flange comes.
pub(super) fn strip(at: &mut Lines<'_>, shape: &FlangeShape) -> Delivered {
    let sign = shape.bow_toward.map(Side::sign);
    delivered(at, shape.edges, (shape.bow, sign, shape.bow_scatter), "bow_toward = \"near\"")
}

/// How a web plate comes.
pub(super) fn web(at: &mut Lines<'_>, shape: &WebShape) -> Delivered {
    let sign = shape.bow_toward.map(|toward| if toward == Seam::Inner { 1.0 } else { -1.0 });
    let said = (shape.bow, sign, shape.bow_scatter);
    let comes = delivered(at, Edges::NotSaid, said, "bow_toward = \"inner\"");
    let mut of = |key: &str, said: Option<Length>| at.bounded(key, said?, &WAVES);
    Delivered {
        waves_mm: of("waves", shape.waves),
        waves_scatter_mm: of("waves_scatter", shape.waves_scatter),
        ..comes
    }
}

fn delivered(
    at: &mut Lines<'_>,
    edges: Edges,
    (bow, sign, scatter): (Option<Straightness>, Option<f64>, Option<Straightness>),
    example: &str,
) -> Delivered {
    let bow = bow.and_then(|bow| at.bounded("bow", bow.value(), &BOW));
    let scatter = scatter.and_then(|sd| at.bounded("bow_scatter", sd.value(), &SCATTER));
    let lies = bow.is_some_and(|bow| bow > 0.0);
    if lies && sign.is_none() {
        let wanted = "the side that its middle lies toward, in `bow_toward`";
        at.push_example("bow", "a bow without a side", wanted, example);
    }
    if bow.is_none() && sign.is_some() {
        let wanted = "a `bow` beside it, or neither";
        at.push("bow_toward", "a side without a bow", wanted);
    }
    let bow_mm_per_m = bow.map(|bow| bow * sign.unwrap_or(1.0));
    Delivered { edges, bow_mm_per_m, scatter_mm_per_m: scatter, ..Delivered::default() }
}

/// What assembly adds.
pub(crate) fn fitting(shape: &AssemblyShape, findings: &mut Findings) -> Fitting {
    let mut lines = Lines::of("assembly", findings);
    let mut of = |key, said: Option<Length>, usual| lines.one(key, said, usual, &FITTING);
    let usual = Fitting::USUAL;
    Fitting {
        web_edge_mm: of("web_edge", shape.web_edge, usual.web_edge_mm),
        fit_up_mm: of("fit_up", shape.fit_up, usual.fit_up_mm),
        length_mm: of("length", shape.length, usual.length_mm),
        cup_mm: of("flange_cup", shape.flange_cup, usual.cup_mm),
        tilt_mm: of("flange_tilt", shape.flange_tilt, usual.tilt_mm),
    }
}
