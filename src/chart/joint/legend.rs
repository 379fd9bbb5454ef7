//! What the shades mean: a bar of equal boxes with the limits between them.

use super::bands::Bands;
use crate::Done;
use crate::canvas::{At, Canvas, corners};
use crate::number::number;
use crate::theme::{HEADING, LABEL, THIN, ZERO};

/// Width of the bar, px.
const WIDE: f64 = 18.0;
/// Tallest box, px.
const BOX: f64 = 34.0;

/// A bar under its name, from `top` to at most `bottom`, px. `shown` turns a limit into the number to write; the highest
/// box may have a word beside it.
pub(super) fn legend(
    paper: &Canvas<'_>,
    bands: &Bands,
    (left, top, bottom): (f64, f64, f64),
    name: &str,
    shown: impl Fn(f64) -> f64,
    highest: &str,
) -> Done {
    paper.text((left, top), At::Left, name, HEADING)?;
    let top = top + 18.0;
    let count = bands.inks.len() as f64;
    let tall = ((bottom - top) / count).min(BOX);
    let bottom = top + tall * count;
    for (k, ink) in bands.inks.iter().enumerate() {
        let low = bottom - tall * k as f64;
        paper.fill(&corners((left, low), (left + WIDE, low - tall)), *ink, 1.0)?;
    }
    paper.outline(&corners((left, top), (left + WIDE, bottom)), THIN)?;
    for (k, limit) in bands.limits.iter().enumerate() {
        let y = bottom - tall * (k + 1) as f64;
        paper.line(&[(left + WIDE, y), (left + WIDE + 5.0, y)], ZERO)?;
        paper.text((left + WIDE + 9.0, y), At::Left, &number(shown(*limit), 0), LABEL)?;
    }
    if !highest.is_empty() {
        paper.text((left + WIDE + 9.0, top + 0.5 * tall - 4.0), At::Left, highest, LABEL)?;
    }
    Ok(())
}
