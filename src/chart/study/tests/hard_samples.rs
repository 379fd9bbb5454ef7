//! Tables that make pictures hard: no rows, one, all alike, all failed, huge, tiny; with names too long.

use super::samples::{Sample, numbers, sample, words};
use weldbow_engine::scatter::{OneAtATime, Share};

/// Rows of x, y and by, drawn as every kind.
pub(super) fn hard() -> Vec<Sample> {
    let long = "Überhöhung nach dem Schweißen der inneren Naht, 上フランジ側 <b>& so on and on\u{202e}\u{7} "
        .repeat(4);
    let cases: [(&'static str, Vec<f64>, Vec<f64>); 8] = [
        ("none", vec![], vec![]),
        ("one", vec![6.0], vec![7.2]),
        ("constant", vec![4.0, 5.0, 6.0], vec![7.2, 7.2, 7.2]),
        ("zero", vec![4.0, 5.0, 6.0], vec![0.0, 0.0, 0.0]),
        ("failed", vec![4.0, 5.0, 6.0], vec![f64::NAN; 3]),
        ("huge", vec![4e7, 5e7, 6e7], vec![-7e99, 3e98, f64::INFINITY]),
        ("tiny", vec![4e-9, 5e-9, 6e-9], vec![1e-90, 3e-91, 1e-310]),
        ("same-x", vec![5.0, 5.0, 5.0], vec![1.0, 2.0, -3.0]),
    ];
    let specs = [
        "kind = 'lines'\nx = 'x'\ny = 'y'\nby = 'by'\nlimit = 'limit'\nband = 'limit'\npanels = 'name'",
        "kind = 'lines'\nx = 'name'\ny = 'y'\nlimit = 'limit'",
        "kind = 'map'\nx = 'x'\nby = 'by'\ny = 'y'\nlimit = 'limit'",
        "kind = 'map'\nx = 'name'\nby = 'x'\ny = 'y'",
        "kind = 'histogram'\nx = 'y'\nlimit = 'limit'",
        "kind = 'scatter'\nx = 'x'\ny = 'y'\nby = 'by'\npanels = 'name'\nlimit = 'limit'",
        "kind = 'tornado'\ny = 'y'",
        "kind = 'shares'\ny = 'y'",
    ];
    let mut samples = Vec::new();
    for (name, x, y) in &cases {
        for spec in specs {
            let names: Vec<&str> =
                (0..x.len()).map(|n| if n == 1 { "plain" } else { long.as_str() }).collect();
            let columns = vec![
                numbers("x", &long, "mm", x.clone()),
                numbers("y", &format!("y, {long}"), "mm", y.clone()),
                numbers("by", "by", "", x.iter().map(|v| v / 3.0).collect()),
                numbers("limit", "limit", "mm", vec![9.0; x.len()]),
                words("name", "name", &names),
            ];
            let mut sample = sample(name, columns, spec);
            let ends = [y.first(), y.last()].map(|v| v.copied().unwrap_or(1.0));
            for input in [long.as_str(), "leg", ""] {
                let ends_named = [long.clone(), "low".to_owned()];
                sample.swings.push(OneAtATime {
                    input: input.to_owned(),
                    ends: ends_named,
                    results: ends,
                    middle: 0.5 * ends[0] + 0.5 * ends[1],
                });
                let share = (ends[0], ends[1].abs());
                sample.shares.push(Share { input: input.to_owned(), alone: share, total: share });
            }
            samples.push(sample);
        }
    }
    samples
}
