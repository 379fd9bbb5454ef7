//! One typed number of a checked job: read it, set it within its range, say what it is.
//!
//! Whoever varies a job goes through here, so that what follows from a number follows everywhere alike: the heat of a pass
//! that is known by its leg, the deposit that fills the leg, everything along a member whose length is stretched.

use super::Job;
use super::factors::Factors;
use super::learned::{Assembly, FACTORS, at};
use crate::member::{Profile, Seam};
use crate::welding::{HeatSource, Pass, Process, Side, Wait, fillet};
use std::ops::RangeInclusive;
use thiserror::Error;

/// A number of a job. Plates, depth points and orders count from the start end or from the first, passes as the job has
/// them; all from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Field {
    /// Member length with everything along it: depth points, plates and passes move in proportion; mm.
    Length,
    /// Clear web depth at a point of the profile, mm.
    Depth(usize),
    /// Thickness of a web plate, mm. The preparation of its splices stays.
    Web(usize),
    /// Thickness of a flange plate, mm. The preparation of its splices stays.
    Flange(Seam, usize),
    /// Width of a flange plate, mm.
    FlangeWidth(Seam, usize),
    /// Root gap left by fit-up, mm.
    Gap,
    /// Leg of a pass, mm, with the heat and the deposit that follow from it.
    Leg(usize),
    /// Net heat input of a pass, J/mm, stated from then on.
    Heat(usize),
    /// Shrinkage force of a pass over the computed one.
    ForceOfPass(usize),
    /// Wait before an order, s.
    Wait(usize),
    /// Factor on the shrinkage force of every pass.
    Force,
    /// Factor on the shrinkage force of the passes at a seam, beside that of every pass.
    ForceOfSeam(Seam),
    /// Factor on what a second side laid later takes back at a seam.
    SecondSide(Seam),
    /// Factor on heat that is deduced from a leg.
    HeatFromLeg,
    /// Factor on the lateral arm.
    Arm,
    /// Factor on what welds across the member shrink.
    CrossWelds,
    /// Factor on the cup.
    Cup,
    /// Factor on the tilt.
    Tilt,
    /// Factor on what the fillets of a side turn, beside that of every tilt.
    TiltOfSide(Side),
    /// Rise of the wanted camber, mm.
    CamberRise,
    /// One of the independent doubts that a shop's record leaves of the bias, as the exponential of its standard score.
    Recorded(usize),
    /// What plates and assembly differ by from piece to piece: camber, sweep, length, cup, tilt, flange strips apart, waves of the
    /// web; as above.
    Plates(usize),
}

/// A value that a field does not take.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
#[error("a value of {value} is outside what the field {field:?} takes in this job")]
pub struct OutOfRange {
    /// The field.
    pub field: Field,
    /// The value, in the field's unit.
    pub value: f64,
}

mod kinds;
pub(crate) mod ranges;

use ranges::*;

