//! Whether chains agree, and how many independent draws they are worth.

use crate::numbers::{mean, variance};
use serde::Serialize;

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
