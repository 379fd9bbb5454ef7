//! One welded joint: flange, web stub and fillets, and its mesh.

use super::SectionError;
use super::error::{fillets_fit, positive, within};
use super::grading::{even, graded, steps};
use super::mesh::{Draft, ElementKind, Mesh, refuse_if_large};
use super::shape::bilinear;
use crate::member::{Plates, Seam};
use crate::welding::Side;
use serde::Serialize;

/// How the web foot meets the flange between the fillets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Root {
    /// Web foot and flange are one.
    Tied,
    /// They touch but may part, except over `ROOT_TIE_MM` at either edge of the web, which the weld melts.
    Slit,
}

/// Width melted together at each edge of a slit root, mm (our choice: a quarter of a 6 mm leg).
pub(crate) const ROOT_TIE_MM: f64 = 1.5;

/// A joint of a flange and the web standing on it. Origin in the middle of the flange's top face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Joint {
    /// Full width of the flange b, mm.
    pub flange_width_mm: f64,
    /// Thickness of the flange t_f, mm.
    pub flange_mm: f64,
    /// Thickness of the web t_w, mm.
    pub web_mm: f64,
    /// Height of web that is modelled, mm.
    pub web_stub_mm: f64,
    /// Leg of the fillet on the near side, mm; `None` for no fillet.
    pub near_leg_mm: Option<f64>,
    /// Leg of the fillet on the far side, mm; `None` for no fillet.
    pub far_leg_mm: Option<f64>,
    /// How the web foot meets the flange.
    pub root: Root,
}

/// How fine a joint is meshed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Fineness {
    /// Elements along a leg; even.
    pub per_leg: usize,
    /// Elements of that size beyond the toe and through the flange before they grow.
    pub even: usize,
    /// Ratio of an element's size to that of its inner neighbour.
    pub growth: f64,
}

impl Fineness {
    /// Four elements a leg: angles within 1–2 % of those of a mesh twice as fine.
    pub const STANDARD: Self = Self { per_leg: 4, even: 8, growth: 1.2 };
    /// Two elements a leg: enough to see what happens.
    pub const COARSE: Self = Self { per_leg: 2, even: 3, growth: 1.4 };
}

/// Height of web that stands for the rest of it, mm (that of the reference problem; a single fillet's tilt grows with
/// it, 13.9/17.8/21.6 mrad for 80/150/300 mm, forces and cup do not).
pub(crate) const WEB_STUB_MM: f64 = 150.0;

impl Joint {
    /// One for examples and checks: fillets of 6 mm on both sides of an 8 mm web on a 200 × 12 flange.
    pub const USUAL: Self = Self {
        flange_width_mm: 200.0,
        flange_mm: 12.0,
        web_mm: 8.0,
        web_stub_mm: 150.0,
        near_leg_mm: Some(6.0),
        far_leg_mm: Some(6.0),
        root: Root::Tied,
    };

    /// The joint of a member's plates at one place: its web to `WEB_STUB_MM` or half its depth, fillets of these legs.
    ///
    /// ```
    /// use weldbow_engine::{member::{Plates, Seam}, joint_solver::Joint};
    /// let plates = Plates { web_mm: 6.0, outer_mm: (180.0, 8.0), inner_mm: (180.0, 12.0) };
    /// let joint = Joint::of_plates(&plates, 240.0, Seam::Inner, [Some(5.0), None]);
    /// assert_eq!((joint.flange_mm, joint.web_stub_mm, joint.near_leg_mm), (12.0, 120.0, Some(5.0)));
    /// ```
    pub fn of_plates(plates: &Plates, depth_mm: f64, seam: Seam, legs_mm: [Option<f64>; 2]) -> Self {
        let (flange_width_mm, flange_mm) = plates.flange_mm(seam);
        Self {
            flange_width_mm,
            flange_mm,
            web_mm: plates.web_mm,
            web_stub_mm: WEB_STUB_MM.min(depth_mm / 2.0),
            near_leg_mm: legs_mm[0],
            far_leg_mm: legs_mm[1],
            root: Root::Tied,
        }
    }

