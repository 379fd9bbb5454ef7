//! Pieces as they lie on the floor, one by one: each once got a plan that nobody could or should carry out, or an answer that hurt.
//!
//! Lengths in m and bows in mm; every piece is invented. What is general of them is held for a thousand pieces by `pressing.rs`.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

mod flanges;
mod piece;
mod told;

use piece::{
    Bow, Piece, RAFTER, SHOP, STRAIGHT, arc, flat, kink, number, numbers, root, shop, weldbow, without_press,
    works,
};
use serde_json::Value;
use std::f64::consts::TAU;
use tempfile::TempDir;

/// Vees by the web at mid-length were deeper than the web where they stood, and the jack bent more than it may there.
#[test]
fn a_vee_is_planned_with_the_web_at_its_own_place() {
    let folder = TempDir::new().unwrap();
    let no_press = without_press(folder.path());
    let steep = folder.path().join("steep.toml");
    let column = std::fs::read_to_string(root().join("studies/jobs/column.toml")).unwrap();
    let column = column
        .replace("\"5.4 m\"", "\"6 m\"")
        .replace("\"300 mm\"", "\"250 mm\"")
        .replace("\"800 mm\"", "\"1500 mm\"")
        .replace(
            "[{ to = \"3.6 m\", thickness = \"6 mm\" }, { thickness = \"8 mm\" }]",
            "[{ thickness = \"8 mm\" }]",
        )
        .replace("\"10 mm\"", "\"12 mm\"");
    let (before, rest) = column.split_once("# What the welds carry").unwrap();
    let (_, after) = rest.split_once("# Two 1.6 mm wires").unwrap();
    std::fs::write(&steep, format!("{before}#{after}")).unwrap();
    let steep = steep.to_str().unwrap();
    let us = "studies/jobs/us_frame.toml";
    type Case<'a> = (&'a str, f64, Box<dyn Fn(f64) -> f64>);
    let cases: [Case<'_>; 5] = [
        (RAFTER, 9.0, Box::new(kink(1.5, 10.0, 9.0))),
        (RAFTER, 9.0, Box::new(arc(80.0, 9.0))),
        (us, 7.4676, Box::new(arc(22.86, 7.4676))),
        ("studies/jobs/haunch.toml", 6.2, Box::new(kink(0.95, 12.0, 6.2))),
        (steep, 6.0, Box::new(kink(0.9, 14.0, 6.0))),
    ];
    for (job, length, bow) in cases {
        let depth = weldbow::job::read_path(&root().join(job)).unwrap_or_else(|e| panic!("{e}")).member.depth;
        let answer = Piece::of(job, length).json(&bow, STRAIGHT, &["--shop", &no_press]);
        let places: Vec<&Value> =
            works(&answer, "heats").iter().flat_map(|h| h["places"].as_array().unwrap()).collect();
        for place in &places {
            let (x, deep) = (number(&place["x_mm"]), number(&place["vee"]["depth_mm"]));
            let (web, jack) = (depth.depth_mm(x), number(&place["jack"]["ratio"]));
            println!(
                "{job}: vee of {deep:.0} mm in a web of {web:.0} mm at {x:.0} mm, jack at {jack:.3} of M_p"
            );
            assert!(deep <= 0.75 * web + 1e-6 && jack <= 0.25 + 1e-9);
            let [a, b] = numbers(&place["jack"]["supports_mm"])[..] else { panic!("{place}") };
            assert!(a >= 0.0 && b <= 1e3 * length, "jack off the member");
            // its feet are clear of the strip that is heated
            let base = number(&place["vee"]["base_mm"]);
            assert!(numbers(&place["jack"]["feet_mm"]).iter().all(|f| (f - x).abs() > 0.5 * base + 100.0));
        }
        if places.is_empty() {
            let blocked = &answer["plan"]["blocked"][0]["blocks"];
            println!("{job}: {blocked}");
            assert!(blocked.as_array().unwrap().iter().any(|b| b["method"] == "vee heats"));
        }
    }
}

