//! A symmetric band matrix of a beam of elements: four unknowns a node, each element two nodes.

/// Unknowns of a node.
pub(super) const NODE: usize = 4;

/// Unknowns of an element.
pub(super) const ELEMENT: usize = 2 * NODE;

/// Lower band, row by row; the diagonal stands last in each row.
#[derive(Debug, Clone)]
pub(super) struct Band {
    rows: Vec<[f64; ELEMENT]>,
}

impl Band {
    pub(crate) fn of_nodes(nodes: usize) -> Self {
        Self { rows: vec![[0.0; ELEMENT]; NODE * nodes] }
    }

    /// Adds to the entry of row i and column j ≤ i, less than an element apart.
    pub(crate) fn add(&mut self, i: usize, j: usize, value: f64) {
        if let Some(entry) = self.rows.get_mut(i).and_then(|row| row.get_mut(ELEMENT - 1 + j - i)) {
            *entry += value;
        }
    }

    /// Adds the matrix of an element (its lower half is read) from its first node on.
    pub(crate) fn add_element(&mut self, node: usize, matrix: &[[f64; ELEMENT]; ELEMENT]) {
        for (i, row) in matrix.iter().enumerate() {
            for (j, value) in row.iter().take(i + 1).enumerate() {
                self.add(NODE * node + i, NODE * node + j, *value);
            }
        }
    }

    /// Whether this + factor·other is positive definite with these unknowns left out, by L·D·Lᵀ.
    pub(crate) fn is_positive(&self, other: &Self, factor: f64, held: &[bool]) -> bool {
        let n = self.rows.len();
        let mut l = vec![[0.0; ELEMENT]; n];
        for i in 0..n {
            if held[i] {
                l[i][ELEMENT - 1] = 1.0;
                continue;
            }
            let first = i.saturating_sub(ELEMENT - 1);
            for j in first..=i {
                let at = ELEMENT - 1 + j - i;
                if held[j] {
                    continue;
                }
                // rows i and j of L share the columns from `first` on
                let mut sum = self.rows[i][at] + factor * other.rows[i][at];
                for k in first.max(j.saturating_sub(ELEMENT - 1))..j {
                    sum -= l[i][ELEMENT - 1 + k - i] * l[j][ELEMENT - 1 + k - j];
                }
                if j < i {
                    l[i][at] = sum / l[j][ELEMENT - 1];
                } else if sum > 0.0 {
                    l[i][at] = sum.sqrt();
                } else {
                    return false;
                }
            }
        }
        true
    }
}
