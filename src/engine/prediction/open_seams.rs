//! Where a seam has no weld: stretches that no pass welds, and gaps between stitches.

use super::{Job, Warning, WarningCode};
use crate::member::Seam;
use crate::strength::{Code, StitchRule, stitch_rule};
use crate::units::{Message, Part, System};
use crate::welding::{Pass, Stitch};

/// Rules for stitches: by the code of the strength check; without a demand by the one that goes with the units (choice).
pub(crate) fn stitch_rule_of(job: &Job) -> &'static StitchRule {
    let usual = if job.units == System::Us { Code::AiscAsd } else { Code::En1993 };
    stitch_rule(job.carries.as_ref().map_or(usual, |carries| carries.code).standard())
}

/// Bare end of a seam that is no more than a start or a cope, mm (choice).
const BARE_END_MM: f64 = 50.0;

/// Longest stretch without weld that is none where that one lies, mm: between two welds as much as stitches leave.
pub(crate) fn bare_mm(job: &Job, from_mm: f64, to_mm: f64) -> f64 {
    let at_end = from_mm <= 0.0 || to_mm >= job.member.length_mm;
    if at_end { BARE_END_MM } else { stitch_rule_of(job).most_gap_mm }
}

/// Stretches (from, to) of a seam that no pass welds on either side, mm; a gap no longer than stitches leave is none, but for one at an end.
fn unwelded(job: &Job, seam: Seam) -> Vec<(f64, f64)> {
    let mut welded: Vec<(f64, f64)> =
        job.passes.iter().filter(|p| p.seam == seam).map(|p| (p.from_mm, p.to_mm)).collect();
    welded.sort_by(|a, b| a.0.total_cmp(&b.0));
    welded.push((job.member.length_mm, job.member.length_mm));
    let (mut open, mut reached) = (Vec::new(), 0.0_f64);
    for (from, to) in welded {
        if from - reached > bare_mm(job, reached, from) {
            open.push((reached, from));
        }
        reached = reached.max(to);
    }
    open
}

/// Says where seams are open.
pub(super) fn warn(job: &Job, out: &mut Vec<Warning>) {
    for seam in Seam::BOTH {
        if job.passes.iter().all(|p| p.seam != seam) {
            let text =
                format!("no pass on the {} seam: its flange is taken as joined but unwelded", seam.name());
            out.push(Warning::new(WarningCode::SeamUnwelded, text));
            continue;
        }
        for (from, to) in unwelded(job, seam) {
            let parts = [seam.name().into(), Part::Position(from), Part::Position(to)];
            let text = Message::of(
                "{} seam: nothing welded from {} to {}; the flange is taken as joined there: is a pass missing?",
                parts,
            );
            out.push(Warning::new(WarningCode::SeamUnwelded, text));
        }
    }
    let faults = once(stitched(job).filter_map(|(pass, stitch)| fits_not(pass, stitch)));
    let ends = bare_ends(job).map(Message::from);
    out.extend(
        faults
            .into_iter()
            .chain(broken(job))
            .chain(ends)
            .map(|text| Warning::new(WarningCode::Stitches, text)),
    );
}

fn stitched(job: &Job) -> impl Iterator<Item = (&Pass, Stitch)> {
    job.passes.iter().filter_map(|pass| Some((pass, pass.stitch?)))
}

/// Runs of one fillet say the same.
fn once(said: impl Iterator<Item = Message>) -> Vec<Message> {
    said.fold(Vec::new(), |mut all, one| {
        if !all.contains(&one) {
            all.push(one);
        }
        all
    })
}

/// A pattern that does not come twice in its pass: weld and heat are spread evenly all the same.
fn fits_not(pass: &Pass, stitch: Stitch) -> Option<Message> {
    let length = pass.to_mm - pass.from_mm;
    let text = "{} seam: two stitches of {} weld, {} gap do not fit into the {} of their pass, over which their weld and heat are \
                spread evenly: give each weld as a pass of its own";
    let parts = || {
        let [weld, gap] = [stitch.weld_mm, stitch.gap_mm].map(Part::Plate);
        [pass.seam.name().into(), weld, gap, Part::Position(length)]
    };
    (2.0 * stitch.weld_mm + stitch.gap_mm > length).then(|| Message::of(text, parts()))
}

/// Rules for stitches that passes break.
pub(crate) fn broken(job: &Job) -> Vec<Message> {
    let rule = stitch_rule_of(job);
    let short = |(pass, stitch): (&Pass, Stitch)| {
        let parts = [
            pass.seam.name().into(),
            Part::Plate(stitch.weld_mm),
            rule.words.into(),
            rule.origin.marked().into(),
        ];
        rule.too_short(&stitch, pass.leg_mm).then(|| Message::of("{} seam: stitches of {}; {} ({})", parts))
    };
    let far = |(pass, stitch): (&Pass, Stitch)| {
        let thinner = job.plates_along_mm(pass).0;
        let longest = rule.longest_gap_mm(thinner, job.member.steel.yield_mpa);
        let [gap, longest_said, plate] = [stitch.gap_mm, longest, thinner].map(Part::Plate);
        let by = [rule.gap_words.into(), rule.gap_origin.marked().into()];
        let parts = [pass.seam.name().into(), gap, longest_said, plate].into_iter().chain(by);
        let text = "{} seam: gaps of {} between stitches, {} are the longest on a plate of {}: {} ({})";
        (stitch.gap_mm > longest + 1e-9).then(|| Message::of(text, parts))
    };
    once(stitched(job).filter_map(short).chain(stitched(job).filter_map(far)))
}