/// Both bows at once: a ram stood 10 mm from a support, and one travel was told for two rams that went 81 and 0.6 mm.
#[test]
fn rams_stand_clear_of_supports_and_each_has_its_travel() {
    let answer = Piece::rafter().json(&arc(18.0, 9.0), &arc(-25.0, 9.0), &[]);
    let early = Piece::rafter().json(STRAIGHT, &kink(1.0, 20.0, 9.0), &[]);
    for push in works(&answer, "push").into_iter().chain(works(&early, "push")) {
        let supports = numbers(&push["layout"]["supports_mm"]);
        let rams = match &push["layout"]["rams"] {
            one if one.get("one").is_some() => vec![number(&one["one"])],
            two => numbers(&two["two"]),
        };
        println!("rams {rams:.0?}, supports {supports:.0?}, travels {}", push["travels_mm"]);
        assert!(rams[0] - supports[0] > 350.0 && supports[1] - rams[rams.len() - 1] > 350.0);
        let travels = numbers(&push["travels_mm"]);
        assert_eq!(travels.len(), rams.len());
        let springback = number(&push["elastic_mm_per_n"]) * number(&push["bent"]["nominal"]["force_n"]);
        // between two rams a dial reads more than either of them goes
        assert!(travels.iter().all(|t| *t > 0.0) && (rams.len() == 2 || springback < travels[0]));
    }
    let said = Piece::rafter().text(STRAIGHT, &kink(1.0, 20.0, 9.0), &[]);
    assert!(!said.contains("is not between the supports"), "an inner failure is no reason: {said}");
}

/// 14 mm read from 2 to 7 m only was taken for 4 mm; millimetres under a head in metres, and metres under one in millimetres, too.
#[test]
fn readings_that_are_not_those_of_the_member_are_never_accepted() {
    let bow = arc(14.0, 9.0);
    let part = Piece { read: [2.0, 7.0], stations: 5, ..Piece::rafter() };
    let said = part.refused(STRAIGHT, &bow);
    assert!(said.contains("end"), "{said}");
    let places = Piece { head: "x [mm], camber [mm], sweep [mm]", ..Piece::rafter() };
    println!("{}\n{}", said, places.refused(STRAIGHT, &bow));
    let small = Piece::rafter().refused(&|x| arc(18.0, 9.0)(x) / 1e3, STRAIGHT);
    println!("{small}");
    let large = Piece { head: "x [m], camber [m], sweep [mm]", ..Piece::rafter() };
    let large = large.refused(&arc(18.0, 9.0), STRAIGHT);
    assert!(large.contains("camber"), "{large}");
    let three = Piece { stations: 2, ..Piece::rafter() }.refused(STRAIGHT, &bow);
    assert!(three.contains("station"), "{three}");
}

#[test]
fn an_outlier_is_asked_about_by_its_place() {
    for odd in [18.0, -100.0] {
        let piece = Piece { stations: 9, ..Piece::rafter() };
        let said =
            piece.refused(STRAIGHT, &|x| if (x - 4.0).abs() < 0.01 { odd } else { arc(-12.0, 9.0)(x) });
        println!("{said}");
        assert!(said.contains("at 4.00 m"), "{said}");
    }
}

/// A record that says half of the pieces are out stood under a headline that there was nothing to get ready for.
#[test]
fn a_record_counts_before_the_model() {
    let record = ["--note", "sweep record: mean -9.1 mm, scatter 2.9 mm, 30 pieces"];
    let output = weldbow(&[&["straighten", RAFTER, "--shop", SHOP][..], &record].concat());
    let said = flat(&output.stdout);
    println!("{said}");
    assert!(!said.contains("Nothing to get ready for"), "{said}");
    assert!(said.contains("Be ready to straighten") && said.contains("by your record"), "{said}");
    assert!(!said.contains("web cut to the opposite bow"), "no web ordinate takes a sweep away: {said}");
    let json = weldbow(&[&["straighten", RAFTER, "--shop", SHOP, "--json"][..], &record].concat());
    let json: Value = serde_json::from_slice(&json.stdout).unwrap();
    let out = number(&json["recorded"][0]["out"]);
    println!("out by the record {out:.3}");
    assert!((0.4..0.6).contains(&out));
    // a piece inside what the record says is no riddle; neither is a straight one
    let own = ["--note", "sweep record: mean 6 mm, scatter 4 mm, 30 pieces"];
    let near = Piece::rafter().text(STRAIGHT, &arc(14.0, 9.0), &own);
    let straight = Piece::rafter().text(STRAIGHT, STRAIGHT, &own);
    assert!(
        !near.contains("three deviations") && !straight.contains("three deviations"),
        "{near}\n{straight}"
    );
    assert!(near.contains("STRAIGHTEN"), "{near}");
}

