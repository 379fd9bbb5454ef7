//! An operator who follows the printed rule on pieces whose steel is not the one planned for.
//!
//! No measured straightening stands behind this: the pieces are the model's own, of another yield strength, with or without stress in
//! their seams, in a press whose gauges are off. It says what the rule can do if plain bending holds.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets a surprise fails"
)]
#![allow(missing_docs)]

use crate::support;

use weldbow::member::{Member, Profile};
use weldbow::straighten::decide::{Limits, Situation};
use weldbow::straighten::plan::{
    CORRECTED_SD, Equipment, Goals, MOST_TRIES, OVERSHOT, Press, Push, Rates, Records, Task, Trial,
    hits_within, pushes, trials, yield_mpa,
};
use weldbow::straighten::press::WeldStress;
use weldbow::straighten::shape::OutOfStraight;

fn planned(member: &Member, strong: bool, span_mm: f64, two: bool) -> Option<Push> {
    let bow = if strong { 16.0 } else { 22.0 };
    let (x, y) = support::arc(member.length_mm, bow);
    let zero = vec![0.0; y.len()];
    let shape = OutOfStraight::new(member.length_mm, x, y.clone(), zero, vec![]).unwrap();
    let press = Press {
        spans_mm: (span_mm, span_mm),
        most_n: 900e3,
        give_mm_per_n: 2.0 / 900e3,
        most_stroke_mm: 400.0,
        ..support::press()
    };
    let mut press = press;
    press.guides.more = 8;
    let limits = Limits::both(8.0, 0.6);
    let task = Task {
        member,
        shape: &shape,
        measurements: 2,
        goals: Goals { camber: limits, sweep: limits, ..Goals::NONE },
        shop: Equipment { press: Some(press), roller: None, heat: None, rates: Rates::PLACEHOLDERS },
        situation: Situation::USUAL,
        weld: WeldStress::USUAL,
        keep_off_mm: &[],
        attachments: &[],
        stiffeners: &[],
        records: Records::default(),
    };
    pushes(&task, &press, (strong, two), &y, 3.5, true).ok().and_then(|s| s.pushes.into_iter().next())
}

/// Steels and operators of each push.
const TRIALS: (u32, u32) = (6, 4);

/// What all trials of some kind say.
#[derive(Default)]
struct Count {
    all: f64,
    hit: f64,
    over: f64,
    pushes: f64,
    squares: f64,
    ends: [f64; 2],
}

impl Count {
    fn add(&mut self, trial: &Trial, within: f64) {
        let off = trial.ended() - 1.0;
        if self.all == 0.0 {
            self.ends = [trial.ended(); 2];
        }
        self.ends = [self.ends[0].min(trial.ended()), self.ends[1].max(trial.ended())];
        self.all += 1.0;
        self.hit += f64::from(u8::from(off.abs() <= within));
        self.over += f64::from(u8::from(off > within));
        self.pushes += trial.made.len() as f64;
        self.squares += off * off;
    }

    fn said(&self) -> String {
        format!(
            "{:4.0} pieces: {:5.1} % inside, {:4.1} % over, {:.2} pushes, ended at {:.2} to {:.2} of the wanted set, deviation {:.3}",
            self.all,
            100.0 * self.hit / self.all,
            100.0 * self.over / self.all,
            self.pushes / self.all,
            self.ends[0],
            self.ends[1],
            (self.squares / self.all).sqrt()
        )
    }
}

