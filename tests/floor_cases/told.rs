//! How a piece and its plan are told: what helps, what comes first, which side.

use super::piece::{Piece, SHOP, STRAIGHT, arc, flat, weldbow};
use tempfile::TempDir;

/// Supports further apart than the member is long were called a help.
#[test]
fn a_block_asks_for_nothing_that_cannot_be() {
    let us = Piece::of("studies/jobs/us_frame.toml", 7.4676);
    let answer = us.json(&arc(12.0, 7.4676), STRAIGHT, &[]);
    let blocks = answer["plan"]["blocked"][0]["blocks"].as_array().unwrap().clone();
    let one = blocks.iter().find(|b| b["method"] == "press, one ram").unwrap();
    println!("{one}");
    let help = one["help"].as_str().unwrap();
    assert!(one["found"].as_str().unwrap().contains("web crippling"), "{one}");
    assert!(help.starts_with("two rams, a stiffener") && !help.contains("apart"), "{one}");
}

/// A piece that is surely out in one way and may be in another was announced by the second alone.
#[test]
fn what_is_surely_out_is_announced_before_what_may_be() {
    let said = flat(&weldbow(&["straighten", "studies/jobs/us_frame.toml", "--shop", SHOP]).stdout);
    assert!(
        said.contains("Straighten camber, and be ready to straighten flange toes with a chance of"),
        "{said}"
    );
    let toes = flat(&weldbow(&["straighten", "studies/jobs/us_beam.toml", "--shop", SHOP]).stdout);
    assert!(
        toes.contains("of cup; still out with a chance of") && toes.contains("its tilt counted in"),
        "{toes}"
    );
}

/// A sign read the wrong way round doubles a bow: the side is told in words before anything is pushed.
#[test]
fn a_bow_is_told_with_its_side() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("sheet.html");
    let more = ["--sheet", path.to_str().unwrap()];
    for (camber, sweep, sides) in [
        (18.0, -18.0, ["18.0 mm toward the inner flange", "\u{2212}18.0 mm toward the far side"]),
        (-18.0, 18.0, ["\u{2212}18.0 mm toward the outer flange", "18.0 mm toward the near side"]),
    ] {
        let said = Piece::rafter().text(&arc(camber, 9.0), &arc(sweep, 9.0), &more);
        let page = std::fs::read_to_string(&path).unwrap();
        for side in sides {
            assert!(said.contains(side) && page.contains(side), "{side}: {said}");
        }
        let edges = if sweep < 0.0 { "Push on the far edges" } else { "Push on the near edges" };
        assert!(said.contains(edges), "{said}");
    }
}

/// Letters of the text were 7 pt, those of the pictures 5 to 6 pt: nobody reads them at arm's length.
#[test]
fn no_letter_on_the_foremans_page_is_smaller_than_eleven_points() {
    /// Between the margins of A4, the narrower of both papers, mm.
    const PAGE_MM: f64 = 190.0;
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("sheet.html");
    let more = ["--sheet", path.to_str().unwrap()];
    Piece::rafter().text(&arc(18.0, 9.0), &arc(-18.0, 9.0), &more);
    let page = std::fs::read_to_string(&path).unwrap();
    let number = |text: &str| -> f64 {
        let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap();
        text[..end].parse().unwrap()
    };
    let after = |text: &str, mark: &str| number(text.split_once(mark).unwrap().1);
    let foreman = page.split_once("page engineer").unwrap().0;
    assert!(after(&page, "body{font:") >= 11.0);
    let sketch_mm = after(&page, ".sketch{max-width:");
    let figures: Vec<&str> = foreman.split("<figure").skip(1).collect();
    for figure in &figures {
        let wide_mm = if figure.starts_with(" class=\"sketch\"") { sketch_mm } else { PAGE_MM };
        let pt_a_unit = wide_mm / 25.4 * 72.0 / after(figure, "viewBox=\"0 0 ");
        let letters = figure.split("font-size=\"").skip(1).map(|text| pt_a_unit * number(text));
        let smallest = letters.fold(f64::INFINITY, f64::min);
        println!("{wide_mm} mm wide, smallest letters {smallest:.1} pt");
        assert!((11.0..20.0).contains(&smallest), "{smallest} pt");
    }
    assert!(figures.len() >= 3, "a sketch and a picture of each step");
}
