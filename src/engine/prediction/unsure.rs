//! How unsure a level's results are, divided into what all pieces share, what differs from weld to weld and what plates bring.

use super::Job;
use super::divided::{Divided, DividedTurn};
use super::learned::FACTORS;
use super::uncertainty::{Bias, SPAN, Together};
use crate::numerics::parabola;

/// How a level's results are unsure: its biases and how passes hang together.
pub(super) struct Unsure {
    together: Together,
    /// Bias of the force that all passes share.
    pub force: f64,
    /// Bias of the heat that follows from legs; none where a record holds it with the force.
    pub(crate) heat: f64,
    /// Bias of a sideways moment that all passes share.
    moment: f64,
    /// Rise of the bows that plates and assembly add, mm.
    pub rise_mm: [f64; 2],
    /// Length, mm.
    length_mm: f64,
    /// What was learned of both bows: variance of the log of what welds do, its covariance with the rise (mm), the rise's own
    /// variance (mm²).
    known: Option<[[f64; 3]; 2]>,
    /// What plates and assembly differ by: camber and sweep at mid-length, shortening; standard deviations, mm.
    pub(crate) plates_sd_mm: [f64; 3],
    /// Shortening that cutting adds, mm.
    pub cut_mm: f64,
    /// Sweep that this piece's inner flange strip wants more than its outer one, beside what all pieces have, mm/m.
    pub(crate) apart_mm_per_m: f64,
    /// Standard deviation of that from piece to piece, mm/m.
    pub(crate) apart_sd_mm_per_m: f64,
    /// Waves of this piece's web as delivered, in standard deviations.
    pub(crate) waves: f64,
}

/// Biases of the force and of the heat that all passes of a job share.
pub(super) fn shared_biases(job: &Job, level: Bias) -> [f64; 2] {
    let bias = job.bias(level);
    match job.learned.as_deref() {
        // a record holds that of the heat with the force
        Some(learned) => [learned.variance(&learned.force(job)).sqrt(), 0.0],
        None => [bias.force, bias.of_heat(&job.passes)],
    }
}

impl Unsure {
    /// Of a job, with all that plates bring to this piece.
    pub(super) fn of(job: &Job, level: Bias) -> Self {
        let bias = job.bias(level);
        let length_mm = job.member.length_mm;
        let metres = 1e-3 * length_mm;
        let [camber, sweep, length, _, _, apart_sd_mm_per_m, _] = job.plates_sd();
        let brought = job.brought();
        let [force, heat] = shared_biases(job, level);
        let together = |bias| Together::of(&job.passes, bias).of_seconds(job.taken_counts());
        let usual = Self {
            together: together(bias),
            force,
            heat,
            moment: bias.force.hypot(bias.arm),
            rise_mm: brought.bow_mm_per_m.map(|bow| metres * bow),
            length_mm,
            known: None,
            plates_sd_mm: [camber, sweep, length].map(|sd| metres * sd),
            cut_mm: metres * brought.shortening_mm_per_m,
            apart_mm_per_m: brought.apart_mm_per_m,
            apart_sd_mm_per_m,
            waves: brought.waves,
        };
        let Some(learned) = job.learned.as_deref() else { return usual };
        let seam = if learned.seams { [0.0; 2] } else { bias.seam };
        let moment = learned.moment(job);
        let known = [(learned.force(job), 0), (moment, 1)].map(|(weights, bow)| {
            let at = FACTORS + bow;
            let both: f64 = weights.iter().zip(&learned.covariance[at]).map(|(w, c)| w * c).sum();
            let own = learned.covariance[at][at];
            [learned.variance(&weights), metres * both, metres * metres * own]
        });
        Self {
            together: together(Bias { seam, ..bias }).of_known_heat(),
            moment: learned.variance(&moment).sqrt(),
            known: Some(known),
            ..usual
        }
    }

    /// How a bow at x, camber 0 or sweep 1, spreads: what welds do there, and what plates and assembly add.
    pub(crate) fn of_bow(
        &self,
        contributions: impl Iterator<Item = f64> + Clone,
        x_mm: f64,
        bow: usize,
    ) -> Spread {
        let shape = parabola(x_mm / self.length_mm);
        let plates_mm = SPAN * shape * self.plates_sd_mm[bow];
        let Some(known) = &self.known else {
            let common = if bow == 0 { self.force } else { self.moment };
            return self.divided(contributions, common, 0.0, plates_mm);
        };
        let [weld, both, rise] = known[bow];
        let sum = contributions.clone().sum::<f64>();
        let more = sum * sum * weld + 2.0 * sum * shape * both + shape * shape * rise;
        self.divided(contributions, 0.0, more.max(0.0), plates_mm)
    }

    /// How a sum of what the forces of passes do spreads, with what all pieces share beside it (variance) and what
    /// plates add (two standard deviations).
    pub(crate) fn divided(
        &self,
        contributions: impl Iterator<Item = f64> + Clone,
        common: f64,
        more: f64,
        plates_mm: f64,
    ) -> Spread {
        let [shared, welding] = self.together.variances(contributions, common);
        Spread { shared: shared + more, welding, plates_mm, across_mm: [0.0; 2] }
    }

    /// How a turn spreads that forces make by their lateral arms, and strips of flange by themselves: two standard deviations, rad.
    pub(crate) fn of_turn(
        &self,
        contributions: impl Iterator<Item = f64> + Clone,
        plates_rad: f64,
    ) -> DividedTurn {
        let [shared_rad, welding_rad] =
            self.together.variances(contributions, self.moment).map(|variance| SPAN * variance.sqrt());
        DividedTurn { shared_rad, welding_rad, plates_rad: SPAN * plates_rad.abs() }
    }
}

/// How a size spreads.
pub(crate) struct Spread {
    /// Variance of what all pieces share, mm².
    pub(super) shared: f64,
    /// Variance of what differs from weld to weld, mm².
    pub(crate) welding: f64,
    /// Two standard deviations of what plates bring, mm.
    pub(crate) plates_mm: f64,
    /// Two standard deviations of what welds across are unsure by, mm: all alike, and from piece to piece.
    pub(crate) across_mm: [f64; 2],
}

impl Spread {
    /// Two standard deviations, mm.
    pub(crate) fn all_mm(&self) -> f64 {
        let [shared_mm, each_mm] = self.across_mm;
        let beside = self.plates_mm * self.plates_mm + shared_mm * shared_mm + each_mm * each_mm;
        (SPAN * SPAN * (self.shared + self.welding) + beside).sqrt()
    }

    /// The same divided.
    pub(crate) fn divided(&self) -> Divided {
        let [shared_mm, each_mm] = self.across_mm;
        Divided {
            all_mm: self.all_mm(),
            shared_mm: (SPAN * self.shared.sqrt()).hypot(shared_mm),
            welding_mm: (SPAN * self.welding.sqrt()).hypot(each_mm),
            plates_mm: self.plates_mm,
        }
    }
}
