//! `weldbow straighten` as a user runs it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

use assert_cmd::Command;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Output;
use weldbow::job::read_path;
use weldbow::straighten::shape::{Up, own_weight_sag_mm};

const RAFTER: &str = "studies/jobs/rafter.toml";
const SHOP: [&str; 2] = ["--shop", "studies/shop/shop.toml"];
const MEASURED: [&str; 2] = ["--measured", "studies/shop/measured-rafter.csv"];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn run(arguments: &[&str]) -> Output {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    command.current_dir(root()).env("NO_COLOR", "1").arg("straighten").args(arguments).output().unwrap()
}

fn text(arguments: &[&str]) -> String {
    let output = run(arguments);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {said}");
    String::from_utf8(output.stdout).unwrap()
}

fn json(arguments: &[&str]) -> Value {
    let printed = text(&[arguments, &["--json"]].concat());
    assert!(!printed.contains("NaN") && !printed.contains(": inf"), "{printed}");
    serde_json::from_str(&printed).unwrap()
}

fn nulls(value: &Value, path: &str, out: &mut Vec<String>) {
    match value {
        Value::Null => out.push(path.to_owned()),
        Value::Object(fields) => fields.iter().for_each(|(k, v)| nulls(v, &format!("{path}.{k}"), out)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, v)| nulls(v, &format!("{path}[{i}]"), out))
        }
        _ => {}
    }
}

/// A job file of its own in a folder, made from the starter's member with changes.
fn file(folder: &Path, name: &str, content: &str) -> String {
    let path = folder.join(name);
    std::fs::write(&path, content).unwrap();
    path.to_str().unwrap().to_owned()
}

#[test]
fn the_demo_piece_is_planned_with_cautions_before_steps() {
    let said = text(&[&[RAFTER], &SHOP[..], &MEASURED[..]].concat());
    let flat = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for word in
        ["STRAIGHTEN", "Push 1:", "Push 2", "Never above", "kJ stored", "placeholder rates", "Next best"]
    {
        assert!(flat.contains(word), "{word} is not in:\n{said}");
    }
    let (caution, step) = (said.find("CAUTION").unwrap(), said.find(" 1. Push on").unwrap());
    assert!(caution < step, "cautions come first");
    let rams = said.lines().any(|l| l.starts_with(" 1. Push on the far edges of both flanges"));
    assert!(rams, "a sweep toward the far side is pushed from the far side:\n{said}");
}

#[test]
fn every_demo_job_answers_in_json_without_a_null_and_with_its_cautions() {
    for entry in std::fs::read_dir(root().join("studies/jobs")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        let name = path.to_str().unwrap().to_owned();
        for more in [&[][..], &SHOP[..]] {
            let answer = json(&[&[name.as_str()], more].concat());
            let mut found = Vec::new();
            nulls(&answer, "", &mut found);
            assert!(found.is_empty(), "{name}: {found:?}");
            assert!(!answer["plan"]["cautions"].as_array().unwrap().is_empty(), "{name}");
            for e in answer["expected"].as_array().unwrap() {
                let chance = e["chance"].as_f64().unwrap();
                let range = &e["range"];
                assert!((0.0..=1.0).contains(&chance), "{name}: {e}");
                assert!(range[0].as_f64().unwrap() <= range[1].as_f64().unwrap(), "{name}: {e}");
            }
        }
    }
}

#[test]
fn the_energy_in_the_cautions_is_that_of_the_hardest_push() {
    let answer = json(&[&[RAFTER], &SHOP[..], &MEASURED[..]].concat());
    let steps = answer["plan"]["chosen"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|c| c["way"]["steps"].as_array().unwrap());
    let stored = steps.filter_map(|s| s["work"]["push"]["stored_j"].as_f64()).fold(0.0, f64::max);
    let wanted = format!("{:.1} kJ", stored / 1e3);
    assert!(stored > 0.0);
    let cautions = answer["plan"]["cautions"].to_string();
    assert!(cautions.contains(&wanted), "{wanted} is not in {cautions}");
}

