//! Second sides of a job: fillets that are laid later than the one on the other side of the web.

use super::Job;
use super::alike::covers;
use super::uncertainty::taken_counts;
use crate::member::Seam;
use crate::shrinkage::fillets::after_s;
use crate::welding::Pass;

impl Job {
    /// Time since the other side was welded, s, if a pass is at x (mm) a second side laid later, alone in its order.
    fn second_side_after_s(&self, pass: &Pass, x_mm: f64) -> Option<f64> {
        let facing = |o: &&Pass| o.seam == pass.seam && o.side != pass.side && covers(o, x_mm);
        let orders = || self.passes.iter().filter(facing).map(|o| o.order);
        if orders().any(|order| order == pass.order) {
            return None;
        }
        let first = orders().filter(|order| *order < pass.order).max()?;
        let between = self.orders.iter().filter(|o| o.number > first && o.number <= pass.order);
        Some(between.fold(0.0, |now_s, order| after_s(now_s, order.wait)))
    }

    /// The same of all second sides of a seam, wherever one is.
    pub(super) fn second_sides_after_s(&self, seam: Seam) -> impl Iterator<Item = f64> {
        let own = move || self.passes.iter().filter(move |pass| pass.seam == seam);
        let mut ends_mm: Vec<f64> = own().flat_map(|pass| [pass.from_mm, pass.to_mm]).collect();
        ends_mm.sort_unstable_by(f64::total_cmp);
        let middles_mm: Vec<f64> = ends_mm.windows(2).map(|ends| 0.5 * (ends[0] + ends[1])).collect();
        middles_mm.into_iter().flat_map(move |x_mm| {
            let here = own().filter(move |pass| covers(pass, x_mm));
            here.filter_map(move |pass| self.second_side_after_s(pass, x_mm))
        })
    }

    /// Part of the own bias of what second sides take back that counts at each seam.
    pub(super) fn taken_counts(&self) -> [f64; 2] {
        Seam::BOTH.map(|seam| self.second_sides_after_s(seam).map(taken_counts).fold(0.0, f64::max))
    }

    /// Factor on what a pass takes back at x (mm) of the sideways moment of the side welded before it.
    pub(super) fn takes_back(&self, pass: &Pass, x_mm: f64) -> f64 {
        let more = self.factors.of_second(pass.seam) - 1.0;
        let after_s = if more.abs() > 0.0 { self.second_side_after_s(pass, x_mm) } else { None };
        after_s.map_or(1.0, |after_s| 1.0 + more * taken_counts(after_s))
    }
}
