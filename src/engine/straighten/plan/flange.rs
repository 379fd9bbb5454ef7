//! Ways to bring a flange back to square.

use super::price::{Price, fails};
use super::{Block, BlockingLimit, Roller, Step, StraighteningMethod, Task, Way, Work};
use crate::member::Seam;
use crate::straighten::decide::{Action, MeasuredValue};
use crate::straighten::flange::{Fold, FoldError, STRAIN_LIMIT, fold, most_angle_rad, passes};
use crate::tolerance::Quantity;
use crate::units::{Message, Part};

/// Scatter of a rolled angle over the angle, after calibration on the first metre (choice).
const ROLLED_SD: f64 = 0.15;
/// The same of a heated one (choice).
const HEATED_SD: f64 = 0.35;
/// A cup smaller than this at the toes is none: what is out is tilt (choice).
const NO_CUP_MM: f64 = 0.1;
const AFTER: [&str; 3] =
    ["toes with a square on the web, two stations a metre", "weld toes for cracks", "camber and sweep"];

/// Part of what the limit leaves beside the tilt that a flange is bent back to, if strain and passes permit (choice).
const PART_OF_LIMIT: f64 = 0.5;
/// Deviations kept between what is left and the limit: 5 % of the pieces (normal law).
const KEPT: f64 = 1.645;

/// A strain over the limit, in as many places as it takes to see that it is over.
fn too_far(strain: f64) -> String {
    let percent = |value: f64, places: usize| format!("{:.places$} %", 100.0 * value);
    let places =
        (1..6).find(|places| percent(strain, *places) != percent(STRAIN_LIMIT, *places)).unwrap_or(6);
    let (found, most) = (percent(strain, places), percent(STRAIN_LIMIT, 1));
    format!("even the least bend strains the weld toes by {found}, {most} allowed (our limit)")
}

/// The worst cup of a flange.
#[derive(Clone, Copy)]
struct Cup {
    /// Angle between both halves, rad, + toward the web.
    angle: f64,
    /// Width of the flange there, mm.
    width: f64,
    /// Tilt of its toes there, mm without sign.
    tilt_mm: f64,
}

impl Cup {
    /// Toe offset of an angle, mm.
    fn mm(&self, angle: f64) -> f64 {
        0.25 * self.width * angle.abs()
    }

    /// What the limits leave for the cup, mm: a toe is out by cup and tilt together.
    fn room_mm(&self, task: &Task<'_>) -> f64 {
        (task.goals.flange_mm() - self.tilt_mm).max(0.0)
    }

    /// Least correction (mm of toe) that keeps 95 % of the pieces inside, if it comes out with that scatter over its size.
    fn least_mm(&self, task: &Task<'_>, scatter: f64) -> f64 {
        let (cup, room) = (self.mm(self.angle), self.room_mm(task));
        let read = task.goals.toe.measuring_sd.max(task.goals.cup.measuring_sd);
        let kept = |taken: f64| room - KEPT * (scatter * taken).hypot(read) - (cup - taken);
        let (mut low, mut high) = (0.0, cup);
        if kept(high) < 0.0 {
            return cup;
        }
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if kept(middle) < 0.0 { low = middle } else { high = middle }
        }
        high
    }
}

/// The largest cup.
fn worst(task: &Task<'_>, seam: Seam) -> Option<Cup> {
    task.shape
        .toes
        .iter()
        .filter(|t| t.seam == seam)
        .map(|t| {
            let width = task.member.plates_at(t.x_mm).flange_mm(seam).0;
            Cup { angle: t.angle_rad(width), width, tilt_mm: 0.5 * (t.near_mm - t.far_mm).abs() }
        })
        .max_by(|a, b| a.angle.abs().total_cmp(&b.angle.abs()))
}

/// Whether a toe of this flange is to be straightened; the other flange may be the one that is out.
fn is_out(task: &Task<'_>, seam: Seam) -> bool {
    let judged = task.shape.toes.iter().filter(|t| t.seam == seam).flat_map(|t| task.goals.of_toes(t));
    judged.into_iter().any(|(value, limits)| {
        MeasuredValue { value, measurements: task.measurements }.action(&limits) == Action::Straighten
    })
}

/// Every way for one flange, and every block. Camber that a way brings stands in its passes.
pub(super) fn ways(task: &Task<'_>, seam: Seam, cold: bool, heat: bool) -> Vec<Result<Way, Block>> {
    let cup = worst(task, seam).filter(|_| is_out(task, seam));
    match cup {
        None => Vec::new(),
        Some(cup) if cup.mm(cup.angle) < NO_CUP_MM => Vec::new(),
        Some(cup) => vec![rolled(task, seam, &cup, cold), lines(task, seam, &cup, heat)],
    }
}

fn way(
    task: &Task<'_>,
    (seam, cup): (Seam, &Cup),
    method: StraighteningMethod,
    work: Work,
    left: f64,
    sd: f64,
    runs: f64,
) -> Way {
    let rates = &task.shop.rates;
    let tolerance = cup.room_mm(task);
    let measured = sd.hypot(task.goals.toe.measuring_sd.max(task.goals.cup.measuring_sd));
    let failing = fails(left, measured, tolerance);
    let setup =
        if method == StraighteningMethod::Roller { rates.press_setup_min } else { rates.heat_setup_min };
    let consumed = if method == StraighteningMethod::LineHeat { runs * rates.per_heat } else { 0.0 };
    Way {
        method,
        steps: vec![Step {
            number: 1,
            quantity: Quantity::FlangeToe,
            side: match seam {
                Seam::Outer => "outer flange",
                Seam::Inner => "inner flange",
            },
            work,
            check_after: AFTER.to_vec(),
        }],
        left_mm: left,
        left_sd_mm: sd,
        price: Price::runs(rates, setup, runs, task.member.length_mm, consumed, failing),
    }
}

