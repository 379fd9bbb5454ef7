//! One chain of draws: Hamiltonian Monte Carlo (Duane, Kennedy, Pendleton, Roweth 1987, Physics Letters B 195, 216; Neal 2011,
//! "MCMC using Hamiltonian dynamics"; memory) in the coordinates of `centred`, turned and stretched so that the
//! curvature at the mode is one. The step is found by dual averaging while warming up (Hoffman
//! and Gelman 2014, Journal of Machine Learning Research 15, 1593; memory).

use crate::centred::Centred;
use crate::mode::Mode;
use crate::model::Model;
use crate::prior::{ODD_SHARE, ODD_WIDTH};
use chacha20::ChaCha8Rng;
use chacha20::rand_core::{Rng, SeedableRng};
use weldbow_engine::numerics::{backward, forward};

/// Share of moves that should be taken.
const WANTED: f64 = 0.85;
/// Mean length of a move, radians of a turn of the law at the mode: a quarter turn would do for that law, tails are
/// longer (choice; of π/2 and 0.8 π the longer gave half as many independent draws again for its time).
const TURN: f64 = 0.8 * std::f64::consts::PI;
/// Most steps of a move.
const MOST_STEPS: usize = 60;
/// Loss of energy beyond which a move has failed.
const FAILED: f64 = 1000.0;
/// Dual averaging: its γ, t₀ and κ (Hoffman and Gelman).
const AVERAGING: (f64, f64, f64) = (0.05, 10.0, 0.75);

/// Draws of one chain.
#[derive(Debug, Clone, Default)]
pub(crate) struct Chain {
    /// Draws.
    pub(crate) draws: Vec<Vec<f64>>,
    /// Moves that failed.
    pub(crate) failed: usize,
}

/// Standard normal numbers (Box and Muller 1958).
pub(crate) struct Normals {
    rng: ChaCha8Rng,
    spare: Option<f64>,
}

impl Normals {
    /// Numbers of a stream.
    pub(crate) fn new(seed: u64, stream: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(stream);
        Self { rng, spare: None }
    }

    /// A number between 0 and 1, never either.
    pub(crate) fn uniform(&mut self) -> f64 {
        ((self.rng.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
    }

    /// The next one.
    pub(crate) fn next(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        let (sin, cos) = (std::f64::consts::TAU * self.uniform()).sin_cos();
        self.spare = Some(radius * sin);
        radius * cos
    }

    /// What a reading is off by, ordinary or odd ([`Law`](crate::model::Law)), mm: an odd one is a normal number over the root of the sum of three squares.
    pub(crate) fn residual(&mut self, sd_mm: f64) -> f64 {
        let is_odd = self.uniform() < ODD_SHARE;
        let plain = sd_mm * self.next();
        let mut square = || self.next().powi(2);
        if is_odd { plain * ODD_WIDTH / (square() + square() + square()).sqrt() } else { plain }
    }
}

/// Where a chain is, in its own coordinates y: u = mode + L⁻ᵀ·y.
struct Here<'a> {
    model: Centred<'a>,
    mode: &'a Mode,
    u: Vec<f64>,
    slope_u: Vec<f64>,
}

impl Here<'_> {
    /// The coordinates of the model at y.
    fn place(&mut self, y: &[f64]) {
        self.u.copy_from_slice(y);
        backward(&self.mode.root, &mut self.u);
        self.u.iter_mut().zip(&self.mode.z).for_each(|(u, m)| *u += m);
    }

    fn log_density(&mut self, y: &[f64], slope: &mut [f64]) -> f64 {
        self.place(y);
        let log = self.model.log_density(&self.u, &mut self.slope_u);
        // along y: L⁻¹ of the slope along u
        slope.copy_from_slice(&self.slope_u);
        forward(&self.mode.root, slope);
        log
    }
}

/// The step, while it is being found and after.
struct Step {
    log: f64,
    mean: f64,
    error: f64,
    center: f64,
    count: f64,
}

impl Step {
    fn new(first: f64) -> Self {
        Self { log: first.ln(), mean: first.ln(), error: 0.0, center: (4.0 * first).ln(), count: 0.0 }
    }

    fn learn(&mut self, accepted: f64) {
        let (gamma, t0, kappa) = AVERAGING;
        self.count += 1.0;
        let weight = 1.0 / (self.count + t0);
        self.error += weight * (WANTED - accepted - self.error);
        self.log = (self.center - self.count.sqrt() / gamma * self.error).clamp(-7.0, 0.3);
        let share = self.count.powf(-kappa);
        self.mean += share * (self.log - self.mean);
    }
}

/// Runs a chain.
pub(crate) fn chain(
    model: &Model,
    mode: &Mode,
    seed: u64,
    number: u64,
    warm_up: usize,
    draws: usize,
) -> Chain {
    let n = mode.z.len();
    let mut normals = Normals::new(seed, number + 1);
    let mut here = Here { model: Centred::new(model), mode, u: vec![0.0; n], slope_u: vec![0.0; n] };
    let mut y: Vec<f64> = (0..n).map(|_| normals.next()).collect();
    let mut slope = vec![0.0; n];
    let mut log = here.log_density(&y, &mut slope);
    if !log.is_finite() {
        y.fill(0.0);
        log = here.log_density(&y, &mut slope);
    }
    let mut step = Step::new(0.5 / (n as f64).powf(0.25));
    let mut out = Chain::default();
    for at in 0..warm_up + draws {
        let size = if at < warm_up { step.log } else { step.mean }.exp();
        // by chance, so that no motion closes on itself
        let turn = TURN * (0.5 + normals.uniform());
        let steps = ((turn / size).ceil() as usize).clamp(1, MOST_STEPS);
        let mut p: Vec<f64> = (0..n).map(|_| normals.next()).collect();
        let before = log - 0.5 * p.iter().map(|p| p * p).sum::<f64>();
        let (mut y2, mut slope2, mut log2) = (y.clone(), slope.clone(), log);
        for _ in 0..steps {
            p.iter_mut().zip(&slope2).for_each(|(p, s)| *p += 0.5 * size * s);
            y2.iter_mut().zip(&p).for_each(|(y, p)| *y += size * p);
            log2 = here.log_density(&y2, &mut slope2);
            if !log2.is_finite() {
                break;
            }
            p.iter_mut().zip(&slope2).for_each(|(p, s)| *p += 0.5 * size * s);
        }
        let gain = log2 - 0.5 * p.iter().map(|p| p * p).sum::<f64>() - before;
        let accepted = if gain.is_finite() { gain.min(0.0).exp() } else { 0.0 };
        let failed = gain.is_nan() || gain <= -FAILED;
        if normals.uniform() < accepted {
            (y, slope, log) = (y2, slope2, log2);
        }
        if at < warm_up {
            step.learn(accepted);
        } else {
            out.failed += usize::from(failed);
            here.place(&y);
            out.draws.push(here.model.place(&here.u));
        }
    }
    out
}
