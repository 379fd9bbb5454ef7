//! Predictions of both levels: shortening, edges, bows with their place and ±, flanges, web, forces, cut lengths, verdicts.

use crate::engine::{Answer, many, predicted, predicted_by_strips};
use crate::job::{Beside, Job, jobs, some};
use crate::table::{Results, Table, compare};
use crate::welds::SEQUENCES;
use serde_json::Value;

/// Largest offset that is a straight line, mm: what is left of sums that cancel.
const STRAIGHT_MM: f64 = 1e-6;

#[test]
fn predictions_by_formula_are_as_kept() {
    let jobs = jobs(1, 'p', 2508, Beside::Constraints);
    compare("predictions", &table(&jobs, predicted));
}

#[test]
fn the_command_line_shows_what_the_library_predicts() {
    let by_formula = jobs(1, 'p', 120, Beside::Constraints);
    let library = table(&by_formula, predicted).text();
    assert_eq!(library, table(&by_formula, |texts| many(&["predict", "--json"], texts)).text());
    let by_strips = some(2, 's', 8, Beside::Constraints, &["level", "light"], &SEQUENCES);
    let library = table(&by_strips, predicted_by_strips).text();
    assert_eq!(
        library,
        table(&by_strips, |texts| many(&["predict", "--level", "strip", "--json"], texts)).text()
    );
}

#[test]
fn predictions_by_strips_are_as_kept() {
    // level members have few different sections, so a run is quick; a dozen others show what lies between stations
    let level = ["level", "light", "level", "spliced web"];
    let mut jobs = some(2, 's', 110, Beside::Constraints, &level, &SEQUENCES);
    jobs.extend(some(10, 't', 12, Beside::Constraints, &["tapered", "us", "kinked"], &SEQUENCES));
    compare("strips", &table(&jobs, predicted_by_strips));
}

fn table(jobs: &[Job], ask: impl Fn(&[&str]) -> Vec<Answer>) -> Table {
    let texts: Vec<&str> = jobs.iter().map(|job| job.text.as_str()).collect();
    let mut table = Table::default();
    for (job, answer) in jobs.iter().zip(ask(&texts)) {
        table.push([&job.name, job.shape, job.sequence], results(&answer));
    }
    table
}

fn results(answer: &Answer) -> Results {
    let mut r = Results::default();
    let value = match answer {
        Ok(value) => value,
        Err(_) => {
            r.word("refused", "yes");
            return r;
        }
    };
    r.word("refused", "");
    r.take("shortening", value, "/shortening/centroid_mm");
    r.take("outer_edge", value, "/shortening/outer_edge_mm");
    r.take("inner_edge", value, "/shortening/inner_edge_mm");
    r.take("shortening_2s", value, "/shortening/centroid_2s_mm");
    bow(&mut r, value, "camber");
    bow(&mut r, value, "sweep");
    for flange in ["outer", "inner"] {
        flanges(&mut r, value, flange);
    }
    passes(&mut r, value);
    steps(&mut r, value);
    web(&mut r, value);
    allowance(&mut r, value);
    verdicts(&mut r, value);
    r.number("estimates_sum", sum(list(value, "/estimates"), "/value"));
    r.take("mass", value, "/mass_kg");
    let codes = list(value, "/warnings").iter().filter_map(|w| w["code"].as_str());
    r.word("warnings", codes.collect::<Vec<_>>().join(" "));
    r.take("stations", value, "/strip/stations");
    r
}

/// Size, place, ± and form of a bow. Place and ± at the place mean nothing where it is straight.
fn bow(r: &mut Results, value: &Value, name: &str) {
    let bow = &value[name];
    let most = number(bow, "/max_mm");
    let straight = most.is_some_and(|most| most.abs() < STRAIGHT_MM);
    r.number(name, if straight { Some(0.0) } else { most });
    r.number(&format!("{name}_at"), number(bow, "/at_mm").filter(|_| !straight));
    r.number(&format!("{name}_2s"), number(bow, "/max_2s_mm").filter(|_| !straight));
    let offsets: Vec<f64> = list(bow, "/profile").iter().filter_map(|p| p[1].as_f64()).collect();
    let spans = list(bow, "/profile_2s_mm").iter().filter_map(Value::as_f64);
    r.number(
        &format!("{name}_mid"),
        offsets.get(offsets.len() / 2).copied().filter(|x| x.abs() > STRAIGHT_MM),
    );
    r.number(&format!("{name}_2s_most"), spans.fold(0.0_f64, f64::max));
}