/// The largest bend up to half of the limit that strains the weld toes no more than allowed; at least what the limit asks for.
fn bend(task: &Task<'_>, r: &Roller, thickness: f64, cup: &Cup) -> Result<(f64, Fold), FoldError> {
    let whole = cup.mm(cup.angle);
    let least = cup.least_mm(task, ROLLED_SD);
    let aim = (whole - PART_OF_LIMIT * cup.room_mm(task)).max(least);
    let of = |taken_mm: f64| {
        let angle = taken_mm / whole * cup.angle.abs();
        fold(angle, thickness, r.bend_mm, r.arm_mm, r.contact_mm, &task.member.steel).map(|f| (angle, f))
    };
    let found = of(aim)?;
    if found.1.allowed {
        return Ok(found);
    }
    let found = of(least)?;
    // what is just inside the limit may come out beyond it: the price tells the chance
    if found.1.allowed { Ok(found) } else { of(cup.least_mm(task, 0.0)) }
}

fn rolled(task: &Task<'_>, seam: Seam, cup: &Cup, refused: bool) -> Result<Way, Block> {
    const NAME: &str = "rollers or dies on the flange";
    let block = |limit, found: Message, help: &'static str| Err(Block::new(NAME, limit, found, help));
    if refused {
        return block(BlockingLimit::Refused, "cold work is refused".into(), "see the refusals");
    }
    let Some(r) = task.shop.roller else {
        return block(BlockingLimit::NoTool, "no rollers or dies".into(), "give their sizes and force");
    };
    let thickness = task.member.plates_at(0.5 * task.member.length_mm).flange_mm(seam).1;
    let (taken, bend) = match bend(task, &r, thickness, cup) {
        Ok(found) => found,
        Err(e) => return block(BlockingLimit::NoMethod, e.to_string().into(), "measure the toes again"),
    };
    if !bend.allowed {
        let help = "a wider bend (rounder dies), several stands, or line heat";
        return block(BlockingLimit::Strain, too_far(bend.strain).into(), help);
    }
    if bend.force_n > r.most_n {
        let found = Message::of("{} needed, {} in the rollers", [bend.force_n, r.most_n].map(Part::Force));
        return block(BlockingLimit::Force, found, "a shorter contact, a longer arm, or line heat");
    }
    let work = Work::Fold { flange: seam, angle_rad: taken.copysign(cup.angle), fold: bend };
    let left = cup.mm(cup.angle.abs() - taken);
    Ok(way(task, (seam, cup), StraighteningMethod::Roller, work, left, ROLLED_SD * cup.mm(taken), 1.0))
}

fn lines(task: &Task<'_>, seam: Seam, cup: &Cup, refused: bool) -> Result<Way, Block> {
    const NAME: &str = "lines of heat on the back of the flange";
    let block = |limit, found: &'static str, help: &'static str| Err(Block::new(NAME, limit, found, help));
    if refused {
        return block(BlockingLimit::Refused, "heat is refused", "see the refusals");
    }
    let Some(tools) = task.shop.heat else {
        return block(BlockingLimit::NoTool, "no torches", "give torch and heat");
    };
    if cup.angle <= 0.0 {
        let found = "the halves bend away from the web; a line on the back makes it worse";
        return block(BlockingLimit::NoMethod, found, "press");
    }
    // as few lines as bring the cup to half of the limit, or if that takes too many just inside it
    let whole = cup.mm(cup.angle);
    let leave = |mm: f64| cup.angle * mm.max(0.0) / whole;
    let most = leave(whole - cup.least_mm(task, 0.0));
    let usual = leave(PART_OF_LIMIT * cup.room_mm(task)).min(most);
    let found =
        [usual, most].into_iter().find_map(|leave| passes(task.member, seam, cup.angle, leave, &tools.torch));
    let Some(found) = found else {
        let thickness = task.member.plates_at(0.5 * task.member.length_mm).flange_mm(seam).1;
        let found = Message::of(
            "six lines, one on the other (our limit), turn the halves by {}, at least {} is wanted",
            [most_angle_rad(&tools.torch, thickness), cup.angle - most].map(Part::Angle),
        );
        let help = "a torch that heats to about 0.79 of the thickness, rollers or dies";
        return Err(Block::new(NAME, BlockingLimit::Heats, found, help));
    };
    let left = cup.mm(found.left_rad);
    let sd = HEATED_SD * cup.mm(found.angle_rad);
    let runs = f64::from(found.count);
    let work = Work::Lines { flange: seam, passes: found };
    Ok(way(task, (seam, cup), StraighteningMethod::LineHeat, work, left, sd, runs))
}

#[cfg(test)]
mod tests {
    use super::too_far;

    #[test]
    fn a_strain_just_over_the_limit_is_seen_to_be_over_it() {
        for (strain, said) in [(0.018, "1.8 %,"), (0.0152, "1.52 %,"), (0.015_02, "1.502 %,")] {
            let text = too_far(strain);
            assert!(text.contains(said) && text.contains("1.5 % allowed"), "{strain}: {text}");
        }
    }
}
