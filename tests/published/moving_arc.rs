//! The laws of cup, tilt and narrowing against joints with a moving arc in three dimensions: joint by joint, class by class, each left out of
//! the fit, and three of them by section, table and law side by side; and against joints over the whole range by slices with a travelling arc, of which
//! a third was kept back: `cargo test --test published moving_arc -- --nocapture`. Nothing in it is measured.

#![allow(clippy::print_stdout, reason = "the numbers are what a reader of the test wants")]

#[path = "../support/fit.rs"]
mod fit;
#[path = "../support/moving_table.rs"]
mod moving_table;

use fit::fitted;
use moving_table::{Row, fitted_like, range, table};
use weldbow::angular::cup::{
    EXPONENT, MOST_CUP_RAD, RISE_J_PER_MM3, SHARPNESS, THROUGH_EXPONENT, THROUGH_J_PER_MM3,
};
use weldbow::angular::hold::{Hold, PRESSED};
use weldbow::angular::tilt::{PEAK_J_PER_MM3, PEAK_RAD};
use weldbow::verification::{Meshing, Options, verify};

/// Prints law over table by joint; returns rms and largest of the difference, %.
fn spread(what: &str, rows: &[&Row], pair: impl Fn(&Row) -> (f64, f64)) -> (f64, f64) {
    let mut offs = Vec::new();
    for row in rows {
        let (table, law) = pair(row);
        offs.push(100.0 * (law / table - 1.0));
        println!("  {}: {what} {table:.3}, law {law:.3}, {:+.0} %", row.named(), offs[offs.len() - 1]);
    }
    let rms = (offs.iter().map(|o| o * o).sum::<f64>() / offs.len() as f64).sqrt();
    let worst = offs.iter().fold(0.0, |most: f64, o| most.max(o.abs()));
    println!("{what}: {} joints, rms {rms:.1} %, worst {worst:.0} %", rows.len());
    (rms, worst)
}

/// What the fit left open when it was made (`moving_arc.py`): 5.3 and 13 %, 7.1 and 14, 12.1 and 25; rounded constants add a half. The cup alone was met
/// within 4.8 and 11 by three constants that knew of no other joints and were five times too high on some of the range below.
#[test]
fn one_side_alone_is_as_near_to_the_laws_as_their_fit_left_it() {
    let all = table();
    let fitted: Vec<&Row> = all.iter().filter(|r| r.fitted()).collect();
    assert_eq!(fitted.len(), 19);
    let cup = spread("cup, mrad", &fitted, |r| (r.long_cup(), r.law().cup_rad));
    let tilt = spread("free tilt, mrad", &fitted, |r| (r.tilt(), r.law().tilt_rad));
    let narrows = spread("narrowing, mm", &fitted, |r| (r.narrowing(), r.law_narrowing()));
    assert!(cup.0 < 5.5 && cup.1 < 13.5, "{cup:?}");
    assert!(tilt.0 < 7.6 && tilt.1 < 15.0, "{tilt:?}");
    assert!(narrows.0 < 12.6 && narrows.1 < 26.0, "{narrows:?}");
}

/// rms and largest, %, of each joint by the law that was fitted to all others.
fn left_out<const N: usize>(
    what: &str,
    start: [f64; N],
    rows: &[&Row],
    off: impl Fn(&[f64; N], &Row) -> f64,
) -> (f64, f64) {
    let offs = (0..rows.len()).map(|out| {
        let others: Vec<&Row> = (0..rows.len()).filter(|k| *k != out).map(|k| rows[k]).collect();
        let left = 100.0 * off(&fitted(start, &others, |p, r| r.weight * off(p, r)), rows[out]).exp_m1();
        println!("  {}: {what} {left:+.0} % when left out", rows[out].named());
        left
    });
    let offs: Vec<f64> = offs.collect();
    let rms = (offs.iter().map(|o| o * o).sum::<f64>() / offs.len() as f64).sqrt();
    let worst = offs.iter().fold(0.0, |most: f64, o| most.max(o.abs()));
    println!("{what}: each left out, rms {rms:.1} %, worst {worst:.0} %");
    (rms, worst)
}

