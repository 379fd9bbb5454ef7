//! The section of a member at one place, as it is welded.

use crate::joint_solver::{SectionError, fillets_fit, positive, within};
use crate::member::{Plates, Seam};
use serde::Serialize;

/// Thinnest plate that is cut into strips, mm: below it a fillet is no fillet any more (choice).
pub(crate) const THINNEST_MM: f64 = 1.0;

/// Plates and fillets at one place. Index 0 is outer or near, 1 inner or far.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StripSection {
    /// Clear web depth d, mm.
    pub depth_mm: f64,
    /// Web thickness, mm.
    pub web_mm: f64,
    /// Width and thickness of outer and inner flange, mm; `None` for no such flange at all.
    pub flanges_mm: [Option<(f64, f64)>; 2],
    /// Legs of the fillets at outer and inner seam, near and far, mm; `None` where there never is one.
    pub legs_mm: [[Option<f64>; 2]; 2],
}

impl StripSection {
    /// The plates of a member, without fillets yet.
    pub const fn of_plates(plates: &Plates, depth_mm: f64) -> Self {
        Self {
            depth_mm,
            web_mm: plates.web_mm,
            flanges_mm: [Some(plates.outer_mm), Some(plates.inner_mm)],
            legs_mm: [[None; 2]; 2],
        }
    }

    /// Width and thickness of that flange, mm.
    pub const fn flange_mm(&self, seam: Seam) -> Option<(f64, f64)> {
        self.flanges_mm[seam as usize]
    }

    /// Legs of near and far fillet at that seam, mm.
    pub(crate) const fn legs_mm(&self, seam: Seam) -> [Option<f64>; 2] {
        self.legs_mm[seam as usize]
    }

    /// Place y, mm, of a point so far up the web from that seam (below the seam, in the flange, negative), and the other way about.
    pub(crate) const fn y_mm(&self, seam: Seam, up_mm: f64) -> f64 {
        match seam {
            Seam::Outer => up_mm,
            Seam::Inner => self.depth_mm - up_mm,
        }
    }

    /// The seam a point of the web belongs to: the nearer one, if both have a flange.
    pub(crate) fn seam_at(&self, y_mm: f64) -> Seam {
        match self.flanges_mm {
            [Some(_), None] => Seam::Outer,
            [None, Some(_)] => Seam::Inner,
            _ if y_mm > self.depth_mm / 2.0 => Seam::Inner,
            _ => Seam::Outer,
        }
    }

    /// # Errors
    /// `NotPositive` or `OutOfRange` for a size, `FilletTooLarge` for a leg that its plates cannot take.
    pub fn check(&self) -> Result<(), SectionError> {
        positive(&[("web depth, mm", self.depth_mm), ("web thickness, mm", self.web_mm)])?;
        within("web thickness, mm", self.web_mm, THINNEST_MM, self.depth_mm)?;
        for seam in Seam::BOTH {
            let Some((width, thickness)) = self.flange_mm(seam) else { continue };
            positive(&[("flange width, mm", width), ("flange thickness, mm", thickness)])?;
            within("flange thickness, mm", thickness, THINNEST_MM, f64::MAX)?;
            let overhang = (width - self.web_mm) / 2.0;
            fillets_fit(self.legs_mm(seam), overhang, ("half the web", self.depth_mm / 2.0))?;
        }
        Ok(())
    }
}
