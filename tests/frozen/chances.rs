//! Drawn pieces: how a result spreads, and the chance to be out of a limit.

use crate::engine::{on_all_cores, one};
use crate::job::{Beside, some};
use crate::predictions::list;
use crate::table::{Results, Table, compare};

const SEQUENCES: [&str; 6] = [
    "one side",
    "both sides in turn cold",
    "T first cold",
    "one side from leg",
    "both sides at once",
    "stitched",
];

#[test]
fn chances_are_as_kept() {
    let jobs = some(
        8,
        'k',
        12,
        Beside::Constraints,
        &["level", "tapered", "stepped flanges", "us", "light"],
        &SEQUENCES,
    );
    let answers = on_all_cores(&jobs, |job| {
        let arguments = ["scatter", "job.toml", "--draws", "40", "--pieces", "10", "--seed", "2", "--json"];
        one(&arguments, &[("job.toml", &job.text)])
    });
    let mut table = Table::default();
    for (job, answer) in jobs.iter().zip(&answers) {
        let Ok(answer) = answer else {
            let mut r = Results::default();
            r.word("refused", "yes");
            table.push([&job.name, job.shape, job.sequence], r);
            continue;
        };
        for (kind, keys) in [
            ("spreads", &["mean", "sd", "p05", "p50", "p95", "bias_sd", "scatter_sd"][..]),
            ("chances", &["chance", "standard_error", "if_model_right"]),
            ("swings", &["low", "high"]),
        ] {
            for (at, found) in list(answer, &format!("/{kind}")).iter().enumerate() {
                let mut r = Results::default();
                let of = ["result", "limit"].map(|key| found[key].as_str().unwrap_or_default()).concat();
                r.word("of", of);
                r.take("input", found, "/input");
                for key in keys {
                    r.take(key, found, &format!("/{key}"));
                }
                table.push([&format!("{}-{kind}-{at}", job.name), job.shape, job.sequence], r);
            }
        }
    }
    compare("chances", &table);
}
