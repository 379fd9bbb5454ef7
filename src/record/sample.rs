//! Draws of the unknowns given the record, from several chains at once.

use crate::agreement::{self, Agreement};
use crate::centred::Centred;
use crate::chain::{Chain, chain};
use crate::layout::Layout;
use crate::mode::mode;
use crate::prior::scatter;
use crate::{Kind, Model, RecordFault};
use rayon::prelude::*;

/// How hard to try.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Chains.
    pub chains: usize,
    /// Draws thrown away of each while it warms up.
    pub warm_up: usize,
    /// Draws of each.
    pub draws: usize,
    /// The same seed gives the same draws.
    pub seed: u64,
}

impl Effort {
    /// Of a record that is asked once.
    pub const USUAL: Self = Self { chains: 4, warm_up: 200, draws: 500, seed: 1 };
    /// Of one of many.
    pub const QUICK: Self = Self { chains: 2, warm_up: 150, draws: 300, seed: 1 };

    /// Twice as long.
    #[must_use]
    const fn longer(self) -> Self {
        Self { warm_up: 2 * self.warm_up, draws: 2 * self.draws, ..self }
    }
}

/// Draws of the unknowns, chain after chain.
#[derive(Debug, Clone)]
pub struct Draws {
    /// Draws, each with every unknown.
    pub z: Vec<Vec<f64>>,
    /// Whether the chains agree.
    pub agreement: Agreement,
}

impl Draws {
    /// Mean square of what differs from piece to piece of such a size.
    pub(crate) fn square(&self, kind: Kind, size: f64) -> f64 {
        let own = |z: &Vec<f64>| (size * scatter(kind).at(z[Layout::scatter(kind)])).powi(2);
        self.z.iter().map(own).sum::<f64>() / self.z.len() as f64
    }
}

/// Draws from the posterior of a model. Chains that do not agree are run again, twice as long, twice at most.
///
/// # Errors
/// Readings that fit nothing.
pub fn sample(model: &Model, mut effort: Effort) -> Result<Draws, RecordFault> {
    let top = mode(&mut Centred::new(model)).ok_or(RecordFault::NoFit)?;
    let mut tries = 0;
    loop {
        let chains: Vec<Chain> = (0..effort.chains as u64)
            .into_par_iter()
            .map(|number| chain(model, &top, effort.seed, number, effort.warm_up, effort.draws))
            .collect();
        let draws = joined(chains);
        tries += 1;
        if draws.agreement.holds() || tries == 3 {
            return Ok(draws);
        }
        effort = effort.longer();
    }
}

fn joined(chains: Vec<Chain>) -> Draws {
    let unknowns = chains.first().and_then(|c| c.draws.first()).map_or(0, Vec::len);
    let one = |i: usize| {
        let of: Vec<Vec<f64>> = chains.iter().map(|c| c.draws.iter().map(|z| z[i]).collect()).collect();
        agreement::of_one(&of)
    };
    let all: Vec<(f64, f64)> = (0..unknowns).into_par_iter().map(one).collect();
    let failed = chains.iter().map(|c| c.failed).sum();
    let z: Vec<Vec<f64>> = chains.into_iter().flat_map(|c| c.draws).collect();
    let agreement = Agreement {
        r_hat: all.iter().map(|a| a.0).fold(1.0, f64::max),
        effective: all.iter().map(|a| a.1).fold(f64::INFINITY, f64::min),
        failed,
        draws: z.len(),
    };
    Draws { z, agreement }
}
