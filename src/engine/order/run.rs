//! The whole order, mark after mark on all cores.

use super::basis::{basis, shape};
use super::drawn::Drawn;
use super::list::{Known, Marked, WorkOrder};
use super::mark::work;
use super::result::{OrderResult, QuantityChance};
use super::sums::Sums;
use super::tally;
use super::what_if::less;
use crate::job::check;
use crate::job::file::JobFile;
use crate::numerics::largest;
use crate::prediction::{Wanted, predict, predict_only};
use crate::scatter::{Draws, OutOfLimits, SamplingFault, out_of_limits};
use crate::straighten::decide::{Action, Limits};
use crate::straighten::piece::{judged_as, predicted};
use crate::tolerance::{Quantity, Verdict};
use rayon::prelude::*;

/// Works out an order. `done` is called after every distinct job, from any thread, with how many lines share it.
///
/// A line whose job does not build is left out; whoever reads the lines complains about it.
///
/// # Errors
/// Draws that cannot be drawn.
pub fn run(order: &WorkOrder<'_>, done: impl Fn(usize) + Sync) -> Result<OrderResult, SamplingFault> {
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
    fn of(file: &JobFile, order: &WorkOrder<'_>) -> Result<Option<Self>, SamplingFault> {
        let Ok(job) = check(file) else { return Ok(None) };
        let prediction = predict(&job);
        let basis = basis(&job, &prediction, order.shop);
        let Some(expected) = shape(&job, &predict_only(&job, &Wanted::SHAPE)) else { return Ok(None) };
        let Ok(made) = predicted(&job, &prediction, order.making) else { return Ok(None) };
        // what is made up for before welding
        let taken = less(&expected, &made);
        let drawn = Drawn::new(&job, file, order.draws, &basis, |shape| less(&shape, &taken))?;
        let nominal = less(&expected, &taken);
        let met = |v: &Verdict| order.making.met(v);
        let judged = || out_of_limits(&job, &prediction.verdicts, Draws::USUAL, met);
        let out = order.verdicts.then(judged).transpose()?;
        let worked = work(&basis, &drawn, &nominal);
        let likely = |is: &dyn Fn(&super::case::Case) -> bool| {
            tally::likely(&drawn.cases, &drawn.right, drawn.each, is)
        };
        let parts = [Quantity::FlangeToe, Quantity::Sweep, Quantity::Camber].map(|quantity| {
            let (limits, predicted_mm) = match quantity {
                Quantity::FlangeToe => {
                    let goals = &basis.piece.goals;
                    let limits = [goals.toe, goals.cup, goals.tilt].into_iter().find(Limits::is_some);
                    let toes = nominal.toes.iter().flat_map(|t| [t.near_mm, t.far_mm]);
                    (limits.unwrap_or(Limits::NONE), largest(toes))
                }
                Quantity::Sweep => (basis.piece.goals.sweep, nominal.largest_mm()[1]),
                _ => (basis.piece.goals.camber, nominal.largest_mm()[0]),
            };
            QuantityChance {
                quantity,
                limits_mm: limits.is_some().then_some((limits.lowest, limits.highest)),
                predicted_mm,
                likely: likely(&|case| case.action(quantity) == Action::Straighten),
                out: out.as_ref().map(|out| out.of(|q| judged_as(q) == quantity)),
            }
        });
        Ok(Some(Self {
            likely: likely(&super::case::Case::needs),
            out: out.as_ref().map(OutOfLimits::any),
            parts: parts.to_vec(),
            pieces: drawn.each,
            failed: drawn.cases.iter().filter(|c| c.is_none()).count(),
            basis,
            job,
            prediction,
            worked,
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::file_of_text;
    use crate::order::{Draws, Line};
    use crate::shop::Shop;
    use crate::shop::read_text;
    use crate::straighten::piece::Fabrication;
    use crate::units::System;

    fn line(stem: &str, quantity: u32, more: &str) -> Line {
        let path = format!("{}/../../studies/jobs/{stem}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = format!("{}\n{more}", std::fs::read_to_string(path).unwrap());
        let file = file_of_text(stem, &text).unwrap_or_else(|c| panic!("{c}"));
        Line { mark: stem.to_owned(), path: String::new(), file, quantity, week: None, family: None }
    }

    fn shop() -> Shop {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/shop/shop.toml");
        read_text("shop.toml", &std::fs::read_to_string(path).unwrap()).unwrap()
    }

    fn found(lines: &[Line], bias: usize, pieces: usize) -> OrderResult {
        let order = WorkOrder {
            lines,
            weeks: None,
            draws: Draws { bias, pieces, seed: 1 },
            making: Fabrication::default(),
            shop: &shop(),
            capacity_h: None,
            heat_capacity_h: None,
            system: System::Si,
            verdicts: false,
        };
        run(&order, |_| ()).unwrap()
    }

    /// A limit near the middle of what the rafter does.
    const TIGHT: &str = "[limits]\nsweep = \"2.9 mm\"\n";
    /// Nothing that all pieces share, so that pieces are independent.
    const NO_BIAS: &str = "[scatter]\nforce = 0.0\nheat_from_leg = 0.0\narm = 0.0\ncup = 0.0\ntilt = 0.0\nseam_one_side = 0.0\n\
                           seam_both_sides = 0.0\ntilt_each_side = 0.0\n";

    #[test]
    fn independent_pieces_need_it_as_the_binomial_law_says() {
        let order = [line("rafter", 50, &format!("{TIGHT}{NO_BIAS}"))];
        let found = found(&order, 200, 20);
        let m = &found.marks[0];
        let (p, n) = (m.likely.chance, 50.0);
        let (mean, luck) = (n * p, (n * p * (1.0 - p)).sqrt());
        let t = &m.totals;
        println!(
            "p {p:.3}: expected {:.2} for {mean:.2}, luck {:.3} for {luck:.3}",
            t.needing.expected, t.luck
        );
        assert!((0.05..0.95).contains(&p), "{p}: nothing to see");
        assert!((t.needing.expected - mean).abs() < 1e-9 * mean);
        // p(1 − p) of 200 draws of 20: its error is below 3 %
        assert!((t.luck / luck - 1.0).abs() < 0.03);
        let (right, error) = (m.likely.if_model_right.unwrap(), m.likely.if_model_right_error.unwrap());
        assert!((right - p).abs() < 4.0 * error, "{right} ± {error}: without bias the model is right");
    }

    #[test]
    fn chance_and_hours_settle_with_more_draws_within_their_errors() {
        let order = [line("rafter", 24, TIGHT)];
        let results = [40, 160, 640].map(|draws| found(&order, draws, 10).marks[0].clone());
        let finest = &results[2];
        for (draws, m) in [40, 160].into_iter().zip(&results) {
            let (a, b) = (&m.likely, &finest.likely);
            let (h, best) = (&m.totals.hours, &finest.totals.hours);
            println!(
                "{draws} draws: chance {:.3} ± {:.3}, {:.2} ± {:.2} h; 640: {:.3} ± {:.3}, {:.2} ± {:.2} h",
                a.chance,
                a.standard_error,
                h.expected,
                h.standard_error,
                b.chance,
                b.standard_error,
                best.expected,
                best.standard_error
            );
            assert!((a.chance - b.chance).abs() < 3.0 * a.standard_error.hypot(b.standard_error));
            assert!((h.expected - best.expected).abs() < 3.0 * h.standard_error.hypot(best.standard_error));
        }
        assert!(finest.likely.standard_error < 0.5 * results[0].likely.standard_error);
    }

    #[test]
    fn threads_and_neighbours_change_nothing() {
        let order = ["rafter", "light", "us_beam"].map(|stem| line(stem, 7, ""));
        let on = |threads| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| found(&order, 20, 5))
        };
        let (one, three) = (on(1), on(3));
        assert_eq!(one, three);
        let alone = found(&order[1..2], 20, 5);
        let beside = one.marks.iter().find(|m| m.mark == "light").unwrap();
        assert_eq!(alone.marks[0].likely, beside.likely, "a mark does not depend on the rest of the order");
    }

    #[test]
    fn prevention_saves_what_it_takes_away_and_sums_add_up() {
        let order = [line("rafter", 24, TIGHT), line("light", 10, "")];
        let found = found(&order, 40, 10);
        let balance = |m: &crate::order::MarkResult| {
            m.fixes.iter().find(|f| f.measure == crate::order::Measure::Balance).cloned().unwrap()
        };
        let m = found.marks.iter().find(|m| m.mark == "rafter").unwrap();
        let fix = balance(m);
        println!("{:.2} h, balanced passes save {:.2} h", m.totals.hours.expected, fix.hours_saved.expected);
        assert!(fix.hours_saved.expected > 0.5 * m.totals.hours.expected && fix.size_mm < 0.0);
        let sum: f64 = found.marks.iter().map(|m| m.totals.hours.expected).sum();
        assert!((sum - found.totals.hours.expected).abs() < 1e-9);
        let families: f64 = found.families.iter().map(|f| f.totals.needing.expected).sum();
        assert!((families - found.totals.needing.expected).abs() < 1e-9);
    }
}
