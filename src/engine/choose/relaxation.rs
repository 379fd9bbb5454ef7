//! What would open a search that found nothing: each remedy with its number, and how likely the member is inside with it.

use super::Constraints;
use super::candidate::SearchSpace;
use super::constraints::{Allow, Objective, Sides, Waits};
use super::known::Scored;
use super::pieces::until;
use super::requirement::needs;
use super::score::{inside, met, tightest, twist_inside};
use super::search::{base, search_for};
use super::weld::{Choosing, Weld};
use crate::angular::hold::{Hold, Tacks};
use crate::prediction::{Job, predict};
use crate::tolerance::{Quantity, Verdict};
use crate::units::{IN_MM, Message, Part};
use serde::Serialize;

/// A remedy.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Relaxation {
    /// Short name: "cut the web", "preset", "thicker flanges" …
    pub what: &'static str,
    /// What to do, with its number.
    pub text: Message,
    /// Chance to be inside every tolerance then, by drawn pieces of the likeliest weld found.
    pub inside: f64,
    /// Whether that is enough.
    pub enough: bool,
}

impl Relaxation {
    fn new(what: &'static str, text: Message, inside: f64, wishes: &Constraints) -> Self {
        Self { what, text, inside, enough: inside >= wishes.confidence }
    }
}

/// Grid of a search made only to see whether a remedy works.
const SMALL: usize = 1500;
/// Steps of the quick law's chance in which two are as likely (choice): between them the expected sizes decide.
const SURE_STEPS: f64 = 1e3;
/// Thickness added in steps, at most (choice: beyond that it is another member).
const MOST_STEPS: usize = 8;

/// Remedies, those that are enough first.
pub(super) fn relaxations(with: &Choosing<'_>, nearest: Option<&Weld>) -> Vec<Relaxation> {
    let mut out = Vec::new();
    if let Some(weld) = nearest {
        let found = allowances(weld, with.wishes);
        out.extend(found.into_iter().map(|opener| searched_again(with, opener)));
    }
    out.extend(firmer(with, nearest));
    out.extend(warmer(with));
    out.extend(bounds(with));
    out.extend(thicker(with));
    // a remedy that does nothing is none
    let now = nearest.map_or(0.0, |w| w.pieces.inside);
    out.retain(|o| o.enough || o.inside > now + 0.05);
    out.sort_by_key(|o| !o.enough);
    out
}

/// What cutting and presetting take away: the mean of a size, not its spread.
fn allowances(weld: &Weld, wishes: &Constraints) -> Vec<Relaxation> {
    let confidence = wishes.confidence;
    let all = met(wishes, &weld.prediction);
    let verdicts = tightest(&all);
    let bad: Vec<Quantity> = verdicts.iter().filter(|v| inside(v) < confidence).map(|v| v.quantity).collect();
    let flange = |q: &Quantity| matches!(q, Quantity::FlangeTilt | Quantity::FlangeCup | Quantity::FlangeToe);
    let mended = |v: &Verdict| Verdict { value: v.made_up, ..v.clone() };
    let with_mended = |which: &dyn Fn(&Quantity) -> bool| {
        let missing: f64 = verdicts
            .iter()
            .map(|v| 1.0 - if which(&v.quantity) { inside(&mended(v)) } else { inside(v) })
            .sum();
        (1.0 - missing).max(0.0)
    };
    let mut out = Vec::new();
    let mut push = |what, text, inside| out.push(Relaxation::new(what, text, inside, wishes));
    let is = |q: Quantity| move |other: &Quantity| *other == q;
    if bad.contains(&Quantity::Camber) {
        let off = verdicts
            .iter()
            .find(|v| v.quantity == Quantity::Camber)
            .map_or(0.0, |v| (mended(v).value - v.value).abs());
        let text = Message::of(
            "cut the web with {} of bow the other way (ordinates: `weldbow cut`): --web-cut",
            [Part::Offset(off)],
        );
        push("pre-camber", text, with_mended(&is(Quantity::Camber)));
    }
    if bad.iter().any(flange) {
        let presets = &weld.prediction.allowance.presets;
        let crown = presets.iter().map(|p| p.crown_rad.abs()).fold(0.0, f64::max);
        let lean = presets.iter().map(|p| p.lean_rad.abs()).fold(0.0, f64::max);
        let text = Message::of(
            "preset the flanges before welding: pre-bend up to {}, pre-tilt up to {} (piece by piece in `weldbow predict`): --preset",
            [crown, lean].map(Part::Angle),
        );
        push("preset", text, with_mended(&flange));
    }
    if bad.contains(&Quantity::Length) {
        let longer = [Part::Offset(weld.prediction.shortening_mm)];
        let text = Message::of("cut the plates longer by {}: --cut-longer", longer);
        push("cut longer", text, with_mended(&is(Quantity::Length)));
    }
    if out.len() > 1 {
        let cut = |q: &Quantity| flange(q) || matches!(q, Quantity::Camber | Quantity::Length);
        let names: Vec<&str> = out.iter().map(|o| o.what).collect();
        let text = format!("{} together", names.join(" and "));
        out.push(Relaxation::new("all allowances", text.into(), with_mended(&cut), wishes));
    }
    out
}

