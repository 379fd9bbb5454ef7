//! The pushes that take a bow away, or the limit that blocks them.

use super::series::{Series, left};
use super::{Block, Limit, Press, Push, Task};
use crate::straighten::press::{
    Bent, Kinks, Layout, PressSpan, PushFrom, Ranged, Slender, YIELD_SPREAD, best, ranged,
};
use crate::units::Said;

/// Most places of one series (choice).
pub const MOST_PUSHES: usize = 6;
/// What pushes may leave over what they were to leave (choice): more, and they miss.
const MISSES: f64 = 1.25;
/// Times a ram is moved so that the kink comes where it is wanted.
const AIMS: usize = 2;
/// A kink this near to its place, over the span, is there.
const NEAR: f64 = 0.01;

/// Pushes with one ram or with two against offsets (mm at stations x, mm), about the strong or weak axis, leaving at most
/// `target_mm`.
///
/// Supports as far apart as they go first: that needs the least force and allows the largest set. As few places as leave little enough and
/// keep every limit.
///
/// # Errors
/// The [`Block`] met with the longest supports.
pub fn pushes(
    task: &Task<'_>,
    press: &Press,
    strong: bool,
    offset_mm: &[f64],
    target_mm: f64,
    two: bool,
) -> Result<Series, Block> {
    series(task, press, (strong, two), offset_mm, target_mm, true)
}

/// The same for counting if `ranges` is false: as many pushes at the same places, blocked alike; without ranges where they
/// decide nothing.
pub(super) fn series(
    task: &Task<'_>,
    press: &Press,
    (strong, two): (bool, bool),
    offset_mm: &[f64],
    target_mm: f64,
    ranges: bool,
) -> Result<Series, Block> {
    let name = if two { "press, two rams" } else { "press, one ram" };
    let most = task.member.length_mm - press.pads.support_mm;
    let (low, high) = (press.spans_mm.0, press.spans_mm.1.min(most));
    if !(low > 0.0 && low <= high) {
        return Err(Block::new(
            name,
            Limit::Span,
            Said::from("supports ")
                .position(low)
                .and(" apart do not fit on a member of ")
                .position(task.member.length_mm),
            "bring the supports closer",
        ));
    }
    let mut first_block = None;
    for span_mm in [high, 0.5 * (low + high), low] {
        let setup = Setup { task, press, strong, offset_mm, target_mm, two, name, span_mm, ranges };
        let block = match setup.series() {
            Ok(series) => return Ok(series),
            Err(block) => block,
        };
        let closer_helps = matches!(block.limit, Limit::Stroke | Limit::Span | Limit::Places);
        first_block = first_block.or(Some(block));
        if !closer_helps {
            break;
        }
    }
    Err(first_block.unwrap_or_else(|| Block::new(name, Limit::Span, "no supports fit", "other supports")))
}

pub(super) struct Setup<'a> {
    pub(super) task: &'a Task<'a>,
    pub(super) press: &'a Press,
    strong: bool,
    offset_mm: &'a [f64],
    target_mm: f64,
    pub(super) two: bool,
    pub(super) name: &'static str,
    pub(super) span_mm: f64,
    /// Whether pushes carry their ranges even where these decide nothing.
    ranges: bool,
}

