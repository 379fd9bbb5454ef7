//! The formula level's constants against the studies that derive them anew (`studies/referee/`): a constant that drifts from
//! what its own study finds fails here.
//!
//! Both sides are computed; no measurement is among them. Each tolerance is what the formula's fit left open when it was made,
//! or what the constant's own stated uncertainty allows.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]

#[path = "../support/fit.rs"]
mod fit;
#[path = "../support/gallery.rs"]
mod gallery;
#[path = "../support/moving_table.rs"]
mod moving_table;

use crate::studies::{self, Run, run};
use fit::fitted;
use std::sync::OnceLock;
use weldbow::angular::both_sides::TILT_SIGMA;
use weldbow::angular::cup::{
    EXPONENT, FoldingHeat, MOST_CUP_RAD, RISE_J_PER_MM3, SHARPNESS, THROUGH_EXPONENT, THROUGH_J_PER_MM3,
};
use weldbow::angular::hold::{Hold, PRESSED};
use weldbow::angular::tilt::{PEAK_J_PER_MM3, PEAK_RAD};
use weldbow::moving_arc::{Foot, Grip, Travel};
use weldbow::shrinkage::tendon::{THICK_LOSS, THIN_N_PER_J_MM, heat_parameter};
use weldbow::verification::{Meshing, Options, held_so, moving, travel_of};

/// The studies: each is solved once, for whoever asks first.
static STUDIES: [(&str, OnceLock<Run>); 9] = [
    ("1-force", OnceLock::new()),
    ("2-yield", OnceLock::new()),
    ("3-second-side", OnceLock::new()),
    ("4-arm", OnceLock::new()),
    ("5-fold", OnceLock::new()),
    ("6-tilt", OnceLock::new()),
    ("7-free", OnceLock::new()),
    ("8-moving", OnceLock::new()),
    ("9-second-side-held", OnceLock::new()),
];

fn solved(stem: &str) -> &'static Run {
    let (_, solved) = STUDIES.iter().find(|(name, _)| *name == stem).unwrap();
    solved.get_or_init(|| run(&format!("referee/{stem}")))
}

/// Their pictures in `plots/` are what the program draws today (`UPDATE_PLOTS=1` draws them anew).
#[test]
fn the_constants_are_what_the_program_draws() {
    for (stem, _) in &STUDIES {
        let drawn = solved(stem).pictures(&format!("referee/{stem}"));
        gallery::hold(drawn.into_iter().map(|p| (p.name.replace('/', "-"), p)));
    }
}

/// Two columns of a study side by side, section first.
fn pairs(study: &Run, what: &str) -> Vec<(f64, f64)> {
    let [section, formula] = ["section", "formula"].map(|by| study.all(&format!("{by}.outer.{what}")));
    section.into_iter().zip(formula).collect()
}

/// Root mean square and largest of formula over section, less 1, said.
fn spread(what: &str, pairs: &[(f64, f64)]) -> (f64, f64) {
    let off = || pairs.iter().map(|(section, formula)| formula / section - 1.0);
    let rms = (off().map(|d| d * d).sum::<f64>() / pairs.len() as f64).sqrt();
    let worst = off().map(f64::abs).fold(0.0, f64::max);
    println!("{what}: {} joints, rms {:.1} %, worst {:.1} %", pairs.len(), 100.0 * rms, 100.0 * worst);
    (rms, worst)
}

/// What a constant that multiplies the formula would be by the study: median of section over formula times the constant.
fn by_study(pairs: &[(f64, f64)], constant: f64) -> f64 {
    let mut ratios: Vec<f64> = pairs.iter().map(|(section, formula)| section / formula).collect();
    ratios.sort_by(f64::total_cmp);
    constant * ratios[ratios.len() / 2]
}

fn near(what: &str, constant: f64, found: f64, tolerance: f64) {
    println!("{what}: {constant:.4} in the formula, {found:.4} by its study");
    assert!((found / constant - 1.0).abs() < tolerance, "{what}: {constant} against {found} by its study");
}

const PER_HEAT: &str = "force_per_heat_n_mm_per_j";

