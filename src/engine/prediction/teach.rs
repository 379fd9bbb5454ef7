//! What was learned, put into a job: its means, and how unsure what the job adds up to is.

use super::field::multiply;
use super::learned::{Assembly, FACTORS, Learned, UNSURE, at};
use super::{Field, Job, OutOfRange};
use crate::member::Seam;
use crate::welding::HeatSource;

impl Learned {
    /// Puts it into a job that was checked without it.
    ///
    /// # Errors
    /// A factor that the job does not take.
    pub(crate) fn teach(self, job: &mut Job) -> Result<(), OutOfRange> {
        multiply(job, &self.logs())?;
        job.assembly.bow_mm_per_m = [self.mean[FACTORS], self.mean[FACTORS + 1]];
        job.learned = Some(Box::new(self));
        Ok(())
    }

    /// Weights of what moves a force of the job.
    pub fn force(&self, job: &Job) -> [f64; UNSURE] {
        let mut weights = [0.0; UNSURE];
        weights[at::FORCE] = 1.0;
        weights[at::HEAT] = one(job.passes.iter().any(|p| p.heat_source == HeatSource::Leg));
        weights[at::SECOND] = one(Seam::BOTH.into_iter().all(|s| !Field::seam(job, s, true).is_empty()));
        weights
    }

    /// The same of a sideways moment.
    pub fn moment(&self, job: &Job) -> [f64; UNSURE] {
        let mut weights = self.force(job);
        weights[at::ARM] = 1.0;
        weights
    }

    /// Standard deviations of the logs of cup and tilt.
    pub fn flange(&self, job: &Job) -> [f64; 2] {
        let (mut cup, mut tilt) = ([0.0; UNSURE], [0.0; UNSURE]);
        cup[at::HEAT] = self.force(job)[at::HEAT];
        cup[at::FOLD] = 1.0;
        tilt[at::TILT] = 1.0;
        [cup, tilt].map(|weights| self.variance(&weights).sqrt())
    }
}

fn one(is: bool) -> f64 {
    if is { 1.0 } else { 0.0 }
}

impl Job {
    /// The job as computed, without what was learned.
    #[must_use]
    pub fn unlearned(&self) -> Self {
        let mut job = self.clone();
        if let Some(learned) = job.learned.take() {
            job.assembly = Assembly::default();
            // what was multiplied within range divides within range
            let _ = multiply(&mut job, &learned.logs().map(|log| -log));
        }
        job
    }
}
