//! Arguments of the travelling arc.

use crate::cli::one_of::{Word, one_of};
use crate::cli::section::asked;
use crate::moving_arc::{Foot, Grip, Travel};
use crate::verification::{Case, Meshing, travel_of};
use crate::welding::Side;

/// How web and flange meet.
const FEET: &[Word<Foot>] = &[
    ("one-piece", Foot::OnePiece, "They are one, as tacks at short spacing leave them"),
    ("touching", Foot::Touching, "They touch and may part until welded"),
    ("apart", Foot::Apart, "A gap between them until welded"),
];

/// What holds flange and web; how far rolls reach is another argument.
const HOLDS: &[Word<Grip>] = &[
    ("free", Grip::Free, "Nothing but six supports"),
    ("guided", Grip::Guided, "The far edge of the web is guided"),
    ("square", Grip::Square, "Flange edges and web are held square until cold, then let go"),
    ("rolls", Grip::Rolls(0.0), "Rolls travel with the arc and keep flange and web square there"),
];

/// Sides of the web that tacks are on: one, or both.
type TackSides = &'static [Side];

const TACK_SIDES: &[Word<TackSides>] = &[
    ("both", &[Side::Near, Side::Far], "Both sides"),
    ("near", &[Side::Near], "The near side"),
    ("far", &[Side::Far], "The far side"),
];

/// Arguments of the travelling arc.
#[derive(Debug, clap::Args)]
pub(crate) struct Moving {
    /// Let the arc travel along a length of the first joint asked for, instead of solving one slice (half a minute, minutes when fine);
    /// how a slice is held, its root and times do not matter then
    #[arg(long, conflicts_with = "every")]
    pub(crate) moving: bool,
    /// Length of joint
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "300mm", requires = "moving")]
    length: f64,
    /// How web and flange meet before they are welded
    #[arg(long, value_parser = one_of(FEET), default_value = "one-piece", requires = "moving")]
    foot: Foot,
    /// A stretch tacked beforehand, such as 0mm..30mm; may be given several times
    #[arg(long, value_name = "FROM..TO", value_parser = stretch, requires = "moving")]
    tack: Vec<Stretch>,
    /// Side of the tacks
    #[arg(long, value_parser = one_of(TACK_SIDES), default_value = "both", requires = "moving")]
    tack_side: TackSides,
    /// What holds flange and web
    #[arg(long, value_parser = one_of(HOLDS), default_value = "free", requires = "moving")]
    grip: Grip,
    /// How far rolls reach before and behind the arc
    #[arg(long, value_name = "L", value_parser = asked::step, default_value = "60mm", requires = "moving")]
    reach: f64,
    /// Slices [default: one every 15 mm; every 25 mm when coarse, every 8 mm when fine]
    #[arg(long, value_name = "N", requires = "moving")]
    slices: Option<usize>,
}

/// A stretch of joint: from, to, mm.
type Stretch = (f64, f64);

fn stretch(text: &str) -> Result<Stretch, String> {
    let (from, to) = text
        .split_once("..")
        .ok_or_else(|| format!("a tack runs from..to, such as 0mm..30mm; {text} does not"))?;
    let (from, to) = (asked::length(from)?, asked::length(to)?);
    if to > from { Ok((from, to)) } else { Err(format!("a tack ends behind its start; {text} does not")) }
}

impl Moving {
    /// How the arc is to travel on that joint.
    pub(crate) fn travel(&self, case: &Case, meshing: Meshing) -> Travel {
        let grip = match self.grip {
            Grip::Rolls(_) => Grip::Rolls(self.reach),
            fixed => fixed,
        };
        let usual = travel_of(case, meshing, self.length);
        Travel {
            foot: self.foot,
            tacks_mm: self.tack.iter().map(|&(from, to)| [from, to]).collect(),
            tack_sides: self.tack_side.to_vec(),
            grip,
            slices: self.slices.unwrap_or(usual.slices),
            ..usual
        }
    }
}