/// Fitted to these joints and, five times as many, to free members by the strip model; farthest off is a 6 mm flange that 1.6 kJ/mm heats
/// through, 5 %.
#[test]
fn the_force_of_thin_and_thick_flanges_is_that_of_its_study() {
    let study = solved("1-force");
    let all = pairs(study, &format!("first.{PER_HEAT}"));
    let (rms, worst) = spread("force", &all);
    assert!(rms < 0.03 && worst < 0.055, "rms {rms}, worst {worst}");
    let heat = study.all("pass.heat_input");
    let thickness = study.all("outer_flange.thickness");
    // net heat in kJ/mm; the web takes its part
    let q = |i: usize| 1e3 * heat[i] * 2.0 * thickness[i] / (2.0 * thickness[i] + 8.0) / thickness[i].powi(2);
    let of = |low: f64, high: f64| -> Vec<(f64, f64)> {
        (0..all.len()).filter(|i| (low..high).contains(&q(*i))).map(|i| all[i]).collect()
    };
    near("thin plate, N per J/mm", THIN_N_PER_J_MM, by_study(&of(4.0, 12.0), THIN_N_PER_J_MM), 0.03);
    let thick = THIN_N_PER_J_MM * (1.0 - THICK_LOSS);
    near("thick plate, N per J/mm", thick, by_study(&of(0.0, 1.4), thick), 0.04);
}

/// The loss of a free section rests on members of the strip level; this is a tee, smaller than any of them.
#[test]
fn a_free_joint_loses_what_its_study_says() {
    let study = solved("7-free");
    let all = pairs(study, &format!("first.{PER_HEAT}"));
    let (rms, worst) = spread("free", &all);
    assert!(rms < 0.05 && worst < 0.10, "rms {rms}, worst {worst}");
}

/// Joints free lengthwise: the loss of a free section is in it as well.
#[test]
fn a_second_side_adds_what_its_study_says_by_the_time_between() {
    let study = solved("3-second-side");
    let both = pairs(study, &format!("last.{PER_HEAT}"));
    let (_, worst) = spread("second side", &both);
    assert!(worst < 0.09, "worst {worst}");
    let (first, last) = (both[0], both[both.len() - 1]);
    near("within seconds over cold", first.1 / last.1, first.0 / last.0, 0.12);
}

/// What a section stretches by while it is hot sets the clock of a second side: half of what both do together is gone, and most of the first
/// moment is turned round, three to five times later in a joint held lengthwise than in a free one. Free members made the fit;
/// of a held joint it took that most is turned round at 2 t_w, no force.
#[test]
fn a_stiff_joint_remembers_its_first_side_longer_as_its_study_says() {
    let held = solved("9-second-side-held");
    let both = pairs(held, &format!("last.{PER_HEAT}"));
    let (rms, worst) = spread("second side of a stiff joint", &both);
    assert!(rms < 0.08 && worst < 0.10, "rms {rms}, worst {worst}");
    let wait = held.all("step.wait");
    let half_s = |values: Vec<f64>| {
        let half = 0.5 * (values[0] + values[values.len() - 1]);
        let next = values.iter().position(|v| *v < half).unwrap();
        let part = (values[next - 1] - half) / (values[next - 1] - values[next]);
        wait[next - 1] * (wait[next] / wait[next - 1]).powf(part)
    };
    let [held_s, free_s] = [held, solved("3-second-side")].map(|study| {
        let [section, formula] =
            ["section", "formula"].map(|by| half_s(study.all(&format!("{by}.outer.last.{PER_HEAT}"))));
        println!("half is gone after {section:.0} s in the section, {formula:.0} s by formula");
        assert!((0.6..1.6).contains(&(formula / section)), "{formula} s and {section} s");
        [section, formula]
    });
    let longer = [held_s[0] / free_s[0], held_s[1] / free_s[1]];
    assert!(longer.iter().all(|times| (2.5..5.0).contains(times)), "held over free {longer:?}");
    let least =
        |values: Vec<f64>| (0..values.len()).min_by(|a, b| values[*a].total_cmp(&values[*b])).unwrap();
    let [section, formula] =
        ["section", "formula"].map(|by| least(held.all(&format!("{by}.outer.last.across_mm"))));
    println!(
        "most is turned round after {:.0} s in the section, {:.0} s by formula",
        wait[section], wait[formula]
    );
    assert!(section.abs_diff(formula) <= 1);
}