/// What the code wants at the ends of the member where a seam has stitches and less continuous weld there.
pub(crate) fn bare_ends(job: &Job) -> Option<&'static str> {
    let rule = stitch_rule_of(job);
    let length = job.member.length_mm;
    let whole_mm = |seam, at_start: bool| {
        let from_end =
            |p: &Pass| if at_start { (p.from_mm, p.to_mm) } else { (length - p.to_mm, length - p.from_mm) };
        let whole = job.passes.iter().filter(|p| p.seam == seam && p.stitch.is_none());
        let mut runs: Vec<(f64, f64)> = whole.map(from_end).collect();
        runs.sort_by(|a, b| a.0.total_cmp(&b.0));
        let on = |reached: f64, run: &(f64, f64)| (run.0 <= reached).then(|| reached.max(run.1));
        runs.iter()
            .try_fold(0.0, |reached, run| on(reached, run).ok_or(reached))
            .unwrap_or_else(|reached| reached)
    };
    let lacks = |seam, at_start| {
        let mut flange = job.member.flange(seam).iter();
        let plate = if at_start { flange.next() } else { flange.next_back() };
        plate.is_some_and(|p| whole_mm(seam, at_start) < rule.end_widths * p.width_mm - 1e-6)
    };
    let bare = |(p, _): (&Pass, Stitch)| [true, false].into_iter().any(|at_start| lacks(p.seam, at_start));
    stitched(job).any(bare).then_some(rule.ends)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};

    /// The starter, 9 m, with its first pass changed.
    fn warned(change: impl Fn(&mut Pass, Pass) -> Option<Pass>) -> Vec<String> {
        let mut job = read_text("starter", STARTER).unwrap();
        let first = job.passes[0].clone();
        let more = change(&mut job.passes[0], first);
        job.passes.extend(more);
        let mut out = Vec::new();
        warn(&job, &mut out);
        out.into_iter().map(|one| one.text.to_string()).collect()
    }

    #[test]
    fn a_stretch_without_weld_is_said_unless_the_other_side_has_it() {
        let part = |pass: &mut Pass, _| {
            pass.to_mm = 4000.0;
            None
        };
        let said = warned(part);
        assert!(said[0].starts_with("outer seam: nothing welded from 4.00 m to 9.00 m"), "{said:?}");
        let far = |pass: &mut Pass, first: Pass| {
            pass.to_mm = 4000.0;
            Some(Pass { side: crate::welding::Side::Far, from_mm: 4100.0, ..first })
        };
        assert_eq!(warned(far), Vec::<String>::new(), "0.1 m is less than stitches leave");
        let ends = |pass: &mut Pass, _| {
            (pass.from_mm, pass.to_mm) = (300.0, 8700.0);
            None
        };
        assert_eq!(warned(ends).len(), 2, "both ends");
        let bare = |from_mm: f64| {
            warned(move |pass, _| {
                pass.from_mm = from_mm;
                None
            })
        };
        assert!(
            bare(190.0)[0].contains("nothing welded from 0.00 m to 0.19 m"),
            "no stitch's gap: {:?}",
            bare(190.0)
        );
        assert_eq!(bare(20.0), Vec::<String>::new(), "a start");
    }

    /// Three quarters of a flange of 180 mm are 135 mm.
    #[test]
    fn stitches_want_whole_weld_at_both_ends_long_enough() {
        let lacks = |from_mm: f64, to_mm: f64| {
            let mut job = read_text("starter", STARTER).unwrap();
            let first = job.passes[0].clone();
            job.passes[0].stitch = Some(Stitch { weld_mm: 40.0, gap_mm: 60.0 });
            job.passes[0].from_mm = 135.0;
            let ends = [(from_mm, to_mm), (9000.0 - 135.0, 9000.0)];
            job.passes.extend(ends.map(|(from_mm, to_mm)| Pass { from_mm, to_mm, ..first.clone() }));
            bare_ends(&job).is_some()
        };
        assert!(!lacks(0.0, 135.0));
        assert!(lacks(0.0, 134.0), "too short");
        assert!(lacks(50.0, 300.0), "the end itself is bare");
    }

    /// 9 m hold two welds of 4 m and a gap of 1 m, not of 8 m; 6 throats of the starter's leg of 6 mm are 25 mm, 30 mm at least,
    /// and 8.5 mm for two throats at the ends.
    #[test]
    fn stitches_that_cannot_be_or_are_not_allowed_are_said() {
        let stitched = |weld_mm: f64, gap_mm: f64| {
            warned(move |pass, _| {
                pass.stitch = Some(Stitch { weld_mm, gap_mm });
                None
            })
            .concat()
        };
        let long = stitched(4000.0, 8000.0);
        assert!(
            long.contains("two stitches of 4000 mm weld, 8000 mm gap do not fit into the 9.00 m"),
            "{long}"
        );
        assert!(!stitched(4000.0, 1000.0).contains("do not fit"));
        let tiny = stitched(5.0, 2.0);
        assert!(tiny.contains("stitches of 5 mm; each stitch at least 6 throats and 30 mm"), "{tiny}");
        let ends = "Stitches, and too little weld at an end";
        let plain = stitched(40.0, 60.0);
        assert!(plain.starts_with(ends), "12 times the web of 5 mm: {plain}");
        assert!(stitched(40.0, 70.0).contains("60 mm are the longest on a plate of 5 mm"));
    }
}
