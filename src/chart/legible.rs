//! Whether a picture can be read, whoever drew it.

use super::raster::boxes;

/// Width and height written in an SVG, px.
fn size(svg: &str) -> [f32; 2] {
    ["width=\"", "height=\""]
        .map(|key| svg.split_once(key).unwrap().1.split_once('"').unwrap().0.parse().unwrap())
}

/// Every text of it, in the order of drawing.
pub(super) fn texts(svg: &str) -> Vec<String> {
    boxes(svg).0.into_iter().map(|text| text.0).collect()
}

/// What is cut off by the edge of the sheet.
pub(super) fn cut_off(svg: &str) -> Vec<String> {
    let (texts, all) = boxes(svg);
    let [width, height] = size(svg);
    let outside = |b: &[f32; 4]| b[0] < 0.0 || b[1] < 0.0 || b[2] > width || b[3] > height;
    let drawn = texts.into_iter().chain([("all".to_owned(), all)]).filter(|drawn| outside(&drawn.1));
    drawn.map(|(text, b)| format!("{text:?} leaves the sheet, {b:?} of {width} × {height}")).collect()
}

/// Texts whose boxes share a place by more than so many px both ways: nobody can read two words in one place.
pub(super) fn covered(svg: &str, slack: f32) -> Vec<String> {
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
pub(super) fn no_numbers(svg: &str) -> Vec<String> {
    let digit = |rest: &str| rest.starts_with(|c: char| c.is_ascii_digit());
    let hyphen = |text: &str| text.split(' ').any(|word| word.strip_prefix('-').is_some_and(digit));
    let texts = texts(svg).into_iter().filter(|text| hyphen(text) || text.contains("\u{2212}0 "));
    ["NaN", "inf,"].into_iter().filter(|none| svg.contains(none)).map(str::to_owned).chain(texts).collect()
}
