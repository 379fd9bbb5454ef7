//! The shape of a study file: what may be written, and nothing about whether it makes sense.
//!
//! A `[[chart]]` of a study file.

use crate::input::{Form, kept_schema, shape};
use crate::joint_solver::StressModel;
use crate::scatter::{Class, SamplingMethod};
use serde::Deserializer;
use serde::de::{Error, SeqAccess, Visitor};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::{Formatter, Result as Written};

impl Form for StudyFile {
    const WHAT: &'static str = "a study";
    const START: &'static str = "`weldbow new --study` writes one";

    kept_schema!(StudyFile);
}

shape! {
    /// A study: a job, what varies in it, what is collected, and the charts drawn from it.
    #[derive(Default)]
    pub struct StudyFile {
        /// Title for tables and charts.
        pub title: String as "Leg size against camber",
        /// What the reader should see, and why it is so.
        pub lesson: Option<String> as "A larger leg shrinks more: the camber grows with the heat.",
        /// The job that is varied: a file, from where this file is.
        pub job: String as "jobs/rafter.toml",
        /// Results to keep of every case.
        pub collect: Vec<String> as ["camber.max_mm"],
        /// What varies. Axes cross; the first turns slowest.
        pub vary: Vec<VaryShape> = usual,
        /// Draws cases from distributions.
        pub sample: Option<SampleShape>,
        /// Inputs that go together.
        pub correlate: Vec<CorrelateShape> = usual,
        /// Relative standard deviations of the usual inputs, in place of those of the job or the usual ones; 0 leaves an
        /// input out.
        pub scatter: BTreeMap<String, f64> = usual as { "force": 0.10 },
        /// How members are predicted: by formulas, or by the strip model, a second or so a case. An axis may turn it: `set = "level"`.
        pub level: LevelWord = usual as "formula",
        /// How joints are solved, where results named `section.…`, `formula.…` or `moving.…` are collected.
        pub section: JointShape = usual,
        /// Charts drawn from the table.
        #[serde(default, rename = "chart", skip_serializing_if = "Vec::is_empty")]
        pub charts: Vec<ChartSpec>,
    }

    /// How members are predicted.
    pub enum LevelWord {
        /// Shrinkage forces by formulas.
        #[default]
        Formula,
        /// Shrinkage forces from first principles, at stations along the member.
        Strip,
    }

    /// How the joints of every case are solved from first principles.
    #[derive(Default, Eq)]
    pub struct JointShape {
        /// Where along the member; mid-length without it.
        pub at: Option<String> as "4.5 m",
        /// How finely section and time are cut.
        #[serde(default)]
        pub mesh: MeshWord as "standard",
        /// Flange edges and web top are held until the hottest point is below this, `none` for never; until the weld is solid without it.
        pub hold: Option<String> as "500 °C",
        /// Whether the section may shorten and bend while hot.
        #[serde(default)]
        pub lengthwise: HeldWord as "free",
        /// Stress in all directions, or independent fibres: forces only, much faster.
        #[serde(default)]
        pub model: StressModel as "solid",
        /// Length of joint along which an arc travels, where results named `moving.…` are collected; 250 mm without it.
        pub travel: Option<String> as "250 mm",
    }

    /// How finely a section is cut.
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
    pub enum HeldWord {
        /// Never.
        #[default]
        Free,
        /// Always: the tendon force of a section much larger than its hot strip.
        Held,
    }

    /// One axis.
    #[derive(Default)]
    pub struct VaryShape {
        /// A place in the job; every match is set: `pass.leg`, `pass.outer.leg`, `inner_flange.thickness`, `depth.end`,
        /// `procedure.twin-6.travel_speed`, `factors.force`; `job` for whole jobs; or a setting of the study: `level`, `section.at`,
        /// `section.hold`, `section.mesh`, `section.lengthwise`, `section.model`.
        pub set: String as "pass.leg",
        /// What it is called on an axis. Left out: made from the place.
        pub words: Option<String> as "leg",
        /// The values, one after the other: quantities with units, names, or whole tables.
        pub values: Option<Vec<Value>> as ["4 mm", "6 mm"],
        /// Names for the values, where these are tables.
        pub labels: Option<Vec<String>> as ["one side", "both sides"],
        /// First of evenly spaced values.
        pub from: Option<Value> as "8 mm",
        /// Last of them.
        pub to: Option<Value> as "20 mm",
        /// How many of them.
        pub steps: Option<u32> as 7,
        /// Equal differences, or equal ratios.
        pub spacing: Option<Spacing> as "even",
        /// Axes with the same word here advance together instead of crossing.
        pub together: Option<String> as "balanced",
        /// The values multiply what stands in the job.
        pub times: bool = usual as true,
        /// With a distribution: every match draws for itself.
        pub each: bool = usual as true,
        /// With a distribution: whether it is the same for every piece, or differs from piece to piece (the usual case).
        pub class: Option<Class> as "scatter",
        /// Drawn from a normal distribution.
        pub normal: Option<NormalShape> as { "mean": "6 mm", "sd": "0.3 mm" },
        /// Drawn from a lognormal distribution.
        pub lognormal: Option<LognormalShape> as { "median": 1.0, "cov": 0.15 },
        /// Drawn evenly between two values.
        pub uniform: Option<UniformShape> as { "low": "5 mm", "high": "7 mm" },
        /// Drawn from a triangular distribution.
        pub triangular: Option<TriangularShape> as { "low": "5 mm", "mode": "6 mm", "high": "8 mm" },
    }

    /// How values are spaced.
    pub enum Spacing {
        /// Equal differences.
        #[default]
        Even,
        /// Equal ratios.
        Log,
    }

    /// A normal distribution.
    pub struct NormalShape {
        /// Mean.
        pub mean: Value as "6 mm",
        /// Standard deviation.
        pub sd: Value as "0.3 mm",
        /// Nothing below this.
        pub low: Option<Value> as "5 mm",
        /// Nothing above this.
        pub high: Option<Value> as "7 mm",
    }

    /// A lognormal distribution.
    pub struct LognormalShape {
        /// Median.
        pub median: Value as 1.0,
        /// Standard deviation over mean.
        pub cov: f64 as 0.15,
        /// Nothing below this.
        pub low: Option<Value> as 0.5,
        /// Nothing above this.
        pub high: Option<Value> as 2.0,
    }

    /// An even distribution.
    pub struct UniformShape {
        /// Lowest value.
        pub low: Value as "5 mm",
        /// Highest value.
        pub high: Value as "7 mm",
    }

    /// A triangular distribution.
    pub struct TriangularShape {
        /// Lowest value.
        pub low: Value as "5 mm",
        /// Most likely value.
        pub mode: Value as "6 mm",
        /// Highest value.
        pub high: Value as "8 mm",
    }

    /// How cases are drawn.
    pub struct SampleShape {
        /// Draws; with `pieces`, draws of what all pieces share.
        pub count: u64 as 2000,
        /// The same seed gives the same draws.
        #[serde(default)]
        pub seed: u64 as 7,
        /// How the draws are spread.
        #[serde(default)]
        pub plan: SamplingMethod as "latin",
        /// Pieces drawn for each draw of the bias, to tell model bias and scatter apart.
        #[serde(default = "one")]
        pub pieces: u64 as 50,
        /// Also draws what variance-based indices need: count × (inputs + 2) cases.
        pub indices: bool = usual as true,
        /// Adds the usual model bias and scatter as inputs (`weldbow scatter --inputs` lists them).
        pub usual: bool = usual as true,
    }

    /// Two inputs that go together.
    pub struct CorrelateShape {
        /// Their places, as `set` names them.
        pub between: (String, String) as ["pass.leg", "pass.heat_input"],
        /// Correlation of their normal scores, −1 to 1.
        pub rho: f64 as 0.7,
    }
}