#[test]
fn the_same_answer_whatever_the_number_of_threads() {
    let with = |threads: &str| {
        let mut command = Command::cargo_bin("weldbow").unwrap();
        let jobs = ["studies/jobs/rafter.toml", "studies/jobs/column.toml", "studies/jobs/us_frame.toml"];
        let out = command
            .current_dir(root())
            .env("RAYON_NUM_THREADS", threads)
            .arg("straighten")
            .args(jobs)
            .arg("--json")
            .output();
        out.unwrap().stdout
    };
    let one = with("1");
    assert!(!one.is_empty());
    assert!(one == with("2") && one == with("5"), "threads change the answer");
}

/// A straight member laid on two supports reads its own sag; taken out, nothing is left to straighten. The sag itself is
/// checked against beam formulas in `tests/published/straightening.rs`.
#[test]
fn own_weight_is_taken_out_of_what_was_measured() {
    let folder = tempfile::tempdir().unwrap();
    let job = read_path(&root().join("studies/jobs/rafter.toml")).unwrap();
    let x = [0.0, 1500.0, 3000.0, 4500.0, 6000.0, 7500.0, 9000.0];
    // near side up: gravity acts on the weak axis, where a member on its side sags most
    let sag = own_weight_sag_mm(&job.member, [0.0, 9000.0], Up::Near, &x).unwrap();
    let rows: Vec<String> = x.iter().zip(&sag).map(|(x, s)| format!("{x}, 0, {:.3}", -s)).collect();
    let table = format!("x [mm], camber [mm], sweep [mm]\n{}\n", rows.join("\n"));
    let with = file(folder.path(), "with.csv", &format!("# lay on: 0 m and 9 m\n# up: near\n{table}"));
    let without = file(folder.path(), "without.csv", &table);
    let sweep = |csv: &str| {
        let answer = json(&[RAFTER, "--measured", csv]);
        let decisions = answer["plan"]["decisions"].as_array().unwrap().clone();
        let found = decisions.iter().find(|d| d["quantity"] == "sweep").unwrap().clone();
        (found["value_mm"].as_f64().unwrap(), found["action"].as_str().unwrap().to_owned())
    };
    let (left, read) = (sweep(&with), sweep(&without));
    println!("sag {:.1} mm at mid-length; judged {left:?} with the lay, {read:?} without", sag[3]);
    assert!(left.0.abs() < 0.01 && left.1 == "accept", "{left:?}");
    assert!(read.0 < -10.0 && read.1 == "straighten", "{read:?}");
}

/// Camber is judged as it differs from the wanted one.
#[test]
fn a_wanted_camber_is_no_fault() {
    let folder = tempfile::tempdir().unwrap();
    let plain = std::fs::read_to_string(root().join(RAFTER)).unwrap();
    let wished = plain.replace("[member]", "[camber]\nrise = \"20 mm\"\ntoward = \"outer\"\n\n[member]");
    let job = file(folder.path(), "wished.toml", &wished);
    let arc = |top: f64| {
        let rows: Vec<String> = (0..=8)
            .map(|i| {
                let s = f64::from(i) / 8.0;
                format!("{}, {:.3}", 9.0 * s, 4.0 * top * s * (1.0 - s))
            })
            .collect();
        format!("x [m], camber [mm]\n{}\n", rows.join("\n"))
    };
    let value = |name: &str, top: f64| {
        let csv = file(folder.path(), name, &arc(top));
        let answer = json(&[&job, "--measured", &csv]);
        let d = &answer["plan"]["decisions"];
        assert_eq!(d.as_array().unwrap().len(), 1, "only camber was measured: {d}");
        (d[0]["value_mm"].as_f64().unwrap(), d[0]["action"].as_str().unwrap().to_owned())
    };
    let (right, wrong) = (value("right.csv", -20.0), value("wrong.csv", 0.0));
    assert!(right.0.abs() < 0.01 && right.1 == "accept", "{right:?}");
    assert!((wrong.0 - 20.0).abs() < 0.01 && wrong.1 == "straighten", "{wrong:?}");
    // as predicted: a straight web misses the wish by the wish, a web cut to the ordinates by the scatter alone
    let chance = |more: &[&str]| {
        let answer = json(&[&[job.as_str()], more].concat());
        let expected = answer["expected"].as_array().unwrap().clone();
        expected.iter().find(|e| e["quantity"] == "camber").unwrap()["chance"].as_f64().unwrap()
    };
    let (straight, cut) = (chance(&[]), chance(&["--web-cut"]));
    println!("chance of being out: {straight:.4} with a straight web, {cut:.6} with a cut one");
    assert!(straight > 0.9 && cut < 0.05, "{straight}, {cut}");
}