impl Field {
    /// Unit of its values; empty for factors.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length
            | Self::Depth(_)
            | Self::Web(_)
            | Self::Flange(..)
            | Self::FlangeWidth(..)
            | Self::Gap
            | Self::Leg(_)
            | Self::CamberRise => "mm",
            Self::Heat(_) => "J/mm",
            Self::Wait(_) => "s",
            _ => "",
        }
    }

    /// Values it takes; what else must hold (no taper beyond 45° …) is checked when it is set.
    pub const fn range(self) -> RangeInclusive<f64> {
        match self {
            Self::Length => LENGTH_MM,
            Self::Depth(_) => DEPTH_MM,
            Self::Web(_) | Self::Flange(..) => THICKNESS_MM,
            Self::FlangeWidth(..) => WIDTH_MM,
            Self::Gap => GAP_MM,
            Self::Leg(_) => LEG_MM,
            Self::Heat(_) => HEAT_J_PER_MM,
            Self::Wait(_) => WAIT_S,
            // up to a twentieth of the length
            Self::CamberRise | Self::Recorded(_) | Self::Plates(_) => f64::MIN_POSITIVE..=f64::MAX,
            _ => FACTOR,
        }
    }

    /// What it is, in words: "thickness of outer flange 2".
    pub fn words(self) -> String {
        match self {
            Self::Length => "length".to_owned(),
            Self::Depth(i) => format!("depth at point {}", i + 1),
            Self::Web(i) => format!("thickness of web {}", i + 1),
            Self::Flange(seam, i) => format!("thickness of {} flange {}", seam.name(), i + 1),
            Self::FlangeWidth(seam, i) => format!("width of {} flange {}", seam.name(), i + 1),
            Self::Gap => "root gap".to_owned(),
            Self::Leg(i) => format!("leg of pass {}", i + 1),
            Self::Heat(i) => format!("net heat of pass {}", i + 1),
            Self::ForceOfPass(i) => format!("force factor of pass {}", i + 1),
            Self::Wait(i) => format!("wait before step {}", i + 1),
            Self::Force => "force factor".to_owned(),
            Self::ForceOfSeam(seam) => format!("force factor of the {} seam", seam.name()),
            Self::SecondSide(seam) => {
                format!("factor on what a second side takes back at the {} seam", seam.name())
            }
            Self::HeatFromLeg => "factor on heat from the leg".to_owned(),
            Self::Arm => "lever arm factor".to_owned(),
            Self::CrossWelds => "factor on cross welds".to_owned(),
            Self::Cup => "cup factor".to_owned(),
            Self::Tilt => "tilt factor".to_owned(),
            Self::TiltOfSide(side) => format!("tilt factor of the {} side", side.name()),
            Self::CamberRise => "wanted camber".to_owned(),
            Self::Recorded(i) => format!("doubt {} of the record", i + 1),
            Self::Plates(i) => format!("plates and assembly {}", i + 1),
        }
    }

    /// Its value; none where the job has no such thing, or a wait until cold.
    pub fn get(self, job: &Job) -> Option<f64> {
        let m = &job.member;
        match self {
            Self::Length => Some(m.length_mm),
            Self::Depth(i) => m.depth.points().get(i).map(|p| p.1),
            Self::Web(i) => m.web.get(i).map(|p| p.thickness_mm),
            Self::Flange(seam, i) => m.flange(seam).get(i).map(|p| p.thickness_mm),
            Self::FlangeWidth(seam, i) => m.flange(seam).get(i).map(|p| p.width_mm),
            Self::Gap => Some(job.fit_up_gap_mm),
            Self::Leg(i) => job.passes.get(i).map(|p| p.leg_mm),
            Self::Heat(i) => job.passes.get(i).map(|p| p.heat_j_per_mm),
            Self::ForceOfPass(i) => job.passes.get(i).map(|p| p.force_factor),
            Self::Wait(i) => match job.orders.get(i)?.wait {
                Wait::Seconds(s) => Some(s),
                Wait::Cold => None,
            },
            Self::CamberRise => job.wanted_camber.map(|w| w.rise_mm),
            Self::Recorded(_) => job.learned.as_ref().map(|_| 1.0),
            Self::Plates(i) => job.plates_sd_of(i).filter(|sd| *sd > 0.0).map(|_| 1.0),
            _ => self.factor(&mut { job.factors }).copied(),
        }
    }

    /// The factor on what the model computes that it is, if it is one.
    fn factor(self, factors: &mut Factors) -> Option<&mut f64> {
        Some(match self {
            Self::Force => &mut factors.force,
            Self::ForceOfSeam(Seam::Outer) => &mut factors.outer_seam,
            Self::ForceOfSeam(Seam::Inner) => &mut factors.inner_seam,
            Self::SecondSide(Seam::Outer) => &mut factors.outer_second,
            Self::SecondSide(Seam::Inner) => &mut factors.inner_second,
            Self::HeatFromLeg => &mut factors.heat_from_leg,
            Self::Arm => &mut factors.arm,
            Self::CrossWelds => &mut factors.cross_welds,
            Self::Cup => &mut factors.cup,
            Self::Tilt => &mut factors.tilt,
            Self::TiltOfSide(Side::Near) => &mut factors.near_tilt,
            Self::TiltOfSide(Side::Far) => &mut factors.far_tilt,
            _ => return None,
        })
    }

    /// Sets it, with all that follows from it.
    ///
    /// # Errors
    /// [`OutOfRange`] if the job does not take the value or has no such thing; what of the job was set before that stays
    /// set, so that it has to be copied anew.
    #[inline]
    pub fn set(self, job: &mut Job, value: f64) -> Result<(), OutOfRange> {
        let sound = self.range().contains(&value) && self.put(job, value).is_some();
        if sound { Ok(()) } else { Err(OutOfRange { field: self, value }) }
    }

    /// Multiplies it.
    ///
    /// # Errors
    /// As [`Field::set`].
    #[inline]
    pub fn times(self, job: &mut Job, factor: f64) -> Result<(), OutOfRange> {
        match self {
            // what plates bring is asked for as it is put
            Self::Plates(_) => self.set(job, factor),
            _ => match self.get(job) {
                Some(before) => self.set(job, before * factor),
                None => Err(OutOfRange { field: self, value: f64::NAN }),
            },
        }
    }

    fn put(self, job: &mut Job, value: f64) -> Option<()> {
        let gap_mm = job.fit_up_gap_mm;
        let m = &mut job.member;
        match self {
            Self::Length => return stretch(job, value),
            Self::Depth(i) => return depth(&mut m.depth, i, value),
            Self::Web(i) => m.web.get_mut(i)?.thickness_mm = value,
            Self::Flange(seam, i) => m.flange_mut(seam).get_mut(i)?.thickness_mm = value,
            Self::FlangeWidth(seam, i) => m.flange_mut(seam).get_mut(i)?.width_mm = value,
            Self::Gap => {
                for pass in &mut job.passes {
                    let follows = pass.deposit_follows_leg(gap_mm);
                    if follows {
                        pass.deposit_mm2 = fillet::deposit_mm2(pass.leg_mm, value);
                    }
                }
                job.fit_up_gap_mm = value;
            }
            Self::Leg(i) => {
                let factor = job.factors.heat_from_leg;
                let pass = job.passes.get_mut(i)?;
                let follows = pass.deposit_follows_leg(gap_mm);
                pass.leg_mm = value;
                if follows {
                    pass.deposit_mm2 = fillet::deposit_mm2(value, gap_mm);
                }
                return heat_of_leg(pass, factor);
            }
            Self::Heat(i) => {
                let pass = job.passes.get_mut(i)?;
                (pass.heat_j_per_mm, pass.heat_source) = (value, HeatSource::Stated);
            }
            Self::ForceOfPass(i) => job.passes.get_mut(i)?.force_factor = value,
            // nothing is welded before the first order
            Self::Wait(0) => return None,
            Self::Wait(i) => job.orders.get_mut(i)?.wait = Wait::Seconds(value),
            Self::HeatFromLeg => {
                job.factors.heat_from_leg = value;
                return job.passes.iter_mut().try_for_each(|pass| heat_of_leg(pass, value));
            }
            Self::CamberRise => {
                job.wanted_camber.as_mut()?.rise_mm = value;
                return camber_fits(job);
            }
            Self::Recorded(i) => return doubt(job, i, value.ln()),
            Self::Plates(i) => return drawn(job, i, value.ln()),
            _ => *self.factor(&mut job.factors)? = value,
        }
        Some(())
    }
}

