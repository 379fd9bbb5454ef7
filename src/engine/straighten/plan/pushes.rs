//! The pushes that take a bow away, or the limit that blocks them.

use super::rule::STRONGEST;
use super::series::{Bow, Series, kinks_of};
use super::shop::BESIDE_MM;
use super::{Block, BlockingLimit, Press, Push, Task};
use crate::member::Seam;
use crate::straighten::press::{
    Bent, ForceCheck, Kinks, PressLayout, PressSpan, PushFrom, Ranged, Slender, YIELD_SPREAD, best, ranged,
};
use crate::units::{Message, Part};

/// Most places of one series (choice).
pub(crate) const MOST_PUSHES: usize = 6;
/// What pushes may leave over what they were to leave (choice): more, and they miss.
const MISSES: f64 = 1.25;
/// Times a ram is moved so that the kink comes where it is wanted.
const AIMS: usize = 2;
/// A kink this near to its place, over the span, is there.
const NEAR: f64 = 0.01;
/// Each press span tried over the one before it: the set that a slip of the yield strength costs goes with the square of the span.
const LONGER: f64 = 1.25;

/// Pushes with one ram or with two against offsets (mm at stations x, mm), about the strong or weak axis, leaving at most
/// `target_mm`. For counting, if `ranges` is false: as many pushes at the same places, blocked alike; without ranges where they
/// decide nothing.
///
/// As few places as leave little enough, supports as near to each other as force, bearings, strain and clear distances permit: the
/// shorter the span, the less a slip in travel or yield strength changes the set. An S-shaped bow is pushed from both sides.
///
/// # Errors
/// The [`Block`] met with the longest supports that could still help.
pub fn pushes(
    task: &Task<'_>,
    press: &Press,
    (strong, two): (bool, bool),
    offset_mm: &[f64],
    target_mm: f64,
    ranges: bool,
) -> Result<Series, Block> {
    let name = pressing(two);
    let most = task.member.length_mm - press.pads.support_mm;
    let (low, high) = (press.spans_mm.0, press.spans_mm.1.min(most));
    if !(low > 0.0 && low <= high) {
        let lengths = [low, task.member.length_mm].map(Part::Position);
        let found = Message::of("supports {} apart do not fit on a member of {}", lengths);
        return Err(Block::new(name, BlockingLimit::Span, found, "bring the supports closer"));
    }
    let bow = Bow::new(&task.shape.x_mm, offset_mm);
    let setup = Setup { task, press, strong, bow: &bow, target_mm, two, name, span_mm: low, ranges };
    setup.upright()?;
    setup.series(high)
}

/// What the way is called.
pub(super) const fn pressing(two: bool) -> &'static str {
    if two { "press, two rams" } else { "press, one ram" }
}

#[derive(Clone, Copy)]
pub(super) struct Setup<'a> {
    pub(super) task: &'a Task<'a>,
    pub(super) press: &'a Press,
    pub(super) strong: bool,
    bow: &'a Bow<'a>,
    target_mm: f64,
    pub(super) two: bool,
    pub(super) name: &'static str,
    pub(super) span_mm: f64,
    /// Whether pushes carry their ranges even where these decide nothing.
    ranges: bool,
}