/// The table of the formula has five of these strengths.
#[test]
fn stronger_steel_loses_force_as_its_study_says() {
    let study = solved("2-yield");
    for (pair, grade) in
        pairs(study, &format!("first.{PER_HEAT}")).iter().zip(["235", "275", "355", "460", "690"])
    {
        near(&format!("{grade} MPa, N per J/mm"), pair.1, pair.0, 0.04);
    }
}

/// Two parts for all joints; the study's scatter about them is 6 %, the ± of the sweep holds 20 %. Farthest off is a 10 mm web under a 4 mm
/// fillet.
#[test]
fn the_lateral_arm_is_that_of_its_study() {
    let study = solved("4-arm");
    let all = pairs(study, "first.across_mm");
    let (rms, worst) = spread("arm", &all);
    assert!(rms < 0.075 && worst < 0.17, "rms {rms}, worst {worst}");
    near("arm over that of the study", 1.0, by_study(&all, 1.0), 0.05);
}

/// The law rests on moving arcs in three dimensions; a slice held until the weld is solid is a second opinion: 0.82 to 1.26 of their cups, and
/// the law's own residual is 11 %. Heats beyond the table stand apart: thin flanges heated through, where a slice falls off sooner than an arc,
/// and thick ones under the least heat; and fillets of half the web, of which a moving arc has a fifth more than the law once had
/// (`reference-cases/moving_range.csv`, 5 mm on 10) and a section less.
#[test]
fn the_cup_is_that_of_its_study_within_what_two_and_three_dimensions_differ_by() {
    let study = solved("5-fold");
    let all = pairs(study, "last.cup_rad");
    let (heat, thickness) = (study.all("pass.heat_input"), study.all("outer_flange.thickness"));
    let legs = study.all("pass.leg");
    let of = |low: f64, high: f64| -> Vec<(f64, f64)> {
        let there =
            |i: &usize| legs[*i] > 5.0 && (low..high).contains(&(1e3 * heat[*i] / thickness[*i].powi(2)));
        (0..all.len()).filter(there).map(|i| all[i]).collect()
    };
    let table = of(2.0, 16.0);
    let (rms, worst) = spread("cup", &table);
    assert!(rms < 0.16 && worst < 0.25, "rms {rms}, worst {worst}");
    near("cup of a flange hot through, rad", MOST_CUP_RAD, by_study(&table, MOST_CUP_RAD), 0.20);
    // beyond it: a thick flange as inside; heated through, where a slice falls off by another way than the arc that the law is fitted to
    let (thick, through) = (of(0.0, 2.0), of(16.0, f64::INFINITY));
    println!("left out: thick {thick:.4?}, heated through {through:.4?}");
    assert!(thick.len() == 1 && spread("thick flanges", &thick).1 < 0.20, "{thick:?}");
    let apart = through.iter().map(|(section, law)| law / section);
    assert!(through.len() == 5 && apart.into_iter().all(|over| (0.35..1.3).contains(&over)), "{through:?}");
}

/// A slice cannot show how whole plates turn against each other: it is a lower estimate of the free tilt, as the lesson says.
#[test]
fn the_free_tilt_lies_above_the_section_of_its_study() {
    let study = solved("6-tilt");
    let all = pairs(study, "first.tilt_rad");
    let mean = all.iter().map(|(section, law)| section / law).sum::<f64>() / all.len() as f64;
    println!("tilt: section over free law {mean:.2} on average; a line is taken to leave {PRESSED:.2} of it");
    assert!((0.5..1.0).contains(&mean), "{mean}");
}

