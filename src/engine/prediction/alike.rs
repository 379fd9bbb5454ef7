//! Jobs that can be walked side by side.

use super::Job;
use crate::bow::count_of_substeps;
use crate::member::{FlangePiece, ends_mm};
use crate::welding::{Pass, WeldingOrder};
use std::rc::Rc;

/// Substeps along a member without breaks: eighths of the length, where a shop also takes its ordinates. The offset error
/// falls with the fourth power of their number; on a 3:1 taper eight leave less than 5e-5 of the bow.
pub(crate) const SUBSTEPS: f64 = 8.0;

/// A job and where the smooth stretches of its member end.
#[derive(Debug)]
pub(crate) struct Alike<'a> {
    /// The job.
    pub(crate) job: &'a Job,
    /// Ends of its stretches, mm, from the start to the finish; those of the job before it where both are cut at the same places.
    pub(crate) ends_mm: Rc<[f64]>,
    /// Whether it is cut at the same places as the job before it.
    stays: bool,
}

impl<'a> Alike<'a> {
    /// Cuts the member of a job.
    pub(crate) fn of(job: &'a Job) -> Self {
        Self { job, ends_mm: ends_mm(&job.member, ends_of_passes_mm(job)).into(), stays: false }
    }

    /// The same after another job, which often is cut at the same places.
    pub(crate) fn after(before: Option<&Self>, job: &'a Job) -> Self {
        match before {
            Some(before) if same_places(before.job, job) => {
                Self { job, ends_mm: Rc::clone(&before.ends_mm), stays: true }
            }
            _ => Self::of(job),
        }
    }

    /// Whether another job has the same layout: the same passes in the same orders on the same parts, over as many stretches of as many
    /// substeps. To be asked of one job after the other, as long as they are alike.
    pub(crate) fn is_like(&self, other: &Self) -> bool {
        let (a, b) = (self.job, other.job);
        let order = |o: &WeldingOrder| (o.number, o.joined, o.fit);
        let burns = |p: &Pass| p.heat_j_per_mm > 0.0 && p.stitch.is_none_or(|stitch| stitch.weld_mm > 0.0);
        let pass = |p: &Pass| (p.order, p.seam, p.side, burns(p));
        (a.hold, a.held_ends) == (b.hold, b.held_ends)
            && same(&a.orders, &b.orders, |a, b| order(a) == order(b))
            && same(&a.passes, &b.passes, |a, b| pass(a) == pass(b))
            && (other.stays || self.has_stretches_of(other))
    }

    fn has_stretches_of(&self, other: &Self) -> bool {
        let stretches = self.ends_mm.windows(2).zip(other.ends_mm.windows(2));
        self.ends_mm.len() == other.ends_mm.len()
            && stretches.into_iter().all(|(x, y)| {
                let covers =
                    |of: &Self, ends: &[f64], k: usize| covers(&of.job.passes[k], 0.5 * (ends[0] + ends[1]));
                self.steps(x) == other.steps(y)
                    && (0..self.job.passes.len()).all(|k| covers(self, x, k) == covers(other, y, k))
            })
    }

    fn steps(&self, ends: &[f64]) -> u32 {
        count_of_substeps(ends[1] - ends[0], self.job.member.length_mm / SUBSTEPS) as u32
    }
}

/// Ends of the passes, mm.
fn ends_of_passes_mm(job: &Job) -> impl Iterator<Item = f64> {
    job.passes.iter().flat_map(|p| [p.from_mm, p.to_mm])
}

/// Whether two jobs are cut at the same places.
fn same_places(a: &Job, b: &Job) -> bool {
    let at = |x: f64, y: f64| x.to_bits() == y.to_bits();
    let ends = |p: &FlangePiece, q: &FlangePiece| at(p.to_mm, q.to_mm);
    let (m, n) = (&a.member, &b.member);
    at(m.length_mm, n.length_mm)
        && same(m.depth.points(), n.depth.points(), |p, q| at(p.0, q.0))
        && same(&m.web, &n.web, |p, q| at(p.to_mm, q.to_mm))
        && same(&m.outer_flange, &n.outer_flange, ends)
        && same(&m.inner_flange, &n.inner_flange, ends)
        && same(&a.passes, &b.passes, |p, q| at(p.from_mm, q.from_mm) && at(p.to_mm, q.to_mm))
}

fn same<T>(a: &[T], b: &[T], alike: impl Fn(&T, &T) -> bool) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| alike(a, b))
}

/// Whether a pass runs over x (mm).
pub(crate) fn covers(pass: &Pass, x_mm: f64) -> bool {
    (pass.from_mm..=pass.to_mm).contains(&x_mm)
}
