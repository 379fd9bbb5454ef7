use super::*;
use crate::job::{STARTER, read_text};
use crate::joint_solver::Lengthwise;

fn job(change: impl Fn(&mut Job)) -> Job {
    let mut job = read_text("starter.toml", STARTER).unwrap();
    change(&mut job);
    job
}

fn pass(seam: Seam, side: Side, order: u32) -> Pass {
    let of = job(|_| ());
    Pass { seam, side, order, ..of.passes[0].clone() }
}

/// A job welded on both sides of the inner seam, the far side so long after the near one.
fn both(wait: Wait) -> Job {
    job(|job| {
        let usual = job.orders[0];
        job.passes = vec![pass(Seam::Inner, Side::Near, 1), pass(Seam::Inner, Side::Far, 2)];
        job.orders = vec![usual, crate::welding::WeldingOrder { number: 2, wait, ..usual }];
    })
}

#[test]
fn a_case_has_the_plates_legs_and_heat_of_its_place() {
    let job = job(|_| ());
    let seam = job.passes[0].seam;
    let x = job.member.length_mm / 3.0;
    let case = Case::of(&job, x, seam, &Options::default()).unwrap();
    let (width, thickness) = job.member.plates_at(x).flange_mm(seam);
    assert!(
        (case.joint.flange_width_mm - width).abs() < 1e-12
            && (case.joint.flange_mm - thickness).abs() < 1e-12
    );
    let first = &case.layers[0];
    assert!((first.beads[0].heat_j_per_mm - job.passes[0].heat_j_per_mm).abs() < 1e-12);
    assert_eq!(case.joint.leg_mm(first.beads[0].side), Some(job.passes[0].leg_mm));
}

#[test]
fn the_formula_of_a_held_joint_leaves_its_part_of_the_tilt_and_all_of_the_fold() {
    use crate::angular::hold::Hold;
    use crate::moving_arc::{Foot, Grip, Travel};
    use crate::verification::{HeldSo, formula, formula_so, held_so};
    let job = job(|_| ());
    let seam = job.passes[0].seam;
    let case = Case::of(&job, job.member.length_mm / 3.0, seam, &Options::default()).unwrap();
    let free = Travel::of(300.0, 12.0);
    assert_eq!(held_so(&free), HeldSo::FREE);
    let line =
        Travel { foot: Foot::Touching, tacks_mm: vec![[0.0, 30.0]], grip: Grip::Rolls(60.0), ..free.clone() };
    let tacked = Travel { tacks_mm: vec![[0.0, 30.0], [200.0, 230.0]], grip: Grip::Free, ..line.clone() };
    let gaping = Travel { foot: Foot::Apart, ..free.clone() };
    let of = |travel: &Travel| formula_so(&case, false, held_so(travel))[0];
    let alone = formula(&case, false)[0];
    assert_eq!(held_so(&line).hold, Hold::LINE);
    for (travel, part) in [(&line, 0.60), (&tacked, 0.54), (&gaping, 1.75), (&free, 1.0)] {
        let got = of(travel);
        let left = got.tilt_rad.unwrap() / alone.tilt_rad.unwrap();
        println!("{travel:?}: {left:.3} of the free tilt, wanted {part}");
        assert!((left - part).abs() < 1e-9, "{travel:?}: {left}");
        assert!((got.cup_rad.unwrap() - alone.cup_rad.unwrap()).abs() < 1e-15);
    }
}

#[test]
fn passes_of_one_order_are_one_layer_and_waits_of_orders_elsewhere_add_up() {
    let at_once = job(|job| {
        job.passes = vec![pass(Seam::Inner, Side::Far, 1), pass(Seam::Inner, Side::Near, 1)];
    });
    let case = Case::of(&at_once, 1000.0, Seam::Inner, &Options::default()).unwrap();
    assert_eq!(case.layers.len(), 1);
    let sides: Vec<Side> = case.layers[0].beads.iter().map(|b| b.side).collect();
    assert_eq!(sides, [Side::Near, Side::Far], "near side first");

    let between = job(|job| {
        let usual = job.orders[0];
        let after = |number, s| crate::welding::WeldingOrder { number, wait: Wait::Seconds(s), ..usual };
        job.passes = vec![
            pass(Seam::Inner, Side::Near, 1),
            pass(Seam::Outer, Side::Near, 2),
            pass(Seam::Inner, Side::Far, 3),
        ];
        job.orders = vec![usual, after(2, 40.0), after(3, 25.0)];
    });
    let case = Case::of(&between, 1000.0, Seam::Inner, &Options::default()).unwrap();
    assert_eq!(case.layers[1].wait, Wait::Seconds(65.0));
}

#[test]
fn what_cannot_be_refereed_is_said_with_its_numbers() {
    let options = Options::default();
    let plain = job(|_| ());
    let length = plain.member.length_mm;
    for x in [-1.0, length + 0.1, f64::NAN] {
        let error = Case::of(&plain, x, Seam::Inner, &options).unwrap_err();
        assert!(matches!(error, CaseError::OffMember { .. }), "{error}");
    }
    let short = job(|job| {
        job.passes = vec![Pass { from_mm: 1000.0, to_mm: 2000.0, ..pass(Seam::Inner, Side::Near, 1) }];
    });
    let error = Case::of(&short, 2500.0, Seam::Inner, &options).unwrap_err().to_string();
    assert!(error.contains("2.500 m") && error.contains("from 1.000 to 2.000 m"), "{error}");
    let none = Case::of(&short, 1500.0, Seam::Outer, &options).unwrap_err().to_string();
    assert!(none.contains("none at all"), "{none}");
    let twice = job(|job| {
        job.passes = vec![pass(Seam::Inner, Side::Near, 1), pass(Seam::Inner, Side::Near, 2)];
    });
    let error = Case::of(&twice, 1500.0, Seam::Inner, &options).unwrap_err();
    assert!(matches!(error, CaseError::SideTwice { orders: [1, 2], .. }), "{error}");
    for wait_s in [0.0, -3.0, 0.2] {
        let error = Case::of(&both(Wait::Seconds(wait_s)), 1500.0, Seam::Inner, &options).unwrap_err();
        assert!(matches!(error, CaseError::WaitTooShort { order: 2, .. }), "{error}");
    }
    assert!(Case::of(&both(Wait::Seconds(2.0)), 1500.0, Seam::Inner, &options).is_ok());
}

#[test]
fn what_a_slice_cannot_hold_is_a_caution() {
    let mut stitched = both(Wait::Seconds(60.0));
    stitched.passes[1].stitch = Some(crate::welding::Stitch { weld_mm: 100.0, gap_mm: 100.0 });
    stitched.passes[1].preheat_k = 80.0;
    stitched.factors.force = 1.2;
    let held = Options { lengthwise: Lengthwise::Held, ..Options::default() };
    let case = Case::of(&stitched, 1500.0, Seam::Inner, &held).unwrap();
    assert_eq!(case.cautions.len(), 4, "{:?}", case.cautions);
    let plain = Case::of(&both(Wait::Cold), 1500.0, Seam::Inner, &Options::default()).unwrap();
    assert!(plain.cautions.is_empty(), "{:?}", plain.cautions);
}
