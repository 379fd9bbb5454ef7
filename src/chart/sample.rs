//! Jobs to draw, and predictions of them with invented bows, which only have the size and the shape that bows usually have. All else is
//! the engine's.

use std::f64::consts::PI;
use weldbow_engine::member::Seam;
use weldbow_engine::prediction::{Bow, Divided, Job, Prediction, WantedCamber, predict};

/// A tapered member with one kink and two inner flange plates, both seams from the near side, one after the other.
const RAFTER: &str = r#"
title = "Rafter R2, riding arena"
units = "si"
tolerances = ["en-1090-2-class-1"]
pass = [
    { seam = "outer", side = "near", leg = "6 mm" },
    { seam = "inner", side = "near", leg = "6 mm", step = 2 },
]
[member]
length = "9 m"
steel = "S355"
depth = [["0 m", "400 mm"], ["6 m", "760 mm"], ["9 m", "760 mm"]]
web = [{ thickness = "5 mm" }]
outer_flange = [{ width = "180 mm", thickness = "8 mm" }]
inner_flange = [{ to = "4.5 m", width = "180 mm", thickness = "10 mm" }, { width = "200 mm", thickness = "14 mm" }]
"#;

/// The same welded on both sides in four steps, with three inner flange plates.
const BUSY: [(&str, &str); 2] = [
    ("inner_flange = [", "inner_flange = [{ to = \"3 m\", width = \"180 mm\", thickness = \"8 mm\" }, "),
    (
        "step = 2 },",
        "step = 2 },\n{ seam = \"outer\", side = \"far\", leg = \"6 mm\", step = 3 },\n{ seam = \"inner\", side = \"far\", \
         leg = \"6 mm\", step = 4 },",
    ),
];

/// A job by its text.
pub(super) fn job_of(text: &str) -> Job {
    weldbow_files::job::read_text("sample.toml", text).unwrap()
}

/// The usual job.
pub(super) fn job() -> Job {
    job_of(RAFTER)
}

/// Four steps, wanted camber, both sides.
pub(super) fn busy_job() -> Job {
    let text = BUSY.iter().fold(RAFTER.to_owned(), |text, (from, to)| text.replace(from, to));
    let wanted_camber = Some(WantedCamber { rise_mm: 6.0, toward: Seam::Outer });
    Job { wanted_camber, ..job_of(&text) }
}

fn bow(length_mm: f64, max_mm: f64, skew: f64, toward: [&'static str; 2]) -> Bow {
    let shape = |s: f64| (PI * s.powf(skew)).sin();
    let two_s_mm = 0.3 * max_mm.abs();
    let along = || (0..=60).map(|i| f64::from(i) / 60.0);
    Bow {
        max_mm,
        at_mm: length_mm * 0.5_f64.powf(1.0 / skew),
        toward: if max_mm == 0.0 { "straight" } else { toward[usize::from(max_mm < 0.0)] },
        max_2s_mm: two_s_mm,
        by_plates_mm: 0.0,
        // parts that add up by their squares
        max_2s_of: Divided {
            all_mm: two_s_mm,
            shared_mm: 0.6 * two_s_mm,
            welding_mm: 0.0,
            plates_mm: 0.8 * two_s_mm,
        },
        profile: along().map(|s| [length_mm * s, max_mm * shape(s)]).collect(),
        profile_2s_mm: along().map(|s| two_s_mm * shape(s)).collect(),
    }
}

/// A prediction of that job with the given largest bows (mm, signed).
pub(super) fn prediction(job: &Job, camber_mm: f64, sweep_mm: f64) -> Prediction {
    let length_mm = job.member.length_mm;
    Prediction {
        camber: bow(length_mm, camber_mm, 1.15, ["inner", "outer"]),
        sweep: bow(length_mm, sweep_mm, 1.0, ["near", "far"]),
        ..predict(job)
    }
}
