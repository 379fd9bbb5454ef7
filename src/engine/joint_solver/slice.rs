//! What a slice of the member can be asked, whether it is solved as a solid or as independent fibres.

use super::SectionError;
use super::plasticity::Four;
use super::solve::{SolveError, SolverTime};
use serde::Serialize;

/// Young's modulus of a fillet that is not laid yet or still molten, MPa (a choice: no force, yet not singular).
pub(crate) const QUIET_E_MPA: f64 = 2.0;

/// Temperature of plates and new fillets before anything heats them, and of everything at the end, °C.
pub(crate) const COLD_C: f64 = 20.0;

/// Which way the slice may move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SliceHold {
    /// Strain and curvatures are held.
    pub lengthwise: bool,
    /// Flange edges and web top are held.
    pub in_plane: bool,
}

/// Why a step has no equilibrium, or no temperatures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Failure {
    /// The linear solver refused.
    Linear(SolveError),
    /// Newton's method did not settle; what is unbalanced over element forces, or over the heat held.
    Diverged(f64),
}

impl From<SolveError> for Failure {
    fn from(cause: SolveError) -> Self {
        Self::Linear(cause)
    }
}

impl Failure {
    /// No equilibrium in a pass at a time since its arc came, s, after so many halvings of the step.
    pub(crate) const fn of_forces(self, pass: usize, time_s: f64, cuts: u32) -> SectionError {
        match self {
            Self::Linear(cause) => SectionError::Linear { pass, time_s, cause },
            Self::Diverged(left) => SectionError::NoEquilibrium { pass, time_s, cuts, left },
        }
    }

    /// No temperatures in a pass at a time since its arc came, s, after so many iterations.
    pub(crate) const fn of_heat(self, pass: usize, time_s: f64, iterations: usize) -> SectionError {
        match self {
            Self::Linear(cause) => SectionError::Linear { pass, time_s, cause },
            Self::Diverged(left) => SectionError::HeatDiverged { pass, time_s, iterations, left },
        }
    }
}

/// Advances from one state to another, in halves if need be, halved at most `cuts` times; returns how often a step was halved.
/// `advance` takes the state to reach and how long the step is in lengths of the one before, whose direction it may go on in.
pub(crate) fn halved<T>(
    advance: &mut dyn FnMut(&T, f64) -> Result<(), Failure>,
    amid: fn(&T, &T) -> T,
    (from, to): (&T, &T),
    lead: f64,
    cuts: u32,
) -> Result<usize, Failure> {
    match advance(to, lead) {
        Ok(()) => return Ok(0),
        Err(failure) if cuts == 0 => return Err(failure),
        Err(_) => {}
    }
    let middle = amid(from, to);
    let first = halved(advance, amid, (from, &middle), 0.0, cuts - 1)?;
    Ok(1 + first + halved(advance, amid, (&middle, to), 0.0, cuts - 1)?)
}

/// Values part of the way from some to others.
pub(crate) fn mixed(from: &[f64], to: &[f64], part: f64) -> Vec<f64> {
    from.iter().zip(to).map(|(a, b)| a + part * (b - a)).collect()
}

/// What the mechanics cost.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Tally {
    /// Steps that came to equilibrium.
    pub steps: usize,
    /// Corrections: linear systems solved.
    pub iterations: usize,
    /// Times the tangent was factorised anew.
    pub factorisations: usize,
    /// Times a step was halved.
    pub cuts: usize,
    /// Largest unbalanced force left in a step, over the norm of the element forces.
    pub worst_left: f64,
}

/// A slice of the member that stays plane: strain e₀ + k_a · across + k_u · up.
pub trait Slice {
    /// Comes to equilibrium at these temperatures of its points, °C, and keeps the state. `lead` is the length of this
    /// step over the last one, for a first guess; 0 for none.
    ///
    /// # Errors
    /// [`Failure`]; the state is then that before.
    fn advance(&mut self, t_c: &[f64], lead: f64) -> Result<(), Failure>;

    /// Makes an element solid, free of stress at the present strain and these temperatures of its four points.
    fn bear(&mut self, element: usize, t_c: &[f64]);

    /// Holds the slice where it is, or less of it than before if nothing has been built up.
    fn hold(&mut self, hold: SliceHold);

    /// Lets go of what is held beyond `hold`, taking the reactions off little by little at these temperatures.
    ///
    /// # Errors
    /// [`Failure`].
    fn release(&mut self, hold: SliceHold, t_c: &[f64]) -> Result<(), Failure>;

    /// Strain at the origin and curvatures [across, up], 1 and 1/mm.
    fn plane(&self) -> [f64; 3];

    /// Stress of each point, MPa; zero where nothing is solid.
    fn stress(&self) -> &[Four];

    /// Displacement of each node [across, up], mm; none where the slice has no in-plane problem.
    fn displaced_mm(&self) -> Option<Vec<[f64; 2]>> {
        None
    }

    /// Size of the plastic strain of each point: that of a pulled bar with as much.
    fn plastic(&self) -> Vec<f64>;

    /// What it took so far.
    fn tally(&self) -> Tally;

    /// Time spent in the sparse solver.
    fn solver_time(&self) -> SolverTime {
        SolverTime::default()
    }

    /// Comes to equilibrium once more, so closely that sums over the slice balance to rounding.
    ///
    /// # Errors
    /// [`Failure`].
    fn polish(&mut self) -> Result<(), Failure>;
}

/// Degrees of freedom that are held, two a node: across, up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supports {
    /// Always: three that stop the slice as a rigid body.
    pub always: Vec<usize>,
    /// While hot too.
    pub while_hot: Vec<usize>,
}

/// Parts of the reactions left after each stage of a release.
pub(crate) const RELEASE: [f64; 5] = [0.8, 0.6, 0.4, 0.2, 0.0];

/// The three functions of a plane section at a point.
pub(crate) const fn modes(at_mm: [f64; 2]) -> [f64; 3] {
    [1.0, at_mm[0], at_mm[1]]
}

/// Solves a positive definite 3 × 3 system; `None` if it is not.
pub(crate) fn solve_three(matrix: [[f64; 3]; 3], side: [f64; 3]) -> Option<[f64; 3]> {
    let (mut a, mut x) = (matrix, side);
    for i in 0..3 {
        // Positive definite, so no pivoting.
        if a[i][i].partial_cmp(&0.0) != Some(std::cmp::Ordering::Greater) {
            return None;
        }
        for j in i + 1..3 {
            let (factor, above) = (a[j][i] / a[i][i], a[i]);
            a[j].iter_mut().zip(above).for_each(|(entry, over)| *entry -= factor * over);
            x[j] -= factor * x[i];
        }
    }
    for i in (0..3).rev() {
        for k in i + 1..3 {
            x[i] -= a[i][k] * x[k];
        }
        x[i] /= a[i][i];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_system_is_solved() {
        let matrix = [[4.0, 1.0, 0.0], [1.0, 3.0, 1.0], [0.0, 1.0, 2.0]];
        let x = solve_three(matrix, [6.0, 10.0, 8.0]).unwrap();
        for (i, want) in [1.0, 2.0, 3.0].into_iter().enumerate() {
            assert!((x[i] - want).abs() < 1e-12, "{x:?}");
        }
        assert_eq!(solve_three([[0.0; 3]; 3], [1.0; 3]), None);
    }
}
