//! What is read off a welded section: pulls at the seams, so that an elastic section of the plates alone under them has the
//! strains that were found.

use super::grid::{CellGrid, CellKind};
use super::layout::StripSection;
use crate::bow::Pull;
use crate::joint_solver::{Bilinear, Fibres};
use crate::member::Seam;
use crate::welding::Side;
use serde::Serialize;

/// The section once a turn and all before it have cooled, whether or not the next turn lets it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StageOutcome {
    /// Pull at the outer and inner seam, near and far half, of all laid so far.
    pub pulls: [[Pull; 2]; 2],
    /// Strain of the axis y = 0, and its change per mm of z and of y.
    pub plane: [f64; 3],
    /// The same of the parts joined before, by the heat left in them when a flange joined at this turn: less what they have once cold.
    pub(crate) joined_warm: [f64; 3],
    /// Heat held and lost over the heat given, less 1.
    pub energy_balance: f64,
    /// Time from its arc until the next arc comes or all is cold, s.
    pub seconds: f64,
    /// Hottest point when its arc came, °C.
    pub met_c: f64,
}

impl StageOutcome {
    /// Pull at one seam.
    pub fn at(&self, seam: Seam) -> Pull {
        let [near, far] = self.pulls[seam as usize];
        near.plus(far)
    }

    /// Pull at one seam and side.
    pub const fn half(&self, seam: Seam, side: Side) -> Pull {
        self.pulls[seam as usize][side as usize]
    }
}

/// How deep a seam melts its plates.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct SeamMelted {
    /// Into the flange, mm.
    pub flange_mm: f64,
    /// Part of the web's thickness that melts on one level above the fillets, at most.
    pub web_share: f64,
}

/// What a calculation took.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct StripEffort {
    /// Temperatures sought.
    pub unknowns: usize,
    /// Bars.
    pub bars: usize,
    /// Time steps.
    pub steps: usize,
    /// Corrections of the plane section.
    pub iterations: usize,
    /// Corrections of the temperatures.
    pub heat_iterations: usize,
    /// Times a step was halved.
    pub cuts: usize,
}

/// A section, welded.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripOutcome {
    /// Stage by stage.
    pub turns: Vec<StageOutcome>,
    /// At outer and inner seam.
    pub melted: [SeamMelted; 2],
    /// What it took.
    pub effort: StripEffort,
}

impl StripOutcome {
    /// What one turn adds at a seam.
    pub(crate) fn added(&self, turn: usize, seam: Seam) -> Pull {
        let now = self.turns.get(turn).map(|t| t.at(seam)).unwrap_or_default();
        let before = turn.checked_sub(1).and_then(|t| self.turns.get(t)).map(|t| t.at(seam));
        now.less(before.unwrap_or_default())
    }
}

/// Sums what the bars want, by seam and side.
pub(crate) fn pulls(
    section: &StripSection,
    grid: &CellGrid,
    points: &[Bilinear],
    bars: &Fibres,
    joined: &[f64],
) -> [[Pull; 2]; 2] {
    let mut pulls = [[Pull::default(); 2]; 2];
    for (quad, _) in grid.quads.iter().enumerate().filter(|(q, _)| bars.bears(*q)) {
        let piece = grid.quads[quad].piece;
        for bar in 4 * quad..4 * quad + 4 {
            let [z, y] = points[bar].at_mm;
            let seam = match piece {
                CellKind::Flange(seam) | CellKind::Fillet(seam, _) => seam,
                CellKind::Web => section.seam_at(y),
            };
            let plate = !matches!(piece, CellKind::Fillet(..));
            let force_n = bars.excess_n(bar, plate, joined[bar]);
            let pull = Pull { force_n, up_n_mm: force_n * section.y_mm(seam, y), near_n_mm: force_n * z };
            let sum = &mut pulls[seam as usize][usize::from(z < 0.0)];
            *sum = sum.plus(pull);
        }
    }
    pulls
}

impl StripEffort {
    /// Both.
    #[must_use]
    pub(crate) const fn plus(self, other: Self) -> Self {
        Self {
            unknowns: self.unknowns + other.unknowns,
            bars: self.bars + other.bars,
            steps: self.steps + other.steps,
            iterations: self.iterations + other.iterations,
            heat_iterations: self.heat_iterations + other.heat_iterations,
            cuts: self.cuts + other.cuts,
        }
    }
}
