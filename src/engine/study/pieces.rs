//! Drawn pieces of one job: the usual bias and scatter put straight into the job's shape, many times faster than
//! through its text, and the same piece as a study would draw at the same point.
//!
//! A piece has a draw of the bias, which it shares with every other job drawn with the same seed and count, and a point of
//! the scatter that is its own.

use super::usual::acts_on;
use crate::input::Problem;
use crate::job::build;
use crate::job::file::JobFile;
use crate::prediction::Job;
use crate::scatter::{Class, INPUTS, Layout, Plan, PlanFault, Spread};
use crate::units::Length;

/// Pieces of a job, each from its number alone.
#[derive(Debug, Clone)]
pub struct Pieces {
    file: JobFile,
    inputs: Vec<Drawn>,
    bias: Plan,
    scatter: Option<Plan>,
    each: usize,
}

/// One drawn number and where it goes.
#[derive(Debug, Clone, Copy)]
struct Drawn {
    spread: Spread,
    class: Class,
    /// Coordinate in the plan of its class.
    coordinate: usize,
    place: Place,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Force,
    HeatFromLeg,
    Arm,
    Cup,
    Tilt,
    ForceOfPass(usize),
    Leg(usize),
    Web(usize),
    Outer(usize),
    Inner(usize),
}

impl Pieces {
    /// `draws` draws of the bias with `each` pieces. The same `seed` and `draws` give every job the same bias; `own` tells
    /// the scatter of one job from that of another.
    ///
    /// # Errors
    /// A plan that cannot be drawn.
    pub fn new(file: &JobFile, draws: usize, each: usize, seed: u64, own: u64) -> Result<Self, PlanFault> {
        let mut inputs = Vec::new();
        let mut counts = [0, 0];
        for input in &INPUTS {
            let (sets, one_by_one) = acts_on(input);
            let spread = input.with_deviation(file.scatter.get(input.name).copied());
            let count = &mut counts[input.class as usize];
            for place in sets.iter().map(|set| places(set, file)) {
                // a bias keeps its coordinate even where it acts on nothing, so that jobs share their draws
                let first = *count;
                *count += if input.class == Class::Bias || !one_by_one { 1 } else { place.len() };
                let Some(spread) = spread else { continue };
                let coordinate = |i: usize| if one_by_one { first + i } else { first };
                inputs.extend(place.into_iter().enumerate().map(|(i, place)| Drawn {
                    spread,
                    class: input.class,
                    coordinate: coordinate(i),
                    place,
                }));
            }
        }
        let [biases, scatters] = counts;
        let bias = Plan::new(Layout::Latin, draws, seed, biases)?;
        let of_job = Plan::new(Layout::Latin, draws, seed ^ own, biases)?;
        let scatter =
            if scatters > 0 { Some(of_job.beside(draws.saturating_mul(each), scatters)?) } else { None };
        Ok(Self { file: file.clone(), inputs, bias, scatter, each: each.max(1) })
    }

    /// Pieces in all.
    pub const fn count(&self) -> usize {
        self.bias.count() * self.each
    }

    /// Pieces for each draw of the bias.
    pub const fn each(&self) -> usize {
        self.each
    }

    /// A piece: number `n` is piece n mod `each` of draw n / `each`.
    ///
    /// # Errors
    /// Why the drawn numbers make no job.
    pub fn piece(&self, n: usize) -> Result<Job, Vec<Problem>> {
        let mut bias = vec![0.5; self.bias.dimensions()];
        self.bias.point(n / self.each, &mut bias);
        self.built(&bias, n)
    }

    /// The same piece if the model were right: every bias at its middle.
    ///
    /// # Errors
    /// As [`Pieces::piece`].
    pub fn piece_without_bias(&self, n: usize) -> Result<Job, Vec<Problem>> {
        self.built(&vec![0.5; self.bias.dimensions()], n)
    }

    fn built(&self, bias: &[f64], n: usize) -> Result<Job, Vec<Problem>> {
        let mut scatter = vec![0.5; self.scatter.map_or(0, |plan| plan.dimensions())];
        if let Some(plan) = self.scatter {
            plan.point(n, &mut scatter);
        }
        self.at(bias, &scatter)
    }

    fn at(&self, bias: &[f64], scatter: &[f64]) -> Result<Job, Vec<Problem>> {
        let mut file = self.file.clone();
        for input in &self.inputs {
            let u = match input.class {
                Class::Bias => bias[input.coordinate],
                Class::Scatter => scatter[input.coordinate],
            };
            multiply(&mut file, input.place, input.spread.quantile(u));
        }
        build(&file)
    }
}

/// Everything in a job that a usual input acts on.
fn places(set: &str, file: &JobFile) -> Vec<Place> {
    let member = &file.member;
    let numbered = |count: usize, place: fn(usize) -> Place| (0..count).map(place).collect();
    match set {
        "factors.force" => vec![Place::Force],
        "factors.heat_from_leg" => vec![Place::HeatFromLeg],
        "factors.arm" => vec![Place::Arm],
        "factors.cup" => vec![Place::Cup],
        "factors.tilt" => vec![Place::Tilt],
        "pass.force_factor" => numbered(file.passes.len(), Place::ForceOfPass),
        // a leg that is left out cannot be multiplied: then none is
        "pass.leg" if file.passes.iter().all(|pass| pass.leg.is_some()) => {
            numbered(file.passes.len(), Place::Leg)
        }
        "web.thickness" => numbered(member.web.len(), Place::Web),
        "outer_flange.thickness" => numbered(member.outer_flange.len(), Place::Outer),
        "inner_flange.thickness" => numbered(member.inner_flange.len(), Place::Inner),
        _ => Vec::new(),
    }
}

