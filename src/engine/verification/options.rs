//! What may be asked of a case.

use crate::joint_solver::{
    FillerState, Fineness, Lengthwise, REFERENCE_LEGS, Root, SOLID_C, SolverSettings, StressModel,
};
use serde::{Serialize, Serializer};

/// Restraint in the plane of the section while hot: flange edges and web top are held until the hottest point of a pass is
/// below a temperature. It stands for the cold plate about a moving arc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HotHold {
    /// Nothing is held: known to be wrong for a moving arc by a factor of about twenty in the cup.
    None,
    /// Held until below this, °C.
    Until(f64),
}

impl HotHold {
    /// Held only until the weld metal is solid: what a moving arc in three dimensions agrees with, in the cup.
    pub const SOLID: Self = Self::Until(SOLID_C);

    /// The temperature of release, °C.
    pub const fn release_c(self) -> Option<f64> {
        match self {
            Self::None => None,
            Self::Until(t_c) => Some(t_c),
        }
    }
}

impl Serialize for HotHold {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.release_c().serialize(serializer)
    }
}

/// What a joint is solved under.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Setup {
    /// Temperature below which the plane is free, °C; null for never held.
    #[serde(rename = "hold_c")]
    pub hold: HotHold,
    /// Radius of the source over the usual one.
    pub source: f64,
}

/// Radius of a submerged arc's source at 1000 J/mm, in legs.
///
/// That of the reference problem, a choice. With a molten deposit and the arc's own time it melts deposit and plates by 0.25 to 0.41 of
/// the net heat from 4 mm of leg and 450 J/mm to 8 and 1800, 2 to 3 mm into the flange, the fillet all of it (own heat
/// calculation); a fifth narrower it melts a fifth more. Two thirds and four thirds of it move cups by 5 % and forces by 2 %, on thick flanges
/// by 8 and 6 %.
pub const SOURCE_LEGS: f64 = REFERENCE_LEGS;
/// Radii of the source shown beside the usual one, over it: what the width of the arc decides.
pub(crate) const OTHER_SOURCES: [f64; 2] = [2.0 / 3.0, 4.0 / 3.0];

/// How finely the section and time are cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meshing {
    /// Two elements along a leg, half as many steps: for teaching.
    Coarse,
    /// Four elements along a leg: that of the reference problem.
    Standard,
    /// Eight elements along a leg and shorter steps.
    Fine,
    /// So many elements along a leg.
    PerLeg(usize),
}

impl Meshing {
    /// Elements.
    pub(crate) const fn fineness(self) -> Fineness {
        match self {
            Self::Coarse => Fineness::COARSE,
            Self::Standard => Fineness::STANDARD,
            Self::Fine => Fineness { per_leg: 8, even: 16, growth: 1.2 },
            Self::PerLeg(per_leg) => Fineness { per_leg, even: per_leg * 2, growth: 1.2 },
        }
    }

    /// Steps.
    pub(crate) const fn settings(self) -> SolverSettings {
        match self {
            Self::Coarse => SolverSettings::COARSE,
            Self::Standard | Self::PerLeg(_) => SolverSettings::STANDARD,
            Self::Fine => SolverSettings { pulse_steps: 48, growth: 1.05, ..SolverSettings::STANDARD },
        }
    }
}

impl Serialize for Meshing {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Coarse => serializer.serialize_str("coarse"),
            Self::Standard => serializer.serialize_str("standard"),
            Self::Fine => serializer.serialize_str("fine"),
            Self::PerLeg(n) => serializer.serialize_u64(*n as u64),
        }
    }
}

/// How a case is solved.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Restraint in the plane while hot.
    pub hold: HotHold,
    /// Restraint lengthwise.
    pub lengthwise: Lengthwise,
    /// Forces and angles, or forces only.
    pub model: StressModel,
    /// Mesh and steps.
    pub meshing: Meshing,
    /// How the web foot meets the flange.
    pub root: Root,
    /// Times after the start of each pass at which temperatures are kept, s.
    pub times_s: Vec<f64>,
    /// Leave the other restraints of the bracket out.
    pub quick: bool,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            hold: HotHold::SOLID,
            lengthwise: Lengthwise::Free,
            model: StressModel::Solid,
            meshing: Meshing::Standard,
            root: Root::Tied,
            times_s: vec![5.0, 20.0, 100.0],
            quick: false,
        }
    }
}

impl Options {
    /// What to solve: the wanted restraint with the usual source first, then what else could be: other widths of the arc, never held.
    pub fn setups(&self) -> Vec<Setup> {
        let wanted = Setup { hold: self.hold, source: 1.0 };
        let wider = OTHER_SOURCES.map(|source| Setup { source, ..wanted });
        let free = Setup { hold: HotHold::None, ..wanted };
        let others = wider.into_iter().chain([free]).filter(|other| !self.quick && *other != wanted);
        std::iter::once(wanted).chain(others).collect()
    }

    /// How the section room is to calculate under one of them, plates at `start_c` before the first pass.
    pub(crate) fn settings(&self, setup: Setup, start_c: f64) -> SolverSettings {
        SolverSettings {
            release_c: setup.hold.release_c(),
            lengthwise: self.lengthwise,
            model: self.model,
            start_c,
            deposit: FillerState::Molten,
            source_legs: setup.source * SOURCE_LEGS,
            ..self.meshing.settings()
        }
    }
}
