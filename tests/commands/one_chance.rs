//! One verdict: whoever says how likely a piece is out says the same, within the standard error of counting.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a failed test may panic anywhere"
)]
#![allow(missing_docs)]

use assert_cmd::Command;
use serde_json::{Value, from_slice};
use std::fs::{read_to_string, write};
use std::path::{Path, PathBuf};
use tempfile::tempdir;

const SHOP: &str = "studies/shop/shop.toml";

fn weldbow(arguments: &[&str]) -> Value {
    let mut command = Command::cargo_bin("weldbow").unwrap();
    let output =
        command.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments).arg("--json").output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {said}");
    from_slice(&output.stdout).unwrap()
}

/// Where a value is an object whose field is that word.
fn with<'v>(all: &'v Value, field: &str, word: &str) -> &'v Value {
    all.as_array().unwrap().iter().find(|v| v[field] == word).unwrap_or_else(|| panic!("no {word} in {all}"))
}

/// A chance and its standard error; a chance of nothing counted is known to a 256th.
fn chance(of: &Value) -> (f64, f64) {
    (of["chance"].as_f64().unwrap(), of["standard_error"].as_f64().unwrap().max(1.0 / 256.0))
}

/// What each command says of one quantity of a job, its own limit the only one that can be passed.
fn all_five(job: &Path, word: &str, choose_word: &str) -> [(&'static str, (f64, f64)); 5] {
    let job = job.to_str().unwrap();
    let verdicts = weldbow(&["predict", job])["verdicts"].clone();
    let own: Vec<&Value> =
        verdicts.as_array().unwrap().iter().filter(|v| v["set"] == "own" && v["quantity"] == word).collect();
    let predict = chance(&own[0]["likely"]);
    let scatter = weldbow(&["scatter", job, "--draws", "500", "--pieces", "20"]);
    let scatter = chance(with(&scatter["chances"], "limit", &format!("verdicts.{word}.beyond")));
    let choice = weldbow(&["choose", job, "--shop", SHOP]);
    let pieces = &choice["options"][0]["pieces"];
    let outside = pieces["outside"][choose_word].as_f64().unwrap_or(0.0);
    let choose = (outside, pieces["standard_error"].as_f64().unwrap().max(1.0 / 256.0));
    let straighten = weldbow(&["straighten", job, "--shop", SHOP]);
    let straighten = chance(with(&straighten["expected"], "quantity", word));
    let list = Path::new(job).with_file_name("order.csv");
    write(&list, format!("mark,job,quantity\nR2,{job},4\n")).unwrap();
    let order = weldbow(&["order", list.to_str().unwrap(), "--shop", SHOP]);
    let order = chance(&with(&order["marks"][0]["parts"], "quantity", word)["out"]);
    [
        ("predict", predict),
        ("scatter", scatter),
        ("choose", choose),
        ("straighten", straighten),
        ("order", order),
    ]
}

fn job(folder: &Path, name: &str, limits: &str, by_leg: bool) -> PathBuf {
    let mut text = read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/rafter.toml")).unwrap();
    text.push_str(&format!("\n[limits]\n{limits}\n"));
    if by_leg {
        text = text.lines().filter(|l| !l.starts_with("procedure = ")).collect::<Vec<_>>().join("\n");
    }
    let path = folder.join(name);
    write(&path, text).unwrap();
    path
}

#[test]
fn five_commands_say_one_chance() {
    let folder = tempdir().unwrap();
    let rows = [
        ("sweep = \"9 mm\"", "sweep", "sweep", false),
        ("sweep = \"8 mm\"", "sweep", "sweep", false),
        ("sweep = \"7 mm\"", "sweep", "sweep", false),
        ("sweep = \"6 mm\"", "sweep", "sweep", false),
        ("flange_toe = \"2.5 mm\"", "flange_toe", "flange_toe", false),
        ("sweep = \"8 mm\"", "sweep", "sweep", true),
    ];
    let mut apart = Vec::new();
    let mut table = vec![format!("{:28}", "chance of being out, %")];
    for (n, (limits, word, choose_word, by_leg)) in rows.into_iter().enumerate() {
        let job = job(folder.path(), &format!("job{n}.toml"), limits, by_leg);
        let said = all_five(&job, word, choose_word);
        if n == 0 {
            table[0] += &said.iter().map(|(who, _)| format!("{who:>15}")).collect::<String>();
        }
        let beside = if by_leg { ", by leg" } else { "" };
        let cells = said.iter().map(|(_, (p, e))| format!("{:8.2} ± {:4.2}", 100.0 * p, 100.0 * e));
        table.push(format!("{:28}{}", format!("{limits}{beside}"), cells.collect::<String>()));
        for (who, (p, error)) in said {
            let (other, other_error) = said[1].1;
            // three standard errors of both counts
            if (p - other).abs() > 3.0 * error.hypot(other_error) {
                apart.push(format!("{limits}: {who} {p} ± {error}, scatter {other} ± {other_error}"));
            }
        }
    }
    println!("{}", table.join("\n"));
    assert!(apart.is_empty(), "{apart:?}");
}

/// The web is cut to one line for all limits: the middle of what they allow together at mid-length, along a parabola. At the wanted camber half of
/// the pieces would lie beyond AWS D1.1, which allows no less of it.
#[test]
fn a_web_cut_to_its_ordinates_aims_at_the_middle_of_its_limits() {
    let folder = tempdir().unwrap();
    let job = folder.path().join("us.toml");
    std::fs::copy(concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/us_frame.toml"), &job).unwrap();
    let length_mm = 1e3 * 0.3048 * 24.5;
    let job = job.to_str().unwrap();
    let list = folder.path().join("list.csv");
    write(&list, format!("mark,job,quantity\nRF,{job},4\n")).unwrap();
    let straighten = weldbow(&["straighten", job, "--shop", SHOP, "--web-cut"]);
    let camber = with(&straighten["expected"], "quantity", "camber");
    let order = weldbow(&["order", list.to_str().unwrap(), "--shop", SHOP, "--web-cut"]);
    let ordered = chance(&with(&order["marks"][0]["parts"], "quantity", "camber")["out"]);
    let (one, error) = chance(camber);
    let number = |value: &Value| value.as_f64().unwrap();
    let by_law = number(&camber["capability"]["out"]);
    println!("out: {one:.3} ± {error:.3} said, {ordered:?} of the order, {by_law:.3} by the normal law");
    let part = number(&camber["at_mm"]) / length_mm;
    let middle = 0.5 * (number(&camber["limits"]["lowest"]) + number(&camber["limits"]["highest"]));
    let want = middle * 4.0 * part * (1.0 - part);
    assert!((number(&camber["mean_mm"]) - want).abs() < 1e-6, "{camber}: by hand {want}");
    assert!(one < 0.01 && by_law < 0.01 && ordered.0 < 0.01, "{camber}, {ordered:?}");
    let advice = straighten["change_first"].to_string();
    assert!(!advice.contains("cut the web"), "{advice}");
}

/// A mean beyond its limit is out, whatever its ±, and a script hears of it; a chance it sets is heard of earlier.
#[test]
fn a_mean_beyond_its_limit_is_never_near_and_strict_hears_of_it() {
    let folder = tempdir().unwrap();
    let status = |arguments: &[&str]| {
        let mut command = Command::cargo_bin("weldbow").unwrap();
        command.arg("predict").args(arguments).output().unwrap().status.code()
    };
    // the sweep is 4.7 mm: inside 8 mm, beyond 4.3 mm
    let (wide, tight) = (
        job(folder.path(), "wide.toml", "sweep = \"8 mm\"", false),
        job(folder.path(), "tight.toml", "sweep = \"4.3 mm\"", false),
    );
    let (wide, tight) = (wide.to_str().unwrap(), tight.to_str().unwrap());
    let verdicts = weldbow(&["predict", tight])["verdicts"].clone();
    let sweep = verdicts.as_array().unwrap().iter().find(|v| v["set"] == "own").unwrap();
    assert_eq!(sweep["verdict"], "out", "{sweep}");
    let (value, spread, limit) = (
        sweep["value"].as_f64().unwrap(),
        sweep["value_2s"].as_f64().unwrap(),
        sweep["limit"].as_f64().unwrap(),
    );
    assert!(value.abs() > limit && value.abs() - spread < limit, "{value} ± {spread} against {limit}");
    assert_eq!(status(&["--strict", tight]), Some(3));
    assert_eq!(status(&["--strict", wide]), Some(0));
    assert_eq!(
        status(&["--strict", "0.005", wide]),
        Some(3),
        "some 15 % are out, most of them by their plates"
    );
    assert_eq!(status(&["--strict=0.4", wide]), Some(0));
    assert_eq!(status(&["--strict", "1.5", wide]), Some(2), "no chance");
    assert_eq!(status(&[tight]), Some(0), "unless asked");
}

/// The ± of toes is that of drawn pieces: bias and scatter together, welded from one side (the first three) or from both.
#[test]
fn the_span_of_a_toe_is_that_of_drawn_pieces() {
    for stem in ["rafter", "us_beam", "light", "column"] {
        let job = format!("studies/jobs/{stem}.toml");
        let prediction = weldbow(&["predict", &job]);
        let drawn = weldbow(&["scatter", &job, "--draws", "400", "--pieces", "10"]);
        for flange in ["outer", "inner"] {
            let name = format!("flanges.{flange}.near_toe_mm");
            let sd = with(&drawn["spreads"], "result", &name)["sd"].as_f64().unwrap();
            let of = prediction["flanges"].as_array().unwrap().iter().filter(|f| f["flange"] == flange);
            let far = |f: &&Value| f["near_toe_mm"].as_f64().unwrap().abs();
            let said = of.max_by(|a, b| far(a).total_cmp(&far(b))).unwrap()["toe_2s_mm"].as_f64().unwrap();
            println!("{stem}, {flange}: ± {said:.2} mm said, {:.2} mm drawn", 2.0 * sd);
            // lognormal factors spread a little more than their logarithm
            assert!(
                (said / (2.0 * sd) - 1.0).abs() < 0.3,
                "{stem}, {flange}: {said:.2} against {:.2}",
                2.0 * sd
            );
        }
    }
}

/// The ± of a bow is that of drawn pieces, whether the heat of its beads is stated or follows from a leg that differs from piece to piece.
#[test]
fn the_span_of_a_bow_is_that_of_drawn_pieces() {
    let folder = tempdir().unwrap();
    let beam =
        read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/gallery_beam.toml")).unwrap();
    let leg = "leg = \"5 mm\"\n";
    assert_eq!(beam.matches(leg).count(), 2, "{beam}");
    let stated = beam.replace(leg, &format!("{leg}heat_input = \"0.69 kJ/mm\"\n"));
    for (name, text) in [("by_leg.toml", beam), ("stated.toml", stated)] {
        let job = folder.path().join(name);
        write(&job, text).unwrap();
        let job = job.to_str().unwrap();
        let prediction = weldbow(&["predict", job]);
        let drawn = weldbow(&["scatter", job, "--draws", "400", "--pieces", "10"]);
        for bow in ["camber", "sweep"] {
            let sd = with(&drawn["spreads"], "result", &format!("{bow}.max_mm"))["sd"].as_f64().unwrap();
            let said = prediction[bow]["max_2s_mm"].as_f64().unwrap();
            println!("{name}, {bow}: ± {said:.2} mm said, {:.2} mm drawn", 2.0 * sd);
            // 4000 pieces on 400 draws of the bias
            assert!(
                (said / (2.0 * sd) - 1.0).abs() < 0.06,
                "{name}, {bow}: {said:.2} against {:.2}",
                2.0 * sd
            );
        }
    }
}

/// A rafter whose outer seam is written down in one stretch or in two, and likewise its web.
fn written(folder: &Path, twice: bool) -> PathBuf {
    let text = read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/light.toml")).unwrap();
    let one_web = "web = [{ thickness = \"4 mm\" }]";
    let one_pass = "[[pass]]\nseam = \"outer\"\nside = \"near\"\n";
    assert!(text.contains(one_web) && text.contains(one_pass), "{text}");
    let (web, first) = if twice {
        (
            "web = [{ to = \"2.5 m\", thickness = \"4 mm\" }, { to = \"6 m\", thickness = \"4 mm\" }]",
            "[[pass]]\nseam = \"outer\"\nside = \"near\"\nfrom = \"3 m\"\n",
        )
    } else {
        (one_web, one_pass)
    };
    let mut text = text.replace(one_web, web).replacen(one_pass, first, 1);
    if twice {
        let at = text.find("[[pass]]").unwrap();
        let rest = &text[at + first.len()..];
        let body = rest[..rest.find("[[pass]]").unwrap_or(rest.len())].to_owned();
        text.insert_str(at, &format!("{one_pass}to = \"3 m\"\n{body}"));
    }
    let path = folder.join(if twice { "twice.toml" } else { "once.toml" });
    write(&path, text).unwrap();
    path
}

/// However a bead or a plate is written down, the ± is the same, said and drawn.
#[test]
fn a_bead_in_two_stretches_and_a_web_in_two_plates_spread_no_less() {
    let folder = tempdir().unwrap();
    let spreads = [false, true].map(|twice| {
        let job = written(folder.path(), twice);
        let job = job.to_str().unwrap();
        let prediction = weldbow(&["predict", job]);
        let drawn = weldbow(&["scatter", job, "--draws", "400", "--pieces", "10"]);
        ["camber", "sweep"].map(|bow| {
            let said = prediction[bow]["max_2s_mm"].as_f64().unwrap();
            (said, 2.0 * with(&drawn["spreads"], "result", &format!("{bow}.max_mm"))["sd"].as_f64().unwrap())
        })
    });
    for (bow, (once, twice)) in ["camber", "sweep"].iter().zip(spreads[0].iter().zip(&spreads[1])) {
        println!(
            "{bow}: ± {:.3} said, {:.3} drawn; written twice {:.3}, {:.3}",
            once.0, once.1, twice.0, twice.1
        );
        assert!((twice.0 / once.0 - 1.0).abs() < 1e-6, "{bow}: {once:?}, {twice:?}");
        // 4000 pieces on 400 draws of the bias
        assert!((twice.1 / once.1 - 1.0).abs() < 0.06, "{bow}: {once:?}, {twice:?}");
    }
}