/// An arc that travels along 200 mm in slices joined by their plates: the second way to three dimensions, in nothing that the laws were
/// fitted to. Cups of 200 mm are a tenth below those of a long joint, which the law has (`reference-cases/moving_arc.py`). The laws rest on a
/// deposit that lies there cold; here it arrives molten and leaves less heat to the plates: 15 % less cup with 600 J/mm, 7 % with 1000 on
/// 10 mm, and slices 25 mm apart give 8 % less than closer ones (`reference-cases/moving_slices.md`). All of it is inside the 30 % of the law.
#[test]
fn cup_and_tilt_are_those_of_an_arc_that_travels() {
    const SHORT: f64 = 0.90;
    let study = solved("8-moving");
    let both = |after: &str, what: &str| -> Vec<(f64, f64)> {
        let of = |by: &str| study.all(&format!("{by}.outer.{after}.{what}"));
        of("moving").into_iter().zip(of("formula")).collect()
    };
    let long =
        |pairs: Vec<(f64, f64)>| pairs.into_iter().map(|(arc, law)| (arc / SHORT, law)).collect::<Vec<_>>();
    for after in ["first", "last"] {
        let cups = long(both(after, "cup_rad"));
        println!("cup, {after}: {cups:.4?}");
        let (_, worst) = spread(&format!("cup, {after}"), &cups);
        assert!(worst < 0.50, "{after}: worst {worst}");
        near("cup of a flange hot through, rad", MOST_CUP_RAD, by_study(&cups, MOST_CUP_RAD), 0.28);
    }
    let tilts = both("first", "tilt_rad");
    println!("tilt: {tilts:.4?}");
    let (_, worst) = spread("tilt", &tilts);
    assert!(worst < 0.25, "worst {worst}");
    near("largest free tilt, rad", PEAK_RAD, by_study(&tilts, PEAK_RAD), 0.15);
    // what a cold second side leaves lies within what the law says of both sides, 8 mrad
    for (arc, law) in both("last", "tilt_rad") {
        println!("left of the tilt: arc {arc:.4}, law {law:.4} rad");
        assert!((arc - law).abs() < 0.012, "{arc} against {law}");
    }
}

/// A line of `studies/referee/long/slices.csv`: one side of a joint by slices with a travelling arc.
struct Sliced {
    /// What folds its flange.
    folding: FoldingHeat,
    /// Heat over web and leg, J/mm³.
    turning: f64,
    /// As if the joint were long, mrad.
    cup: f64,
    /// mrad.
    tilt: f64,
}

fn sliced() -> Vec<Sliced> {
    let text = include_str!("../../studies/referee/long/slices.csv");
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let read = |line: &str| {
        let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let [heat, length, flange, web, leg, cup, tilt] = cells[..] else { panic!("{line}") };
        Sliced {
            folding: FoldingHeat::of(heat_parameter(heat, flange, web), web, leg),
            turning: heat / (web * leg),
            cup: moving_table::as_if_long(cup, length),
            tilt,
        }
    };
    lines.map(read).collect()
}

/// One side of every joint of `reference-cases/moving_range.csv`.
fn over_the_range() -> Vec<Sliced> {
    let joints = moving_table::range();
    let one = joints.iter().filter(|r| r.laid() == "one side" && (r.fitted() || r.kept_back()));
    let read = |r: &moving_table::Row| Sliced {
        folding: r.folding(),
        turning: r.heat() / (r.web() * r.leg()),
        cup: r.long_cup(),
        tilt: r.tilt(),
    };
    one.map(read).collect()
}

