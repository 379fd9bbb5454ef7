//! The whole order, mark after mark on all cores.

use super::basis::{basis, shape};
use super::drawn::{Drawn, Draws};
use super::mark::{Worked, work};
use super::result::{OrderResult, Part};
use super::sums::Sums;
use super::tally::Likely;
use super::week::Week;
use super::what_if::less;
use crate::job::build;
use crate::job::file::JobFile;
use crate::prediction::{Job, Prediction, predict, predict_shape};
use crate::scatter::PlanFault;
use crate::shop::Shop;
use crate::straighten::decide::Action;
use crate::straighten::piece::Making;
use crate::straighten::shape::OutOfStraight;
use crate::tolerance::Quantity;
use crate::units::System;
use rayon::prelude::*;

/// One line of an order: so many pieces of one mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Mark.
    pub mark: String,
    /// Its job file, as given.
    pub path: String,
    /// Its job.
    pub file: JobFile,
    /// Pieces.
    pub quantity: u32,
    /// When it is wanted.
    pub week: Option<Week>,
    /// Family of the user's own.
    pub family: Option<String>,
}

/// An order, and what it is judged by.
#[derive(Debug, Clone)]
pub struct Order<'a> {
    /// Marks.
    pub lines: &'a [Line],
    /// Weeks to spread the pieces over in the order of the list; without them the lines' own weeks count.
    pub weeks: Option<u32>,
    /// How pieces are drawn.
    pub draws: Draws,
    /// What is done before welding against the predicted distortion.
    pub making: Making,
    /// The shop.
    pub shop: &'a Shop,
    /// Hours a week that the press is there.
    pub capacity_h: Option<f64>,
    /// Units for the names of families.
    pub system: System,
}

/// What is known of a job once its pieces are drawn and planned.
pub(super) struct Known {
    pub job: Job,
    pub prediction: Prediction,
    pub worked: Worked,
    pub likely: Likely,
    pub parts: Vec<Part>,
    pub failed: usize,
}

/// A line with what is known of its job.
pub(super) struct Marked<'a> {
    pub line: &'a Line,
    pub known: &'a Known,
}

/// Works out an order. `done` is called after every distinct job, from any thread, with how many lines share it.
///
/// A line whose job does not build is left out; whoever reads the lines complains about it.
///
/// # Errors
/// Draws that cannot be drawn.
pub fn run(order: &Order<'_>, done: impl Fn(usize) + Sync) -> Result<OrderResult, PlanFault> {
    // a job that several marks share is worked out once
    let mut first: Vec<(usize, usize)> = Vec::new();
    let mut of = Vec::with_capacity(order.lines.len());
    for (i, line) in order.lines.iter().enumerate() {
        let known = first.iter().position(|(f, _)| order.lines[*f].file == line.file);
        match known {
            Some(known) => first[known].1 += 1,
            None => first.push((i, 1)),
        }
        of.push(known.unwrap_or(first.len() - 1));
    }
    let known: Vec<Option<Known>> = first
        .into_par_iter()
        .map(|(i, lines)| {
            let found = Known::of(&order.lines[i].file, order);
            done(lines);
            found
        })
        .collect::<Result<_, _>>()?;
    let lines = order.lines.iter().zip(of);
    let marks: Vec<Marked<'_>> =
        lines.filter_map(|(line, of)| Some(Marked { line, known: known[of].as_ref()? })).collect();
    Ok(Sums::new(order, &marks).result())
}

impl Known {
    /// Draws and plans the pieces of a job; None if the job does not build.
    fn of(file: &JobFile, order: &Order<'_>) -> Result<Option<Self>, PlanFault> {
        let Ok(job) = build(file) else { return Ok(None) };
        let prediction = predict(&job);
        let basis = basis(&job, &prediction, order.shop);
        let Some(expected) = shape(&job, &predict_shape(&job)) else { return Ok(None) };
        let taken = taken_out(&expected, order.making);
        let drawn = Drawn::new(file, order.draws, &basis, |job| {
            shape(job, &predict_shape(job)).map(|s| less(&s, &taken))
        })?;
        let nominal = less(&expected, &taken);
        let worked = work(&basis, &drawn, &nominal);
        let likely =
            |is: &dyn Fn(&super::case::Case) -> bool| Likely::of(&drawn.cases, &drawn.right, drawn.each, is);
        let parts = [Quantity::FlangeToe, Quantity::Sweep, Quantity::Camber].map(|quantity| {
            let (limits, predicted_mm) = match quantity {
                Quantity::FlangeToe => (basis.goals.toe, worst_toe(&nominal)),
                Quantity::Sweep => (basis.goals.sweep, nominal.largest_mm()[1]),
                _ => (basis.goals.camber, nominal.largest_mm()[0]),
            };
            Part {
                quantity,
                limits_mm: limits.is_some().then_some((limits.lowest, limits.highest)),
                predicted_mm,
                likely: likely(&|case| case.action(quantity) == Action::Straighten),
            }
        });
        Ok(Some(Self {
            likely: likely(&super::case::Case::needs),
            parts: parts.to_vec(),
            failed: drawn.cases.iter().filter(|c| c.is_none()).count(),
            job,
            prediction,
            worked,
        }))
    }
}

/// The part of the predicted shape that is made up for before welding.
fn taken_out(expected: &OutOfStraight, making: Making) -> OutOfStraight {
    let mut taken = expected.clone();
    if !making.web_cut {
        taken.camber_mm.fill(0.0);
    }
    taken.sweep_mm.fill(0.0);
    if !making.flanges_preset {
        taken.toes.clear();
    }
    taken
}

fn worst_toe(shape: &OutOfStraight) -> f64 {
    let toes = shape.toes.iter().flat_map(|t| [t.near_mm, t.far_mm]);
    toes.fold(0.0, |m: f64, v| if v.abs() > m.abs() { v } else { m })
}
