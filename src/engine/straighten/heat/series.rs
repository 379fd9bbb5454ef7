//! The heats that take a bow away: spread along it, each place once before any is heated again.

use super::VeeTurn;
use super::place::{HeatPlace, JackTools, Unfit, place};
use super::vee::SCATTER;
use crate::member::Member;
use crate::numerics::between;
use crate::straighten::press::{PushFrom, kink_offset_mm};
use serde::Serialize;

/// Most heats advised at one member (choice): beyond, something else is wrong.
pub(crate) const MOST_HEATS: u32 = 60;
/// Most heats at one place (choice): the same spot again is the exception.
pub(crate) const MOST_A_PLACE: u32 = 2;
/// Nearest distance of two places, mm (choice; a manual asks for the width of the element between heats fired together, memory).
const APART_MM: f64 = 300.0;
/// Places looked at along the member, at most.
const LOOKS: f64 = 30.0;

/// A series of vee heats at places along the member.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatSeries {
    /// The places, along the member.
    pub places: Vec<HeatPlace>,
    /// How the rotation is known.
    pub trust: &'static str,
    /// Highest temperature, °C.
    pub most_c: f64,
    /// Shortening of the member at its centroid, mm.
    pub shortening_mm: f64,
    /// Offset left at the stations if every heat turns as predicted, mm.
    pub left_mm: f64,
    /// One standard deviation of the bow taken away, mm.
    pub left_sd_mm: f64,
    /// Times that work waits for steel to cool: places of one group cool together.
    pub waits: u32,
}

impl HeatSeries {
    /// Groups of places in order of work, each in turn: those of a group may be heated while others of it cool.
    pub fn groups(&self) -> Vec<Vec<&HeatPlace>> {
        let mut places: Vec<&HeatPlace> = self.places.iter().collect();
        places.sort_by_key(|p| p.turn);
        places.chunk_by(|p, q| p.group == q.group).map(<[_]>::to_vec).collect()
    }

    /// All heats together.
    pub fn count(&self) -> u32 {
        self.places.iter().map(|p| p.heats).sum()
    }
}

/// Why heat does not do it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum HeatBlocked {
    /// More heats than advised.
    TooMany {
        /// What is still left then, mm.
        left_mm: f64,
    },
    /// No places leave little enough.
    NoPlaces {
        /// Least left, mm.
        left_mm: f64,
        /// Why the place nearest to the middle of the bow that is not heated is none.
        unfit: Option<Unfit>,
    },
}

/// What is to be taken away, and with what.
pub(crate) struct Heating<'a> {
    /// The member.
    pub(crate) member: &'a Member,
    /// Stations, mm from the start end.
    pub(crate) x_mm: &'a [f64],
    /// Offsets there with their sign, mm.
    pub(crate) offset_mm: &'a [f64],
    /// Camber, not sweep.
    pub(crate) strong: bool,
    /// Most that may be left, mm.
    pub(crate) target_mm: f64,
    /// What may be left if no more heats help, mm.
    pub(crate) enough_mm: f64,
    /// What one heat turns.
    pub(crate) response: &'a VeeTurn,
    /// Highest temperature, °C.
    pub(crate) most_c: f64,
    /// The jack.
    pub(crate) jack: JackTools<'a>,
    /// Most places heated while others cool, each with a jack of its own.
    pub(crate) in_turn: u32,
    /// Whether x (mm) may be heated.
    pub(crate) free: &'a dyn Fn(f64) -> bool,
}

struct Candidate {
    place: HeatPlace,
    /// Offset that one heat there takes away at each station, mm with its sign.
    takes: Vec<f64>,
    heats: u32,
}

/// The heats that leave at most the target: one after the other where it takes most of what is left, none so that more is bent over
/// than is straightened.
///
/// # Errors
/// [`HeatBlocked`] says what stands in the way.
pub(crate) fn heats(case: &Heating<'_>) -> Result<HeatSeries, HeatBlocked> {
    let (mut all, unfit) = case.candidates();
    let mut left = case.offset_mm.to_vec();
    let most = |left: &[f64]| left.iter().fold(0.0, |m: f64, v| m.max(v.abs()));
    let mut count = 0;
    while most(&left) > case.target_mm {
        let Some(k) = (count < MOST_HEATS).then(|| next(&all, &left)).flatten() else {
            let left_mm = most(&left);
            if left_mm <= case.enough_mm {
                break;
            }
            let nowhere = HeatBlocked::NoPlaces { left_mm, unfit };
            return Err(if count < MOST_HEATS { nowhere } else { HeatBlocked::TooMany { left_mm } });
        };
        add(&mut all[k], &mut left, 1.0);
        count += 1;
    }
    exchange(&mut all, &mut left);
    let bow = most(case.offset_mm);
    let mut places: Vec<HeatPlace> =
        all.into_iter().filter(|c| c.heats > 0).map(|c| HeatPlace { heats: c.heats, ..c.place }).collect();
    let waits = order(&mut places, case.in_turn.max(1) as usize, case.jack.on.pads.support_mm);
    let deep = |p: &HeatPlace| {
        if p.heated.strong() { case.member.depth.depth_mm(p.x_mm) } else { p.plate_mm }
    };
    Ok(HeatSeries {
        shortening_mm: places.iter().map(|p| 0.5 * p.turn_rad() * deep(p)).sum(),
        left_mm: most(&left),
        left_sd_mm: SCATTER / f64::from(count.max(1)).sqrt() * bow,
        trust: case.response.trust(),
        most_c: case.most_c,
        places,
        waits,
    })
}

