//! Straightening of measured pieces: what is decided, by which way, with which steps, forces and places.

use crate::choices::SHOP;
use crate::engine::{on_all_cores, one};
use crate::job::{Beside, Job, jobs};
use crate::predictions::{list, number, sum};
use crate::stream::Stream;
use crate::table::{Results, Table, compare};
use serde_json::Value;
use std::fmt::Write;

/// Steps of a plan that are kept one by one.
const STEPS: usize = 3;

#[test]
fn plans_are_as_kept() {
    let jobs = jobs(5, 'm', 154, Beside::Constraints);
    let cases: Vec<(&Job, String, &str)> =
        jobs.iter().enumerate().map(|(at, job)| (job, measured(at, job.length_mm), shop(at))).collect();
    let answers = on_all_cores(&cases, |(job, measured, shop)| {
        let shop = if *shop == "torches only" { without_press() } else { SHOP.to_owned() };
        let arguments = ["straighten", "job.toml", "--measured", "m.csv", "--shop", "shop.toml", "--json"];
        one(&arguments, &[("job.toml", &job.text), ("m.csv", measured), ("shop.toml", &shop)])
    });
    let mut table = Table::default();
    for ((job, _, shop), answer) in cases.iter().zip(&answers) {
        let mut r = Results::default();
        match answer {
            Ok(answer) => plan(&mut r, answer),
            Err(_) => r.word("refused", "yes"),
        }
        table.push([&job.name, job.shape, shop], r);
    }
    compare("plans", &table);
}

fn shop(at: usize) -> &'static str {
    if at % 3 == 2 { "torches only" } else { "press and torches" }
}

fn without_press() -> String {
    let (start, end) = (SHOP.find("[press]").unwrap(), SHOP.find("[roller]").unwrap());
    format!("{}{}", &SHOP[..start], &SHOP[end..])
}

/// A piece as read at nine stations: bows that lean to one end, toes, and notes.
fn measured(at: usize, length_mm: f64) -> String {
    let mut stream = Stream::new(6_000_000 + at as u64);
    let size = |stream: &mut Stream, most: f64| stream.step(-most, most, most / 20.0) * length_mm / 1000.0;
    let (camber, sweep) = (size(&mut stream, 3.5), size(&mut stream, 5.0));
    let (lean, toe) = (stream.step(-0.6, 0.6, 0.1), stream.step(0.0, 5.0, 0.5));
    let mut text = String::new();
    for (note, often) in [
        ("delivery: thermomechanical", 0.15),
        ("temperature difference: 4 K", 0.15),
        ("measurements: 2", 0.3),
        ("straightened before: 1", 0.1),
        ("keep off: 1.9 m to 2.4 m", 0.2),
        ("lay on: 0.5 m and 3.5 m\n# up: inner", 0.1),
        ("camber record: mean 4 mm, scatter 1.5 mm, 12 pieces", 0.2),
    ] {
        if stream.chance(often) {
            let _ = writeln!(text, "# {note}");
        }
    }
    text.push_str("x [mm], camber [mm], sweep [mm], outer near toe [mm], outer far toe [mm], inner near toe [mm], inner far toe [mm]\n");
    for station in 0..9 {
        let s = f64::from(station) / 8.0;
        let form = 4.0 * s * (1.0 - s) * (1.0 + lean * (s - 0.5));
        let _ = writeln!(
            text,
            "{:.1}, {:.2}, {:.2}, {toe:.1}, {:.1}, 0.8, 0.3",
            length_mm * s,
            camber * form,
            sweep * form,
            toe / 2.0
        );
    }
    text
}

fn plan(r: &mut Results, answer: &Value) {
    r.word("refused", "");
    let plan = &answer["plan"];
    let joined = |place: &str, keys: [&str; 2]| {
        let said =
            list(plan, place).iter().map(|v| keys.map(|k| v[k].as_str().unwrap_or_default()).join(":"));
        said.collect::<Vec<_>>().join(" ")
    };
    r.word("actions", joined("/decisions", ["quantity", "action"]));
    r.number(
        "values",
        list(plan, "/decisions").iter().filter_map(|d| number(d, "/value_mm")).map(f64::abs).sum::<f64>(),
    );
    r.number("reactions", sum(list(plan, "/decisions"), "/reaction_mm"));
    r.number("refusals", list(plan, "/refusals").len() as f64);
    r.word("blocked", joined("/blocked", ["quantity", "flange"]));
    let limits =
        list(plan, "/blocked").iter().flat_map(|b| list(b, "/blocks")).filter_map(|b| b["limit"].as_str());
    r.word("limits", limits.collect::<Vec<_>>().join(" "));
    r.take("minutes", plan, "/minutes");
    r.take("cost", plan, "/cost");
    let chosen = list(plan, "/chosen");
    let methods = chosen.iter().map(|c| {
        let next = c.pointer("/next_best/method").and_then(Value::as_str).unwrap_or("none");
        let method = c.pointer("/way/method").and_then(Value::as_str).unwrap_or_default();
        format!("{method} before {next}")
    });
    r.word("methods", methods.collect::<Vec<_>>().join("; "));
    for key in ["left_mm", "left_sd_mm", "price/expected", "price/fails"] {
        r.number(&key.replace('/', "_"), sum(chosen, &format!("/way/{key}")));
    }
    r.number("next_expected", sum(chosen, "/next_best/price/expected"));
    let steps: Vec<&Value> = chosen.iter().flat_map(|c| list(c, "/way/steps")).collect();
    r.number("steps", steps.len() as f64);
    for (at, step) in steps.into_iter().take(STEPS).enumerate() {
        work(r, at + 1, &step["work"]);
    }
}

/// What one step does: a push, heats, a bend of a flange, or lines of heat.
fn work(r: &mut Results, number_of: usize, work: &Value) {
    let kind = work.as_object().and_then(|all| all.keys().next()).map_or("", String::as_str);
    r.word(&format!("{number_of}_work"), kind);
    let work = &work[kind];
    let first = |places: [&str; 4]| places.iter().find_map(|place| number(work, place));
    let at = first(["/layout/rams/one", "/layout/rams/two/0", "/places/0/x_mm", "/from_mm"]);
    r.number(&format!("{number_of}_at"), at);
    r.number(&format!("{number_of}_support"), number(work, "/layout/supports_mm/0"));
    let force = first([
        "/bent/nominal/force_n",
        "/places/0/jack/force_n",
        "/fold/force_n",
        "/passes/line/depth_ratio",
    ]);
    r.number(&format!("{number_of}_force"), force);
    let turn = first(["/kink_rad", "/places/0/rotation_rad", "/angle_rad", "/passes/angle_rad"]);
    r.number(&format!("{number_of}_turn"), turn);
    r.number(&format!("{number_of}_heats"), sum(list(work, "/places"), "/heats"));
    for key in ["stroke_mm", "set_mm", "mu", "strain"] {
        r.take(&format!("{number_of}_{key}"), work, &format!("/bent/nominal/{key}"));
    }
    r.take(&format!("{number_of}_travel"), work, "/travels_mm/0");
    r.take(&format!("{number_of}_energy"), work, "/stored_j");
    r.take(&format!("{number_of}_worst"), work, "/worst/ratio");
    r.take(&format!("{number_of}_sideways"), work, "/stability/ratio");
    r.take(&format!("{number_of}_spacing"), work, "/stability/spacing_mm");
    r.take(&format!("{number_of}_most_force"), work, "/most_force_n");
}
