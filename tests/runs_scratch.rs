//! Scratch.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]
use std::io::Write;
use weldbow::joint_solver::{
    Fineness, Joint, Part, Root, SectionPass, SectionSteel, Sequence, Settings, Source,
};
use weldbow::moving_arc::{Foot, Grip, Travel, travel};
use weldbow::welding::{Side, Wait};

const RADIUS: f64 = 9.0;

fn joint(flange: f64, web: f64, leg: f64) -> Joint {
    Joint {
        flange_width_mm: 180.0,
        flange_mm: flange,
        web_mm: web,
        web_stub_mm: 200.0,
        near_leg_mm: Some(leg),
        far_leg_mm: Some(leg),
        root: Root::Tied,
    }
}
fn go(what: &str, j: &Joint, s: &Sequence, length: f64, grip: Grip) {
    let ask = Travel {
        foot: Foot::OnePiece,
        tacks_mm: vec![],
        grip,
        slices: (length / 25.0).round() as usize,
        step_mm: 8.0,
        ..Travel::of(length, 12.0)
    };
    match travel(s, j, &ask, &mut |_| true) {
        Ok(out) => {
            let all: Vec<String> = out
                .passes
                .iter()
                .map(|p| {
                    let a = p.amid().unwrap().shape.unwrap();
                    format!(
                        "cup {:.2} tilt {:.2} narrowing {:.3}",
                        1e3 * a.cup_rad,
                        1e3 * a.tilt_rad.unwrap(),
                        a.narrowing_mm
                    )
                })
                .collect();
            println!("{what}: {} ({:.0} s)", all.join(" | "), out.took.as_secs_f64());
        }
        Err(e) => println!("{what}: {e}"),
    }
    std::io::stdout().flush().unwrap();
}
fn start(j: &Joint, fine: Fineness) -> Sequence {
    let settings =
        Settings { source_legs: RADIUS / j.near_leg_mm.unwrap(), tolerance: 3e-4, ..Settings::STANDARD };
    Sequence::of_joint(j, fine, SectionSteel::hot(355.0), settings).unwrap()
}
/// second run: relabelled outer layer
fn layered(j: &Joint, first: f64, fine: Fineness) -> Sequence {
    let mut s = start(j, fine);
    let half = j.web_mm / 2.0;
    let nodes = s.mesh.nodes_mm.clone();
    let mut outer = 0;
    let mut all = 0;
    for e in &mut s.mesh.elements {
        if e.part == Part::Fillet(Side::Near) {
            all += 1;
            let c: [f64; 2] =
                [0, 1].map(|k: usize| e.nodes[..4].iter().map(|&n| nodes[n][k]).sum::<f64>() / 4.0);
            if c[0] - half + c[1] > first {
                e.part = Part::Fillet(Side::Far);
                outer += 1;
            }
        } else if e.part == Part::Fillet(Side::Far) {
            e.part = Part::Fillet(Side::Far);
        }
    }
    println!("  {outer} of {all} elements outside {first}");
    s
}
fn pass(j: &Joint, leg: f64, heat: f64, lays: Vec<Side>) -> SectionPass {
    let source = Source::beside_web(j.web_mm, leg, Side::Near, heat, RADIUS / leg);
    SectionPass { lays, sources: vec![source], wait_s: None, pulse_s: source.passing_s(12.0) }
}
#[test]
fn runs() {
    let fine = Fineness { per_leg: 4, even: 3, growth: 1.4 };
    for (flange, web, leg, q) in [(10.0, 6.0, 8.0, 800.0), (12.0, 8.0, 8.0, 900.0), (16.0, 8.0, 8.0, 900.0)] {
        let first = leg / 2.0_f64.sqrt();
        let small = joint(flange, web, first);
        let j = Joint { far_leg_mm: None, ..joint(flange, web, leg) };
        println!("{flange}/{web}/{leg}: two of {q} J/mm");
        go(
            " one run of half the heat",
            &small,
            &start(&small, Fineness::COARSE).weld(&small, &[(Side::Near, q)], Wait::Cold).unwrap(),
            150.0,
            Grip::Free,
        );
        go(
            " one run of all the heat",
            &j,
            &start(&j, fine).weld(&j, &[(Side::Near, 2.0 * q)], Wait::Cold).unwrap(),
            150.0,
            Grip::Free,
        );
        let mut two = layered(&j, first, fine);
        two.passes = vec![pass(&j, first, q, vec![Side::Near]), pass(&j, leg, q, vec![Side::Far])];
        go(" two runs, layered", &j, &two, 150.0, Grip::Free);
        let mut two = start(&small, Fineness::COARSE);
        two.passes = vec![pass(&small, first, q, vec![Side::Near]), pass(&small, first, q, vec![])];
        go(" two runs, second heat alone", &small, &two, 150.0, Grip::Free);
        let mut three = start(&small, Fineness::COARSE);
        three.passes = vec![
            pass(&small, first, q, vec![Side::Near]),
            pass(&small, first, q, vec![]),
            pass(&small, first, q, vec![]),
        ];
        go(" three runs, later heats alone", &small, &three, 150.0, Grip::Free);
    }
}