/// The stretch of a flange with most cup.
fn flanges(r: &mut Results, value: &Value, flange: &str) {
    let all = list(value, "/flanges").iter().filter(|f| f["flange"] == flange);
    let size = |f: &Value| number(f, "/cup_rad").map_or(0.0, f64::abs);
    let most = all.fold(None, |most: Option<&Value>, f| most.filter(|m| size(m) >= size(f)).or(Some(f)));
    let Some(most) = most else { return };
    for key in ["cup_rad", "tilt_rad", "near_toe_mm", "far_toe_mm", "cup_2s_rad", "tilt_2s_rad", "toe_2s_mm"]
    {
        let short = key.trim_end_matches("_rad").trim_end_matches("_mm");
        r.take(&format!("{flange}_{short}"), most, &format!("/{key}"));
    }
    r.take(&format!("{flange}_narrowing"), most, "/narrowing_mm");
}

fn passes(r: &mut Results, value: &Value) {
    let passes = list(value, "/passes");
    for (word, pass) in [("first", passes.first()), ("last", passes.last())] {
        let Some(pass) = pass else { continue };
        r.take(&format!("{word}_force"), pass, "/force_n");
        r.take(&format!("{word}_lone"), pass, "/lone_force_n");
        r.take(&format!("{word}_arm_y"), pass, "/arm_y_mm");
        r.take(&format!("{word}_arm_z"), pass, "/arm_z_mm");
    }
    r.number("force_sum", sum(passes, "/force_n"));
    let along = passes.iter().flat_map(|p| list(p, "/force_profile")).filter_map(|p| p[1].as_f64());
    r.number("force_along_sum", along.sum::<f64>());
    r.number("heat_sum", sum(passes, "/heat_input_j_per_mm"));
    r.number("leg_sum", sum(passes, "/leg_mm"));
    r.take("sweep_kept", value, "/fit_up/0/sweep_kept");
}

/// What the passes did on the way.
fn steps(r: &mut Results, value: &Value) {
    let steps = list(value, "/build_up");
    let size = |place: &str| {
        let sizes = steps.iter().filter_map(|step| number(step, place));
        sizes.map(f64::abs).filter(|x| *x > STRAIGHT_MM).sum::<f64>()
    };
    r.number("steps_shortening", size("/shortening_mm"));
    r.number("steps_camber", size("/camber_mm"));
    r.number("steps_sweep", size("/sweep_mm"));
}

fn web(r: &mut Results, value: &Value) {
    let all = list(value, "/ripple");
    let most = all.iter().filter_map(|x| number(x, "/compression_mpa")).fold(0.0_f64, f64::max);
    r.number("web_compression", most);
    r.number("web_compression_sum", sum(all, "/compression_mpa"));
    r.number("web_critical_sum", sum(all, "/critical_low_mpa"));
    let worst = ["likely", "possible", "flat"].into_iter().find(|v| all.iter().any(|x| x["verdict"] == *v));
    r.word("web", worst.unwrap_or_default());
}

fn allowance(r: &mut Results, value: &Value) {
    let pieces = list(value, "/allowance/pieces");
    for part in ["web", "outer_flange", "inner_flange"] {
        let of: Vec<Value> = pieces.iter().filter(|p| p["part"] == part).cloned().collect();
        r.number(&format!("cut_{part}"), sum(&of, "/shrinkage_mm") + sum(&of, "/splices_mm"));
    }
    let edges = list(value, "/allowance/web_edges");
    r.number("edge_ordinates", sum(edges, "/outer_mm") + sum(edges, "/inner_mm"));
    r.number("edge_2s", sum(edges, "/edge_2s_mm"));
    r.number("packing", sum(list(value, "/allowance/presets"), "/near_packing_mm"));
}

fn verdicts(r: &mut Results, value: &Value) {
    let all = list(value, "/verdicts");
    let said = all.iter().map(|v| {
        let word = |key: &str| v[key].as_str().unwrap_or_default();
        format!("{}:{}", word("quantity"), word("verdict"))
    });
    r.word("verdicts", said.collect::<Vec<_>>().join(" "));
    r.number("limit_sum", sum(all, "/limit"));
    let least = all.iter().filter_map(|v| number(v, "/margin")).fold(f64::INFINITY, f64::min);
    r.number("margin_least", least);
}

/// A list in an answer; empty if there is none.
pub(crate) fn list<'a>(value: &'a Value, place: &str) -> &'a [Value] {
    value.pointer(place).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// A number in an answer.
pub(crate) fn number(value: &Value, place: &str) -> Option<f64> {
    value.pointer(place).and_then(Value::as_f64)
}

/// Sum of a number over a list.
pub(crate) fn sum(all: &[Value], place: &str) -> f64 {
    all.iter().filter_map(|value| number(value, place)).sum()
}
