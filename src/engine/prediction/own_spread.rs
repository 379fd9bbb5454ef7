//! How unsure the inputs of a job are: as usual, or as its shop says in `[scatter]`.

use super::uncertainty::Bias;
use super::{Deviations, Job};

impl Job {
    /// Relative deviation of an input of that name by the job's own table, if that has it.
    pub(crate) fn own_deviation(&self, input: &str) -> Option<f64> {
        self.own_spread.as_ref()?.get(input).copied()
    }

    /// The same, or the usual one.
    pub(super) fn deviation(&self, input: &str, usual: f64) -> f64 {
        self.own_deviation(input).unwrap_or(usual)
    }

    /// The same job with other deviations.
    #[must_use]
    pub(crate) fn spread_as(&self, own: Deviations) -> Self {
        Self { own_spread: Some(own.into()), ..self.clone() }
    }

    /// The biases of a level with the job's own in place of the usual ones.
    pub(super) fn bias(&self, level: Bias) -> Bias {
        if self.own_spread.is_none() {
            return level;
        }
        let [one_side, both_sides] = level.seam;
        Bias {
            force: self.deviation("force", level.force),
            heat: self.deviation("heat_from_leg", level.heat),
            arm: self.deviation("arm", level.arm),
            seam: [self.deviation("seam_one_side", one_side), self.deviation("seam_both_sides", both_sides)],
            taken: self.deviation("second_side", level.taken),
            each: self.deviation("force_each_pass", level.each),
            leg: self.deviation("leg", level.leg),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::job::{STARTER, read_text};
    use crate::prediction::predict;

    /// Nothing unsure of the welds leaves the plates alone; an arm twice as unsure as another counts twice.
    #[test]
    fn the_span_of_a_job_is_by_the_spreads_that_it_states() {
        let with = |arm: f64| {
            let own = ["force", "heat_from_leg", "seam_one_side", "force_each_pass", "leg"];
            let none: String = own.iter().map(|name| format!("{name} = 0.0\n")).collect();
            let job = read_text("job", &format!("{STARTER}\n[scatter]\narm = {arm}\n{none}")).unwrap();
            predict(&job).sweep.max_2s_of
        };
        let [none, one, two] = [0.0, 0.1, 0.2].map(with);
        println!("shared: {} at 0, {} at 0.1, {} at 0.2 mm", none.shared_mm, one.shared_mm, two.shared_mm);
        assert!(none.shared_mm < 1e-9 && none.welding_mm < 1e-9 && none.plates_mm > 1.0, "{none:?}");
        assert!((two.shared_mm / one.shared_mm / 2.0 - 1.0).abs() < 0.05, "{one:?} and {two:?}");
    }
}
