//! The pushes that take a bow away, or the limit that blocks them.

use super::{Block, Limit, Press, Push, Task};
use crate::straighten::press::{
    Check, Kinks, Layout, PressError, PushFrom, Ranged, best, checks, kink_offset_mm, not_compact, ranged,
    shortest_span_mm,
};
use serde::Serialize;

/// Most places of one series (choice).
pub const MOST_PUSHES: usize = 6;
/// Standard deviation of a kink after measuring and correcting, over the kink (choice; the first push alone is known to
/// about 25 %).
pub const CORRECTED_SD: f64 = 0.10;
/// Largest curvature ratio whatever the press says (choice).
const NEVER_ABOVE_MU: f64 = 10.0;

/// Pushes and what they leave.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Series {
    /// In order of x.
    pub pushes: Vec<Push>,
    /// Offsets left at the stations if every push comes out right, mm, sign of the bow.
    pub left_mm: Vec<f64>,
    /// Largest of them without sign, mm.
    pub largest_left_mm: f64,
    /// One standard deviation of the bow taken away, mm.
    pub left_sd_mm: f64,
}

/// Pushes with one ram or with two against offsets (mm at stations x, mm), about the strong or weak axis, leaving at most
/// `target_mm`.
///
/// Longest supports first: they need the least force and allow the largest set. As few places as leave little enough and
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
    let name = if two { "press, two rams" } else { "press, one ram" };
    let most = task.member.length_mm - press.pads.support_mm;
    let (low, high) = (press.spans_mm.0, press.spans_mm.1.min(most));
    if !(low > 0.0 && low <= high) {
        return Err(Block::new(
            name,
            Limit::Span,
            format!("supports {low:.0} mm apart do not fit on a member of {:.0} mm", task.member.length_mm),
            "bring the supports closer",
        ));
    }
    let mut first_block = None;
    for span_mm in [high, 0.5 * (low + high), low] {
        let setup = Setup { task, press, strong, offset_mm, target_mm, two, name, span_mm };
        match setup.series() {
            Ok(series) => return Ok(series),
            Err(block) => first_block = first_block.or(Some(block)),
        }
    }
    Err(first_block.unwrap_or_else(|| Block::new(name, Limit::Span, "no supports fit", "other supports")))
}

struct Setup<'a> {
    task: &'a Task<'a>,
    press: &'a Press,
    strong: bool,
    offset_mm: &'a [f64],
    target_mm: f64,
    two: bool,
    name: &'static str,
    span_mm: f64,
}

