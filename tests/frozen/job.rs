//! Whole made-up job files.

use crate::member::{Member, SHAPES, member, mm};
use crate::stream::Stream;
use crate::welds::{SEQUENCES, welds};
use std::fmt::Write;

/// A job file with its name and classes.
pub(crate) struct Job {
    /// Name of its row.
    pub name: String,
    /// Kind of member.
    pub shape: &'static str,
    /// Kind of sequence.
    pub sequence: &'static str,
    /// Length of the member, mm.
    pub length_mm: f64,
    /// The job file.
    pub text: String,
}

/// What beside member and welds a job may have.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Beside {
    /// Wanted camber, limits, factors, now and then.
    Constraints,
    /// Loads on the welds too.
    Demand,
}

/// So many jobs: every kind of member with every kind of sequence in turn.
pub(crate) fn jobs(seed: u64, letter: char, count: usize, beside: Beside) -> Vec<Job> {
    some(seed, letter, count, beside, &SHAPES, &SEQUENCES)
}

/// So many jobs of some kinds.
pub(crate) fn some(
    seed: u64,
    letter: char,
    count: usize,
    beside: Beside,
    shapes: &[&'static str],
    sequences: &[&'static str],
) -> Vec<Job> {
    (0..count)
        .map(|at| {
            // a stream of its own for each, so that one case more or less moves no other
            let stream = &mut Stream::new(seed * 1_000_000 + at as u64);
            let sequence = sequences[at % sequences.len()];
            let shape = shapes[(at + at / sequences.len()) % shapes.len()];
            let member = member(stream, shape);
            let text = text(stream, &member, sequence, beside);
            Job { name: format!("{letter}{at:04}"), shape, sequence, length_mm: member.length_mm, text }
        })
        .collect()
}

fn text(stream: &mut Stream, member: &Member, sequence: &str, beside: Beside) -> String {
    let units = if member.us { "us" } else { "si" };
    let mut text = format!("title = \"made-up {}, {sequence}\"\nunits = \"{units}\"\n", member.shape);
    let sets: &[&str] = if member.us {
        &["\"aws-d1.1\"", "\"aws-d1.1\", \"metal-building\"", "\"metal-building\""]
    } else {
        &["\"en-1090-2-class-1\"", "\"en-1090-2-class-1\", \"en-1090-2-class-2\"", "\"iso-13920-bf\""]
    };
    let _ = writeln!(text, "tolerances = [{}]\n", stream.pick(sets));
    if stream.chance(0.15) {
        let rise = mm((member.length_mm / stream.step(300.0, 900.0, 100.0)).round());
        let toward = stream.pick(&["outer", "inner"]);
        let _ = writeln!(text, "[camber]\nrise = {rise}\ntoward = \"{toward}\"\n");
    }
    if stream.chance(0.15) {
        text.push_str("[limits]\nsweep = \"L/1500\"\nflange_toe = \"2 mm\"\n\n");
    }
    if stream.chance(0.06) {
        let [force, arm, cup, tilt, leg] = [(); 5].map(|()| stream.step(0.8, 1.2, 0.05));
        let _ = writeln!(
            text,
            "[factors]\nforce = {force:.2}\narm = {arm:.2}\ncup = {cup:.2}\ntilt = {tilt:.2}\nheat_from_leg = {leg:.2}\n"
        );
    }
    if stream.chance(0.1) {
        text.push_str("[line]\nhead_limit = \"10 deg\"\n\n");
    }
    if beside == Beside::Demand {
        text.push_str(&demand(stream, member));
    }
    text + &member.text + &welds(stream, member, sequence)
}

fn demand(stream: &mut Stream, member: &Member) -> String {
    let (shear, load) = (stream.step(20.0, 150.0, 5.0), stream.step(1.0, 12.0, 1.0));
    let moment = stream.step(-120.0, 60.0, 20.0);
    let code = if member.us { stream.pick(&["aisc-lrfd", "aisc-asd"]) } else { "en-1993-1-8" };
    let both = if stream.chance(0.3) {
        let from = (member.length_mm * 0.85 / 10.0).round() * 10.0;
        format!("both_sides = [[{}, \"{} mm\"]]\n", mm(from), member.length_mm)
    } else {
        String::new()
    };
    format!(
        "[demand]\ncode = \"{code}\"\nstart_shear = \"{shear} kN\"\nstart_moment = \"{moment} kN·m\"\nload = \"{load} kN/m\"\n{both}\n"
    )
}