/// The heat of a pass that is known by its leg alone: by that of its own metal.
fn heat_of_leg(pass: &mut Pass, factor: f64) -> Option<()> {
    if pass.heat_source != HeatSource::Leg {
        return Some(());
    }
    let efficiency = Process::SubmergedArc.default_efficiency();
    pass.heat_j_per_mm = factor * fillet::leg_rule_net_heat_j_per_mm(pass.own_leg_mm(), efficiency);
    HEAT_J_PER_MM.contains(&pass.heat_j_per_mm).then_some(())
}

fn camber_fits(job: &Job) -> Option<()> {
    let most = LARGEST_RISE * job.member.length_mm;
    job.wanted_camber.is_none_or(|w| w.rise_mm <= most).then_some(())
}

fn depth(profile: &mut Profile, at: usize, depth_mm: f64) -> Option<()> {
    profile.points_mut().get_mut(at)?.1 = depth_mm;
    let around = &profile.points()[at.saturating_sub(1)..];
    around.windows(2).take(2).all(gentle).then_some(())
}

/// Whether the taper between two points is one that the model covers.
fn gentle(pair: &[(f64, f64)]) -> bool {
    ((pair[1].1 - pair[0].1) / (pair[1].0 - pair[0].0)).abs() <= STEEPEST
}

