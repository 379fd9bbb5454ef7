//! What the rows of a sampled study say: spread of every result, chance of being out, and which input matters.

use super::axis::{Axis, Takes};
use super::definition::Study;
use super::ends::end_words;
use super::table::Table;
use crate::scatter::{
    BiasAndScatter, Chance, OneAtATime, Running, Share, bias_and_scatter, one_at_a_time, one_at_a_time_cases,
    one_at_a_time_point, quantile, shares,
};

/// Results at this level or above mean "beyond the limit" in a column of zeros and ones.
const HALF: f64 = 0.5;
/// Draws used to see what pieces would be if the model were right (a choice).
const RIGHT_DRAWS: u64 = 4000;

/// Spread of one result.
#[derive(Debug, Clone, PartialEq)]
pub struct Spreads {
    /// Its column.
    pub name: String,
    /// Mean, deviation, ends.
    pub all: Running,
    /// 5 %, 50 % and 95 % quantile.
    pub quantiles: [f64; 3],
}

/// Chance of one limit to be passed.
#[derive(Debug, Clone, PartialEq)]
pub struct Chances {
    /// The column that says whether it is passed.
    pub name: String,
    /// Over all draws.
    pub all: Chance,
    /// With bias and scatter told apart, if the study draws pieces.
    pub bias_and_scatter: Option<BiasAndScatter>,
}

/// Shares of the variance of one result.
#[derive(Debug, Clone, PartialEq)]
pub struct ResultShares {
    /// Its column.
    pub name: String,
    /// Inputs, the strongest first.
    pub shares: Vec<Share>,
    /// Base draws left out because a case failed.
    pub dropped: usize,
}

impl Study {
    /// Whether inputs are drawn.
    pub const fn is_sampled(&self) -> bool {
        self.draws.is_some()
    }

    /// Whether the model's bias is among what is drawn.
    pub fn draws_bias(&self) -> bool {
        self.draws.as_ref().is_some_and(super::draws::DrawPlan::biased)
    }

    /// Pieces drawn for each draw of the model bias; 1 if these are not told apart.
    pub fn pieces(&self) -> usize {
        self.draws.as_ref().map_or(1, super::draws::DrawPlan::pieces)
    }

    /// Whether there is one point of the grid only, so that all rows are draws of the same thing.
    pub fn one_point(&self) -> bool {
        self.grid.count() == Some(1)
    }

    /// Whether a column is a size that can vary: no verdict, and no limit.
    fn is_size(name: &str) -> bool {
        !Self::is_chance(name) && !name.ends_with(".limit_mm")
    }

    /// Whether a column says "beyond a limit".
    fn is_chance(name: &str) -> bool {
        name.starts_with("verdicts.") && (name.ends_with(".beyond") || name.ends_with(".out"))
    }

    /// Spread of every result that is a size.
    pub fn spreads(&self, table: &Table) -> Vec<Spreads> {
        let sizes = self.collect.iter().filter(|c| Self::is_size(&c.name));
        sizes
            .filter_map(|c| {
                let numbers = table.column(&c.name)?.numbers()?;
                let mut all = Running::default();
                numbers.iter().for_each(|x| all.add(*x));
                let mut sorted: Vec<f64> = numbers.iter().copied().filter(|x| x.is_finite()).collect();
                sorted.sort_by(f64::total_cmp);
                let at = |p| quantile(&sorted, p).unwrap_or(f64::NAN);
                Some(Spreads { name: c.name.clone(), all, quantiles: [at(0.05), at(0.5), at(0.95)] })
            })
            .collect()
    }

    /// Chance of every limit collected.
    pub fn chances(&self, table: &Table) -> Vec<Chances> {
        let beyond = |x: f64| x > HALF;
        let pieces = self.pieces();
        let at_middle = if pieces > 1 { self.without_bias() } else { Vec::new() };
        let mut out = Vec::new();
        for (column, collected) in self.collect.iter().enumerate() {
            let Some(numbers) = table.column(&collected.name).and_then(|c| c.numbers()) else { continue };
            if !Self::is_chance(&collected.name) || numbers.iter().all(|x| x.is_nan()) {
                continue;
            }
            let right: Vec<f64> = at_middle.iter().map(|row| row[column]).collect();
            let bias_and_scatter =
                if pieces > 1 { bias_and_scatter(numbers, pieces, &right, beyond).ok() } else { None };
            out.push(Chances {
                name: collected.name.clone(),
                all: Chance::count(numbers, beyond),
                bias_and_scatter,
            });
        }
        out
    }

    /// How bias and scatter share the variance of a result; `None` unless the study draws pieces.
    pub fn bias_and_scatter(&self, table: &Table, name: &str) -> Option<BiasAndScatter> {
        let pieces = Some(self.pieces()).filter(|pieces| *pieces > 1)?;
        bias_and_scatter(table.column(name)?.numbers()?, pieces, &[], |_| false).ok()
    }

    /// Results with every bias at its middle.
    fn without_bias(&self) -> Vec<Vec<f64>> {
        use rayon::prelude::*;
        let Some(draws) = &self.draws else { return Vec::new() };
        let start = self.grid.at(0);
        let count = draws.count().min(RIGHT_DRAWS);
        (0..count).into_par_iter().map(|i| self.results(&start, &draws.point_without_bias(i)).0).collect()
    }

    /// Names and words of the drawn inputs.
    fn drawn_inputs(&self) -> Vec<(String, &Axis)> {
        let mut out = Vec::new();
        for (axis, (_, many)) in self.axes.iter().zip(&self.coordinates) {
            if matches!(axis.takes, Takes::Draws(..)) {
                out.extend((0..*many).map(|i| (axis.coordinate(i, *many).1, axis)));
            }
        }
        out
    }

    /// Shares of the variance of every size, if the study draws for them.
    pub fn shares(&self, table: &Table) -> Vec<ResultShares> {
        let Some(base) = self.draws.as_ref().and_then(super::draws::DrawPlan::shares) else {
            return Vec::new();
        };
        let inputs: Vec<String> = self.drawn_inputs().into_iter().map(|(words, _)| words).collect();
        let sizes = self.collect.iter().filter(|c| Self::is_size(&c.name));
        sizes
            .filter_map(|c| {
                let numbers = table.column(&c.name)?.numbers()?;
                let found = shares(&inputs, base, numbers).ok()?;
                let mut shares = found.shares;
                shares.sort_by(|a, b| b.total.0.total_cmp(&a.total.0));
                Some(ResultShares { name: c.name.clone(), shares, dropped: found.dropped })
            })
            .collect()
    }

    /// How far each drawn input moves a result from its middle, one at a time, at the first point of the grid; in the unit
    /// shown.
    pub fn swings(&self, name: &str) -> Vec<OneAtATime> {
        let Some(column) = self.collect.iter().position(|c| c.name == name) else { return Vec::new() };
        let inputs = self.drawn_inputs();
        let start = self.grid.at(0);
        let results: Vec<f64> = (0..one_at_a_time_cases(inputs.len()))
            .map(|case| {
                let mut u = vec![0.5; inputs.len()];
                one_at_a_time_point(case, &mut u);
                self.results(&start, &u).0[column]
            })
            .collect();
        let unit = self.shown_unit(self.collect[column].unit);
        let results: Vec<f64> = results.into_iter().map(|result| result / unit).collect();
        let ends = end_words(self, inputs.len());
        let named: Vec<_> = inputs.into_iter().map(|(words, _)| words).zip(ends).collect();
        one_at_a_time(&named, &results).0
    }
}
