//! Drawn pieces of a job: the usual bias and scatter put on the checked job, the same piece as a study draws at the same
//! point.
//!
//! A piece has a draw of the bias, which it shares with every other job drawn with the same seed and count, and a point of
//! the scatter that is its own.

use super::{Class, INPUTS, Points, SamplingFault, SamplingMethod, SamplingPlan, Spread, draws_with};
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

/// The same job where pieces differ by their welds alone, as unsure as usual.
pub fn by_welds_alone(job: &Job) -> Job {
    let of_plates = INPUTS.iter().filter(|input| input.of_plates());
    job.spread_as(of_plates.map(|input| (input.name.to_owned(), 0.0)).collect())
}

/// Pieces that a thread draws before they are looked at (choice: enough to fill the lanes they are walked in many times over).
pub(crate) const PIECES_AT_ONCE: usize = 32;

/// Pieces of a job, each from its number alone.
#[derive(Debug, Clone)]
pub struct Pieces<'a> {
    job: &'a Job,
    inputs: Vec<Drawn>,
    /// Bias and scatter; none of a job in which nothing differs from piece to piece.
    classes: [Option<Coordinates>; 2],
    /// Factors with every bias at its middle.
    middle: Vec<f64>,
    draws: usize,
    each: usize,
}

/// One drawn number and where it goes.
#[derive(Debug, Clone, Copy)]
struct Drawn {
    class: Class,
    /// Coordinate in the plan of its class.
    coordinate: usize,
    field: Field,
}

/// The coordinates of a class: their plan, and how each spreads that is drawn.
#[derive(Debug, Clone)]
struct Coordinates {
    points: Points,
    spreads: Vec<Option<Spread>>,
}

impl Coordinates {
    /// The factors of a case.
    fn put(&self, case: usize, factors: &mut [f64]) {
        self.points.point(case, factors);
        for (factor, spread) in factors.iter_mut().zip(&self.spreads) {
            *factor = spread.map_or(1.0, |spread| spread.quantile(*factor));
        }
    }
}

/// Room to draw in, one a thread: nothing is allocated from piece to piece.
#[derive(Debug, Clone)]
pub struct DrawRoom {
    jobs: Vec<Job>,
    /// Factors of bias and scatter, and of which draw and piece they are.
    factors: [Vec<f64>; 2],
    of: [Option<usize>; 2],
}

impl<'a> Pieces<'a> {
    /// Pieces of a job, as unsure as usual or as its shop says. The same seed and number of draws give
    /// every job the same bias; `own_number` tells the scatter of one job from that of another.
    ///
    /// # Errors
    /// A plan that cannot be drawn.
    pub fn new(job: &'a Job, draws: Draws, own_number: u64) -> Result<Self, SamplingFault> {
        let mut inputs = Vec::new();
        let mut spreads = [Vec::new(), Vec::new()];
        for input in &INPUTS {
            let spread = input.with_deviation(job.own_deviation(input.name));
            let spreads: &mut Vec<Option<Spread>> = &mut spreads[input.class as usize];
            for acts in input.acts {
                let fields = (acts.fields)(job);
                if fields.is_empty() {
                    continue;
                }
                let first = spreads.len();
                // a bias that is left out keeps its coordinate, so that jobs share their draws
                spreads.resize(first + if input.each { fields.len() } else { 1 }, None);
                let Some(spread) = spread else { continue };
                // stretches of one bead and of one rolled plate share their draw
                let draws = if input.each { draws_with(job, &fields) } else { vec![0; fields.len()] };
                for (field, draw) in fields.into_iter().zip(draws) {
                    let coordinate = first + draw;
                    spreads[coordinate] = Some(spread);
                    inputs.push(Drawn { class: input.class, coordinate, field });
                }
            }
        }
        let [biases, scatters] = [0, 1].map(|class: usize| spreads[class].len());
        let bias = SamplingPlan::new(SamplingMethod::Latin, draws.bias, draws.seed, biases)?;
        let of_job = SamplingPlan::new(SamplingMethod::Latin, draws.bias, draws.seed ^ own_number, biases)?;
        let scatter = if scatters > 0 { Some(of_job.beside(draws.count(), scatters)?) } else { None };
        let middle =
            spreads[0].iter().map(|spread| spread.map_or(1.0, |spread| spread.quantile(0.5))).collect();
        let [of_bias, of_scatter] = spreads;
        let coordinates = |plan: SamplingPlan, spreads| Coordinates { points: plan.into(), spreads };
        let classes = [Some(coordinates(bias, of_bias)), scatter.map(|plan| coordinates(plan, of_scatter))];
        Ok(Self { job, inputs, classes, middle, draws: bias.count(), each: draws.pieces.max(1) })
    }

    /// Pieces in all.
    pub const fn count(&self) -> usize {
        self.draws * self.each
    }

    /// Pieces for each draw of the bias.
    pub const fn each(&self) -> usize {
        self.each
    }

    /// Room to draw in.
    pub fn room(&self) -> DrawRoom {
        let room = |class: &Option<Coordinates>| vec![1.0; class.as_ref().map_or(0, |c| c.spreads.len())];
        DrawRoom { jobs: Vec::new(), factors: self.classes.each_ref().map(room), of: [None; 2] }
    }

    /// A piece: number `n` is piece n mod `each` of draw n / `each`.
    ///
    /// # Errors
    /// A drawn number that the job does not take.
    pub fn piece<'r>(&self, n: usize, room: &'r mut DrawRoom) -> Result<&'r Job, OutOfRange> {
        self.draw(n, true, 0, room)?;
        Ok(&room.jobs[0])
    }

    /// The same piece if the model were right: every bias at its middle.
    ///
    /// # Errors
    /// As [`Pieces::piece`].
    pub fn piece_without_bias<'r>(&self, n: usize, room: &'r mut DrawRoom) -> Result<&'r Job, OutOfRange> {
        self.draw(n, false, 0, room)?;
        Ok(&room.jobs[0])
    }

    /// Pieces in a row, with their bias or without, of numbers that the job takes; for each that was asked for whether it is there.
    pub(crate) fn row<'r>(
        &self,
        asked: impl Iterator<Item = (usize, bool)>,
        room: &'r mut DrawRoom,
    ) -> (&'r [Job], Vec<bool>) {
        let mut made = 0;
        let mut draw = |(n, biased)| {
            let is_there = self.draw(n, biased, made, room).is_ok();
            made += usize::from(is_there);
            is_there
        };
        let there = asked.map(&mut draw).collect();
        (&room.jobs[..made], there)
    }

    /// Draws a piece and makes it the one at place `at` of the room.
    fn draw(&self, n: usize, biased: bool, at: usize, room: &mut DrawRoom) -> Result<(), OutOfRange> {
        let DrawRoom { jobs, factors, of } = room;
        let [bias, scatter] = &self.classes;
        for (class, (coordinates, case)) in [(bias, n / self.each), (scatter, n)].into_iter().enumerate() {
            let Some(coordinates) = coordinates.as_ref().filter(|_| class > 0 || biased) else { continue };
            if of[class].replace(case) != Some(case) {
                coordinates.put(case, &mut factors[class]);
            }
        }
        match jobs.get_mut(at) {
            Some(job) => job.clone_from(self.job),
            None => jobs.push(self.job.clone()),
        }
        for Drawn { class, coordinate, field } in &self.inputs {
            let factor = match class {
                Class::Bias if !biased => self.middle[*coordinate],
                class => factors[*class as usize][*coordinate],
            };
            field.times(&mut jobs[at], factor)?;
        }
        Ok(())
    }
}
