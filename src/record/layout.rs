//! Which of the unknowns is which. Every unknown is a standard normal score before the first piece: what it stands for is its
//! score times its prior deviation, so that the prior is the same for all.

use crate::prior::{FACTORS, NAMES};
use crate::{Kind, Record};

/// Places of the unknowns.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    families: usize,
    /// Procedures, if there are several.
    procedures: usize,
    /// Lines, if there are several.
    lines: usize,
}

/// Bows: camber and sweep.
const BOWS: usize = 2;
/// First of the mean bows.
const MEANS: usize = FACTORS;
/// First of the scatters.
const SCATTERS: usize = MEANS + BOWS;
/// First of how far families lie apart.
const APART: usize = SCATTERS + Kind::ALL.len();
/// First of the families.
const FAMILIES: usize = APART + BOWS;

impl Layout {
    /// Of a record. Names that occur once only need no unknown of their own.
    pub fn of(record: &Record) -> Self {
        let several = |count: usize| if count > 1 { count } else { 0 };
        Self {
            families: record.families.len(),
            procedures: several(record.procedures.len()),
            lines: several(record.lines.len()),
        }
    }

    /// Unknowns in all.
    pub fn count(&self) -> usize {
        let of = |n: usize| if n > 0 { n + 1 } else { 0 };
        self.alike() + of(self.procedures) + of(self.lines)
    }

    /// Names of the unknowns in their order, for people.
    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = NAMES.iter().map(|n| (*n).to_owned()).collect();
        names.extend(["mean camber", "mean sweep"].map(str::to_owned));
        names.extend(Kind::ALL.map(|kind| format!("{} each piece", kind.name())));
        names.extend(["families apart, camber", "families apart, sweep"].map(str::to_owned));
        for family in 1..=self.families {
            names.extend(["camber", "sweep"].map(|bow| format!("family {family}, {bow}")));
        }
        for (what, count) in [("procedure", self.procedures), ("line", self.lines)] {
            if count > 0 {
                names.push(format!("{what}s apart"));
                names.extend((1..=count).map(|i| format!("{what} {i}")));
            }
        }
        names
    }

    /// Unknowns before those of procedures and lines.
    pub const fn alike(&self) -> usize {
        FAMILIES + BOWS * self.families
    }

    /// Mean bow: camber 0, sweep 1.
    pub const fn mean(bow: usize) -> usize {
        MEANS + bow
    }

    /// Scatter of a kind of readings.
    pub const fn scatter(kind: Kind) -> usize {
        SCATTERS + kind as usize
    }

    /// How far families lie apart in a bow.
    pub const fn apart(bow: usize) -> usize {
        APART + bow
    }

    /// Bow of a family.
    pub const fn family(family: usize, bow: usize) -> usize {
        FAMILIES + BOWS * family + bow
    }

    /// Every bow of every family: its place, the family, the bow.
    pub fn families(&self) -> impl Iterator<Item = (usize, usize, usize)> {
        (0..self.families).flat_map(|f| (0..BOWS).map(move |bow| (Self::family(f, bow), f, bow)))
    }

    /// How far procedures lie apart, and the place of one; None if there is but one.
    pub fn procedure(&self, procedure: usize) -> Option<(usize, usize)> {
        let first = self.alike();
        (self.procedures > 0).then_some((first, first + 1 + procedure))
    }

    /// How far lines lie apart, and the place of one; None if there is but one.
    pub fn line(&self, line: usize) -> Option<(usize, usize)> {
        let before = if self.procedures > 0 { self.procedures + 1 } else { 0 };
        let first = self.alike() + before;
        (self.lines > 0).then_some((first, first + 1 + line))
    }
}

/// Camber and sweep bow; other kinds do not.
pub(crate) const fn bow(kind: Kind) -> Option<usize> {
    match kind {
        Kind::Camber => Some(0),
        Kind::Sweep => Some(1),
        _ => None,
    }
}
