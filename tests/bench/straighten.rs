//! Time of one push and of one plan: `cargo bench --bench straighten`.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

#[path = "../support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use weldbow::member::{Member, Profile};
use weldbow::straighten::decide::{Limits, Situation};
use weldbow::straighten::plan::{Equipment, Goals, HeatTools, Press, Rates, Records, Task, make, pushes};
use weldbow::straighten::press::{PressLayout, PressSpan, PushFrom, WeldStress, ranged};
use weldbow::straighten::shape::OutOfStraight;

fn main() {
    divan::main();
}

fn member(tapered: bool) -> Member {
    let mut m = support::prismatic(12_000.0, (600.0, 8.0), (200.0, 12.0), (200.0, 12.0));
    if tapered {
        m.depth = Profile::new(vec![(0.0, 400.0), (12_000.0, 800.0)]);
    }
    m
}

/// A press with the stroke that sweep needs.
fn press() -> Press {
    Press { most_stroke_mm: 200.0, ..support::press() }
}

fn layout() -> PressLayout {
    PressLayout::centred(6000.0, 8000.0, PushFrom::Inner)
}

fn shape(m: &Member) -> OutOfStraight {
    let (x, y) = support::arc(m.length_mm, 22.0);
    OutOfStraight::new(m.length_mm, x, y.clone(), y, vec![]).unwrap()
}

fn task<'a>(member: &'a Member, shape: &'a OutOfStraight) -> Task<'a> {
    let limits = Limits::both(8.0, 0.6);
    Task {
        member,
        shape,
        measurements: 2,
        goals: Goals { camber: limits, sweep: limits, toe: limits, ..Goals::NONE },
        shop: Equipment {
            press: Some(press()),
            roller: None,
            heat: Some(HeatTools::USUAL),
            rates: Rates::PLACEHOLDERS,
        },
        situation: Situation::USUAL,
        weld: WeldStress::USUAL,
        keep_off_mm: &[],
        attachments: &[],
        stiffeners: &[],
        records: Records::default(),
    }
}

/// One push for a wanted set.
#[divan::bench(args = [false, true])]
fn push(bencher: Bencher, tapered: bool) {
    let m = member(tapered);
    bencher.bench(|| PressSpan::new(black_box(&m), layout(), None).unwrap().for_set(4.0));
}

/// One push with its range.
#[divan::bench(args = [false, true])]
fn push_with_range(bencher: Bencher, tapered: bool) {
    let m = member(tapered);
    bencher.bench(|| {
        let span = PressSpan::new(black_box(&m), layout(), None).unwrap();
        let nominal = span.for_kink(2e-3).unwrap();
        ranged(&m, span, nominal, WeldStress::USUAL)
    });
}

/// The pushes against a sweep of 22 mm, one ram.
#[divan::bench(args = [false, true])]
fn press_plan(bencher: Bencher, tapered: bool) {
    let m = member(tapered);
    let s = shape(&m);
    let t = task(&m, &s);
    bencher.bench(|| pushes(black_box(&t), &press(), (false, false), &s.sweep_mm, 3.5, true).unwrap());
}

/// Camber and sweep, press with one and with two rams and heat, compared.
#[divan::bench(args = [false, true])]
fn whole_plan(bencher: Bencher, tapered: bool) {
    let m = member(tapered);
    let s = shape(&m);
    let t = task(&m, &s);
    bencher.bench(|| make(black_box(&t)));
}

/// The pushes against the sweep that was measured on the tapered demo rafter, one ram and two, each with its range.
#[divan::bench(args = [false, true])]
fn rafter_press_plan(bencher: Bencher, two: bool) {
    let m = support::rafter().member;
    let (x, y) = support::arc(m.length_mm, -21.4);
    let s = OutOfStraight::new(m.length_mm, x, vec![0.0; y.len()], y, vec![]).unwrap();
    let t = task(&m, &s);
    bencher.bench(|| pushes(black_box(&t), &press(), (false, two), &s.sweep_mm, 3.5, true).unwrap());
}
