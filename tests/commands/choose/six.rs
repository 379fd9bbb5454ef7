//! Six members of different make, chosen as a shop would: what is proposed, how long it takes, and why. Each file stands beside this one.
//!
//! Numbers are our own, pinned: what must not come back stands in `once`. What a shop does today is worked out by hand: runs of 10 min,
//! 10 min to turn over, 2 h until cold, and the length over the travel speed.

use super::{answer, check, of_true_plates};
use std::path::Path;
use weldbow::choose::{Allow, Choice, Constraints, Objective, stitches_to_try};
use weldbow::job::file::JobFile;
use weldbow::reading::read_file;

/// What is asked of a member, and what is answered.
struct Member {
    file: &'static str,
    /// Part of the pieces that must be inside; with plates as they come and the limits of the file no weld of some reaches the usual nine
    /// in ten.
    confidence: f64,
    /// Whether the flanges are preset before welding.
    preset: bool,
    /// Minutes in all that today's passes take, by hand.
    today_min: f64,
    today_holds: bool,
    /// Number and minutes in all of the option proposed.
    proposed: (usize, f64),
    /// How it is laid.
    way: &'static str,
    /// What was once answered, for least distortion.
    once: &'static str,
}

const SIX: &[Member] = &[
    Member {
        file: "r1",
        confidence: 0.85,
        preset: false,
        today_min: 10.0 + 12.0 / 0.95,
        // its last metre wants both sides, and a leg for its flange of 20 mm
        today_holds: false,
        proposed: (1, 40.8),
        way: "both seams at once, near side, far side where it must be",
        once: "5.9 h with four runs, cold between them, for 0.7 mm of sweep",
    },
    Member {
        file: "c2",
        // strips that come bowed unlike turn one in nine beyond its twist, whatever is welded
        confidence: 0.70,
        preset: true,
        today_min: 2.0 * (10.0 + 6.5 / 0.8) + 10.0 + 120.0,
        // 69 % inside: the toes of a fillet filled beyond its need, and its twist
        today_holds: false,
        // the twist is judged at the deep end, where it may be most: nothing welds it away, and the quicker of what holds is proposed
        proposed: (1, 21.8),
        way: "both seams at once, near side only",
        once: "720 A at 1.75 m/min near and 670 A at 1.59 m/min far for no gain",
    },
    Member {
        file: "g3",
        confidence: 0.65,
        preset: true,
        // near, near, far, far: turned over once
        today_min: 4.0 * (10.0 + 10.0 / 0.5) + 10.0 + 3.0 * 120.0,
        today_holds: false,
        proposed: (1, 44.8),
        way: "both seams at once, near side, far side where it must be",
        once: "no candidate at all: flanges of 20 mm were asked for preheat",
    },
    Member {
        file: "t4",
        confidence: 0.90,
        preset: false,
        // by its heat alone: 18 kW of arc
        today_min: 2.0 * 10.0 + 2.0 * 8000.0 * 910.0 / 18_000.0 / 60.0 + 120.0,
        today_holds: true,
        proposed: (1, 14.4),
        way: "both seams at once, near side only",
        once: "three options that differ by a tenth of their ±",
    },
    Member {
        file: "s5",
        confidence: 0.90,
        preset: false,
        // 18 kW over the heat of 3 mm would be 4.4 m/min; the line goes 2.4 m/min, over the gaps between stitches, too
        today_min: 10.0 + 6.0 / 2.4,
        // gaps of 150 mm on a web of 3 mm, which takes 36 mm
        today_holds: false,
        proposed: (1, 10.0 + 6.0 / 2.03),
        way: "both seams at once, near side only, stitches of 50 mm weld, 35 mm gap",
        once: "nothing below a web of 4 mm, then continuous seams alone",
    },
    Member {
        file: "u6",
        confidence: 0.90,
        preset: false,
        today_min: 10.0 + 38.5 * 12.0 / 58.0,
        // 89.4 ± 1.2 % of 2048 pieces, 88.8 ± 0.3 % of 32 000: it misses by a hair, and the answer says so
        today_holds: false,
        proposed: (1, 43.3),
        way: "both seams at once, near side, then far side",
        once: "the same without a word on what 25 min more are for",
    },
];

