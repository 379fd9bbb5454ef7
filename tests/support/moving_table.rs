//! Joints with a moving arc in three dimensions (`reference-cases/moving_arc.csv`, own script), as cases and by the laws.

#![allow(dead_code, missing_docs)]

use weldbow::angular::both_sides::{Angles, Fillet, JointFillets, WebFoot, angles, narrowing_together_mm};
use weldbow::angular::cup::FoldingHeat;
use weldbow::angular::hold::Hold;
use weldbow::joint_solver::{Joint, Root};
use weldbow::member::Seam;
use weldbow::shrinkage::tendon::heat_parameter;
use weldbow::shrinkage::transverse::flange_narrowing_mm;
use weldbow::verification::{Case, CaseFillet, Layer};
use weldbow::welding::{Side, Wait, fillet::deposit_mm2};

const TABLE: &str = include_str!("../../reference-cases/moving_arc.csv");
/// The same columns of joints by slices with a travelling arc, over the whole range of plates and heats.
const RANGE: &str = include_str!("../../reference-cases/moving_range.csv");

/// Cup of a joint of that length over that of one 600 mm long, as in `moving_arc.py`.
const SHORT: [(f64, f64); 5] = [(200.0, 0.901), (248.0, 0.935), (300.0, 0.957), (400.0, 0.986), (600.0, 1.0)];

/// A row, its cells in the order of the table.
#[derive(Clone)]
pub(crate) struct Row {
    cells: Vec<String>,
    /// How often it counts in a fit, as in `moving_arc.py`.
    pub(crate) weight: f64,
}

/// A joint in three dimensions counts as four by slices, whose mesh is worth twice as much.
const TABLE_WEIGHT: f64 = 2.0;

/// Every row of the table.
pub(crate) fn table() -> Vec<Row> {
    rows(TABLE).map(|row| Row { weight: TABLE_WEIGHT, ..row }).collect()
}

/// Every joint of the range, by slices.
pub(crate) fn range() -> Vec<Row> {
    rows(RANGE).collect()
}

fn rows(text: &str) -> impl Iterator<Item = Row> {
    text.lines().filter(|line| !line.starts_with('#')).skip(1).map(Row::of)
}

/// A cup of a joint of that length as if it were 600 mm long.
pub(crate) fn as_if_long(cup: f64, length_mm: f64) -> f64 {
    cup / SHORT.iter().find(|s| s.0 >= length_mm).map_or(1.0, |s| s.1)
}

/// The joint of a 6 mm web that the laws were fitted to, of that flange and heat.
pub(crate) fn fitted_like(table: &[Row], flange: f64, heat: f64) -> &Row {
    let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let is = |r: &&Row| r.fitted() && same(r.web(), 6.0) && same(r.flange(), flange) && same(r.heat(), heat);
    table.iter().find(is).unwrap_or_else(|| panic!("no joint of {flange} mm, {heat} J/mm"))
}

impl Row {
    fn of(line: &str) -> Self {
        let cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        assert_eq!(cells.len(), 15, "{line}");
        Self { cells, weight: 1.0 }
    }

    /// A joint that is not in the table: 300 mm of a web and legs of 6 mm.
    pub(crate) fn usual(laid: &str, heat: f64, flange: f64) -> Self {
        Self::of(&format!("{laid},{heat},12,300,{flange},6,6,one piece,none,355,none,no,0,0,0"))
    }

    pub(crate) fn foot_is(self, word: &str) -> Self {
        self.with(7, word)
    }

    pub(crate) fn tacked_at(self, word: &str) -> Self {
        self.with(8, word)
    }

    pub(crate) fn changed(self, word: &str) -> Self {
        self.with(10, word)
    }

    pub(crate) fn long(self, length_mm: &str) -> Self {
        self.with(3, length_mm)
    }

    fn with(mut self, k: usize, cell: &str) -> Self {
        cell.clone_into(&mut self.cells[k]);
        self
    }

    fn number(&self, k: usize) -> f64 {
        self.cells[k].parse().unwrap_or_else(|_| panic!("{} in column {k}", self.cells[k]))
    }

