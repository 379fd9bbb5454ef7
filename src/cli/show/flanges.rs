//! Cup, tilt and both toes of each flange.

use super::headline::{bare_span, unit};
use super::table::{heading, put, row_table, wrapped};
use crate::prediction::{FlangeShape, Job, Prediction};
use crate::units::{System, show};
use std::io::{Result, Write};

/// One row a stretch of flange.
pub fn flanges(job: &Job, prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    heading("Flanges", "+ toward the web; toes measured from a line square to the web", out)?;
    let right = [4, 5, 6, 7];
    let (near, far) = (format!("near toe, {}", unit(system)), format!("far toe, {}", unit(system)));
    let names = ["flange", "from", "to", "plate", "cup", "tilt", &near, &far];
    let mut table = row_table(&names, &right);
    for f in &prediction.flanges {
        table.add_row(row(f, system));
    }
    put(table, &right, out)?;
    let gap = if job.fit_up_gap_mm > 0.0 && prediction.hold.gap_can_close() {
        format!(" The root gap of {} closes as they turn.", show::offset(job.fit_up_gap_mm, system))
    } else {
        String::new()
    };
    let line = format!(
        "Joint taken as {}: tilts are {:.0} % of what a free joint has by calculation, a judgement.{gap}",
        prediction.hold.words(),
        100.0 * prediction.hold.tilt_part()
    );
    writeln!(out, "{}", wrapped(&line))
}

fn row(f: &FlangeShape, system: System) -> [String; 8] {
    [
        f.flange.name().to_string(),
        show::position(f.from_mm, system),
        show::position(f.to_mm, system),
        format!("{} × {}", show::plate(f.width_mm, system), show::plate(f.thickness_mm, system)),
        angle(f.cup_rad, f.cup_2s_rad, system),
        angle(f.tilt_rad, f.tilt_2s_rad, system),
        bare_span(f.near_toe_mm, f.toe_2s_mm, system),
        bare_span(f.far_toe_mm, f.toe_2s_mm, system),
    ]
}

fn angle(value: f64, span: f64, system: System) -> String {
    format!("{} ± {}", show::angle(value, system), show::angle(span, system))
}