fn chosen(member: &Member, confidence: f64) -> (JobFile, Choice) {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/commands/choose/{}.toml", member.file));
    let file = read_file::<JobFile>(&path).unwrap_or_else(|c| panic!("{c}")).shape;
    let job = check(&file).unwrap();
    let wishes = Constraints {
        confidence,
        allow: if member.preset { vec![Allow::Flanges] } else { Vec::new() },
        stitches: stitches_to_try(&job, &file),
        ..Constraints::usual(job.units)
    };
    assert_eq!(wishes.objective, Objective::LeastTime, "what is asked without a word");
    let choice = answer(&file, &job, &wishes);
    (file, choice)
}

#[test]
fn six_members_are_proposed_what_a_shop_would_do() {
    let mut differ = Vec::new();
    for member in SIX {
        let (_, choice) = chosen(member, member.confidence);
        let minutes = |at: usize| choice.options[at].score.effort.line_s / 60.0;
        let (number, wanted_min) = member.proposed;
        let found = choice.proposed.unwrap_or(usize::MAX);
        println!(
            "{}: today {:.1} min ({:.1} by hand), holds {}; proposed {found}, {:.1} min; once {}. {}",
            member.file,
            minutes(0),
            member.today_min,
            choice.options[0].passes_all,
            choice.options.get(found).map_or(f64::NAN, |w| w.score.effort.line_s / 60.0),
            member.once,
            choice.why
        );
        let ok = choice.feasible
            && found == number
            && (minutes(number) - wanted_min).abs() < 0.1
            && choice.options[number].way.to_string() == member.way
            && (minutes(0) - member.today_min).abs() < 0.1
            && choice.options[0].passes_all == member.today_holds;
        if !ok {
            differ.push(format!(
                "{}: {found}, {:?}",
                member.file,
                choice.options.get(found).map(|w| (&w.way, w.score.effort))
            ));
        }
        // whatever is proposed, nobody waits for it where nothing is gained
        assert!(choice.options[number].score.effort.waits == 0, "{}", member.file);
        if !member.today_holds {
            let said = choice.why.to_string();
            assert!(
                said.contains("does not hold") || said.contains("breaks a rule"),
                "{}: {said}",
                member.file
            );
        }
    }
    assert!(differ.is_empty(), "{differ:#?}");
}

/// A member whose present practice misses by a hair: the answer names the hair, and with it allowed the practice is what is proposed.
#[test]
fn a_practice_that_holds_is_proposed_and_one_that_misses_by_a_hair_is_told_so() {
    let u6 = SIX.iter().find(|m| m.file == "u6").unwrap();
    let (_, missed) = chosen(u6, 0.90);
    let said = missed.why.to_string();
    assert!(said.contains("cannot tell the two apart") && said.contains("--confidence 0.89"), "{said}");
    let (_, held) = chosen(u6, 0.85);
    let minutes = |at: usize| held.options[at].score.effort.line_s / 60.0;
    assert_eq!(held.proposed, Some(0), "{}", held.why);
    // what was found is quicker, but by no more than a tenth
    assert!(
        minutes(1) < minutes(0) && minutes(0) <= 1.1 * minutes(1),
        "{} and {} min",
        minutes(0),
        minutes(1)
    );
    assert!(held.why.to_string().starts_with("0. Current practice"), "{}", held.why);
}

/// Only today's weld holds: that is an answer, not a failure.
#[test]
fn where_nothing_but_the_present_practice_holds_it_is_proposed() {
    let s5 = SIX.iter().find(|m| m.file == "s5").unwrap();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/commands/choose/{}.toml", s5.file));
    // with gaps that its web takes
    let text = std::fs::read_to_string(path).unwrap().replace("150 mm gap", "35 mm gap");
    let file = of_true_plates(&weldbow::job::file_of_text("s5.toml", &text).unwrap());
    let job = check(&file).unwrap();
    // no procedure lays so small a leg
    let wishes = Constraints { largest_leg_mm: Some(2.5), draws: 50, ..Constraints::usual(job.units) };
    let choice = answer(&file, &job, &wishes);
    assert!(choice.feasible && choice.options.len() == 1 && !choice.limits.is_empty(), "{:?}", choice.limits);
    assert_eq!(choice.proposed, Some(0), "{}", choice.why);
}