    /// Leg on that side, mm.
    pub const fn leg_mm(&self, side: Side) -> Option<f64> {
        match side {
            Side::Near => self.near_leg_mm,
            Side::Far => self.far_leg_mm,
        }
    }

    /// Area of flange, web stub and the fillets of those sides, mm².
    pub(crate) fn area_mm2(&self, laid: &[Side]) -> f64 {
        let fillet = |side: &Side| self.leg_mm(*side).map_or(0.0, |leg| leg * leg / 2.0);
        self.flange_width_mm * self.flange_mm
            + self.web_mm * self.web_stub_mm
            + laid.iter().map(fillet).sum::<f64>()
    }

    /// # Errors
    /// `NotPositive` for a size, `FilletTooLarge` for a leg that its plates cannot take.
    pub fn check(&self) -> Result<(), SectionError> {
        positive(&[
            ("flange width, mm", self.flange_width_mm),
            ("flange thickness, mm", self.flange_mm),
            ("web thickness, mm", self.web_mm),
            ("web stub, mm", self.web_stub_mm),
        ])?;
        let overhang = (self.flange_width_mm - self.web_mm) / 2.0;
        fillets_fit([self.near_leg_mm, self.far_leg_mm], overhang, ("the web stub", self.web_stub_mm))
    }

    /// Legs to grade by, far then near: a side without fillet takes the other's, a bare joint half the web.
    fn grading_legs(&self) -> [f64; 2] {
        let either = self.near_leg_mm.or(self.far_leg_mm);
        let bare = either.unwrap_or((self.web_mm / 2.0).min(self.web_stub_mm / 2.0));
        let bare = bare.min((self.flange_width_mm - self.web_mm) / 4.0);
        [self.far_leg_mm.unwrap_or(bare), self.near_leg_mm.unwrap_or(bare)]
    }

    /// The mesh of this joint.
    ///
    /// # Errors
    /// Those of [`Joint::check`]; `OutOfRange` for an impossible fineness; `TooLarge` beyond a million unknowns.
    pub fn mesh(&self, fineness: Fineness) -> Result<Mesh, SectionError> {
        self.meshed(fineness, false)
    }

    /// The same with the whole foot of the web parted from the flange: what joins them is up to the solver.
    ///
    /// # Errors
    /// Those of [`Joint::mesh`].
    pub fn mesh_parted(&self, fineness: Fineness) -> Result<Mesh, SectionError> {
        self.meshed(fineness, true)
    }

    fn meshed(&self, fineness: Fineness, parted: bool) -> Result<Mesh, SectionError> {
        self.check()?;
        within("elements along a leg", fineness.per_leg as f64, 2.0, 400.0)?;
        within("growth of elements", fineness.growth, 1.0, 3.0)?;
        within("even elements", fineness.even as f64, 0.0, 10_000.0)?;
        let per_leg = fineness.per_leg.next_multiple_of(2);
        let legs = self.grading_legs();
        let size = legs[0].min(legs[1]) / per_leg as f64;
        let lines = Lines { legs, per_leg, size, fineness };
        lines.refuse_if_large(self)?;
        let mut draft = Draft::default();
        if parted {
            draft.slit(self.web_mm);
        } else if self.root == Root::Slit {
            draft.slit(lines.tied_from(self));
        }
        lines.flange(self, &mut draft);
        lines.web(self, &mut draft);
        for side in [Side::Near, Side::Far] {
            if let Some(leg) = self.leg_mm(side) {
                fillet(&mut draft, side, self.web_mm / 2.0, leg, per_leg);
            }
        }
        Ok(draft.finish())
    }
}

struct Lines {
    legs: [f64; 2],
    per_leg: usize,
    size: f64,
    fineness: Fineness,
}

impl Lines {
    /// A slit root needs columns between its two tied ones.
    fn web_columns(&self, joint: &Joint) -> usize {
        let least = if joint.root == Root::Slit { 4 } else { 2 };
        ((joint.web_mm / self.size).round() as usize).max(least)
    }

    fn outward(&self, length: f64) -> f64 {
        steps(length, self.size, self.fineness.even, self.fineness.growth)
    }

