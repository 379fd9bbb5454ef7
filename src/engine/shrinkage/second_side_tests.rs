use super::super::fillets::{Bead, COLD_S, Timeline};
use super::super::source::Legs;
use super::*;

/// A 12 mm flange on an 8 mm web; nothing gives.
const LEGS: Legs = Legs { width_mm: 300.0, flange_mm: 12.0, web_mm: 8.0, yield_mpa: 355.0, e_mpa: 206e3 };
const HEAT: f64 = 1000.0;

#[derive(Default)]
struct Bench(Junction, Timeline);

impl Bench {
    fn lay_on(&mut self, heats: [f64; 2], at_s: f64, available_mm2: f64) -> Added {
        let bead = |side: Side, heat: f64| Bead {
            side,
            heat_j_per_mm: heat,
            welded_fraction: 1.0,
            deposit_mm2: 10.0,
            // a smaller leg pulls nearer to the web
            arm_mm: if heat < 900.0 { 2.5 } else { 3.0 },
            times: 1.0,
        };
        let beads = [(Side::Near, heats[0]), (Side::Far, heats[1])];
        let beads = beads.map(|(side, heat)| (heat > 0.0).then(|| bead(side, heat)));
        let fillets = self.1.meet(&LEGS, &beads, at_s, |_, _| 0.0);
        self.0.lay(&fillets.laid([0.0; 2], 1.0, available_mm2, 355.0))
    }

    fn lay(&mut self, near: f64, far: f64, at_s: f64) -> Added {
        self.lay_on([near, far], at_s, 4000.0)
    }
}

fn lone(heat: f64) -> f64 {
    LEGS.source(heat, [0.0; 2]).lone_n([0.0; 2])
}

#[test]
fn a_second_side_adds_a_part_when_cold_and_the_force_of_twice_the_heat_at_once() {
    let total = |second_at: f64| {
        let mut joint = Bench::default();
        joint.lay(HEAT, 0.0, 0.0).force_n + joint.lay(0.0, HEAT, second_at).force_n
    };
    let (one, twice) = (lone(HEAT), lone(2.0 * HEAT));
    let cold = second_side_cold(LEGS.reach_mm(HEAT) / LEGS.web_mm) * one;
    assert!((total(COLD_S) - cold).abs() < 1.0, "{} of {one}", total(COLD_S));
    let later = total(HALF_WARM_LAG / STIFF * LEGS.warm_time_s(HEAT));
    assert!((later - 0.5 * (cold + twice)).abs() < 1.0, "half warm: {later}");
    let at_once = Bench::default().lay(HEAT, HEAT, 0.0);
    assert!((at_once.force_n - twice).abs() < 1.0 && at_once.moment_n_mm.abs() < 1e-6, "{at_once:?}");
    assert!((total(1e-9) / twice - 1.0).abs() < 1e-6, "no jump from a moment later to at once");
}

#[test]
fn a_vanishing_second_side_changes_nothing_at_any_time() {
    for at_s in [0.0, 20.0, COLD_S] {
        let mut joint = Bench::default();
        joint.lay(HEAT, 0.0, 0.0);
        let added = joint.lay(0.0, 1e-3, at_s);
        assert!(added.force_n.abs() < 1.0, "{} N at {at_s} s", added.force_n);
    }
    let both = Bench::default().lay(HEAT, 1e-3, 0.0).force_n;
    assert!((both - lone(HEAT)).abs() < 1.0, "{both}");
}

#[test]
fn a_cold_repeat_on_the_same_side_counts_only_when_it_is_larger() {
    let mut joint = Bench::default();
    joint.lay(HEAT, 0.0, 0.0);
    let smaller = joint.lay(800.0, 0.0, COLD_S);
    assert!(smaller.force_n < 1.0 && smaller.moment_n_mm.abs() < 1.0, "{smaller:?}");
    let larger = joint.lay(1500.0, 0.0, 2.0 * COLD_S);
    assert!((larger.force_n - (lone(1500.0) - lone(HEAT))).abs() < 1.0, "{larger:?}");
}

#[test]
fn a_hot_cut_edge_has_spent_part_of_the_force() {
    let mut joint = Bench(Junction::default(), Timeline::default());
    joint.0.begin(cut(6.0));
    let added = joint.lay(HEAT, 0.0, 0.0).force_n;
    assert!((added - (lone(HEAT) - cut(6.0))).abs() < 1e-6);
}

fn cut(t: f64) -> f64 {
    super::super::prior_stress::cut_edge_force_n(t)
}

#[test]
fn many_warm_passes_are_held_down_by_yield() {
    let mut joint = Bench::default();
    let sum: f64 = (0..12).map(|i| joint.lay_on([HEAT, 0.0], f64::from(i), 1500.0).force_n).sum();
    assert!(joint.0.capped() > 0.5, "twelve passes one second apart");
    assert!((sum - 355.0 * 1500.0).abs() < 1.0, "{sum:.0} N");
}
