//! What the job's own passes take: time, metal and money, by the yardstick of candidates.

use super::book::{Book, WeldingLine};
use super::candidate::{CHANGE_S, CandidateCost, PROCEDURE_S};
use super::laid::laid_from;
use crate::job::file::{JobFile, ProcedureShape};
use crate::prediction::Job;
use crate::steel::DENSITY_KG_PER_MM3;
use crate::units::{Message, Part};
use crate::welding::{HeatSource, Pass, Side, Wait, fillet};

/// Arc power of a usual twin-wire submerged arc, W (600 A, 30 V; choice): for passes known by their heat alone.
const USUAL_ARC_W: f64 = 18_000.0;

/// Time, metal and money of the job's own passes, by the travel speed of their procedures: changes of setting and of wire take their
/// time. A pass without a procedure takes the time of its heat at a usual arc power.
pub(super) fn effort(job: &Job, file: &JobFile, book: &Book) -> CandidateCost {
    let line = &book.line;
    let mut effort = CandidateCost { settings: job.passes.len() as u32, ..CandidateCost::default() };
    let mut up: Option<Side> = None;
    for (at, order) in job.orders.iter().enumerate() {
        let own = || job.passes.iter().filter(|p| p.order == order.number);
        // heads pass the gaps between stitches at the same speed
        let travel_s =
            |p: &Pass| (p.to_mm - p.from_mm) / p.travel_speed_mm_s.unwrap_or_else(|| assumed_mm_s(p, line));
        let burns_s = |p: &Pass| p.welded_fraction() * travel_s(p);
        let lane = |p: &Pass| (p.seam, p.side);
        let longest = |seconds: &dyn Fn(&Pass) -> f64| {
            let of = |pass: &Pass| own().filter(|q| lane(q) == lane(pass)).map(seconds).sum();
            own().map(of).fold(0.0, f64::max)
        };
        effort.arc_s += longest(&burns_s);
        let side = only_side(own());
        let turned = side.is_some() && up.is_some() && side != up;
        // the first run is loaded as it is welded; both sides at once are welded as it lies
        up = side.or(up).or(Some(Side::Near));
        effort.line_s += longest(&travel_s) + line.run_s + if turned { line.turn_over_s } else { 0.0 };
        if at > 0 && order.wait == Wait::Cold {
            effort.line_s += line.cold_s;
            effort.cold_s += line.cold_s;
            effort.waits += 1;
        }
        effort.deposit_kg += own()
            .map(|p| p.deposit_mm2 * p.welded_fraction() * (p.to_mm - p.from_mm) * DENSITY_KG_PER_MM3)
            .sum::<f64>();
    }
    let (settings, wires) = changes(job, file);
    effort.line_s += CHANGE_S * f64::from(settings) + PROCEDURE_S * f64::from(wires);
    effort.changes = settings + wires;
    effort.priced(&book.costs)
}

/// The one side that passes are laid on; none where they are laid on both.
fn only_side<'p>(mut passes: impl Iterator<Item = &'p Pass>) -> Option<Side> {
    let first = passes.next()?.side;
    passes.all(|p| p.side == first).then_some(first)
}

/// Travel speed taken for a pass that no procedure gives one, mm/s: that of its heat at a usual arc power, no faster than the line goes.
/// Where the heat follows from the leg it knows of no root gap; the metal that fills one takes its time all the same.
fn assumed_mm_s(pass: &Pass, line: &WeldingLine) -> f64 {
    let metal = match pass.heat_source {
        HeatSource::Leg => pass.deposit_mm2 / fillet::deposit_mm2(pass.own_leg_mm(), 0.0),
        HeatSource::Procedure | HeatSource::Stated => 1.0,
    };
    (USUAL_ARC_W / (pass.heat_j_per_mm * metal)).min(line.speed_mm_s.1)
}

/// What the times of the job's own passes rest on where no procedure says how fast they are laid.
pub(super) fn assumed(job: &Job, line: &WeldingLine) -> Option<Message> {
    let speeds = job.passes.iter().filter(|p| p.travel_speed_mm_s.is_none()).map(|p| assumed_mm_s(p, line));
    let (slow, fast) = speeds.fold(None, |range: Option<(f64, f64)>, speed| {
        Some(range.map_or((speed, speed), |(slow, fast)| (slow.min(speed), fast.max(speed))))
    })?;
    let taken = if fast - slow < 1e-6 {
        Message::of("{}", [Part::Speed(slow)])
    } else {
        Message::of("{} to {}", [slow, fast].map(Part::Speed))
    };
    let power = format!("{:.0} kW", USUAL_ARC_W / 1000.0);
    Some(Message::from("travel speed assumed where no procedure says it, ").then(taken).then(Message::of(
        ": {} of arc over the heat, at most the line's {}",
        [power.into(), Part::Speed(line.speed_mm_s.1)],
    )))
}

/// How often a setting changes along a seam, or the speed between runs of one wire, and how often the wire or the process does.
fn changes(job: &Job, file: &JobFile) -> (u32, u32) {
    let mut settings = 0;
    let mut wires: Vec<&ProcedureShape> = Vec::new();
    let mut before: Vec<&ProcedureShape> = Vec::new();
    let all: Vec<(&Pass, usize)> = laid_from(job, file).collect();
    for order in &job.orders {
        let mut own: Vec<&Pass> = job.passes.iter().filter(|p| p.order == order.number).collect();
        let lane = |p: &Pass| (p.seam, p.side == Side::Far);
        own.sort_by(|a, b| lane(a).cmp(&lane(b)).then(a.from_mm.total_cmp(&b.from_mm)));
        let heat = |p: &Pass| p.heat_j_per_mm.to_bits();
        let differ = |two: &&[&Pass]| lane(two[0]) == lane(two[1]) && heat(two[0]) != heat(two[1]);
        settings += own.windows(2).filter(differ).count();
        let here = all.iter().filter(|(p, _)| p.order == order.number);
        let laid: Vec<&ProcedureShape> = here
            .filter_map(|(_, from)| file.procedures.get(file.passes.get(*from)?.procedure.as_ref()?))
            .collect();
        let speed = |p: &ProcedureShape| p.travel_speed.value();
        let other = |with: &&ProcedureShape| {
            before.iter().any(|b| b.same_wire(with) && (speed(b) - speed(with)).abs() > 1e-9)
        };
        settings += usize::from(laid.iter().any(other));
        for with in &laid {
            if wires.iter().all(|known| !known.same_wire(with)) {
                wires.push(*with);
            }
        }
        before.extend(laid);
    }
    (settings as u32, wires.len().saturating_sub(1) as u32)
}
