//! Constants with their sources, and which of them a prediction rests on.

use super::report::Report;
use super::table::Columns;
use crate::cli::lists::distinct;
use crate::member::{Preparation, Seam, Splice};
use crate::prediction::{Job, Prediction, constants as all};
use crate::sources::{Constant, Trust};
use crate::welding::{HeatSource, Side};

/// The constants that this prediction rests on: those of other processes, joints and levels are left out.
pub(crate) fn behind(job: &Job, prediction: &Prediction) -> Vec<&'static Constant> {
    let used = Used::of(job, prediction);
    all().filter(|c| used.has(c.symbol)).collect()
}

/// What of the model a job uses.
struct Used {
    legs_alone: bool,
    preheat: bool,
    second_side: bool,
    further_runs: bool,
    one_side: bool,
    splices: Vec<Preparation>,
    cross: bool,
    tilt: bool,
    strip: bool,
}

impl Used {
    fn of(job: &Job, prediction: &Prediction) -> Self {
        let on = |seam: Seam, side: Side| job.passes.iter().any(|p| p.seam == seam && p.side == side);
        let both = |seam| on(seam, Side::Near) && on(seam, Side::Far);
        let m = &job.member;
        let flanges = Seam::BOTH.into_iter().flat_map(|seam| m.flange(seam)).map(|p| p.splice);
        let splices = m.web.iter().map(|p| p.splice).chain(flanges).flatten();
        Self {
            legs_alone: job.passes.iter().any(|p| p.heat_source == HeatSource::Leg),
            preheat: job.passes.iter().any(|p| p.preheat_k > 0.0),
            second_side: Seam::BOTH.into_iter().any(both),
            further_runs: job.passes.iter().any(|a| {
                job.passes.iter().any(|b| (a.seam, a.side) == (b.seam, b.side) && a.order != b.order)
            }),
            one_side: Seam::BOTH.into_iter().any(|seam| !both(seam)),
            splices: splices.map(|s: Splice| s.preparation).collect(),
            cross: prediction.cross_welds.is_some(),
            tilt: prediction.flanges.iter().any(|f| f.tilt_rad.abs() > 0.0),
            strip: prediction.strip.is_some(),
        }
    }

    fn has(&self, symbol: &str) -> bool {
        let (room, name) = symbol.rsplit_once("::").unwrap_or(("", symbol));
        let square = self.splices.contains(&Preparation::Square);
        match (room, name) {
            (_, "LEG_RULE_J_PER_MM3" | "HEAT_FROM_LEG_BIAS") => self.legs_alone,
            (_, "WARM_LOSS_PER_100_K" | "WARM_LIMIT_K") => self.preheat,
            (_, "SEAM_BIAS_BOTH" | "SEAM_BIAS_TAKEN") | ("shrinkage::second_side", _) => self.second_side,
            (_, "SEAM_BIAS") => self.one_side,
            (_, "STRIP_SEAM_BIAS" | "STRIP_FORCE_BIAS" | "STRIP_ARM_BIAS") => self.strip,
            ("steel::molten", _) => self.strip,
            // of a bead on a bare plate
            ("shrinkage::bead", _) => false,
            ("shrinkage::tendon" | "shrinkage::lateral_arm", _) | (_, "FORCE_BIAS" | "ARM_BIAS") => {
                !self.strip
            }
            (_, "SQUARE_MM2_PER_J_MM" | "SQUARE_HEAT_PER_THICKNESS") => square,
            (_, "GROOVE_AREA_FACTOR" | "GROOVE_GAP_FACTOR" | "ROOT_FACE_MM") => {
                self.splices.iter().any(|p| *p != Preparation::Square)
            }
            ("shrinkage::transverse", "SIGMA") => !self.splices.is_empty() || self.cross,
            ("shrinkage::cross" | "angular::cross", _) => self.cross,
            ("angular::runs", _) => self.further_runs,
            ("angular::tilt" | "angular::hold", _) | (_, "TILT_SCATTER") => self.tilt,
            _ => true,
        }
    }
}

/// Constants with their value, doubt and source, and what the marks mean.
pub(crate) fn constants(found: &[&Constant], out: &mut Report) {
    let remark = "± one standard deviation, relative; moved by: the input of `weldbow scatter --inputs`";
    out.heading("What predictions rest on", remark);
    let mark = |trust: Trust| if trust == Trust::Read { "read" } else { trust.mark() };
    Columns::of(found)
        .left("constant", |c| c.name)
        .right("value", |c| figures(c.value))
        .left("unit", |c| c.unit)
        .right("±", |c| c.spread.map_or(String::new(), |s| format!("{:.0} %", 100.0 * s)))
        .left("moved by", |c| c.input)
        .left("how known", |c| mark(c.trust))
        .left("source", |c| match c.range {
            "" => c.source.to_owned(),
            range => format!("{}; {range}", c.source),
        })
        .put(out);
    out.line("");
    let trusts = distinct(found.iter().map(|c| c.trust));
    trusts.into_iter().for_each(|trust| out.say(format!("{}: {}", mark(trust), trust.words())))
}

/// Four figures, as a table of constants has them.
fn figures(value: f64) -> String {
    let size = value.abs();
    match size {
        s if s >= 1000.0 => format!("{value:.0}"),
        s if s >= 1.0 => format!("{value:.3}").trim_end_matches('0').trim_end_matches('.').to_owned(),
        s if s >= 0.01 => format!("{value:.4}").trim_end_matches('0').to_owned(),
        _ => format!("{value:.2e}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};
    use crate::prediction::predict;

    #[test]
    fn a_prediction_names_what_it_rests_on_and_nothing_else() {
        let symbols = |text: &str| {
            let job = read_text("job.toml", text).unwrap();
            behind(&job, &predict(&job)).iter().map(|c| c.symbol).collect::<Vec<_>>()
        };
        let of = |text: &str, name: &str| symbols(text).iter().any(|symbol| symbol.ends_with(name));
        let legs = STARTER.replace("procedure = \"twin-6\"\n", "");
        let far = format!(
            "{STARTER}\n[[pass]]\nseam = \"outer\"\nside = \"far\"\nprocedure = \"twin-6\"\nstep = 2\n"
        );
        for (name, plain, by_leg, both) in [
            ("THIN_N_PER_J_MM", true, true, true),
            ("LEG_RULE_J_PER_MM3", false, true, false),
            ("second_side::SECOND_SIDE_COLD", false, false, true),
            ("molten::SOLIDUS_C", false, false, false),
        ] {
            assert_eq!([STARTER, &legs, &far].map(|text| of(text, name)), [plain, by_leg, both], "{name}");
        }
    }
}