/// Plates, cutting and assembly bow millimetres: a chance says that they are in it, and what it would be without them.
#[test]
fn chances_say_what_they_take_in() {
    let said = flat(&weldbow(&["straighten", RAFTER, "--shop", SHOP]).stdout);
    assert!(
        said.contains("from welding, plates and assembly")
            && said.to_lowercase().contains("from welding alone"),
        "{said}"
    );
    let order = flat(&weldbow(&["order", RAFTER, "--shop", SHOP]).stdout);
    assert!(
        order.contains("from welding, plates and assembly")
            && order.to_lowercase().contains("from welding alone"),
        "{order}"
    );
}

/// The longest span was always taken, where the same slip in yield strength costs most.
#[test]
fn the_shortest_span_that_holds_is_taken() {
    let answer = Piece::rafter().json(STRAIGHT, &arc(18.0, 9.0), &[]);
    let pushes = works(&answer, "push");
    assert!(!pushes.is_empty());
    for push in pushes {
        let supports = numbers(&push["layout"]["supports_mm"]);
        let (low, high) = (number(&push["bent"]["set_mm"]["low"]), number(&push["bent"]["set_mm"]["high"]));
        let wanted = number(&push["bent"]["nominal"]["set_mm"]);
        println!("span {:.0}, set {low:.1} to {high:.1} of {wanted:.1} mm", supports[1] - supports[0]);
        assert!(supports[1] - supports[0] <= 4000.0 && high < 2.0 * wanted);
    }
}

