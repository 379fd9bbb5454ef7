//! Square roots of positive definite matrices, row after row.

/// Lower triangle L, n × n, row after row, with L·Lᵀ the matrix of these entries by row and column (Cholesky). None unless every pivot, which it is
/// asked of by row and value, is sound: the matrix is positive definite where all are above zero.
pub fn cholesky(
    n: usize,
    entry: impl Fn(usize, usize) -> f64,
    is_sound: impl Fn(usize, f64) -> bool,
) -> Option<Vec<f64>> {
    let mut l = vec![0.0; n * n];
    for i in 0..n {
        for j in 0..=i {
            let sum: f64 = (0..j).map(|k| l[i * n + k] * l[j * n + k]).sum();
            let rest = entry(i, j) - sum;
            if i == j {
                if !is_sound(i, rest) {
                    return None;
                }
                l[i * n + i] = rest.sqrt();
            } else {
                l[i * n + j] = rest / l[j * n + j];
            }
        }
    }
    Some(l)
}

/// Solves L·x = b in place.
pub fn forward(l: &[f64], b: &mut [f64]) {
    let n = b.len();
    for i in 0..n {
        let sum: f64 = (0..i).map(|k| l[i * n + k] * b[k]).sum();
        b[i] = (b[i] - sum) / l[i * n + i];
    }
}

/// Solves Lᵀ·x = b in place.
pub fn backward(l: &[f64], b: &mut [f64]) {
    let n = b.len();
    for i in (0..n).rev() {
        let sum: f64 = (i + 1..n).map(|k| l[k * n + i] * b[k]).sum();
        b[i] = (b[i] - sum) / l[i * n + i];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_times_itself_is_the_matrix_and_solves_it() {
        let a = [4.0, 2.0, 0.6, 2.0, 5.0, 1.0, 0.6, 1.0, 3.0];
        let sound = |_: usize, pivot: f64| pivot > 0.0;
        let l = cholesky(3, |i, j| a[3 * i + j], sound).unwrap();
        for (i, j) in [(0, 0), (1, 0), (2, 1), (2, 2)] {
            let product: f64 = (0..3).map(|k| l[i * 3 + k] * l[j * 3 + k]).sum();
            assert!((product - a[i * 3 + j]).abs() < 1e-14, "{product} against {}", a[i * 3 + j]);
        }
        let mut x = [1.0, -2.0, 3.0];
        forward(&l, &mut x);
        backward(&l, &mut x);
        let back: f64 = (0..3).map(|k| a[3 + k] * x[k]).sum();
        assert!((back + 2.0).abs() < 1e-13, "{back} against -2");
        assert!(cholesky(2, |i, j| [[1.0, 2.0], [2.0, 1.0]][i][j], sound).is_none());
    }
}
