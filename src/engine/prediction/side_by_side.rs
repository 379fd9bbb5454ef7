//! Jobs of one layout planned and walked at once, in wide registers: rows of a study, and drawn pieces.

use super::Job;
use super::alike::{Alike, SUBSTEPS};
use super::effects::Sums;
use super::lay_formula::{ByFormula, LaidRoom};
use super::plan::WalkPlan;
use super::read::{FORMULA, nothing, read, read_sizes};
use super::result::Prediction;
use super::sizes::{Asked, Laid, unsure_waves};
use super::uncertainty::Bias;
use super::verdicts::{self, JudgedSize};
use super::walk::{Keep, Walk, walk_on};
use super::wanted::Wanted;
use crate::numerics::{LANES, Lanes, Work, in_lanes};
use crate::tolerance::Quantities;

/// What is wanted of many jobs, those of one layout side by side, each shown in its turn as soon as it is there, with its job. What a job gets
/// does not depend on the others, and is that of [`predict_only`](super::predict_only) but for the last bits of exponentials and logarithms.
pub(crate) fn predict_each(jobs: &[Job], wanted: &Wanted, mut take: impl FnMut(&Job, &Prediction)) {
    let Some(first) = jobs.first() else { return };
    let (mut rooms, mut shown) = (Default::default(), (nothing(first, FORMULA), Default::default()));
    let mut one = (WalkPlan::default(), Walk::default());
    groups(jobs, |group, all, jobs| {
        if !wanted.is_sizes() {
            let keep = jobs.iter().map(|job| wanted.keep(job)).max().unwrap_or(Keep::Passes);
            let plan = walked(all, keep, &mut rooms);
            let (march, _) = &rooms;
            let (plan_one, march_one) = &mut one;
            for (k, Alike { job, .. }) in group.iter().enumerate() {
                plan.put_nth(k, plan_one);
                march.put_nth(k, march_one);
                take(job, &read(job, plan_one, march_one, Bias::FORMULA, FORMULA, wanted));
            }
            return;
        }
        let asked = Asked::of(jobs, wanted);
        let plan = walked(all, asked.keep(), &mut rooms);
        let (march, _) = &rooms;
        let unsure = asked.waves && (wanted.waves || !wanted.piece);
        let waved = unsure.then(|| unsure_waves(jobs, &plan, march, Bias::FORMULA));
        let laid = Laid::of(jobs, &plan, march, Asked { waves: asked.waves && wanted.piece, ..asked });
        for (k, Alike { job, .. }) in group.iter().enumerate() {
            read_sizes(job, k, &laid, waved.as_deref(), wanted, &mut shown);
            take(job, &shown.0);
        }
    });
}

/// The sizes by which many drawn pieces are judged, each shown in its turn: as they are, and by their welds alone, as if their plates were
/// straight and well set.
pub(crate) fn judged_each(jobs: &[Job], mut take: impl FnMut([&[JudgedSize]; 2])) {
    let mut rooms = Default::default();
    let wanted = Wanted { verdicts: Quantities::ALL, ..Wanted::default() };
    let (mut sizes, mut judged) = (Default::default(), [Vec::new(), Vec::new()]);
    groups(jobs, |group, all, jobs| {
        let asked = Asked::of(jobs, &wanted);
        let plan = walked(all, asked.keep(), &mut rooms);
        let (march, _) = &rooms;
        let laid: Laid<'_, _, 2> = Laid::of(jobs, &plan, march, asked);
        for (k, Alike { job, .. }) in group.iter().enumerate() {
            laid.read(k, &mut sizes);
            for (sizes, judged) in sizes.iter().zip(&mut judged) {
                verdicts::sizes(job, sizes.judged(), judged);
            }
            take([&judged[0], &judged[1]]);
        }
    });
}

/// Shows jobs in groups that fit into lanes; the last of a group fills the lanes that are left.
fn groups<'j>(jobs: &'j [Job], mut take: impl FnMut(&[Alike<'j>], &[&Alike<'j>; LANES], &[&'j Job; LANES])) {
    let mut all: Vec<Alike<'_>> = Vec::with_capacity(jobs.len());
    for job in jobs {
        all.push(Alike::after(all.last(), job));
    }
    let mut left = &all[..];
    while let Some(first) = left.first() {
        let many = 1 + left[1..].iter().take(LANES - 1).take_while(|other| first.is_like(other)).count();
        let (now, later) = left.split_at(many);
        let lanes: [&Alike<'_>; LANES] = std::array::from_fn(|k| &now[k.min(many - 1)]);
        take(now, &lanes, &lanes.map(|alike| alike.job));
        left = later;
    }
}

/// Plans and walks jobs of one layout, as many as there are lanes.
fn walked(
    all: &[&Alike<'_>; LANES],
    keep: Keep,
    (walk, room): &mut (Walk<Lanes>, LaidRoom<Lanes>),
) -> WalkPlan<Lanes> {
    in_lanes::<Lanes, _>(SideBySide { all, keep, walk, room })
}

struct SideBySide<'a, 'j> {
    all: &'a [&'a Alike<'j>; LANES],
    keep: Keep,
    walk: &'a mut Walk<Lanes>,
    room: &'a mut LaidRoom<Lanes>,
}

impl Work for SideBySide<'_, '_> {
    type Done = WalkPlan<Lanes>;

    #[cfg_attr(wide, inline(always))]
    fn run(self) -> Self::Done {
        let plan = WalkPlan::side_by_side(self.all);
        let (job, pulls) = (self.all[0].job, &mut ByFormula::new(self.room));
        if self.keep < Keep::Bows {
            walk_on::<_, Sums<_>, _>(job, &plan, SUBSTEPS, self.keep, pulls, self.walk);
        } else {
            walk_on::<_, Vec<_>, _>(job, &plan, SUBSTEPS, self.keep, pulls, self.walk);
        }
        plan
    }
}
