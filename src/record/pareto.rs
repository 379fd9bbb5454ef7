//! Weights that can be trusted: the largest are replaced by what a generalised Pareto law through them expects (Vehtari, Gelman,
//! Gabry 2017, Statistics and Computing 27, 1413; the fit by Zhang and Stephens 2009, Technometrics 51, 316; memory).

/// Shape of the tail above which weights are not trusted (Vehtari and others 2017).
pub(crate) const TRUSTED: f64 = 0.7;

/// Smooths logs of weights in place, normalised to sum one as weights; gives the shape of their tail.
pub(crate) fn smooth(log_weights: &mut [f64]) -> f64 {
    let n = log_weights.len();
    let most = log_weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    log_weights.iter_mut().for_each(|w| *w -= most);
    let tail = (0.2 * n as f64).min(3.0 * (n as f64).sqrt()).ceil() as usize;
    let mut shape = f64::INFINITY;
    if tail >= 5 && tail < n {
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|a, b| log_weights[*a].total_cmp(&log_weights[*b]));
        let cut = log_weights[order[n - tail - 1]].exp();
        let over: Vec<f64> = order[n - tail..].iter().map(|i| log_weights[*i].exp() - cut).collect();
        if over[tail - 1] > over[0] && over[0] > 0.0 {
            let (k, scale) = fit(&over);
            shape = k;
            if k.is_finite() {
                for (rank, i) in order[n - tail..].iter().enumerate() {
                    let p = (rank as f64 + 0.5) / tail as f64;
                    let beyond = if k.abs() < 1e-12 {
                        -scale * (-p).ln_1p()
                    } else {
                        scale * (-k * (-p).ln_1p()).exp_m1() / k
                    };
                    log_weights[*i] = (cut + beyond).ln().min(0.0);
                }
            }
        } else {
            // all alike: nothing to smooth
            shape = f64::NEG_INFINITY;
        }
    }
    let sum: f64 = log_weights.iter().map(|w| w.exp()).sum();
    log_weights.iter_mut().for_each(|w| *w -= sum.ln());
    shape
}

/// Shape and scale of a generalised Pareto law for rising sizes above nothing.
fn fit(over: &[f64]) -> (f64, f64) {
    let n = over.len();
    let nf = n as f64;
    let quarter = over[((nf / 4.0 + 0.5).floor() as usize).saturating_sub(1)];
    let grid = 30 + (nf.sqrt() as usize);
    let theta: Vec<f64> = (1..=grid)
        .map(|j| 1.0 / over[n - 1] + (1.0 - (grid as f64 / (j as f64 - 0.5)).sqrt()) / (3.0 * quarter))
        .collect();
    let shape = |t: f64| over.iter().map(|x| (-t * x).ln_1p()).sum::<f64>() / nf;
    let profile = |t: f64| {
        let k = shape(t);
        nf * ((-t / k).ln() - k - 1.0)
    };
    let logs: Vec<f64> = theta.iter().map(|t| profile(*t)).collect();
    let weight = |l: f64| 1.0 / logs.iter().map(|other| (other - l).exp()).sum::<f64>();
    let t: f64 = theta.iter().zip(&logs).map(|(t, l)| t * weight(*l)).sum();
    let k = shape(t);
    let scale = -k / t;
    // drawn a little toward a half, as short tails are unsure
    ((k * nf + 5.0) / (nf + 10.0), scale)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chain::Normals;

    #[test]
    fn the_shape_of_a_known_tail_is_found() {
        for want in [0.3, 0.8] {
            let mut normals = Normals::new(5, 1);
            let mut logs: Vec<f64> = (0..20_000).map(|_| -want * normals.uniform().ln()).collect();
            let found = smooth(&mut logs);
            assert!((found - want).abs() < 0.12, "{found} against {want}");
            let sum: f64 = logs.iter().map(|w| w.exp()).sum();
            assert!((sum - 1.0).abs() < 1e-9, "{sum}");
        }
    }
}
