//! Flange strips that come bowed unlike: what turns the member.
//!
//! Clamped straight and let go, each strip wants its own curvature κ back. Their mean, weighted by I, is the sweep of the member
//! (`plates`); what each wants beside it, M = E·I_o·I_i/(I_o + I_i)·(κ_i − κ_o) in the one flange and −M in the other, is a couple that
//! turns the section: the bimoment h·M of [`bow::twist`](crate::bow::twist), where it enters as a curvature that the flanges want, as
//! that of seams does (derived; elastic, no slip, a flange at a small slope as one that has none). Strips of equal size that come bowed to
//! opposite sides sweep the member by nothing and turn it most.

use super::Job;
use super::plan::WalkPlan;
use super::plates::{flange_mean, flange_sd, over, to_middle_mm2, variance_of_alike};
use super::unsure::Unsure;
use super::walk::Walk;
use crate::bow::twist::{Torsion, Turned};
use crate::member::{FlangePiece, Seam, Span};
use crate::numerics::Number;

impl Job {
    /// Standard deviation of the sweep that the strips of the inner flange, laid end to end and loose, have more than those of the
    /// outer one at mid-length, mm a metre of member. Strips of one size in one flange come alike, the two flanges do not.
    pub(super) fn apart_sd_mm_per_m(&self) -> f64 {
        let (member, length) = (&self.member, self.member.length_mm);
        let of = |p: &FlangePiece| {
            let weight = to_middle_mm2(p.to_mm, length) - to_middle_mm2(p.from_mm, length);
            weight * flange_sd(p, member)
        };
        let bits = |p: &FlangePiece| [p.width_mm, p.thickness_mm].map(f64::to_bits);
        let squares =
            Seam::BOTH.map(|seam| variance_of_alike(member.flange(seam), |a, b| bits(a) == bits(b), of));
        (squares[0] + squares[1]).sqrt() / (1e-3 * length)
    }
}

/// The curvatures, as [`Torsion::turned`] takes them, that the strips want on the mean and by what pieces have beside it, of jobs side by side;
/// none if they want alike.
pub(super) fn wanted<N: Number>(
    jobs: &[&Job],
    plan: &WalkPlan<N>,
    march: &Walk<N>,
    bowed: bool,
    apart_mm_per_m: N,
) -> Option<Vec<[N; 2]>> {
    let drawn = over(plan.length_mm, apart_mm_per_m);
    if !bowed && !drawn.any(|drawn| drawn.abs() > 0.0) {
        return None;
    }
    let wanted = |span: &Span<N>| {
        let strip = |seam| {
            let (width, thickness) = span.plates.flange_mm(seam);
            let of = |k: usize| {
                let (member, middle) = (&jobs[k].member, span.middle_mm().nth(k));
                member.flange(seam).iter().find(|p| middle <= p.to_mm).map_or(0.0, |p| flange_mean(p, member))
            };
            let mean = if bowed { N::of(of) } else { N::default() };
            [mean, thickness * (width * width * width)]
        };
        let [[outer, outer_mm4], [inner, inner_mm4]] = [strip(Seam::Outer), strip(Seam::Inner)];
        let whole = (outer * outer_mm4 + inner * inner_mm4) / (outer_mm4 + inner_mm4);
        // + bows toward the near side, w″ the other way
        [outer - inner - drawn, -whole]
    };
    let of_spans: Vec<[N; 2]> = plan.spans.iter().map(wanted).collect();
    Some(march.web.iter().map(|part| of_spans[part.span]).collect())
}

/// Turn at the stations by strips that want one standard deviation apart; none if pieces do not differ so.
pub(crate) fn one_sd(job: &Job, torsion: &Torsion, unsure: &Unsure) -> Option<Turned> {
    if unsure.apart_sd_mm_per_m <= 0.0 {
        return None;
    }
    let apart = over(job.member.length_mm, unsure.apart_sd_mm_per_m);
    Some(torsion.turned(&vec![[-apart, 0.0]; torsion.stretches().len()]))
}