    pub(crate) fn laid(&self) -> &str {
        &self.cells[0]
    }
    pub(crate) fn heat(&self) -> f64 {
        self.number(1)
    }
    pub(crate) fn speed(&self) -> f64 {
        self.number(2)
    }
    pub(crate) fn length(&self) -> f64 {
        self.number(3)
    }
    pub(crate) fn flange(&self) -> f64 {
        self.number(4)
    }
    pub(crate) fn web(&self) -> f64 {
        self.number(5)
    }
    pub(crate) fn leg(&self) -> f64 {
        self.number(6)
    }
    pub(crate) fn foot(&self) -> &str {
        &self.cells[7]
    }
    pub(crate) fn tacks(&self) -> &str {
        &self.cells[8]
    }
    pub(crate) fn tacked(&self) -> bool {
        self.tacks() != "none"
    }
    pub(crate) fn yield_mpa(&self) -> f64 {
        self.number(9)
    }
    pub(crate) fn change(&self) -> &str {
        &self.cells[10]
    }
    pub(crate) fn fitted(&self) -> bool {
        self.cells[11] == "yes"
    }
    /// Whether it was kept back from the fit, to test the laws.
    pub(crate) fn kept_back(&self) -> bool {
        self.cells[11] == "kept"
    }
    /// As the table has it, mrad.
    pub(crate) fn cup(&self) -> f64 {
        self.number(12)
    }
    /// As if the joint were 600 mm long, mrad.
    pub(crate) fn long_cup(&self) -> f64 {
        as_if_long(self.cup(), self.length())
    }
    pub(crate) fn tilt(&self) -> f64 {
        self.number(13)
    }
    pub(crate) fn narrowing(&self) -> f64 {
        self.number(14)
    }

    /// q of one fillet, J/mm³.
    pub(crate) fn q(&self) -> f64 {
        heat_parameter(self.heat(), self.flange(), self.web())
    }

    /// What folds its flange before anything cools.
    pub(crate) fn folding(&self) -> FoldingHeat {
        let one = FoldingHeat::of(self.q(), self.web(), self.leg());
        if self.laid() == "both at once" { one.beside(one) } else { one }
    }

    fn fillets(&self) -> JointFillets {
        let one = Fillet {
            heat_j_per_mm: self.heat(),
            q_j_per_mm3: self.q(),
            leg_mm: self.leg(),
            welded_fraction: 1.0,
            folded: 1.0,
        };
        let far = (self.laid() != "one side").then_some(one);
        let lag = if self.laid() == "both at once" { 0.0 } else { f64::INFINITY };
        JointFillets { near: Some(one), far, near_first: true, lag }
    }

    /// By the laws, held so: cup and tilt in mrad.
    pub(crate) fn law_held(&self, hold: Hold) -> Angles {
        self.law_over(hold, 0.0)
    }

    /// By the laws, free, over a gap that never closes.
    pub(crate) fn law_apart(&self) -> Angles {
        self.law_over(Hold::NOTHING, f64::MAX)
    }

    fn law_over(&self, hold: Hold, gap_mm: f64) -> Angles {
        let foot = WebFoot { thickness_mm: self.web(), gap_mm, hold };
        angles(&self.fillets(), &foot).times(1e3, 1e3, [1.0; 2])
    }

    /// By the laws, free.
    pub(crate) fn law(&self) -> Angles {
        self.law_held(Hold::NOTHING)
    }

    pub(crate) fn law_narrowing(&self) -> f64 {
        let sides = if self.laid() == "one side" { 1.0 } else { 2.0 };
        sides * flange_narrowing_mm(self.heat(), self.flange(), self.leg())
            + narrowing_together_mm(&self.fillets(), self.flange())
    }

    /// Its line, with cup, tilt (mrad) and narrowing (mm) as found anew.
    pub(crate) fn line(&self, [cup, tilt, narrowing]: [f64; 3]) -> String {
        let tilt = (1e3 * tilt).round() / 1e3 + 0.0;
        format!("{},{cup:.3},{tilt},{narrowing:.4}", self.cells[..12].join(","))
    }

    /// "10 / 6 / 6,  600 J/mm, one side".
    pub(crate) fn named(&self) -> String {
        let (f, w, z) = (self.flange(), self.web(), self.leg());
        format!("{f:>2} / {w} / {z}, {:4} J/mm, {}", self.heat(), self.laid())
    }

    /// The joint with fillets on the sides that are welded.
    pub(crate) fn joint(&self) -> Joint {
        Joint {
            flange_width_mm: 180.0,
            flange_mm: self.flange(),
            web_mm: self.web(),
            web_stub_mm: if self.change().starts_with("web 100") { 100.0 } else { 200.0 },
            near_leg_mm: Some(self.leg()),
            far_leg_mm: (self.laid() != "one side").then(|| self.leg()),
            root: Root::Tied,
        }
    }

    /// One side of it as a section takes it.
    pub(crate) fn case(&self) -> Case {
        let bead = CaseFillet {
            side: Side::Near,
            leg_mm: self.leg(),
            heat_j_per_mm: self.heat(),
            deposit_mm2: deposit_mm2(self.leg(), 0.0),
            travel_speed_mm_s: self.speed(),
        };
        Case {
            seam: Seam::Inner,
            x_mm: 0.0,
            joint: Joint { far_leg_mm: None, ..self.joint() },
            layers: vec![Layer { order: 1, wait: Wait::Cold, beads: vec![bead] }],
            yield_mpa: self.yield_mpa(),
            start_c: 20.0,
            cautions: vec![],
        }
    }
}
