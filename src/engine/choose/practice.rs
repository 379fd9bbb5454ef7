//! What the passes of a job break today, what the line cannot take, and why nothing was found.

use super::book::WeldingLine;
use super::candidate::SearchSpace;
use super::known::Scored;
use super::requirement::{Governs, Requirements, Stretch};
use super::scheme::stitched;
use super::score::{inside, met, tightest};
use super::weld::Weld;
use crate::job::check_traced;
use crate::job::file::{JobFile, PassShape};
use crate::prediction::{Carries, Job};
use crate::strength::{SAME_LEG_MM, Strengths, stitch_blocks};
use crate::units::{Message, Part};
use crate::welding::{Pass, Side, fillet};

/// Rules that the job's own passes break. Each piece between two ends of passes is judged by what lies there; of a stretch the worst is
/// said.
pub(crate) fn breaks(job: &Job, file: &JobFile, carries: &Carries, needed: &Requirements) -> Vec<Message> {
    let mut out = Vec::new();
    let fillets = fillets(job, file);
    for s in &needed.stretches {
        let inside = |p: &&Stretch| p.seam == s.seam && p.from_mm < s.to_mm && p.to_mm > s.from_mm;
        let laid: Vec<Laid<'_>> = needed
            .pieces
            .iter()
            .filter(inside)
            .map(|piece| Laid::of(&fillets, piece, &needed.strengths))
            .collect();
        let lacks = |l: &Laid<'_>| l.piece.flow.n_per_mm - l.carried();
        let weak = laid.iter().filter(|l| lacks(l) > 0.0 && !l.is_short_gap());
        if let Some(weakest) = weak.max_by(|a, b| lacks(a).total_cmp(&lacks(b))) {
            let [carried, flow] = [weakest.carried(), weakest.piece.flow.n_per_mm].map(Part::Flow);
            let parts = [carried, flow, carries.code.clause().into()];
            out.push(place(weakest.piece).then(Message::of(": carries {}, needs {} ({})", parts)));
        }
        let one_sided = laid.iter().find(|l| l.piece.both_sides.is_some() && !l.both());
        if let Some((l, why)) = one_sided.and_then(|l| Some((l, l.piece.both_sides.clone()?))) {
            out.push(place(l.piece).and(": welded on one side where both are needed: ").then(why));
        }
        let small = laid.iter().filter_map(|l| Some((l, l.smallest_mm()?)));
        let mut small = small.filter(|(l, leg)| *leg < l.minimum_mm() - SAME_LEG_MM / 2.0);
        if let Some((l, leg)) = small.next() {
            let legs = [leg, l.minimum_mm()].map(Part::Plate);
            out.push(place(l.piece).then(Message::of(": leg {} below the minimum of {}", legs)));
        }
    }
    out.extend(stitches(job, file, carries));
    out
}

/// What lies on the two sides of a piece of a seam, near and far: leg of the finished fillet, mm, and what it carries, N/mm.
struct Laid<'n> {
    piece: &'n Stretch,
    sides: [Option<(f64, f64)>; 2],
}

impl<'n> Laid<'n> {
    /// Runs of one fillet lie one on the other, and so does a later pass on an earlier one: the leg there is that of the largest, no sum.
    fn of(fillets: &[(&Pass, f64)], piece: &'n Stretch, strengths: &Strengths) -> Self {
        let middle = 0.5 * (piece.from_mm + piece.to_mm);
        let on = |side: Side| {
            let here = fillets.iter().filter(|(p, _)| p.seam == piece.seam && p.side == side);
            let here = here.filter(|(p, _)| p.from_mm < middle && p.to_mm > middle);
            let each = here.map(|(p, leg)| (*leg, p.welded_fraction * strengths.line_n_per_mm(*leg)));
            each.reduce(|a, b| (a.0.max(b.0), a.1.max(b.1)))
        };
        Self { piece, sides: [Side::Near, Side::Far].map(on) }
    }

    /// N/mm.
    fn carried(&self) -> f64 {
        self.sides.iter().flatten().map(|side| side.1).sum()
    }

    fn both(&self) -> bool {
        self.sides.iter().all(Option::is_some)
    }

    fn smallest_mm(&self) -> Option<f64> {
        self.sides.iter().flatten().map(|side| side.0).reduce(f64::min)
    }

    /// Smallest leg that the rules allow each side, mm.
    fn minimum_mm(&self) -> f64 {
        let one = self.piece.one.as_ref().filter(|_| !self.both());
        one.unwrap_or(&self.piece.two).minimum_mm
    }