/// An allowance with the best chance that another weld reaches with it: the nearest weld without it may not be that.
fn searched_again(with: &Choosing<'_>, opener: Relaxation) -> Relaxation {
    let mut allow = with.wishes.allow.clone();
    allow.extend(match opener.what {
        "pre-camber" => vec![Allow::Camber],
        "preset" => vec![Allow::Flanges],
        "cut longer" => vec![Allow::Length],
        _ => vec![Allow::Camber, Allow::Flanges, Allow::Length],
    });
    let wishes = Constraints { allow, ..fewer(with) };
    let inside = best_chance(with, &base_with_demand(with.job), &wishes).unwrap_or(0.0);
    Relaxation::new(opener.what, opener.text, inside, &wishes)
}

/// Chance of the likeliest weld that a small search of a job with other wishes finds, as drawn pieces have it: the quick law alone
/// promises more than they bear out where sizes hang together. Nothing if nothing can be laid.
fn best_chance(with: &Choosing<'_>, job: &Job, wishes: &Constraints) -> Option<f64> {
    chance_until(with, job, wishes, f64::NEG_INFINITY)
}

/// The same, but known no better than it takes to know that it is below `wanted`.
fn chance_until(with: &Choosing<'_>, job: &Job, wishes: &Constraints, wanted: f64) -> Option<f64> {
    let carries = job.carries.as_ref()?;
    let found = needs(job, carries, wishes);
    if !found.blocks.is_empty() {
        return None;
    }
    let ground = SearchSpace::new(job, with.book, &found.stretches, wishes);
    // among those that the quick law is sure of, the one that uses least of its tolerances
    let all = search_for(&ground, &[Objective::LeastDistortion]).all;
    let likelier = |a: &Scored, b: &Scored| {
        let sure = |s: &Scored| (s.score.inside * SURE_STEPS).round();
        let order = sure(a).total_cmp(&sure(b));
        order.then(b.score.used.total_cmp(&a.score.used)).is_lt()
    };
    let likeliest = all.iter().reduce(|a, b| if likelier(a, b) { b } else { a })?;
    let mut laid = base(job);
    ground.lay(&likeliest.candidate, &mut laid)?;
    let prediction = predict(&laid);
    let twists = ground.ways.get(likeliest.candidate.way).is_some_and(|way| way.twists);
    let turned = if twists { 1.0 - twist_inside(&laid, &prediction.twist).0 } else { 0.0 };
    let drawn = until(&laid, &prediction.verdicts, wishes, wanted + turned);
    Some((drawn.inside - turned).max(0.0))
}

/// Procedures preheated as the plates ask for, where none is.
fn warmer(with: &Choosing<'_>) -> Option<Relaxation> {
    let wishes = fewer(with);
    let carries = with.job.carries.as_ref()?;
    let found = needs(with.job, carries, &wishes);
    let ground = SearchSpace::new(with.job, with.book, &found.stretches, &wishes);
    if with.book.entries.iter().any(|e| ground.warm_enough(e)) {
        return None;
    }
    let mut book = with.book.clone();
    let mut least_c = f64::INFINITY;
    for entry in &mut book.entries {
        entry.preheat_c = ground.preheat(entry).least_c.max(entry.preheat_c);
        least_c = least_c.min(entry.preheat_c);
    }
    let warm = Choosing { book: &book, wishes: &wishes, ..*with };
    let inside = best_chance(&warm, &base_with_demand(with.job), &wishes).unwrap_or(0.0);
    let text = Message::of("warm the steel to {} (`preheat` in the [[book]])", [Part::Hottest(least_c)]);
    Some(Relaxation::new("preheat", text, inside, &wishes))
}

