//! What is welded on a section, in which order, and how it is calculated.

use super::grid::CellSizes;
use super::layout::StripSection;
use crate::joint_solver::{
    FillerState, REFERENCE_LEGS, RoundSource, SectionError, SectionSteel, Surface, positive, within,
};
use crate::member::{Parts, Seam};
use crate::welding::Side;
use serde::Serialize;

/// One bead.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StripBead {
    /// Its seam.
    pub seam: Seam,
    /// Its side of the web.
    pub side: Side,
    /// Its leg, mm.
    pub leg_mm: f64,
    /// Its net heat Q, J/mm.
    pub heat_j_per_mm: f64,
    /// Travel speed of its arc, mm/s.
    pub travel_speed_mm_s: f64,
}

/// What is laid at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct StripStage {
    /// Plates that act together from here on; none that acted before may be missing.
    pub joined: Parts,
    /// A flange newly joined follows the member's sweep instead of being clamped straight.
    pub follows: bool,
    /// Seconds since the arc of the turn before; `None` waits until all is cold. Unread in the first turn.
    pub wait_s: Option<f64>,
    /// Temperature to which all that is joined is brought before the arc comes, °C; 20 for none.
    pub preheat_c: f64,
    /// The beads.
    pub beads: Vec<StripBead>,
}

impl StripStage {
    /// Beads laid cold on the whole section.
    pub const fn cold(beads: Vec<StripBead>) -> Self {
        Self { joined: Parts::ALL, follows: false, wait_s: None, preheat_c: 20.0, beads }
    }
}

/// How plates are modelled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlateModel {
    /// Joints in two dimensions, plates in one.
    Plates(CellSizes),
    /// All in one dimension, without fillets: the thin limit. Heat falls as a bell curve of this standard deviation, mm,
    /// about (t_w + z)/2 from the middle of the flange and z/2 up the web.
    Star {
        /// Length of an element, mm.
        step_mm: f64,
        /// Standard deviation of the heat, mm.
        spread_mm: f64,
    },
}

/// How a calculation is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripSettings {
    /// How plates are modelled.
    pub shape: PlateModel,
    /// Whether stretch and bends are held at zero: the definition of a tendon force. Not to be combined with preheat or
    /// short waits: holding a warm section at its cold length invents force.
    pub held: bool,
    /// Stress along the member that is there before the first turn, even over the section, MPa, tension +. Only a held
    /// section keeps it.
    pub(crate) prior_mpa: f64,
    /// How long an arc heats the section, s; `None` for as long as the widest source of the turn takes to pass. Less where the
    /// next turn comes sooner.
    pub pulse_s: Option<f64>,
    /// How the metal of a fillet comes in.
    pub deposit: FillerState,
    /// Equal steps within that time.
    pub(crate) pulse_steps: u32,
    /// Ratio of each later step to the one before.
    pub growth: f64,
    /// The section counts as cold when no point is this much warmer than its surroundings, or than any other, K.
    pub(crate) cold_k: f64,
    /// What the faces lose.
    pub(crate) surface: Surface,
}

impl StripSettings {
    /// Free to stretch and bend; the deposit molten, the arc as long as it takes to pass, in 4 steps, each later step longer by
    /// 0.4: as the section of one joint has it.
    pub const STANDARD: Self = Self {
        shape: PlateModel::Plates(CellSizes::STANDARD),
        held: false,
        prior_mpa: 0.0,
        pulse_s: None,
        deposit: FillerState::Molten,
        pulse_steps: 4,
        growth: 1.4,
        cold_k: 5.0,
        surface: Surface::AIR,
    };
}

/// A section to be welded.
#[derive(Debug, Clone, PartialEq)]
pub struct StripJob {
    /// Its plates and fillets.
    pub section: StripSection,
    /// Its steel.
    pub steel: SectionSteel,
    /// What is laid, in order.
    pub turns: Vec<StripStage>,
    /// How to calculate.
    pub settings: StripSettings,
}

