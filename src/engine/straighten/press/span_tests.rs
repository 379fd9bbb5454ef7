//! Integration points of a press span against finer ones.

use super::points::Grading;
use super::*;
use crate::member::{Delivered, FlangePiece, Member, Profile, WebPiece};
use crate::steel::Steel;

fn tapered() -> Member {
    let flange = |width_mm, thickness_mm| {
        vec![FlangePiece {
            from_mm: 0.0,
            to_mm: 10e3,
            width_mm,
            thickness_mm,
            splice: None,
            comes: Delivered::STRAIGHT,
        }]
    };
    Member {
        length_mm: 10e3,
        depth: Profile::new(vec![(0.0, 150.0), (10e3, 1200.0)]),
        web: vec![WebPiece {
            from_mm: 0.0,
            to_mm: 10e3,
            thickness_mm: 12.0,
            splice: None,
            comes: Delivered::STRAIGHT,
        }],
        outer_flange: flange(200.0, 10.0),
        inner_flange: flange(180.0, 14.0),
        steel: Steel { name: "own".into(), yield_mpa: 345.0, tensile_mpa: 450.0, e_mpa: 200e3 },
    }
}

#[test]
fn finer_panels_change_the_set_ever_less() {
    let layout = PressLayout { supports_mm: [200.0, 9900.0], rams: Rams::One(9000.0), from: PushFrom::Inner };
    let set = |shrink, panels, widest| {
        let grading = Grading { shrink, panels, widest };
        let span = PressSpan::graded(&tapered(), layout, None, grading).unwrap();
        let bent = span.under(0.99 * span.hinge_n()).unwrap();
        (bent.set_mm, span.hinge_at_mm)
    };
    let [rough, fine, finer] = [set(0.36, 14, 0.25), set(0.4, 16, 0.1), set(0.6324, 32, 0.025)];
    println!("rough, fine, finer: {rough:?} {fine:?} {finer:?}");
    assert!(fine.1 < 8000.0, "a taper yields first on its shallow side, here at {} mm", fine.1);
    assert!((fine.0 / finer.0 - 1.0).abs() < 1e-4, "{fine:?} {finer:?}");
    assert!((rough.0 / finer.0 - 1.0).abs() < 2e-3, "{rough:?} {finer:?}");
}

/// Panels shrink only where a hinge may form: that must not cost accuracy anywhere.
#[test]
fn few_panels_give_the_load_and_set_of_many_whatever_the_layout() {
    let many = Grading { shrink: 0.6324, panels: 32, widest: 0.02 };
    let mut worst = [0.0_f64; 2];
    for from in [PushFrom::Outer, PushFrom::Inner, PushFrom::Near, PushFrom::Far] {
        for rams in
            [Rams::One(2000.0), Rams::One(5100.0), Rams::Two(2000.0, 4600.0), Rams::Two(6000.0, 8600.0)]
        {
            for weld in [None, Some(WeldStress::USUAL)] {
                let layout = PressLayout { supports_mm: [300.0, 9700.0], rams, from };
                let of = |grading| PressSpan::graded(&tapered(), layout, weld, grading).unwrap();
                let (few, fine) = (of(Grading::FINE), of(many));
                for kink in [1e-3, 3e-3] {
                    let (Ok(a), Ok(b)) = (few.for_kink(kink), fine.for_kink(kink)) else { continue };
                    let off = [a.force_n / b.force_n - 1.0, a.set_mm / b.set_mm - 1.0];
                    worst = [0, 1].map(|k| worst[k].max(off[k].abs()));
                }
            }
        }
    }
    println!("largest difference of load and set: {:.1e} and {:.1e}", worst[0], worst[1]);
    assert!(worst[0] > 0.0 && worst[0] < 1e-4 && worst[1] < 3e-4, "{worst:?}");
}
