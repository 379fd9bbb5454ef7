//! The shape of a study file: what may be written, and nothing about whether it makes sense.

use super::ChartSpec;
use crate::input::{Form, Schema, is_usual, shape};
use crate::joint_solver::StressModel;
use crate::scatter::{Class, SamplingMethod};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::LazyLock;

static SCHEMA: LazyLock<Schema> = LazyLock::new(Schema::of::<StudyFile>);

impl Form for StudyFile {
    const WHAT: &'static str = "a study";
    const START: &'static str = "`weldbow new --study` writes one";

    fn schema() -> &'static Schema {
        &SCHEMA
    }
}

shape! {
    /// A study: a job, what varies in it, what is collected, and the charts drawn from it.
    #[derive(Default)]
    pub struct StudyFile {
        /// Title for tables and charts.
        #[schemars(example = &"Leg size against camber")]
        pub title: String,
        /// What the reader should see, and why it is so.
        #[schemars(example = &"A larger leg shrinks more: the camber grows with the heat.")]
        pub lesson: Option<String>,
        /// The job that is varied: a file, from where this file is.
        #[schemars(example = &"jobs/rafter.toml")]
        pub job: String,
        /// Results to keep of every case.
        #[schemars(example = serde_json::json!(["camber.max_mm"]))]
        pub collect: Vec<String>,
        /// What varies. Axes cross; the first turns slowest.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub vary: Vec<VaryShape>,
        /// Draws cases from distributions.
        pub sample: Option<SampleShape>,
        /// Inputs that go together.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub correlate: Vec<CorrelateShape>,
        /// Relative standard deviations of the usual inputs, in place of those of the job or the usual ones; 0 leaves an
        /// input out.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        #[schemars(example = serde_json::json!({ "force": 0.10 }))]
        pub scatter: BTreeMap<String, f64>,
        /// How members are predicted: by formulas, or by the strip model, a second or so a case. An axis may turn it: `set = "level"`.
        #[serde(default, skip_serializing_if = "is_usual")]
        #[schemars(example = &"formula")]
        pub level: LevelWord,
        /// How joints are solved, where results named `section.…`, `formula.…` or `moving.…` are collected.
        #[serde(default, skip_serializing_if = "is_usual")]
        pub section: JointShape,
        /// Charts drawn from the table.
        #[serde(default, rename = "chart", skip_serializing_if = "Vec::is_empty")]
        pub charts: Vec<ChartSpec>,
    }
}

/// How members are predicted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LevelWord {
    /// Shrinkage forces by formulas.
    #[default]
    Formula,
    /// Shrinkage forces from first principles, at stations along the member.
    Strip,
}

shape! {
    /// How the joints of every case are solved from first principles.
    #[derive(Default, Eq)]
    pub struct JointShape {
        /// Where along the member; mid-length without it.
        #[schemars(example = &"4.5 m")]
        pub at: Option<String>,
        /// How finely section and time are cut.
        #[serde(default)]
        #[schemars(example = &"standard")]
        pub mesh: MeshWord,
        /// Flange edges and web top are held until the hottest point is below this, `none` for never; until the weld is solid without it.
        #[schemars(example = &"500 °C")]
        pub hold: Option<String>,
        /// Whether the section may shorten and bend while hot.
        #[serde(default)]
        #[schemars(example = &"free")]
        pub lengthwise: HeldWord,
        /// Stress in all directions, or independent fibres: forces only, much faster.
        #[serde(default)]
        #[schemars(example = &"solid")]
        pub model: StressModel,
        /// Length of joint along which an arc travels, where results named `moving.…` are collected; 250 mm without it.
        #[schemars(example = &"250 mm")]
        pub travel: Option<String>,
    }
}

/// How finely a section is cut.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MeshWord {
    /// Two elements along a leg.
    #[default]
    Coarse,
    /// Four.
    Standard,
    /// Eight, and shorter steps.
    Fine,
}

/// How a section is held lengthwise.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum HeldWord {
    /// Never.
    #[default]
    Free,
    /// Always: the tendon force of a section much larger than its hot strip.
    Held,
}