impl StripJob {
    /// A section on which beads are laid; its legs become those of the largest bead at each place.
    pub fn new(
        mut section: StripSection,
        steel: SectionSteel,
        turns: Vec<StripStage>,
        settings: StripSettings,
    ) -> Self {
        for bead in turns.iter().flat_map(|t| &t.beads) {
            let leg = &mut section.legs_mm[bead.seam as usize][bead.side as usize];
            *leg = Some(leg.unwrap_or(0.0).max(bead.leg_mm));
        }
        Self { section, steel, turns, settings }
    }

    /// Radius of its narrowest source over the leg of the fillet it lays; infinite without beads.
    pub(super) fn narrowest(&self) -> f64 {
        let beads = self.turns.iter().flat_map(|t| &t.beads);
        let over_leg = |bead: &StripBead| {
            let leg = self.section.legs_mm(bead.seam)[bead.side as usize];
            bead.source(self.section.web_mm).radius_mm / leg.unwrap_or(bead.leg_mm)
        };
        beads.map(over_leg).fold(f64::INFINITY, f64::min)
    }

    /// # Errors
    /// What is wrong with a number, or no bead at all.
    pub fn check(&self) -> Result<(), SectionError> {
        let settings = &self.settings;
        self.section.check()?;
        self.steel.check()?;
        positive(&[
            ("pulse, s", settings.pulse_s.unwrap_or(1.0)),
            ("temperature of a cold section, K", settings.cold_k),
        ])?;
        within("prior stress over yield", settings.prior_mpa / self.steel.yield_mpa, -1.0, 1.0)?;
        within("pulse steps", f64::from(settings.pulse_steps), 1.0, 100_000.0)?;
        within("growth of the time step", settings.growth, 1.0, 3.0)?;
        if let PlateModel::Star { step_mm, spread_mm } = settings.shape {
            positive(&[("step, mm", step_mm), ("spread of the heat, mm", spread_mm)])?;
        }
        if self.turns.iter().all(|t| t.beads.is_empty()) {
            return Err(SectionError::NoPass);
        }
        for (index, turn) in self.turns.iter().enumerate() {
            if let (Some(wait_s), true) = (turn.wait_s, index > 0) {
                positive(&[("wait, s", wait_s)])?;
                within("wait, s", wait_s, 0.0, 1e7)?;
            }
            within("preheat, °C", turn.preheat_c, 20.0, 500.0)?;
            for bead in &turn.beads {
                positive(&[
                    ("heat input, J/mm", bead.heat_j_per_mm),
                    ("leg, mm", bead.leg_mm),
                    ("travel speed, mm/s", bead.travel_speed_mm_s),
                ])?;
                within("heat input, J/mm", bead.heat_j_per_mm, 0.0, 1e6)?;
                if self.section.flange_mm(bead.seam).is_none() {
                    return Err(SectionError::NoSuchFillet { pass: index + 1, side: bead.side.name() });
                }
            }
        }
        Ok(())
    }
}

impl StripBead {
    /// Its source, [across, up] from its own seam.
    pub(super) fn source(&self, web_mm: f64) -> RoundSource {
        RoundSource::beside_web(web_mm, self.leg_mm, self.side, self.heat_j_per_mm, REFERENCE_LEGS)
    }

    /// Weld metal of its triangle, mm².
    pub(super) const fn area_mm2(&self) -> f64 {
        0.5 * self.leg_mm * self.leg_mm
    }

    /// Heat density at a place [z, y], to any scale; `web` tells whether the place is in the web.
    pub(super) fn density(
        &self,
        section: &StripSection,
        shape: &PlateModel,
        at_mm: [f64; 2],
        web: bool,
    ) -> f64 {
        let [z, y] = at_mm;
        let up = section.y_mm(self.seam, y);
        match *shape {
            PlateModel::Plates(_) => self.source(section.web_mm).density([z, up]),
            PlateModel::Star { spread_mm, .. } => {
                let off = if web {
                    up - self.leg_mm / 2.0
                } else {
                    z - self.side.sign() * (section.web_mm + self.leg_mm) / 2.0
                };
                (-off * off / (2.0 * spread_mm * spread_mm)).exp()
            }
        }
    }
}
