//! Press, heat and statistics of straightening against closed forms and the reference cases.

#[path = "../support/mod.rs"]
mod support;

use crate::cases::{load};
use serde::Deserialize;
use weldbow::member::Member;
use weldbow::straighten::press::{Bent, Layout, PressSpan, PushFrom , WeldStress};

const SHEET: &str = "straightening_press";

#[derive(Deserialize, Default, Clone)]
#[serde(deny_unknown_fields, default)]
struct Given {
    p: f64,
    mu: f64,
    set_mm: f64,
    rams: f64,
    yield_factor: f64,
    weld: bool,
    weak: bool,
    quarter: f64,
}

/// Flanges 200 × 10, web 600 × 6, 345 MPa, E = 200 000 MPa.
fn section_a(length_mm: f64) -> Member {
    let mut m = support::prismatic(length_mm, (600.0, 6.0), (200.0, 10.0), (200.0, 10.0));
    (m.steel.yield_mpa, m.steel.e_mpa) = (345.0, 200e3);
    m
}

fn span_a(g: &Given) -> PressSpan {
    let mut m = section_a(10_000.0);
    if g.yield_factor > 0.0 {
        m.steel.yield_mpa *= g.yield_factor;
    }
    let from = if g.weak { PushFrom::Near } else { PushFrom::Outer };
    let layout = if g.rams > 1.5 {
        Layout::pair(5000.0, 10_000.0, 10_000.0 / 3.0, from)
    } else {
        Layout::centred(5000.0, 10_000.0, from)
    };
    PressSpan::new(&m, layout, g.weld.then_some(WeldStress::USUAL)).unwrap()
}

fn pushed(g: &Given) -> Bent {
    span_a(g).for_set(g.set_mm).unwrap()
}

#[test]
fn probe() {
    for rams in [1.0, 2.0] {
        let g = Given { set_mm: 10.0, rams, ..Given::default() };
        let s = span_a(&g);
        let b = pushed(&g);
        println!("{rams}: py {} pp {} {b:?}", s.first_yield_n(), s.hinge_n());
        let t = std::time::Instant::now();
        for _ in 0..10 { std::hint::black_box(span_a(&g)); }
        println!("setup {:?}", t.elapsed()/10);
        let t = std::time::Instant::now();
        for _ in 0..10 { std::hint::black_box(s.for_set(10.0)).unwrap(); }
        println!("solve {:?}", t.elapsed()/10);
    }
    let g = Given { set_mm: 10.0, weld: true, ..Given::default() };
    let b = pushed(&g);
    println!("weld {} {} {} {}", b.force_n, b.stroke_mm, b.springback_mm, b.mu);
    let s = span_a(&g);
    let t = std::time::Instant::now();
    for _ in 0..10 { std::hint::black_box(s.for_set(10.0)).unwrap(); }
    println!("solve {:?}", t.elapsed()/10);
    println!("{:?}", span_a(&Given::default()).largest().map(|b| (b.set_mm, b.mu)));
    for f in [0.9, 0.95, 1.05, 1.1] {
        println!("{f} {}", span_a(&Given { yield_factor: f, ..Given::default() }).set_after_stroke_mm(62.583));
    }
}