shape! {
    /// One axis.
    #[derive(Default)]
    pub struct VaryShape {
        /// A place in the job; every match is set: `pass.leg`, `pass.outer.leg`, `inner_flange.thickness`, `depth.end`,
        /// `procedure.twin-6.travel_speed`, `factors.force`; `job` for whole jobs; or a setting of the study: `level`, `section.at`,
        /// `section.hold`, `section.mesh`, `section.lengthwise`, `section.model`.
        #[schemars(example = &"pass.leg")]
        pub set: String,
        /// What it is called on an axis. Left out: made from the place.
        #[schemars(example = &"leg")]
        pub words: Option<String>,
        /// The values, one after the other: quantities with units, names, or whole tables.
        #[schemars(example = serde_json::json!(["4 mm", "6 mm"]))]
        pub values: Option<Vec<Value>>,
        /// Names for the values, where these are tables.
        #[schemars(example = serde_json::json!(["one side", "both sides"]))]
        pub labels: Option<Vec<String>>,
        /// First of evenly spaced values.
        #[schemars(example = &"8 mm")]
        pub from: Option<Value>,
        /// Last of them.
        #[schemars(example = &"20 mm")]
        pub to: Option<Value>,
        /// How many of them.
        #[schemars(example = &7)]
        pub steps: Option<u32>,
        /// Equal differences, or equal ratios.
        #[schemars(example = &"even")]
        pub spacing: Option<Spacing>,
        /// Axes with the same word here advance together instead of crossing.
        #[schemars(example = &"balanced")]
        pub together: Option<String>,
        /// The values multiply what stands in the job.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        #[schemars(example = &true)]
        pub times: bool,
        /// With a distribution: every match draws for itself.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        #[schemars(example = &true)]
        pub each: bool,
        /// With a distribution: whether it is the same for every piece, or differs from piece to piece (the usual case).
        #[schemars(example = &"scatter")]
        pub class: Option<Class>,
        /// Drawn from a normal distribution.
        #[schemars(example = serde_json::json!({ "mean": "6 mm", "sd": "0.3 mm" }))]
        pub normal: Option<NormalShape>,
        /// Drawn from a lognormal distribution.
        #[schemars(example = serde_json::json!({ "median": 1.0, "cov": 0.15 }))]
        pub lognormal: Option<LognormalShape>,
        /// Drawn evenly between two values.
        #[schemars(example = serde_json::json!({ "low": "5 mm", "high": "7 mm" }))]
        pub uniform: Option<UniformShape>,
        /// Drawn from a triangular distribution.
        #[schemars(example = serde_json::json!({ "low": "5 mm", "mode": "6 mm", "high": "8 mm" }))]
        pub triangular: Option<TriangularShape>,
    }
}

/// How values are spaced.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Spacing {
    /// Equal differences.
    #[default]
    Even,
    /// Equal ratios.
    Log,
}

shape! {
    /// A normal distribution.
    pub struct NormalShape {
        /// Mean.
        #[schemars(example = &"6 mm")]
        pub mean: Value,
        /// Standard deviation.
        #[schemars(example = &"0.3 mm")]
        pub sd: Value,
        /// Nothing below this.
        #[schemars(example = &"5 mm")]
        pub low: Option<Value>,
        /// Nothing above this.
        #[schemars(example = &"7 mm")]
        pub high: Option<Value>,
    }
}

shape! {
    /// A lognormal distribution.
    pub struct LognormalShape {
        /// Median.
        #[schemars(example = &1.0)]
        pub median: Value,
        /// Standard deviation over mean.
        #[schemars(example = &0.15)]
        pub cov: f64,
        /// Nothing below this.
        #[schemars(example = &0.5)]
        pub low: Option<Value>,
        /// Nothing above this.
        #[schemars(example = &2.0)]
        pub high: Option<Value>,
    }
}

/// An even distribution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UniformShape {
    /// Lowest value.
    #[schemars(example = &"5 mm")]
    pub low: Value,
    /// Highest value.
    #[schemars(example = &"7 mm")]
    pub high: Value,
}

/// A triangular distribution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TriangularShape {
    /// Lowest value.
    #[schemars(example = &"5 mm")]
    pub low: Value,
    /// Most likely value.
    #[schemars(example = &"6 mm")]
    pub mode: Value,
    /// Highest value.
    #[schemars(example = &"8 mm")]
    pub high: Value,
}

/// How cases are drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SampleShape {
    /// Draws; with `pieces`, draws of what all pieces share.
    #[schemars(example = &2000)]
    pub count: u64,
    /// The same seed gives the same draws.
    #[serde(default)]
    #[schemars(example = &7)]
    pub seed: u64,
    /// How the draws are spread.
    #[serde(default)]
    #[schemars(example = &"latin")]
    pub plan: SamplingMethod,
    /// Pieces drawn for each draw of the bias, to tell model bias and scatter apart.
    #[serde(default = "one")]
    #[schemars(example = &50)]
    pub pieces: u64,
    /// Also draws what variance-based indices need: count × (inputs + 2) cases.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[schemars(example = &true)]
    pub indices: bool,
    /// Adds the usual model bias and scatter as inputs (`weldbow scatter --inputs` lists them).
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    #[schemars(example = &true)]
    pub usual: bool,
}

const fn one() -> u64 {
    1
}

/// Two inputs that go together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CorrelateShape {
    /// Their places, as `set` names them.
    #[schemars(example = serde_json::json!(["pass.leg", "pass.heat_input"]))]
    pub between: (String, String),
    /// Correlation of their normal scores, −1 to 1.
    #[schemars(example = &0.7)]
    pub rho: f64,
}
