//! Constants with their sources, and which of them a prediction rests on.

use super::report::Report;
use super::table::Columns;
use crate::cli::lists::distinct;
use crate::member::{Preparation, Seam, Splice};
use crate::prediction::{Job, Prediction, constants as all};
use crate::sources::{Constant, Trust};
use crate::welding::{HeatSource, Pass, Side};

/// The constants that this prediction rests on: those of other processes, joints and levels are left out.
pub(crate) fn behind(job: &Job, prediction: &Prediction) -> Vec<&'static Constant> {
    let passes = || job.passes.iter();
    let on = |seam: Seam, side: Side| passes().any(|p| p.seam == seam && p.side == side);
    let both = |seam| on(seam, Side::Near) && on(seam, Side::Far);
    let again = |a: &Pass| passes().any(|b| (a.seam, a.side) == (b.seam, b.side) && a.order != b.order);
    let m = &job.member;
    let flanges = Seam::BOTH.into_iter().flat_map(|seam| m.flange(seam)).map(|p| p.splice);
    let splices = m.web.iter().map(|p| p.splice).chain(flanges).flatten();
    let splices: Vec<Preparation> = splices.map(|s: Splice| s.preparation).collect();
    let (cross, strip) = (prediction.cross_welds.is_some(), prediction.strip.is_some());
    let used = |symbol: &str| match symbol.rsplit_once("::").unwrap_or(("", symbol)) {
        (_, "LEG_RULE_J_PER_MM3" | "HEAT_FROM_LEG_BIAS") => {
            passes().any(|p| p.heat_source == HeatSource::Leg)
        }
        (_, "WARM_LOSS_PER_100_K" | "WARM_LIMIT_K") => passes().any(|p| p.preheat_k > 0.0),
        (_, "SEAM_BIAS_BOTH" | "SEAM_BIAS_TAKEN") | ("shrinkage::second_side", _) => {
            Seam::BOTH.into_iter().any(both)
        }
        (_, "SEAM_BIAS") => !Seam::BOTH.into_iter().all(both),
        (_, "STRIP_SEAM_BIAS" | "STRIP_FORCE_BIAS" | "STRIP_ARM_BIAS") | ("steel::molten", _) => strip,
        // of a bead on a bare plate
        ("shrinkage::bead", _) => false,
        ("shrinkage::tendon" | "shrinkage::lateral_arm", _) | (_, "FORCE_BIAS" | "ARM_BIAS") => !strip,
        (_, "SQUARE_MM2_PER_J_MM" | "SQUARE_HEAT_PER_THICKNESS") => splices.contains(&Preparation::Square),
        (_, "GROOVE_AREA_FACTOR" | "GROOVE_GAP_FACTOR" | "ROOT_FACE_MM") => {
            splices.iter().any(|p| *p != Preparation::Square)
        }
        ("shrinkage::transverse", "SIGMA") => !splices.is_empty() || cross,
        ("shrinkage::cross" | "angular::cross", _) => cross,
        ("angular::runs", _) => passes().any(again),
        ("angular::tilt" | "angular::hold", _) | (_, "TILT_SCATTER") => {
            prediction.flanges.iter().any(|f| f.tilt_rad.abs() > 0.0)
        }
        _ => true,
    };
    all().filter(|c| used(c.symbol)).collect()
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