#[test]
fn a_plan_that_cannot_be_made_is_a_result_that_names_the_limit_and_what_helps() {
    let folder = tempfile::tempdir().unwrap();
    let weak = file(
        folder.path(),
        "weak.toml",
        "[press]\nforce = \"5 kN\"\nshortest_span = \"2 m\"\nlongest_span = \"3 m\"\n",
    );
    let long =
        file(folder.path(), "long.toml", "[press]\nshortest_span = \"12 m\"\nlongest_span = \"14 m\"\n");
    for (shop, limit, help) in [
        (&weak, "the press has 5.00 kN", "stronger press"),
        (&long, "do not fit on a member", "bring the supports closer"),
    ] {
        let said = text(&[&[RAFTER, "--shop", shop], &MEASURED[..]].concat());
        assert!(said.contains("this shop cannot straighten it"), "{said}");
        let flat = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(limit) && flat.contains(help), "{said}");
        let answer = json(&[&[RAFTER, "--shop", shop], &MEASURED[..]].concat());
        assert!(!answer["plan"]["blocked"].as_array().unwrap().is_empty());
    }
}

#[test]
fn refusals_reach_every_form_of_output() {
    let folder = tempfile::tempdir().unwrap();
    let sheet = folder.path().join("sheet.html");
    let notes =
        ["--note", "service: fatigue", "--note", "state: galvanised", "--sheet", sheet.to_str().unwrap()];
    let said = text(&[&[RAFTER], &SHOP[..], &MEASURED[..], &notes[..]].concat());
    let page = std::fs::read_to_string(&sheet).unwrap();
    let answer = json(&[&[RAFTER], &SHOP[..], &MEASURED[..], &notes[..4]].concat());
    for form in [&said, &page, &answer.to_string()] {
        assert!(form.contains("fatigue-loaded member"), "{form}");
        assert!(!form.contains("Push on the"), "refused work is not planned");
    }
    assert!(said.contains("No advice on cold work and heat"));
    let allowed = text(
        &[&[RAFTER], &SHOP[..], &MEASURED[..], &notes[..4], &["--note", "approved procedure: yes"]].concat(),
    );
    assert!(
        allowed.contains("Push on the") && allowed.contains("Coated"),
        "a written procedure lifts what asks for one"
    );
}

#[test]
fn a_ram_keeps_off_what_it_is_told_to() {
    let free = json(&[&[RAFTER], &SHOP[..], &MEASURED[..]].concat());
    let places = |answer: &Value| -> Vec<f64> {
        let steps = answer["plan"]["chosen"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|c| c["way"]["steps"].as_array().unwrap());
        let rams = steps.filter_map(|s| s["work"]["push"]["layout"]["rams"].as_object().cloned());
        rams.flat_map(|r| {
            r.values().flat_map(|v| v.as_array().cloned().unwrap_or(vec![v.clone()])).collect::<Vec<_>>()
        })
        .filter_map(|v| v.as_f64())
        .collect()
    };
    let at = places(&free)[0];
    let note = format!("keep off: {:.3} m to {:.3} m", at / 1e3 - 0.3, at / 1e3 + 0.3);
    let kept = json(&[&[RAFTER], &SHOP[..], &MEASURED[..], &["--note", &note]].concat());
    let other = places(&kept);
    println!("ram at {at} mm; told to {note}: {other:?}");
    assert!(!other.is_empty(), "another place can be pushed");
    assert!(other.iter().all(|x| (x - at).abs() > 300.0), "{other:?}");
}

