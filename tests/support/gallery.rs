//! Pictures beside the kept ones in `plots/`.

#![allow(dead_code, missing_docs)]

use std::fs::{read_to_string, write};
use std::path::Path;
use weldbow::chart::{Picture, png};

/// Coordinates lie on a sheet enlarged ten times; another processor may round one differently.
const COORDINATE: f64 = 2.0;

/// Compares pictures with the kept ones, or keeps them.
pub(crate) fn hold(pictures: impl IntoIterator<Item = (String, Picture)>) {
    let update = std::env::var_os("UPDATE_PLOTS").is_some();
    let mut changed = Vec::new();
    for (name, picture) in pictures {
        let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("plots").join(format!("{name}.svg"));
        if update {
            write(&kept, &picture.svg).unwrap();
            write(kept.with_extension("png"), png(&picture.svg).unwrap()).unwrap();
        } else if !alike(&read_to_string(&kept).unwrap_or_default(), &picture.svg) {
            changed.push(side_by_side(&name, &kept, &picture.svg));
        }
    }
    assert!(changed.is_empty(), "drawn otherwise; old beside new in:\n{}", changed.join("\n"));
}

/// Same text; numbers inside tags may differ by a rounding, labels may not.
pub(crate) fn alike(kept: &str, drawn: &str) -> bool {
    let (a, b) = (pieces(kept), pieces(drawn));
    a.len() == b.len()
        && a.iter().zip(&b).all(|((inside, x), (_, y))| {
            x == y
                || *inside
                    && matches!((x.parse::<f64>(), y.parse::<f64>()), (Ok(p), Ok(q)) if (p - q).abs() <= COORDINATE)
        })
}

/// Cuts SVG text into numbers and the rest; true for what stands inside a tag.
fn pieces(svg: &str) -> Vec<(bool, &str)> {
    let number = |c: char| c.is_ascii_digit() || c == '.' || c == '-';
    let mut out = Vec::new();
    let mut inside = false;
    for part in svg.split_inclusive(['<', '>']) {
        let mut rest = part;
        while let Some(first) = rest.chars().next() {
            let end = rest.find(|c| number(c) != number(first)).unwrap_or(rest.len());
            out.push((inside, &rest[..end]));
            rest = &rest[end..];
        }
        inside = part.ends_with('<');
    }
    out
}

/// Writes the new drawing and a page that shows both; gives the page.
fn side_by_side(name: &str, kept: &Path, drawn: &str) -> String {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let fresh = folder.join(format!("{name}.new.svg"));
    write(&fresh, drawn).unwrap();
    let page = folder.join(format!("{name}.html"));
    let image = |path: &Path| format!("<img width=\"48%\" src=\"{}\">", path.display());
    write(&page, format!("<p>{name}: kept, then drawn now</p>{}{}", image(kept), image(&fresh))).unwrap();
    page.display().to_string()
}