impl Setup<'_> {
    fn series(&self) -> Result<Series, Block> {
        let peak = self.offset_mm.iter().copied().fold(0.0, |m: f64, v| if v.abs() > m.abs() { v } else { m });
        let from = PushFrom::against(peak, self.strong);
        let x = &self.task.shape.x_mm;
        let start = x.first().copied().unwrap_or(0.0);
        let length = x.last().copied().unwrap_or(0.0) - start;
        // stations need not reach the ends: kinks act between the first and the last
        let along: Vec<f64> = x.iter().map(|x| x - start).collect();
        let bow: Vec<f64> = self.offset_mm.iter().map(|o| o * peak.signum()).collect();
        let free = |c: f64| self.task.is_free(c + start);
        let mut least = f64::INFINITY;
        let mut block = None;
        for count in 1..=MOST_PUSHES {
            let Some(kinks) = best(&along, &bow, length, count, &free) else { break };
            least = least.min(kinks.left_mm);
            if kinks.left_mm > self.target_mm {
                continue;
            }
            match self.all(&kinks, start, from) {
                Ok(pushes) => return Ok(finished(pushes, &along, &bow, length, start, peak)),
                Err(found) => block = Some(found),
            }
        }
        Err(block.unwrap_or_else(|| {
            Block::new(
                self.name,
                Limit::Places,
                format!("{MOST_PUSHES} places leave {least:.1} mm, {:.1} mm are wanted", self.target_mm),
                "free more places, or push from the other side after measuring again",
            )
        }))
    }

    fn all(&self, kinks: &Kinks, start: f64, from: PushFrom) -> Result<Vec<Push>, Block> {
        let mut pushes: Vec<Push> = Vec::with_capacity(kinks.kinks.len());
        for (c, angle) in &kinks.kinks {
            let layout = self.layout(c + start, from);
            let known = pushes.iter().find(|p| self.alike(p, &layout, *angle));
            let found = known.map(|p| shifted(&p.bent, &layout, &p.layout));
            let bent = match found {
                Some(bent) => bent,
                None => ranged(self.task.member, layout, *angle, self.task.weld).map_err(|e| self.no_push(&e))?,
            };
            pushes.push(self.push(pushes.len(), layout, *angle, bent)?);
        }
        Ok(pushes)
    }

    /// Supports as far apart as set, moved along to stay on the member.
    fn layout(&self, at_mm: f64, from: PushFrom) -> Layout {
        let margin = 0.5 * self.press.pads.support_mm;
        let last = (self.task.member.length_mm - margin - self.span_mm).max(margin);
        let a = (at_mm - 0.5 * self.span_mm).clamp(margin, last);
        let apart = self.press.rams_apart_mm.unwrap_or(0.0).min(0.6 * self.span_mm);
        let mut layout = if self.two {
            Layout::pair(at_mm, self.span_mm, apart, from)
        } else {
            Layout::centred(at_mm, self.span_mm, from)
        };
        layout.supports_mm = [a, a + self.span_mm];
        layout
    }

    /// Whether a push already worked out serves here too: same angle, same places within the supports, level member.
    fn alike(&self, push: &Push, layout: &Layout, angle: f64) -> bool {
        let m = self.task.member;
        let one = |n: usize| n == 1;
        let level = m.depth.steepest_deg() <= 0.0;
        let uniform = level && one(m.web.len()) && one(m.outer_flange.len()) && one(m.inner_flange.len());
        let shift = layout.supports_mm[0] - push.layout.supports_mm[0];
        let ram = layout.rams.gauge_mm() - push.layout.rams.gauge_mm();
        uniform && (angle / push.kink_rad - 1.0).abs() < 1e-6 && (shift - ram).abs() < 1e-6
    }

    fn push(&self, before: usize, layout: Layout, angle: f64, bent: Ranged) -> Result<Push, Block> {
        let p = self.press;
        let found = &bent.nominal;
        let strain_limit = p.most_mu.min(NEVER_ABOVE_MU);
        if found.mu > strain_limit {
            return Err(Block::new(
                self.name,
                Limit::Strain,
                format!(
                    "a kink of {:.1} mrad needs {:.1} times the curvature at first yield, {strain_limit:.0} allowed",
                    1e3 * angle,
                    found.mu
                ),
                "more places, supports further apart, two rams, or heat",
            ));
        }
        let most = bent.force_n.high;
        if most > p.most_n {
            return Err(Block::new(
                self.name,
                Limit::Force,
                format!("{:.0} kN may be needed in a ram, the press has {:.0} kN", most / 1e3, p.most_n / 1e3),
                "supports further apart, two rams, a stronger press, or heat",
            ));
        }
        let rams = layout.rams.count();
        let travel_mm = found.ram_stroke_mm + found.shear_mm + p.give_mm_per_n * rams * found.force_n;
        if travel_mm > p.most_stroke_mm {
            return Err(Block::new(
                self.name,
                Limit::Stroke,
                format!("a stroke of {travel_mm:.0} mm is needed, the ram has {:.0} mm", p.most_stroke_mm),
                "supports closer together, or packing",
            ));
        }
        let checks = checks(self.task.member, &layout, p.pads, most, p.patch);
        let worst = checks.iter().copied().max_by(|a, b| a.ratio.total_cmp(&b.ratio));
        if let Some(c) = worst.filter(|c| !(c.ratio <= 1.0)) {
            return Err(self.weak_plates(&c));
        }
        let not_compact = not_compact(self.task.member, &layout);
        if let Some(s) = not_compact.iter().find(|s| s.ratio > s.slender) {
            return Err(Block::new(
                self.name,
                Limit::Slender,
                format!("{}: slenderness {:.0} above {:.0}, it buckles before it yields", s.plate, s.ratio, s.slender),
                "stiffen or clamp the plate between ram and supports, or heat",
            ));
        }
        Ok(Push {
            number: before + 1,
            kink_rad: angle,
            travel_mm,
            measuring_stroke_mm: bent.stroke_mm.low.min(found.stroke_mm),
            stored_j: found.stored_j(rams),
            worst,
            not_compact,
            layout,
            bent,
        })
    }

    fn weak_plates(&self, c: &Check) -> Block {
        let plastic = c.force_n * self.span_mm / if self.two { 3.0 } else { 4.0 };
        let needed = shortest_span_mm(plastic, c.resistance_n, self.two);
        let other = if self.two { "" } else { "two rams, " };
        Block::new(
            self.name,
            Limit::Plates,
            format!(
                "{} at the {} at x = {:.0} mm ({}): {:.0} kN on {:.0} kN",
                c.what,
                c.place,
                c.at_mm,
                c.clause,
                c.force_n / 1e3,
                c.resistance_n / 1e3
            ),
            format!(
                "supports about {:.1} m apart or more, {other}a stiffener or spreader at the bearing, a longer pad, or heat",
                needed / 1e3
            ),
        )
    }

    fn no_push(&self, e: &PressError) -> Block {
        let limit = if matches!(e, PressError::BeyondHinge { .. }) { Limit::Strain } else { Limit::Span };
        Block::new(self.name, limit, e.to_string(), "more places, supports further apart, two rams, or heat")
    }
}

fn shifted(bent: &Ranged, to: &Layout, from: &Layout) -> Ranged {
    let shift = to.supports_mm[0] - from.supports_mm[0];
    let mut out = bent.clone();
    out.nominal.kink_at_mm += shift;
    for lump in &mut out.nominal.lumps {
        lump.0 += shift;
    }
    out
}

fn finished(pushes: Vec<Push>, along: &[f64], bow: &[f64], length: f64, start: f64, peak: f64) -> Series {
    let gone = |x: f64| -> f64 {
        pushes
            .iter()
            .flat_map(|p| &p.bent.nominal.lumps)
            .map(|(c, turn)| turn * kink_offset_mm(x, (c - start).clamp(0.0, length), length))
            .sum()
    };
    let left_mm: Vec<f64> = along.iter().zip(bow).map(|(x, b)| (b - gone(*x)) * peak.signum()).collect();
    let count = pushes.len().max(1) as f64;
    Series {
        largest_left_mm: left_mm.iter().fold(0.0, |m: f64, v| m.max(v.abs())),
        left_sd_mm: CORRECTED_SD * peak.abs() / count.sqrt(),
        pushes,
        left_mm,
    }
}