    fn refuse_if_large(&self, joint: &Joint) -> Result<(), SectionError> {
        let web = joint.web_mm / self.size + 2.0;
        let across = web + 2.0 * (self.per_leg as f64 + self.outward(joint.flange_width_mm / 2.0));
        let up = self.per_leg as f64 + self.outward(joint.web_stub_mm);
        refuse_if_large(across * self.outward(joint.flange_mm) + web * up)
    }

    /// Half the width over which a slit root is open: to the line nearest [`ROOT_TIE_MM`] inside the web's edge.
    fn tied_from(&self, joint: &Joint) -> f64 {
        let columns = self.web_columns(joint);
        let step = joint.web_mm / columns as f64;
        let tied = ((ROOT_TIE_MM / step).round() as usize).clamp(1, (columns - 1) / 2);
        joint.web_mm / 2.0 - tied as f64 * step
    }

    fn flange(&self, joint: &Joint, draft: &mut Draft) {
        let (half_web, half_flange) = (joint.web_mm / 2.0, joint.flange_width_mm / 2.0);
        let mut across = even(-half_web, half_web, self.web_columns(joint));
        for (leg, sign) in self.legs.into_iter().zip([-1.0, 1.0]) {
            let step = leg / self.per_leg as f64;
            let toe = half_web + leg;
            let beside = even(half_web, toe, self.per_leg).into_iter().skip(1);
            let beyond = graded(half_flange - toe, step, self.fineness.even, self.fineness.growth);
            across.extend(beside.chain(beyond.into_iter().skip(1).map(|d| toe + d)).map(|d| sign * d));
        }
        across.sort_by(f64::total_cmp);
        let down = graded(joint.flange_mm, self.size, self.fineness.even, self.fineness.growth);
        draft.patch(across.len() - 1, down.len() - 1, ElementKind::Flange, |i, j| [across[i], -down[j]]);
    }

    /// Rows of unequal legs slope; the slope fades out toward the top.
    fn web(&self, joint: &Joint, draft: &mut Draft) {
        let columns = self.web_columns(joint);
        let across = even(-joint.web_mm / 2.0, joint.web_mm / 2.0, columns);
        let high = self.legs[0].max(self.legs[1]);
        let above = graded(joint.web_stub_mm - high, self.size, self.fineness.even, self.fineness.growth);
        let beside = self.per_leg;
        let height = |leg: f64, j: usize| {
            if j <= beside {
                return leg * j as f64 / beside as f64;
            }
            leg + above[j - beside] * (joint.web_stub_mm - leg) / (joint.web_stub_mm - high)
        };
        draft.patch(columns, beside + above.len() - 1, ElementKind::Web, |i, j| {
            let near = i as f64 / columns as f64;
            [across[i], (1.0 - near) * height(self.legs[0], j) + near * height(self.legs[1], j)]
        });
    }
}

/// A right triangle as three blocks that meet in its centroid.
fn fillet(draft: &mut Draft, side: Side, half_web: f64, leg: f64, per_leg: usize) {
    let (half, part) = (per_leg / 2, ElementKind::Fillet(side));
    let at = |across: f64, up: f64| [side.sign() * (half_web + across * leg), up * leg];
    let (centre, on_flange, on_web, on_face) = ((1.0 / 3.0, 1.0 / 3.0), (0.5, 0.0), (0.0, 0.5), (0.5, 0.5));
    let blocks = [
        [(0.0, 0.0), on_flange, centre, on_web],
        [(1.0, 0.0), on_face, centre, on_flange],
        [(0.0, 1.0), on_web, centre, on_face],
    ];
    for block in blocks {
        draft.patch(half, half, part, |i, j| {
            let (u, v) = (i as f64 / half as f64, j as f64 / half as f64);
            let weights = bilinear(u, v);
            let sum = |c: fn(&(f64, f64)) -> f64| block.iter().zip(weights).map(|(p, w)| c(p) * w).sum();
            at(sum(|p| p.0), sum(|p| p.1))
        });
    }
}

#[cfg(test)]
#[path = "joint_tests.rs"]
mod tests;
