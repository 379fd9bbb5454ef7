//! Results of one joint of the member, by the section solved from first principles and by the formulas: what a study that
//! derives a constant anew collects.

use super::file::{HeldWord, JointShape, MeshWord};
use crate::input::Problem;
use crate::joint_solver::Lengthwise;
use crate::member::Seam;
use crate::prediction::Job;
use crate::units::{Kind, read};
use crate::verification::{Case, HotHold, LayerNumbers, Meshing, Options, moving, travel_of, verify};

/// Length of joint that an arc travels along unless the file says it, mm (a choice: beyond 250 mm angles change by 6 %).
const USUAL_TRAVEL_MM: f64 = 250.0;

/// Which joints of every case are solved, where and how.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Joints {
    seams: [bool; 2],
    /// Of these, those along which an arc travels too.
    travels: [bool; 2],
    travel_mm: f64,
    at_mm: Option<f64>,
    options: Options,
}

/// Whose numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumbersOf {
    /// The section's.
    Section,
    /// The formulas'.
    Formula,
    /// Those of an arc that travels along the joint.
    Moving,
}

impl NumbersOf {
    /// All, as names of results have them.
    pub const ALL: [(&'static str, Self); 3] =
        [("section", Self::Section), ("formula", Self::Formula), ("moving", Self::Moving)];

    /// How an axis names it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Section => "section",
            Self::Formula => "formula",
            Self::Moving => "travelling arc",
        }
    }
}

/// After which passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum After {
    /// The first of the joint.
    First,
    /// All of them.
    Last,
}

impl After {
    /// Both, as names of results have them.
    pub const ALL: [(&'static str, Self); 2] = [("first", Self::First), ("last", Self::Last)];
}

/// A result of a joint: its name, words for an axis, unit, and how it is read; the second argument is the heat of one
/// fillet, J/mm.
pub(super) type JointResult = (&'static str, &'static str, &'static str, fn(&LayerNumbers, f64) -> f64);

/// What can be collected of a joint.
pub(crate) const PARTS: &[JointResult] = &[
    ("force_n", "force", "N", |n, _| n.force_n),
    ("force_per_heat_n_mm_per_j", "force over heat", "N mm/J", |n, q| n.force_n / q),
    ("across_mm", "arm of the force", "mm", |n, _| n.across_mm.unwrap_or(f64::NAN)),
    ("cup_rad", "cup", "rad", |n, _| n.cup_rad.unwrap_or(f64::NAN)),
    ("tilt_rad", "tilt", "rad", |n, _| n.tilt_rad.unwrap_or(f64::NAN)),
    ("narrowing_mm", "narrowing", "mm", |n, _| n.narrowing_mm.unwrap_or(f64::NAN)),
];

/// Numbers of one joint.
#[derive(Debug, Clone, Copy)]
pub struct JointNumbers {
    /// After the first and the last pass, by each source; the travelling arc only where it is wanted.
    after: [[Option<LayerNumbers>; 3]; 2],
    heat_j_per_mm: f64,
}

impl JointNumbers {
    /// One result; no number of a source that was not asked.
    pub fn read(&self, source: NumbersOf, after: After, part: fn(&LayerNumbers, f64) -> f64) -> f64 {
        let numbers = self.after[after as usize][source as usize];
        numbers.map_or(f64::NAN, |numbers| part(&numbers, self.heat_j_per_mm))
    }
}

impl Joints {
    /// Joints of these seams, an arc travelling along some of them, solved as the file says.
    pub(crate) fn new(
        seams: [bool; 2],
        travels: [bool; 2],
        shape: &JointShape,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let mut quantity = |field: &str, kind, text: &Option<String>, example: &str| {
            let text = text.as_deref()?;
            let wrong = |wanted: String| {
                let problem = Problem::new(format!("section.{field}"), format!("`{text}`"), wanted);
                problem.example(format!("{field} = \"{example}\""))
            };
            read(kind, text).map_err(|error| problems.push(wrong(error.to_string()))).ok()
        };
        let at_mm = quantity("at", Kind::Length, &shape.at, "4.5 m");
        let travel_mm = quantity("travel", Kind::Length, &shape.travel, "250 mm").unwrap_or(USUAL_TRAVEL_MM);
        let hold = match shape.hold.as_deref() {
            Some("none") => HotHold::None,
            Some("solid") => HotHold::SOLID,
            _ => quantity("hold", Kind::Temperature, &shape.hold, "500 °C")
                .map_or(Options::default().hold, HotHold::Until),
        };
        let options = Options {
            hold,
            meshing: match shape.mesh {
                MeshWord::Coarse => Meshing::Coarse,
                MeshWord::Standard => Meshing::Standard,
                MeshWord::Fine => Meshing::Fine,
            },
            lengthwise: match shape.lengthwise {
                HeldWord::Free => Lengthwise::Free,
                HeldWord::Held => Lengthwise::Held,
            },
            model: shape.model,
            times_s: Vec::new(),
            quick: true,
            ..Options::default()
        };
        Self { seams, travels, travel_mm, at_mm, options }
    }

    /// Solves them for one job.
    ///
    /// # Errors
    /// Why a joint cannot be solved.
    pub(crate) fn solve(&self, job: &Job) -> Result<[Option<JointNumbers>; 2], String> {
        let at_mm = self.at_mm.unwrap_or(0.5 * job.member.length_mm);
        let mut out = [None; 2];
        for (k, (seam, out)) in Seam::BOTH.into_iter().zip(&mut out).enumerate() {
            if !self.seams[k] {
                continue;
            }
            let case = Case::of(job, at_mm, seam, &self.options).map_err(|error| error.to_string())?;
            let solved = verify(&case, &self.options).map_err(|error| error.to_string())?;
            let arc = if self.travels[k] { self.travelled(&case)? } else { Vec::new() };
            let passes = &solved.result.passes;
            if let (Some(first), Some(last)) = (passes.first(), passes.last()) {
                *out = Some(JointNumbers {
                    after: [(first, arc.first()), (last, arc.last())]
                        .map(|(pass, arc)| [Some(pass.section), Some(pass.formula), arc.copied()]),
                    heat_j_per_mm: first.beads.iter().map(|b| b.heat_j_per_mm).fold(0.0, f64::max),
                });
            }
        }
        Ok(out)
    }

    /// What an arc that travels along the joint leaves amid it, pass by pass.
    fn travelled(&self, case: &Case) -> Result<Vec<LayerNumbers>, String> {
        let asked = travel_of(case, self.options.meshing, self.travel_mm);
        let moved = moving(case, &self.options, &asked, &mut |_| true).map_err(|error| error.to_string())?;
        Ok(moved.numbers())
    }
}