#[test]
fn the_sheet_is_the_foremans_page_to_fill_in_and_the_engineers_apart() {
    let folder = tempfile::tempdir().unwrap();
    let (sheet, charts) = (folder.path().join("sheet.html"), folder.path().join("charts"));
    let more = ["--sheet", sheet.to_str().unwrap(), "--charts", charts.to_str().unwrap()];
    text(&[&[RAFTER], &SHOP[..], &MEASURED[..], &more[..]].concat());
    let page = std::fs::read_to_string(&sheet).unwrap();
    let place = |word: &str| page.find(word).unwrap_or_else(|| panic!("{word} is not on the page"));
    assert!(page.starts_with("<!DOCTYPE html>"));
    let (foreman, engineer) = page.split_at(place("page engineer"));
    for word in [
        "CAUTION",
        "Rafter R2",
        "Mark / piece no.",
        "Steel, yield used, delivery",
        "measured-rafter.csv",
        "Planned",
        "START",
        "Travel read",
        "Force read",
        "Set in all",
        "Initials",
        "Accept, as read",
        "MT/PT result",
        "<svg",
        "@page",
    ] {
        assert!(foreman.contains(word), "{word} is not on the foreman's page");
    }
    for word in ["times the curvature at first yield", "Next best", "placeholder", "simulated"] {
        assert!(engineer.contains(word) && !foreman.contains(word), "{word} is the engineer's");
    }
    // each sheet of paper repeats its title and a caution; text as large as an arm's length asks for
    assert!(page.matches("<thead><tr><td><div class=\"run\">").count() == 2 && page.contains("11.5pt/"));
    assert!(
        !page.contains("<script") && !page.contains("http://")
            || page.matches("http").count() == page.matches("http://www.w3.org/2000/svg").count(),
        "the page needs nothing from elsewhere"
    );
    let drawn = std::fs::read_dir(&charts).unwrap().count();
    assert!(drawn >= 6 && drawn.is_multiple_of(2), "{drawn} files");
}

/// What stayed of the first push asks for its own second one; readings that cannot be are asked for again.
#[test]
fn a_push_log_says_the_next_push() {
    let folder = tempfile::tempdir().unwrap();
    let answer = json(&[&[RAFTER], &SHOP[..], &MEASURED[..]].concat());
    let steps: Vec<Value> = answer["plan"]["chosen"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|c| c["way"]["steps"].as_array().unwrap().clone())
        .collect();
    let step = steps.iter().find(|s| !s["work"]["push"].is_null()).unwrap();
    let (number, push) = (step["number"].as_u64().unwrap(), &step["work"]["push"]);
    let get = |name: &str| push[name].as_f64().unwrap();
    let nominal = &push["bent"]["nominal"];
    let (wanted, force) = (nominal["set_mm"].as_f64().unwrap(), nominal["force_n"].as_f64().unwrap());
    let log = |stayed: f64, travel: f64| {
        let row = format!("{number}, {travel:.2}, {:.2}, {stayed:.2}", force / 1e3);
        let csv =
            file(folder.path(), "log.csv", &format!("step, travel [mm], force [kN], set [mm]\n{row}\n"));
        json(&[&[RAFTER], &SHOP[..], &MEASURED[..], &["--log", &csv]].concat())["push_log"][0].clone()
    };
    let spring = get("elastic_mm_per_n") * force;
    let half = log(0.5 * wanted, spring + 0.5 * wanted);
    let again = &half["next"]["again"];
    println!("wanted {wanted:.1} mm, springback {spring:.1} mm: {half}");
    let travel = again["travel_mm"].as_f64().unwrap();
    // springback as before, the missing half, and a little for the force that grows
    assert!(
        again["number"] == 2 && travel > spring + 0.4 * wanted && travel < 1.2 * spring + wanted,
        "{half}"
    );
    assert!(
        again["band_mm"]["low"].as_f64().unwrap() <= travel
            && again["band_mm"]["high"].as_f64().unwrap() >= travel
    );
    // a set this small may tell nothing of the yield; what is told is no weak steel
    assert!(half["yield_mpa"]["low"].as_f64().is_none_or(|low| low > 200.0), "{half}");
    assert_eq!(log(wanted, spring + wanted)["next"], "enough");
    assert!(log(1.5 * wanted, spring + 1.5 * wanted)["next"]["too_much"].is_object());
    assert!(
        log(0.5 * wanted, 3.0 * spring)["next"]["read_again"].is_object(),
        "it cannot spring back so far"
    );
    let said = text(
        &[&[RAFTER], &SHOP[..], &MEASURED[..], &["--log", folder.path().join("log.csv").to_str().unwrap()]]
            .concat(),
    );
    assert!(said.contains("Push log") && said.contains("Read again"), "{said}");
}