/// The user's own bounds, each taken away alone.
fn bounds(with: &Choosing<'_>) -> Vec<Relaxation> {
    let wishes = fewer(with);
    let leg = |mm: Option<f64>| [Part::Plate(mm.unwrap_or(0.0))];
    let mut trials: Vec<(&'static str, Message, Constraints)> = Vec::new();
    if wishes.sides != Sides::Any {
        let text = "let the search weld one or both sides".into();
        let what = if wishes.sides == Sides::One { "both sides" } else { "one side" };
        trials.push((what, text, Constraints { sides: Sides::Any, ..wishes.clone() }));
    }
    if wishes.waits != Waits::Any {
        let cold = with.book.line.cold_s / 3600.0;
        let text = format!("let the search wait between runs ({cold:.1} h until cold)").into();
        trials.push(("a wait", text, Constraints { waits: Waits::Any, ..wishes.clone() }));
    }
    if wishes.least_leg_mm.is_some() {
        let text = Message::of("allow legs below {}", leg(wishes.least_leg_mm));
        trials.push(("smaller legs", text, Constraints { least_leg_mm: None, ..wishes.clone() }));
    }
    if wishes.largest_leg_mm.is_some() {
        let text = Message::of("allow legs above {}", leg(wishes.largest_leg_mm));
        trials.push(("larger legs", text, Constraints { largest_leg_mm: None, ..wishes.clone() }));
    }
    if wishes.margin > 0.0 {
        let text = "use the whole of the qualified ranges: --margin 0".into();
        trials.push(("the edge of the ranges", text, Constraints { margin: 0.0, ..wishes.clone() }));
    }
    if !wishes.only.is_empty() {
        let text = "allow every procedure of the book".into();
        trials.push(("other procedures", text, Constraints { only: Vec::new(), ..wishes.clone() }));
    }
    let tried = |(what, text, wishes): (&'static str, Message, Constraints)| {
        let inside = best_chance(with, &base_with_demand(with.job), &wishes)?;
        Some(Relaxation::new(what, text, inside, &wishes))
    };
    trials.into_iter().filter_map(tried).collect()
}

/// Firmer holds of the joint, where a flange is what is out.
fn firmer(with: &Choosing<'_>, nearest: Option<&Weld>) -> Vec<Relaxation> {
    let wishes = fewer(with);
    let turned = nearest.is_none_or(|weld| {
        let all = met(&wishes, &weld.prediction);
        tightest(&all).iter().any(|v| {
            matches!(v.quantity, Quantity::FlangeTilt | Quantity::FlangeToe) && inside(v) < wishes.confidence
        })
    });
    let tried = |hold: Hold| {
        let job = Job { hold, ..base_with_demand(with.job) };
        let inside = best_chance(with, &job, &wishes)?;
        let (what, how) = match hold {
            Hold { square_until_cold: true, .. } => {
                ("held square", "hold the flanges square until they are cold")
            }
            Hold { tacks: Tacks::Along, .. } => ("tacks", "tack along the seam"),
            Hold { .. } => ("rolls", "press flanges and web together around the arc"),
        };
        let part = 100.0 * hold.tilt_part() / with.job.hold.tilt_part();
        let text = format!("{how}: {part:.0} % of the tilt is left ([hold] in the job)").into();
        Some(Relaxation::new(what, text, inside, &wishes))
    };
    if turned { with.job.hold.firmer().into_iter().filter_map(tried).collect() } else { Vec::new() }
}

/// The wishes of a search that is quick.
fn fewer(with: &Choosing<'_>) -> Constraints {
    Constraints { candidates: SMALL, ..with.wishes.clone() }
}

fn base_with_demand(job: &Job) -> Job {
    Job { carries: job.carries.clone(), ..base(job) }
}

/// Thicker flanges, both by the same steps of plate: the first that is enough, or else the thickest tried. The thicker they are the
/// likelier all is held, so steps are doubled until it is and halved back.
fn thicker(with: &Choosing<'_>) -> Option<Relaxation> {
    let step = with.job.units.pick(1.0, IN_MM / 16.0);
    let wishes = fewer(with);
    let by = |steps: usize, wanted: f64| {
        let mut job = base_with_demand(with.job);
        for p in job.member.outer_flange.iter_mut().chain(&mut job.member.inner_flange) {
            p.thickness_mm += step * steps as f64;
        }
        chance_until(with, &job, &wishes, wanted)
    };
    let enough = |inside: f64| inside >= wishes.confidence;
    let (mut too_thin, mut found) = (0, None);
    for steps in [1, 2, 4, MOST_STEPS] {
        let wanted = if steps == MOST_STEPS { f64::NEG_INFINITY } else { wishes.confidence };
        let Some(inside) = by(steps, wanted) else { continue };
        found = Some((steps, inside));
        if enough(inside) {
            break;
        }
        too_thin = steps;
    }
    let (mut steps, mut inside) = found?;
    while enough(inside) && steps - too_thin > 1 {
        let middle = (steps + too_thin) / 2;
        match by(middle, wishes.confidence) {
            Some(at) if enough(at) => (steps, inside) = (middle, at),
            _ => too_thin = middle,
        }
    }
    let text = Message::of("flanges thicker by {}", [Part::Plate(step * steps as f64)]);
    Some(Relaxation::new("thicker flanges", text, inside, &wishes))
}
