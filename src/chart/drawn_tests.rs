//! What is drawn: checks of the pictures of invented predictions, ordinary and hard ones, and of those kept in `plots/`.

use super::raster::boxes;
use super::{ChartError, Picture, pictures, png, sample, signs};
use std::path::Path;
use weldbow_engine::member::Seam;
use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::units::System;
use weldbow_engine::welding::Side;

/// Width and height written in an SVG, px.
fn size(svg: &str) -> [f32; 2] {
    ["width=\"", "height=\""]
        .map(|key| svg.split_once(key).unwrap().1.split_once('"').unwrap().0.parse().unwrap())
}

/// Every text of it, in the order of drawing.
pub(crate) fn texts(svg: &str) -> Vec<String> {
    boxes(svg).0.into_iter().map(|text| text.0).collect()
}

/// What is cut off by the edge of the sheet.
pub(crate) fn cut_off(svg: &str) -> Vec<String> {
    let (texts, all) = boxes(svg);
    let [width, height] = size(svg);
    let outside = |b: &[f32; 4]| b[0] < 0.0 || b[1] < 0.0 || b[2] > width || b[3] > height;
    let drawn = texts.into_iter().chain([("all".to_owned(), all)]).filter(|drawn| outside(&drawn.1));
    drawn.map(|(text, b)| format!("{text:?} leaves the sheet, {b:?} of {width} × {height}")).collect()
}

/// Texts whose boxes share a place by more than so many px both ways: nobody can read two words in one place.
pub(crate) fn covered(svg: &str, slack: f32) -> Vec<String> {
    let texts = boxes(svg).0;
    let mut wrong = Vec::new();
    for (i, (a, ab)) in texts.iter().enumerate() {
        for (b, bb) in &texts[i + 1..] {
            let shared = |low: usize| ab[low + 2].min(bb[low + 2]) - ab[low].max(bb[low]);
            if shared(0) > slack && shared(1) > slack {
                wrong.push(format!("{a:?} {ab:?} and {b:?} {bb:?}"));
            }
        }
    }
    wrong
}

/// What does not read as a number: none at all, a hyphen for a minus, less than nothing.
pub(crate) fn no_numbers(svg: &str) -> Vec<String> {
    let digit = |rest: &str| rest.starts_with(|c: char| c.is_ascii_digit());
    let hyphen = |text: &str| text.split(' ').any(|word| word.strip_prefix('-').is_some_and(digit));
    let texts = texts(svg).into_iter().filter(|text| hyphen(text) || text.contains("\u{2212}0 "));
    ["NaN", "inf,"].into_iter().filter(|none| svg.contains(none)).map(str::to_owned).chain(texts).collect()
}

fn draw(job: &Job, prediction: &Prediction, system: System) -> Vec<Picture> {
    pictures(job, prediction, system).unwrap()
}

/// The pictures of the usual member.
fn usual() -> Vec<Picture> {
    let job = sample::job();
    draw(&job, &sample::prediction(&job, 7.2, -3.1), System::Si)
}

/// The usual member, and what makes pictures hard.
fn cases() -> Vec<(&'static str, Vec<Picture>)> {
    let job = sample::job();
    let mut long = sample::job();
    long.title = "R2 <b>& \"co\"</b>\u{202e} ".repeat(40);
    let busy = sample::busy_job();
    let us = us_job();
    vec![
        ("usual", usual()),
        ("straight", draw(&job, &sample::prediction(&job, 0.0, 0.0), System::Si)),
        ("long-title", draw(&long, &sample::prediction(&long, 6.0, 2.0), System::Si)),
        ("busy", draw(&busy, &sample::prediction(&busy, -8.4, 4.0), System::Si)),
        ("us", draw(&us, &sample::prediction(&us, -12.0, 0.4), System::Us)),
        ("short", draw(&short_job(), &sample::prediction(&short_job(), 0.2, 55.0), System::Si)),
        ("signs", vec![signs().unwrap()]),
    ]
}

/// 30 ft long, welded from one side at once.
fn us_job() -> Job {
    let text = r#"
units = "us"
tolerances = ["aws-d1.1"]
title = "Rafter R2, riding arena"
[member]
length = "30 ft"
steel = "S355"
depth = [["0 ft", "12 in"], ["10 ft", "24 in"], ["30 ft", "36 in"]]
web = [{ thickness = "3/16 in" }]
outer_flange = [{ width = "8 in", thickness = "3/8 in" }]
inner_flange = [{ width = "8 in", thickness = "3/8 in" }]
"#;
    sample::job_of(text, &[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 1)])
}

/// Deep and short, so that height and not length sets the scale.
fn short_job() -> Job {
    let text = r#"
title = "Rafter R2, riding arena"
tolerances = ["en-1090-2-class-1"]
[member]
length = "2.5 m"
steel = "S355"
depth = [["0 m", "1400 mm"], ["2.5 m", "1400 mm"]]
web = [{ thickness = "8 mm" }]
outer_flange = [{ width = "300 mm", thickness = "25 mm" }]
inner_flange = [{ width = "300 mm", thickness = "25 mm" }]
"#;
    sample::job_of(text, &[(Seam::Outer, Side::Far, 1)])
}

fn has(picture: &Picture, wanted: &str) {
    let texts = texts(&picture.svg);
    assert!(texts.iter().any(|t| t.contains(wanted)), "{}: {wanted:?} not among {texts:?}", picture.name);
}

