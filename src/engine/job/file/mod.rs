//! The shape of a job file: what may be written, and nothing about whether it makes sense.
//!
//! The doc comments here become the descriptions in the JSON Schema, and the examples there are the ones
//! that complaints show. Every quantity is text with its unit.

mod assembly;
mod attachment;
mod demand;
mod hold;
mod learned;
mod limit;
mod member;
mod passes;
mod procedure;
mod slips;
mod steel;
mod stitch;
mod text;

pub use assembly::AssemblyShape;
pub use attachment::AttachmentShape;
pub use demand::DemandShape;
pub use hold::HoldShape;
pub(crate) use learned::take_in;
pub use learned::{ANY, LearnedFile, LearnedInput, LearnedJob, LearnedShape, Scope};
pub use limit::LimitShape;
pub use member::{End, FlangeShape, MadeShape, MemberShape, SpliceShape, WebEdges, WebShape};
pub use passes::{OrderShape, PartShape, PassShape, WaitShape};
pub use procedure::{ArcShape, ProcedureShape};
pub use steel::{OwnSteel, SteelShape};
pub use stitch::StitchShape;

use crate::input::{Beside, Form, KnownSlip, Problem, kept_schema, shape};
use crate::member::Seam;
use crate::units::{Angle, Length, System};
use serde_json::Value;
use std::collections::BTreeMap;

impl Form for JobFile {
    const WHAT: &'static str = "a job";
    const START: &'static str = "`weldbow new` writes one";

    kept_schema!(JobFile);

    fn known_slip(place: &str, found: &str, beside: &Value) -> Option<KnownSlip> {
        slips::known(place, found, beside)
    }

    fn beside(&mut self, read: &mut Beside<'_>) -> Result<(), Problem> {
        take_in(&mut self.learned, read)
    }
}

