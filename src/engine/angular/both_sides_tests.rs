use super::*;
use crate::shrinkage::tendon::heat_parameter;

const WEB_MM: f64 = 8.0;
const FOOT: WebFoot = WebFoot { thickness_mm: WEB_MM, gap_mm: 0.0, hold: Hold::LINE };

fn fillet(heat: f64, welded_fraction: f64) -> Fillet {
    Fillet {
        heat_j_per_mm: heat,
        q_j_per_mm3: heat_parameter(heat, 12.0, WEB_MM),
        leg_mm: 6.0,
        welded_fraction,
        folded: welded_fraction,
    }
}

fn joint(near: Option<Fillet>, far: Option<Fillet>, lag: f64) -> JointFillets {
    JointFillets { near, far, near_first: true, lag }
}

const COLD: f64 = f64::INFINITY;

#[test]
fn one_side_lifts_its_own_toe_more_than_it_lowers_the_other() {
    let one = joint(Some(fillet(1200.0, 1.0)), None, COLD);
    let (near, far) = toes_mm(&angles(&one, &FOOT), &one, 200.0, WEB_MM);
    assert!(near > 3.0 && near < 4.0, "near toe {near:.2} mm");
    assert!(far < -0.5 && far > -1.5, "far toe {far:.2} mm");
}

#[test]
fn a_far_side_weld_is_the_mirror_image() {
    let (near_one, far_one) =
        (joint(Some(fillet(1200.0, 1.0)), None, 0.0), joint(None, Some(fillet(1200.0, 1.0)), 0.0));
    let (a, b) = (angles(&near_one, &FOOT), angles(&far_one, &FOOT));
    assert!((a.cup_rad - b.cup_rad).abs() < 1e-15 && (a.tilt_rad + b.tilt_rad).abs() < 1e-15);
    let (near, far) = toes_mm(&a, &near_one, 200.0, WEB_MM);
    let (mirrored_near, mirrored_far) = toes_mm(&b, &far_one, 200.0, WEB_MM);
    assert!((near - mirrored_far).abs() < 1e-12 && (far - mirrored_near).abs() < 1e-12);
}

#[test]
fn the_second_side_doubles_the_cup_and_takes_most_of_the_tilt_away() {
    let one = angles(&joint(Some(fillet(1000.0, 1.0)), None, COLD), &FOOT);
    let both = angles(&joint(Some(fillet(1000.0, 1.0)), Some(fillet(1000.0, 1.0)), COLD), &FOOT);
    assert!((both.cup_rad / one.cup_rad - 2.0).abs() < 1e-9);
    assert!(both.tilt_rad.abs() < 0.5 * one.tilt_rad, "{both:?}");
}

#[test]
fn both_at_once_are_nearly_one_pass_of_both_heats_and_do_not_tilt() {
    let both = |heat: f64| angles(&joint(Some(fillet(heat, 1.0)), Some(fillet(heat, 1.0)), 0.0), &FOOT);
    let one = |heat: f64| angles(&joint(Some(fillet(heat, 1.0)), None, COLD), &FOOT);
    let part = both(500.0).cup_rad / one(1000.0).cup_rad;
    assert!((0.8..0.95).contains(&part), "{part}");
    // two spots side by side are hot through later than one
    assert!(both(2000.0).cup_rad > 1.5 * one(4000.0).cup_rad);
    let thick = both(400.0).cup_rad / one(400.0).cup_rad;
    assert!((2.0..2.0_f64.powf(1.7)).contains(&thick), "a thick flange folds more than in turn: {thick}");
    assert!(both(1200.0).tilt_rad.abs() < 1e-15);
}

/// A side of vanishing heat, or of a vanishing part of the length, changes nothing, at once or cold, mean or spread.
#[test]
fn a_vanishing_second_side_changes_nothing_whatever_the_lag() {
    let one = angles(&joint(Some(fillet(1000.0, 1.0)), None, COLD), &FOOT);
    for lag in [0.0, 0.05, 1.0, COLD] {
        for weak in [fillet(1e-6, 1.0), fillet(1000.0, 1e-9)] {
            let got = angles(&joint(Some(fillet(1000.0, 1.0)), Some(weak), lag), &FOOT);
            let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-6;
            assert!(
                close(got.cup_rad, one.cup_rad) && close(got.tilt_rad, one.tilt_rad),
                "{got:?} against {one:?}"
            );
            assert!(close(got.cup_sigma_rad, one.cup_sigma_rad), "{got:?} against {one:?}");
            assert!(close(got.tilt_sigma_rad, one.tilt_sigma_rad), "{got:?} against {one:?}");
        }
    }
}

#[test]
fn far_stitches_do_not_turn_the_tilt_over_and_more_of_them_take_more_away() {
    let left = |fraction: f64| {
        angles(&joint(Some(fillet(1000.0, 1.0)), Some(fillet(600.0, fraction)), COLD), &FOOT).tilt_rad
    };
    let all = [0.0, 0.25, 0.33, 0.5, 0.75].map(left);
    assert!(all.windows(2).all(|w| w[1] < w[0]) && all[4] > 0.0, "{all:?}");
}

/// Up to where plates are hot through.
#[test]
fn the_cup_never_falls_with_heat_of_either_side_and_moves_without_jump() {
    for lag in [0.0, 0.05, 1.0, COLD] {
        let cup = |far: f64| {
            let far = (far > 0.0).then(|| fillet(far, 1.0));
            angles(&joint(Some(fillet(900.0, 1.0)), far, lag), &FOOT).cup_rad
        };
        let all: Vec<f64> = (0..800).map(|k| cup(5.0 * f64::from(k))).collect();
        assert!(all[..280].windows(2).all(|w| w[1] >= w[0] - 1e-15), "lag {lag}");
        assert!(all.windows(2).all(|w| (w[1] - w[0]).abs() < 4e-4), "lag {lag}");
    }
}

#[test]
fn what_two_equal_cold_sides_leave_is_less_than_its_own_spread() {
    for heat in [600.0, 1000.0, 1400.0] {
        let left = angles(&joint(Some(fillet(heat, 1.0)), Some(fillet(heat, 1.0)), COLD), &FOOT);
        assert!(left.tilt_rad.abs() < 1.5 * left.tilt_sigma_rad, "{heat}: {left:?}");
        assert!((0.003..0.012).contains(&left.tilt_sigma_rad), "{heat}: {left:?}");
    }
}

#[test]
fn a_gap_adds_no_more_tilt_than_it_takes_to_close_it_and_rolls_or_tacks_leave_none_to_close() {
    let tilt = |gap_mm: f64, hold: Hold| tilt_one_side_rad(1000.0, 6.0, &WebFoot { gap_mm, hold, ..FOOT });
    let none = tilt(0.0, Hold::NOTHING);
    assert!((tilt(0.04, Hold::NOTHING) - none - 0.005).abs() < 1e-12);
    assert!((tilt(5.0, Hold::NOTHING) / none - 1.75).abs() < 1e-12);
    for closed in [Hold::LINE, Hold::TACKED_ALONG, Hold::HELD_SQUARE] {
        assert!((tilt(5.0, closed) / tilt(0.0, closed) - 1.0).abs() < 1e-12);
    }
}

#[test]
fn lengths_and_heat_grown_alike_leave_the_tilt_alone() {
    let tilt = |k: f64| free_tilt_rad(900.0 * k * k, 6.0 * k, 5.0 * k);
    for k in [0.6, 1.3, 1.8] {
        assert!((tilt(k) / tilt(1.0) - 1.0).abs() < 1e-12);
    }
}
