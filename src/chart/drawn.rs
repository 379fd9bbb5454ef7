//! What is drawn: checks of the pictures of invented predictions, ordinary and hard ones.

use super::{ChartError, Picture, pictures, png, sample, signs};
use crate::member::{FlangePiece, Member, Profile, Seam, WebPiece};
use crate::prediction::{Job, Prediction};
use crate::units::System;
use crate::welding::Side;

fn draw(job: &Job, prediction: &Prediction, system: System) -> Vec<Picture> {
    pictures(job, prediction, system).unwrap()
}

/// The usual member, and what makes pictures hard.
fn cases() -> Vec<(&'static str, Vec<Picture>)> {
    let usual = sample::job();
    let mut long = sample::job();
    long.title = "R2 <b>& \"co\"</b>\u{202e} ".repeat(40);
    let busy = sample::busy_job();
    let us = us_job();
    vec![
        ("usual", draw(&usual, &sample::prediction(&usual, 7.2, -3.1), System::Si)),
        ("straight", draw(&usual, &sample::prediction(&usual, 0.0, 0.0), System::Si)),
        ("long-title", draw(&long, &sample::prediction(&long, 6.0, 2.0), System::Si)),
        ("busy", draw(&busy, &sample::prediction(&busy, -8.4, 4.0), System::Si)),
        ("us", draw(&us, &sample::prediction(&us, -12.0, 0.4), System::Us)),
        ("short", draw(&short_job(), &sample::prediction(&short_job(), 0.2, 55.0), System::Si)),
        ("signs", vec![signs().unwrap()]),
    ]
}

/// 30 ft long, level, welded from one side at once.
fn us_job() -> Job {
    let length_mm = 9144.0;
    let flange = vec![FlangePiece {
        from_mm: 0.0,
        to_mm: length_mm,
        width_mm: 203.2,
        thickness_mm: 9.525,
        splice: None,
    }];
    let member = Member {
        length_mm,
        depth: Profile::new(vec![(0.0, 304.8), (3048.0, 609.6), (length_mm, 914.4)]),
        web: vec![WebPiece { from_mm: 0.0, to_mm: length_mm, thickness_mm: 4.7625, splice: None }],
        outer_flange: flange.clone(),
        inner_flange: flange,
        ..sample::member()
    };
    sample::job_of(member, &[(Seam::Outer, Side::Near, 1), (Seam::Inner, Side::Near, 1)])
}

/// Deep and short, so that height and not length sets the scale.
fn short_job() -> Job {
    let length_mm = 2500.0;
    let flange = vec![FlangePiece {
        from_mm: 0.0,
        to_mm: length_mm,
        width_mm: 300.0,
        thickness_mm: 25.0,
        splice: None,
    }];
    let member = Member {
        length_mm,
        depth: Profile::level(length_mm, 1400.0),
        web: vec![WebPiece { from_mm: 0.0, to_mm: length_mm, thickness_mm: 8.0, splice: None }],
        outer_flange: flange.clone(),
        inner_flange: flange,
        ..sample::member()
    };
    sample::job_of(member, &[(Seam::Outer, Side::Far, 1)])
}

#[test]
#[ignore]
fn write_all() {
    let out = std::path::Path::new("target/pictures");
    std::fs::create_dir_all(out).unwrap();
    for (case, pictures) in cases() {
        for p in pictures {
            std::fs::write(out.join(format!("{case}-{}.svg", p.name)), &p.svg).unwrap();
            std::fs::write(out.join(format!("{case}-{}.png", p.name)), png(&p.svg).unwrap()).unwrap();
        }
    }
}
