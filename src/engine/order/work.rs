//! The work on one quantity of one piece, from a full plan.

use super::Load;
use crate::member::{Member, Seam};
use crate::straighten::cautions::CautionFacts;
use crate::straighten::decide::{Action, Limits};
use crate::straighten::piece::Piece;
use crate::straighten::plan::{
    Block, BlockingLimit, Decision, Goals, Plan, StraighteningMethod, Task, Work, count_of, decisions, facts,
    lines_blocked, make, not_taken_back,
};
use crate::straighten::shape::OutOfStraight;
use crate::tolerance::Quantity;

/// What a plan works on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WorkKind {
    Toe(Seam),
    Sweep,
    Camber,
}

impl WorkKind {
    pub(super) const ALL: [Self; 4] =
        [Self::Toe(Seam::Outer), Self::Toe(Seam::Inner), Self::Sweep, Self::Camber];

    pub(super) const fn quantity(self) -> Quantity {
        match self {
            Self::Toe(_) => Quantity::FlangeToe,
            Self::Sweep => Quantity::Sweep,
            Self::Camber => Quantity::Camber,
        }
    }
}

/// What a full plan asks for.
#[derive(Debug, Clone, Default)]
pub(super) struct Planned {
    pub load: Load,
    /// Camber that lines of heat on a flange bring, mm.
    pub camber_mm: f64,
    /// What stands in the way, method by method, if none does it.
    pub blocks: Vec<Block>,
    /// What the cautions depend on; the force of a push is the most it can need.
    pub facts: Option<CautionFacts>,
    /// The piece, if pushes hold energy.
    pub piece: Option<OutOfStraight>,
}

impl Planned {
    /// Part of the way from this to another; what cannot be parted is that of the nearer.
    pub(crate) fn toward(&self, other: &Self, part: f64) -> Self {
        let nearer = if part < 0.5 { self } else { other };
        Self {
            load: self.load * (1.0 - part) + other.load * part,
            camber_mm: self.camber_mm + part * (other.camber_mm - self.camber_mm),
            blocks: nearer.blocks.clone(),
            facts: nearer.facts,
            piece: None,
        }
    }
}

/// What all pieces of a member share.
#[derive(Debug, Clone)]
pub(super) struct Basis {
    pub member: Member,
    /// A piece of it, its shape left out.
    pub piece: Piece,
}

impl Basis {
    pub(crate) fn task<'a>(&'a self, shape: &'a OutOfStraight) -> Task<'a> {
        Task { shape, ..self.piece.task(&self.member) }
    }

    /// What to do with each quantity: toe, sweep, camber.
    pub(super) fn decide(&self, shape: &OutOfStraight) -> Vec<Decision> {
        decisions(&self.task(shape))
    }

    /// Whether it is out of any limit, whatever measuring is sure to.
    pub(super) fn is_out(&self, shape: &OutOfStraight) -> bool {
        let surely = |limits: Limits| Limits { measuring_sd: 0.0, ..limits };
        let goals = self.piece.goals;
        let goals = Goals {
            toe: surely(goals.toe),
            cup: surely(goals.cup),
            tilt: surely(goals.tilt),
            sweep: surely(goals.sweep),
            camber: surely(goals.camber),
        };
        let task = Task { goals, ..self.task(shape) };
        decisions(&task).iter().any(|d| d.action == Action::Straighten)
    }

    /// Largest camber, mm with its sign; nothing if it is not limited.
    fn camber_mm(&self, shape: &OutOfStraight) -> f64 {
        let of_camber = |d: &&Decision| d.quantity == Quantity::Camber;
        self.decide(shape).iter().find(of_camber).map_or(0.0, |d| d.value_mm)
    }

    /// The block of lines of heat on a flange that would bring one camber to another which nothing takes back.
    pub(super) fn lines_blocked(&self, shapes: [&OutOfStraight; 2], blocks: &[Block]) -> Option<Block> {
        not_taken_back(shapes.map(|shape| self.camber_mm(shape)), blocks).map(lines_blocked)
    }

    /// A full plan of one quantity, everything else straight.
    pub(super) fn plan(&self, shape: &OutOfStraight, kind: WorkKind) -> Planned {
        let alone =
            shape.only(kind == WorkKind::Camber, kind == WorkKind::Sweep, |t| kind == WorkKind::Toe(t.seam));
        let task = self.task(&alone);
        let mut planned = self.summed(&task, &count_of(&task, kind.quantity()));
        if planned.facts.is_some_and(|f| f.stored_j > 0.0) {
            planned.piece = Some(alone);
        }
        planned
    }

    /// A full plan of a piece, with the ranges of its pushes.
    pub(super) fn whole(&self, shape: &OutOfStraight) -> Planned {
        let task = self.task(shape);
        self.summed(&task, &make(&task))
    }

    fn summed(&self, task: &Task<'_>, plan: &Plan) -> Planned {
        let mut out = Planned { facts: Some(facts(task, plan)), ..Planned::default() };
        for way in plan.chosen.iter().map(|c| &c.way) {
            let minutes = way.price.minutes;
            out.load.money += way.price.cost;
            match way.method {
                StraighteningMethod::OneRam | StraighteningMethod::TwoRams | StraighteningMethod::Roller => {
                    out.load.press_min += minutes
                }
                StraighteningMethod::VeeHeat | StraighteningMethod::LineHeat => out.load.heat_min += minutes,
            }
            out.load.still_out = 1.0 - (1.0 - out.load.still_out) * (1.0 - way.price.fails);
            for step in &way.steps {
                match &step.work {
                    Work::Push(_) => out.load.push_places += 1.0,
                    Work::Heats(series) => out.load.heats += f64::from(series.count()),
                    Work::Fold { .. } => out.load.runs += 1.0,
                    Work::Lines { passes, .. } => {
                        out.load.runs += f64::from(passes.count);
                        out.camber_mm += passes.camber_mm;
                    }
                }
            }
        }
        if let Some(blocked) = plan.blocked.first() {
            out.load.blocked = 1.0;
            out.blocks = told(&blocked.blocks);
        }
        let again = |d: &&Decision| matches!(d.action, Action::MeasureAgain | Action::AskEngineer);
        out.load += self.measuring(plan.decisions.iter().filter(again).count());
        out
    }

    /// Work of so many measurements again: minutes, and the money of the same minutes.
    pub(super) fn measuring(&self, again: usize) -> Load {
        let rates = &self.piece.shop.rates;
        let measure_min = rates.measure_min * again as f64;
        Load { measure_min, money: measure_min / 60.0 * rates.per_hour, ..Load::default() }
    }
}

/// The blocks to tell: those of tools the shop has; all of them if it has none.
fn told(blocks: &[Block]) -> Vec<Block> {
    let there: Vec<Block> = blocks.iter().filter(|b| b.limit != BlockingLimit::NoTool).cloned().collect();
    if there.is_empty() { blocks.to_vec() } else { there }
}
