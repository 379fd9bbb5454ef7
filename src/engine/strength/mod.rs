//! What a web-to-flange weld must carry, what a fillet carries, and the sizes codes ask for.
//!
//! * `demand`: shear and moment along the member → shear flow at each seam, with the taper in it.
//! * `code`: design strengths of a fillet and of the plates beside it, by the code the engineer names.
//! * `warmth`: how warm the steel must be, by the table of `preheat` or by the composition of the plates.
//! * `minimum`, `single_pass`, `one_sided`, `preheat`, `stitch`: rules as data, one row a rule, each with clause, edition and how
//!   it is known.
//!
//! Units: N, mm, MPa. A strength check here serves to choose a weld to study; the design stays with the engineer.
//!
//! **To add a rule**: one row in a `const` table: `MINIMUMS` (smallest leg by thickness), `LARGEST` (one pass, by process and
//! position), `ONE_SIDED`, `STITCHES`; each with standard, edition, clause and `Trust`. A minimum gets a name a job can write in
//! `demand.minimums`, and its own table's entries go into `reference-cases/web_flange_welds.toml`. A rule of a new kind acts in
//! `choose/requirement.rs` (what a stretch needs or may not have) and in `choose/practice.rs` (whether today's passes break it).

mod code;
mod demand;
mod minimum;
mod one_sided;
mod preheat;
mod single_pass;
mod stitch;
mod warmth;

pub use code::{Code, Electrode, Strengths};
pub use demand::{Demand, Flow, Moment, flow_at, q_over_i};
pub(crate) use minimum::{MINIMUMS, Needed, needed_leg};
pub use minimum::{Minimum, minimum};
pub use one_sided::Service;
pub(crate) use one_sided::one_sided_blocks;
pub(crate) use preheat::SHOP_WARM_C;
pub use preheat::{PreheatRow, cet, preheat_by_cet_c, preheat_by_table};
pub use single_pass::Position;
pub(crate) use single_pass::{LEG_OVER_PLATE, SAME_LEG_MM, largest_pass};
pub(crate) use stitch::{StitchRule, stitch_rule};
pub(crate) use warmth::{Deposited, USUAL_HYDROGEN, Warmth};

use crate::tolerance::Trust;

/// Where a rule comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct Origin {
    /// Standard or other work, without its year.
    pub standard: &'static str,
    /// Edition the clause number belongs to.
    pub edition: &'static str,
    /// Clause or table.
    pub clause: &'static str,
    /// How it is known.
    pub trust: Trust,
}

impl Origin {
    /// Of a clause.
    const fn of(standard: &'static str, edition: &'static str, clause: &'static str, trust: Trust) -> Self {
        Self { standard, edition, clause, trust }
    }

    /// The same with its mark where it was not read: "EN 1993-1-8:2005 4.5.2 (memory)".
    pub(crate) fn marked(&self) -> String {
        match self.trust.mark() {
            "" => self.words(),
            mark => format!("{} ({mark})", self.words()),
        }
    }

    /// "AISC 360-22 Table J2.4".
    pub fn words(&self) -> String {
        let joint = match (self.edition, self.standard.starts_with("EN") || self.standard.starts_with("AWS"))
        {
            ("", _) => "",
            (_, true) => ":",
            (_, false) => "-",
        };
        format!("{}{joint}{} {}", self.standard, self.edition, self.clause).trim().to_owned()
    }
}
