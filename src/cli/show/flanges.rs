//! The plates of each flange, and how far what holds them keeps them from tilting.

use super::report::Report;
use super::table::Columns;
use crate::prediction::{FlangeAngles, Job, Prediction};
use crate::units::{System, show};

/// One row a stretch of flange.
pub(super) fn flanges(job: &Job, prediction: &Prediction, system: System, out: &mut Report) {
    out.heading("Flanges", "heat: net, in the joint over the square of the flange's thickness");
    let plate = |f: &&FlangeAngles| {
        format!("{} × {}", show::plate(f.width_mm, system), show::plate(f.thickness_mm, system))
    };
    Columns::of(&prediction.flanges)
        .left("flange", |f| f.flange.name())
        .left("from", |f| show::position(f.from_mm, system))
        .left("to", |f| show::position(f.to_mm, system))
        .right("plate", plate)
        .right("heat", |f| show::heat_density(f.q_j_per_mm3, system))
        .put(out);
    let t = &prediction.twist;
    let angle = |rad| show::turn(rad, system);
    out.say(format!(
        "Twist against the start end: {} ± {} at {}, end to end {} ± {}; the outer flange sweeps {}, the inner {}, each from the line between its \
         ends.",
        angle(t.max_rad),
        angle(t.max_2s_rad),
        show::position(t.at_mm, system),
        angle(t.end_to_end_rad),
        angle(t.end_to_end_2s_rad),
        show::offset(t.flange_sweep_mm[0], system),
        show::offset(t.flange_sweep_mm[1], system)
    ));
    out.say(format!("Twist {}.", t.max_2s_of.sentence().in_units(system)));
    let gap = if job.fit_up_gap_mm > 0.0 && prediction.hold.gap_can_close() {
        format!(" The root gap of {} closes as they turn.", show::offset(job.fit_up_gap_mm, system))
    } else {
        String::new()
    };
    out.say(format!(
        "Joint taken as {}: tilts are {:.0} % of what a free joint has by calculation, a judgement.{gap}",
        prediction.hold.words(),
        100.0 * prediction.hold.tilt_part()
    ))
}
