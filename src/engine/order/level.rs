//! Levelling: what to pull forward so that no week asks for more hours of press or torch than there are.
//!
//! Work may be done earlier than it is wanted, never later. From the last week back, pieces of the mark with most hours a piece at
//! the tool that is short go to the nearest earlier week in which both tools have room. Expected hours; whole pieces.

use super::Week;
use serde::Serialize;

/// Hours at press and torch.
pub type Hours = [f64; 2];

/// A mark's pieces in one week.
#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    /// Mark.
    pub mark: String,
    /// Pieces.
    pub pieces: u32,
    /// Hours a piece.
    pub each_h: Hours,
}

/// Pieces to be straightened earlier.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PulledForward {
    /// Mark.
    pub mark: String,
    /// Pieces.
    pub pieces: u32,
    /// From the week they are wanted in.
    pub from: Week,
    /// To this one.
    pub to: Week,
}

/// Hours a week is short of after levelling.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Short {
    /// Which week.
    pub week: Week,
    /// Hours at the press beyond those there are.
    pub press_h: f64,
    /// Hours at the torch beyond those there are.
    pub heat_h: f64,
}

/// Weeks levelled.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Levelled {
    /// What to pull forward, the latest week first.
    pub pulls: Vec<PulledForward>,
    /// What is still missing: more hours, another tool, or prevention.
    pub short: Vec<Short>,
}

/// Hours below which a week is not short.
const LEAST_H: f64 = 0.01;

/// Levels weeks in their order against hours of press and torch (None: no end).
///
/// ```
/// use weldbow_engine::order::{Lot, Week, level};
/// let lot = |pieces, h| Lot { mark: "R2".into(), pieces, each_h: [h, 0.0] };
/// let week = |number| Week { year: None, number };
/// let found = level(&[(week(1), vec![lot(2, 1.0)]), (week(2), vec![lot(6, 1.0)])], [Some(4.0), None]);
/// assert_eq!((found.pulls[0].pieces, found.short.len()), (2, 0));
/// ```
pub fn level(weeks: &[(Week, Vec<Lot>)], capacity_h: [Option<f64>; 2]) -> Levelled {
    let mut lots: Vec<Vec<Lot>> = weeks.iter().map(|w| w.1.clone()).collect();
    let sum =
        |lots: &[Lot], tool: usize| lots.iter().map(|l| f64::from(l.pieces) * l.each_h[tool]).sum::<f64>();
    let over = |lots: &[Lot], tool: usize| capacity_h[tool].map_or(0.0, |c| (sum(lots, tool) - c).max(0.0));
    let mut out = Levelled::default();
    for late in (1..weeks.len()).rev() {
        for tool in [0, 1] {
            let mut order: Vec<usize> = (0..lots[late].len()).collect();
            order.sort_by(|a, b| lots[late][*b].each_h[tool].total_cmp(&lots[late][*a].each_h[tool]));
            for k in order {
                for early in (0..late).rev() {
                    let each = lots[late][k].each_h;
                    if each[tool] <= 0.0 || over(&lots[late], tool) <= LEAST_H {
                        break;
                    }
                    let asked = (over(&lots[late], tool) / each[tool]).ceil();
                    let room = [0, 1].map(|t| match capacity_h[t] {
                        Some(c) if each[t] > 0.0 => {
                            ((c - sum(&lots[early], t)).max(0.0) / each[t] + 1e-9).floor()
                        }
                        _ => f64::INFINITY,
                    });
                    let moved = asked.min(room[0]).min(room[1]).min(f64::from(lots[late][k].pieces)) as u32;
                    if moved == 0 {
                        continue;
                    }
                    lots[late][k].pieces -= moved;
                    let lot = Lot { pieces: moved, ..lots[late][k].clone() };
                    out.pulls.push(PulledForward {
                        mark: lot.mark.clone(),
                        pieces: moved,
                        from: weeks[late].0,
                        to: weeks[early].0,
                    });
                    lots[early].push(lot);
                }
            }
        }
    }
    for ((week, _), lots) in weeks.iter().zip(&lots) {
        let (press_h, heat_h) = (over(lots, 0), over(lots, 1));
        if press_h.max(heat_h) > LEAST_H {
            out.short.push(Short { week: *week, press_h, heat_h });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lot(mark: &str, pieces: u32, press: f64, heat: f64) -> Lot {
        Lot { mark: mark.to_owned(), pieces, each_h: [press, heat] }
    }

    fn week(number: u32) -> Week {
        Week { year: None, number }
    }

    #[test]
    fn work_goes_to_the_nearest_earlier_week_with_room_and_what_is_left_is_told() {
        let weeks = [
            (week(1), vec![lot("A", 4, 1.0, 0.0)]),
            (week(2), vec![lot("B", 1, 1.0, 2.0)]),
            (week(3), vec![lot("C", 9, 1.0, 0.0), lot("D", 2, 0.0, 3.0)]),
        ];
        let found = level(&weeks, [Some(5.0), Some(5.0)]);
        println!("{found:?}");
        // press: 9 of 5 in week 3, four of them fit into week 2; torch: 6 of 5, one piece of three hours fits beside two
        assert_eq!(
            found.pulls.iter().map(|p| (p.mark.as_str(), p.pieces, p.to.number)).collect::<Vec<_>>(),
            [("C", 4, 2), ("D", 1, 2)]
        );
        assert!(found.short.is_empty());
        let tight = level(&weeks, [Some(3.0), None]);
        let left: f64 = tight.short.iter().map(|s| s.press_h).sum();
        assert!((left - (14.0 - 9.0)).abs() < 1e-9, "{tight:?}");
        assert!(tight.pulls.iter().all(|p| p.to < p.from), "never later");
    }
}
