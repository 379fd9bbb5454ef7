//! Joints solved from first principles on the coarse mesh, and the formulas for the same joints.

use crate::engine::{on_all_cores, one};
use crate::job::{Beside, some};
use crate::predictions::list;
use crate::table::{Results, Table, compare};

const SEQUENCES: [&str; 5] = [
    "one side",
    "both sides in turn cold",
    "both sides at once",
    "one side by procedure",
    "both sides in turn warm",
];

#[test]
fn sections_are_as_kept() {
    let jobs =
        some(3, 'j', 25, Beside::Constraints, &["level", "tapered", "light", "column", "us"], &SEQUENCES);
    let ways = [("500C", "free"), ("500C", "held"), ("300C", "free"), ("none", "free"), ("700C", "held")];
    let cases: Vec<_> =
        jobs.iter().enumerate().map(|(at, job)| (job, ways[at / 5 % 5], at % 3 == 0)).collect();
    let answers = on_all_cores(&cases, |(job, (hold, lengthwise), slit)| {
        let root = if *slit { "slit" } else { "tied" };
        let seam = if job.name.ends_with(['0', '2', '4', '6', '8']) { "outer" } else { "inner" };
        let arguments =
            ["section", "job.toml", "--mesh", "coarse", "--quick", "--json", "--seam", seam, "--root", root];
        let held = ["--hold", hold, "--lengthwise", lengthwise];
        one(&[&arguments[..], &held].concat(), &[("job.toml", &job.text)])
    });
    let mut table = Table::default();
    for ((job, (hold, lengthwise), _), answer) in cases.iter().zip(&answers) {
        let sequence = format!("{} {hold} {lengthwise}", job.sequence);
        let Ok(answer) = answer else {
            let mut r = Results::default();
            r.word("refused", "yes");
            table.push([&job.name, job.shape, &sequence], r);
            continue;
        };
        for (number, pass) in list(answer, "/cases/0/passes").iter().enumerate() {
            let mut r = Results::default();
            r.word("refused", "");
            for model in ["section", "formula"] {
                for key in ["force_n", "across_mm", "up_mm", "cup_rad", "tilt_rad", "narrowing_mm"] {
                    r.take(&format!("{model}_{key}"), pass, &format!("/{model}/{key}"));
                }
            }
            r.take("melted_flange", pass, "/melted/flange_mm");
            r.take("hottest", pass, "/hottest_c");
            r.take("peak", answer, "/cases/0/residual/peak_mpa");
            r.take("edge", answer, "/cases/0/residual/near_edge_mpa");
            table.push([&format!("{}-{}", job.name, number + 1), job.shape, &sequence], r);
        }
    }
    compare("sections", &table);
}
