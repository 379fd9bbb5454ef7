//! probe
use std::time::Instant;
use weldbow::section::*;
use weldbow::welding::{Side, Wait};
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let g = |k: usize, d: f64| a.get(k).and_then(|s| s.parse().ok()).unwrap_or(d);
    let q = g(1, 1200.0);
    let per_leg = g(2, 4.0) as usize;
    let lengthwise = match g(3, 0.0) as i32 {
        0 => Lengthwise::Held,
        1 => Lengthwise::Free,
        _ => Lengthwise::HeldWhileHot,
    };
    let release = g(4, 500.0);
    let tf = g(5, 12.0);
    let fibres = g(6, 0.0) > 0.0;
    let tol = g(7, 2e-4);
    let growth = g(8, 1.07);
    let passes = g(9, 2.0) as i32;
    let joint = Joint {
        flange_width_mm: 200.0,
        flange_mm: tf,
        web_mm: 8.0,
        web_stub_mm: 150.0,
        near_leg_mm: Some(6.0),
        far_leg_mm: Some(6.0),
        root: Root::Tied,
    };
    let s = Settings {
        lengthwise,
        release_c: (release > 0.0).then_some(release),
        model: if fibres { Model::Fibres } else { Model::Solid },
        tolerance: tol,
        growth,
        ..Settings::STANDARD
    };
    let f = Fineness { per_leg, ..Fineness::STANDARD };
    let mut seq = Sequence::of_joint(&joint, f, SectionSteel::hot(355.0), s)
        .unwrap()
        .weld(&joint, &[(Side::Near, q)], Wait::Cold)
        .unwrap();
    if passes > 1 {
        seq = seq.weld(&joint, &[(Side::Far, q)], Wait::Cold).unwrap();
    }
    let t = Instant::now();
    let o = run(&seq).unwrap();
    println!(
        "{:.2} s; {} elements {} unknowns {} heat; tally {:?} heat it {}",
        t.elapsed().as_secs_f64(),
        o.mesh.elements.len(),
        o.unknowns,
        o.heat_unknowns,
        o.tally,
        o.heat_iterations
    );
    for p in &o.passes {
        println!(
            "F/Q {:.2} at {:.2?}; {:?}; bal {:.1e} {:.0}s {:.1}C; e0 {:.3e} k {:?}",
            p.shrinkage.force_n / q,
            p.shrinkage.at_mm,
            p.shape.map(|s| (s.cup_rad * 1e3, s.tilt_rad.unwrap() * 1e3, s.narrowing_mm)),
            p.energy_balance,
            p.seconds,
            p.hottest_c,
            p.shrinkage.strain,
            p.shrinkage.curvature_per_mm
        );
    }
    for y in [-80., -45., -25., -20., -15., -10., -4., 0., 4., 10., 15., 20., 25., 35., 45., 80.] {
        print!("{:.0} ", o.along_near_mpa([y, -tf / 2.0]).unwrap());
    }
    println!();
}
