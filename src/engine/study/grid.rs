//! Which value of each axis a case takes: axes cross, the first turns slowest; axes of one group turn together.

/// Axes that turn together.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Wheel {
    axes: Vec<usize>,
    values: usize,
}

/// The crossing of all axes that have values; of none by default: one case.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Grid {
    wheels: Vec<Wheel>,
    axes: usize,
}

/// Two axes of one group with different numbers of values: (first, its values, other, its values).
pub(super) type Uneven = (usize, usize, usize, usize);

impl Grid {
    /// The grid of axes, each with its number of values (`None` if it draws) and its group.
    ///
    /// # Errors
    /// [`Uneven`] if axes of one group differ in length.
    pub(super) fn new(axes: &[(Option<usize>, Option<&str>)]) -> Result<Self, Uneven> {
        let mut wheels: Vec<(Option<&str>, Wheel)> = Vec::new();
        for (axis, (values, group)) in axes.iter().enumerate() {
            let Some(values) = *values else { continue };
            let same = wheels.iter_mut().find(|(of, _)| group.is_some() && of == group);
            match same {
                Some((_, wheel)) if wheel.values != values => {
                    return Err((wheel.axes[0], wheel.values, axis, values));
                }
                Some((_, wheel)) => wheel.axes.push(axis),
                None => wheels.push((*group, Wheel { axes: vec![axis], values })),
            }
        }
        Ok(Self { wheels: wheels.into_iter().map(|(_, wheel)| wheel).collect(), axes: axes.len() })
    }

    /// Number of cases; `None` if it does not fit a number.
    pub(super) fn count(&self) -> Option<u64> {
        self.wheels.iter().try_fold(1_u64, |count, wheel| count.checked_mul(wheel.values as u64))
    }

    /// The value of every axis in a case; 0 for axes that draw.
    pub(super) fn at(&self, case: u64) -> Vec<usize> {
        let mut index = Vec::new();
        self.put(case, &mut index);
        index
    }

    /// The same, into a list that may be used again.
    pub(super) fn put(&self, case: u64, index: &mut Vec<usize>) {
        index.clear();
        index.resize(self.axes, 0);
        let mut left = case;
        for wheel in self.wheels.iter().rev() {
            let value = (left % wheel.values as u64) as usize;
            left /= wheel.values as u64;
            wheel.axes.iter().for_each(|axis| index[*axis] = value);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_axis_turns_slowest_and_groups_turn_together() {
        let grid =
            Grid::new(&[(Some(2), None), (Some(3), Some("g")), (None, None), (Some(3), Some("g"))]).unwrap();
        assert_eq!(grid.count(), Some(6));
        let all: Vec<_> = (0..6).map(|case| grid.at(case)).collect();
        assert_eq!(all[0], [0, 0, 0, 0]);
        assert_eq!(all[1], [0, 1, 0, 1]);
        assert_eq!(all[5], [1, 2, 0, 2]);
    }

    #[test]
    fn groups_of_different_lengths_are_refused() {
        let uneven = Grid::new(&[(Some(2), Some("g")), (Some(3), Some("g"))]);
        assert_eq!(uneven, Err((0, 2, 1, 3)));
    }
}
