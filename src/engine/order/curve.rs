//! Work against the size of a distortion, from a few full plans.
//!
//! The work is a staircase: one more place, one more heat, another method, or none that does it. Pieces are sorted by size;
//! some evenly through them all are planned, as ends that are alike need not have the same between them, then the middle piece of the
//! stretch that may be most wrong, until what may be wrong in all is small. Between two planned sizes the work is read off straight.

use super::Load;
use super::work::Planned;

/// Part of the work that may be wrong before it is left alone (choice).
pub(crate) const WITHIN: f64 = 0.005;
/// Stretches of as many pieces each whose ends are planned first (choice).
const FIRST_STRETCHES: usize = 8;
/// Most full plans of one curve (choice).
const MOST_PLANS: usize = 32;
/// Minutes that a piece counts for which no method mends, so that the edge is looked for (choice).
const BLOCKED_MIN: f64 = 60.0;

/// Planned sizes of one quantity on one side.
#[derive(Debug, Clone, Default)]
pub(super) struct Curve {
    /// Size (mm or rad, without sign) and plan, rising.
    knots: Vec<(f64, Planned)>,
    /// Minutes of all samples together that may be wrong.
    pub(crate) may_be_wrong_min: f64,
    /// Planned for a side that only prevention brings: it says nothing of the order as it is.
    pub(crate) imagined: bool,
}

/// Samples strictly between two planned ones.
struct Stretch {
    from: usize,
    to: usize,
    wrong: f64,
    /// What its middle missed before it was parted, minutes: a middle that a straight line meets by chance is not believed at once.
    missed: f64,
}

impl Curve {
    /// A curve through samples of rising size; `plan` plans one by its place in the list.
    pub(crate) fn through(sizes: &[f64], mut plan: impl FnMut(usize) -> Planned) -> Self {
        let Some(last) = sizes.len().checked_sub(1) else { return Self::default() };
        let mut first: Vec<usize> = (0..=FIRST_STRETCHES).map(|k| k * last / FIRST_STRETCHES).collect();
        first.dedup();
        let mut knots: Vec<(usize, Planned)> = first.into_iter().map(|i| (i, plan(i))).collect();
        let mut stretches: Vec<Stretch> = knots
            .windows(2)
            .map(|ends| {
                let step = (weight(&ends[1].1.load) - weight(&ends[0].1.load)).abs();
                let (from, to) = (ends[0].0, ends[1].0);
                Stretch { from, to, wrong: inside(from, to) * step, missed: step }
            })
            .collect();
        while knots.len() < MOST_PLANS {
            let all: f64 = total(&knots, last);
            let wrong: f64 = stretches.iter().map(|s| s.wrong).sum();
            let worst =
                (0..stretches.len()).max_by(|a, b| stretches[*a].wrong.total_cmp(&stretches[*b].wrong));
            let Some(worst) = worst.filter(|_| wrong > WITHIN * all) else { break };
            let Stretch { from, to, missed: before, .. } = stretches.swap_remove(worst);
            let middle = usize::midpoint(from, to);
            let planned = plan(middle);
            let at = |i: usize| knots.iter().find(|k| k.0 == i).map_or(0.0, |k| weight(&k.1.load));
            let (low, high, found) = (at(from), at(to), weight(&planned.load));
            let missed = (found - between((sizes[from], low), (sizes[to], high), sizes[middle])).abs();
            for (a, b, step) in [(from, middle, found - low), (middle, to, high - found)] {
                let each = step.abs().min(missed.max(0.5 * before));
                stretches.push(Stretch { from: a, to: b, wrong: inside(a, b) * each, missed });
            }
            let place = knots.partition_point(|k| k.0 < middle);
            knots.insert(place, (middle, planned));
        }
        Self {
            imagined: false,
            // the sum of none is −0
            may_be_wrong_min: stretches.iter().map(|s| s.wrong).sum::<f64>() + 0.0,
            knots: knots.into_iter().map(|(i, planned)| (sizes[i], planned)).collect(),
        }
    }