const fn one() -> u64 {
    1
}

shape! {
    /// How a chart shows the table.
    pub enum ChartKind {
        /// y against x, one line a value of `by`.
        #[default]
        Lines,
        /// `y` as shades over `x` and `by`, with the contour where it reaches `limit`.
        Map,
        /// How often `x` takes which value, with limits and the part beyond them.
        Histogram,
        /// One dot a case: y against x, coloured by `by`.
        Scatter,
        /// How far each varied input moves `y`, the strongest on top.
        Tornado,
        /// Part of the variance of `y` each input brings, alone and with others.
        Shares,
    }

    /// What a chart shall show.
    #[derive(Default)]
    pub struct ChartSpec {
        /// How.
        pub kind: ChartKind,
        /// What the picture shows, in a few words; made up from the columns if left out.
        pub title: Option<String>,
        /// Column along the bottom.
        pub x: Option<String>,
        /// Column or columns up the side.
        #[serde(default, deserialize_with = "names", skip_serializing_if = "Vec::is_empty")]
        pub y: Vec<String>,
        /// Column whose values tell lines or colours apart.
        pub by: Option<String>,
        /// Column whose values each get a small picture of their own.
        pub panels: Option<String>,
        /// Column with the half width of a band about y (a "…_2s_mm" column).
        pub band: Option<String>,
        /// Column with a limit that y (of a histogram, x) must stay within, both ways.
        pub limit: Option<String>,
        /// Draws the member small beside the chart.
        pub member: bool = usual,
    }
}

/// One name, or a list of names.
fn names<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<String>, D::Error> {
    struct Names;

    impl<'de> Visitor<'de> for Names {
        type Value = Vec<String>;

        fn expecting(&self, f: &mut Formatter<'_>) -> Written {
            f.write_str("the name of a column, or a list of them")
        }

        fn visit_str<E: Error>(self, name: &str) -> Result<Vec<String>, E> {
            Ok(vec![name.to_owned()])
        }

        fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<String>, A::Error> {
            let mut names = Vec::new();
            while let Some(name) = list.next_element()? {
                names.push(name);
            }
            Ok(names)
        }
    }

    deserializer.deserialize_any(Names)
}
