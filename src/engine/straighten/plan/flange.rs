//! Ways to bring a flange back to square.

use super::price::{Price, fails};
use super::{Block, Limit, Method, Step, Task, Way, Work};
use crate::member::Seam;
use crate::straighten::decide::{Action, Piece};
use crate::straighten::tilt::{fold, passes};
use crate::tolerance::Quantity;
use crate::units::Said;

/// Scatter of a rolled or heated angle over the angle, after calibration on the first metre (choice).
const ROLLED_SD: f64 = 0.15;
const HEATED_SD: f64 = 0.35;
/// A cup smaller than this at the toes is none: what is out is tilt (choice).
const NO_CUP_MM: f64 = 0.1;
const AFTER: [&str; 3] =
    ["toes with a square on the web, two stations a metre", "weld toes for cracks", "camber and sweep"];

/// Largest angle between both halves of a flange (rad, + toward the web) and flange width there, mm.
fn worst(task: &Task<'_>, seam: Seam) -> Option<(f64, f64)> {
    task.shape
        .toes
        .iter()
        .filter(|t| t.seam == seam)
        .map(|t| {
            let width = task.member.plates_at(t.x_mm).flange_mm(seam).0;
            (t.angle_rad(width), width)
        })
        .max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))
}

/// Whether a toe of this flange is to be straightened; the other flange may be the one that is out.
fn is_out(task: &Task<'_>, seam: Seam) -> bool {
    let judged = task.shape.toes.iter().filter(|t| t.seam == seam).flat_map(|t| task.goals.of_toes(t));
    judged.into_iter().any(|(value, limits)| {
        Piece { value, measurements: task.measurements }.action(&limits) == Action::Straighten
    })
}

/// Every way for one flange, and every block. Camber that a way brings stands in its passes.
pub(super) fn ways(task: &Task<'_>, seam: Seam, cold: bool, heat: bool) -> (Vec<Way>, Vec<Block>) {
    let (mut ways, mut blocks) = (Vec::new(), Vec::new());
    if !is_out(task, seam) {
        return (ways, blocks);
    }
    let Some((angle, width)) = worst(task, seam) else { return (ways, blocks) };
    if 0.25 * width * angle.abs() < NO_CUP_MM {
        return (ways, blocks);
    }
    for found in [rolled(task, seam, angle, width, cold), lines(task, seam, angle, width, heat)] {
        match found {
            Ok(way) => ways.push(way),
            Err(block) => blocks.push(block),
        }
    }
    (ways, blocks)
}

fn way(task: &Task<'_>, seam: Seam, method: Method, work: Work, left: f64, sd: f64, runs: f64) -> Way {
    let rates = &task.shop.rates;
    let tolerance = task.goals.flange_mm();
    let measured = sd.hypot(task.goals.toe.measuring_sd.max(task.goals.cup.measuring_sd));
    let failing = fails(left, measured, tolerance);
    let setup = if method == Method::Roller { rates.press_setup_min } else { rates.heat_setup_min };
    let consumed = if method == Method::LineHeat { runs * rates.per_heat } else { 0.0 };
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

fn rolled(task: &Task<'_>, seam: Seam, angle: f64, width: f64, refused: bool) -> Result<Way, Block> {
    const NAME: &str = "rollers or dies on the flange";
    let block = |limit, found: Said, help: &'static str| Err(Block::new(NAME, limit, found, help));
    if refused {
        return block(Limit::Refused, "cold work is refused".into(), "see the refusals");
    }
    let Some(r) = task.shop.roller else {
        return block(Limit::NoTool, "no rollers or dies".into(), "give their sizes and force");
    };
    let thickness = task.member.plates_at(0.5 * task.member.length_mm).flange_mm(seam).1;
    let bend = match fold(angle.abs(), thickness, r.bend_mm, r.arm_mm, r.contact_mm, &task.member.steel) {
        Ok(bend) => bend,
        Err(e) => return block(Limit::NoMethod, e.to_string().into(), "measure the toes again"),
    };
    if !bend.allowed {
        let found = format!("the bend strains the weld toes by {:.1} %, 1.5 % allowed", 100.0 * bend.strain);
        return block(
            Limit::Strain,
            found.into(),
            "a wider bend (rounder dies), several stands, or line heat",
        );
    }
    if bend.force_n > r.most_n {
        let found = Said::from("").force(bend.force_n).and(" needed, ").force(r.most_n).and(" there");
        return block(Limit::Force, found, "a shorter contact, a longer arm, or line heat");
    }
    let work = Work::Fold { flange: seam, angle_rad: angle, fold: bend };
    let sd = ROLLED_SD * 0.25 * width * angle.abs();
    Ok(way(task, seam, Method::Roller, work, 0.0, sd, 1.0))
}

fn lines(task: &Task<'_>, seam: Seam, angle: f64, width: f64, refused: bool) -> Result<Way, Block> {
    const NAME: &str = "lines of heat on the back of the flange";
    let block = |limit, found: &'static str, help: &'static str| Err(Block::new(NAME, limit, found, help));
    if refused {
        return block(Limit::Refused, "heat is refused", "see the refusals");
    }
    let Some(tools) = task.shop.heat else {
        return block(Limit::NoTool, "no torches", "give torch and heat");
    };
    if angle <= 0.0 {
        return block(
            Limit::NoMethod,
            "the halves bend away from the web; a line on the back makes it worse",
            "press",
        );
    }
    let Some(found) = passes(task.member, seam, angle, &tools.torch) else {
        return block(
            Limit::Heats,
            "more passes than advised",
            "a torch heat near 0.59 of the thickness, or press",
        );
    };
    let left = 0.25 * width * found.left_rad.abs();
    let sd = HEATED_SD * 0.25 * width * angle;
    let runs = f64::from(found.count);
    Ok(way(task, seam, Method::LineHeat, Work::Lines { flange: seam, passes: found }, left, sd, runs))
}
