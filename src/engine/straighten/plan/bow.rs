//! Ways to take a bow away.

use super::price::{Price, fails};
use super::pushes::series;
use super::{Block, Limit, Method, Step, Task, Way, Work};
use crate::straighten::decide::Limits;
use crate::straighten::heat::{Blocked, heats, most_c};
use crate::straighten::press::{Layout, Pads, PushFrom, checks};
use crate::tolerance::Quantity;
use crate::units::Said;

/// Part of what the limit less the guard band leaves that the plan itself may use up (choice; the rest is for scatter).
const PART_OF_LIMIT: f64 = 0.5;

/// Every way for one bow, offsets in mm at the stations, and every block; `refused`: cold work and heat; without `ranges`
/// for counting only.
pub(super) fn ways(
    task: &Task<'_>,
    quantity: Quantity,
    offset_mm: &[f64],
    [cold, heat]: [bool; 2],
    ranges: bool,
) -> (Vec<Way>, Vec<Block>) {
    let (mut ways, mut blocks) = (Vec::new(), Vec::new());
    let strong = quantity == Quantity::Camber;
    let limits = if strong { &task.goals.camber } else { &task.goals.sweep };
    let bow = Bow { task, quantity, offset_mm, limits, strong, ranges };
    let (one, (two, heated)) = rayon::join(
        || bow.pressed(cold, false),
        || rayon::join(|| bow.pressed(cold, true), || bow.heated(heat)),
    );
    for one in [one, two, heated] {
        match one {
            Ok(way) => ways.push(way),
            Err(block) => blocks.push(block),
        }
    }
    (ways, blocks)
}

struct Bow<'a> {
    task: &'a Task<'a>,
    quantity: Quantity,
    offset_mm: &'a [f64],
    limits: &'a Limits,
    strong: bool,
    ranges: bool,
}