/// The forms written once more, their constants fitted here: what stands in the code is that fit, rounded, and no joint carries it alone.
#[test]
fn the_constants_are_the_fit_and_no_joint_carries_it_alone() {
    let all: Vec<Row> = table().into_iter().chain(range()).collect();
    let fitted_to =
        |r: &Row| r.laid() == "both at once" && r.weight > 1.0 || r.fitted() && r.laid() != "both in turn";
    let rows: Vec<&Row> = all.iter().filter(|r| fitted_to(r)).collect();
    // the free tilt is that of the table alone
    let one: Vec<&Row> = rows.iter().copied().filter(|r| r.weight > 1.0 && r.laid() == "one side").collect();
    let cup = |p: &[f64; 5], r: &Row| {
        let heat = r.folding();
        let rise = 1.0 - (-(heat.x_j_per_mm3 / p[1]).powf(p[2])).exp();
        let through = (heat.y_j_per_mm3 / p[3]).powf(SHARPNESS * p[4]);
        (p[0] * rise / r.long_cup()).ln() - through.ln_1p() / SHARPNESS
    };
    let tilt = |p: &[f64; 2], r: &Row| {
        let over = r.heat() / (p[1] * r.web() * r.leg());
        (p[0] * (-over.ln().powi(2)).exp() / r.tilt()).ln()
    };
    let cups = [1e3 * MOST_CUP_RAD, RISE_J_PER_MM3, EXPONENT, THROUGH_J_PER_MM3, THROUGH_EXPONENT];
    let tilts = [1e3 * PEAK_RAD, PEAK_J_PER_MM3];
    let own_cup = fitted(cups, &rows, |p, r| r.weight * cup(p, r));
    let own_tilt = fitted(tilts, &one, tilt);
    println!("cup: in the code {cups:.4?}, fitted here {own_cup:.4?}; tilt: {tilts:.4?}, {own_tilt:.4?}");
    for (here, there) in own_cup.iter().chain(&own_tilt).zip(cups.iter().chain(&tilts)) {
        assert!((here / there - 1.0).abs() < 0.02, "{here} against {there}");
    }
    // moving_arc.py, table and slices: 10 and 34 %, of the table alone 7 and 22 (both at once on 6 mm, amid the fall); 8 and 17 %
    let (cup, tilt) = (left_out("cup", cups, &rows, cup), left_out("free tilt", tilts, &one, tilt));
    assert!(cup.0 < 11.0 && cup.1 < 35.0, "{cup:?}");
    assert!(tilt.0 < 8.5 && tilt.1 < 18.0, "{tilt:?}");
}

fn class(row: &Row) -> &str {
    match (row.laid(), row.foot(), row.change(), row.fitted()) {
        ("one side", _, "held square until cold", _) => "one side, held square",
        ("one side", "one piece", "none", true) => "one side, fitted",
        ("one side", "one piece", _, _) if row.yield_mpa() < 300.0 => "one side, S235",
        ("one side", "one piece", _, _) => "one side, other lengths, speeds, meshes",
        ("one side", _, _, _) if row.tacked() => "one side, tacked",
        ("one side", ..) => APART,
        (laid, ..) => laid,
    }
}

/// Nothing joins web and flange ahead of the arc.
const APART: &str = "one side, apart and not tacked";