    /// Whether it is a place without weld no longer than stitches leave: what lies beside it carries its flow, too.
    fn is_short_gap(&self) -> bool {
        self.sides.iter().all(Option::is_none) && self.piece.to_mm - self.piece.from_mm <= STITCH_GAP.1
    }
}

/// Passes with the legs that carry, mm: a stated leg is that over any root gap, of one that follows from a deposit the gap takes its part.
fn fillets<'j>(job: &'j Job, file: &JobFile) -> Vec<(&'j Pass, f64)> {
    let carries = |(pass, from): (&'j Pass, usize)| {
        let stated = file.passes.get(from).is_none_or(|shape| shape.leg.is_some());
        let leg = if stated { pass.leg_mm } else { fillet::leg_left_mm(pass.leg_mm, job.fit_up_gap_mm) };
        (pass, leg)
    };
    laid_from(job, file).map(carries).collect()
}

/// Where a stretch is.
fn place(s: &Stretch) -> Message {
    let ends = [s.seam.name().into(), Part::Position(s.from_mm), Part::Position(s.to_mm)];
    Message::of("{} seam, {} to {}", ends)
}

/// Stitches that are too short for the code of the strength check and the finished leg.
fn stitches(job: &Job, file: &JobFile, carries: &Carries) -> Vec<Message> {
    let standard = carries.code.standard();
    let laid: Vec<(&Pass, usize)> = laid_from(job, file).collect();
    let found = |(index, pass): (usize, &PassShape)| {
        let stitch = pass.intermittent.as_ref()?.weld_mm();
        let own = laid.iter().filter(|(_, from)| *from == index);
        let leg = own.map(|(p, _)| p.leg_mm).reduce(f64::max)?;
        let rule = stitch_blocks(standard, stitch, leg)?;
        Some(Message::of(
            "{} seam: stitches of {}; {} ({})",
            [pass.seam.name().into(), Part::Plate(stitch), rule.words.into(), rule.origin.marked().into()],
        ))
    };
    file.passes.iter().enumerate().filter_map(found).collect()
}

/// The passes of a job, each with the number of the pass of its file that it is of, or a run of.
pub(super) fn laid_from<'j>(job: &'j Job, file: &JobFile) -> impl Iterator<Item = (&'j Pass, usize)> {
    let origins = check_traced(file).map(|(_, origins)| origins).unwrap_or_default();
    job.passes.iter().zip(origins)
}

/// What the line cannot take of a member.
pub(crate) fn line_blocks(job: &Job, line: &WeldingLine) -> Vec<Message> {
    let mut out = Vec::new();
    let depths = job.member.depth.points().iter().map(|p| p.1);
    let (shallow, deep) = depths.fold((f64::INFINITY, 0.0_f64), |(l, h), d| (l.min(d), h.max(d)));
    if shallow < line.web_mm.0 || deep > line.web_mm.1 {
        let sizes = [shallow, deep, line.web_mm.0, line.web_mm.1].map(Part::Plate);
        out.push(Message::of("web {} to {} deep: the line takes {} to {}", sizes));
    }
    for p in job.member.outer_flange.iter().chain(&job.member.inner_flange) {
        let (low, high) = line.flange_width_mm;
        if p.width_mm < low || p.width_mm > high || p.thickness_mm > line.thickest_flange_mm {
            let sizes = [p.width_mm, p.thickness_mm, low, high, line.thickest_flange_mm].map(Part::Plate);
            out.push(Message::of("flange {} × {}: the line takes {} to {} wide and up to {} thick", sizes));
        }
    }
    let steepest = job.member.depth.steepest_deg();
    if steepest > line.head_pivot_deg {
        let angles = [format!("{steepest:.1}°").into(), format!("{:.0}°", line.head_pivot_deg).into()];
        out.push(Message::of("inner flange inclined by {}: the heads follow {}", angles));
    }
    out.dedup();
    out
}

/// How the job's own passes are laid.
pub(super) fn words(job: &Job, file: &JobFile) -> Message {
    let far = job.passes.iter().any(|p| p.side == Side::Far);
    let sides = if far { "near and far side" } else { "near side only" };
    let plain = match job.orders.len() {
        1 => format!("in one run, {sides}"),
        n => format!("in {n} runs, {sides}"),
    };
    let mut all = own_stitches(file).collect::<Vec<_>>();
    all.dedup();
    let partly = file.passes.iter().any(|p| p.intermittent.is_none());
    all.into_iter().fold(plain.into(), |said, stitch| said.then(stitched(stitch, partly)))
}

/// Stitches of the file, each (weld mm, gap mm).
fn own_stitches(file: &JobFile) -> impl Iterator<Item = (f64, f64)> {
    file.passes.iter().filter_map(|p| p.intermittent.as_ref().map(|s| (s.weld_mm(), s.gap_mm())))
}

