//! What of a prediction is asked for, and so computed.

use super::Job;
use super::verdicts::judges;
use super::walk::Keep;
use crate::tolerance::{Quantities, Quantity};

/// What of a prediction is wanted beside its bows and shortening.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Two standard deviations of what is there.
    pub spreads: bool,
    /// How bows, and forces if they are wanted, run along the member.
    pub profiles: bool,
    /// Flanges.
    pub flanges: bool,
    /// Pass by pass.
    pub passes: bool,
    /// The shape after each pass.
    pub build_up: bool,
    /// Web compression.
    pub ripple: bool,
    /// The waves of the web by it.
    pub waves: bool,
    /// Published estimates.
    pub estimates: bool,
    /// Verdicts on these.
    pub verdicts: Quantities,
    /// Mass.
    pub mass: bool,
    /// Twist.
    pub twist: bool,
    /// Title, allowances, flanges that joined late, warnings: what people read, the twist too.
    pub words: bool,
    /// The job is one drawn piece, of which nothing is unsure: its web is judged where it waves most, not where it may.
    pub piece: bool,
}

impl Wanted {
    /// The size of bows and shortening alone.
    pub const BOWS: Self = Self {
        spreads: false,
        profiles: false,
        flanges: false,
        passes: false,
        build_up: false,
        ripple: false,
        waves: false,
        estimates: false,
        verdicts: Quantities::NONE,
        mass: false,
        twist: false,
        words: false,
        piece: false,
    };

    /// The shape of a piece: how its bows run along it, and its flanges.
    pub const SHAPE: Self = Self { profiles: true, flanges: true, ..Self::BOWS };

    /// Everything.
    pub const ALL: Self = Self {
        spreads: true,
        profiles: true,
        flanges: true,
        passes: true,
        build_up: true,
        ripple: true,
        waves: true,
        estimates: true,
        verdicts: Quantities::ALL,
        mass: true,
        twist: true,
        words: true,
        piece: false,
    };

    /// Whether nothing is wanted but sizes, which need no deviations and nothing of each pass.
    pub(super) const fn is_sizes(&self) -> bool {
        !(self.spreads || self.passes || self.build_up || self.estimates || self.twist || self.words)
    }

    /// What has to be kept of the walk for more.
    pub(super) fn keep(&self, job: &Job) -> Keep {
        // verdicts on twist and web are read from how passes pull
        let judged = |quantity| self.verdicts.contains(quantity) && judges(job, quantity);
        let web = self.ripple || self.waves || judged(Quantity::WebFlatness);
        let turns = self.twist || judged(Quantity::Twist);
        if web || turns || self.passes || self.estimates || self.words { Keep::Passes } else { Keep::Bows }
    }
}
