//! probe
mod support;
use weldbow::prediction::predict_with_substeps as p;
#[test]
fn probe() {
    let mut j = support::rafter();
    j.member.depth = weldbow::member::Profile::new(vec![(0.0,300.0),(9000.0,900.0)]);
    let a = p(&j, 512.0);
    for n in [8.0,16.0,24.0,32.0,64.0] { let b = p(&j, n); println!("{n} {:e} {:e} at {} {}", b.camber.max_mm/a.camber.max_mm-1.0, b.sweep.max_mm/a.sweep.max_mm-1.0, b.camber.at_mm, a.camber.at_mm); }
}
