//! Welds chosen: what each seam needs, and every option with its passes and numbers.

use crate::engine::{on_all_cores, one};
use crate::job::{Beside, some};
use crate::predictions::{list, sum};
use crate::table::{Results, Table, compare};
use serde_json::Value;

/// The shop of all choices and plans: every figure stated, so that no default of the program is frozen with it.
pub(crate) const SHOP: &str = include_str!("shop.toml");

const SEQUENCES: [&str; 4] =
    ["one side by procedure", "both sides in turn cold", "seams in turn cold", "one side from leg"];

#[test]
fn choices_are_as_kept() {
    let shapes = ["level", "tapered", "light", "kinked", "column", "spliced web", "us"];
    let jobs = some(4, 'c', 40, Beside::Demand, &shapes, &SEQUENCES);
    let asked: [&[&str]; 4] = [
        &["--objective", "least-distortion", "--sides", "one"],
        &["--objective", "least-arc-time", "--wait", "straight-on", "--cut-longer"],
        &["--objective", "least-metal", "--sides", "both", "--web-cut"],
        &["--objective", "balanced-camber", "--sides", "one", "--preset"],
    ];
    let cases: Vec<_> = jobs.iter().zip(asked.iter().cycle()).collect();
    let answers = on_all_cores(&cases, |(job, asked)| {
        let plain = ["choose", "job.toml", "--shop", "shop.toml", "--json", "--procedure", "thin"];
        // a job that wants both sides somewhere cannot be asked for one
        let refused = job.text.contains("both_sides") && asked.contains(&"one");
        let asked = if refused { &asked[..2] } else { &asked[..] };
        one(&[&plain[..], asked].concat(), &[("job.toml", &job.text), ("shop.toml", SHOP)])
    });
    let (mut needs, mut options) = (Table::default(), Table::default());
    for ((job, asked), answer) in cases.iter().zip(&answers) {
        let names = |part: &str| format!("{}-{part}", job.name);
        let mut r = Results::default();
        let Ok(answer) = answer else {
            r.word("refused", "yes");
            options.push([&names("all"), job.shape, asked[1]], r);
            continue;
        };
        r.word("refused", "");
        r.take("feasible", answer, "/feasible");
        r.number("count", list(answer, "/options").len() as f64);
        r.number("screened", answer.pointer("/counts/screened").and_then(Value::as_f64));
        r.number("front", list(answer, "/front").len() as f64);
        options.push([&names("all"), job.shape, asked[1]], r);
        for (at, stretch) in list(answer, "/stretches").iter().enumerate() {
            needs.push([&names(&at.to_string()), job.shape, asked[1]], need(stretch));
        }
        for (at, option) in list(answer, "/options").iter().enumerate() {
            options.push([&names(&at.to_string()), job.shape, asked[1]], chosen(option));
        }
    }
    compare("needs", &needs);
    compare("choices", &options);
}

fn need(stretch: &Value) -> Results {
    let mut r = Results::default();
    r.take("flow", stretch, "/flow/n_per_mm");
    r.take("prismatic", stretch, "/flow/prismatic_n_per_mm");
    for sides in ["one", "two"] {
        for key in ["leg_mm", "strength_mm", "minimum_mm"] {
            r.take(&format!("{sides}_{key}"), stretch, &format!("/{sides}/{key}"));
        }
    }
    r.take("largest", stretch, "/largest_mm");
    r.take("plate_use", stretch, "/plate_use");
    r
}

fn chosen(option: &Value) -> Results {
    let mut r = Results::default();
    r.take("name", option, "/name");
    r.take("way", option, "/way");
    let passes = list(option, "/passes");
    r.number("passes", passes.len() as f64);
    r.number("legs", sum(passes, "/leg_mm"));
    r.number("heats", sum(passes, "/heat_j_per_mm"));
    for key in ["inside", "used"] {
        r.take(key, option, &format!("/score/{key}"));
    }
    for key in ["arc_s", "line_s", "deposit_kg"] {
        r.take(key, option, &format!("/score/effort/{key}"));
    }
    r.take("pieces_inside", option, "/pieces/inside");
    for key in ["camber", "sweep", "toe"] {
        r.take(key, option, &format!("/{key}_mm/0"));
        r.take(&format!("{key}_2s"), option, &format!("/{key}_mm/1"));
    }
    r.take("tightest", option, "/tightest/quantity");
    r.take("passes_all", option, "/passes_all");
    r
}
