//! What holds of every picture in `plots/`, whoever drew it.

use super::legible::{covered, cut_off};
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
        let svg = std::fs::read_to_string(&path).unwrap();
        let here = cut_off(&svg).into_iter().chain(covered(&svg, SLACK));
        wrong.extend(here.map(|wrong| format!("{}: {wrong}", path.display())));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
