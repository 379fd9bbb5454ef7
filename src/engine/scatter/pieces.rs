//! Drawn pieces of a job: the usual bias and scatter put on the checked job, the same piece as a study draws at the same
//! point.
//!
//! A piece has a draw of the bias, which it shares with every other job drawn with the same seed and count, and a point of
//! the scatter that is its own.

use super::{Class, Deviations, INPUTS, SamplingFault, SamplingMethod, SamplingPlan, Spread, draws_with};
use crate::prediction::{Field, Job, OutOfRange};
use serde::Serialize;

/// How pieces are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Draws {
    /// Draws of the model bias, which all pieces share.
    pub bias: usize,
    /// Pieces in each of them.
    pub pieces: usize,
    /// The same seed draws the same pieces.
    pub seed: u64,
}

impl Draws {
    /// Behind every chance that is said without being asked how to draw: 256 draws × 8 pieces, always the same, so that jobs
    /// and options are compared on the same pieces (choice: the standard error of a chance of 5 % is about half a percent).
    pub const USUAL: Self = Self { bias: 256, pieces: 8, seed: 1 };

    /// Pieces in all.
    pub const fn count(&self) -> usize {
        self.bias.saturating_mul(self.pieces)
    }
}

/// Whether pieces of a job are drawn as welding alone makes them differ: it says that plates, cutting and assembly bring nothing.
pub fn welding_alone(job: &Job) -> bool {
    job.plates_come_straight() && job.plates_sd().iter().all(|sd| *sd <= 0.0)
}

/// Deviations under which pieces differ by their welds alone.
pub fn by_welds_alone() -> Deviations {
    INPUTS.iter().filter(|input| input.of_plates()).map(|input| (input.name.to_owned(), 0.0)).collect()
}

/// Pieces of a job, each from its number alone.
#[derive(Debug, Clone)]
pub struct Pieces<'a> {
    job: &'a Job,
    inputs: Vec<Drawn>,
    bias: SamplingPlan,
    scatter: Option<SamplingPlan>,
    each: usize,
}

/// One drawn number and where it goes.
#[derive(Debug, Clone, Copy)]
struct Drawn {
    spread: Spread,
    class: Class,
    /// Coordinate in the plan of its class.
    coordinate: usize,
    field: Field,
}

/// Room to draw in, one a thread: nothing is allocated from piece to piece.
#[derive(Debug, Clone)]
pub struct DrawRoom {
    job: Job,
    bias: Vec<f64>,
    scatter: Vec<f64>,
}

impl<'a> Pieces<'a> {
    /// Pieces of a job with a shop's own deviations in place of the usual ones. The same seed and number of draws give
    /// every job the same bias; `own_number` tells the scatter of one job from that of another.
    ///
    /// # Errors
    /// A plan that cannot be drawn.
    pub fn new(job: &'a Job, own: &Deviations, draws: Draws, own_number: u64) -> Result<Self, SamplingFault> {
        let mut inputs = Vec::new();
        let mut counts = [0, 0];
        for input in &INPUTS {
            let spread = input.with_deviation(own.get(input.name).copied());
            let count = &mut counts[input.class as usize];
            for acts in input.acts {
                let fields = (acts.fields)(job);
                if fields.is_empty() {
                    continue;
                }
                let first = *count;
                // a bias that is left out keeps its coordinate, so that jobs share their draws
                *count += if input.each { fields.len() } else { 1 };
                let Some(spread) = spread else { continue };
                // stretches of one bead and of one rolled plate share their draw
                let draws = if input.each { draws_with(job, &fields) } else { vec![0; fields.len()] };
                inputs.extend(fields.into_iter().zip(draws).map(|(field, draw)| Drawn {
                    spread,
                    class: input.class,
                    coordinate: first + draw,
                    field,
                }));
            }
        }
        let [biases, scatters] = counts;
        let bias = SamplingPlan::new(SamplingMethod::Latin, draws.bias, draws.seed, biases)?;
        let of_job = SamplingPlan::new(SamplingMethod::Latin, draws.bias, draws.seed ^ own_number, biases)?;
        let scatter = if scatters > 0 { Some(of_job.beside(draws.count(), scatters)?) } else { None };
        Ok(Self { job, inputs, bias, scatter, each: draws.pieces.max(1) })
    }

    /// Pieces in all.
    pub const fn count(&self) -> usize {
        self.bias.count() * self.each
    }

    /// Pieces for each draw of the bias.
    pub const fn each(&self) -> usize {
        self.each
    }

    /// Room to draw in.
    pub fn room(&self) -> DrawRoom {
        DrawRoom {
            job: self.job.clone(),
            bias: vec![0.5; self.bias.dimensions()],
            scatter: vec![0.5; self.scatter.map_or(0, |plan| plan.dimensions())],
        }
    }

    /// A piece: number `n` is piece n mod `each` of draw n / `each`.
    ///
    /// # Errors
    /// A drawn number that the job does not take.
    pub fn piece<'r>(&self, n: usize, room: &'r mut DrawRoom) -> Result<&'r Job, OutOfRange> {
        self.bias.point(n / self.each, &mut room.bias);
        self.drawn(n, room)
    }

    /// The same piece if the model were right: every bias at its middle.
    ///
    /// # Errors
    /// As [`Pieces::piece`].
    pub fn piece_without_bias<'r>(&self, n: usize, room: &'r mut DrawRoom) -> Result<&'r Job, OutOfRange> {
        room.bias.fill(0.5);
        self.drawn(n, room)
    }

    fn drawn<'r>(&self, n: usize, room: &'r mut DrawRoom) -> Result<&'r Job, OutOfRange> {
        if let Some(plan) = self.scatter {
            plan.point(n, &mut room.scatter);
        }
        room.job.clone_from(self.job);
        for input in &self.inputs {
            let u = match input.class {
                Class::Bias => room.bias[input.coordinate],
                Class::Scatter => room.scatter[input.coordinate],
            };
            input.field.times(&mut room.job, input.spread.quantile(u))?;
        }
        Ok(&room.job)
    }
}
