//! What is asked: length and speed, how web and flange meet, what holds them.

use crate::joint_solver::{SectionError, positive, within};
use crate::welding::Side;
use serde::Serialize;

/// Slices at least and at most: with fewer, nothing is staggered.
const SLICES: [f64; 2] = [3.0, 400.0];
/// Lengths, mm: from the width of a hot zone to what a few minutes solve; above 250 mm angles change by 6 %.
const LENGTHS_MM: [f64; 2] = [60.0, 1500.0];
/// Distances between slices, mm: the widest still see the pool go by.
const SPACINGS_MM: [f64; 2] = [2.0, 40.0];

/// How web and flange meet before they are welded, and where no weld has joined them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Foot {
    /// They are one piece, as in [`Root::Tied`](crate::joint_solver::Root).
    OnePiece,
    /// They touch but may part; the weld joins them at its root.
    Touching,
    /// They meet nowhere, as over a gap; the weld joins them at its root.
    Apart,
}

/// What holds flange and web.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grip {
    /// Nothing but six supports.
    Free,
    /// The far edge of the web is guided over its whole length.
    Guided,
    /// Flange edges and the far edge of the web are held square until all is cold, then let go.
    Square,
    /// Rolls travel with the arc and keep the flange flat, square to the web and pressed onto it over this length before and behind it, mm;
    /// what comes to them askew is closed step by step.
    Rolls(f64),
}

/// A length of joint, and how the arc travels along it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Travel {
    /// Length of joint, mm.
    pub length_mm: f64,
    /// Speed of the arc, mm/s.
    pub speed_mm_s: f64,
    /// How web and flange meet.
    pub foot: Foot,
    /// Stretches that are tacked beforehand, mm from where the arc starts; of no matter where they are one piece.
    pub tacks_mm: Vec<[f64; 2]>,
    /// Sides that the tacks are on.
    pub tack_sides: Vec<Side>,
    /// What holds them.
    pub grip: Grip,
    /// Slices that the length is cut into.
    pub slices: usize,
    /// Way of the arc in a time step, mm.
    pub step_mm: f64,
    /// Ratio of a step to the one before, once the arc has gone.
    pub growth: f64,
    /// Steps from one frame to the next.
    pub frame_steps: usize,
}

impl Travel {
    /// A joint in one piece, free, in slices and steps that change angles by little when halved (see the comparison).
    pub fn of(length_mm: f64, speed_mm_s: f64) -> Self {
        Self {
            length_mm,
            speed_mm_s,
            foot: Foot::OnePiece,
            tacks_mm: Vec::new(),
            tack_sides: vec![Side::Near, Side::Far],
            grip: Grip::Free,
            slices: 20,
            step_mm: 5.0,
            growth: 1.2,
            frame_steps: 2,
        }
    }

    /// Distance between slices, mm.
    pub(crate) fn spacing_mm(&self) -> f64 {
        self.length_mm / self.slices as f64
    }

    /// Place of a slice, mm from where the arc starts.
    pub fn place_mm(&self, slice: usize) -> f64 {
        (slice as f64 + 0.5) * self.spacing_mm()
    }

    /// Whether a slice is tacked.
    pub(super) fn tacked(&self, slice: usize) -> bool {
        let half = self.spacing_mm() / 2.0;
        let x = self.place_mm(slice);
        self.foot != Foot::OnePiece
            && self.tacks_mm.iter().any(|[from, to]| x + half > *from && x - half < *to)
    }

    /// # Errors
    /// `NotPositive` or `OutOfRange` for a number that no joint has.
    pub fn check(&self) -> Result<(), SectionError> {
        positive(&[("travel speed, mm/s", self.speed_mm_s), ("step of the arc, mm", self.step_mm)])?;
        within("length of joint, mm", self.length_mm, LENGTHS_MM[0], LENGTHS_MM[1])?;
        within("travel speed, mm/s", self.speed_mm_s, 1.0, 100.0)?;
        within("slices", self.slices as f64, SLICES[0], SLICES[1])?;
        within("distance between slices, mm", self.spacing_mm(), SPACINGS_MM[0], SPACINGS_MM[1])?;
        within("step of the arc, mm", self.step_mm, 0.2, 50.0)?;
        within("growth of the time step", self.growth, 1.0, 3.0)?;
        for [from, to] in &self.tacks_mm {
            within("start of a tack, mm", *from, 0.0, self.length_mm)?;
            within("end of a tack, mm", *to, *from, self.length_mm)?;
        }
        if let Grip::Rolls(half) = self.grip {
            within("length of rolls before the arc, mm", half, 1.0, self.length_mm)?;
        }
        Ok(())
    }
}
