//! Draws from the posterior: how many chains, how long, and whether they agree.

use crate::centred::Centred;
use crate::chain::{Chain, chain};
use crate::layout::Layout;
use crate::mode::mode;
use crate::numbers::{mean, variance};
use crate::prior::scatter;
use crate::{Kind, Model, RecordFault};
use rayon::prelude::*;
use serde::Serialize;

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
        of_one(&of)
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

/// How far the draws can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Agreement {
    /// Largest R̂ of all unknowns, each chain in two halves: 1 where chains agree (Gelman and Rubin 1992, Statistical Science 7,
    /// 457; split as in Vehtari and others 2021, Bayesian Analysis 16, 667; memory).
    pub r_hat: f64,
    /// Smallest number of independent draws that any unknown is worth.
    pub effective: f64,
    /// Moves that failed.
    pub failed: usize,
    /// Draws in all.
    pub draws: usize,
}

/// R̂ above which nothing is said (Vehtari and others 2021 ask for 1.01 of long chains; ours are short: choice).
const AGREED: f64 = 1.05;

impl Agreement {
    /// Whether the chains agree.
    pub fn holds(&self) -> bool {
        self.r_hat < AGREED
    }
}

/// R̂ and the effective number of one unknown, its chains given one by one.
pub(crate) fn of_one(chains: &[Vec<f64>]) -> (f64, f64) {
    let halves: Vec<&[f64]> =
        chains.iter().flat_map(|c| [&c[..c.len() / 2], &c[c.len() / 2..2 * (c.len() / 2)]]).collect();
    let n = halves.first().map_or(0, |h| h.len());
    if n < 4 {
        return (f64::INFINITY, 0.0);
    }
    let within = mean(&halves.iter().map(|h| variance(h)).collect::<Vec<_>>());
    let means: Vec<f64> = halves.iter().map(|h| mean(h)).collect();
    let between = variance(&means);
    let whole = within * (n as f64 - 1.0) / n as f64 + between;
    if within <= 0.0 {
        return (if between > 0.0 { f64::INFINITY } else { 1.0 }, (halves.len() * n) as f64);
    }
    // autocorrelation of all halves together, summed in pairs while these stay above nothing (Geyer 1992)
    let correlation = |lag: usize| {
        let of = |(h, m): (&&[f64], &f64)| {
            (0..n - lag).map(|i| (h[i] - m) * (h[i + lag] - m)).sum::<f64>() / n as f64
        };
        1.0 - (within - mean(&halves.iter().zip(&means).map(of).collect::<Vec<_>>())) / whole
    };
    let mut time = -1.0;
    let mut last = f64::INFINITY;
    for pair in 0..n / 2 {
        let sum = (correlation(2 * pair) + correlation(2 * pair + 1)).min(last);
        if sum <= 0.0 {
            break;
        }
        time += 2.0 * sum;
        last = sum;
    }
    let count = (halves.len() * n) as f64;
    ((whole / within).sqrt(), count / time.max(1.0 / count.log10()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chain::Normals;

    /// An autoregressive chain is worth n(1 − φ)/(1 + φ) draws: the closed form.
    #[test]
    fn a_chain_that_remembers_is_worth_fewer_draws() {
        for (phi, n) in [(0.0, 2000), (0.5, 2000), (0.9, 8000)] {
            let one = |stream| {
                let mut normals = Normals::new(7, stream);
                let mut x = normals.next();
                (0..n)
                    .map(|_| {
                        x = phi * x + (1.0_f64 - phi * phi).sqrt() * normals.next();
                        x
                    })
                    .collect::<Vec<f64>>()
            };
            let chains: Vec<Vec<f64>> = (0..4).map(one).collect();
            let (r_hat, effective) = of_one(&chains);
            let want = 4.0 * f64::from(n) * (1.0 - phi) / (1.0 + phi);
            assert!((effective / want - 1.0).abs() < 0.25, "φ {phi}: {effective:.0} against {want:.0}");
            assert!(r_hat < 1.02, "{r_hat}");
        }
    }

    #[test]
    fn chains_apart_are_seen() {
        let mut chains: Vec<Vec<f64>> = (0..4)
            .map(|s| {
                let mut normals = Normals::new(3, s);
                (0..500).map(|_| normals.next()).collect()
            })
            .collect();
        chains[2].iter_mut().for_each(|x| *x += 1.0);
        assert!(of_one(&chains).0 > AGREED, "{:?}", of_one(&chains));
    }
}
