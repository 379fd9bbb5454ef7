//! What of a prediction is asked for, and so computed.

use super::walk::Keep;

/// What of a prediction is wanted beside its bows and shortening.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Of the bows and the shortening no more than their size, without their uncertainty: flanges are the only other thing to be had with
    /// that, whatever is said below.
    pub bows_alone: bool,
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
    /// Verdicts.
    pub verdicts: bool,
    /// Mass.
    pub mass: bool,
    /// Twist.
    pub twist: bool,
    /// Title, allowances, flanges that joined late, warnings: what people read, the twist too.
    pub words: bool,
}

impl Wanted {
    /// Everything.
    pub const ALL: Self = Self {
        bows_alone: false,
        profiles: true,
        flanges: true,
        passes: true,
        build_up: true,
        ripple: true,
        waves: true,
        estimates: true,
        verdicts: true,
        mass: true,
        twist: true,
        words: true,
    };

    /// What has to be kept of the walk for it.
    pub(super) const fn keep(&self) -> Keep {
        // verdicts may be on twist and web, which are read from how passes pull
        let web = self.ripple || self.waves;
        let pulls = self.passes || web || self.estimates || self.verdicts || self.twist || self.words;
        match (self.bows_alone, pulls) {
            (true, _) => Keep::Sums,
            (false, false) => Keep::Bows,
            (false, true) => Keep::Passes,
        }
    }
}
