//! Drawn pieces of an option: how likely one is inside every tolerance, by [`out_at_most`].

use super::constraints::Constraints;
use crate::prediction::Job;
use crate::scatter::{Draws, OutOfLimits, out_at_most};
use crate::tolerance::{Quantity, Verdict};
use std::collections::BTreeMap;

/// So much of a piece is none.
const HAIR: f64 = 1e-6;

/// What drawn pieces say.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize)]
pub struct DrawnChances {
    /// Part of the pieces inside every tolerance.
    pub inside: f64,
    /// Standard error of that part.
    pub standard_error: f64,
    /// Pieces drawn.
    pub drawn: usize,
    /// Part of the pieces outside, by quantity judged.
    pub outside: BTreeMap<&'static str, f64>,
    /// The same in the order of [`Quantity::ALL`].
    #[serde(skip)]
    pub out_of: [f64; Quantity::ALL.len()],
}

/// Draws as many of the bias as wished. What the shop makes up for is taken off every piece alike.
pub fn pieces(job: &Job, verdicts: &[Verdict], wishes: &Constraints) -> DrawnChances {
    until(job, verdicts, wishes, 0.0)
}

/// The same, but no further than it takes to know that fewer than that part of the pieces are inside.
pub(crate) fn until(job: &Job, verdicts: &[Verdict], wishes: &Constraints, inside: f64) -> DrawnChances {
    let draws = Draws { bias: wishes.draws.max(2), ..Draws::USUAL };
    let most = (1.0 - inside) * draws.count() as f64 + HAIR;
    match out_at_most(job, verdicts, draws, |v| wishes.met(v), most.max(0.0) as usize) {
        Ok(found) => DrawnChances::of(&found),
        Err(_) => DrawnChances::none(),
    }
}

/// A part in percent, with as many decimals, those or more, as tell it from the part that is asked for.
pub(super) fn apart(part: f64, asked: f64, decimals: usize) -> String {
    let said = |part: f64, decimals: usize| format!("{:.decimals$}", 100.0 * part);
    let tells = |decimals: &usize| said(part, *decimals) != said(asked, *decimals);
    said(part, (decimals..decimals + 4).find(tells).unwrap_or(decimals))
}

/// A part inside as percents are said: one that is not enough does not read as what is asked for.
pub fn said_inside(inside: f64, asked: f64, percent: fn(f64) -> String) -> String {
    let said = percent(inside);
    if inside < asked && said == percent(asked) { format!("{} %", apart(inside, asked, 0)) } else { said }
}

impl DrawnChances {
    /// The part inside as percents are said: none drawn is a dash.
    pub fn said(&self, asked: f64, percent: fn(f64) -> String) -> String {
        if self.drawn == 0 { "–".to_owned() } else { said_inside(self.inside, asked, percent) }
    }

    /// Where none can be drawn.
    pub(super) fn none() -> Self {
        Self { standard_error: 1.0, out_of: [1.0; Quantity::ALL.len()], ..Self::default() }
    }

    fn of(found: &OutOfLimits) -> Self {
        let any = found.any();
        let out_of = Quantity::ALL.map(|q| found.of(|of| of == q).chance);
        let outside = Quantity::ALL.into_iter().map(Quantity::key).zip(out_of);
        Self {
            inside: 1.0 - any.chance,
            standard_error: any.standard_error,
            drawn: found.drawn,
            outside: outside.filter(|(_, part)| *part > 0.0).collect(),
            out_of,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::apart;

    /// 1842 of 2048 pieces are 89.94 %, which is not the 90 % that are asked for.
    #[test]
    fn a_part_that_is_not_enough_does_not_read_as_what_is_asked() {
        assert_eq!(apart(0.876, 0.90, 1), "87.6");
        assert_eq!(apart(1842.0 / 2048.0, 0.90, 0), "89.9");
        assert_eq!(apart(0.8996, 0.90, 1), "89.96");
        assert_eq!(apart(0.9, 0.90, 0), "90");
    }
}