fn multiply(file: &mut JobFile, place: Place, by: f64) {
    let factor = |old: &mut Option<f64>| *old = Some(old.unwrap_or(1.0) * by);
    let length = |old: &mut Length| *old = Length::new(old.value() * by);
    let member = &mut file.member;
    match place {
        Place::Force => factor(&mut file.factors.force),
        Place::HeatFromLeg => factor(&mut file.factors.heat_from_leg),
        Place::Arm => factor(&mut file.factors.arm),
        Place::Cup => factor(&mut file.factors.cup),
        Place::Tilt => factor(&mut file.factors.tilt),
        Place::ForceOfPass(i) => factor(&mut file.passes[i].force_factor),
        Place::Leg(i) => file.passes[i].leg.iter_mut().for_each(length),
        Place::Web(i) => length(&mut member.web[i].thickness),
        Place::Outer(i) => length(&mut member.outer_flange[i].thickness),
        Place::Inner(i) => length(&mut member.inner_flange[i].thickness),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, file_of_text};
    use crate::study::Study;
    use crate::study::file::StudyFile;

    const STUDY: &str = "title = \"t\"\njob = \"j\"\ncollect = [\"camber.max_mm\"]\n\
                         sample = { count = 12, pieces = 5, seed = 3, usual = true }\n";

    fn jobs() -> Vec<JobFile> {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../studies/jobs");
        let mut found: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
        found.retain(|path| path.extension().is_some_and(|e| e == "toml"));
        found.sort();
        let text = |path: &std::path::PathBuf| std::fs::read_to_string(path).unwrap();
        let mut jobs: Vec<JobFile> =
            found.iter().map(|path| file_of_text("job.toml", &text(path)).unwrap()).collect();
        let own = "[scatter]\nforce = 0.0\nleg = 0.0\nplate = 0.02\n";
        jobs.push(file_of_text("own.toml", &format!("{STARTER}\n{own}")).unwrap());
        jobs
    }

    /// The whole point of the shape: it must not drift from what a study does.
    #[test]
    fn a_piece_is_the_one_a_study_draws_at_the_same_point() {
        let shape = toml::from_str::<StudyFile>(STUDY).unwrap();
        for file in jobs() {
            let study = Study::new(&shape, |_| Ok(file.clone())).unwrap();
            let pieces = Pieces::new(&file, 12, 5, 3, 0).unwrap();
            assert_eq!(study.count() as usize, pieces.count());
            // a left-out bias shifts the study's coordinates, not those of the pieces
            if file.scatter.contains_key("force") {
                continue;
            }
            for n in [0, 7, 33, 59] {
                let u = study.draws.as_ref().unwrap().point(n as u64);
                let theirs = study.job_at(&study.grid.at(0), &u).unwrap();
                let ours = pieces.piece(n).unwrap();
                let gap = |a: f64, b: f64| (a - b).abs() < 1e-9 * a.abs().max(1.0);
                assert!(
                    gap(theirs.factors.force, ours.factors.force),
                    "{:?} {:?}",
                    theirs.factors,
                    ours.factors
                );
                assert!(
                    gap(theirs.factors.cup, ours.factors.cup) && gap(theirs.factors.tilt, ours.factors.tilt)
                );
                for (a, b) in theirs.passes.iter().zip(&ours.passes) {
                    assert!(gap(a.leg_mm, b.leg_mm) && gap(a.force_factor, b.force_factor), "{a:?} {b:?}");
                    assert!(gap(a.heat_j_per_mm, b.heat_j_per_mm), "{a:?} {b:?}");
                }
                for (a, b) in theirs.member.web.iter().zip(&ours.member.web) {
                    assert!(gap(a.thickness_mm, b.thickness_mm));
                }
                for (a, b) in theirs.member.inner_flange.iter().zip(&ours.member.inner_flange) {
                    assert!(gap(a.thickness_mm, b.thickness_mm));
                }
            }
        }
    }

    #[test]
    fn jobs_share_their_bias_and_not_their_scatter() {
        let all = jobs();
        let of = |file: &JobFile, own| Pieces::new(file, 12, 5, 3, own).unwrap();
        let (a, b) = (of(&all[0], 1), of(&all[4], 2));
        for n in [0, 17, 42] {
            let (one, other) = (a.piece(n).unwrap(), b.piece(n).unwrap());
            assert!((one.factors.force - other.factors.force).abs() < 1e-12, "piece {n}");
            assert!((one.passes[0].force_factor - other.passes[0].force_factor).abs() > 1e-6, "piece {n}");
            let right = a.piece_without_bias(n).unwrap();
            assert!((right.factors.force - 1.0).abs() < 1e-12);
            assert!((right.passes[0].force_factor - one.passes[0].force_factor).abs() < 1e-12);
        }
        let own = of(all.last().unwrap(), 0).piece(3).unwrap();
        assert!((own.factors.force - 1.0).abs() < 1e-12, "left out by the job's own table");
    }
}
