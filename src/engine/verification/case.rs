//! From a member, a place and a seam to one joint and the passes over it.

use super::options::{Options, SOURCE_LEGS, Setup};
use crate::joint_solver::{Joint, RoundSource, SectionError, SectionSteel, Sequence, USUAL_SPEED_MM_S};
use crate::member::Seam;
use crate::prediction::{Job, covers};
use crate::welding::{Pass, Side, Wait};
use serde::Serialize;

/// Why a place cannot be refereed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CaseError {
    /// The place is not on the member.
    #[error(
        "{:.3} m is off the member, which runs from 0 to {:.3} m", x_mm / 1000.0, length_mm / 1000.0
    )]
    OffMember {
        /// Place, mm.
        x_mm: f64,
        /// Length of the member, mm.
        length_mm: f64,
    },
    /// No pass runs over the place.
    #[error("no pass of the {} seam runs over {:.3} m; {}", seam.name(), x_mm / 1000.0, ranges(welded_mm))]
    NoPass {
        /// Seam.
        seam: Seam,
        /// Place, mm.
        x_mm: f64,
        /// Where the seam is welded, mm.
        welded_mm: Vec<[f64; 2]>,
    },
    /// A side is welded twice there.
    #[error(
        "the {} side of the {} seam is welded in step {} and again in step {} at {:.3} m; a section knows one fillet a \
         side, so leave one of the passes out of the job to referee the other",
        side.name(), seam.name(), orders[0], orders[1], x_mm / 1000.0
    )]
    SideTwice {
        /// Seam.
        seam: Seam,
        /// Side.
        side: Side,
        /// Place, mm.
        x_mm: f64,
        /// The two orders.
        orders: [u32; 2],
    },
    /// A wait is shorter than the arc's own time.
    #[error(
        "order {order} comes {wait_s} s after the pass before it; a wait must be at least the {least_s:.1} s that the arc \
         heats a slice: give both passes one order to lay them at once"
    )]
    WaitTooShort {
        /// The later order.
        order: u32,
        /// Its wait, s.
        wait_s: f64,
        /// Least, s.
        least_s: f64,
    },
    /// The section room refused or failed.
    #[error("{} seam at {:.3} m: {cause}", seam.name(), x_mm / 1000.0)]
    Section {
        /// Seam.
        seam: Seam,
        /// Place, mm.
        x_mm: f64,
        /// Why.
        cause: SectionError,
    },
}

fn ranges(welded_mm: &[[f64; 2]]) -> String {
    if welded_mm.is_empty() {
        return "it has none at all".to_owned();
    }
    let one = |r: &[f64; 2]| format!("{:.3} to {:.3} m", r[0] / 1000.0, r[1] / 1000.0);
    format!("it is welded from {}", welded_mm.iter().map(one).collect::<Vec<_>>().join(" and from "))
}

/// One fillet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CaseFillet {
    /// Side of the web.
    pub side: Side,
    /// Leg, mm.
    pub leg_mm: f64,
    /// Net heat, J/mm.
    pub heat_j_per_mm: f64,
    /// Deposited section, mm².
    pub deposit_mm2: f64,
    /// Travel speed of its arc, mm/s: the procedure's, or the usual one.
    pub travel_speed_mm_s: f64,
}

/// What is laid at one time: one side, or both at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Its order in the job.
    pub order: u32,
    /// Time since the arc before it, at this place; of no matter for the first.
    pub wait: Wait,
    /// Its fillets, near side first.
    pub beads: Vec<CaseFillet>,
}

impl Layer {
    /// Speed of its slowest arc, mm/s.
    pub(crate) fn speed_mm_s(&self) -> f64 {
        self.beads.iter().map(|bead| bead.travel_speed_mm_s).fold(f64::INFINITY, f64::min)
    }
}

/// One joint and what is laid on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Seam.
    pub seam: Seam,
    /// Place, mm from the start end.
    pub x_mm: f64,
    /// The joint, with the root of the options.
    pub joint: Joint,
    /// What is laid, in order.
    pub layers: Vec<Layer>,
    /// Yield strength, MPa.
    pub yield_mpa: f64,
    /// Temperature of the plates before the first pass, °C.
    pub start_c: f64,
    /// What of the job the section leaves out.
    pub cautions: Vec<String>,
}

impl Case {
    /// The joint of a seam at x (mm) of a checked job.
    ///
    /// # Errors
    /// `OffMember`, `NoPass`, `SideTwice`, `WaitTooShort`.
    pub fn of(job: &Job, x_mm: f64, seam: Seam, options: &Options) -> Result<Self, CaseError> {
        let length_mm = job.member.length_mm;
        if !(0.0..=length_mm).contains(&x_mm) {
            return Err(CaseError::OffMember { x_mm, length_mm });
        }
        let along = || job.passes.iter().filter(|p| p.seam == seam);
        let here: Vec<&Pass> = along().filter(|p| covers(p, x_mm)).collect();
        if here.is_empty() {
            let mut welded_mm: Vec<[f64; 2]> = along().map(|p| [p.from_mm, p.to_mm]).collect();
            welded_mm.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
            welded_mm.dedup();
            return Err(CaseError::NoPass { seam, x_mm, welded_mm });
        }
        for (k, pass) in here.iter().enumerate() {
            if let Some(again) = here[k + 1..].iter().find(|p| p.side == pass.side) {
                let orders = [pass.order, again.order];
                return Err(CaseError::SideTwice { seam, side: pass.side, x_mm, orders });
            }
        }
        let layers = layers(job, &here)?;
        let leg = |side: Side| here.iter().find(|p| p.side == side).map(|p| p.leg_mm);
        let plates = job.member.plates_at(x_mm);
        let legs = [leg(Side::Near), leg(Side::Far)];
        let joint = Joint {
            root: options.root,
            ..Joint::of_plates(&plates, job.member.depth.depth_mm(x_mm), seam, legs)
        };
        Ok(Self {
            seam,
            x_mm,
            joint,
            layers,
            yield_mpa: job.member.steel.yield_mpa,
            start_c: 20.0 + here.first().map_or(0.0, |p| p.preheat_k),
            cautions: cautions(job, &here, options),
        })
    }