/// Every row of the table in one class: how far cup and free tilt of the laws lie from it. What the laws do not know (speed, source, web height,
/// foot, tacks, yield strength) is in it as the table has it.
#[test]
fn class_by_class_the_laws_are_inside_what_they_state() {
    let all = table();
    let mut names: Vec<&str> = all.iter().map(class).collect();
    names.sort_unstable();
    names.dedup();
    println!("class | joints | cup: mean off, worst | tilt: mean off, worst");
    for name in names {
        let rows: Vec<&Row> = all.iter().filter(|r| class(r) == name).collect();
        let off = |pair: &dyn Fn(&Row) -> (f64, f64)| -> (f64, f64) {
            let offs: Vec<f64> =
                rows.iter().map(|r| pair(r)).map(|(there, law)| 100.0 * (law / there - 1.0)).collect();
            (
                offs.iter().sum::<f64>() / offs.len() as f64,
                offs.iter().fold(0.0, |most: f64, o| most.max(o.abs())),
            )
        };
        let cup = off(&|r| (r.long_cup(), r.law().cup_rad));
        print!("{name} | {} | {:+.0} %, {:.0} %", rows.len(), cup.0, cup.1);
        // the bias of a cup is 30 %, of one over a gap a third
        assert!(cup.1 < if name == APART { 33.0 } else { 30.0 }, "{name}: {cup:?}");
        if name.starts_with("one side") {
            let hold = if name.ends_with("square") { Hold::HELD_SQUARE.tilt_part() / PRESSED } else { 1.0 };
            let law = |r: &Row| if name == APART { r.law_apart() } else { r.law() };
            let tilt = off(&|r| (r.tilt(), hold * law(r).tilt_rad));
            print!(" | {:+.0} %, {:.0} %", tilt.0, tilt.1);
            // half of the ± that a tilt has
            assert!(tilt.1 < 25.0, "{name}: {tilt:?}");
        }
        println!();
    }
}

/// Both at once fold by the heats of both, beside each other; in turn, which nothing was fitted to, cups add up.
#[test]
fn both_sides_follow_from_the_laws_of_one() {
    let all = table();
    let of = |laid: &str| all.iter().filter(|r| r.laid() == laid).collect::<Vec<_>>();
    let at_once = spread("cup, mrad", &of("both at once"), |r| (r.long_cup(), r.law().cup_rad));
    let in_turn = spread("cup, mrad", &of("both in turn"), |r| (r.long_cup(), r.law().cup_rad));
    let narrows: Vec<&Row> = all.iter().filter(|r| r.laid() != "one side").collect();
    let narrows = spread("narrowing, mm", &narrows, |r| (r.narrowing(), r.law_narrowing()));
    // the bias of a cup is 30 %; the table's own length and mesh are worth 5
    // at once on 6 mm lies on the fall of the law: half of the bias
    assert!(at_once.0 < 10.0 && at_once.1 < 16.0 && in_turn.1 < 10.0, "{at_once:?} {in_turn:?}");
    // 40 % are stated for shrinkage across a weld
    assert!(narrows.1 < 45.0, "{narrows:?}");
    for row in of("both in turn").into_iter().filter(|r| r.foot() == "one piece") {
        let law = row.law();
        println!(
            "left of the tilt: table {:.1}, law {:.1} ± {:.1} mrad",
            row.tilt(),
            law.tilt_rad,
            law.tilt_sigma_rad
        );
        assert!((row.tilt() - law.tilt_rad).abs() < law.tilt_sigma_rad);
    }
}

/// Joints over the whole range, none of them in the table: of the third that was kept back before any of them was run, and of the rest.
#[test]
fn joints_kept_back_over_the_whole_range_are_met() {
    let all = range();
    let of = |is: &dyn Fn(&Row) -> bool| all.iter().filter(|r| is(r)).collect::<Vec<&Row>>();
    let cup = |rows: &[&Row]| spread("cup, mrad", rows, |r| (r.long_cup(), r.law().cup_rad));
    let kept = cup(&of(&|r| r.kept_back()));
    // what was asked of the law; the ± of a cup is 30 % and more
    assert!(kept.0 < 15.0 && kept.1 < 30.0, "{kept:?}");
    for laid in ["one side", "both in turn", "both at once"] {
        let rest = cup(&of(&|r| r.fitted() && r.laid() == laid));
        assert!(rest.0 < 15.0 && rest.1 < 30.0, "{laid}: {rest:?}");
    }
    let tilt = spread("free tilt, mrad", &of(&|r| r.kept_back() && r.laid() == "one side"), |r| {
        (r.tilt(), r.law().tilt_rad)
    });
    assert!(tilt.0 < 20.0, "{tilt:?}");
}

