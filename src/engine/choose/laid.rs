//! What lies on the two sides of a seam today: the finished fillet, and what of its leg there is metal for.

use super::requirement::Stretch;
use crate::job::check_traced;
use crate::job::file::JobFile;
use crate::prediction::{Job, stitch_rule_of};
use crate::strength::{StitchRule, Strengths};
use crate::units::{Message, Part};
use crate::welding::{Pass, Side, fillet};

/// Leg that a deposit may miss and is not said to, mm: no more than is shown (choice).
const SAID_MM: f64 = 0.05;

/// The passes of a job, each with the number of the pass of its file that it is of, or a run of.
pub(super) fn laid_from<'j>(job: &'j Job, file: &JobFile) -> impl Iterator<Item = (&'j Pass, usize)> {
    let origins = check_traced(file).map(|(_, origins)| origins).unwrap_or_default();
    job.passes.iter().zip(origins)
}

/// All that lies along the seams.
pub(super) struct Fillets<'j> {
    /// Passes, and whether their leg is stated.
    passes: Vec<(&'j Pass, bool)>,
    gap_mm: f64,
    stitches: &'static StitchRule,
}

/// The fillet on one side of a piece.
#[derive(Debug, Clone, Copy, Default)]
struct Finished {
    /// Leg that carries, mm.
    leg_mm: f64,
    /// N/mm.
    carries_n_per_mm: f64,
    /// Leg as stated, the one that it takes over the root gap, and the one that its metal fills, mm, where that falls short.
    short_mm: Option<[f64; 3]>,
}

impl<'j> Fillets<'j> {
    pub(super) fn of(job: &'j Job, file: &JobFile) -> Self {
        let stated = |from: usize| file.passes.get(from).is_none_or(|shape| shape.leg.is_some());
        let passes = laid_from(job, file).map(|(pass, from)| (pass, stated(from))).collect();
        Self { passes, gap_mm: job.fit_up_gap_mm, stitches: stitch_rule_of(job) }
    }

    /// Runs of one fillet lie one on the other, and so does a later pass on an earlier one: the leg there is that of the largest, no sum,
    /// and their metal fills it together.
    fn on(&self, piece: &Stretch, side: Side, strengths: &Strengths) -> Option<Finished> {
        let middle = 0.5 * (piece.from_mm + piece.to_mm);
        let here = || {
            let own = self.passes.iter().filter(|(p, _)| p.seam == piece.seam && p.side == side);
            own.filter(|(p, _)| p.from_mm < middle && p.to_mm > middle)
        };
        let finished = |(pass, stated): &(&Pass, bool)| {
            let under = here().filter(|(p, _)| p.welded_fraction() >= pass.welded_fraction());
            let metal_mm2 = under.map(|(p, _)| p.deposit_mm2).sum();
            let (leg_mm, short_mm) = self.leg_mm(pass, *stated, metal_mm2);
            let carries_n_per_mm =
                self.stitches.carrying_part(pass.stitch.as_ref(), leg_mm) * strengths.line_n_per_mm(leg_mm);
            Finished { leg_mm, carries_n_per_mm, short_mm }
        };
        here().map(finished).reduce(|a, b| Finished {
            leg_mm: a.leg_mm.max(b.leg_mm),
            ..if b.carries_n_per_mm > a.carries_n_per_mm { b } else { a }
        })
    }

    /// A stated leg is that over any root gap, as far as metal fills it; of one that follows from a deposit the gap takes its part.
    fn leg_mm(&self, pass: &Pass, stated: bool, metal_mm2: f64) -> (f64, Option<[f64; 3]>) {
        if !stated {
            return (fillet::leg_left_mm(pass.leg_mm, self.gap_mm), None);
        }
        let wanted = fillet::laid_leg_mm(pass.leg_mm, self.gap_mm);
        let filled = fillet::leg_of_deposit_mm(metal_mm2);
        let left_mm = fillet::leg_left_mm(filled, self.gap_mm).min(pass.leg_mm);
        let short = filled < wanted - SAID_MM;
        (left_mm, short.then_some([pass.leg_mm, wanted, filled]))
    }
}

/// What lies on the two sides of a piece of a seam, near and far.
pub(super) struct Laid<'n> {
    pub(super) piece: &'n Stretch,
    sides: [Option<Finished>; 2],
}

impl<'n> Laid<'n> {
    pub(super) fn of(fillets: &Fillets<'_>, piece: &'n Stretch, strengths: &Strengths) -> Self {
        Self { piece, sides: [Side::Near, Side::Far].map(|side| fillets.on(piece, side, strengths)) }
    }

    /// N/mm.
    pub(super) fn carried(&self) -> f64 {
        self.sides.iter().flatten().map(|side| side.carries_n_per_mm).sum()
    }

    pub(super) fn both(&self) -> bool {
        self.sides.iter().all(Option::is_some)
    }

    /// Whether there is none at all.
    pub(super) fn bare(&self) -> bool {
        self.sides.iter().all(Option::is_none)
    }

    pub(super) fn smallest_mm(&self) -> Option<f64> {
        self.sides.iter().flatten().map(|side| side.leg_mm).reduce(f64::min)
    }

    /// Smallest leg that the rules allow each side, mm.
    pub(super) fn minimum_mm(&self) -> f64 {
        let one = self.piece.one.as_ref().filter(|_| !self.both());
        one.unwrap_or(&self.piece.two).minimum_mm
    }

    /// Said behind what it carries or how small it is, where metal falls short of what is stated.
    pub(super) fn short(&self) -> Message {
        let short = self.sides.iter().flatten().find_map(|side| side.short_mm);
        let said = |[stated, wanted, filled]: [f64; 3]| {
            let gap = if wanted > stated {
                Message::of(" and takes one of {} over the root gap", [Part::Plate(wanted)])
            } else {
                Message::from("")
            };
            let but = Message::of(", but the deposit fills one of {}", [Part::Plate(filled)]);
            Message::of("; a leg of {} is stated", [Part::Plate(stated)]).then(gap).then(but)
        };
        short.map_or_else(|| Message::from(""), said)
    }
}
