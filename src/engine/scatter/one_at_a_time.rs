//! One input at a time: the middle, then each input at its low and high end, all others at their middle.

use super::{OneAtATime, normal};

/// Cases of a one-at-a-time study of `inputs` inputs: the middle and two each.
pub(crate) const fn one_at_a_time_cases(inputs: usize) -> usize {
    2 * inputs + 1
}

/// Coordinates of a case: 0 is the middle (all medians); 2i + 1 and 2i + 2 have input i at its 16 % and 84 % point,
/// which lie one standard deviation from the mean of a normal spread.
///
/// ```
/// let mut u = [0.0; 3];
/// weldbow_engine::scatter::one_at_a_time_point(4, &mut u);
/// assert!((u[1] - 0.8413).abs() < 1e-4 && u[0] == 0.5 && u[2] == 0.5);
/// ```
pub fn one_at_a_time_point(case: usize, out: &mut [f64]) {
    out.fill(0.5);
    let moved = case.checked_sub(1).and_then(|case| out.get_mut(case / 2));
    if let Some(u) = moved {
        *u = normal::below(if case.is_multiple_of(2) { 1.0 } else { -1.0 });
    }
}

/// Swings, the largest first, from the results of [`one_at_a_time_cases`] cases; and the inputs for which an end, or the
/// middle, has failed (NaN or missing). The size is the distance of the outermost two of low, middle and high.
pub(crate) fn one_at_a_time(
    inputs: &[(String, [String; 2])],
    results: &[f64],
) -> (Vec<OneAtATime>, Vec<String>) {
    let at = |case: usize| results.get(case).copied().filter(|x| x.is_finite());
    let (mut sized, mut failed) = (Vec::new(), Vec::new());
    for (i, (input, ends)) in inputs.iter().enumerate() {
        let (Some(middle), Some(low), Some(high)) = (at(0), at(2 * i + 1), at(2 * i + 2)) else {
            failed.push(input.clone());
            continue;
        };
        let size = low.max(high).max(middle) - low.min(high).min(middle);
        let (input, ends) = (input.clone(), ends.clone());
        sized.push((size, OneAtATime { input, ends, results: [low, high], middle }));
    }
    sized.sort_by(|(a, one), (b, other)| b.total_cmp(a).then_with(|| one.input.cmp(&other.input)));
    (sized.into_iter().map(|(_, swing)| swing).collect(), failed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scatter::{Distribution, Spread};

    fn named(names: &[&str]) -> Vec<(String, [String; 2])> {
        names.iter().map(|n| ((*n).to_owned(), ["low".to_owned(), "high".to_owned()])).collect()
    }

    #[test]
    fn a_linear_model_swings_by_two_deviations_times_its_slope() {
        let (slopes, sds) = ([3.0, -10.0, 0.5], [1.0, 2.0, 4.0]);
        let spreads = sds.map(|sd| Spread::new(Distribution::Normal { mean: 7.0, sd }, None, None).unwrap());
        let results: Vec<f64> = (0..one_at_a_time_cases(3))
            .map(|case| {
                let mut u = [0.0; 3];
                one_at_a_time_point(case, &mut u);
                (0..3).map(|i| slopes[i] * spreads[i].quantile(u[i])).sum()
            })
            .collect();
        let (swings, failed) = one_at_a_time(&named(&["a", "b", "c"]), &results);
        assert!(failed.is_empty());
        for (swing, (input, i)) in swings.iter().zip([("b", 1), ("a", 0), ("c", 2)]) {
            let (got, want) = (swing.results[1] - swing.results[0], 2.0 * slopes[i] * sds[i]);
            assert!(swing.input == input && (got - want).abs() < 1e-12, "{swing:?}: {got} against {want}");
        }
    }

    #[test]
    fn an_input_whose_end_failed_is_named_and_left_out() {
        let (kept, failed) = one_at_a_time(&named(&["a", "b", "c"]), &[0.0, -1.0, 1.0, f64::NAN, 2.0, 5.0]);
        assert_eq!(kept.iter().map(|s| s.input.as_str()).collect::<Vec<_>>(), ["a"]);
        assert_eq!(failed, ["b", "c"]);
        assert_eq!(one_at_a_time(&named(&["a"]), &[f64::NAN, 1.0, 2.0]).1, ["a"]);
    }

    #[test]
    fn a_result_highest_in_the_middle_is_sized_from_there() {
        let (swings, _) = one_at_a_time(&named(&["small", "hump"]), &[10.0, 9.0, 11.0, 5.0, 5.0]);
        assert_eq!(swings[0].input, "hump");
    }
}