/// A certificate's yield moves what is pushed, not what was welded.
#[test]
fn the_yield_of_the_certificate_moves_the_push_alone() {
    let with = |note: &[&str]| json(&[&[RAFTER], &SHOP[..], &MEASURED[..], note].concat());
    let (plain, strong) = (with(&[]), with(&["--note", "yield: 430 MPa"]));
    let force = |a: &Value| {
        a["plan"]["chosen"][0]["way"]["steps"][0]["work"]["push"]["yields_n"][0].as_f64().unwrap()
    };
    println!("first yield at {:.0} and {:.0} N", force(&plain), force(&strong));
    assert!(force(&strong) > 1.1 * force(&plain));
    assert_eq!(plain["expected"], strong["expected"]);
}

/// The rafter with strips that come straight and are set without error: pieces differ by their welds alone.
fn by_its_welds_alone() -> String {
    let mut job = std::fs::read_to_string(RAFTER).unwrap();
    for thickness in ["8 mm", "10 mm", "14 mm"] {
        let strip = format!("thickness = \"{thickness}\" }}");
        assert!(job.contains(&strip), "{strip}");
        job = job.replace(&strip, &format!("thickness = \"{thickness}\", bow_scatter = \"0 mm/m\" }}"));
    }
    let web = "web = [{ thickness = \"5 mm\" }]";
    assert!(job.contains(web), "{web}");
    job = job.replace(web, "web = [{ thickness = \"5 mm\", waves_scatter = \"0 mm\" }]");
    let nothing = ["web_edge", "fit_up", "length", "flange_cup", "flange_tilt"]
        .map(|key| format!("{key} = \"0 mm\"\n"));
    format!("{job}\n[assembly]\n{}", nothing.concat())
}

#[test]
fn the_shops_own_deviations_are_those_of_the_pieces_to_expect() {
    let folder = tempfile::tempdir().unwrap();
    let job = by_its_welds_alone();
    let sweep = |scatter: &str| {
        let path = file(folder.path(), "own.toml", &format!("{job}\n{scatter}"));
        let answer = json(&[&[path.as_str()][..], &SHOP].concat());
        let all = answer["expected"].as_array().unwrap().clone();
        let found = all.into_iter().find(|e| e["quantity"] == "sweep").unwrap();
        ["bias_sd_mm", "scatter_sd_mm", "mean_mm"].map(|name| found[name].as_f64().unwrap())
    };
    // plates and legs left out of both, so that passes alone are compared
    let usual = sweep("[scatter]\nleg = 0.0\nplate = 0.0\n");
    let own = sweep(
        "[scatter]\nforce = 0.03\narm = 0.04\nheat_from_leg = 0.0\nseam_one_side = 0.0\nseam_both_sides = 0.0\nforce_each_pass = 0.14\nleg = 0.0\nplate = 0.0\n",
    );
    println!("bias, scatter, mean: usual {usual:.3?}, own {own:.3?}");
    // counted on 256 draws of the bias and 2048 pieces: the error of a deviation is 1/√(2n), 4.4 % and 1.6 %
    assert!((own[0] / (0.05 * own[2].abs()) - 1.0).abs() < 0.13, "bias is √(0.03² + 0.04²) of the mean");
    assert!((own[1] / usual[1] - 2.0).abs() < 0.2, "twice the usual 0.07 from pass to pass");
    assert!((own[2] / usual[2] - 1.0).abs() < 1e-12);
}

#[test]
fn nothing_to_do_is_said_in_one_line() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path(), "welds.toml", &by_its_welds_alone());
    let said = text(&[path.as_str(), "--preset"]);
    assert!(said.contains("from welding alone"), "{said}");
    assert!(
        said.contains("Nothing to get ready for: the chance that a piece needs straightening is at most"),
        "{said}"
    );
    assert!(!said.contains(" 1. "), "no steps:\n{said}");
}