/// Gives the member a length and moves everything along it in proportion. Not for a member with a demand, whose loads are
/// given at places of their own.
fn stretch(job: &mut Job, length_mm: f64) -> Option<()> {
    if job.carries.is_some() {
        return None;
    }
    let m = &mut job.member;
    let (old, by) = (m.length_mm, length_mm / m.length_mm);
    // an end stays an end to the last bit
    let moved = |x: f64| if x.to_bits() == old.to_bits() { length_mm } else { x * by };
    let mut sound = true;
    let mut ends = |from: &mut f64, to: &mut f64| {
        (*from, *to) = (moved(*from), moved(*to));
        sound &= *to - *from >= SHORTEST_MM;
    };
    m.web.iter_mut().for_each(|p| ends(&mut p.from_mm, &mut p.to_mm));
    m.outer_flange.iter_mut().for_each(|p| ends(&mut p.from_mm, &mut p.to_mm));
    m.inner_flange.iter_mut().for_each(|p| ends(&mut p.from_mm, &mut p.to_mm));
    job.passes.iter_mut().for_each(|p| ends(&mut p.from_mm, &mut p.to_mm));
    job.attachments.iter_mut().for_each(|a| a.at_mm = moved(a.at_mm));
    m.depth.points_mut().iter_mut().for_each(|p| p.0 = moved(p.0));
    m.length_mm = length_mm;
    let apart = |pair: &[(f64, f64)]| pair[1].0 - pair[0].0 >= POINTS_APART_MM && gentle(pair);
    sound &= m.depth.points().windows(2).all(apart);
    for own in &mut job.own_limits {
        if let Some(divisor) = own.part_of_length {
            own.limit_mm = length_mm / divisor;
            sound &= LIMIT_MM.contains(&own.limit_mm);
        }
    }
    camber_fits(job).filter(|()| sound)
}

impl Pass {
    /// Whether its deposit is the one that fills its leg: then it changes with the leg. Not to be asked of
    /// a pass whose leg was worked out from its deposit.
    fn deposit_follows_leg(&self, gap_mm: f64) -> bool {
        self.deposit_mm2.to_bits() == fillet::deposit_mm2(self.leg_mm, gap_mm).to_bits()
    }
}

/// Multiplies the factors of a job by the exponentials of these logs.
///
/// # Errors
/// A factor that the job does not take.
pub fn multiply(job: &mut Job, logs: &[f64; FACTORS]) -> Result<(), OutOfRange> {
    let fields = [Field::Force, Field::HeatFromLeg, Field::Arm, Field::Cup, Field::Tilt];
    for (field, log) in fields.into_iter().zip(logs) {
        field.times(job, log.exp())?;
    }
    for seam in Seam::BOTH {
        for field in Field::seam(job, seam, true) {
            field.times(job, logs[at::SECOND].exp())?;
        }
    }
    Ok(())
}

/// Moves a job by one of the independent doubts left: a column of the root of the covariance, times a standard score.
fn doubt(job: &mut Job, which: usize, score: f64) -> Option<()> {
    let root = job.learned.as_ref()?.root();
    let mut logs = [0.0; FACTORS];
    for (log, row) in logs.iter_mut().zip(&root) {
        *log = row.get(which)? * score;
    }
    for (bow, row) in job.assembly.bow_mm_per_m.iter_mut().zip(&root[FACTORS..]) {
        *bow += row.get(which)? * score;
    }
    multiply(job, &logs).ok()
}

/// Moves a job by what plates and assembly differ by from piece to piece.
fn drawn(job: &mut Job, which: usize, score: f64) -> Option<()> {
    let by = job.plates_sd_of(which).filter(|sd| *sd > 0.0)? * score;
    let Assembly {
        bow_mm_per_m: [camber, sweep],
        shortening_mm_per_m,
        cup_mm,
        tilt_mm,
        apart_mm_per_m,
        waves,
    } = &mut job.drawn;
    *[camber, sweep, shortening_mm_per_m, cup_mm, tilt_mm, apart_mm_per_m, waves]
        .into_iter()
        .nth(which)? += by;
    Some(())
}
