//! A `[[chart]]` of a study file.

use crate::input::shape;
use schemars::JsonSchema;
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use std::fmt::{Formatter, Result as Written};

/// How a chart shows the table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
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

shape! {
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
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        pub member: bool,
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