    /// What the section room is asked, under one restraint.
    ///
    /// # Errors
    /// `Section` with what it finds wrong.
    pub fn sequence(&self, options: &Options, setup: Setup) -> Result<Sequence, CaseError> {
        let steel = SectionSteel::hot(self.yield_mpa);
        let settings = options.settings(setup, self.start_c);
        let welded = || {
            let mut sequence = Sequence::of_joint(&self.joint, options.meshing.fineness(), steel, settings)?;
            for (k, layer) in self.layers.iter().enumerate() {
                let beads: Vec<(Side, f64)> = layer.beads.iter().map(|b| (b.side, b.heat_j_per_mm)).collect();
                let wait = if k == 0 { Wait::Cold } else { layer.wait };
                sequence = sequence.weld(&self.joint, &beads, wait)?.travelling(layer.speed_mm_s());
            }
            sequence.check()?;
            Ok(sequence)
        };
        welded().map_err(|cause| self.failed(cause))
    }

    /// A cause with the place it belongs to.
    pub const fn failed(&self, cause: SectionError) -> CaseError {
        CaseError::Section { seam: self.seam, x_mm: self.x_mm, cause }
    }

    /// Whether another place has the very same joint and passes.
    pub(crate) fn same_as(&self, other: &Self) -> bool {
        (self.joint, &self.layers, self.yield_mpa.to_bits(), self.start_c.to_bits())
            == (other.joint, &other.layers, other.yield_mpa.to_bits(), other.start_c.to_bits())
    }
}

/// Passes of one order together; waits of orders that lay nothing here add up.
fn layers(job: &Job, here: &[&Pass]) -> Result<Vec<Layer>, CaseError> {
    let mut layers: Vec<Layer> = Vec::new();
    let mut wait = Wait::Seconds(0.0);
    for order in &job.orders {
        wait = match (wait, order.wait) {
            (Wait::Seconds(so_far), Wait::Seconds(more)) => Wait::Seconds(so_far + more),
            _ => Wait::Cold,
        };
        let mut beads: Vec<CaseFillet> =
            here.iter().filter(|p| p.order == order.number).map(|p| bead(p)).collect();
        if beads.is_empty() {
            continue;
        }
        beads.sort_by_key(|bead| bead.side == Side::Far);
        if let (Some(before), Wait::Seconds(wait_s)) = (layers.last(), wait)
            && let least_s = passing_s(before)
            && wait_s < least_s
        {
            return Err(CaseError::WaitTooShort { order: order.number, wait_s, least_s });
        }
        layers.push(Layer { order: order.number, wait, beads });
        wait = Wait::Seconds(0.0);
    }
    Ok(layers)
}

/// How long the arcs of a layer heat a slice, s.
fn passing_s(layer: &Layer) -> f64 {
    let source =
        |b: &CaseFillet| RoundSource::beside_web(0.0, b.leg_mm, b.side, b.heat_j_per_mm, SOURCE_LEGS);
    layer.beads.iter().map(|b| source(b).passing_s(layer.speed_mm_s())).fold(0.0, f64::max)
}

fn bead(pass: &Pass) -> CaseFillet {
    CaseFillet {
        side: pass.side,
        leg_mm: pass.leg_mm,
        heat_j_per_mm: pass.heat_j_per_mm,
        deposit_mm2: pass.deposit_mm2,
        travel_speed_mm_s: pass.travel_speed_mm_s.unwrap_or(USUAL_SPEED_MM_S),
    }
}

/// What of the job a slice cannot hold.
fn cautions(job: &Job, here: &[&Pass], options: &Options) -> Vec<String> {
    use crate::joint_solver::Lengthwise;
    let mut out = Vec::new();
    if here.iter().any(|p| p.welded_fraction() < 1.0) {
        out.push("A slice runs through a stitch: the section is that of the welded stretches, the formulas beside it too.");
    }
    if here.iter().any(|p| (p.preheat_k - here[0].preheat_k).abs() > 0.5) {
        out.push("Only the preheat of the first pass is in the section; later passes start from what is left of it.");
    }
    let warm = here[0].preheat_k > 0.5 || job.orders.iter().any(|o| o.wait != Wait::Cold);
    if options.lengthwise != Lengthwise::Free && warm {
        out.push("A warm section held at its cold length invents force: with preheat or short waits trust `--lengthwise free` only.");
    }
    if !job.factors.is_none() || here.iter().any(|p| (p.force_factor - 1.0).abs() > 1e-9) {
        out.push("Factors of the job on force and angles are left out on both sides of the comparison.");
    }
    if job.thermally_cut_web {
        out.push("The stress of the flame-cut web edge is in neither side of the comparison.");
    }
    if Seam::BOTH
        .into_iter()
        .flat_map(|s| job.member.flange(s))
        .any(|p| p.comes.edges.hot().iter().sum::<f64>() > 0.0)
    {
        out.push("What hot cutting left in the flanges is in neither side of the comparison.");
    }
    out.into_iter().map(str::to_owned).collect()
}

#[cfg(test)]
#[path = "case_tests.rs"]
mod tests;