impl Setup<'_> {
    fn series(&self) -> Result<Series, Block> {
        let peak =
            self.offset_mm.iter().copied().fold(0.0, |m: f64, v| if v.abs() > m.abs() { v } else { m });
        let from = PushFrom::against(peak, self.strong);
        let x = &self.task.shape.x_mm;
        let start = x.first().copied().unwrap_or(0.0);
        let length = x.last().copied().unwrap_or(0.0) - start;
        // stations need not reach the ends: kinks act between the first and the last
        let along: Vec<f64> = x.iter().map(|x| x - start).collect();
        let bow: Vec<f64> = self.offset_mm.iter().map(|o| o * peak.signum()).collect();
        let pad = self.press.pads.ram_mm;
        let aside = if self.two { 0.5 * self.apart_mm() } else { 0.0 };
        let free = |c: f64| {
            let at = c + start;
            self.task.is_free(at) && self.task.bears(at - aside, pad) && self.task.bears(at + aside, pad)
        };
        let mut least = f64::INFINITY;
        let mut block = None;
        for count in 1..=MOST_PUSHES {
            let Some(kinks) = best(&along, &bow, length, count, &free) else { break };
            least = least.min(kinks.left_mm);
            if kinks.left_mm > self.target_mm {
                continue;
            }
            let found = match self.series_of(&kinks, (&along, &bow), length, start, from, peak) {
                Ok(series) => return Ok(series),
                Err(found) => found,
            };
            // smaller kinks cure too much strain; force hardly falls, and pushes nearer the ends need more
            let more_help = matches!(found.limit, Limit::Strain | Limit::Places);
            if block.as_ref().is_none_or(|b: &Block| b.limit == Limit::Strain) {
                block = Some(found);
            }
            if !more_help {
                break;
            }
        }
        Err(block.unwrap_or_else(|| {
            Block::new(
                self.name,
                Limit::Places,
                Said::from(format!("{MOST_PUSHES} places leave "))
                    .offset(least)
                    .and(", at most ")
                    .offset(self.target_mm)
                    .and(" is wanted"),
                "free more places, or push from the other side after measuring again",
            )
        }))
    }

    fn series_of(
        &self,
        kinks: &Kinks,
        (along, bow): (&[f64], &[f64]),
        length: f64,
        start: f64,
        from: PushFrom,
        peak: f64,
    ) -> Result<Series, Block> {
        let bare: Result<Vec<Bare>, Block> =
            kinks.kinks.iter().map(|(c, angle)| self.aimed(c + start, *angle, from)).collect();
        let bare = bare?;
        let left_mm = left(bare.iter().map(|b| &b.nominal), along, bow, length, start, peak);
        let most_mm = left_mm.iter().fold(0.0, |m: f64, v| m.max(v.abs()));
        if most_mm.is_nan() || most_mm > MISSES * self.target_mm {
            return Err(self.astray(&bare, most_mm));
        }
        // ranges cost most: only once every push is known to be allowed and to hit
        let mut pushes: Vec<Push> = Vec::with_capacity(bare.len());
        for bare in bare {
            let push = match pushes.iter().find_map(|p| self.copied(p, &bare)) {
                Some(push) => Push { number: pushes.len() + 1, ..push },
                None => self.push(pushes.len() + 1, bare)?,
            };
            pushes.push(push);
        }
        Ok(Series::of(pushes, left_mm, peak))
    }

    /// Supports as far apart as set, moved along to stay on the member and, where that fits, half a depth from its ends:
    /// nearer, the web over a support stands half as much (AISC 360 J10.3).
    fn layout(&self, at_mm: f64, from: PushFrom) -> Layout {
        let m = self.task.member;
        let plates = m.plates_at(0.0);
        let half_depth = 0.501 * (m.depth.deepest_mm() + plates.outer_mm.1.max(plates.inner_mm.1) * 2.0);
        let over = (m.length_mm - self.span_mm).max(0.0);
        let margin = half_depth.max(0.5 * self.press.pads.support_mm).min(0.5 * over);
        let a = (at_mm - 0.5 * self.span_mm).clamp(margin, (over - margin).max(margin));
        let mut layout = if self.two {
            Layout::pair(at_mm, self.span_mm, self.apart_mm(), from)
        } else {
            Layout::centred(at_mm, self.span_mm, from)
        };
        layout.supports_mm = [a, a + self.span_mm];
        layout
    }

    fn apart_mm(&self) -> f64 {
        self.press.rams_apart_mm.unwrap_or(0.0).min(0.6 * self.span_mm)
    }

    /// A push whose kink comes where it is wanted. A taper or a change of plate lets the member yield beside the ram: then
    /// the ram goes to the other side of the place by as much, as long as that helps.
    fn aimed(&self, at_mm: f64, angle: f64, from: PushFrom) -> Result<Bare, Block> {
        let mut bare = self.bare(self.layout(at_mm, from), angle, None)?;
        for _ in 0..AIMS {
            let off = at_mm - bare.nominal.kink_at_mm;
            if off.abs() <= NEAR * self.span_mm {
                break;
            }
            let used = bare.nominal.force_n / bare.span.hinge_n();
            match self.bare(self.layout(bare.layout.rams.gauge_mm() + off, from), angle, Some(used)) {
                Ok(next) if (at_mm - next.nominal.kink_at_mm).abs() < off.abs() => bare = next,
                _ => break,
            }
        }
        Ok(bare)
    }

    /// Pushes that leave too much because the member does not yield where it is pushed.
    fn astray(&self, pushes: &[Bare], most_mm: f64) -> Block {
        let far = |p: &&Bare| (p.layout.rams.gauge_mm() - p.nominal.kink_at_mm).abs();
        let worst = pushes.iter().max_by(|a, b| far(a).total_cmp(&far(b)));
        let yields = worst.map_or(0.0, |p| p.nominal.kink_at_mm);
        Block::new(
            self.name,
            Limit::Places,
            Said::from("the pushes would leave ")
                .offset(most_mm)
                .and(", at most ")
                .offset(self.target_mm)
                .and(" is wanted: the member yields at ")
                .position(yields)
                .and(", not where it is pushed"),
            "supports closer together, one ram, or heat",
        )
    }

    /// A push already worked out, moved or mirrored to another place of a uniform member; None if it does not fit.
    fn copied(&self, push: &Push, bare: &Bare) -> Option<Push> {
        let m = self.task.member;
        let one = |n: usize| n == 1;
        let level = m.depth.steepest_deg() <= 0.0;
        let uniform = level && one(m.web.len()) && one(m.outer_flange.len()) && one(m.inner_flange.len());
        if !uniform || (bare.angle / push.kink_rad - 1.0).abs() > SAME_ANGLE {
            return None;
        }
        let (to, from) = (&bare.layout, &push.layout);
        let (there, here) = (to.rams.gauge_mm(), from.rams.gauge_mm());
        let near = |a: f64, b: f64| (a - b).abs() < SAME_PLACE_MM;
        let moved = near(to.supports_mm[0] - there, from.supports_mm[0] - here);
        let mirrored = near(to.supports_mm[0] - there, here - from.supports_mm[1]);
        let at = |x: f64| if moved { x - here + there } else { there + here - x };
        if !moved && !mirrored {
            return None;
        }
        let mut copy = push.clone();
        copy.layout = *to;
        copy.bent.nominal.kink_at_mm = at(push.bent.nominal.kink_at_mm);
        for lump in &mut copy.bent.nominal.lumps {
            lump.0 = at(lump.0);
        }
        copy.worst = self.bearings(to, copy.bent.force_n.high).ok()?;
        Some(copy)
    }

    /// `used`: about what part of the hinge load it takes, if that is known.
    fn bare(&self, layout: Layout, angle: f64, used: Option<f64>) -> Result<Bare, Block> {
        let span = PressSpan::new(self.task.member, layout, None).map_err(|e| self.no_push(&e))?;
        if let Some(at) = layout.rams.places_mm().find(|x| !self.task.bears(*x, self.press.pads.ram_mm)) {
            return Err(Block::new(
                self.name,
                Limit::Places,
                Said::from("a ram at ").position(at).and(" would stand on a splice or a stretch to keep off"),
                "one ram, rams at another distance, or heat",
            ));
        }
        // what even first yield exceeds needs no closer look
        self.bearings(&layout, span.first_yield_n())?;
        let nominal = match used {
            Some(used) => span.for_kink_near(angle, used * span.hinge_n()),
            None => span.for_kink(angle),
        }
        .map_err(|e| self.no_push(&e))?;
        self.bearings(&layout, nominal.force_n)?;
        let not_compact = self.compact_enough(&layout)?;
        self.strain(angle, nominal.mu)?;
        let give = self.press.give_mm_per_n * layout.rams.count() * nominal.force_n;
        let travel_mm = nominal.ram_stroke_mm + nominal.shear_mm + give;
        self.stroke(travel_mm)?;
        Ok(Bare { layout, angle, span, nominal, travel_mm, not_compact })
    }

    fn push(&self, number: usize, bare: Bare) -> Result<Push, Block> {
        let Bare { layout, angle, span, nominal, travel_mm, not_compact } = bare;
        // no range of force reaches beyond the hinge of the strongest steel
        let most_n = (1.0 + YIELD_SPREAD) * span.hinge_n();
        let bent = if !self.ranges && self.bearings(&layout, most_n).is_ok() {
            Ranged::at_most(nominal, most_n)
        } else {
            ranged(self.task.member, span, nominal, self.task.weld).map_err(|e| self.no_push(&e))?
        };
        let worst = self.bearings(&layout, bent.force_n.high)?;
        Ok(Push {
            number,
            kink_rad: angle,
            travel_mm,
            measuring_stroke_mm: bent.stroke_mm.low,
            stored_j: bent.nominal.stored_j(layout.rams.count()),
            worst,
            not_compact,
            layout,
            bent,
        })
    }
}

/// Two kinks this near to each other, relative, are one: far below what any push can hit.
const SAME_ANGLE: f64 = 1e-4;
const SAME_PLACE_MM: f64 = 1e-6;

/// A push that is allowed, without its range.
struct Bare {
    layout: Layout,
    angle: f64,
    span: PressSpan,
    nominal: Bent,
    travel_mm: f64,
    not_compact: Vec<Slender>,
}
