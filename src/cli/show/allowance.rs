//! What to allow for when cutting and fitting.

use super::headline::both_as_one;
use super::methods::remedies;
use super::report::Report;
use super::shown::Shown;
use super::span::unit;
use super::table::{listed, plain, roomy};
use crate::cut::{Mark, Plates, cut_list};
use crate::prediction::{Job, NOT_NEEDED, Prediction};
use crate::units::{System, show};

/// Web ordinates shown, ends included; `weldbow cut` has every station that is needed.
const ORDINATES: usize = 9;
/// The same on a narrow screen.
const FEW: usize = 5;

/// Presets shown without being asked for (a choice: a plain member has one for each flange).
const MOST_PRESETS: usize = 2;

/// Lean from which a firmer hold is worth a word, rad (a choice: 1 mm on a flange of 200 mm).
const LEANS_RAD: f64 = 0.01;

/// Cut lengths, web edges, flange presets: of many stretches only if the `whole` is wanted.
pub(super) fn allowance(of: Shown<'_>, out: &mut Report) {
    let Shown { job, prediction, system, whole } = of;
    let plates = Plates::of(job, prediction);
    let mark = Mark { mark: String::new(), job: String::new(), quantity: 1, plates, stations: Vec::new() };
    let remark = "finished + shrinkage + splices; drawings, all stations: `weldbow cut`";
    let without = ["mark", "quantity", "bends", "finish_end", "thickness", "width"];
    let without = if roomy() { &without[..4] } else { &without[..] };
    listed("Cut to", remark, &cut_list(&[mark], system), without, out);
    if whole {
        out.plain("splices: half of what each splice draws in, less half of its root gap");
    }
    web_edges(job, prediction, system, out);
    presets(prediction, system, whole, out)
}

fn web_edges(job: &Job, prediction: &Prediction, system: System, out: &mut Report) {
    if let Some(why) = prediction.allowance.why_straight() {
        out.heading("Web pre-camber ordinates", "");
        return out.say(why.in_units(system));
    }
    let remark = format!("{}; from the outer edge's chord", job.aim().in_units(system));
    out.heading("Web pre-camber ordinates", &remark);
    let length = job.member.length_mm;
    let count = if roomy() { ORDINATES } else { FEW };
    let stations: Vec<f64> = (0..count).map(|i| length * i as f64 / (count - 1) as f64).collect();
    let outer = |x: f64| prediction.allowance.web.outer_mm(x);
    // stations side by side: three lines instead of a page
    let mut table = plain(1..=count);
    let mut row = |name: &str, of: &dyn Fn(f64) -> f64| {
        let name = format!("{name}, {}", unit(system));
        table.add_row(std::iter::once(name).chain(stations.iter().map(|x| bare(of(*x), system))));
    };
    row("from the start", &|x| x);
    row("outer edge", &outer);
    row("inner edge", &|x| outer(x) + job.member.depth.depth_mm(x));
    table.put(out)
}

/// The same for a row that names its unit.
fn bare(mm: f64, system: System) -> String {
    show::ordinate(mm, system).trim_end_matches(unit(system)).trim_end().to_owned()
}

fn presets(prediction: &Prediction, system: System, whole: bool, out: &mut Report) {
    let presets = &prediction.allowance.presets;
    if let Some(why) = prediction.allowance.why_no_preset() {
        out.heading("Flange preset", "");
        return out.say(why.in_units(system));
    }
    let mut rows = Vec::with_capacity(presets.len());
    for p in presets {
        let [from, to] = [p.from_mm, p.to_mm].map(|mm| show::position(mm, system));
        let [bend, packing] = p.in_words(system).map_or_else(
            || [NOT_NEEDED.to_owned(), String::new()],
            |[bend, tilt, near, far]| {
                [format!("pre-bend {bend}, pre-tilt {tilt}"), format!("packing near {near}, far {far}")]
            },
        );
        rows.push([format!("{} flange", p.flange.name()), format!("{from} to {to}"), bend, packing]);
    }
    let rows = both_as_one("both flanges", rows);
    if whole || (roomy() && rows.len() <= MOST_PRESETS) {
        out.heading("Flange preset", "before welding, away from the web; packing under the toes");
        let mut table = plain([]);
        rows.into_iter().for_each(|row| table.add_row(row));
        table.put(out);
    } else {
        out.heading("Flange preset", "as above, stretch by stretch: cup bent, tilt set, toes packed");
    }
    let leans = prediction.allowance.presets.iter().any(|p| p.lean_rad.abs() > LEANS_RAD);
    if let Some(what) = remedies(&prediction.hold).filter(|_| leans) {
        out.plain(format!("Less tilt: {what}"));
    }
}