/// Tacks take off less than a sixth; held square until cold a third to a half; the parts of `Hold` are means of these.
#[test]
fn tacks_and_holding_square_take_off_what_their_parts_say() {
    let all = table();
    let one = |is: &dyn Fn(&Row) -> bool, heat: f64| {
        let found = all.iter().find(|r| r.laid() == "one side" && (r.heat() - heat).abs() < 1e-9 && is(r));
        found.map(Row::tilt).unwrap()
    };
    let plain = |r: &Row| {
        r.foot() == "one piece"
            && r.change() == "none"
            && (r.flange(), r.web(), r.leg()) == (10.0, 6.0, 6.0)
            && r.length() > 350.0
            && (r.speed() - 12.0).abs() < 1e-9
    };
    let (mut square, mut tacks) = (0.0, 0.0);
    for heat in [600.0, 1000.0] {
        let free = one(&plain, heat);
        square += 0.5 * one(&|r| r.change() == "held square until cold", heat) / free;
        tacks += 0.5 * one(&|r| r.tacked() && r.foot() == "apart", heat) / free;
    }
    let part = |hold: Hold| hold.tilt_part() / PRESSED;
    println!(
        "held square {square:.2}, {:.2} taken; tacked {tacks:.2}, {:.2} taken",
        part(Hold::HELD_SQUARE),
        part(Hold::TACKED_ALONG)
    );
    assert!(
        (square - part(Hold::HELD_SQUARE)).abs() < 0.03 && (tacks - part(Hold::TACKED_ALONG)).abs() < 0.04
    );
}

/// The default band of a one-sided tilt holds 0.6 of the free value of every joint in the table, and of all but one over the range.
#[test]
fn the_band_of_the_default_tilt_holds_six_tenths_of_every_free_value() {
    for (joints, left) in [(table(), 0), (range(), 1)] {
        let one = joints.iter().filter(|r| r.laid() == "one side" && (r.fitted() || r.kept_back()));
        let outside = one.filter(|row| {
            let law = row.law_held(Hold::LINE);
            let off = (0.6 * row.tilt() - law.tilt_rad) / law.tilt_sigma_rad;
            println!("{}: {:.1} ± {:.1}, {off:+.1} σ", row.named(), law.tilt_rad, law.tilt_sigma_rad);
            off.abs() >= 1.0
        });
        let outside = outside.count();
        assert!(outside <= left, "{outside} joints outside of the band");
    }
}

/// A section held until the weld is solid gives the cup within a quarter (its mean within 15 %) and a lower estimate of the tilt.
#[test]
fn three_joints_by_section_by_moving_arc_and_by_law() {
    let all = table();
    let options = Options { meshing: Meshing::Coarse, quick: true, times_s: vec![], ..Options::default() };
    let mut ratio = 0.0;
    println!(
        "flange / web / leg | cup: section, moving arc, law | tilt: section, moving arc, free law, mrad"
    );
    for (flange, heat) in [(6.0, 600.0), (10.0, 1000.0), (16.0, 1000.0)] {
        let row = fitted_like(&all, flange, heat);
        let solved = verify(&row.case(), &options).unwrap();
        let section = &solved.result.passes[0].section;
        let (cup, tilt) = (1e3 * section.cup_rad.unwrap(), 1e3 * section.tilt_rad.unwrap());
        let law = row.law();
        println!(
            "{} | {cup:.1}, {:.1}, {:.1} | {tilt:.1}, {:.1}, {:.1}",
            row.named(),
            row.long_cup(),
            law.cup_rad,
            row.tilt(),
            law.tilt_rad
        );
        ratio += cup / row.long_cup() / 3.0;
        assert!((cup / row.long_cup() - 1.0).abs() < 0.25, "{}: {cup}", row.named());
        assert!(tilt < 1.05 * row.tilt(), "{}: {tilt}", row.named());
    }
    println!("cup of the section over that of the moving arc, mean {ratio:.2}");
    assert!((ratio - 1.0).abs() < 0.15, "{ratio}");
}