#[test]
fn every_picture_says_what_it_is_there_for() {
    let [elevation, bow, section, build_up, methods, ..] =
        <[Picture; 5]>::try_from(usual().into_iter().take(5).collect::<Vec<_>>()).unwrap();
    for label in
        ["inner flange 180 × 10 mm", "200 × 14 mm", "400 mm", "start", "camber 7.2 ± 2.2 mm at 4.93 m"]
    {
        has(&elevation, label);
    }
    has(&elevation, "sweep 3.1 ± 0.9 mm at 4.50 m");
    has(&elevation, "bows drawn 50 ×");
    for label in ["limit ±9.0 mm", "EN 1090-2", "band ±2σ", "toward the far side", "7.2 ± 2.2 mm at 4.93 m"]
    {
        has(&bow, label);
    }
    for label in ["x = 2.25 m", "x = 6.75 m", "+1.1", "leg 6 mm", "step 2", "near side", "drawn 20 ×"] {
        has(&section, label);
    }
    for label in ["−5.8 mm", "+7.2 mm", "outer seam, near side", "step 1"] {
        has(&build_up, label);
    }
    for label in
        ["this prediction 7.2 ± 2.2", "weld area form, 0.005 A L² / I", "second author, year (read)", "12.2"]
    {
        has(&methods, label);
    }
}

/// Holds every picture of every case against what may be wrong with it.
fn none(wrong: impl Fn(&str) -> Vec<String>) {
    for (case, pictures) in cases() {
        none_of(case, &pictures, &wrong);
    }
}

/// The same of the pictures of one case.
pub(crate) fn none_of(case: &str, pictures: &[Picture], wrong: impl Fn(&str) -> Vec<String>) {
    for picture in pictures {
        let wrong = wrong(&picture.svg);
        assert!(wrong.is_empty(), "{case} {}: {wrong:?}", picture.name);
    }
}

#[test]
fn nothing_is_drawn_outside_the_picture() {
    none(cut_off);
}

#[test]
fn no_text_covers_another() {
    none(|svg| covered(svg, 0.0));
    none(|svg| if texts(svg).len() > 8 { Vec::new() } else { texts(svg) });
}

#[test]
fn numbers_carry_a_real_minus_and_are_never_nan() {
    none(no_numbers);
}

#[test]
fn the_same_prediction_gives_the_same_bytes() {
    assert!(usual() == usual(), "two drawings of one prediction differ");
}

#[test]
fn a_title_is_escaped_stripped_of_control_characters_and_shortened() {
    let mut job = sample::job();
    job.title = "Frame <3> & \"co\"\n\u{202e}\u{7}".to_owned() + &"long ".repeat(200);
    let picture = &draw(&job, &sample::prediction(&job, 6.0, 2.0), System::Si)[0];
    assert!(picture.svg.contains("<title>Frame &lt;3&gt; &amp; \"co\" long"), "{}", &picture.svg[..400]);
    assert!(!picture.svg.contains(['\u{202e}', '\u{7}']));
    let title = texts(&picture.svg).swap_remove(0);
    assert!(
        title.starts_with("Frame <3>") && title.contains('…') && title.ends_with(": the member and its bow"),
        "{title}"
    );
}

#[test]
fn us_readers_get_no_millimetres() {
    let job = us_job();
    for picture in draw(&job, &sample::prediction(&job, -12.0, 0.4), System::Us) {
        let metric = texts(&picture.svg)
            .into_iter()
            .find(|t| t.split([' ', ',', '.', '(', ')']).any(|w| w == "mm" || w == "m"));
        assert!(metric.is_none(), "{}: {metric:?}", picture.name);
    }
}

#[test]
fn a_straight_member_is_called_straight() {
    let job = sample::job();
    let pictures = draw(&job, &sample::prediction(&job, 0.0, 0.0), System::Si);
    has(&pictures[0], "no camber");
    has(&pictures[0], "no sweep");
    has(&pictures[1], "Camber: none. Sweep: none.");
    has(&pictures[1], "limit ±9.0 mm, off the plot");
}

#[test]
fn a_limit_on_a_wanted_camber_is_drawn_from_it() {
    let job = sample::busy_job();
    let pictures = draw(&job, &sample::prediction(&job, -8.4, 4.0), System::Si);
    has(&pictures[1], "limit 9.0 mm from wanted");
    has(&pictures[1], "wanted camber");
}

#[test]
fn a_result_that_is_no_number_is_refused() {
    let job = sample::job();
    let mut prediction = sample::prediction(&job, 7.2, -3.1);
    prediction.camber.profile[7][1] = f64::NAN;
    assert_eq!(pictures(&job, &prediction, System::Si), Err(ChartError::NotANumber));
}

#[test]
fn a_png_is_twice_the_size_of_its_picture() {
    let bytes = png(&usual()[1].svg).unwrap();
    assert_eq!(&bytes[..8], b"\x89PNG\r\n\x1a\n");
    let at = |i: usize| u32::from_be_bytes(bytes[i..i + 4].try_into().unwrap());
    // 900 by 592 px, with a line for the ±
    assert_eq!((at(16), at(20)), (1800, 1184));
}

/// Text lies in line boxes taller than its letters: so much of two boxes may share a place before letters touch, px.
const SLACK: f32 = 2.0;

/// Nobody can read two words in one place, or one that is cut off by the edge of the sheet.
#[test]
fn no_text_of_a_kept_picture_covers_another_or_leaves_it() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../plots");
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "svg") {
            continue;
        }
        let svg = std::fs::read_to_string(&path).unwrap();
        let here = cut_off(&svg).into_iter().chain(covered(&svg, SLACK));
        wrong.extend(here.map(|wrong| format!("{}: {wrong}", path.display())));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
