//! The plates of a member as a stack for bending in one direction.

use super::{LayeredSection, PlateLayer};
use crate::member::{Member, Plates, Seam};
use crate::steel::Steel;
use serde::Serialize;

/// Side of the member the ram pushes on; the member gives way to the other side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PushFrom {
    /// Ram on the outer flange: bends about the strong axis, takes away camber toward the outer side.
    Outer,
    /// Ram on the inner flange: takes away camber toward the inner side.
    Inner,
    /// Ram on the near flange edges: bends about the weak axis, takes away sweep toward the near side.
    Near,
    /// Ram on the far flange edges: takes away sweep toward the far side.
    Far,
}

impl PushFrom {
    /// Whether the member bends about its strong axis.
    pub const fn strong(self) -> bool {
        matches!(self, Self::Outer | Self::Inner)
    }

    /// + if the ram moves toward larger y or z.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Outer | Self::Far => 1.0,
            Self::Inner | Self::Near => -1.0,
        }
    }

    /// The side to push from to take away an offset (mm, sign of camber or sweep).
    pub fn against(offset_mm: f64, strong: bool) -> Self {
        match (strong, offset_mm > 0.0) {
            (true, true) => Self::Inner,
            (true, false) => Self::Outer,
            (false, true) => Self::Near,
            (false, false) => Self::Far,
        }
    }

    /// Flange whose outside the rams press, and the one whose outside stands on the supports; None where it is the edges of both.
    pub(crate) const fn faces(self) -> [Option<Seam>; 2] {
        match self {
            Self::Outer => [Some(Seam::Outer), Some(Seam::Inner)],
            Self::Inner => [Some(Seam::Inner), Some(Seam::Outer)],
            Self::Near | Self::Far => [None, None],
        }
    }

    /// "outer flange", "near flange edges" and so on.
    pub const fn place(self) -> &'static str {
        match self {
            Self::Outer => "outer flange",
            Self::Inner => "inner flange",
            Self::Near => "near edges of both flanges",
            Self::Far => "far edges of both flanges",
        }
    }
}

/// Stress left by the seams: tension at yield in a stretch of each plate beside each seam, even compression in
/// the rest of the plate, so that every plate balances by itself.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WeldStress {
    /// Width of flange in tension at each seam, mm.
    pub flange_mm: f64,
    /// Depth of web in tension at each seam, mm.
    pub web_mm: f64,
}

impl WeldStress {
    /// 30 mm of flange and 25 mm of web: the pattern of our own sensitivity study (choice; no measurement).
    pub const USUAL: Self = Self { flange_mm: 30.0, web_mm: 25.0 };

    /// The same, but at most 40 % of the flange and 40 % of the web all told, so that compression stays below
    /// yield (choice).
    fn in_plates(self, flange_mm: f64, depth_mm: f64) -> (f64, f64) {
        (self.flange_mm.clamp(0.0, 0.4 * flange_mm), self.web_mm.clamp(0.0, 0.2 * depth_mm))
    }
}

/// The stack at one place: clear web depth (mm), slope of the inner flange, pushed from that side.
///
/// A flange inclined by β has, along the member, cos²β of its stiffness on an area A·cos β; it yields at the same
/// stress along its own axis.
pub(super) fn stack(
    plates: &Plates,
    depth_mm: f64,
    slope: f64,
    from: PushFrom,
    steel: &Steel,
    weld: Option<WeldStress>,
) -> LayeredSection {
    let cos = 1.0 / slope.hypot(1.0);
    let inclined = [(Seam::Outer, 1.0), (Seam::Inner, cos)];
    let mut strips = Vec::with_capacity(8);
    for (seam, cos) in inclined {
        let (b, t) = plates.flange_mm(seam);
        let zone = weld.map_or(0.0, |w| w.in_plates(b, depth_mm).0);
        let rest = if zone > 0.0 { -zone / (b - zone) } else { 0.0 };
        let strip = |from_mm, to_mm, width_mm, locked| PlateLayer {
            stiffness: cos * cos,
            locked,
            ..PlateLayer::new(from_mm, to_mm, width_mm)
        };
        if from.strong() {
            let height = t / cos;
            let low = if seam == Seam::Outer { -height } else { depth_mm };
            let narrow = cos * cos;
            push(&mut strips, strip(low, low + height, (b - zone) * narrow, rest));
            push(&mut strips, strip(low, low + height, zone * narrow, 1.0));
        } else {
            let width = t * cos;
            push(&mut strips, strip(-0.5 * b, -0.5 * zone, width, rest));
            push(&mut strips, strip(-0.5 * zone, 0.5 * zone, width, 1.0));
            push(&mut strips, strip(0.5 * zone, 0.5 * b, width, rest));
        }
    }
    let zone = weld.map_or(0.0, |w| w.in_plates(1.0, depth_mm).1);
    let rest = if zone > 0.0 { -2.0 * zone / (depth_mm - 2.0 * zone) } else { 0.0 };
    let web =
        |from_mm, to_mm, width_mm, locked| PlateLayer { locked, ..PlateLayer::new(from_mm, to_mm, width_mm) };
    let t = plates.web_mm;
    if from.strong() {
        push(&mut strips, web(0.0, zone, t, 1.0));
        push(&mut strips, web(zone, depth_mm - zone, t, rest));
        push(&mut strips, web(depth_mm - zone, depth_mm, t, 1.0));
    } else {
        push(&mut strips, web(-0.5 * t, 0.5 * t, depth_mm - 2.0 * zone, rest));
        push(&mut strips, web(-0.5 * t, 0.5 * t, 2.0 * zone, 1.0));
    }
    if from.sign() < 0.0 {
        for s in &mut strips {
            (s.from_mm, s.to_mm) = (-s.to_mm, -s.from_mm);
        }
    }
    LayeredSection::of(strips, steel.yield_mpa, steel.e_mpa)
}

/// Plastic moment of the section at x for a push from that side, N·mm.
pub fn plastic_n_mm(member: &Member, x_mm: f64, from: PushFrom) -> f64 {
    let depth = &member.depth;
    stack(&member.plates_at(x_mm), depth.depth_mm(x_mm), depth.slope(x_mm), from, &member.steel, None)
        .plastic_n_mm
}

fn push(strips: &mut Vec<PlateLayer>, strip: PlateLayer) {
    if strip.width_mm > 0.0 && strip.to_mm > strip.from_mm {
        strips.push(strip);
    }
}