/// 83 of 100 haunches are expected out at the toes, and the answer was "near the limit: measure", without a plan or a block.
#[test]
fn what_is_likely_out_is_planned_for() {
    let haunch = ["studies/jobs/haunch.toml", SHOP[0], SHOP[1]];
    let answer = json(&haunch);
    let plan = &answer["plan"];
    let of = |at: &str| plan[at].as_array().unwrap().iter().filter(|c| c["quantity"] == "flange_toe").count();
    println!("{}; {} chosen, {} blocked", answer["summary"], of("chosen"), of("blocked"));
    assert_eq!(answer["planned_at_far_end"][0], "flange_toe");
    assert!(of("chosen") + of("blocked") > 0);
    assert!(!text(&haunch).contains("Near the limit as predicted"));
}

#[test]
fn american_units_reach_every_line_a_foreman_reads() {
    let said = text(&[&[RAFTER, "--units", "us"], &SHOP[..], &MEASURED[..]].concat());
    let steps: Vec<&str> = said.lines().skip_while(|l| !l.contains("Push 1:")).take(6).collect();
    assert!(steps.join(" ").contains(" in") && said.contains("kip") && said.contains("1200 °F"), "{said}");
    let metric = ["mm", "kN", "°C"].map(|unit| said.matches(&format!(" {unit}")).count());
    assert_eq!(metric, [0; 3], "{said}");
    let block = said.split("Not press, ").nth(1).unwrap_or_default();
    assert!(block.contains(" ft") || block.contains(" in") || block.contains("kip"), "blocks too:\n{said}");
}

#[test]
fn a_new_shop_can_be_planned_with() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.toml");
    let mut command = Command::cargo_bin("weldbow").unwrap();
    let made = command.args(["new", "--shop", path.to_str().unwrap()]).output().unwrap();
    assert_eq!(made.status.code(), Some(0));
    assert!(text(&[RAFTER, "--shop", path.to_str().unwrap()]).contains("Straightening bay"));
    let both = Command::cargo_bin("weldbow").unwrap().args(["new", "--shop", "--study"]).output().unwrap();
    assert_eq!(both.status.code(), Some(2), "one kind at a time");
}

/// Mean 6, scatter 4, limits ±9 less a guard of 1.645 · 1 mm: JCGM 106:2012 for the guard; few pieces promise less (Student's t).
#[test]
fn a_record_of_earlier_pieces_says_whether_the_process_should_change_first() {
    let process = |pieces: u32| {
        let record = format!("sweep record: mean 6 mm, scatter 4 mm, {pieces} pieces");
        let printed = json(&[&[RAFTER, "--note", &record][..], &SHOP].concat());
        let all = printed["plan"]["process"].as_array().unwrap().clone();
        all.into_iter().find(|p| p["quantity"] == "sweep").unwrap()["capability"].clone()
    };
    let (few, many) = (process(10), process(1000));
    let number = |c: &Value, name: &str| c[name].as_f64().unwrap();
    // 1 − Φ((9 − 1.645 − 6)/√17) + Φ((−9 + 1.645 − 6)/√17) = 0.3717; C_pk = 3/12
    let acted_on = number(&many, "acted_on");
    println!("acted on {acted_on:.4} of 1000 pieces, 0.372 by hand; {:.4} of 10", number(&few, "acted_on"));
    assert!((acted_on - 0.372).abs() < 2e-3, "{acted_on}");
    assert!((number(&many, "cpk") - 0.25).abs() < 1e-9);
    // half width of ten pieces with scatter 4: 9.49 (handbook value, derived)
    assert!((number(&few, "next_piece_95") - 9.49).abs() < 0.01, "{few}");
    let record = "sweep record: mean 6 mm, scatter 4 mm, 10 pieces";
    let shown = text(&[&[RAFTER, "--note", record][..], &SHOP].concat());
    assert!(shown.contains("What your record says") && shown.contains("no accident"), "{shown}");
}
