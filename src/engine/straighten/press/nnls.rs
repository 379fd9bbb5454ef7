//! Least squares with no negative unknowns, for a handful of unknowns.
//!
//! Lawson and Hanson, Solving Least Squares Problems (1974), chapter 23 (memory), on the normal equations: enough for
//! the few well-separated kinks of one member.

use crate::numerics::{backward, cholesky, forward};

/// Unknowns x ≥ 0 that make Σ (Σ aᵢⱼxⱼ − bᵢ)² least; `columns[j]` holds a·ⱼ.
pub(crate) fn nnls(columns: &[Vec<f64>], b: &[f64]) -> Vec<f64> {
    let (gram, right) = products(columns, b);
    normal(&gram, &right)
}

/// The same from the products of the columns among each other and with b.
pub(super) fn normal(gram: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let n = right.len();
    let small = 1e-12 * right.iter().fold(0.0, |m: f64, r| m.max(r.abs()));
    let mut x = vec![0.0; n];
    let mut used = vec![false; n];
    // each round frees one unknown; no active set comes twice
    for _ in 0..4 * n + 4 {
        let pull = |j: usize| right[j] - dot(&gram[j], &x);
        let next = (0..n).filter(|j| !used[*j]).max_by(|i, j| pull(*i).total_cmp(&pull(*j)));
        let Some(next) = next.filter(|j| pull(*j) > small) else { break };
        used[next] = true;
        loop {
            let free: Vec<usize> = (0..n).filter(|j| used[*j]).collect();
            let Some(wanted) = solve(gram, right, &free) else {
                used[next] = false;
                break;
            };
            let step = free
                .iter()
                .zip(&wanted)
                .filter(|(_, w)| **w <= 0.0)
                .map(|(j, w)| x[*j] / (x[*j] - w))
                .fold(1.0, f64::min);
            for (j, w) in free.iter().zip(&wanted) {
                x[*j] += step * (w - x[*j]);
                if x[*j] <= 0.0 {
                    (x[*j], used[*j]) = (0.0, false);
                }
            }
            if step >= 1.0 {
                break;
            }
            if free.iter().all(|j| used[*j]) {
                // rounding left the blocking unknown a hair above zero
                for (j, w) in free.iter().zip(&wanted) {
                    if *w <= 0.0 {
                        (x[*j], used[*j]) = (0.0, false);
                    }
                }
            }
        }
    }
    x
}

/// Cholesky on the free unknowns; None if two columns are alike.
fn solve(gram: &[Vec<f64>], right: &[f64], free: &[usize]) -> Option<Vec<f64>> {
    let entry = |i: usize, j: usize| gram[free[i]][free[j]];
    let l = cholesky(free.len(), entry, |i, pivot| pivot > 1e-13 * entry(i, i))?;
    let mut y: Vec<f64> = free.iter().map(|i| right[*i]).collect();
    forward(&l, &mut y);
    backward(&l, &mut y);
    Some(y)
}

pub(super) fn dot(p: &[f64], q: &[f64]) -> f64 {
    p.iter().zip(q).map(|(x, y)| x * y).sum()
}

/// Of the columns with each other, and with what they are to make.
pub(super) fn products(columns: &[Vec<f64>], b: &[f64]) -> (Vec<Vec<f64>>, Vec<f64>) {
    let gram = columns.iter().map(|p| columns.iter().map(|q| dot(p, q)).collect()).collect();
    (gram, columns.iter().map(|p| dot(p, b)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_that_wants_to_be_negative_stays_at_zero() {
        // free solution (2, −1); with the second at zero the first is the mean of 2 and 1 weighted by its column
        let x = nnls(&[vec![1.0, 1.0], vec![0.0, 1.0]], &[2.0, 1.0]);
        assert!((x[0] - 1.5).abs() < 1e-12 && x[1].abs() < 1e-12, "{x:?}");
    }

    #[test]
    fn conditions_of_kuhn_and_tucker_hold_for_many_small_problems() {
        let mut seed = 7_u64;
        let mut random = move || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            f64::from((seed >> 40) as u32) / f64::from(1_u32 << 24) - 0.4
        };
        for _ in 0..500 {
            let columns: Vec<Vec<f64>> = (0..5).map(|_| (0..12).map(|_| random()).collect()).collect();
            let b: Vec<f64> = (0..12).map(|_| random()).collect();
            let x = nnls(&columns, &b);
            let left: Vec<f64> =
                (0..12).map(|i| b[i] - (0..5).map(|j| columns[j][i] * x[j]).sum::<f64>()).collect();
            for (c, x) in columns.iter().zip(&x) {
                let pull: f64 = c.iter().zip(&left).map(|(p, q)| p * q).sum();
                assert!(*x >= 0.0 && pull < 1e-9 && (*x * pull).abs() < 1e-9, "x {x}, pull {pull}");
            }
        }
    }
}
