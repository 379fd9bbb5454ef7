//! What may be asked of a case.

use crate::section::{Fineness, Lengthwise, Model, Root, Settings};
use serde::{Serialize, Serializer};

/// Restraint in the plane of the section while hot: flange edges and web top are held until the hottest point of a pass is
/// below a temperature. It stands for the cold plate ahead of the arc and the cooled plate behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hold {
    /// Nothing is held: known to be wrong for a moving arc by a factor of about twenty in the cup.
    None,
    /// Held until below this, °C.
    Until(f64),
}

impl Hold {
    /// The temperature of release, °C.
    pub const fn release_c(self) -> Option<f64> {
        match self {
            Self::None => None,
            Self::Until(t_c) => Some(t_c),
        }
    }
}

impl Serialize for Hold {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.release_c().serialize(serializer)
    }
}

/// Restraints shown beside the wanted one: free, and both ends of the range that measured angles allow.
pub const BRACKET_C: [Hold; 4] = [Hold::None, Hold::Until(300.0), Hold::Until(500.0), Hold::Until(700.0)];

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
    pub const fn fineness(self) -> Fineness {
        match self {
            Self::Coarse => Fineness::COARSE,
            Self::Standard => Fineness::STANDARD,
            Self::Fine => Fineness { per_leg: 8, even: 16, growth: 1.2 },
            Self::PerLeg(per_leg) => Fineness { per_leg, even: per_leg * 2, growth: 1.2 },
        }
    }

    /// Steps.
    pub const fn settings(self) -> Settings {
        match self {
            Self::Coarse => Settings::COARSE,
            Self::Standard | Self::PerLeg(_) => Settings::STANDARD,
            Self::Fine => Settings { pulse_steps: 48, growth: 1.05, ..Settings::STANDARD },
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
    pub hold: Hold,
    /// Restraint lengthwise.
    pub lengthwise: Lengthwise,
    /// Forces and angles, or forces only.
    pub model: Model,
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
            hold: Hold::Until(500.0),
            lengthwise: Lengthwise::Free,
            model: Model::Solid,
            meshing: Meshing::Standard,
            root: Root::Tied,
            times_s: vec![5.0, 20.0, 100.0],
            quick: false,
        }
    }
}

impl Options {
    /// The restraints to solve: the wanted one first, then the rest of the bracket.
    pub fn holds(&self) -> Vec<Hold> {
        let others = BRACKET_C.into_iter().filter(|hold| !self.quick && *hold != self.hold);
        std::iter::once(self.hold).chain(others).collect()
    }

    /// How the section room is to calculate under one of them, plates at `start_c` before the first pass.
    pub fn settings(&self, hold: Hold, start_c: f64) -> Settings {
        Settings {
            release_c: hold.release_c(),
            lengthwise: self.lengthwise,
            model: self.model,
            start_c,
            ..self.meshing.settings()
        }
    }
}