shape! {
    /// One member, its welds, and what is wanted of it.
    pub struct JobFile {
        /// What to call the member in tables and charts.
        pub title: Option<String> as "Rafter R2, riding arena",
        /// Units of the results: "si" or "us". The file itself may mix units freely.
        #[serde(default)]
        pub units: System as "si",
        /// Tolerance sets to judge by: "en-1090-2-class-1", "en-1090-2-class-2", "en-1090-2-essential", "aws-d1.1", "metal-building", or ISO 13920 with
        /// the class of lengths (a to d) and that of straightness (e to h), as "iso-13920-bf". Without this line: EN 1090-2
        /// class 1 for "si"; AWS D1.1 and the metal building tolerances for "us".
        pub tolerances: Option<Vec<String>> as ["en-1090-2-class-1"],
        /// Limits of your own, judged beside the standards.
        pub limits: LimitsShape = usual,
        /// Camber the finished member should have; straight without it.
        pub camber: Option<CamberShape>,
        /// Plates and shape.
        pub member: MemberShape,
        /// Shop procedures, each under a name of your own: `[procedure.twin-6]`.
        #[serde(default, rename = "procedure", skip_serializing_if = "BTreeMap::is_empty")]
        pub procedures: BTreeMap<String, ProcedureShape>,
        /// Weld passes, one `[[pass]]` for each weld laid along a seam.
        #[serde(default, rename = "pass", skip_serializing_if = "Vec::is_empty")]
        pub passes: Vec<PassShape>,
        /// Steps of the sequence, one `[[step]]` each (`[[order]]` in older files), where the plain rule (all parts tacked, cold in between) is not right.
        #[serde(default, rename = "step", alias = "order", skip_serializing_if = "Vec::is_empty")]
        pub orders: Vec<OrderShape>,
        /// What is welded across the member when its seams are cold, one `[[attachment]]` for each kind and size: stiffeners, cleats, plates
        /// on its ends. A splice stands with its plate.
        #[serde(default, rename = "attachment", skip_serializing_if = "Vec::is_empty")]
        pub attachments: Vec<AttachmentShape>,
        /// What the welds must carry, for `weldbow choose`.
        pub demand: Option<DemandShape>,
        /// What holds the joint. Without this table: a pull-through line, plates tacked at the leading end only, flanges pressed to
        /// the web by the rolls around the arc, free behind it. A root gap is `member.fit_up_gap`.
        pub hold: Option<HoldShape>,
        /// What pieces differ by because of assembly, beside welds and plates.
        pub assembly: AssemblyShape = usual,
        /// The welding line.
        pub line: Option<LineShape>,
        /// Multipliers on what the model computes, from a shop's own measurements or for a study.
        pub factors: FactorsShape = usual,
        /// What the shop's own measured pieces say: the file that `weldbow calibrate` wrote, from where this file lies.
        #[schemars(with = "Option<String>", example = &"learned.toml")]
        pub learned: Option<LearnedShape>,
        /// The shop's own relative standard deviations of what is unsure, in place of the usual ones (`weldbow scatter
        /// --inputs` lists them).
        pub scatter: BTreeMap<String, f64> = usual as { "force": 0.10 },
    }

    /// Limits of the user's own, each a length or a part of the member's length ("L/500").
    #[derive(Default)]
    pub struct LimitsShape {
        /// Largest in-plane bow, off the wanted camber.
        pub camber: Option<LimitShape> as "L/500",
        /// Largest sideways bow.
        pub sweep: Option<LimitShape> as "10 mm",
        /// Largest offset of a flange edge from the square line.
        pub flange_toe: Option<LimitShape> as "3 mm",
        /// Largest tilt of a flange, measured at its edges.
        pub flange_tilt: Option<LimitShape> as "3 mm",
        /// Largest cup of a flange, measured at its edges.
        pub flange_cup: Option<LimitShape> as "2 mm",
        /// Largest wave of the web to either side of its plane.
        pub web_flatness: Option<LimitShape> as "5 mm",
        /// Largest twist, as the offset over the depth of the section.
        pub twist: Option<LimitShape> as "5 mm",
        /// Largest error of length.
        pub length: Option<LimitShape> as "5 mm",
    }

    /// Camber the finished member should have: a parabola between the ends.
    pub struct CamberShape {
        /// Offset at mid-length.
        pub rise: Length as "20 mm",
        /// The flange it bows toward: "outer" or "inner".
        pub toward: Seam as "outer",
    }

    /// Multipliers on what the model computes; each is 1 if left out.
    #[derive(Default)]
    pub struct FactorsShape {
        /// On the shrinkage force of every pass.
        pub force: Option<f64> as 1.1,
        /// On that of the passes at the outer seam.
        pub outer_seam: Option<f64> as 1.05,
        /// On that of the passes at the inner seam.
        pub inner_seam: Option<f64> as 0.95,
        /// On what a second side laid later takes back of the sideways moment of the first at the outer seam.
        pub outer_second: Option<f64> as 1.1,
        /// On that at the inner seam.
        pub inner_second: Option<f64> as 0.9,
        /// On heat that is deduced from a leg.
        pub heat_from_leg: Option<f64> as 1.05,
        /// On the distance from the web plane at which a fillet pulls.
        pub arm: Option<f64> as 0.9,
        /// On what welds across the member shrink: attachments, and splices made after assembly.
        pub cross_welds: Option<f64> as 1.2,
        /// On the cup of the flanges.
        pub cup: Option<f64> as 1.2,
        /// On the tilt of the flanges.
        pub tilt: Option<f64> as 0.8,
        /// On what the fillets of the near side turn, beside `tilt`.
        pub near_tilt: Option<f64> as 1.1,
        /// On what the fillets of the far side turn, beside `tilt`.
        pub far_tilt: Option<f64> as 0.9,
    }

    /// Shop data of the welding line.
    pub struct LineShape {
        /// Its name in the shop's record, if the shop has several.
        pub name: Option<String> as "line 1",
        /// Steepest inclination of the inner flange that the weld heads follow; 15° without it.
        pub head_limit: Option<Angle> as "15 deg",
    }
}