fn add(c: &mut Candidate, left: &mut [f64], times: f64) {
    for (l, t) in left.iter_mut().zip(&c.takes) {
        *l -= times * t;
    }
    c.heats = if times > 0.0 { c.heats + 1 } else { c.heats.saturating_sub(1) };
}

/// What squares of the offsets a heat takes away.
fn gain(c: &Candidate, left: &[f64]) -> f64 {
    left.iter().zip(&c.takes).map(|(l, t)| 2.0 * l * t - t * t).sum()
}

/// The place that takes most away; one already heated only if no other helps.
fn next(all: &[Candidate], left: &[f64]) -> Option<usize> {
    let best = |heats: u32| {
        let open = (0..all.len()).filter(|k| all[*k].heats == heats);
        let found = open.map(|k| (k, gain(&all[k], left))).filter(|(_, g)| *g > 0.0);
        found.max_by(|p, q| p.1.total_cmp(&q.1)).map(|(k, _)| k)
    };
    (0..MOST_A_PLACE).find_map(best)
}

/// Moves a heat to the next place as long as that leaves less.
fn exchange(all: &mut [Candidate], left: &mut [f64]) {
    let sum = |left: &[f64]| left.iter().map(|l| l * l).sum::<f64>();
    for _ in 0..MOST_HEATS {
        let mut moved = false;
        for k in 0..all.len() {
            for to in [k.wrapping_sub(1), k + 1] {
                if all[k].heats != 1 || all.get(to).is_none_or(|c| c.heats > 0) {
                    continue;
                }
                let mut tried = left.to_vec();
                for ((l, from), onto) in tried.iter_mut().zip(&all[k].takes).zip(&all[to].takes) {
                    *l += from - onto;
                }
                if sum(&tried) < sum(left) * (1.0 - 1e-9) {
                    add(&mut all[k], left, -1.0);
                    add(&mut all[to], left, 1.0);
                    moved = true;
                }
            }
        }
        if !moved {
            break;
        }
    }
}

/// Turns and groups, from the middle of all places outward, and how often work waits for steel to cool.
///
/// A place stays hot, with its jack set, until it is cold. So none is heated beside it unless both jacks stand clear of each other from
/// support to support: otherwise their moments would add up in hot steel, and a foot might stand on it.
fn order(places: &mut [HeatPlace], in_turn: usize, pad_mm: f64) -> u32 {
    let (Some(first), Some(last)) = (places.first(), places.last()) else { return 0 };
    let middle = 0.5 * (first.x_mm + last.x_mm);
    let mut open: Vec<usize> = (0..places.len()).collect();
    open.sort_by(|i, j| (places[*i].x_mm - middle).abs().total_cmp(&(places[*j].x_mm - middle).abs()));
    let (mut turn, mut groups) = (0, Vec::new());
    while !open.is_empty() {
        let mut group: Vec<usize> = Vec::new();
        open.retain(|k| {
            let takes =
                group.len() < in_turn && group.iter().all(|g| apart(&places[*g], &places[*k], pad_mm));
            if takes {
                group.push(*k);
            }
            !takes
        });
        for k in &group {
            turn += 1;
            (places[*k].turn, places[*k].group) = (turn, groups.len() + 1);
        }
        groups.push(group);
    }
    // a group waits as often as its most heated place is heated
    groups.iter().filter_map(|g| g.iter().map(|k| places[*k].heats).max()).sum()
}

/// Whether the jacks of two places stand clear of each other, pads and all.
fn apart(p: &HeatPlace, q: &HeatPlace, pad_mm: f64) -> bool {
    let ([a, b], [c, d]) = (p.jack.supports_mm, q.jack.supports_mm);
    b + pad_mm <= c || d + pad_mm <= a
}

impl Heating<'_> {
    fn candidates(&self) -> (Vec<Candidate>, Option<Unfit>) {
        let length = self.member.length_mm;
        let (start, end) =
            (self.x_mm.first().copied().unwrap_or(0.0), self.x_mm.last().copied().unwrap_or(length));
        let plates = self.member.plates_at(0.5 * length);
        let wide = if self.strong { 0.0 } else { plates.outer_mm.0.max(plates.inner_mm.0) };
        let step = APART_MM.max(wide).max(length / LOOKS);
        let count = (length / step).floor().max(1.0);
        let (mut out, mut unfit) = (Vec::new(), None);
        let mut nearest = f64::INFINITY;
        for i in 1..count as u32 {
            let x = f64::from(i) / count * length;
            if !(self.free)(x) || x <= start || x >= end {
                continue;
            }
            let offset = between(self.x_mm, |i| self.offset_mm[i], x);
            let heated = PushFrom::against(offset, self.strong);
            match place(self.member, x, heated, self.response, self.most_c, &self.jack) {
                Ok(place) if place.rotation_rad > 0.0 => {
                    let turn = -heated.sign() * place.rotation_rad;
                    let takes =
                        self.x_mm.iter().map(|s| turn * kink_offset_mm(s - start, x - start, end - start));
                    out.push(Candidate { takes: takes.collect(), place, heats: 0 });
                }
                Ok(_) => {}
                Err(e) => {
                    let off = (x - 0.5 * length).abs();
                    if off < nearest {
                        (nearest, unfit) = (off, Some(e));
                    }
                }
            }
        }
        (out, unfit)
    }
}
