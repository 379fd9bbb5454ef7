//! What the shop cuts: pieces of web and flange plate, and the splices between them.

use super::{Delivered, Profile};
use crate::numerics::{Number, clone_in_place};
use crate::steel::Steel;
use serde::{Deserialize, Serialize};

/// One of the two edges of the web; names the seam along it and the flange welded there.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Seam {
    /// The straight side of the member, y = 0.
    Outer,
    /// The tapered side of the member, y = d(x).
    Inner,
}

impl Seam {
    /// Both, outer first.
    pub const BOTH: [Self; 2] = [Self::Outer, Self::Inner];

    /// "outer" or "inner".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Outer => "outer",
            Self::Inner => "inner",
        }
    }
}

/// Edge preparation of a butt splice between two pieces of plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Preparation {
    /// Square edges, one pass from each side.
    Square,
    /// Single V, 60° included, 2 mm root face.
    SingleV,
    /// Double V, 60° included, 2 mm root face at mid-thickness.
    DoubleV,
    /// Square edges with a gap over a backing strip, filled from one side.
    SquareBacked,
}

/// When a splice is welded.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Made {
    /// On the loose plates, which are flat and straight when the member is put together.
    #[default]
    Before,
    /// In the finished member, which it shortens and kinks.
    After {
        /// Length of seam left unwelded to each side until it is cold, mm.
        open_mm: f64,
    },
}

/// How a piece is joined to the next one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Splice {
    /// Edge preparation.
    pub preparation: Preparation,
    /// Root gap, mm.
    pub gap_mm: f64,
    /// Net heat of all passes together, J/mm of splice; `None` takes the room's own rule.
    pub heat_j_per_mm: Option<f64>,
    /// When it is welded.
    pub made: Made,
}

/// A stretch of web plate of one thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WebPiece {
    /// Where it starts, mm from the start end.
    pub from_mm: f64,
    /// Where it ends, mm from the start end.
    pub to_mm: f64,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Splice at its finish end; `None` on the last piece.
    pub splice: Option<Splice>,
    /// How it comes.
    pub comes: Delivered,
}

/// A stretch of flange plate of one size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlangePiece {
    /// Where it starts, mm from the start end.
    pub from_mm: f64,
    /// Where it ends, mm from the start end.
    pub to_mm: f64,
    /// Full width b, mm.
    pub width_mm: f64,
    /// Thickness t_f, mm.
    pub thickness_mm: f64,
    /// Splice at its finish end; `None` on the last piece.
    pub splice: Option<Splice>,
    /// How it comes.
    pub comes: Delivered,
}

/// The plates present at one x.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Plates<N = f64> {
    /// Web thickness t_w, mm.
    pub web_mm: N,
    /// Outer flange width and thickness, mm.
    pub outer_mm: (N, N),
    /// Inner flange width and thickness, mm.
    pub inner_mm: (N, N),
}

impl<N: Number> Plates<N> {
    /// Those of several cases side by side.
    #[cfg_attr(wide, inline(always))]
    pub fn of(each: impl Fn(usize) -> Plates) -> Self {
        Self {
            web_mm: N::of(|k| each(k).web_mm),
            outer_mm: (N::of(|k| each(k).outer_mm.0), N::of(|k| each(k).outer_mm.1)),
            inner_mm: (N::of(|k| each(k).inner_mm.0), N::of(|k| each(k).inner_mm.1)),
        }
    }

    /// Those of one case.
    #[cfg_attr(wide, inline(always))]
    pub fn nth(&self, index: usize) -> Plates {
        let flange = |(width, thickness): (N, N)| (width.nth(index), thickness.nth(index));
        Plates {
            web_mm: self.web_mm.nth(index),
            outer_mm: flange(self.outer_mm),
            inner_mm: flange(self.inner_mm),
        }
    }

    /// Width and thickness of the flange at that seam, mm.
    #[cfg_attr(wide, inline(always))]
    pub const fn flange_mm(&self, seam: Seam) -> (N, N) {
        match seam {
            Seam::Outer => self.outer_mm,
            Seam::Inner => self.inner_mm,
        }
    }
}

/// The unwelded member. Pieces are in order, touch each other and cover 0 … L exactly;
/// whoever builds a member keeps that promise.
#[derive(Debug, PartialEq)]
pub struct Member {
    /// Length L, mm.
    pub length_mm: f64,
    /// Clear web depth along x.
    pub depth: Profile,
    /// Web plates from start to finish.
    pub web: Vec<WebPiece>,
    /// Outer flange plates from start to finish.
    pub outer_flange: Vec<FlangePiece>,
    /// Inner flange plates from start to finish.
    pub inner_flange: Vec<FlangePiece>,
    /// Steel of all plates.
    pub steel: Steel,
}

clone_in_place! { Member: length_mm, depth, web, outer_flange, inner_flange, steel }

impl Member {
    /// Whether webs come wavy by different amounts: each does of which nobody says that it does not.
    pub(crate) fn webs_differ_in_waves(&self) -> bool {
        self.web.iter().any(|piece| piece.comes.waves_scatter_mm.is_none_or(|sd| sd > 0.0))
    }

    /// Whether any web is said to come wavy.
    pub(crate) fn webs_come_wavy(&self) -> bool {
        self.web.iter().any(|piece| piece.comes.waves_mm.is_some_and(|mm| mm > 0.0))
    }

    /// Flange pieces along that seam.
    pub fn flange(&self, seam: Seam) -> &[FlangePiece] {
        match seam {
            Seam::Outer => &self.outer_flange,
            Seam::Inner => &self.inner_flange,
        }
    }

    /// The same, to be varied.
    pub(crate) fn flange_mut(&mut self, seam: Seam) -> &mut [FlangePiece] {
        match seam {
            Seam::Outer => &mut self.outer_flange,
            Seam::Inner => &mut self.inner_flange,
        }
    }

    /// Plates present at x (mm). At a splice the piece that ends there is given.
    pub fn plates_at(&self, x_mm: f64) -> Plates {
        let flange = |pieces: &[FlangePiece]| {
            pick(pieces, x_mm, |p| p.to_mm).map_or((0.0, 0.0), |p| (p.width_mm, p.thickness_mm))
        };
        let web_mm = self.web_mm_at(x_mm);
        Plates { web_mm, outer_mm: flange(&self.outer_flange), inner_mm: flange(&self.inner_flange) }
    }

    /// Thickness of the web at x (mm), mm; at a splice that of the piece before it.
    pub(crate) fn web_mm_at(&self, x_mm: f64) -> f64 {
        pick(&self.web, x_mm, |p| p.to_mm).map_or(0.0, |p| p.thickness_mm)
    }

    /// Plates that meet at x (mm): of two pieces the thinner and the narrower, to which the other is tapered down (common practice). What
    /// is welded there goes by them, from whichever end the member is read.
    pub fn plates_meeting_at(&self, x_mm: f64) -> Plates {
        let (before, after) = (self.plates_at(x_mm), self.plates_at(x_mm.next_up()));
        let less = |a: (f64, f64), b: (f64, f64)| (a.0.min(b.0), a.1.min(b.1));
        Plates {
            web_mm: before.web_mm.min(after.web_mm),
            outer_mm: less(before.outer_mm, after.outer_mm),
            inner_mm: less(before.inner_mm, after.inner_mm),
        }
    }
}

fn pick<P>(pieces: &[P], x_mm: f64, to: impl Fn(&P) -> f64) -> Option<&P> {
    pieces.iter().find(|p| x_mm <= to(p)).or(pieces.last())
}
