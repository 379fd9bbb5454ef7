//! What passes do at one point of the walk: each by itself, or all together where nobody asks for more.

use crate::bow::{Plane, Pull};
use crate::numerics::Number;

/// What one pass does at one point.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Effect<N = f64> {
    /// Strain it adds.
    pub real: Plane<N>,
    /// Strain by 1 N, and 1 N·mm sideways, along its seam.
    pub unit: Plane<N>,
    /// Its pull at its own seam.
    pub pull: Pull<N>,
    /// Force of a lone first pass by formula, N.
    pub lone_n: N,
}

/// What is kept of the passes at one point.
pub(crate) trait Effects<N: Number> {
    /// Whether each pass is kept by itself.
    const APART: bool;
    /// Nothing yet, of so many passes.
    fn none(passes: usize) -> Self;
    /// Goes to another point.
    fn clear(&mut self);
    /// Takes down what a pass at a seam does, or a pair of passes together if passes are not kept apart.
    fn put(&mut self, seam: usize, pass: usize, effect: Effect<N>);
    /// Adds to the strain by a pass.
    fn add(&mut self, pass: usize, strain: Plane<N>);
    /// Strain by all of them.
    fn sum(&self) -> Plane<N>;
    /// Changes every strain so far.
    fn change(&mut self, change: impl Fn(&mut Plane<N>));
    /// Each pass, if they are kept apart.
    fn each(&self) -> &[Effect<N>];
    /// Sideways moments at outer and inner seam, N·mm, + near, if passes are not kept apart.
    fn near_n_mm(&self) -> [N; 2];
    /// The same as at another point.
    fn copy(&mut self, other: &Self);
}

impl<N: Number> Effects<N> for Vec<Effect<N>> {
    const APART: bool = true;

    fn none(passes: usize) -> Self {
        vec![Effect::default(); passes]
    }

    #[cfg_attr(wide, inline(always))]
    fn clear(&mut self) {
        self.fill(Effect::default());
    }

    #[cfg_attr(wide, inline(always))]
    fn put(&mut self, _: usize, pass: usize, effect: Effect<N>) {
        // what came of a pass by joining a flange stays
        self[pass] = Effect { real: self[pass].real.plus(effect.real), ..effect };
    }

    #[cfg_attr(wide, inline(always))]
    fn add(&mut self, pass: usize, strain: Plane<N>) {
        self[pass].real = self[pass].real.plus(strain);
    }

    #[cfg_attr(wide, inline(always))]
    fn sum(&self) -> Plane<N> {
        let mut sum = Plane::default();
        for effect in self {
            sum = sum.plus(effect.real);
        }
        sum
    }

    #[cfg_attr(wide, inline(always))]
    fn change(&mut self, change: impl Fn(&mut Plane<N>)) {
        for effect in self {
            change(&mut effect.real);
            change(&mut effect.unit);
        }
    }

    #[cfg_attr(wide, inline(always))]
    fn each(&self) -> &[Effect<N>] {
        self
    }

    #[cfg_attr(wide, inline(always))]
    fn near_n_mm(&self) -> [N; 2] {
        [N::default(); 2]
    }

    #[cfg_attr(wide, inline(always))]
    fn copy(&mut self, other: &Self) {
        self.copy_from_slice(other);
    }
}

/// What all passes do together.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sums<N = f64> {
    strain: Plane<N>,
    near_n_mm: [N; 2],
}

impl<N: Number> Effects<N> for Sums<N> {
    const APART: bool = false;

    #[cfg_attr(wide, inline(always))]
    fn none(_: usize) -> Self {
        Self::default()
    }

    #[cfg_attr(wide, inline(always))]
    fn clear(&mut self) {
        *self = Self::default();
    }

    #[cfg_attr(wide, inline(always))]
    fn put(&mut self, seam: usize, _: usize, effect: Effect<N>) {
        self.strain = self.strain.plus(effect.real);
        // a moment without a force has no arm
        let Pull { force_n, near_n_mm, .. } = effect.pull;
        self.near_n_mm[seam] += force_n.abs().above(N::default(), near_n_mm, N::default());
    }

    #[cfg_attr(wide, inline(always))]
    fn add(&mut self, _: usize, strain: Plane<N>) {
        self.strain = self.strain.plus(strain);
    }

    #[cfg_attr(wide, inline(always))]
    fn sum(&self) -> Plane<N> {
        self.strain
    }

    #[cfg_attr(wide, inline(always))]
    fn change(&mut self, change: impl Fn(&mut Plane<N>)) {
        change(&mut self.strain);
    }

    #[cfg_attr(wide, inline(always))]
    fn each(&self) -> &[Effect<N>] {
        &[]
    }

    #[cfg_attr(wide, inline(always))]
    fn near_n_mm(&self) -> [N; 2] {
        self.near_n_mm
    }

    #[cfg_attr(wide, inline(always))]
    fn copy(&mut self, other: &Self) {
        *self = *other;
    }
}