/// What opens a stretch whose leg is larger than it takes.
fn way_out(governs: &Governs) -> Message {
    match governs {
        Governs::Minimum(rule) => Message::of(
            "; it is the minimum of {}: `minimums` in [demand] names other rules, `minimums = []` none, and --least-leg is \
             your own",
            [rule.clone().into()],
        ),
        Governs::Strength(_) => "; it is the strength: weld both sides there (`both_sides` in [demand]), or a procedure with larger \
                                 legs"
            .into(),
        Governs::OwnBound | Governs::Process | Governs::Search => "; it is your own --least-leg".into(),
    }
}

/// The sentence that opens a search that failed for want of preheat alone.
fn too_cold(ground: &SearchSpace<'_>) -> Option<Message> {
    let wished =
        |e: &&super::book::Entry| ground.wishes.only.is_empty() || ground.wishes.only.contains(&e.name);
    let entries = || ground.book.entries.iter().filter(wished);
    if entries().any(|e| ground.warm_enough(e)) {
        return None;
    }
    let least = entries().map(|e| ground.preheat(e)).min_by(|a, b| a.least_c.total_cmp(&b.least_c))?;
    Some(Message::of(
        "plates of {} ask for steel of {} at least ({}), and no procedure that may be used is as warm: \
         `preheat = \"{} °C\"` in its [[book]] makes it possible",
        [
            Part::Plate(ground.thickest_mm()),
            Part::Hottest(least.least_c),
            least.by.into(),
            format!("{:.0}", least.least_c).into(),
        ],
    ))
}

/// Thickest web that stitches are tried on without being asked for, mm (choice: light gauge).
const LIGHT_MM: f64 = 4.0;
/// Shortest stitch tried, mm, and longest clear length between stitches over the thinner part and at most, mm (EN 1993-1-8 4.5.1:
/// 12 t and 200 mm in compression; memory, check).
const STITCH_MM: f64 = 50.0;
const STITCH_GAP: (f64, f64) = (12.0, 200.0);

/// Stitches worth trying: those the job has today, and on light webs the least that the code allows.
pub fn stitches_to_try(job: &Job, file: &JobFile) -> Vec<(f64, f64)> {
    let mut all: Vec<(f64, f64)> = own_stitches(file).collect();
    let web = job.member.web.iter().map(|p| p.thickness_mm).fold(f64::INFINITY, f64::min);
    if web <= LIGHT_MM {
        let gap = (STITCH_GAP.0 * web).min(STITCH_GAP.1);
        all.push((STITCH_MM, (gap / 5.0).floor() * 5.0));
    }
    all.dedup();
    all
}

/// Why nothing was found: legs that no procedure lays, or the limits in the way.
pub(crate) fn why_nothing(ground: &SearchSpace<'_>, all: &[Scored], nearest: Option<&Weld>) -> Vec<Message> {
    let mut out = Vec::new();
    if all.is_empty() {
        if let Some(cold) = too_cold(ground) {
            return vec![cold];
        }
        for s in ground.stretches {
            let most =
                ground.book.entries.iter().filter(|e| ground.may_use(e)).map(|e| ground.largest_mm(s, e));
            let most = most.fold(0.0, f64::max);
            let need = s.one.as_ref().filter(|_| s.both_sides.is_none()).unwrap_or(&s.two);
            if s.two.leg_mm > most + 1e-9 {
                let largest = Message::of(
                    ": a leg of {} is needed, {} is the largest that plates, procedures and bounds take",
                    [need.leg_mm, most].map(Part::Plate),
                );
                out.push(place(s).then(largest).then(way_out(&need.governs)));
            }
        }
        if out.is_empty() {
            let text = "no travel speed fits all legs of a run inside the qualified currents and speeds and those of the line";
            out.push(text.into());
        }
        return out;
    }
    let Some(weld) = nearest else { return out };
    let verdicts = met(ground.wishes, &weld.prediction);
    for v in tightest(&verdicts) {
        let chance = inside(v);
        if chance < ground.wishes.confidence {
            out.push(Message::of(
                "{}: {} ± {} against {} ({} {}), inside with {}",
                [
                    v.quantity.name().into(),
                    Part::Offset(v.value),
                    Part::Offset(v.value_2s),
                    Part::Offset(v.limit),
                    v.standard.into(),
                    v.clause.into(),
                    format!("{:.0} %", 100.0 * chance).into(),
                ],
            ));
        }
    }
    if out.is_empty() {
        let inside = format!("{:.1} %", 100.0 * weld.pieces.inside);
        out.push(format!("every tolerance is held by itself, all together only with {inside}").into());
    }
    out
}
