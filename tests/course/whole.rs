//! The whole member: how it turns, what is welded across it, runs and orders along a seam.

use crate::studies::{Run, falls, run, within};

/// Rows of one word, in their order.
fn of(run: &Run, name: &str, column: &str, word: &str) -> Vec<f64> {
    let words = run.table.column(column).map(|c| c.values.clone());
    let Some(weldbow::study::Values::Words(words)) = words else { panic!("{column} holds no words") };
    let all = run.all(name).into_iter().zip(words);
    all.filter(|(_, w)| w == word).map(|(x, _)| x).collect()
}

/// φ = B/GJ·(1 − 1/cosh(kL/2)) (Vlasov, memory): below L², above L. Equal flanges from one side turn by nothing.
#[test]
fn one_seam_from_each_side_turns_the_member_nearly_with_the_square_of_its_length() {
    let run = run("20-twist");
    let turn = of(&run, "twist.max_rad", "pass", "one each side");
    let length = of(&run, "member.length", "pass", "one each side");
    let same = of(&run, "twist.max_rad", "pass", "both far");
    assert!(same.iter().all(|t| t.abs() < 1e-9), "from one side: {same:?}");
    let power = (turn[turn.len() - 1] / turn[0]).abs().ln() / (length[length.len() - 1] / length[0]).ln();
    within("power of the length", power, 1.2, 2.0);
    let sweep = of(&run, "sweep.max_mm", "pass", "one each side");
    assert!(sweep.iter().all(|s| s.abs() < 1e-6), "sweeps cancel: {sweep:?}");
    let apart = of(&run, "twist.apart_mm", "pass", "one each side");
    // h = 610 mm between the middles of the flanges
    within("flanges apart over turn, mm", (apart[0] / turn[0]).abs(), 600.0, 620.0);
}

/// V·(y − y_c)/I for each weld (beam theory): equal kinks add by their places a·(1 − a/L). Common practice, no source: cleats bow toward the
/// bare flange, late splices more.
#[test]
fn cleats_add_up_and_a_late_splice_bows_what_an_early_one_does_not() {
    let run = run("21-across");
    let at = |name: &str, plates: &str| of(&run, name, "outer_flange", plates);
    let one = at("attachments.camber_mm", "one plate");
    // at mid-length a kink at a < L/2 makes K·a/2: 2 cleats at 3 m from the ends, 4 at 2 and 5 m, 6 at 1, 3 and 5 m
    within("4 cleats over 2", one[2] / one[1], 7.0 / 3.0 - 1e-6, 7.0 / 3.0 + 1e-6);
    within("6 cleats over 2", one[3] / one[1], 3.0 - 1e-6, 3.0 + 1e-6);
    assert!(one[0].abs() < 1e-12 && one[4].abs() < 1e-9, "none, and pairs on equal flanges: {one:?}");
    assert_eq!(one, at("attachments.camber_mm", "spliced before"));
    let late = |word| at("attachments.camber_mm", word)[0];
    let (closed, open) = (late("spliced after, seams closed"), late("spliced after, 300 mm open"));
    assert!(0.0 < closed && closed < open, "{closed} and {open}");
    let shorter = at("attachments.shortening_mm", "one plate");
    within("shortening of a pair, mm; shops allow 0.3 to 0.7 (memory)", shorter[4] / 3.0, 0.2, 0.8);
}

/// Tendon-force tests of the 1970s (memory): the largest run governs. By heat over the runs: 1, 1/2, 1/3. That order along the seam leaves bows
/// alone: our own strip runs, no other source.
#[test]
fn several_runs_shrink_less_and_the_order_along_the_seam_changes_nothing() {
    let run = run("22-runs");
    let shortening = run.all("shortening_mm");
    falls("one, two, three runs", &shortening[..3]);
    within("two runs over one", shortening[1] / shortening[0], 0.4, 0.8);
    // one run comes with about twice the heat that tilts most, exp(−ln² 2) = 0.62 of the largest; two with half of it each have it nearly
    // whole and add up: about 2/0.62 = 3.2 by hand
    let tilt: Vec<f64> = run.all("flanges.outer.tilt_rad").iter().map(|t| t.abs()).collect();
    within("tilt of two runs over one", tilt[1] / tilt[0], 2.6, 3.8);
    assert!(tilt[2] > tilt[1], "three runs tilt more than two: {tilt:?}");
    for name in ["shortening_mm", "camber.max_mm", "sweep.max_mm"] {
        let all = run.all(name);
        within("middle outward over one run", all[3] / all[0], 0.999, 1.001);
        within("back-step over one run", all[4] / all[0], 0.999, 1.001);
    }
}
