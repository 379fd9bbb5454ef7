//! What holds of every picture in `plots/`, whoever drew it.

use super::raster::boxes;
use std::path::Path;

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
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let svg = std::fs::read_to_string(&path).unwrap();
        let size =
            |key: &str| -> f32 { svg.split_once(key).unwrap().1.split_once('"').unwrap().0.parse().unwrap() };
        let (width, height) = (size("width=\""), size("height=\""));
        let texts = boxes(&svg).0;
        for (i, (a, ab)) in texts.iter().enumerate() {
            if ab[0] < 0.0 || ab[1] < 0.0 || ab[2] > width || ab[3] > height {
                wrong.push(format!("{name}: {a:?} leaves the sheet, {ab:?} of {width} × {height}"));
            }
            for (b, bb) in &texts[i + 1..] {
                let shared = |low: usize| ab[low + 2].min(bb[low + 2]) - ab[low].max(bb[low]);
                if shared(0) > SLACK && shared(1) > SLACK {
                    wrong.push(format!("{name}: {a:?} {ab:?} and {b:?} {bb:?}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