impl Bow<'_> {
    fn tolerance_mm(&self) -> f64 {
        0.5 * (self.limits.highest - self.limits.lowest)
    }

    /// Offsets from the middle of the limits: what is to be taken away.
    fn excess_mm(&self) -> Vec<f64> {
        let middle = 0.5 * (self.limits.highest + self.limits.lowest);
        let x = &self.task.shape.x_mm;
        let (from, to) = (x.first().copied().unwrap_or(0.0), x.last().copied().unwrap_or(1.0));
        x.iter()
            .zip(self.offset_mm)
            .map(|(x, o)| {
                let s = (x - from) / (to - from);
                o - middle * 4.0 * s * (1.0 - s)
            })
            .collect()
    }

    fn target_mm(&self) -> f64 {
        PART_OF_LIMIT * (self.tolerance_mm() - self.limits.guard()).max(0.0)
    }

    fn fails(&self, left: f64, sd: f64) -> f64 {
        fails(left, sd.hypot(self.limits.measuring_sd), self.tolerance_mm())
    }

    fn pressed(&self, refused: bool, two: bool) -> Result<Way, Block> {
        let name = if two { "press, two rams" } else { "press, one ram" };
        if refused {
            return Err(Block::new(name, Limit::Refused, "cold work is refused", "see the refusals"));
        }
        let press = self.task.shop.press.filter(|p| !two || p.rams_apart_mm.is_some());
        let Some(press) = press else {
            return Err(Block::new(name, Limit::NoTool, "the shop has none", "give press data"));
        };
        let excess = self.excess_mm();
        let series = series(self.task, &press, (self.strong, two), &excess, self.target_mm(), self.ranges)?;
        let price = Price::pushes(
            &self.task.shop.rates,
            series.pushes.len(),
            self.fails(series.largest_left_mm, series.left_sd_mm),
        );
        let steps = series.pushes.into_iter().map(|push| Step {
            number: push.number,
            quantity: self.quantity,
            side: push.layout.from.place(),
            check_after: after_push(push.bent.nominal.mu, push.bent.nominal.strain),
            work: Work::Push(Box::new(push)),
        });
        Ok(Way {
            method: if two { Method::TwoRams } else { Method::OneRam },
            steps: steps.collect(),
            left_mm: series.largest_left_mm,
            left_sd_mm: series.left_sd_mm,
            price,
        })
    }

    /// What the plates under a jack midway between supports and over these stand, N; pads as those of the press, or 200 mm.
    fn stands_n(&self, span_mm: f64, from: PushFrom) -> f64 {
        const USUAL: Pads = Pads { ram_mm: 200.0, support_mm: 200.0, leg_mm: 0.0 };
        let member = self.task.member;
        let (pads, patch) = self.task.shop.press.map_or((USUAL, false), |p| (p.pads, p.patch));
        let layout = Layout::centred(0.5 * member.length_mm, span_mm.min(member.length_mm), from);
        // every check grows with the force
        let worst =
            checks(member, &layout, pads, 1.0, patch).into_iter().map(|c| c.ratio).fold(0.0, f64::max);
        if worst > 0.0 { 1.0 / worst } else { f64::INFINITY }
    }

    fn heated(&self, refused: bool) -> Result<Way, Block> {
        const NAME: &str = "vee heats";
        if refused {
            return Err(Block::new(NAME, Limit::Refused, "heat is refused", "see the refusals"));
        }
        let Some(tools) = self.task.shop.heat else {
            return Err(Block::new(NAME, Limit::NoTool, "the shop has no torches", "give torch data"));
        };
        let Some(most) = most_c(self.task.situation.delivery) else {
            return Err(Block::new(
                NAME,
                Limit::Refused,
                "no temperature limit is known",
                "the steel maker's limit",
            ));
        };
        let excess = self.excess_mm();
        let peak = excess.iter().copied().fold(0.0, |m: f64, v| if v.abs() > m.abs() { v } else { m });
        let bow: Vec<f64> = excess.iter().map(|o| o * peak.signum()).collect();
        let from = PushFrom::against(peak, self.strong);
        let free = |x: f64| self.task.is_free(x);
        let found = heats(
            self.task.member,
            &self.task.shape.x_mm,
            &bow,
            from,
            self.target_mm(),
            &tools.response,
            most,
            tools.jack_span_mm,
            tools.jack_most_n.min(self.stands_n(tools.jack_span_mm, from)),
            &free,
        );
        let series = found.map_err(|e| {
            let found = match e {
                Blocked::NoPlaces { left_mm } => {
                    Said::from("no free places leave less than ").offset(left_mm)
                }
                _ => Said::from(e.to_string()),
            };
            Block::new(NAME, Limit::Heats, found, "more free places, a measured rotation, or press")
        })?;
        let fails = self.fails(series.left_mm, series.left_sd_mm);
        let price = Price::heats(
            &self.task.shop.rates,
            series.count(),
            series.places.len(),
            tools.interleaved,
            fails,
        );
        Ok(Way {
            method: Method::VeeHeat,
            left_mm: series.left_mm,
            left_sd_mm: series.left_sd_mm,
            price,
            steps: vec![Step {
                number: 1,
                quantity: self.quantity,
                side: from.place(),
                work: Work::Heats(series),
                check_after: vec![
                    "every heat: temperature 5–10 s after the flame, and the log",
                    "the bow when cold, after each round of places",
                    "weld toes near the heats for cracks (MT or PT)",
                    "length and hole positions",
                ],
            }],
        })
    }
}

/// Strain from which the welds nearby are tested (choice).
const TEST_STRAIN: f64 = 0.01;
/// Curvature ratio from which they are.
const TEST_MU: f64 = 5.0;

fn after_push(mu: f64, strain: f64) -> Vec<&'static str> {
    let mut out = vec![
        "the bow, released",
        "web and flange under ram and supports for dents",
        "flange toes and the other bow",
    ];
    if mu > TEST_MU || strain > TEST_STRAIN {
        out.push("welds within two depths for cracks (MT or PT)");
    }
    out
}