/// The laws of cup and free tilt derived anew from the travelling arc of this program: their constants, fitted to its slices alone, are those in the
/// code, which were fitted to another calculation in three dimensions (of the cup with a quarter of the weight to slices too). rms 10 and 8 %; the tilt by the
/// joints of that calculation, the cup by those over the whole range as well, since they alone fill the hump. What a flange hot through loses is taken
/// from the code: in three dimensions few joints are.
#[test]
fn the_laws_of_cup_and_tilt_fitted_to_slices_alone_have_the_same_constants() {
    let (all, range) = (sliced(), over_the_range());
    let rows: Vec<&Sliced> = all.iter().collect();
    let cup_rows: Vec<&Sliced> = all.iter().chain(&range).collect();
    let through = |r: &Sliced| (r.folding.y_j_per_mm3 / THROUGH_J_PER_MM3).powf(SHARPNESS * THROUGH_EXPONENT);
    let cup = |p: &[f64; 3], r: &Sliced| {
        let rise = 1.0 - (-(r.folding.x_j_per_mm3 / p[1]).powf(p[2])).exp();
        (p[0] * rise / r.cup).ln() - through(r).ln_1p() / SHARPNESS
    };
    let tilt = |p: &[f64; 2], r: &Sliced| (p[0] * (-(r.turning / p[1]).ln().powi(2)).exp() / r.tilt).ln();
    let (cups, tilts) = ([1e3 * MOST_CUP_RAD, RISE_J_PER_MM3, EXPONENT], [1e3 * PEAK_RAD, PEAK_J_PER_MM3]);
    let (own_cup, own_tilt) = (fitted(cups, &cup_rows, cup), fitted(tilts, &rows, tilt));
    let rms = |offs: Vec<f64>| (offs.iter().map(|o| o * o).sum::<f64>() / offs.len() as f64).sqrt();
    let (cup_rms, tilt_rms) = (
        rms(cup_rows.iter().map(|r| cup(&own_cup, r)).collect()),
        rms(rows.iter().map(|r| tilt(&own_tilt, r)).collect()),
    );
    println!(
        "rms of {} cups {:.1} %, of {} tilts {:.1} %",
        cup_rows.len(),
        100.0 * cup_rms,
        rows.len(),
        100.0 * tilt_rms
    );
    assert!(cup_rms < 0.10 && tilt_rms < 0.08, "{cup_rms}, {tilt_rms}");
    for (what, constant, found) in [
        ("cup of a flange hot through, mrad", cups[0], own_cup[0]),
        ("heat at 63 % of it, J/mm³", cups[1], own_cup[1]),
        ("exponent of the rise", cups[2], own_cup[2]),
        ("largest free tilt, mrad", tilts[0], own_tilt[0]),
        ("heat at which a flange turns most, J/mm³", tilts[1], own_tilt[1]),
    ] {
        near(what, constant, found, 0.05);
    }
}

/// The study that takes minutes is run by hand; here it only has to be in order.
#[test]
fn the_long_study_is_in_order() {
    assert_eq!(studies::study("referee/long/8-moving").count(), 9);
}

/// What the formula takes a pull-through line for: plates that touch, tacked at the leading end, pressed by rolls about the arc, free behind them. Slices
/// held so leave 0.67 and 0.72 of the tilt of the same joint free and in one piece (600 and 1000 J/mm on 10 mm, `reference-cases/moving_slices.md`);
/// measured joints 0.32 to 0.67 (`reference-cases/measured_fillet.toml`). The default is a judgement between them, and its ± has to hold both.
#[test]
fn what_rolls_leave_of_the_free_tilt_is_inside_the_doubt_of_the_default() {
    let case = moving_table::Row::usual("one side", 600.0, 10.0).case();
    let options = Options { meshing: Meshing::Coarse, ..Options::default() };
    let tilt = |asked: &Travel| {
        moving(&case, &options, asked, &mut |_| true).unwrap().numbers()[0].tilt_rad.unwrap()
    };
    let free = travel_of(&case, Meshing::Coarse, 200.0);
    let line =
        Travel { foot: Foot::Touching, tacks_mm: vec![[0.0, 30.0]], grip: Grip::Rolls(60.0), ..free.clone() };
    assert_eq!(held_so(&line).hold, Hold::LINE);
    assert_eq!(held_so(&free).hold, Hold::NOTHING);
    let part = tilt(&line) / tilt(&free);
    println!(
        "rolls about the arc leave {part:.2} of the free tilt; {PRESSED:.2} is taken, ± {:.2}",
        TILT_SIGMA * PRESSED
    );
    for found in [part, 0.67, 0.72, 0.32] {
        assert!((found - PRESSED).abs() < TILT_SIGMA * PRESSED, "{found}");
    }
}
