//! Constants of a law fitted to joints.

#![allow(missing_docs)]

/// Constants of a law by least squares of the logarithms, by steps of Gauss and Newton.
pub(crate) fn fitted<const N: usize, R: Copy>(
    start: [f64; N],
    rows: &[R],
    off: impl Fn(&[f64; N], R) -> f64,
) -> [f64; N] {
    let mut p = start;
    for _ in 0..40 {
        let (mut a, mut b) = ([[0.0; N]; N], [0.0; N]);
        for &row in rows {
            let now = off(&p, row);
            let slope: [f64; N] = std::array::from_fn(|k| {
                let mut next = p;
                next[k] *= 1.0 + 1e-6;
                (off(&next, row) - now) / (1e-6 * p[k])
            });
            for i in 0..N {
                b[i] -= slope[i] * now;
                (0..N).for_each(|j| a[i][j] += slope[i] * slope[j]);
            }
        }
        let step = solved(a, b);
        (0..N).for_each(|k| p[k] += step[k]);
    }
    p
}

/// By elimination; the matrix is positive definite.
fn solved<const N: usize>(mut a: [[f64; N]; N], mut b: [f64; N]) -> [f64; N] {
    for i in 0..N {
        for j in i + 1..N {
            let factor = a[j][i] / a[i][i];
            (i..N).for_each(|k| a[j][k] -= factor * a[i][k]);
            b[j] -= factor * b[i];
        }
    }
    for i in (0..N).rev() {
        let known: f64 = (i + 1..N).map(|k| a[i][k] * b[k]).sum();
        b[i] = (b[i] - known) / a[i][i];
    }
    b
}
