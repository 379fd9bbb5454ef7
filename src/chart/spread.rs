//! Labels beside a plot, pushed apart so that none covers another.

/// New heights for labels wanted at `wanted` (px down the picture), each `tall` px high, kept between
/// `top` and `bottom`. Their order is kept; where there is room, a label stays where it was wanted.
/// When they do not fit at all, they share the room evenly.
pub(super) fn spread(wanted: &[f64], tall: f64, top: f64, bottom: f64) -> Vec<f64> {
    let n = wanted.len();
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]));
    let tall = if n > 1 { tall.min((bottom - top) / (n as f64 - 1.0)) } else { tall };

    // groups of touching labels: (members, middle of the group)
    let mut groups: Vec<(Vec<usize>, f64)> = Vec::new();
    for i in order {
        groups.push((vec![i], held(wanted[i], 1, tall, top, bottom)));
        while let [.., (above, above_at), (below, below_at)] = groups.as_slice() {
            let needed = 0.5 * tall * (above.len() + below.len()) as f64;
            if below_at - above_at >= needed - 1e-9 {
                break;
            }
            let members = [above.as_slice(), below.as_slice()].concat();
            let middle = members.iter().map(|i| wanted[*i]).sum::<f64>() / members.len() as f64;
            let middle = held(middle, members.len(), tall, top, bottom);
            groups.truncate(groups.len() - 2);
            groups.push((members, middle));
        }
    }

    let mut placed = vec![0.0; n];
    for (members, middle) in groups {
        let first = middle - 0.5 * tall * (members.len() as f64 - 1.0);
        for (row, i) in members.into_iter().enumerate() {
            placed[i] = first + tall * row as f64;
        }
    }
    placed
}

fn held(middle: f64, members: usize, tall: f64, top: f64, bottom: f64) -> f64 {
    let half = 0.5 * tall * (members as f64 - 1.0);
    middle.min(bottom - half).max(top + half)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_label_with_room_stays_and_two_in_one_place_move_apart_evenly() {
        assert_eq!(spread(&[10.0, 100.0], 14.0, 0.0, 200.0), [10.0, 100.0]);
        assert_eq!(spread(&[100.0, 100.0], 14.0, 0.0, 200.0), [93.0, 107.0]);
    }

    proptest! {
        #[test]
        fn labels_never_touch_and_stay_inside(wanted in prop::collection::vec(-50.0..450.0_f64, 1..12)) {
            let placed = spread(&wanted, 15.0, 20.0, 380.0);
            let mut sorted = placed.clone();
            sorted.sort_by(f64::total_cmp);
            prop_assert!(sorted.windows(2).all(|p| p[1] - p[0] > 15.0 - 1e-6), "{wanted:?} gives {sorted:?}");
            prop_assert!(sorted[0] > 20.0 - 1e-6 && sorted[sorted.len() - 1] < 380.0 + 1e-6, "{sorted:?}");
        }
    }
}
