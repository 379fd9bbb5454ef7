//! How plates come to the line: how the long edges of a strip were made, and how far it is from straight before anything is
//! welded to it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How the long edges of a strip of flange were made.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Edges {
    /// Nothing is said: strips as a shop usually gets them.
    #[default]
    NotSaid,
    /// A flat as rolled.
    AsRolled,
    /// Sheared from plate.
    Sheared,
    /// Slit from coil.
    Slit,
    /// Both edges cut by flame or plasma at once, so that they shrink alike.
    ThermallyCut,
    /// Only the near edge cut by flame or plasma: the strip comes hollow on that side.
    ThermallyCutNear,
    /// Only the far edge cut by flame or plasma.
    ThermallyCutFar,
    /// One edge cut by flame or plasma, nobody knows which.
    ThermallyCutOneEdge,
}

impl Edges {
    /// Whether any edge was cut hot.
    pub const fn are_hot(self) -> bool {
        !matches!(self, Self::NotSaid | Self::AsRolled | Self::Sheared | Self::Slit)
    }

    /// Edges that carry the shrinkage of a hot cut: near and far; that of an unknown side counts half on each.
    pub const fn hot(self) -> [f64; 2] {
        match self {
            Self::NotSaid | Self::AsRolled | Self::Sheared | Self::Slit => [0.0, 0.0],
            Self::ThermallyCut => [1.0, 1.0],
            Self::ThermallyCutNear => [1.0, 0.0],
            Self::ThermallyCutFar => [0.0, 1.0],
            Self::ThermallyCutOneEdge => [0.5, 0.5],
        }
    }
}

/// How a piece of plate comes. Bows are offsets at the middle of the piece over its length, from the line between its ends:
/// of a flange + toward the near side, of a web + toward the inner flange.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Delivered {
    /// How its edges were made; of a web the job says it for all.
    pub edges: Edges,
    /// Bow, mm/m; by its edges if nothing is said.
    pub bow_mm_per_m: Option<f64>,
    /// Standard deviation of the bow from piece to piece, mm/m; by its edges if nothing is said.
    pub(crate) scatter_mm_per_m: Option<f64>,
    /// Of a web: how far its middle stands off a straightedge laid across its depth, mm, without sign; flat if nothing is said.
    pub waves_mm: Option<f64>,
    /// Of a web: standard deviation of that from piece to piece, mm; by its thickness if nothing is said.
    pub(crate) waves_scatter_mm: Option<f64>,
}

impl Delivered {
    /// Straight and flat, every piece of it.
    pub const STRAIGHT: Self = Self {
        edges: Edges::NotSaid,
        bow_mm_per_m: Some(0.0),
        scatter_mm_per_m: Some(0.0),
        waves_mm: Some(0.0),
        waves_scatter_mm: Some(0.0),
    };
}
