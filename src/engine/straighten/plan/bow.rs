//! Ways to take a bow away.

use super::price::{Price, fails};
use super::pushes::{pressing, pushes};
use super::{Block, BlockingLimit, Step, StraighteningMethod, Task, Way, Work};
use crate::straighten::decide::Limits;
use crate::straighten::heat::{HeatBlocked, Heating, JackTools, MOST_HEATS, Unfit, heats};
use crate::straighten::press::{Bears, Pads};
use crate::straighten::shape::even_bow;
use crate::tolerance::Quantity;
use crate::units::{Message, Part};

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
) -> Vec<Result<Way, Block>> {
    let strong = quantity == Quantity::Camber;
    let limits = if strong { &task.goals.camber } else { &task.goals.sweep };
    let bow = Bow { task, quantity, offset_mm, limits, strong, ranges };
    let (one, (two, heated)) = rayon::join(
        || bow.pressed(cold, false),
        || rayon::join(|| bow.pressed(cold, true), || bow.heated(heat)),
    );
    vec![one, two, heated]
}

/// The same if less cannot be had: inside the limit, but the chance of being out grows, and the price with it (choice).
const LARGEST_PART: f64 = 0.8;

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
        let wanted = even_bow(&self.task.shape.x_mm, middle);
        self.offset_mm.iter().zip(wanted).map(|(o, wanted)| o - wanted).collect()
    }

    fn target_mm(&self) -> f64 {
        PART_OF_LIMIT * (self.tolerance_mm() - self.limits.guard()).max(0.0)
    }

    /// What a way may leave at most.
    fn enough_mm(&self) -> f64 {
        self.target_mm() / PART_OF_LIMIT * LARGEST_PART
    }

    fn fails(&self, left: f64, sd: f64) -> f64 {
        fails(left, sd.hypot(self.limits.measuring_sd), self.tolerance_mm())
    }

    fn pressed(&self, refused: bool, two: bool) -> Result<Way, Block> {
        let name = pressing(two);
        if refused {
            return Err(Block::refused(name, "cold work"));
        }
        let press = self.task.shop.press.filter(|p| !two || p.rams_apart_mm.is_some());
        let press = press.ok_or_else(|| Block::no_tool(name, "the shop has none", "give press data"))?;
        let excess = self.excess_mm();
        let of = |target_mm| pushes(self.task, &press, (self.strong, two), &excess, target_mm, self.ranges);
        let series = match of(self.target_mm()) {
            Err(block) if block.limit == BlockingLimit::Places => of(self.enough_mm()).map_err(|_| block)?,
            found => found?,
        };
        let fails = self.fails(series.largest_left_mm, series.left_sd_mm);
        let price = Price::pushes(&self.task.shop.rates, series.pushes.len(), fails);
        let steps = series.pushes.into_iter().map(|push| Step {
            number: push.number,
            quantity: self.quantity,
            side: push.layout.from.place(),
            check_after: after_push(push.bent.nominal.mu, push.bent.nominal.strain),
            work: Work::Push(Box::new(push)),
        });
        Ok(Way {
            method: if two { StraighteningMethod::TwoRams } else { StraighteningMethod::OneRam },
            steps: steps.collect(),
            left_mm: series.largest_left_mm,
            left_sd_mm: series.left_sd_mm,
            price,
        })
    }

    fn heated(&self, refused: bool) -> Result<Way, Block> {
        const NAME: &str = "vee heats";
        if refused {
            return Err(Block::refused(NAME, "heat"));
        }
        let none = || Block::no_tool(NAME, "the shop has no torches", "give torch data");
        let tools = self.task.shop.heat.ok_or_else(none)?;
        let most_c = self.task.most_c().ok_or_else(|| Block::no_limit(NAME))?;
        let excess = self.excess_mm();
        let (pads, patch) = self.task.shop.press.map_or((USUAL_PADS, false), |p| (p.pads, p.patch));
        let series = heats(&Heating {
            member: self.task.member,
            x_mm: &self.task.shape.x_mm,
            offset_mm: &excess,
            strong: self.strong,
            target_mm: self.target_mm(),
            enough_mm: self.enough_mm(),
            response: &tools.response,
            most_c,
            jack: JackTools {
                span_mm: tools.jack_span_mm,
                most_n: tools.jack_most_n,
                on: Bears { pads, patch, stiffeners: self.task.stiffeners },
                stands: &|x, pad, face| self.task.bears(x, pad, face),
            },
            in_turn: tools.interleaved,
            free: &|x| self.task.is_free(x, self.strong) && self.task.heat_lies_clear(x),
        });
        let series = series.map_err(|e| heat_block(NAME, e, self.enough_mm()))?;
        let fails = self.fails(series.left_mm, series.left_sd_mm);
        let price =
            Price::heats(&self.task.shop.rates, series.count(), series.waits, series.places.len(), fails);
        Ok(Way {
            method: StraighteningMethod::VeeHeat,
            left_mm: series.left_mm,
            left_sd_mm: series.left_sd_mm,
            price,
            steps: vec![Step {
                number: 1,
                quantity: self.quantity,
                side: series.places.first().map_or("", |p| p.heated.place()),
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

/// Pads under a jack where the shop has no press, mm (choice).
const USUAL_PADS: Pads = Pads { ram_mm: 200.0, support_mm: 200.0, leg_mm: 0.0 };

fn heat_block(name: &'static str, e: HeatBlocked, target_mm: f64) -> Block {
    let (left_mm, what, unfit) = match e {
        HeatBlocked::TooMany { left_mm } => (left_mm, format!("{MOST_HEATS} heats (our limit)"), None),
        HeatBlocked::NoPlaces { left_mm, unfit } => {
            (left_mm, "the places that may be heated".to_owned(), unfit)
        }
    };
    let sizes = [what.into(), Part::Offset(left_mm), Part::Offset(target_mm)];
    let found = Message::of("{} leave {}, at most {} is wanted", sizes);
    let why = unfit.map(|unfit| {
        let (sentence, places) = match unfit {
            Unfit::Supports { x_mm, span_mm } => {
                ("; at {} the jack's supports, {} apart, do not fit on the member", [x_mm, span_mm])
            }
            Unfit::Bearing { x_mm, at_mm } => (
                "; at {} a foot or support of the jack would stand on a splice, on a stretch to keep off or on what is welded there at {}",
                [x_mm, at_mm],
            ),
            Unfit::Short { x_mm, arm_mm } => (
                "; at {} a foot of the jack clear of the heat would stand only {} from its support",
                [x_mm, arm_mm.max(0.0)],
            ),
        };
        Message::of(sentence, places.map(Part::Position))
    });
    let found = why.into_iter().fold(found, Message::then);
    let help = "a jack span that fits, more free places, a measured turn of one heat, or the press";
    Block::new(name, BlockingLimit::Heats, found, help)
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