#[test]
fn an_operator_who_follows_the_rule_hits_the_set_within_three_pushes() {
    // about the strong axis smaller ones, so that a press bends them over 3 m too
    let section = |strong: bool| {
        let (depth, flange) = if strong { (300.0, (200.0, 12.0)) } else { (500.0, (220.0, 14.0)) };
        let mut level = support::prismatic(12_000.0, (depth, 10.0), flange, flange);
        level.steel.yield_mpa = 345.0;
        level
    };
    let tapered = |strong: bool, from: f64, to: f64| {
        let mut taper = section(strong);
        let part = if strong { 0.6 } else { 1.0 };
        taper.depth = Profile::new(vec![(0.0, part * from), (12_000.0, part * to)]);
        taper
    };
    let unlike = |strong: bool| {
        let mut unlike = tapered(strong, 350.0, 700.0);
        for piece in &mut unlike.inner_flange {
            piece.thickness_mm *= 1.4;
        }
        unlike
    };
    let both = |of: &dyn Fn(bool) -> Member| [of(false), of(true)];
    let members = [
        ("level", both(&section)),
        ("tapered", both(&|strong| tapered(strong, 400.0, 700.0))),
        ("steep", both(&|strong| tapered(strong, 300.0, 900.0))),
        ("tapered, flanges unlike", both(&unlike)),
    ];
    let mut all = Count::default();
    let mut by_span: Vec<(f64, Count)> = Vec::new();
    let mut by_weld = [Count::default(), Count::default()];
    let mut by_rams = [Count::default(), Count::default()];
    let mut by_member: Vec<(&str, Count)> = Vec::new();
    let (mut told, mut wrong, mut most_tries) = (0_u32, 0_u32, 0);
    let mut missing = Vec::new();
    for (i, (name, axes)) in members.iter().enumerate() {
        by_member.push((name, Count::default()));
        for (strong, member) in [false, true].into_iter().zip(axes) {
            let one = [3000.0, 4000.0, 5500.0, 8000.0].map(|span_mm| (span_mm, false));
            let two = [4500.0, 6500.0, 8000.0].map(|span_mm| (span_mm, true));
            for (span_mm, two) in one.into_iter().chain(two) {
                let Some(push) = planned(member, strong, span_mm, two) else {
                    missing.push(format!("{name}, strong {strong}, span {span_mm}, two rams {two}"));
                    continue;
                };
                let seed = 1000 * i as u64 + u64::from(strong) * 100 + u64::from(two) * 50 + span_mm as u64;
                let found = trials(&push, member, WeldStress::USUAL, TRIALS, seed).unwrap();
                let within = hits_within(&push);
                let mut here = Count::default();
                for trial in &found {
                    most_tries = most_tries.max(trial.made.len());
                    let k = by_span.iter().position(|(span, _)| (span - span_mm).abs() < 1.0);
                    let k = k.unwrap_or_else(|| {
                        by_span.push((span_mm, Count::default()));
                        by_span.len() - 1
                    });
                    let weld = usize::from(trial.real.weld.is_some());
                    let rams = &mut by_rams[usize::from(two)];
                    let span = &mut by_span[k].1;
                    for count in [&mut here, &mut all, span, rams, &mut by_weld[weld], &mut by_member[i].1] {
                        count.add(trial, within);
                    }
                    // the truth lies between seams with and without stress, but for the gauge
                    if let Some(y) = yield_mpa(&push, member, WeldStress::USUAL, &trial.readings[..1]) {
                        told += 1;
                        let truth = trial.real.yield_factor * member.steel.yield_mpa;
                        wrong += u32::from((y.low / truth - 1.0).max(1.0 - y.high / truth) > 0.15);
                    }
                }
                println!(
                    "{name}, strong {strong}, span {span_mm}, two rams {two}: wanted {:.1} mm, springback {:.1} mm; {}",
                    push.wanted_mm(),
                    push.elastic_mm_per_n * push.bent.nominal.force_n,
                    here.said()
                );
            }
        }
    }
    println!("no push: {missing:?}");
    for (span, count) in &by_span {
        println!("span {span:.0} mm: {}", count.said());
    }
    for (name, count) in &by_member {
        println!("{name}: {}", count.said());
    }
    println!("one ram: {}", by_rams[0].said());
    println!("two rams: {}", by_rams[1].said());
    println!("seams without stress: {}", by_weld[0].said());
    println!("seams with stress: {}", by_weld[1].said());
    println!("all: {}; yield told of {told}, {wrong} of them more than 15 % beside the range", all.said());
    let apart = by_span.iter().map(|c| &c.1).chain(&by_weld).chain(&by_rams);
    for count in apart.chain(by_member.iter().map(|c| &c.1)) {
        assert!(count.hit >= 0.9 * count.all && count.over <= 0.08 * count.all, "{}", count.said());
    }
    assert!(all.hit >= 0.9 * all.all && most_tries <= MOST_TRIES);
    // a bow that is no kink for the supports may be blocked, but both axes and every span are tried on most members
    assert!(missing.len() <= 28 && by_rams.iter().all(|c| c.all > 150.0), "{missing:?}");
    // with a small set of a welded piece the seams speak, not the steel
    assert!(f64::from(told) > 0.25 * all.all && 20 * wrong <= told, "yield told wrong of {wrong} of {told}");
    // what is printed is what the trials say, rounded up
    let (over, sd) = (all.over / all.all, (all.squares / all.all).sqrt());
    assert!((OVERSHOT - 0.04..=OVERSHOT).contains(&over), "{over:.3} over, {OVERSHOT} printed");
    assert!((0.5 * CORRECTED_SD..=CORRECTED_SD).contains(&sd), "deviation {sd:.3}, {CORRECTED_SD} used");
}