impl Setup<'_> {
    fn series(&self, longest_mm: f64) -> Result<Series, Block> {
        let bow = self.bow;
        let pad = self.press.pads.ram_mm;
        let aside = self.aside_mm();
        let free = |c: f64, side: f64| {
            let (at, [face, _]) = (c + bow.start_mm, PushFrom::against(side, self.strong).faces());
            let bears = |x: f64| self.task.bears(x, pad, face);
            // nor does it yield under a cleat, whichever flange that is welded to
            let bare = Seam::BOTH.into_iter().all(|seam| self.task.bears(at, pad, Some(seam)));
            self.task.is_free(at, self.strong) && bare && bears(at - aside) && bears(at + aside)
        };
        let peak = bow.peak_mm();
        let found = |count, side: &dyn Fn(f64) -> f64| {
            best(&bow.along_mm, bow.offset_mm, bow.length_mm, count, &|c| free(c, side(c)), side)
        };
        let mut least = f64::INFINITY;
        let mut block = None;
        for count in 1..=MOST_PUSHES {
            let Some(one_sided) = found(count, &|_| peak) else { break };
            let kinks = if one_sided.left_mm > self.target_mm {
                // an S: each place from its own side
                found(count, &|c| bow.at_mm(c)).filter(|k| k.left_mm < one_sided.left_mm).unwrap_or(one_sided)
            } else {
                one_sided
            };
            least = least.min(kinks.left_mm);
            if kinks.left_mm > self.target_mm {
                continue;
            }
            let found = match self.spans(&kinks, longest_mm) {
                Ok(series) => return Ok(series),
                Err(found) => found,
            };
            // smaller kinks cure too much strain; force hardly falls, and pushes nearer the ends need more
            let more_help = matches!(found.limit, BlockingLimit::Strain | BlockingLimit::Places);
            if block.as_ref().is_none_or(|b: &Block| b.limit == BlockingLimit::Strain) {
                block = Some(found);
            }
            if !more_help {
                break;
            }
        }
        Err(block.unwrap_or_else(|| {
            let clear = if self.strong {
                "a depth".into()
            } else {
                Message::of("{} or a depth", [Part::Position(BESIDE_MM)])
            };
            let found = Message::of("{} places (our limit), each ", [MOST_PUSHES.to_string().into()]).then(clear).then(Message::of(
                " or more from ends and splices, none kept off, at a cleat or with a ram on what is welded there, leave {}, at most {} is wanted",
                [least, self.target_mm].map(Part::Offset),
            ));
            let help =
                "free more places, the engineer's leave to push nearer to a splice, more stations measured, or heat";
            self.block(BlockingLimit::Places, found, help)
        }))
    }

    /// The shortest span that permits the kinks.
    fn spans(&self, kinks: &Kinks, longest_mm: f64) -> Result<Series, Block> {
        let mut span_mm = self.span_mm;
        loop {
            let block = match (Setup { span_mm, ..*self }).series_of(kinks) {
                Ok(series) => return Ok(series),
                Err(block) => block,
            };
            let longer_helps = matches!(
                block.limit,
                BlockingLimit::Force | BlockingLimit::Plates | BlockingLimit::Strain | BlockingLimit::Span
            );
            if !longer_helps || span_mm >= longest_mm {
                return Err(block);
            }
            span_mm = (LONGER * span_mm).min(longest_mm);
        }
    }

    fn series_of(&self, kinks: &Kinks) -> Result<Series, Block> {
        let bow = self.bow;
        let one = |(c, angle): &(f64, f64)| {
            self.aimed(c + bow.start_mm, angle.abs(), PushFrom::against(*angle, self.strong))
        };
        let bare: Result<Vec<Bare>, Block> = kinks.kinks.iter().map(one).collect();
        let bare = bare?;
        let left_mm = bow.left_mm(kinks_of(bare.iter().map(|b| (&b.nominal, b.layout.from))));
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
        Ok(Series::of(pushes, left_mm, bow.peak_mm()))
    }

    /// A push whose kink comes where it is wanted. A taper or a change of plate lets the member yield beside the ram: then
    /// the ram goes to the other side of the place by as much, as long as that helps.
    fn aimed(&self, at_mm: f64, angle: f64, from: PushFrom) -> Result<Bare, Block> {
        let mut bare = self.bare(self.layout(at_mm, from)?, angle, None)?;
        for _ in 0..AIMS {
            let off = at_mm - bare.nominal.kink_at_mm;
            if off.abs() <= NEAR * self.span_mm {
                break;
            }
            let used = bare.nominal.force_n / bare.span.hinge_n();
            let next = self
                .layout(bare.layout.rams.gauge_mm() + off, from)
                .and_then(|layout| self.bare(layout, angle, Some(used)));
            match next {
                Ok(next) if (at_mm - next.nominal.kink_at_mm).abs() < off.abs() => bare = next,
                _ => break,
            }
        }
        Ok(bare)
    }

    /// Pushes that leave too much because the member does not yield where it is pushed, or two rams spread what should be a
    /// sharp bend.
    fn astray(&self, pushes: &[Bare], most_mm: f64) -> Block {
        let far = |p: &&Bare| (p.layout.rams.gauge_mm() - p.nominal.kink_at_mm).abs();
        let worst = pushes.iter().max_by(|a, b| far(a).total_cmp(&far(b)));
        let sizes = [most_mm, self.target_mm].map(Part::Offset);
        let found = Message::of("the pushes would leave {}, at most {} is wanted: ", sizes);
        let beside = worst.filter(|p| far(p) > NEAR * self.span_mm);
        let found = match beside {
            Some(p) => {
                let places = [p.layout.rams.gauge_mm(), p.nominal.kink_at_mm].map(Part::Position);
                found.then(Message::of("pushed at {}, the member yields at {}", places))
            }
            None => found.and("the bend is spread over too great a length for this shape"),
        };
        self.block(BlockingLimit::Places, found, "supports closer together, one ram, or heat")
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
        let ends = |i: usize, j: usize, sign: f64| {
            near(to.supports_mm[i] - there, sign * (from.supports_mm[j] - here))
        };
        let moved = ends(0, 0, 1.0) && ends(1, 1, 1.0);
        let mirrored = ends(0, 1, -1.0) && ends(1, 0, -1.0);
        if to.from != from.from || (!moved && !mirrored) {
            return None;
        }
        let at = |x: f64| if moved { x - here + there } else { there + here - x };
        let mut copy = push.clone();
        copy.layout = *to;
        copy.bent.nominal.kink_at_mm = at(push.bent.nominal.kink_at_mm);
        for lump in &mut copy.bent.nominal.lumps {
            lump.0 = at(lump.0);
        }
        for place in &mut copy.stability.restraints_mm {
            *place = at(*place);
        }
        copy.stability.restraints_mm.sort_by(f64::total_cmp);
        if mirrored && !moved {
            copy.travels_mm.reverse();
        }
        copy.worst = self.bearings(to, copy.bent.force_n.high).ok()?;
        // nearer to an end the plates stand less
        let by_plates = by_plates_n(&copy.bent, copy.worst);
        Some(copy.at_most(by_plates))
    }

    /// `used`: about what part of the hinge load it takes, if that is known.
    fn bare(&self, layout: PressLayout, angle: f64, used: Option<f64>) -> Result<Bare, Block> {
        let span = PressSpan::new(self.task.member, layout, None).map_err(|e| self.no_push(&e))?;
        // what even first yield exceeds needs no closer look
        self.bearings(&layout, span.first_yield_n())?;
        let nominal = match used {
            Some(used) => span.for_kink_near(angle, used * span.hinge_n(), None),
            None => span.for_kink(angle),
        }
        .map_err(|e| self.no_push(&e))?;
        self.bearings(&layout, nominal.force_n)?;
        self.told(nominal.set_mm)?;
        let not_compact = self.compact_enough(&layout)?;
        self.strain(angle, nominal.mu)?;
        self.even_flanges(&layout, nominal.force_n)?;
        let springback = span.ram_springback_mm_per_n();
        let give = self.press.give_mm_per_n * layout.rams.count();
        let travel = |i: usize| nominal.ram_sets_mm[i] + (springback[i] + give) * nominal.force_n;
        let elastic_mm_per_n = if self.two { span.dial_mm_per_n() } else { springback[0] + give };
        let travels_mm = [travel(0), travel(1)];
        self.stroke(travels_mm[0].max(travels_mm[1]))?;
        Ok(Bare { layout, angle, span, nominal, travels_mm, elastic_mm_per_n, not_compact })
    }

    fn push(&self, number: usize, bare: Bare) -> Result<Push, Block> {
        let Bare { layout, angle, span, nominal, travels_mm, elastic_mm_per_n, not_compact } = bare;
        // no range of force reaches beyond the hinge of the strongest steel
        let most_n = (1.0 + YIELD_SPREAD) * span.hinge_n();
        let yields_n = [span.first_yield_n(), span.hinge_n()];
        let stability = self.straight(&layout, most_n)?;
        let by_guides = stability.most_n.unwrap_or(f64::INFINITY);
        let may_n = self.press.most_n.min(by_guides).min(STRONGEST * yields_n[1]);
        let may_store_j = span.stored_j(may_n, self.press.give_mm_per_n);
        let bent = if !self.ranges && self.bearings(&layout, most_n).is_ok() {
            Ranged::at_most(nominal, most_n)
        } else {
            ranged(self.task.member, span, nominal, self.task.weld).map_err(|e| self.no_push(&e))?
        };
        let worst = self.bearings(&layout, bent.force_n.high)?;
        let by_plates = by_plates_n(&bent, worst);
        let push = Push {
            number,
            kink_rad: angle,
            travels_mm: if self.two { travels_mm.to_vec() } else { vec![travels_mm[0]] },
            elastic_mm_per_n,
            give_mm_per_n: if self.two { 0.0 } else { self.press.give_mm_per_n },
            yields_n,
            most_force_n: may_n,
            ram_height_mm: self.ram_height_mm(&layout),
            wedge_rad: layout.wedge_rad(self.task.member),
            stored_j: may_store_j,
            worst,
            stability: stability.under(may_n, most_n),
            not_compact,
            layout,
            bent,
        };
        Ok(push.at_most(by_plates))
    }
}

/// Force of a ram that the plates under its pads and over the supports stand, N, if `worst` is the bearing nearest to its resistance
/// under the highest force that may be needed.
fn by_plates_n(bent: &Ranged, worst: Option<ForceCheck>) -> f64 {
    worst.map_or(f64::INFINITY, |c| bent.force_n.high / c.ratio)
}

impl Push {
    /// The same with no more than that force in a ram (N): what guides hold goes with the force, the energy with its square.
    fn at_most(self, force_n: f64) -> Self {
        let most_force_n = self.most_force_n.min(force_n);
        let part = most_force_n / self.most_force_n;
        let stability = self.stability.under(most_force_n, self.most_force_n);
        Self { most_force_n, stored_j: self.stored_j * part * part, stability, ..self }
    }
}

/// Two kinks this near to each other, relative, are one: far below what any push can hit.
const SAME_ANGLE: f64 = 1e-4;
const SAME_PLACE_MM: f64 = 1e-6;

/// A push that is allowed, without its range.
struct Bare {
    layout: PressLayout,
    angle: f64,
    span: PressSpan,
    nominal: Bent,
    travels_mm: [f64; 2],
    elastic_mm_per_n: f64,
    not_compact: Vec<Slender>,
}
