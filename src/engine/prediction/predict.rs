//! Job → prediction.

use super::Job;
use super::alike::SUBSTEPS;
use super::effects::Sums;
use super::lay_formula::{ByFormula, LaidRoom};
use super::plan::WalkPlan;
use super::read::{FORMULA, nothing, read, read_sizes};
use super::result::Prediction;
use super::sizes::{Asked, Laid, Sizes, unsure_waves};
use super::uncertainty::Bias;
use super::verdicts::{self, JudgedShape};
use super::walk::{Keep, Walk, walk, walk_on};
use super::wanted::Wanted;
use crate::tolerance::{Quantities, Verdict};

/// Predicts how the member of a checked job distorts. Never fails and never panics on a job whose values are
/// finite and positive, whose pieces cover the member and whose orders are those its passes name.
pub fn predict(job: &Job) -> Prediction {
    predict_with_substeps(job, SUBSTEPS)
}

/// The same with another number of substeps along the member, to see the error of integration fall.
pub fn predict_with_substeps(job: &Job, substeps: f64) -> Prediction {
    let plan = WalkPlan::of(job);
    let march = walk(job, &plan, substeps, Keep::Passes, &mut ByFormula::new(&mut LaidRoom::default()));
    read(job, &plan, &march, Bias::FORMULA, FORMULA, &Wanted::ALL)
}

/// The same with only what is wanted of it: the rest stays empty. What is there is bit for bit that of [`predict`].
pub fn predict_only(job: &Job, wanted: &Wanted) -> Prediction {
    let plan = WalkPlan::of(job);
    if wanted.is_sizes() {
        let jobs = [job];
        let asked = Asked::of(&jobs, wanted);
        let march = walk_sums(job, &plan, asked.keep());
        let waved = asked.waves.then(|| unsure_waves(&jobs, &plan, &march, Bias::FORMULA));
        let laid = Laid::of(&jobs, &plan, &march, Asked { waves: false, ..asked });
        let mut read = (nothing(job, FORMULA), Default::default());
        read_sizes(job, 0, &laid, waved.as_deref(), wanted, &mut read);
        return read.0;
    }
    let march = walk(job, &plan, SUBSTEPS, wanted.keep(job), &mut ByFormula::new(&mut LaidRoom::default()));
    read(job, &plan, &march, Bias::FORMULA, FORMULA, wanted)
}

fn walk_sums(job: &Job, plan: &WalkPlan, keep: Keep) -> Walk {
    let mut march = Walk::default();
    walk_on::<_, Sums, _>(
        job,
        plan,
        SUBSTEPS,
        keep,
        &mut ByFormula::new(&mut LaidRoom::default()),
        &mut march,
    );
    march
}

/// The verdicts of [`predict`] alone, without their deviations: as drawn pieces are judged, each of which is one size.
pub(crate) fn judged(job: &Job) -> Vec<Verdict> {
    let mut all = Vec::new();
    of_sizes(job, |shape| verdicts::verdicts(job, shape, |_| true, &mut all));
    all
}

/// What the formulas have where each of these verdicts on a job stands, mm, likewise without deviations.
pub(crate) fn sizes_where(job: &Job, verdicts: &[Verdict]) -> Vec<f64> {
    of_sizes(job, |shape| verdicts::sizes_where(job, shape, verdicts))
}

fn of_sizes<T>(job: &Job, read: impl FnOnce(JudgedShape<'_>) -> T) -> T {
    let plan = WalkPlan::of(job);
    let asked = Asked::of(&[job], &Wanted { verdicts: Quantities::ALL, ..Wanted::default() });
    let march = walk_sums(job, &plan, asked.keep());
    let mut sizes = [Sizes::default()];
    Laid::of(&[job], &plan, &march, asked).read(0, &mut sizes);
    read(sizes[0].judged())
}
