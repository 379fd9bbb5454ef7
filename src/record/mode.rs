//! The likeliest unknowns, and the curvature of the density there.

use crate::centred::Centred;
use weldbow_engine::numerics::{backward, cholesky, forward};

/// Most steps.
const STEPS: usize = 60;
/// Length of the slope at which it has arrived.
const ARRIVED: f64 = 1e-6;
/// Step of the difference of slopes.
const STEP: f64 = 1e-4;

/// A likeliest point.
#[derive(Debug, Clone)]
pub(crate) struct Mode {
    /// The point.
    pub(crate) z: Vec<f64>,
    /// Root of the curvature, lower triangle.
    pub(crate) root: Vec<f64>,
}

/// Climbs from the middle of what was taken to be so before by damped Newton steps. None if there is no number anywhere.
pub(crate) fn mode(model: &mut Centred<'_>) -> Option<Mode> {
    let n = model.count();
    let mut z = vec![0.0; n];
    let mut slope = vec![0.0; n];
    let mut log = model.log_density(&z, &mut slope);
    if !log.is_finite() {
        return None;
    }
    let mut root = root(model, &z)?;
    'climb: for _ in 0..STEPS {
        if slope.iter().map(|s| s * s).sum::<f64>().sqrt() < ARRIVED {
            break;
        }
        let mut step = slope.clone();
        forward(&root, &mut step);
        backward(&root, &mut step);
        let mut part = 1.0;
        loop {
            let tried: Vec<f64> = z.iter().zip(&step).map(|(z, s)| z + part * s).collect();
            let mut there = vec![0.0; n];
            let found = model.log_density(&tried, &mut there);
            if found > log {
                (z, log, slope) = (tried, found, there);
                break;
            }
            part *= 0.5;
            if part < 1e-6 {
                break 'climb;
            }
        }
        root = self::root(model, &z)?;
    }
    Some(Mode { z, root })
}

/// Root of the curvature: minus the second derivatives, raised until it is positive definite.
fn root(model: &mut Centred<'_>, z: &[f64]) -> Option<Vec<f64>> {
    let n = z.len();
    let mut curvature = vec![0.0; n * n];
    let (mut up, mut down) = (vec![0.0; n], vec![0.0; n]);
    let mut moved = z.to_vec();
    for i in 0..n {
        moved[i] = z[i] + STEP;
        model.log_density(&moved, &mut up);
        moved[i] = z[i] - STEP;
        model.log_density(&moved, &mut down);
        moved[i] = z[i];
        for (j, (up, down)) in up.iter().zip(&down).enumerate() {
            let second = -0.5 * (up - down) / (2.0 * STEP);
            curvature[i * n + j] += second;
            curvature[j * n + i] += second;
        }
    }
    let mut raised = 0.0;
    loop {
        let mut tried = curvature.clone();
        (0..n).for_each(|i| tried[i * n + i] += raised);
        if let Some(root) = cholesky(n, |i, j| tried[n * i + j], |_, pivot| pivot > 0.0 && pivot.is_finite())
        {
            return Some(root);
        }
        raised = if raised > 0.0 { 2.0 * raised } else { 0.1 };
        if raised > 1e9 {
            return None;
        }
    }
}