    /// Work at a size; beyond the planned sizes that of the nearest.
    pub(super) fn at(&self, size: f64) -> Planned {
        let above = self.knots.partition_point(|k| k.0 < size);
        match (above.checked_sub(1).and_then(|i| self.knots.get(i)), self.knots.get(above)) {
            (None, None) => Planned::default(),
            (Some(one), None) | (None, Some(one)) => one.1.clone(),
            (Some(low), Some(high)) => {
                let width = high.0 - low.0;
                let part = if width > 0.0 { ((size - low.0) / width).clamp(0.0, 1.0) } else { 1.0 };
                low.1.toward(&high.1, part)
            }
        }
    }

    /// Plans made.
    pub(crate) fn plans(&self) -> impl Iterator<Item = &Planned> {
        self.knots.iter().map(|k| &k.1)
    }
}

/// Minutes that a piece counts for where a curve looks closer.
pub(super) fn weight(load: &Load) -> f64 {
    load.minutes() + BLOCKED_MIN * load.blocked
}

fn inside(from: usize, to: usize) -> f64 {
    (to - from).saturating_sub(1) as f64
}

/// Weight of all samples, straight between knots.
fn total(knots: &[(usize, Planned)], last: usize) -> f64 {
    let ends = if last == 0 { 1.0 } else { 0.0 } * knots.first().map_or(0.0, |k| weight(&k.1.load));
    let half = |pair: &[(usize, Planned)]| {
        0.5 * (weight(&pair[0].1.load) + weight(&pair[1].1.load)) * (pair[1].0 - pair[0].0) as f64
    };
    ends + knots.windows(2).map(half).sum::<f64>()
}

fn between(low: (f64, f64), high: (f64, f64), size: f64) -> f64 {
    let width = high.0 - low.0;
    if width > 0.0 { low.1 + (size - low.0) / width * (high.1 - low.1) } else { high.1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn minutes(press_min: f64) -> Planned {
        Planned { load: Load { press_min, ..Load::default() }, ..Planned::default() }
    }

    /// Sizes 6 to 30 mm and the summed minutes by the curve and one by one.
    fn compared(count: usize, law: impl Fn(f64) -> f64) -> (f64, f64, f64, usize) {
        let sizes: Vec<f64> = (0..count).map(|i| 6.0 + 24.0 * (i as f64 / count as f64).powi(2)).collect();
        let mut plans = 0;
        let curve = Curve::through(&sizes, |i| {
            plans += 1;
            minutes(law(sizes[i]))
        });
        let read: f64 = sizes.iter().map(|s| curve.at(*s).load.minutes()).sum();
        (read, sizes.iter().map(|s| law(*s)).sum(), curve.may_be_wrong_min, plans)
    }

    #[test]
    fn a_staircase_is_read_off_within_what_may_be_wrong() {
        let stairs = |s: f64| 27.5 + 12.5 * (s / 8.0).floor();
        for count in [1, 2, 3, 40, 400] {
            let (read, exact, wrong, plans) = compared(count, stairs);
            println!(
                "{count} pieces: {read:.1} min read off, {exact:.1} planned one by one, {wrong:.1} may be wrong, {plans} plans"
            );
            assert!((read - exact).abs() <= wrong + 1e-9 && plans <= MOST_PLANS);
            assert!(wrong <= 0.02 * exact, "{wrong} of {exact}");
        }
    }

    #[test]
    fn a_level_needs_few_plans_and_an_island_between_ends_alike_is_found() {
        let (read, exact, _, _) = compared(400, |s| 10.0 + 2.0 * s);
        assert!((read - exact).abs() < 1e-6 * exact, "{read} {exact}");
        assert_eq!(compared(400, |_| 27.5).3, FIRST_STRETCHES + 1);
        let (read, exact, _, _) = compared(400, |s| if (9.0..16.0).contains(&s) { 20.0 } else { 80.0 });
        assert!((read / exact - 1.0).abs() < 0.02, "{read} {exact}");
    }

    #[test]
    fn nothing_to_plan_is_no_work() {
        let none = Curve::through(&[], |_| minutes(1.0));
        assert!(none.plans().count() == 0 && none.at(3.0).load.minutes().abs() < 1e-12);
    }
}
