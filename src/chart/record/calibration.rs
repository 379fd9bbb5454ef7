//! Whether a shop's invented truths lie among the draws as evenly as they should: ranks of one unknown a plot.

use crate::axes::{Panel, Range};
use crate::canvas::{At, BELOW_TITLE, Heading, corners, draw};
use crate::number::number;
use crate::theme::{BLUE, GREY, HEADING, LIMIT, PALE, SMALL, Stroke, ZERO};
use crate::{Done, Picture};

const WIDTH: f64 = 980.0;
/// Plots beside each other.
const ACROSS: usize = 4;
const WIDE: f64 = 206.0;
const TALL: f64 = 120.0;
const GAP: (f64, f64) = (28.0, 58.0);

/// Ranks of one unknown.
#[derive(Debug, Clone, PartialEq)]
pub struct Rank {
    /// What it is.
    pub name: String,
    /// Invented shops whose truth has its rank in each of even bins.
    pub counts: Vec<usize>,
    /// Share of shops whose 90 % band holds the truth.
    pub held: f64,
}

/// A picture of the ranks over so many invented shops.
///
/// # Errors
/// As [`crate::pictures`].
pub fn calibration(ranks: &[Rank], shops: usize) -> Done<Picture> {
    let worst = ranks.iter().map(|r| r.held).fold((1.0_f64, 0.0_f64), |(a, b), h| (a.min(h), b.max(h)));
    let percent = |share: f64| number(100.0 * share, 1);
    let heading = Heading {
        name: "record-calibration",
        job: "",
        what: &format!("Truth among the draws, over {shops} invented shops"),
        subtitle: format!(
            "even bars: honest; the 90 % bands hold the truth in {} % to {} % of the shops",
            percent(worst.0),
            percent(worst.1)
        ),
        description: format!(
            "{} bar charts of ranks with the band that 99 % of even counts lie in.",
            ranks.len()
        ),
    };
    let rows = ranks.len().div_ceil(ACROSS) as f64;
    let height = BELOW_TITLE + 30.0 + rows * (TALL + GAP.1);
    draw(&heading, (WIDTH, height), |paper| {
        for (i, rank) in ranks.iter().enumerate() {
            let (column, row) = ((i % ACROSS) as f64, (i / ACROSS) as f64);
            let left = 36.0 + column * (WIDE + GAP.0);
            let top = BELOW_TITLE + 30.0 + row * (TALL + GAP.1);
            let bins = rank.counts.len() as f64;
            let even = shops as f64 / bins;
            // 99 % of a binomial count, by the normal law
            let band = 2.576 * (even * (1.0 - 1.0 / bins)).sqrt();
            let x = Range::to(bins);
            let y = Range::to((2.0 * even).max(even + 1.5 * band));
            let panel = Panel::new((left, left + WIDE), (top, top + TALL), x, y);
            paper.text((left, top - 12.0), At::Left, &rank.name, HEADING)?;
            let held = format!("{} %", percent(rank.held));
            paper.text((left + WIDE, top - 12.0), At::Right, &held, SMALL)?;
            paper.fill(&corners(panel.at(0.0, even - band), panel.at(bins, even + band)), PALE, 0.8)?;
            for (bin, count) in rank.counts.iter().enumerate() {
                let (x, y) = (bin as f64, *count as f64);
                paper.fill(&corners(panel.at(x + 0.1, 0.0), panel.at(x + 0.9, y)), BLUE, 0.85)?;
            }
            paper.line(&panel.path([(0.0, even), (bins, even)]), Stroke { ink: GREY, ..LIMIT })?;
            paper.line(&panel.path([(0.0, 0.0), (bins, 0.0)]), ZERO)?;
            paper.text((left, panel.bottom + 13.0), At::Left, "below all draws", SMALL)?;
            paper.text((left + WIDE, panel.bottom + 13.0), At::Right, "above", SMALL)?;
        }
        Ok(())
    })
}
