//! One row of a standard: what it limits, when, how far, and how that is known.

use super::{Band, Facts, Quantity, Rule, Stiffened, Trust, Use};

/// When a limit applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Applies {
    /// To every member.
    Always,
    /// Only if a camber is wanted.
    CamberWanted,
    /// Only if none is.
    NoCamberWanted,
    /// To beams.
    Beam,
    /// To beams of which no camber is wanted.
    StraightBeam,
    /// To columns.
    Column,
    /// To columns of which no camber is wanted.
    StraightColumn,
    /// To webs with stiffeners so.
    Web(Stiffened),
}

impl Applies {
    /// Whether it does to a member.
    fn to(self, facts: &Facts) -> bool {
        let straight = facts.wanted_camber_mm <= 0.0;
        match self {
            Self::Always => true,
            Self::CamberWanted => !straight,
            Self::NoCamberWanted => straight,
            Self::Beam => facts.used_as == Use::Beam,
            Self::StraightBeam => straight && facts.used_as == Use::Beam,
            Self::Column => facts.used_as == Use::Column,
            Self::StraightColumn => straight && facts.used_as == Use::Column,
            Self::Web(stiffened) => facts.stiffened == stiffened,
        }
    }
}

/// A limit as data.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Standard, without its year.
    pub standard: &'static str,
    /// Edition the clause number belongs to.
    pub edition: &'static str,
    /// Clause or table item.
    pub clause: &'static str,
    /// What it limits.
    pub quantity: Quantity,
    /// The rule in words, both unit systems if they differ.
    pub words: &'static str,
    /// When it applies.
    pub(crate) applies: Applies,
    /// Its formula.
    pub rule: Rule,
    /// How it is known.
    pub trust: Trust,
    /// Where it was found, other editions, and what was read into it.
    pub source: &'static str,
}

impl Limit {
    /// A limit of an edition of a standard that always applies and was read there.
    pub(super) const fn of(
        [standard, edition]: [&'static str; 2],
        clause: &'static str,
        quantity: Quantity,
        words: &'static str,
        rule: Rule,
    ) -> Self {
        let (applies, trust) = (Applies::Always, Trust::Read);
        Self { standard, edition, clause, quantity, words, applies, rule, trust, source: "" }
    }

    /// The same where it only applies then.
    pub(super) const fn when(self, applies: Applies) -> Self {
        Self { applies, ..self }
    }

    /// The same known in that way.
    pub(super) const fn known(self, trust: Trust, source: &'static str) -> Self {
        Self { trust, source, ..self }
    }

    /// The allowed band at x (mm from the start end); None if the limit does not apply to this member.
    ///
    /// Only a limit on a wanted camber varies along the member.
    pub fn band_at_mm(&self, facts: &Facts, x_mm: f64) -> Option<Band> {
        if !self.applies.to(facts) {
            return None;
        }
        self.rule.band_at(facts, x_mm / facts.length_mm)
    }

    /// The allowed size at mid-length on the side of a deviation, mm, without sign; None if the limit does
    /// not apply to this member.
    ///
    /// A positive deviation is more of the wanted camber; only a limit on a wanted camber minds the sign.
    pub fn allowed_mm(&self, facts: &Facts, deviation_mm: f64) -> Option<f64> {
        Some(self.band_at_mm(facts, facts.length_mm / 2.0)?.side_mm(deviation_mm))
    }
}