/// Eight heats at two places left 3.5 mm; spread along the bow they leave less, and no place is heated again before all are cold.
#[test]
fn heats_are_spread_along_the_bow() {
    let folder = TempDir::new().unwrap();
    let no_press = without_press(folder.path());
    let answer = Piece::rafter().json(&arc(18.0, 9.0), STRAIGHT, &["--shop", &no_press]);
    let heats = works(&answer, "heats")[0];
    let places = heats["places"].as_array().unwrap();
    let count: f64 = places.iter().map(|p| number(&p["heats"])).sum();
    println!("{count} heats at {} places leave {}", places.len(), heats["left_mm"]);
    assert!(places.iter().all(|p| number(&p["heats"]) <= 2.0) && count <= 2.0 * places.len() as f64);
    assert!(places.len() >= 4 && number(&heats["left_mm"]) < 3.5);
    let said = Piece::rafter().text(&arc(18.0, 9.0), STRAIGHT, &["--shop", &no_press]);
    for word in [
        "Hold points",
        "Set the jack before the flame",
        "jacks off first",
        "No foot or block on hot steel",
        "wedges",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
}

#[test]
fn an_s_is_pushed_from_both_sides() {
    let (s, of_beam) = (|x: f64| 14.0 * (TAU * x / 9.0).sin(), |x: f64| 22.0 * (TAU * x / 12.0).sin());
    let beam = Piece::of("studies/jobs/gallery_beam.toml", 12.0);
    for (piece, camber, sweep) in
        [(Piece::rafter(), STRAIGHT, &s as Bow<'_>), (beam, &of_beam as Bow<'_>, STRAIGHT)]
    {
        let answer = piece.json(camber, sweep, &[]);
        let mut sides: Vec<String> = Vec::new();
        for push in works(&answer, "push") {
            sides.push(push["layout"]["from"].as_str().unwrap().to_owned());
        }
        for heats in works(&answer, "heats") {
            let places = heats["places"].as_array().unwrap();
            sides.extend(places.iter().map(|p| p["heated"].as_str().unwrap().to_owned()));
        }
        println!("{sides:?}");
        assert!(!sides.is_empty() && sides.iter().any(|s| *s != sides[0]), "{}", answer["plan"]["blocked"]);
    }
}

/// Toes half a millimetre to one and a half out are the daily work of rollers; all or nothing blocked them.
#[test]
fn a_toe_a_little_out_is_bent_to_inside_its_limit() {
    for toe in [4.0, 4.5] {
        let piece = Piece::rafter();
        let folder = TempDir::new().unwrap();
        let mut text: String = piece.front.iter().map(|note| format!("# {note}\n")).collect();
        text += "x [m], camber [mm], sweep [mm], outer near toe [mm], outer far toe [mm]\n";
        for i in 0..=18 {
            text += &format!("{:.2}, 0, 0, {toe}, {toe}\n", 0.5 * f64::from(i));
        }
        let path = folder.path().join("toes.csv");
        std::fs::write(&path, text).unwrap();
        let output =
            weldbow(&["straighten", RAFTER, "--shop", SHOP, "--json", "--measured", path.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(0), "{}", flat(&output.stderr));
        let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
        let toes =
            answer["plan"]["chosen"].as_array().unwrap().iter().find(|c| c["quantity"] == "flange_toe");
        let way = &toes.unwrap_or_else(|| panic!("{}", answer["plan"]["blocked"]))["way"];
        println!("{toe} mm: {}, leaves {}", way["method"], way["left_mm"]);
        assert!(number(&way["left_mm"]) > 0.0 && number(&way["left_mm"]) < 3.0);
    }
}

#[test]
fn the_steel_is_asked_for_and_what_was_used_is_printed() {
    let piece = Piece { front: vec!["measurements: 2", "readings: checked"], ..Piece::rafter() };
    let folder = TempDir::new().unwrap();
    let said = piece.text(&arc(18.0, 9.0), STRAIGHT, &["--shop", &without_press(folder.path())]);
    assert!(said.contains("delivery") && said.contains("this shop cannot straighten it"), "{said}");
    let said = Piece::rafter().text(STRAIGHT, &arc(18.0, 9.0), &[]);
    assert!(said.contains("355 MPa"), "yield used: {said}");
}

/// Both flanges were to share a ram evenly; the smaller one would have folded.
#[test]
fn a_sweep_push_on_unlike_flanges_tells_its_height() {
    let answer = Piece::rafter().json(STRAIGHT, &arc(-25.0, 9.0), &[]);
    let depth = weldbow::job::read_path(&root().join(RAFTER)).unwrap_or_else(|e| panic!("{e}")).member.depth;
    let pushes = works(&answer, "push");
    assert!(!pushes.is_empty());
    for push in &pushes {
        let height = number(&push["ram_height_mm"]);
        println!("ram {} at {height:.0} mm from the outer flange", push["layout"]["rams"]);
        assert!(height > 0.0 && height < depth.deepest_mm());
    }
    let said = Piece::rafter().text(STRAIGHT, &arc(-25.0, 9.0), &[]);
    assert!(said.contains("shear centre"), "{said}");
}

/// Stiffeners could only be kept off, though they are where one pushes on a thin web.
#[test]
fn a_stiffener_may_be_pushed_on() {
    let folder = TempDir::new().unwrap();
    let weak = shop(folder.path(), |text| text.replace("ram_pad = \"250 mm\"", "ram_pad = \"100 mm\""));
    let ask = |more: &[&str]| {
        let more = [&["--shop", weak.as_str()][..], more].concat();
        Piece::of("studies/jobs/gallery_beam.toml", 12.0).json(&arc(24.0, 12.0), STRAIGHT, &more)
    };
    let on = ask(&["--note", "stiffener at: 2 m, 4 m, 6 m, 8 m, 10 m; 80 mm x 10 mm"]);
    let worst: Vec<&str> = works(&on, "push").iter().filter_map(|p| p["worst"]["what"].as_str()).collect();
    println!("with stiffeners: {worst:?}; without: {}", works(&ask(&[]), "push").len());
    assert!(!works(&on, "push").is_empty(), "{}", on["plan"]["blocked"]);
}

/// "Supports about 8.85 m apart or more" were to help a press of 8 m, on a member of 9 m, pushed at 2.4 m: 4.9 m fit there.
#[test]
fn wider_supports_are_offered_only_where_they_fit() {
    let folder = TempDir::new().unwrap();
    let weak = shop(folder.path(), |text| text.replace("ram_pad = \"250 mm\"", "ram_pad = \"60 mm\""));
    let mut plates = 0;
    for at in [1.8, 2.4, 3.0, 4.5] {
        let said = Piece::rafter().text(&kink(at, 12.0, 9.0), STRAIGHT, &["--shop", &weak]);
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        plates += said.matches("spreader at the bearing").count();
        for offered in said.split("supports about ").skip(1) {
            let span: f64 = offered.split(' ').next().unwrap().parse().unwrap();
            println!("a kink at {at} m: {span} m offered");
            assert!(span <= 8.0 && (at > 2.5 || span <= 2.0 * at + 0.6), "{span} m about {at} m");
        }
    }
    assert!(plates > 0, "nothing compared");
}

/// Sixteenths of an inch were half of the wanted set.
#[test]
fn american_travels_are_told_finely_enough_to_be_driven() {
    let said = Piece::of("studies/jobs/us_frame.toml", 7.4676).text(STRAIGHT, &arc(20.0, 7.4676), &[]);
    assert!(!said.contains("/16 in"), "{said}");
}

/// A haunch of many splices: that none of the places left is enough is said with what takes them away.
#[test]
fn a_block_says_what_takes_the_places_away() {
    let haunch = Piece::of("studies/jobs/haunch.toml", 6.2);
    let said = haunch.text(&arc(13.6, 6.2), STRAIGHT, &[]);
    assert!(said.contains("a depth or more from ends and splices"), "{said}");
    assert!(said.contains("this shop cannot straighten it"), "{said}");
}

/// A sweep push bends flanges, not the depth: a depth of 1.2 m off every splice left the haunch no place at all.
#[test]
fn a_sweep_of_a_deep_member_is_pushed_half_a_metre_off_its_splices() {
    let answer = Piece::of("studies/jobs/haunch.toml", 6.2).json(STRAIGHT, &arc(13.6, 6.2), &[]);
    let pushes = works(&answer, "push");
    assert!(!pushes.is_empty(), "{}", answer["plan"]["blocked"]);
    for push in pushes {
        let kink = number(&push["bent"]["nominal"]["kink_at_mm"]);
        let gap = [2400.0, 3000.0, 4400.0]
            .map(|splice: f64| (kink - splice).abs())
            .into_iter()
            .fold(f64::MAX, f64::min);
        println!("bends at {kink:.0} mm, {gap:.0} mm from the nearest splice");
        // the bend may come a hundredth of the span beside the place
        assert!(gap > 500.0 - 40.0, "{push}");
    }
}

/// With a tight limit two rams were blocked by a member that "yields at 6.00 m, not where it is pushed", pushed at 6.00 m.
#[test]
fn a_bend_spread_by_two_rams_is_not_called_a_yield_elsewhere() {
    let folder = TempDir::new().unwrap();
    let tight = folder.path().join("tight.toml");
    let job = std::fs::read_to_string(root().join("studies/jobs/gallery_beam.toml")).unwrap();
    std::fs::write(&tight, format!("{job}\n[limits]\nsweep = \"L/5000\"\n")).unwrap();
    let answer = Piece::of(tight.to_str().unwrap(), 12.0).json(STRAIGHT, &kink(6.0, 5.0, 12.0), &[]);
    let said = answer["plan"].to_string();
    println!("{}", answer["plan"]["chosen"][0]["blocked"]);
    assert!(said.contains("the bend is spread over too great a length for this shape"), "{said}");
    assert!(!said.contains("the member yields at"), "{said}");
}

/// The foreman's page: the piece by its name, what a first heat should take off the bow, room for the toes after rollers.
#[test]
fn the_sheet_names_the_piece_and_what_to_read() {
    let folder = TempDir::new().unwrap();
    let no_press = without_press(folder.path());
    let path = folder.path().join("sheet.html");
    let mut piece = Piece::rafter();
    piece.front.push("piece: R2-07");
    let more = ["--shop", no_press.as_str(), "--sheet", path.to_str().unwrap()];
    let output = piece.asked(&arc(18.0, 9.0), STRAIGHT, &more);
    assert_eq!(output.status.code(), Some(0), "{}", flat(&output.stderr));
    let page = std::fs::read_to_string(&path).unwrap();
    assert!(page.contains("<td>R2-07</td>") && page.contains("Agreed by the engineer"), "{page}");
    let answer = piece.json(&arc(18.0, 9.0), STRAIGHT, &["--shop", &no_press]);
    let places = works(&answer, "heats")[0]["places"].as_array().unwrap().clone();
    let first = places.iter().find(|p| p["turn"] == 1).unwrap();
    // a turn φ at x takes φ·x(L − x)/L off the bow there
    let x = number(&first["x_mm"]);
    let by_hand = number(&first["rotation_rad"]) * x * (9000.0 - x) / 9000.0;
    println!("{:.3} mm, {by_hand:.3} by hand", number(&first["off_the_bow_mm"]));
    assert!((number(&first["off_the_bow_mm"]) - by_hand).abs() < 1e-9);
    assert!(page.contains(&format!("about {by_hand:.1} mm less is expected")), "{page}");
    // head and picture of a step stay on one sheet of paper, and what a table says is not said twice
    assert!(page.contains(".step{break-inside:avoid") && !page.contains("Push 2, from the new rest: stop"));
}
