//! Where supports and rams of one push stand: inside the member, clear of each other, off splices, on stiffeners where there are any.

use super::pushes::Setup;
use super::{Block, BlockingLimit};
use crate::member::Seam;
use crate::straighten::press::{PressLayout, PushFrom, Rams};
use crate::units::{Message, Part};

/// How far a support is moved along to find a place to stand, in steps of a quarter pad (choice).
const MOVES: i32 = 6;
/// A ram or support this near to a stiffener, over the depth, goes onto it (choice).
const NEAR_STIFFENER: f64 = 0.5;
/// Two rams share their force so unevenly between the supports at most: one arm over the other (choice).
const UNEVEN_ARMS: f64 = 1.25;

impl Setup<'_> {
    /// Depth in the direction of bending at x, mm: of the whole member, or of the wider flange.
    fn bending_depth_mm(&self, x_mm: f64) -> f64 {
        let m = self.task.member;
        let plates = m.plates_at(x_mm);
        if self.strong {
            m.depth.depth_mm(x_mm) + plates.outer_mm.1 + plates.inner_mm.1
        } else {
            plates.outer_mm.0.max(plates.inner_mm.0)
        }
    }

    /// Least distance from a ram to a support, mm: half of each pad and one depth of the member between them, so that it bends and
    /// is not sheared or crushed (own limit).
    fn clear_mm(&self, x_mm: f64) -> f64 {
        let pads = self.press.pads;
        0.5 * (pads.ram_mm + pads.support_mm) + self.bending_depth_mm(x_mm)
    }

    /// The stiffener nearest to x, if one is near enough to push on; x itself if none is.
    fn onto_stiffener(&self, x_mm: f64) -> f64 {
        let reach = NEAR_STIFFENER * self.bending_depth_mm(x_mm);
        let near = self.task.stiffeners.iter().map(|s| s.x_mm).filter(|s| (s - x_mm).abs() <= reach);
        let nearest = near.min_by(|p, q| (p - x_mm).abs().total_cmp(&(q - x_mm).abs()));
        nearest.filter(|_| self.strong).unwrap_or(x_mm)
    }

    /// The place nearest to x where a support can stand on that flange, or on the edges of both.
    fn standing(&self, x_mm: f64, face: Option<Seam>) -> Option<f64> {
        let (pad, length) = (self.press.pads.support_mm, self.task.member.length_mm);
        let wish = self.onto_stiffener(x_mm);
        let on = 0.5 * pad - 1e-6..=length - 0.5 * pad + 1e-6;
        let fits = |x: &f64| on.contains(x) && self.task.bears(*x, pad, face);
        let moved = (0..=MOVES).flat_map(|k| {
            let step = 0.25 * f64::from(k) * pad;
            [x_mm - step, x_mm + step]
        });
        std::iter::once(wish).chain(moved).find(fits)
    }

    /// Supports as far apart as set, about the ram or both rams; moved along to stay on the member and, where that fits, half
    /// a depth from its ends: nearer, the web over a support stands half as much (AISC 360-22 J10.3).
    pub(super) fn layout(&self, at_mm: f64, from: PushFrom) -> Result<PressLayout, Block> {
        let m = self.task.member;
        let plates = m.plates_at(0.0);
        let half_depth = 0.501 * (m.depth.deepest_mm() + plates.outer_mm.1.max(plates.inner_mm.1) * 2.0);
        let over = (m.length_mm - self.span_mm).max(0.0);
        let least = 0.5 * self.press.pads.support_mm;
        let margin = half_depth.max(least).min(0.5 * over);
        let about = at_mm - 0.5 * self.span_mm;
        let (first, rams) = if self.two {
            let out = 0.5 * self.apart_mm();
            (about, Rams::Two(at_mm - out, at_mm + out))
        } else {
            (about.clamp(margin, (over - margin).max(margin)), Rams::One(self.onto_stiffener(at_mm)))
        };
        let [ram_on, support_on] = from.faces();
        let would_stand = |what: &'static str, x: f64, on: Message| {
            Message::of(what, [Part::Position(x)]).and(" would stand on ").then(on)
        };
        let stands = |x: f64| {
            self.standing(x, support_on).ok_or_else(|| {
                let found = match self.task.in_the_way(x, self.press.pads.support_mm, support_on) {
                    Some(on) if (0.0..=m.length_mm).contains(&x) => would_stand("a support at {}", x, on),
                    _ => {
                        let places = [self.span_mm, at_mm].map(Part::Position);
                        Message::of("supports {} apart about {} do not fit on the member", places)
                    }
                };
                self.no_room(found)
            })
        };
        let layout = PressLayout { supports_mm: [stands(first)?, stands(first + self.span_mm)?], rams, from };
        self.apart_enough(&layout)?;
        let hindered = |x: f64| Some((x, self.task.in_the_way(x, self.press.pads.ram_mm, ram_on)?));
        if let Some((at, on)) = rams.places_mm().find_map(hindered) {
            let help = "one ram, rams at another distance, or heat";
            return Err(self.block(BlockingLimit::Places, would_stand("a ram at {}", at, on), help));
        }
        Ok(layout)
    }

    fn apart_enough(&self, layout: &PressLayout) -> Result<(), Block> {
        let [a, b] = layout.supports_mm;
        let [first, last] = layout.rams.both_mm();
        let clear = self.clear_mm(layout.rams.gauge_mm());
        if layout.arm_mm() < clear {
            let near = if first - a < b - last { (first, first - a) } else { (last, b - last) };
            return Err(self.no_room(Message::of(
                "the ram at {} would stand {} from a support, at least {} are needed for it to bend there",
                [near.0, near.1.max(0.0), clear].map(Part::Position),
            )));
        }
        let (left, right) = (first - a, b - last);
        if self.two && left.max(right) > UNEVEN_ARMS * left.min(right) {
            let place = [Part::Position(layout.rams.gauge_mm())];
            let found = Message::of("two rams about {} would not stand evenly between the supports", place);
            return Err(self.no_room(found));
        }
        Ok(())
    }

    fn no_room(&self, found: Message) -> Block {
        let help = if self.two {
            "rams and supports nearer together, one ram, or heat"
        } else {
            "supports at another distance, a place further from the end or splice, or heat"
        };
        self.block(BlockingLimit::Span, found, help)
    }

    fn apart_mm(&self) -> f64 {
        self.press.rams_apart_mm.unwrap_or(0.0)
    }

    /// Where the outermost rams stand from the place of the kink, mm.
    pub(super) fn aside_mm(&self) -> f64 {
        if self.two { 0.5 * self.apart_mm() } else { 0.0 }
    }
}
